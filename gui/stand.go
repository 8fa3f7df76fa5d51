package gui

import (
	"stillair/gui/charttable"
	"stillair/gui/editor"
	"stillair/gui/flights"
	"stillair/gui/kit"
)

// stand says what stands over the time strip.
type stand uint8

// The stands.
const (
	tableStand stand = iota
	linkageStand
	besideStand    // the chart, and the mechanism beside it
	navigatorStand // the chart, and the navigator's aids and plot beside it
	calculatorStand
	logStand
	editorStand  // the chart, and the panel of the editor beside it
	trainerStand // of an exercise that a trainer sets
	debriefStand
	spreadStand
)

// standings are those of the table in each stand.
var standings = [...]charttable.Standing{
	tableStand: charttable.TableAlone, linkageStand: charttable.StageAlone,
	besideStand: charttable.ChartAndStage, debriefStand: charttable.StageAlone,
	spreadStand: charttable.StageAlone, navigatorStand: charttable.ChartAndStage, calculatorStand: charttable.StageAlone,
	logStand:     charttable.StageAlone,
	editorStand:  charttable.ChartAndStage,
	trainerStand: charttable.StageAlone,
}

// stand changes what stands over the time strip, and brings it to the front.
func (w *Window) stand(s stand) {
	w.place(s)
	w.root.Refresh() // the bar has other keys
	if w.front != tableFront {
		w.bring(tableFront)
	}
	w.bar.recolour()
}

// place has the table show what stands over the strip.
func (w *Window) place(s stand) {
	w.stands = s
	w.linkage.Beside(s == besideStand)
	w.table.Stand(charttable.TableAlone) // the stage that stood there goes
	kit.Show(false, w.linkage.Content(), w.navigator.Content(), w.debrief.Content(), w.spread.Content(), w.calculator.Content(),
		w.navlog.Content(), w.editor.Content())
	if w.trainer != nil {
		kit.Show(false, w.trainer.Content())
	}
	w.navigator.Bring(s == navigatorStand)
	w.editor.Bring(s == editorStand)
	var stage charttable.Stage = w.linkage
	switch s {
	case navigatorStand:
		stage = w.navigator
	case logStand:
		stage = w.navlog
	case debriefStand:
		stage = w.debrief
	case spreadStand:
		stage = w.spread
	case calculatorStand:
		stage = w.calculator
	case editorStand:
		stage = w.editor
	case trainerStand:
		stage = w.trainer
	}
	w.table.SetStage(stage)
	w.table.Stand(standings[s])
	w.showLesson()
}

// toggleSpread goes to the spread, or from it to the debrief.
func (w *Window) toggleSpread() {
	if w.stands == spreadStand {
		w.stand(debriefStand)
		return
	}
	w.toSpread()
}

// toSpread goes to the spread, which begins to fly.
func (w *Window) toSpread() {
	w.stand(spreadStand)
	w.spread.Begin()
}

// toggleTrainer goes to the trainer's view where there is a trainer, and from it to the
// trainee.
func (w *Window) toggleTrainer() {
	switch {
	case w.trainer == nil:
	case w.stands == trainerStand && w.front == tableFront:
		w.school.toTrainee()
	default:
		w.stand(trainerStand)
	}
}

// toggleStand goes to a stand, or from it to the Chart table.
func (w *Window) toggleStand(s stand) {
	if w.stands == s {
		s = tableStand
	}
	w.stand(s)
}

// write opens the editor; the clock of the flight in hand stops.
func (w *Window) write() {
	w.helm.Pause()
	w.resume = false
	w.stand(editorStand)
}

// toggleEditor opens the editor, or goes from it to the Chart table.
func (w *Window) toggleEditor() {
	if w.stands == editorStand {
		w.stand(tableStand)
		return
	}
	if f := w.flight; f.Path != "" && f.Record == nil && w.editor.Free(f.Path) {
		if err := w.editor.Open(f.Path); err != nil {
			w.say(err.Error())
		}
	}
	w.write()
}

// newEditor is the editor of the window, and what it does to the rest of it.
func (w *Window) newEditor() *editor.View {
	e := editor.New(&w.screen, w.window.Canvas)
	e.Chart = func(d *charttable.Drafted, fitted bool) error { return w.table.Draft(d, fitted) }
	e.Fly = func(f *flights.Flight) {
		w.fly(f)
		if w.flight == f {
			w.stand(tableStand)
		}
	}
	e.Kept = func(path string) { w.chooser.Keep(path) }
	w.chooser.Begin = func() {
		e.Begin()
		w.write()
	}
	w.chooser.Edit = func(path string) error {
		if err := e.Open(path); err != nil {
			return err
		}
		w.write()
		return nil
	}
	w.chooser.Copy = func(name string, text []byte) error {
		if err := e.Copy(name, text); err != nil {
			return err
		}
		w.write()
		return nil
	}
	return e
}
