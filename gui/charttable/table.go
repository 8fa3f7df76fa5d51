// Package charttable is the view with the chart and the instruments: widgets
// round the pictures. It shows a helm.Moment and hands orders to the helm.
package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/atlas"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// Table is the view of one flight.
type Table struct {
	helm   *helm.Helm
	plan   *sim.Plan
	survey helm.Survey
	tracks [][]units.Position // how air position and ground position will run
	screen *kit.Screen
	canvas func() fyne.Canvas
	moment *helm.Moment

	content   *fyne.Container
	chart     *chart
	chartKeys []*kit.Key
	position  *dial
	airLog    *dial
	heading   *dial
	speed     *dial
	wind      *windSetter
	variation *variationSetter
	small     [4]*dial
	strip     *strip
	air       *airDrums
	counters  *counterPanel
	ring      focusRing
	pins      *pins
	broken    *breakage
	twin      *twinning
	curves    *curves
	tools     *tools
	tray      *tray
	stage     Stage // nil until one is given
	standing  Standing
	plotted   Plotted
	drew      func() // after a change of what is drawn by hand; nil: nothing

	aside      fyne.CanvasObject // nil until one is given
	asideWidth func(w, h float32) float32

	away func(work func()) // does what is slow out of the way of the window
}

// New builds the view; canvas gives the canvas it stands on once it does.
func New(h *helm.Helm, plan *sim.Plan, survey helm.Survey, screen *kit.Screen, canvas func() fyne.Canvas) (*Table, error) {
	t := &Table{helm: h, plan: plan, survey: survey, tracks: survey.Tracks(), screen: screen, canvas: canvas, moment: h.Moment()}
	t.away = func(work func()) { go work() }
	waters, err := atlas.Of(plan, t.tracks...)
	if err != nil {
		return nil, err
	}
	plot := picture.PlotOf(&t.moment.View)
	plot.Required = atlas.Required(plan)
	waters.Key = plot.Rows()
	t.chart = newChart(t, waters, plot.Required)
	t.chartKeys = []*kit.Key{
		kit.NewSignKey(screen, kit.MinusSign, look.ZoomOut, func() { t.chart.zoom(1 / zoomStep) }),
		kit.NewSignKey(screen, kit.PlusSign, look.ZoomIn, func() { t.chart.zoom(zoomStep) }),
		kit.NewSignKey(screen, kit.FitSign, look.Fit, t.chart.fit),
		kit.NewSignKey(screen, kit.FollowSign, look.Follow, t.chart.toggleFollow),
	}
	t.instruments()
	t.strip = newStrip(t)
	t.counters = newCounterPanel(t)
	t.pins, t.broken = newPins(t), newBreakage(t)
	t.twin = newTwinning(t)
	t.curves, t.tools = newCurves(t), newTools(t)
	t.tray = newTray(t)
	t.content = container.New(t, t.objects()...)
	t.Apply(t.moment)
	return t, nil
}

// Content is the view for the window.
func (t *Table) Content() fyne.CanvasObject { return t.content }

// ChartKeys are zoom out, zoom in, fit and follow, for the bar of the window.
func (t *Table) ChartKeys() []*kit.Key { return t.chartKeys }

func (t *Table) objects() []fyne.CanvasObject {
	all := append([]fyne.CanvasObject{t.chart}, t.tools.objects()...)
	all = append(all, t.column()...)
	if t.stage != nil {
		all = append(all, t.stage.Content())
	}
	all = append(all, t.wind.keys[0], t.wind.keys[1])
	all = append(append(all, t.strip), t.strip.keys()...)
	all = append(append(all, t.counters.objects()...), t.ring.Rectangle)
	all = append(append(all, t.pins.card.objects()...), t.broken.objects()...)
	all = append(append(all, t.twin.objects()...), t.curves.card.objects()...)
	all = append(all, t.tray.objects()...)
	if t.aside != nil {
		all = append(all, t.aside)
	}
	return all
}

// Apply brings everything up to a moment; what has not changed by half a pixel
// is not painted again.
func (t *Table) Apply(m *helm.Moment) {
	t.moment = m
	t.applyInstruments(m)
	if t.standing != StageAlone {
		t.chart.apply(m)
	}
	if t.standing != TableAlone {
		t.stage.Apply(m)
	}
	t.strip.apply(m)
	t.pins.apply(m)
	t.broken.apply(m)
	t.twin.apply(m)
	t.curves.apply(m)
	t.tray.apply()
	t.chartKeys[3].Set("", kit.FollowSign, t.chart.following)
}

// Recolour paints everything anew in the colours of the screen.
func (t *Table) Recolour() {
	t.chart.recolour()
	t.Apply(t.moment)
	t.Repaint()
}

// Repaint paints everything anew, in the size of the screen.
func (t *Table) Repaint() {
	for _, o := range t.objects() {
		o.Refresh()
	}
}

func (t *Table) playOrPause() {
	if t.moment.Playing {
		t.helm.Pause()
	} else {
		t.helm.Play()
	}
}

// Named are the parts a probe may want to find in the window.
func (t *Table) Named() map[string]fyne.CanvasObject {
	return map[string]fyne.CanvasObject{
		"chart": t.chart, "position": t.position, "air-log": t.airLog, "wind": t.wind, "variation": t.variation,
		"play": t.strip.play, "step": t.strip.step, "back": t.strip.back, "restart": t.strip.again,
		"slower": t.strip.slower, "faster": t.strip.faster, "timeline": t.strip.line, "rates": t.strip.rates, "clock": t.strip.clock, "strip": t.strip,
		"cover": t.counters.cover, "close-counters": t.counters.close, "place": t.counters.entry, "lever": t.counters.lever,
		"pick-0": t.counters.picks[0], "pick-1": t.counters.picks[1],
		"slew-latitude": t.counters.slews[latitude], "slew-longitude": t.counters.slews[longitude],
		"east-10": t.counters.slews[longitude].keys[5], "south-1": t.counters.slews[latitude].keys[1],
		"wind-minus": t.wind.keys[0], "wind-plus": t.wind.keys[1],
		"zoom-out": t.chartKeys[0], "zoom-in": t.chartKeys[1], "fit": t.chartKeys[2], "follow": t.chartKeys[3],
		"pins": t.pins.card.paper, "pin-another": t.pins.card.another, "pin-clear": t.pins.card.clear, "pin-reveal": t.pins.card.reveal,
		"tray": t.tray.paper, "tray-cloud": t.tray.cloud, "tray-break": t.tray.part, "tray-pins": t.tray.pins, "tray-plan": t.tray.plan,
		"tray-moment": t.tray.moment, "tray-save": t.tray.save,
	}
}
