// Package navigator is the view beside the chart in which the crew look through the aids,
// use the position lines that come of it, work a fix, find the wind, set it and reset the
// counters. It is made of what those aboard see; the truth comes in only when it is
// revealed.
package navigator

import (
	"io"
	"sort"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/charttable"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/gui/sighting"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// View is the view of one flight.
type View struct {
	crew   Crew
	title  string
	screen *kit.Screen
	canvas func() fyne.Canvas

	moment *Seen
	book   plotting.Book
	rows   []picture.ReadingRow
	card   picture.FixCard
	first  int // row of the list on top
	stands bool

	picking aboard.Aid    // whose sources are to be chosen from
	hand    sighting.Hand // nil: no aid is open
	aim     aboard.Aim
	steered steered
	homing  aboard.Aim // the loop that is flown by, whether it is looked through or not
	rate    float64    // of the clock before the aid was opened; 0: it was not slowed
	made    int        // how often what is shown has changed

	page       page
	things     []plotting.Drawn // by hand, as last seen
	drawnMade  int
	drawnFor   int // the plot that they were held against
	drawnRows  []picture.HandRow
	firstDrawn int
	chosen     int
	checking   bool
	seeing     bool // the page is being brought up to date
	swingShown swingKey
	moreShown  int

	content *fyne.Container
	pane    *pane
	drawn   *handList
	eye     *eyepiece
	list    *list
	needle  *needle    // small, while the loop is flown by
	shelf   []*kit.Key // an aid each
	picks   []*kit.Key // a source each
	offers  []aboard.Offer
	keys    map[role]*kit.Key

	// Plot is given what lies on the chart; nil: nobody.
	Plot func(charttable.Plotted)
	// PlotOn is given the same for a chart of another kind; nil: nobody.
	PlotOn func(plotting.Marks)
	// Desk is the chart with what is drawn on it by hand, nil if there is none; see SitAt.
	Desk Desk
}

// role says what a key does.
type role uint8

const (
	readKey role = iota
	secondKey
	thirdKey
	leftKey
	rightKey
	crewKey
	otherKey
	closeKey
	windKey
	resetKey
	undoKey
	moreKey
	ruleKey
	nameKey
	rubKey
	unpencilKey
	checkKey
	keepKey
	roleCount
)

// mostPicks is how many sources can be chosen from.
const mostPicks = 14

// New builds the view of a flight of some title.
func New(h *helm.Helm, title string, screen *kit.Screen, canvas func() fyne.Canvas) *View {
	return NewFor(CrewOf(h), SeenOf(h.Moment()), title, screen, canvas)
}

// NewFor builds the view for a crew that sees what it is given.
func NewFor(crew Crew, now *Seen, title string, screen *kit.Screen, canvas func() fyne.Canvas) *View {
	v := &View{crew: crew, title: title, screen: screen, canvas: canvas, moment: now}
	v.pane = newPane(v)
	v.eye, v.list, v.drawn, v.needle = newEyepiece(v), newList(v), newHandList(v), newNeedle(v)
	for a := aboard.DriftSight; a <= aboard.Pinpoint; a++ {
		k := kit.NewKey(screen, plotting.ShortName(a), kit.NoSign, kit.Target, func() { v.choose(a) })
		k.Under, k.Plain = " ", true
		v.shelf = append(v.shelf, k)
	}
	for i := range mostPicks {
		k := kit.NewKey(screen, "", kit.NoSign, kit.Target, func() { v.pick(i) })
		k.Under, k.Plain = " ", true
		v.picks = append(v.picks, k)
	}
	key := func(word look.Key, press func()) *kit.Key {
		return kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
	}
	v.keys = map[role]*kit.Key{
		readKey: key(look.AidRead, v.read), secondKey: key(look.LoopSense, func() { v.press(0) }), thirdKey: key(look.LoopHome, func() { v.press(1) }),
		leftKey: key(look.HomingLeft, func() { v.alter(-alterStep) }), rightKey: key(look.HomingRight, func() { v.alter(alterStep) }),
		crewKey:  key(look.AidCrew, v.byCrew),
		otherKey: key(look.AidOther, v.another), closeKey: key(look.AidShut, func() { v.Shut() }),
		windKey: key(look.PlotSetWind, v.setWind), resetKey: key(look.PlotReset, v.reset), undoKey: key(look.PlotUndo, v.crew.Undo),
		moreKey: key(look.MoreWord, func() { v.turn(morePage) }),
		ruleKey: key(look.MyPlotRule, func() { v.Desk.LayRule(); v.redraw() }), nameKey: key(look.MyPlotName, func() { v.turn(namePage) }),
		rubKey: key(look.MyPlotRub, v.rubOut), unpencilKey: key(look.PlotUndo, func() { v.Desk.UndoPencil(); v.redraw() }),
		checkKey: key(look.MyPlotCheck, v.check), keepKey: key(look.SwingKeep, v.keepSwing),
	}
	for r, words := range map[role]look.Key{
		moreKey: look.MoreHint, ruleKey: look.MyPlotRuleHint, nameKey: look.MyPlotNameHint, rubKey: look.MyPlotRubHint,
		unpencilKey: look.MyPlotUndoHint, checkKey: look.MyPlotCheckHint, keepKey: look.SwingKeepHint,
	} {
		v.keys[r].Hint = look.Text(words)
	}
	v.keys[checkKey].Main, v.keys[keepKey].Main = true, true
	v.keys[readKey].Main, v.keys[windKey].Main, v.keys[resetKey].Main = true, true, true
	v.keys[windKey].Plain, v.keys[resetKey].Plain = true, true
	v.keys[crewKey].Hint, v.keys[undoKey].Hint = look.Text(look.AidCrewHint), look.Text(look.PlotUndoHint)
	v.book.Take(&v.moment.View, 0, nil)
	v.content = container.New(v, v.objects()...)
	v.show()
	return v
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.NavigatorWord) }

// Shape is part of charttable.Stage.
func (v *View) Shape() float32 { return 0.74 }

// Bring is told when the view comes and when it goes: only while it is there the aids
// are asked what they offer.
func (v *View) Bring(there bool) {
	if there == v.stands {
		return
	}
	v.stands = there
	v.crew.WantOffers(there)
	if !there {
		v.shutAid()
		v.turn(noPage)
		v.crew.LookThrough(aboard.Aim{})
	} else if v.homing.Aid != aboard.NoAid {
		v.crew.LookThrough(v.homing)
	}
}

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.pane, v.eye, v.list, v.drawn, v.needle}
	for _, k := range append(append([]*kit.Key{}, v.shelf...), v.picks...) {
		all = append(all, k)
	}
	for r := readKey; r < roleCount; r++ {
		all = append(all, v.keys[r])
	}
	return all
}

// Follow keeps the plot up to a moment, whether the view is to be seen or not.
func (v *View) Follow(m *helm.Moment) { v.follow(SeenOf(m)) }

func (v *View) follow(m *Seen) {
	v.moment = m
	if !v.book.Take(&m.View, m.Deeds, m.Truth) {
		return
	}
	v.replot()
}

// replot takes up a plot that was worked anew.
func (v *View) replot() {
	view := &v.moment.View
	v.rows, v.card = v.book.Rows(view), v.book.Card(view)
	v.first = max(0, len(v.rows)-v.list.room())
	v.made++
	on := v.book.Chart(view)
	if v.PlotOn != nil {
		v.PlotOn(on)
	}
	if v.Plot != nil {
		v.Plot(charttable.Plotted{Lines: on.Lines, Fixes: on.Fixes, Hat: on.Hat, Ellipse: on.Ellipse, Version: v.book.Made})
	}
}

// truthOf gives true positions where they may be seen.
func truthOf(m *helm.Moment) plotting.Truth {
	if m.Revealed == nil {
		return nil
	}
	track, now := m.Revealed.Track, m.Revealed.Now.Truth.Position
	return func(at time.Duration) units.Position { return trueAt(track, now, at) }
}

// trueAt is the true position at a time, between the points of the track.
func trueAt(track []sim.TruePoint, now units.Position, at time.Duration) units.Position {
	tick := sim.TicksOf(at)
	i := sort.Search(len(track), func(i int) bool { return track[i].Tick >= tick })
	switch {
	case i == len(track):
		return now
	case i == 0 || track[i].Tick == tick:
		return track[i].Ground
	}
	a, z := track[i-1], track[i]
	share := units.Angle(tick-a.Tick) / units.Angle(z.Tick-a.Tick)
	return units.Position{
		Lat: a.Ground.Lat + share*(z.Ground.Lat-a.Ground.Lat),
		Lon: units.WrapHalf(a.Ground.Lon + share*units.WrapHalf(z.Ground.Lon-a.Ground.Lon)),
	}
}

// Apply brings the view up to a moment.
func (v *View) Apply(m *helm.Moment) { v.See(SeenOf(m)) }

// See brings the view up to what is seen of a moment.
func (v *View) See(m *Seen) {
	v.follow(m)
	if v.hand != nil && m.Scene != nil && m.Scene.Aim == v.aim {
		v.hand.See(m.Scene, &m.View)
		v.eye.Update(eyeKey{m.View.Tick, v.made, v.screen.Palette})
	}
	v.needle.follow(m)
	v.offer(m.Offers)
	v.applyKeys()
	v.seePage()
	v.pane.Update(v.paneKey())
	v.list.Update(listKey{v.made, v.first, v.screen.Palette})
}

// applyKeys brings the keys up to what can be done.
func (v *View) applyKeys() {
	view := &v.moment.View
	forbid := func(r role, can bool, why look.Key) {
		reason := ""
		if !can {
			reason = look.Text(why)
		}
		v.keys[r].Forbid(reason)
	}
	found, wind := v.book.Wind()
	_, canWind := v.book.SetWind(view)
	why := look.PlotNoFix
	switch {
	case wind && found.Speed > plotting.MostWind:
		why = look.PlotWindTooStrong
	case wind:
		why = look.PlotWindIsSet
	}
	forbid(windKey, canWind && !v.moment.Over, why)
	_, canReset := v.book.Reset(view)
	why = look.PlotNoFix
	if v.card.Fix != "" {
		why = look.PlotResetDone
	}
	forbid(resetKey, canReset && !v.moment.Over, why)
	forbid(undoKey, v.moment.CanTakeBack, look.PlotUndoNone)
	v.keys[windKey].Hint, v.keys[resetKey].Hint = "", ""
	under := map[role]string{windKey: "", resetKey: ""} // what they will do
	if canWind {
		v.keys[windKey].Hint, under[windKey] = look.Textf(look.PlotSetWindHint, v.card.Wind), v.card.Wind
	}
	if canReset {
		v.keys[resetKey].Hint, under[resetKey] = look.Textf(look.PlotResetHint, v.card.Fix), look.Text(look.PlotResetTo)
	}
	for r, words := range under {
		if k := v.keys[r]; k.Under != words {
			k.Under = words
			k.Repaint()
		}
	}
	if v.hand != nil {
		v.keys[readKey].Forbid(v.hand.Wanting())
		for i, c := range v.hand.Controls() {
			k := v.keys[secondKey+role(i)]
			k.Hint = c.Hint
			k.Set(c.Word, kit.NoSign, c.In)
			k.Forbid(c.Off)
		}
	}
}

func (v *View) setWind() {
	if a, ok := v.book.SetWind(&v.moment.View); ok {
		v.crew.Do(a)
	}
}

func (v *View) reset() {
	if a, ok := v.book.Reset(&v.moment.View); ok {
		v.crew.Do(a)
	}
}

// touch uses the reading of a row, or no longer.
func (v *View) touch(row int) {
	if v.swingOfRow(row) {
		return
	}
	v.book.Touch(&v.moment.View, row)
	top := v.first
	v.replot()
	v.first = top
	v.See(v.moment)
}

// Page writes the plot of this moment on a page of its own.
func (v *View) Page() func(io.Writer, paint.Format) error {
	title, rows, card := v.title, v.rows, v.card
	when := units.TimeText(v.moment.View.Clock) + ", " + units.DateText(v.moment.View.Clock)
	return func(out io.Writer, f paint.Format) error { return plotting.WritePage(out, f, title, when, rows, card) }
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.made++
	for _, o := range v.content.Objects {
		o.Refresh()
	}
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{
		"plot-lines": v.list, "homing-needle": v.needle, "eyepiece": v.eye, "aid-read": v.keys[readKey], "aid-second": v.keys[secondKey], "aid-third": v.keys[thirdKey], "turn-left": v.keys[leftKey], "turn-right": v.keys[rightKey], "aid-crew": v.keys[crewKey],
		"aid-other": v.keys[otherKey], "aid-close": v.keys[closeKey], "set-wind": v.keys[windKey], "reset-counters": v.keys[resetKey], "undo": v.keys[undoKey],
		"more": v.keys[moreKey], "my-plot-list": v.drawn, "my-plot-check": v.keys[checkKey], "my-plot-name": v.keys[nameKey],
		"my-plot-rub": v.keys[rubKey], "my-plot-undo": v.keys[unpencilKey], "my-plot-rule": v.keys[ruleKey], "keep-card": v.keys[keepKey],
	}
	for i, k := range v.shelf {
		all["aid-"+(aboard.DriftSight+aboard.Aid(i)).String()] = k
	}
	for i, k := range v.picks {
		all["aid-source-"+strconv.Itoa(i)] = k
	}
	return all
}
