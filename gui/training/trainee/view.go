// Package trainee is the window of one who navigates a flight on which something may be
// wrong: dials, chart, the navigator's aids and plot, a log, and what is suspected.
//
// Nothing of the truth is in it. It is built from aboard.View and from values that are
// handed in (Brief), sends actions and reports back through single functions (Deeds), and
// imports neither the engine nor the flights. A test of the shell walks through all that
// a window of it holds and finds no way to an engine, a snapshot or a revealed truth. After
// landing the marks are handed in as words.
package trainee

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/navigator"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/training/score"
	"stillair/integrator/units"
)

// Brief is what the trainee is told before the flight.
type Brief struct {
	Title, Task string
	Start       time.Time
	Waters      picture.Waters
	Required    []picture.Waypoint
	Chain       score.Chain
	LogEvery    time.Duration
	// Alone: no trainer is at the clock, so the trainee has it.
	Alone bool
}

// Deeds are what the trainee can have done.
type Deeds struct {
	navigator.Crew
	Play, Pause func()
	Rate        func(by int)
	// Leave is asked for after landing, to go on to the rest of the program; nil: there is
	// no way (the window is one of its own).
	Leave func()
	// Trainer is asked for where a trainer sits at the same screen by turns, twice; nil:
	// there is none.
	Trainer func()
	// SavePage and SaveTable write the sheet after landing.
	SavePage, SaveTable func()
}

// Seen is what the trainee sees of a moment.
type Seen struct {
	navigator.Seen
	Playing bool
}

// View is the window of one flight.
type View struct {
	brief  Brief
	deeds  Deeds
	book   *score.Book
	screen *kit.Screen
	canvas func() fyne.Canvas
	now    *Seen
	landed *score.Told // nil: not yet

	content   *fyne.Container
	bar       *bar
	chart     *chart
	navigator *navigator.View
	log       *logPane
	dials     []*dial
	settings  [4]*kit.Key
	under     *pane // the paper under them
	report    *reportCard
	hand      *handCard
	sheet     *sheetCard
	task      *taskCard
}

// New builds the window. The book is written in; who else reads it is not its business.
func New(brief Brief, deeds Deeds, book *score.Book, now *Seen, screen *kit.Screen, canvas func() fyne.Canvas) *View {
	v := &View{brief: brief, deeds: deeds, book: book, screen: screen, canvas: canvas, now: now}
	v.bar = newBar(v)
	v.chart = newChart(v)
	v.navigator = navigator.NewFor(deeds.Crew, &now.Seen, brief.Title, screen, canvas)
	v.navigator.PlotOn = v.chart.plot
	v.log = newLogPane(v)
	v.dials = newDials(v)
	v.settings = newSettings(v)
	v.under = newPane(v.screen, func(d *paint.Raster, w, h float64, z look.Size) { kit.Paper(d, w, h, z, v.screen.Palette) })
	v.report, v.hand, v.sheet, v.task = newReportCard(v), newHandCard(v), newSheetCard(v), newTaskCard(v)
	v.content = container.New(v, v.objects()...)
	v.navigator.Bring(true)
	v.task.open(brief.Task != "")
	v.See(now)
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.bar.pane}
	for _, k := range v.bar.keys() {
		all = append(all, k)
	}
	all = append(all, v.bar.clock, v.chart, v.log, v.navigator.Content())
	for _, d := range v.dials {
		all = append(all, d)
	}
	all = append(all, v.under)
	for _, k := range v.settings {
		all = append(all, k)
	}
	for _, c := range [][]fyne.CanvasObject{v.report.objects(), v.hand.objects(), v.task.objects(), v.sheet.objects()} {
		all = append(all, c...)
	}
	return all
}

// See brings everything up to a moment.
func (v *View) See(now *Seen) {
	v.now = now
	v.bar.apply()
	v.navigator.See(&now.Seen)
	v.chart.apply()
	v.log.apply()
	for _, d := range v.dials {
		d.apply()
	}
	v.hand.apply()
	for _, k := range v.settings {
		v.forbidOver(k)
	}
}

// forbidOver keeps a key from being pressed after landing.
func (v *View) forbidOver(k *kit.Key) {
	reason := ""
	if v.now.Over {
		reason = look.Text(look.FlightEnded)
	}
	k.Forbid(reason)
}

// Landed shows the marks. Until then nothing of them is here.
func (v *View) Landed(t *score.Told) {
	v.landed = t
	v.shut()
	v.sheet.open(true)
	v.See(v.now)
}

// Aloft takes the marks away: the flight goes on, or is flown again from before its end.
func (v *View) Aloft() {
	if v.landed != nil {
		v.landed = nil
		v.sheet.open(false)
		v.See(v.now)
	}
}

// Armed says that the trainer's seat has been asked for once.
func (v *View) Armed(on bool) {
	word := look.SeatTrainer
	if on {
		word = look.SeatPressAgain
	}
	v.bar.trainer.Set(look.Text(word), kit.NoSign, on)
}

// Shut closes what is open, and says whether anything was.
func (v *View) Shut() bool {
	was := v.report.on || v.hand.on || v.task.on || v.sheet.on
	v.shut()
	v.bar.apply()
	return v.navigator.Shut() || was
}

func (v *View) shut() {
	v.report.open(false)
	v.hand.open(false)
	v.task.open(false)
	v.sheet.open(false)
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.navigator.Repaint()
	for _, o := range v.objects() {
		o.Refresh()
	}
	v.content.Refresh()
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1024, 680) }

// Layout is part of the toolkit's contract: bar; chart over log; aids and plot; dials over
// the keys that set things.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if size.Width != v.screen.W || size.Height != v.screen.H {
		v.screen.W, v.screen.H = size.Width, size.Height
	}
	f := min(size.Width/1920, size.Height/1080)
	edge, gap := max(12, look.Edge*f), max(8, look.GapColumn*f)
	top := v.bar.lay(size, f, edge) + gap
	foot := size.Height - edge/2
	column, aids := max(360, look.Column*f*0.94), max(428, 500*f)
	x := size.Width - edge - column
	v.layDials(kit.Box{X: x, Y: top, W: column, H: foot - top}, max(6, look.GapCard*f))
	x -= gap + aids
	middle := kit.Box{X: x, Y: top, W: aids, H: foot - top}
	middle.Put(v.navigator.Content())
	left := kit.Box{X: edge, Y: top, W: x - gap - edge, H: foot - top}
	tall := v.log.height(left.H)
	kit.Box{X: left.X, Y: left.Y, W: left.W, H: left.H - tall - gap}.Put(v.chart)
	kit.Box{X: left.X, Y: foot - tall, W: left.W, H: tall}.Put(v.log)
	v.report.lay(middle)
	v.hand.lay(middle)
	v.task.lay(kit.Box{X: left.X + 0.06*left.W, Y: left.Y + 0.08*left.H, W: 0.88 * left.W, H: min(0.55*left.H, 330)})
	v.sheet.lay(left)
}

// clockText is a time of the flight as the clock has it.
func (v *View) clockText(at time.Duration) string { return units.TimeText(v.brief.Start.Add(at)) }

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := v.navigator.Named()
	for name, o := range map[string]fyne.CanvasObject{
		"report": v.bar.report, "by-hand": v.bar.hand, "write-log": v.bar.write, "task": v.bar.task, "trainee-play": v.bar.play,
		"trainee-slower": v.bar.slower, "trainee-faster": v.bar.faster, "trainee-trainer": v.bar.trainer, "trainee-chart": v.chart, "log": v.log, "sure": v.report.sure, "unsure": v.report.not,
		"link-only": v.report.alone, "hand-plot": v.hand.plot, "hand-done": v.hand.done, "task-close": v.task.shut, "leave": v.sheet.leave,
		"save-page": v.sheet.savePage, "save-table": v.sheet.saveTable, "report-next": v.report.more,
	} {
		all[name] = o
	}
	for i, k := range v.report.links {
		all["suspect-"+v.brief.Chain[i].Name] = k
	}
	for i, k := range v.report.kinds {
		if id := v.report.kindAt(i); id != "" {
			all["suspect-"+id] = k
		}
	}
	return all
}
