package charttable

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/sim"
	"stillair/sim/fault"
)

// breakage is the card on which a lecturer breaks a link and mends it again. It
// lies over the instruments' column but for the dials that show what comes of
// it, and has three pages: the links of the chain, the faults of a link, and
// one fault with its figures.
type breakage struct {
	table *Table
	on    bool
	place box
	paper *panel
	back  *kit.Key
	shut  *kit.Key

	links  []*kit.Key
	live   [mostLive]*chip // faults ordered here that are not over
	mends  [mostLive]*kit.Key
	chips  [mostChips]*chip // faults of the link
	more   *kit.Key
	params [mostParams]*paramRow
	when   *kit.Key
	how    *kit.Key
	main   *kit.Key
	face   *kit.Key // turns the third page to what the fault looks like, and back
	miles  *kit.Key // of a place: how near is there
	where  *kit.Key // and which

	link   string       // "": the first page
	from   int          // of what the page lists, the first that shows
	entry  *fault.Entry // nil: the second page
	order  fault.Order
	timing timing
	due    int64           // tick of the onset, at a time
	alike  bool            // the third page shows what the fault looks like
	places []picture.Place // to break at, nearest first
	placed int             // the one chosen; -1: a place touched, or where the marker stands
	told   string          // why it could not be broken
	heard  string          // the newest refusal that was told
	status []sim.FaultStatus

	outlook []dialTold // what the dials will show; nil until it is known
	asked   int        // the newest forecast asked for

	onMain func(func()) // runs on the toolkit's goroutine; tests make it a queue
}

const (
	mostLive   = 6
	mostChips  = 12
	mostParams = 5
)

// timing is when the fault of the third page is to come.
type timing uint8

const (
	atOnce timing = iota
	atSignal
	atPlace
	atTime // the last, for it asks
)

// links of the chain, in its order, with their words.
var links = []struct {
	name string
	word look.Key
}{
	{"air data", look.LinkAirData}, {"drive", look.LinkDrive}, {"heading", look.LinkHeading},
	{"resolver", look.LinkResolver}, {"latitude-longitude", look.LinkTrains}, {"ground", look.LinkGround},
	{"crew", look.LinkCrew},
}

func newBreakage(t *Table) *breakage {
	b := &breakage{table: t, onMain: t.screen.Later}
	screen := t.screen
	b.paper = newPanel(screen, b.paint)
	b.back = kit.NewKey(screen, look.Text(look.BreakBack), kit.NoSign, 84, b.goBack)
	b.shut = kit.NewKey(screen, look.Text(look.CloseWord), kit.NoSign, 84, t.ToggleBreakage)
	for _, l := range links {
		b.links = append(b.links, kit.NewKey(screen, look.Text(l.word), kit.NoSign, kit.Target, func() { b.open(l.name) }))
	}
	for i := range b.live {
		b.live[i] = newChip(t, nil)
		b.mends[i] = kit.NewKey(screen, look.Text(look.MendWord), kit.NoSign, 84, func() { b.mend(i) })
	}
	for i := range b.chips {
		b.chips[i] = newChip(t, func() { b.choose(i) })
	}
	b.more = kit.NewKey(screen, look.Text(look.BreakMore), kit.NoSign, 84, b.turnPage)
	for i := range b.params {
		b.params[i] = newParamRow(b, i)
	}
	b.when = kit.NewKey(screen, "", kit.NoSign, kit.Target, b.nextTiming)
	b.how = kit.NewKey(screen, "", kit.NoSign, kit.Target, b.nextShape)
	b.main = kit.NewKey(screen, look.Text(look.BreakWord), kit.NoSign, kit.Target, b.press)
	b.main.Main = true
	b.face = kit.NewKey(screen, look.Text(look.BreakAlike), kit.NoSign, kit.Target, b.turnFace)
	b.miles = kit.NewKey(screen, "", kit.NoSign, kit.Target, b.nextMiles)
	b.where = kit.NewKey(screen, "", kit.NoSign, kit.Target, b.nextPlace)
	t.chart.onTap(b.tapped)
	return b
}

func (b *breakage) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{b.paper, b.back, b.shut, b.more, b.when, b.how, b.main, b.face, b.miles, b.where}
	for _, k := range b.links {
		all = append(all, k)
	}
	for i := range b.live {
		all = append(all, b.live[i], b.mends[i])
	}
	for _, c := range b.chips {
		all = append(all, c)
	}
	for _, p := range b.params {
		all = append(all, p.minus, p.value, p.plus)
	}
	return all
}

// ToggleBreakage opens or shuts the card on which links are broken and mended.
func (t *Table) ToggleBreakage() {
	b := t.broken
	if !b.on {
		t.clearColumn()
		b.link, b.entry, b.from, b.told, b.heard, b.status = "", nil, 0, "", t.moment.Refusal, known(t.moment)
	}
	b.on = !b.on
	b.show()
	t.tray.apply()
}

// BreakageOpen says whether that card is open; it is not while the view is being built.
func (t *Table) BreakageOpen() bool { return t.broken != nil && t.broken.on }

// apply brings the card up to a moment.
func (b *breakage) apply(m *helm.Moment) {
	if !b.on {
		return
	}
	status := known(m)
	if m.Refusal == b.heard && slices.EqualFunc(b.status, status, sameStatus) {
		return
	}
	if m.Refusal != b.heard {
		b.told, b.heard = m.Refusal, m.Refusal
		if b.link != "" { // the first page has room for it
			b.table.screen.Hints.Tell(b.paper, b.told)
		}
	}
	b.status = status
	b.show()
}

// known are the faults that may be told: those ordered here and, once the truth is
// shown, those of the flight.
func known(m *helm.Moment) []sim.FaultStatus {
	if m.Revealed != nil {
		return m.Revealed.Faults
	}
	return m.Ordered
}

func sameStatus(x, y sim.FaultStatus) bool { return x.Number == y.Number && x.Stands == y.Stands }

// pending are the faults that are known and not over, the newest first.
func (b *breakage) pending() []sim.FaultStatus {
	var out []sim.FaultStatus
	for _, f := range slices.Backward(b.status) {
		if f.Stands != sim.FaultOver && f.Stands != sim.FaultMended {
			out = append(out, f)
		}
	}
	return out
}

// faults are those of the link: first what can be given, then the explanations.
func (b *breakage) faults() []*fault.Entry {
	var out, explained []*fault.Entry
	all := fault.Catalogue()
	for i := range all {
		switch e := &all[i]; {
		case e.Link != b.link:
		case e.Refusal() == "":
			out = append(out, e)
		default:
			explained = append(explained, e)
		}
	}
	return append(out, explained...)
}

// reason says why a fault cannot be given in this flight, "" if it can.
func (b *breakage) reason(e *fault.Entry) string {
	if e.Refusal() != "" {
		return look.Text(look.BreakExplains)
	}
	if e.NeedsPlotted() && b.table.plan.Mechanism.Ground == 0 {
		return look.Text(look.BreakOnlyPlotted)
	}
	if e.ID == "lever-late" && b.table.plan.Mechanism.Longitude != integrator.HemisphereLever {
		return look.Text(look.BreakOnlyLever)
	}
	return ""
}

func (b *breakage) open(link string) {
	b.link, b.from = link, 0
	b.show()
}

func (b *breakage) goBack() {
	if b.entry != nil {
		b.entry = nil
	} else {
		b.link, b.from = "", 0
	}
	b.told = ""
	b.show()
}

func (b *breakage) choose(i int) {
	list := b.faults()
	if b.from+i >= len(list) {
		return
	}
	e := list[b.from+i]
	if why := b.reason(e); why != "" {
		b.table.screen.Hints.Tell(b.chips[i], why)
		return
	}
	b.entry, b.timing, b.told, b.alike = e, atOnce, "", false
	b.order = fault.Order{ID: e.ID, Params: e.Defaults()}
	b.foresee()
	b.show()
}

// turnPage lists what had no room, and at the end begins anew.
func (b *breakage) turnPage() {
	room, all := b.room(), len(b.faults())
	if b.link == "" {
		room, all = b.liveRoom(), len(b.pending())
	}
	b.from += room
	if b.from >= all {
		b.from = 0
	}
	b.show()
}

func (b *breakage) mend(i int) {
	i += b.from
	if list := b.pending(); i < len(list) {
		if list[i].Stands == sim.FaultWaiting && list[i].Order.Trigger.Kind == fault.BySignal {
			b.table.helm.Signal(list[i].Order.Trigger.Signal)
			return
		}
		b.table.helm.Mend(list[i].Number)
	}
}
