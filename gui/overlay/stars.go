package overlay

import (
	"cmp"
	"math"
	"slices"
	"time"

	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// Read is a figure that was read: an altitude in minutes of arc, or a time
// difference in microseconds. The zero value is none.
type Read struct {
	Known bool
	Value float64
}

// ReadAt is a figure that was read.
func ReadAt(v float64) Read { return Read{true, v} }

// Sky is what the crew know of the sky: the clock, where the chart says they are,
// and the air they fly in.
type Sky struct {
	Time time.Time
	Near units.Position // by which bodies are chosen and fixes told apart
	Thin float64        // sight.ThinAir at the pressure altitude and temperature shown
}

// StarOrder is what star curves are worked from.
type StarOrder struct {
	Sky
	Window Window
	Step   float64     // minutes, of AltitudeStep
	Pair   [2]sky.Body // none of them: the best pair
	Read   [2]Read
}

// StarSheet is what comes of it.
type StarSheet struct {
	Dark  bool          // stars are to be seen; if not, there are no curves
	Up    []sky.Sighted // bodies that can be shot, as they stand now
	Pairs []sky.Pair    // the best three
	Pair  sky.Pair      // the one whose curves these are; its bodies are none if there is none
	Curve [2]Family
	Later [2][]Line // where the curves of what was read will be in Ahead
	// Drift is how far the curves go westward in a minute, at Near.
	Drift units.Length
	Fixes []airplot.Fix // where the curves of what was read cross, the nearest first
	Err   error         // why they do not
}

// Ahead is how far ahead the dots stand.
const Ahead = 2 * time.Minute

// LeastCut is the cut below which a pair is of little use: its curves are nearly
// parallel.
const LeastCut = 30 * units.Degree

// sigma is one standard deviation of an altitude in a fix; both have the same,
// so that the fix does not depend on it.
const sigma = 4 * units.ArcMinute

// The altitudes, in minutes, between which curves are drawn: beyond, refraction
// is unsure or the circle is too small for a line.
const leastAltitude, mostAltitude = 5 * 60, 88 * 60

// Stars works star curves.
func Stars(o StarOrder) StarSheet {
	over := sky.At(o.Time)
	s := StarSheet{Dark: over.Light(o.Near) > sky.CivilTwilight, Drift: Westward(o.Near.Lat)}
	if !s.Dark {
		return s
	}
	for _, b := range over.ForSights(nil, o.Near) {
		if b.Body.IsStar() {
			s.Up = append(s.Up, b)
		}
	}
	s.Pairs = BestPairs(s.Up)
	var ok bool
	if s.Pair, ok = pairOf(&over, o.Near, o.Pair); !ok {
		if len(s.Pairs) == 0 {
			return s
		}
		s.Pair = s.Pairs[0]
	}
	if o.Window.usable() {
		s.curves(o, &over)
	}
	s.fix(o, &over)
	return s
}

// BestPairs are the best three pairs: those that cut nearest to a right angle,
// in steps of ten degrees, and of equals the brighter, for within ten degrees of
// it a cut costs a fix less than two parts in a hundred. No star is in all three,
// and no pair is another one over again: two stars near those of a better pair.
func BestPairs(up []sky.Sighted) (best []sky.Pair) {
	all := sky.Pairs(nil, up, 0)
	slices.SortStableFunc(all, func(p, q sky.Pair) int {
		return cmp.Or(cmp.Compare(band(q), band(p)), cmp.Compare(faint(p), faint(q)))
	})
	used := map[sky.Body]int{}
	for _, p := range all {
		a, b := p.A.Body, p.B.Body
		if used[a] < 2 && used[b] < 2 && !slices.ContainsFunc(best, func(q sky.Pair) bool { return alike(p, q) }) {
			used[a]++
			used[b]++
			best = append(best, p)
		}
		if len(best) == 3 {
			break
		}
	}
	return best
}

// alike says whether two pairs stand in the same parts of the sky, within 15 degrees.
func alike(p, q sky.Pair) bool {
	same := func(a, b sky.Sighted) bool { return apart(a, b) < 15*units.Degree }
	return same(p.A, q.A) && same(p.B, q.B) || same(p.A, q.B) && same(p.B, q.A)
}

// apart is the angle between two bodies.
func apart(a, b sky.Sighted) units.Angle {
	place := func(s sky.Sighted) units.Position { return units.Position{Lat: s.Altitude, Lon: s.Azimuth} }
	arc, _ := geodesy.GreatCircle(place(a), place(b))
	return arc
}

func band(p sky.Pair) int { return int(p.Crossing.Degrees()) / 10 }

func faint(p sky.Pair) float64 { return max(p.A.Body.Magnitude(), p.B.Body.Magnitude()) }

// pairOf is a pair by its bodies, as they stand now; ok is false unless both are
// stars above the horizon.
func pairOf(over *sky.Sky, near units.Position, bodies [2]sky.Body) (p sky.Pair, ok bool) {
	var at [2]sky.Sighted
	for i, b := range bodies {
		if !b.IsStar() {
			return p, false
		}
		h, az := over.Horizontal(b, near)
		if h < leastAltitude*units.ArcMinute {
			return p, false
		}
		at[i] = sky.Sighted{Body: b, Altitude: h, Azimuth: az}
	}
	return sky.Pair{A: at[0], B: at[1], Crossing: sky.Crossing(at[0].Azimuth, at[1].Azimuth)}, bodies[0] != bodies[1]
}

// Altitude is what a sextant reads of a body at a place, refraction included and
// the lean of its bubble taken off; minutes of arc.
func (k Sky) Altitude(b sky.Body, at units.Position) float64 {
	over := sky.At(k.Time)
	h, _ := over.Seen(b, at, k.Thin)
	return h.Minutes()
}

// free is an altitude as read, without its refraction.
func (k Sky) free(minutes float64) units.Angle {
	a := units.Angle(minutes) * units.ArcMinute
	return a - units.Angle(k.Thin)*sight.Refraction(a)
}

// heights is the geocentric altitude of a body in minutes, over the earth.
func heights(over *sky.Sky, b sky.Body) func(units.Position) float64 {
	gha, dec := over.Place(b)
	return func(p units.Position) float64 {
		h, _ := sight.Reduce(p, gha, dec)
		return h.Minutes()
	}
}

// near is how near the altitudes and time differences of a line are found.
const near = 0.0005

func (s *StarSheet) curves(o StarOrder, over *sky.Sky) {
	soon := sky.At(o.Time.Add(Ahead))
	for i, b := range [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body} {
		g := gridOf(o.Window, near, heights(over, b))
		s.Curve[i] = g.stars(o, b.String())
		if !o.Read[i].Known {
			continue
		}
		level := o.free(o.Read[i].Value).Minutes()
		s.Curve[i].Read = g.contour(level)
		s.Later[i] = gridOf(o.Window, near, heights(&soon, b)).contour(level)
	}
}

// stars is the family of a star: levels are of what is read, the grid's values
// are without refraction.
func (g *grid) stars(o StarOrder, name string) Family {
	f := Family{Name: name, Step: o.Step}
	weight := altitudeWeight(o.Step)
	low, high := g.span()
	for k := math.Ceil(leastAltitude / o.Step); k*o.Step <= mostAltitude; k++ {
		read := k * o.Step
		level := o.free(read).Minutes()
		if level < low || level > high {
			continue
		}
		if lines := g.contour(level); len(lines) > 0 {
			f.Curves = append(f.Curves, Curve{read, weight(read), lines})
		}
	}
	return f
}

// fix crosses the two altitudes.
func (s *StarSheet) fix(o StarOrder, over *sky.Sky) {
	if !o.Read[0].Known || !o.Read[1].Known {
		return
	}
	var lines [2]airplot.Line
	for i, b := range [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body} {
		gha, dec := over.Place(b)
		lines[i] = airplot.Line{
			Locus:  airplot.Altitude{GHA: gha, Declination: dec, Observed: o.free(o.Read[i].Value), Sigma: sigma},
			Source: b.String(), Time: o.Time,
		}
	}
	s.Fixes, s.Err = airplot.Solve(o.Near, lines[:])
}

// siderealRate is how far the sky turns westward in a minute of time: 15.041
// minutes of arc (a turn in 23 h 56 m 4.1 s).
const siderealRate = 21600 / 1436.0682

// Westward is how far star curves go westward in a minute at a latitude.
func Westward(lat units.Angle) units.Length {
	return units.Length(siderealRate*math.Cos(lat.Radians())) * units.NM
}

// Tilt is the shift of a fix by two bubble sights in flight: how far, and to
// which side of the track (true direction). The crossing of the curves is to be
// moved by it if the altitudes are as a bubble shows them.
func Tilt(speed units.Speed, lat, track units.Angle) (units.Length, units.Angle) {
	z := sight.BubbleShift(speed, lat, track, 0).Total()
	to := track + 90*units.Degree
	if z < 0 {
		z, to = -z, to+180*units.Degree
	}
	return z, units.Wrap(to)
}

// Turning is how far westward the sky turns in a time.
func Turning(d time.Duration) units.Angle {
	return units.Angle(siderealRate*d.Minutes()) * units.ArcMinute
}
