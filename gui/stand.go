package gui

import (
	"stillair/gui/charttable"
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
	trainerStand // of an exercise that a trainer sets
	debriefStand
	spreadStand
)

// standings are those of the table in each stand.
var standings = [...]charttable.Standing{
	tableStand: charttable.TableAlone, linkageStand: charttable.StageAlone,
	besideStand: charttable.ChartAndStage, debriefStand: charttable.StageAlone,
	spreadStand: charttable.StageAlone, navigatorStand: charttable.ChartAndStage, calculatorStand: charttable.StageAlone,
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
	kit.Show(false, w.linkage.Content(), w.navigator.Content(), w.debrief.Content(), w.spread.Content(), w.calculator.Content())
	if w.trainer != nil {
		kit.Show(false, w.trainer.Content())
	}
	w.navigator.Bring(s == navigatorStand)
	var stage charttable.Stage = w.linkage
	switch s {
	case navigatorStand:
		stage = w.navigator
	case debriefStand:
		stage = w.debrief
	case spreadStand:
		stage = w.spread
	case calculatorStand:
		stage = w.calculator
	case trainerStand:
		stage = w.trainer
	}
	w.table.SetStage(stage)
	w.table.Stand(standings[s])
}

// toggleSpread goes to the spread, or from it to the debrief.
func (w *Window) toggleSpread() {
	if w.stands == spreadStand {
		w.stand(debriefStand)
		return
	}
	w.stand(spreadStand)
}

// toggleTrainer goes to the trainer's view where there is a trainer.
func (w *Window) toggleTrainer() {
	if w.trainer != nil {
		w.toggleStand(trainerStand)
	}
}

// toggleStand goes to a stand, or from it to the Chart table.
func (w *Window) toggleStand(s stand) {
	if w.stands == s {
		s = tableStand
	}
	w.stand(s)
}
