package atlas

import (
	"math"
	"time"

	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/geomag"
)

// stride is the longest piece of a leg worked at once: what changes on the way
// (true airspeed in a climb, variation) is taken in its middle.
const stride = time.Minute

// longest ends a plan that never arrives, as the engine does.
const longest = 48 * time.Hour

// Required is the required track as it is worked before the flight, by rhumb
// lines: the legs in still air plus the wind set at the start. Turns take no
// time. Each leg ends at a turning point with a letter and its time; what
// happens on the way (a wind found, counters set) is not known yet. The first
// point is the start, without a label; a plan that cannot be held (a wind too
// strong, a pole) ends where it can be held no longer.
func Required(p *sim.Plan) []picture.Waypoint {
	track, _ := reckon(p)
	return track
}

// reckoner works a plan leg by leg.
type reckoner struct {
	plan    *sim.Plan
	field   *geomag.Model // nil: not needed, or the year is out of its range
	ground  units.Position
	air     units.Position
	elapsed float64 // seconds
	height  units.Length
	order   units.Length // height to climb or descend to
	climb   units.Speed
	speed   sim.SpeedOrder
}

// PlannedLeg is one leg of the required track as it is worked before the flight.
type PlannedLeg struct {
	Letter         string         // of the turning point at its end
	From, To       units.Position // over the ground
	AirFrom, AirTo units.Position // of the air plot that belongs to it
	Begins, Ends   time.Duration  // since the start, to the second
	Height         units.Length   // pressure altitude at its end
}

// Planned are the legs of the required track, up to the first that cannot be
// held.
func Planned(p *sim.Plan) []PlannedLeg {
	start := p.Aircraft.Position
	if p.Setting.Counters != nil {
		start = *p.Setting.Counters
	}
	r := reckoner{
		plan: p, ground: start, air: start, height: p.Aircraft.PressureAltitude,
		order: p.Aircraft.PressureAltitude, speed: p.Aircraft.Speed,
	}
	r.field, _ = geomag.New(geomag.DecimalYear(p.Start))
	seconds := func() time.Duration { return time.Duration(math.Round(r.elapsed)) * time.Second }
	var out []PlannedLeg
	for i := range p.Legs {
		leg := PlannedLeg{Letter: letter(i), From: r.ground, AirFrom: r.air, Begins: seconds()}
		if !r.leg(&p.Legs[i]) {
			break
		}
		leg.To, leg.AirTo, leg.Ends, leg.Height = r.ground, r.air, seconds(), r.height
		out = append(out, leg)
	}
	return out
}

// reckon gives the required track and the air plot that belongs to it.
func reckon(p *sim.Plan) (track []picture.Waypoint, air []units.Position) {
	start := p.Aircraft.Position
	if p.Setting.Counters != nil {
		start = *p.Setting.Counters
	}
	track, air = append(track, picture.Waypoint{At: start}), append(air, start)
	for _, leg := range Planned(p) {
		track = append(track, picture.Waypoint{At: leg.To, Label: leg.Letter + " " + units.TimeText(p.Start.Add(leg.Ends))})
		air = append(air, leg.AirTo)
	}
	return track, air
}

// letter names a turning point: A to Z, then AA, AB and so on.
func letter(i int) string {
	s := string(rune('A' + i%26))
	if i < 26 {
		return s
	}
	return letter(i/26-1) + s
}

// leg works one leg; false if it does not end.
func (r *reckoner) leg(leg *sim.Leg) bool {
	if leg.Altitude != nil {
		r.order = *leg.Altitude
	}
	if leg.Climb > 0 {
		r.climb = leg.Climb
	}
	if leg.Speed != nil {
		r.speed = *leg.Speed
	}
	course, toGo := geodesy.RhumbInverse(r.ground, leg.Target)
	left, air := sim.TimeOf(leg.Ticks).Seconds(), float64(leg.Distance)
	for r.elapsed < longest.Seconds() {
		tas := float64(r.tas(stride.Seconds() / 2))
		north, east, ok := r.nose(leg, course, tas)
		if !ok {
			return false
		}
		dt, last := stride.Seconds(), false
		end := func(t float64) {
			if t <= dt {
				dt, last = t, true
			}
		}
		switch {
		case leg.Ticks > 0:
			end(left)
		case leg.Distance > 0:
			end(air / tas)
		default:
			wn, we := r.plan.Setting.Wind.Velocity()
			speed := math.Hypot(north+float64(wn), east+float64(we))
			end(float64(toGo) / speed)
			toGo -= units.Length(speed * dt)
		}
		if !r.move(north, east, dt) {
			return false
		}
		left, air = left-dt, air-tas*dt
		if last {
			return true
		}
	}
	return false
}

// tas is the true airspeed so many seconds ahead.
func (r *reckoner) tas(ahead float64) units.Speed {
	if r.speed.Kind == sim.HoldTAS {
		return r.speed.Speed
	}
	h := r.heightAfter(ahead)
	return isa.TASFromCAS(r.speed.Speed, h, isa.Temperature(h)+units.Temperature(r.plan.Air.ISADeviation))
}

func (r *reckoner) heightAfter(seconds float64) units.Length {
	reach := units.Length(float64(r.climb) * seconds)
	if r.climb == 0 {
		return r.order
	}
	return max(r.height-reach, min(r.height+reach, r.order))
}

// nose is the velocity through the air on a leg, m/s; false if the wind cannot
// be held off.
func (r *reckoner) nose(leg *sim.Leg, course units.Angle, tas float64) (north, east float64, ok bool) {
	heading := leg.Direction
	switch leg.Steer {
	case sim.HeadingMagnetic, sim.HeadingCompass: // deviation is left out
		heading += units.Angle(r.variation())
	case sim.TrackTrue:
		course = leg.Direction
	}
	if leg.Steer == sim.TrackTrue || leg.Steer == sim.ToPlace {
		w := r.plan.Setting.Wind
		cross := float64(w.Speed) / tas * math.Sin(float64(w.From-course))
		along := math.Sqrt(math.Max(0, 1-cross*cross))*tas - float64(w.Speed)*math.Cos(float64(w.From-course))
		if math.Abs(cross) >= 1 || along <= 0 {
			return 0, 0, false
		}
		heading = course + units.Angle(math.Asin(cross))
	}
	s, c := math.Sincos(float64(heading))
	return tas * c, tas * s, true
}

// variation is the one set, or that of the chart at the place.
func (r *reckoner) variation() units.Variation {
	switch {
	case r.plan.Setting.Variation != nil:
		return *r.plan.Setting.Variation
	case r.plan.Field != nil:
		return *r.plan.Field
	case r.field == nil:
		return 0
	}
	return r.field.At(r.ground, 0).D
}

// move goes on for so many seconds; false at a pole.
func (r *reckoner) move(north, east, seconds float64) bool {
	wn, we := r.plan.Setting.Wind.Velocity()
	run := func(p units.Position, n, e float64) (units.Position, error) {
		return geodesy.RhumbDirect(p, units.Angle(math.Atan2(e, n)), units.Length(math.Hypot(n, e)*seconds))
	}
	ground, err := run(r.ground, north+float64(wn), east+float64(we))
	if err != nil {
		return false
	}
	if r.air, err = run(r.air, north, east); err != nil {
		return false
	}
	r.ground, r.height = ground, r.heightAfter(seconds)
	r.elapsed += seconds
	return true
}

// TruthOf is the true track and position, for those who may see it.
func TruthOf(now sim.Snapshot, track []sim.TruePoint) *picture.Truth {
	t := &picture.Truth{Position: now.Truth.Position, Track: make([]units.Position, 0, len(track)+1)}
	for _, p := range track {
		t.Track = append(t.Track, p.Ground)
	}
	t.Track = append(t.Track, now.Truth.Position)
	return t
}
