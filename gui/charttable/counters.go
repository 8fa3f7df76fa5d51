package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// counterPanel is the air position card opened: it lies over the column of
// instruments with two knobs to slew the counters by, a place to set them to,
// and under its cover the key that sets them.
type counterPanel struct {
	*panel
	table  *Table
	slews  [2]*slewer
	lever  *lever
	entry  *placeEntry
	picks  []*kit.Key
	close  *kit.Key
	cover  *cover
	offers []Place // beside those that every flight offers

	shown   aboard.Counters // what the drums show now
	fast    bool
	target  *Place // nil: none chosen
	problem string // what is wrong with what is typed
	open    bool
	at      box
	rule    float32 // where the keys to slew end
	words   float32 // where the sentence begins
}

// mostPicks is how many places have a key; of more the newest are shown.
const mostPicks = 3

func newCounterPanel(t *Table) *counterPanel {
	p := &counterPanel{table: t}
	p.panel = newPanel(t.screen, p.paintPanel)
	p.slews = [2]*slewer{newSlewer(p, latitude), newSlewer(p, longitude)}
	p.lever = newLever(p)
	p.entry = newPlaceEntry(p)
	p.cover = newCover(p)
	p.close = kit.NewKey(t.screen, look.Text(look.CountersClose), kit.NoSign, 84, func() { t.CloseCounters() })
	for i := range mostPicks {
		p.picks = append(p.picks, kit.NewKey(t.screen, "", kit.NoSign, kit.Target, func() { p.pick(i) }))
	}
	p.showOffers()
	p.hideAll()
	return p
}

// objects are the panel and what stands on it, from below.
func (p *counterPanel) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{p.panel}
	for _, s := range p.slews {
		all = append(all, s)
		for _, k := range s.keys {
			all = append(all, k)
		}
	}
	all = append(all, p.lever, p.entry)
	for _, k := range p.picks {
		all = append(all, k)
	}
	return append(all, p.cover, p.close)
}

func (p *counterPanel) hideAll() {
	for _, o := range p.objects() {
		o.Hide()
	}
}

// OpenCounters opens the panel over the instruments; while it is open the cards
// below it rest.
func (t *Table) OpenCounters() {
	p := t.counters
	if p.open {
		return
	}
	t.clearColumn()
	p.open, p.target, p.problem = true, nil, ""
	p.entry.reset()
	for _, o := range p.objects() {
		o.Show()
	}
	t.showColumn()
	if !p.hasLever() {
		p.lever.Hide()
	}
	p.showOffers()
	p.lay(p.at)
	p.apply(t.moment)
	p.repaint()
}

// AskCounters opens the panel with the hand on the place to type, once the
// letter of the key that asked has gone by.
func (t *Table) AskCounters() {
	t.OpenCounters()
	t.screen.AfterLetter(func() {
		if t.counters.open {
			t.canvas().Focus(t.counters.entry)
		}
	})()
}

// CloseCounters lets the cover fall if it is up, else closes the panel; it says
// whether there was anything to do.
func (t *Table) CloseCounters() bool {
	p := t.counters
	switch {
	case !p.open:
		return false
	case p.cover.guard.open():
		p.cover.shut()
		return true
	}
	p.open = false
	for x := range p.slews {
		t.air.release(axis(x))
	}
	p.cover.shut()
	if c := t.canvas(); c != nil && c.Focused() != nil {
		c.Unfocus()
	}
	p.hideAll()
	t.showColumn()
	t.Apply(t.moment)
	return true
}

// passOn deals with the keys that no control of the panel uses.
func (p *counterPanel) passOn(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		p.table.CloseCounters()
		return
	}
	p.table.screen.PassOn(e)
}

// idle says why nothing can be done to the counters, "" if it can.
func (p *counterPanel) idle() string {
	if p.table.moment.Over {
		return look.Text(look.FlightEnded)
	}
	return ""
}

// apply brings the panel up to a moment.
func (p *counterPanel) apply(m *helm.Moment) {
	if !p.open {
		return
	}
	p.shown, p.fast = p.table.air.reading(m), fast(m)
	for i, r := range [2]drumKey{keyOf(p.shown.Latitude, p.fast), keyOf(p.shown.Longitude, p.fast)} {
		s := p.slews[i]
		s.Update(slewKey{r, int(s.knobAngle()), p.fast, p.Palette()})
		for _, k := range s.keys {
			k.Forbid(p.idle())
		}
	}
	for _, k := range p.picks {
		k.Forbid(p.idle())
	}
	p.lever.Update(leverKey{m.View.LeverEast, p.Palette()})
	p.cover.forbid(p.refusal())
	p.Update(panelKey{p.sentence(), p.problem, p.wrongSense(), p.Palette()})
}

type slewKey struct {
	drums drumKey
	knob  int
	fast  bool
	p     *look.Palette
}

type leverKey struct {
	east bool
	p    *look.Palette
}

type panelKey struct {
	sentence, problem string
	wrongSense        bool
	p                 *look.Palette
}

// refusal says why the counters cannot be set as things stand, "" if they can.
func (p *counterPanel) refusal() string {
	switch {
	case p.idle() != "":
		return p.idle()
	case p.target == nil && p.problem != "":
		return p.problem
	case p.target == nil:
		return look.Text(look.NoTarget)
	case p.wrongSense():
		return look.Text(look.LeverFirst)
	}
	return ""
}

// wrongSense says whether the sense lever stands against the place to set: the
// drums then cannot show it.
func (p *counterPanel) wrongSense() bool {
	if !p.hasLever() || p.target == nil {
		return false
	}
	east := p.table.moment.View.LeverEast
	return p.table.air.longitudeCounter(p.target.At().Lon.Minutes(), east).Over
}

// sentence says what setting the counters will do.
func (p *counterPanel) sentence() string {
	if p.target == nil {
		return look.Text(look.NoTargetLong)
	}
	to, from := p.target.At(), units.Position(p.table.moment.View.Air)
	course, gap := geodesy.RhumbInverse(from, to)
	first := look.Textf(look.TargetHere, to.String())
	if gap.NM() >= 0.05 {
		first = look.Textf(look.TargetGap, to.String(), units.Figure(gap.NM(), 1), units.TrueText(course))
	}
	return first + "\n" + look.Text(look.TargetToo)
}

// choose takes a place to set the counters to; nil takes none.
func (p *counterPanel) choose(to *Place, problem string) {
	p.target, p.problem = to, problem
	p.cover.shut()
	p.markPicks()
	p.apply(p.table.moment)
}

// set sets the counters: one action, at the place as it is now.
func (p *counterPanel) set() {
	if p.refusal() != "" {
		return
	}
	for x := range p.slews {
		p.table.air.drop(axis(x))
	}
	p.table.helm.Do(aboard.Action{Kind: aboard.SetCounters, Position: p.target.At()})
}

// pick chooses an offered place.
func (p *counterPanel) pick(i int) {
	all := p.picksOffered()
	if i >= len(all) {
		return
	}
	p.entry.reset()
	if c := p.table.canvas(); c != nil && c.Focused() == fyne.Focusable(p.entry) {
		c.Unfocus() // lest the keys of the clock be typed into it
	}
	p.choose(&all[i], "")
}

// picksOffered are the places that have a key.
func (p *counterPanel) picksOffered() []Place {
	all := append(p.table.offered(), p.offers...)
	if n := len(all); n > mostPicks {
		all = append(all[:mostPicks-1:mostPicks-1], all[n-1])
	}
	return all
}

func (p *counterPanel) offer(to Place) {
	for i := range p.offers {
		if p.offers[i].Name == to.Name {
			p.offers = append(p.offers[:i:i], p.offers[i+1:]...)
			break
		}
	}
	p.offers = append(p.offers, to)
	p.showOffers()
}

// showOffers puts the names of the places on their keys.
func (p *counterPanel) showOffers() {
	all := p.picksOffered()
	for i, k := range p.picks {
		if i >= len(all) {
			k.Hide()
			continue
		}
		k.Word = all[i].Name
		if p.open {
			k.Show()
		}
	}
	p.markPicks()
	p.lay(p.at)
}

// markPicks shows which offered place is chosen.
func (p *counterPanel) markPicks() {
	all := p.picksOffered()
	for i, k := range p.picks {
		if i < len(all) {
			k.Set(all[i].Name, kit.NoSign, p.target != nil && p.target.Name == all[i].Name)
		}
	}
}

func (p *counterPanel) repaint() {
	for _, o := range p.objects() {
		if o.Visible() {
			o.Refresh()
		}
	}
}
