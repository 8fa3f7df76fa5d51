package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// axis is one of the two counters of a position.
type axis uint8

const (
	latitude axis = iota
	longitude
)

// airDrums is what the drums of the air position show: the counters of the
// mechanism, and on top what a hand turns now, or a run to a new setting.
type airDrums struct {
	table *Table
	slews [2]slew
	run   run
	seen  *helm.Moment
	clock func() time.Time
}

// slew is how far a hand has turned the knob of one counter, in tenths of a
// minute, N and E +.
type slew struct {
	turned int // not handed over yet
	sent   int // handed over and not shown by the mechanism yet
	handed handed
	rest   resting
}

// run is the run of the drums to a new setting.
type run struct {
	from  units.Position
	began time.Time // zero: none
}

// runTime is how long the drums run when the counters are set.
const runTime = 600 * time.Millisecond

// share is how much of the way has been run, 1 at and after the end.
func (r *run) share(now time.Time) float64 {
	if r.began.IsZero() {
		return 1
	}
	x := math.Min(1, float64(now.Sub(r.began))/float64(runTime))
	return x * x * (3 - 2*x)
}

// position is a position on the way, the short way round.
func (r *run) position(to units.Position, now time.Time) units.Position {
	rest := units.Angle(1 - r.share(now))
	return units.Position{
		Lat: to.Lat + rest*(r.from.Lat-to.Lat),
		Lon: to.Lon + rest*units.WrapHalf(r.from.Lon-to.Lon),
	}
}

// apply notes a new moment: what it shows of the slews, and whether the
// counters have just been set, so that the drums have to run.
func (a *airDrums) apply(m *helm.Moment) {
	was := a.seen
	a.seen = m
	for i := range a.slews {
		if s := &a.slews[i]; !s.handed.waits(m) {
			s.sent = 0
		}
	}
	if was != nil && setBetween(was, m) && !a.table.screen.ReducedMotion {
		a.startRun(units.Position(was.View.Air))
	}
}

// setBetween says whether the counters were set between two moments that follow
// one another; a moment gone to is no such.
func setBetween(was, is *helm.Moment) bool {
	flown := is.Playing || is.View.Tick-was.View.Tick <= 1
	n := len(was.View.Log)
	if !flown || is.View.Tick < was.View.Tick || len(is.View.Log) <= n {
		return false
	}
	for _, e := range is.View.Log[n:] {
		if e.Action.Kind == aboard.SetCounters {
			return true
		}
	}
	return false
}

func (a *airDrums) startRun(from units.Position) {
	a.run = run{from, a.clock()}
	fyne.NewAnimation(runTime+50*time.Millisecond, func(float32) { a.table.showDrums() }).Start()
}

// reading is what the drums show at a moment.
func (a *airDrums) reading(m *helm.Moment) aboard.Counters {
	v, now := &m.View, a.clock()
	north, east := a.pending(latitude), a.pending(longitude)
	if north == 0 && east == 0 && a.run.share(now) == 1 {
		return v.AirCounters
	}
	p := a.run.position(units.Position(v.Air), now)
	return aboard.Counters{
		Latitude:  counter.Latitude(p.Lat.Minutes() + float64(north)/10),
		Longitude: a.longitudeCounter(p.Lon.Minutes()+float64(east)/10, v.LeverEast),
	}
}

// longitudeCounter reads a longitude in minutes on the drums of this flight.
func (a *airDrums) longitudeCounter(minutes float64, leverEast bool) counter.Reading {
	s := integrator.State{LeverEast: leverEast}
	return s.LongitudeCounter(&a.table.plan.Mechanism, minutes)
}

// pending is what of the slews the mechanism does not show yet.
func (a *airDrums) pending(x axis) int { return a.slews[x].turned + a.slews[x].sent }

// turn turns the knob of a counter by so many tenths of a minute, up to the
// pole. It shows at once and is handed over as one action when the hand rests.
func (a *airDrums) turn(x axis, tenths int) {
	s := &a.slews[x]
	s.turned += tenths
	if x == latitude {
		at := units.Position(a.table.moment.View.Air).Lat.Minutes() + float64(s.sent)/10
		s.turned = max(int(math.Ceil((-poleMinutes-at)*10)), min(int(math.Floor((poleMinutes-at)*10)), s.turned))
	}
	a.table.showDrums()
	s.rest.after(a.table.screen, func() { a.release(x) })
}

const poleMinutes = 90 * 60.0

// release hands over what has been turned.
func (a *airDrums) release(x axis) {
	s := &a.slews[x]
	s.rest.stop()
	if s.turned == 0 {
		return
	}
	by := s.turned
	s.sent, s.turned = s.sent+by, 0
	kind := aboard.SlewLatitude
	if x == longitude {
		kind = aboard.SlewLongitude
	}
	s.handed.give(a.table, aboard.Action{Kind: kind, Slew: units.Angle(by) / 10 * units.ArcMinute})
}

// drop forgets what has been turned and not handed over: the counters are being
// set, and the knobs with them.
func (a *airDrums) drop(x axis) {
	a.slews[x].rest.stop()
	a.slews[x].turned = 0
}
