package charttable

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// twinning is the card of the twin: its drums in outline under those of the air
// position, the gap, and what the twin may lack. The twin goes on when the card
// is shut.
type twinning struct {
	table  *Table
	on     bool
	place  box
	paper  *panel
	keys   [mostTwins]*kit.Key
	none   *kit.Key
	shut   *kit.Key
	offers []twinOffer
	known  []sim.FaultStatus // that the offers were made from
	foot   float32           // where the keys begin, from the top of the card
	drawn  string            // the gap as the chart has it
}

// twinOffer is one thing that a twin may lack.
type twinOffer struct {
	lacks sim.Twin
	word  string
	short string // the word as it fits the key
	name  string // in the title
}

func offerOf(lacks sim.Twin, word, name string) twinOffer {
	return twinOffer{lacks: lacks, word: word, short: word, name: name}
}

// mostTwins is how many choices there are: all faults, three single ones, wind
// and variation.
const mostTwins = 6

func newTwinning(t *Table) *twinning {
	w := &twinning{table: t}
	w.paper = newPanel(t.screen, w.paint)
	for i := range w.keys {
		w.keys[i] = kit.NewKey(t.screen, "", kit.NoSign, kit.Target, func() { w.choose(i) })
	}
	w.none = kit.NewKey(t.screen, look.Text(look.TwinNone), kit.NoSign, kit.Target, t.helm.NoTwin)
	w.shut = kit.NewKey(t.screen, look.Text(look.CloseWord), kit.NoSign, kit.Target, t.ToggleTwin)
	t.chart.overlay(w.draw)
	show(false, w.objects()...)
	return w
}

func (w *twinning) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{w.paper}
	for _, k := range w.keys {
		all = append(all, k)
	}
	return append(all, w.none, w.shut)
}

// ToggleTwin opens the card of the twin, with a twin without whatever is wrong
// if there was none, or shuts it.
func (t *Table) ToggleTwin() {
	w := t.twin
	if !w.on {
		t.clearColumn()
		if t.moment.Twin == nil {
			t.helm.Twin(sim.Twin{Kind: sim.WithoutFaults}, look.Text(look.TwinFaultsName))
		}
	}
	w.on = !w.on
	w.show()
	t.tray.apply()
}

// TwinOpen says whether that card is open.
func (t *Table) TwinOpen() bool { return t.twin != nil && t.twin.on }

func (w *twinning) choose(i int) {
	if i < len(w.offers) {
		w.table.helm.Twin(w.offers[i].lacks, w.offers[i].name)
	}
}

// offer lists the choices at a moment. A planned fault is named only to those
// who see the truth; one given here is known to whoever gave it.
func (w *twinning) offer(m *helm.Moment) {
	known := knownFaults(m)
	w.known = known
	w.offers = append(w.offers[:0],
		offerOf(sim.Twin{Kind: sim.RightWind}, look.Text(look.TwinWind), look.Text(look.TwinWindName)),
		offerOf(sim.Twin{Kind: sim.FieldVariation}, look.Text(look.TwinVariation), look.Text(look.TwinVariationName)),
		offerOf(sim.Twin{Kind: sim.WithoutFaults}, look.Text(look.TwinFaults), look.Text(look.TwinFaultsName)))
	for i := len(known) - 1; i >= 0 && len(w.offers) < mostTwins; i-- {
		words := known[i].Order.ID
		if e, ok := fault.Lookup(words); ok {
			words = e.Title
		}
		w.offers = append(w.offers, offerOf(sim.Twin{Kind: sim.WithoutFault, Fault: known[i].Number},
			look.Textf(look.TwinWithout, words), look.Textf(look.TwinFaultName, words)))
	}
}

// knownFaults are those that may be named.
func knownFaults(m *helm.Moment) []sim.FaultStatus {
	if m.Revealed != nil {
		return m.Revealed.Faults
	}
	return m.Ordered
}

func sameFault(x, y sim.FaultStatus) bool { return x.Number == y.Number }

// apply brings card and chart up to a moment.
func (w *twinning) apply(m *helm.Moment) {
	gap := ""
	if m.Twin != nil {
		gap = m.Twin.Name + m.View.Elapsed.Truncate(1e9).String() + units.DistanceText(m.Twin.Gap)
	}
	if gap != w.drawn {
		w.drawn = gap
		w.table.chart.Repaint()
	}
	if !w.on {
		return
	}
	if !slices.EqualFunc(w.known, knownFaults(m), sameFault) {
		w.show()
	}
	for i, k := range w.keys {
		if i < len(w.offers) {
			k.Set(w.offers[i].short, kit.NoSign, m.Twin != nil && m.Twin.Lacks == w.offers[i].lacks)
		}
	}
	key := twinKey{name: gap, quick: fast(m), p: w.table.screen.Palette}
	if m.Twin != nil {
		key.a, key.b = keyOf(m.Twin.View.AirCounters.Latitude, key.quick), keyOf(m.Twin.View.AirCounters.Longitude, key.quick)
	}
	w.paper.Update(key)
}

type twinKey struct {
	a, b  drumKey
	name  string
	quick bool
	p     *look.Palette
}

// draw draws the twin over the plot.
func (w *twinning) draw(b *picture.Brush, v picture.View) {
	m := w.table.moment
	if m.Twin == nil {
		return
	}
	t := &picture.Twin{
		Flight: units.Position(m.View.Marker), Marker: units.Position(m.Twin.View.Marker), Gaps: gapsOf(m.View.Marks, m.Twin.View.Marks),
	}
	if m.Twin.Gap >= leastGap {
		t.Miles = units.DistanceText(m.Twin.Gap)
	}
	for _, mark := range m.Twin.View.Marks {
		t.Track = append(t.Track, units.Position(mark.Ground))
	}
	t.Track = append(t.Track, t.Marker)
	picture.DrawTwin(b, v, t, w.table.chart.left)
}

// leastGap is the least that is not printed as 0.0 NM.
const leastGap = 0.05 * units.NM

// gapsOf are the two ground positions each ten minutes.
func gapsOf(flight, twin []aboard.Mark) (gaps [][2]units.Position) {
	const every = 10 * 60 * 1e9 // ns
	i := 0
	for n := range flight {
		at := flight[n].Elapsed
		if at == 0 || at%every != 0 || n > 0 && flight[n-1].Elapsed == at {
			continue
		}
		for i < len(twin) && twin[i].Elapsed < at {
			i++
		}
		if i < len(twin) && twin[i].Elapsed == at {
			gaps = append(gaps, [2]units.Position{units.Position(flight[n].Ground), units.Position(twin[i].Ground)})
		}
	}
	return gaps
}
