package charttable

import (
	"time"

	"stillair/gui/atlas"
	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/isa"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// laid says which overlay lies on the chart.
type laid uint8

const (
	noOverlay laid = iota
	starCurves
	pulseLattice
)

// curves are the overlay that lies on the chart, if one does, and its card. They
// know the clock, the air and the ground position that the crew are shown, and
// what was read; never where the aircraft is.
type curves struct {
	table *Table
	kind  laid
	on    bool // the card is open; the overlay stays when it is shut

	chain    [3]sim.Station // M, A, B
	hasChain bool

	held      time.Time // the time of the curves; zero: they follow the clock
	pair      [2]sky.Body
	rows      [][2]sky.Body // the pairs offered
	rowsAt    time.Time
	altitudes map[sky.Body]overlay.Read
	delays    [2]overlay.Read
	delaysAt  time.Time // when they were read
	puts      []put     // fixes kept on the chart

	stood picture.Held // where the words of the fix stood
	job   curvesJob
	card  *curvesCard
}

func newCurves(t *Table) *curves {
	c := &curves{table: t, altitudes: map[sky.Body]overlay.Read{}}
	c.chain, c.hasChain = atlas.ChainOf(t.plan)
	c.card = newCurvesCard(c)
	t.chart.overlay(c.drawFix)
	c.show()
	return c
}

// ToggleStarCurves lays star curves over the chart and opens their card; pressed
// again it takes them off.
func (t *Table) ToggleStarCurves() { t.curves.toggle(starCurves) }

// ToggleLattice does the same with the lattice of the pulse chain, where there is
// one.
func (t *Table) ToggleLattice() {
	if t.curves.hasChain {
		t.curves.toggle(pulseLattice)
	}
}

// Overlay says whether star curves or the lattice lie on the chart.
func (t *Table) Overlay() (stars, lattice bool) {
	return t.curves.kind == starCurves, t.curves.kind == pulseLattice
}

// CurvesOpen says whether the card of the overlay is open.
func (t *Table) CurvesOpen() bool { return t.curves != nil && t.curves.on }

// toggle lays an overlay and opens its card, opens the card of one that lies
// there, or takes it off.
func (c *curves) toggle(kind laid) {
	switch {
	case c.kind == kind && c.on:
		c.lift()
		return
	case c.kind != kind:
		c.job.forget()
	}
	c.table.clearColumn()
	c.kind, c.on = kind, true
	c.changed()
}

// lift takes the overlay off the chart and shuts its card.
func (c *curves) lift() {
	c.kind, c.on = noOverlay, false
	c.job.forget()
	c.changed()
}

// shut shuts the card; the overlay stays.
func (c *curves) shut() {
	c.on = false
	c.changed()
}

// changed brings chart, card and tools up to what was chosen.
func (c *curves) changed() {
	c.show()
	c.ask()
	c.table.tray.apply()
	c.table.content.Refresh()
	c.table.chart.Repaint()
}

// time is that of the curves.
func (c *curves) time() time.Time {
	if c.held.IsZero() {
		return c.table.moment.View.Clock
	}
	return c.held
}

// hold stops the curves at a time, within an hour of the clock.
func (c *curves) hold(at time.Time) {
	clock := c.table.moment.View.Clock
	at = maxTime(clock.Add(-slide), minTime(clock.Add(slide), at))
	c.held = at
	c.again()
}

// follow lets the curves go on with the clock.
func (c *curves) follow() {
	c.held = time.Time{}
	c.again()
}

// again works the curves anew and shows the card.
func (c *curves) again() {
	c.ask()
	c.card.apply()
}

func maxTime(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func minTime(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// thin is what the air shown makes of refraction.
func (c *curves) thin() float64 {
	v := &c.table.moment.View
	return sight.ThinAir(isa.Pressure(v.PressureAltitude), v.AirTemperature)
}

// known is what the crew know of the sky.
func (c *curves) known() overlay.Sky {
	return overlay.Sky{Time: c.time(), Near: units.Position(c.table.moment.View.Ground), Thin: c.thin()}
}

// reads are the two readings of the overlay that lies there.
func (c *curves) reads() [2]overlay.Read {
	if c.kind == pulseLattice {
		return c.delays
	}
	return [2]overlay.Read{c.altitudes[c.pair[0]], c.altitudes[c.pair[1]]}
}

// setRead takes a reading; the curves then stand still, for it was good at one time.
func (c *curves) setRead(i int, r overlay.Read) {
	if c.kind == pulseLattice {
		c.delays[i], c.delaysAt = r, c.table.moment.View.Clock
	} else {
		if c.pair[i] == 0 {
			return
		}
		c.altitudes[c.pair[i]] = r
		if c.held.IsZero() && r.Known {
			c.held = c.table.moment.View.Clock
		}
	}
	c.again()
}

// name is what the reading is of.
func (c *curves) name(i int) string {
	switch {
	case c.kind == pulseLattice:
		return [2]string{"A", "B"}[i]
	case c.pair[i] == 0:
		return ""
	}
	return c.pair[i].String()
}

// choose chooses a pair of stars.
func (c *curves) choose(pair [2]sky.Body) {
	c.pair = pair
	c.again()
}

// apply brings overlay and card up to a moment.
func (c *curves) apply(*helm.Moment) {
	if c.kind == noOverlay || !c.on && c.table.standing == StageAlone { // nobody sees it
		return
	}
	c.ask()
	c.card.apply()
}

// arrived takes up what was worked.
func (c *curves) arrived() {
	d := c.job.done
	if c.kind == starCurves && d.stars != nil {
		if p := d.stars.Pair; p.A.Body != 0 {
			c.pair = [2]sky.Body{p.A.Body, p.B.Body}
		}
		c.offer(d)
	}
	c.table.chart.Repaint()
	c.card.apply()
}

// standing is for how long the pairs offered stay as they are: the best change
// places all the time.
const standing = 10 * time.Minute

// offer takes up the best pairs, now and then, and keeps the chosen one among them.
func (c *curves) offer(d *curvesDone) {
	apart := d.starOrder.Time.Sub(c.rowsAt).Abs()
	if len(c.rows) > 0 && apart < standing && c.offered(c.pair) {
		return
	}
	c.rows, c.rowsAt = nil, d.starOrder.Time
	for _, p := range d.stars.Pairs {
		c.rows = append(c.rows, [2]sky.Body{p.A.Body, p.B.Body})
	}
	if c.pair[0] != 0 && !c.offered(c.pair) {
		c.rows = append(c.rows[:min(len(c.rows), 2)], c.pair)
	}
}

func (c *curves) offered(pair [2]sky.Body) bool {
	for _, r := range c.rows {
		if r == pair {
			return true
		}
	}
	return false
}

// draw lays the overlay over the ground, under the plot.
func (c *curves) draw(d *paint.Raster, p *look.Palette, now picture.View) {
	done := c.job.done
	if c.kind == noOverlay || done == nil || done.kind != c.kind {
		return
	}
	im := done.image(p)
	if im == nil {
		return
	}
	d.PushClip(now.Box)
	defer d.PopClip()
	d.Image(now.Over(done.view, float64(done.w), float64(done.h)), im)
}

// drawFix draws the senders and where the two readings cross, over the plot.
func (c *curves) drawFix(b *picture.Brush, v picture.View) {
	done := c.job.done
	if c.kind == noOverlay || done == nil || done.kind != c.kind {
		return
	}
	all := done.crossings
	if c.isPut(done) {
		all = []picture.Crossing{{At: all[0].At}} // the plot has its words
	}
	picture.DrawStations(b, v, done.stations, units.Position(c.table.moment.View.Marker))
	picture.DrawCrossings(b, v, all, c.table.chart.left, &c.stood)
}

// beside is the room that labels of the plot have beside the overlay's.
func (c *curves) beside(room *picture.Room) *picture.Room {
	done := c.job.done
	if c.kind == noOverlay || done == nil || done.kind != c.kind || room == nil || done.view != c.table.chart.view {
		return room
	}
	room = room.Clone()
	for _, q := range done.taken {
		room.TakeText(q)
	}
	return room
}
