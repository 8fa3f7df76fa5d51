package charttable

import (
	"strings"

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
	foot   float32 // where the keys begin, from the top of the card
	drawn  string  // the gap as the chart has it
}

// twinOffer is one thing that a twin may lack.
type twinOffer struct {
	lacks sim.Twin
	word  string // on its key
	name  string // in the title
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
	w.on = !w.on
	if w.on {
		for t.CloseCounters() { // first its cover, then itself
		}
		t.PinMode(false)
		if t.broken.on {
			t.ToggleBreakage()
		}
		if t.moment.Twin == nil {
			t.helm.Twin(sim.Twin{Kind: sim.WithoutFaults}, look.Text(look.TwinFaultsName))
		}
	}
	w.show()
	t.tray.apply()
}

// TwinOpen says whether that card is open.
func (t *Table) TwinOpen() bool { return t.twin != nil && t.twin.on }

// shutTwin shuts the card: another one is to lie in its place.
func (t *Table) shutTwin() {
	if t.TwinOpen() {
		t.ToggleTwin()
	}
}

func (w *twinning) choose(i int) {
	if i < len(w.offers) {
		w.table.helm.Twin(w.offers[i].lacks, w.offers[i].name)
	}
}

// offer lists the choices at a moment. A planned fault is named only to those
// who see the truth; one given here is known to whoever gave it.
func (w *twinning) offer(m *helm.Moment) {
	known := m.Ordered
	if m.Revealed != nil {
		known = m.Revealed.Faults
	}
	w.offers = append(w.offers[:0],
		twinOffer{sim.Twin{Kind: sim.RightWind}, look.Text(look.TwinWind), look.Text(look.TwinWindName)},
		twinOffer{sim.Twin{Kind: sim.FieldVariation}, look.Text(look.TwinVariation), look.Text(look.TwinVariationName)},
		twinOffer{sim.Twin{Kind: sim.WithoutFaults}, look.Text(look.TwinFaults), look.Text(look.TwinFaultsName)})
	for i := len(known) - 1; i >= 0 && len(w.offers) < mostTwins; i-- {
		words := known[i].Order.ID
		if e, ok := fault.Lookup(words); ok {
			words = e.Title
		}
		w.offers = append(w.offers, twinOffer{
			sim.Twin{Kind: sim.WithoutFault, Fault: known[i].Number},
			look.Textf(look.TwinWithout, words), look.Textf(look.TwinFaultName, words)})
	}
}

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
	was := len(w.offers)
	w.offer(m)
	if len(w.offers) != was {
		w.show()
	}
	for i, k := range w.keys {
		if i < len(w.offers) {
			k.Set(w.fitted(w.offers[i].word, k), kit.NoSign, m.Twin != nil && m.Twin.Lacks == w.offers[i].lacks)
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

// fitted shortens a word to the width of its key.
func (w *twinning) fitted(word string, k *kit.Key) string {
	room := float64(k.Size().Width) - 20
	size := w.table.screen.Size(1).Text(look.TextBody)
	for s := []rune(word); len(s) > 1; s = s[:len(s)-1] {
		text := string(s)
		if len(text) < len(word) {
			text = strings.TrimRight(text, " ,") + "\u2026"
		}
		if look.Semibold.Font().Width(text, size) <= room || room <= 0 {
			return text
		}
	}
	return word
}

// draw draws the twin over the plot.
func (w *twinning) draw(b *picture.Brush, v picture.View) {
	m := w.table.moment
	if m.Twin == nil {
		return
	}
	t := &picture.Twin{
		Flight: units.Position(m.View.Marker), Marker: units.Position(m.Twin.View.Marker),
		Miles: units.DistanceText(m.Twin.Gap), Gaps: gapsOf(m.View.Marks, m.Twin.View.Marks),
	}
	for _, mark := range m.Twin.View.Marks {
		t.Track = append(t.Track, units.Position(mark.Ground))
	}
	t.Track = append(t.Track, t.Marker)
	picture.DrawTwin(b, v, t, w.table.chart.left)
}

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
