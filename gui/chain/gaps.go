package chain

import (
	"math"
	"time"

	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim"
)

// gap is how far a value is from what it ought to be, and how far it may be in a
// mechanism in order, both in one unit.
type gap struct{ off, limit float64 }

// share is the gap in units of its limit; what cannot be told is no gap.
func (g gap) share() float64 {
	x := math.Abs(g.off) / g.limit
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

// How far a healthy link may be off. All are a choice of this project.
//
//	pressures    1.5 hPa    0.3 s of line lag in any climb or change of speed is
//	                        0.2 hPa; a knot at 180 kt is 0.5
//	speeds       0.5 kt + 1 %   a used air log reads 0.5 % high; half a knot is
//	                        what its dial shows
//	compass      2 deg      a used one keeps 1.1 deg of deviation and hangs off by
//	                        half a degree; beside a magnetic pole, where its
//	                        needle is weak, more, and then it is said to be off
//	headings     1.5 deg    three steps of a repeater
//	in a turn    5 deg      a repeater of 0.3 s is 0.9 deg behind at 3 deg/s, one
//	                        that is slaved a little more
//	setter       0.5 deg    what a hand can set
//	wind         3 kt       a wind told in tens of degrees is out by 3 kt at 35 kt
//	balls        2 in 100   of the full way: a degree of heading
//	lengths      0.3 NM + 1 %   play of the trains, and the speed's part
//	places       1.0' + 1 % of the run   the sphere of the mechanism is up to
//	                        0.52 % long or short, its air log 0.5 %; 3 % in the
//	                        service class, whose compass alone is 1.6 deg out
//	gears        1 %        of the ratio: half a degree of latitude at 47
//	clock        0.5 %      18 s an hour
const (
	pressureLimit = 1.5  // hPa
	speedLimit    = 0.5  // kt
	compassLimit  = 2.0  // degrees
	headingLimit  = 1.5  // degrees
	turnLimit     = 5.0  // degrees
	setterLimit   = 0.5  // degrees
	windLimit     = 3.0  // kt
	ballLimit     = 0.02 // of the full way
	lengthLimit   = 0.3  // NM
	placeLimit    = 1.0  // minutes of arc
	part          = 0.01 // of the value or the run
	partUsed      = 0.03 // of the run, in the service class
	clockLimit    = 0.005
)

func pressures(a, b units.Pressure) gap {
	return gap{(a - b).Hectopascals(), pressureLimit}
}

func speeds(a, b units.Speed) gap {
	return gap{(a - b).Knots(), speedLimit + part*math.Abs(b.Knots())}
}

// pairs are two shafts at right angles, with the limit of the speed that both
// are parts of.
func pairs(n, e, rightN, rightE units.Speed) gap {
	return gap{math.Hypot((n - rightN).Knots(), (e - rightE).Knots()), speedLimit + part*math.Hypot(rightN.Knots(), rightE.Knots())}
}

func lengths(a, b units.Length) gap {
	return gap{(a - b).NM(), lengthLimit + part*math.Abs(b.NM())}
}

func degrees(a, b units.Angle, limit float64) gap { return gap{turnOf(a, b).Degrees(), limit} }

func ratios(a, b float64) gap { return gap{a - b, part * b} }

// total is how far a link passes on something else than the truth.
func (s *Story) total(of picture.Link) gap {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkPitot:
		return pressures(w.Pitot, r.Pitot)
	case picture.LinkStatic:
		return pressures(w.Static, r.Static)
	case picture.LinkCapsules:
		return pressures(impact(w.Pitot, w.Static), impact(r.Pitot, r.Static))
	case picture.LinkAirLog, picture.LinkCounter:
		return speeds(w.TAS, r.TAS)
	case picture.LinkDrive:
		return speeds(w.Drive, r.Drive)
	case picture.LinkCompass, picture.LinkDeviation:
		return degrees(units.Angle(w.Compass), units.Angle(r.Compass), s.headingLimit(compassLimit))
	case picture.LinkVariation:
		return degrees(units.Angle(w.Compass)+units.Angle(w.Setter), units.Angle(r.Sent), s.headingLimit(compassLimit))
	case picture.LinkRepeater:
		return degrees(units.Angle(w.Heading), units.Angle(r.Heading), s.headingLimit(compassLimit))
	case picture.LinkResolver:
		return gap{math.Hypot(w.BallNorth-r.BallNorth, w.BallEast-r.BallEast), ballLimit}
	case picture.LinkNorthDisc:
		return gap{(w.NorthRate - r.NorthRate).Knots(), speedLimit + part*r.TAS.Knots()}
	case picture.LinkEastDisc:
		return gap{(w.EastRate - r.EastRate).Knots(), speedLimit + part*r.TAS.Knots()}
	case picture.LinkSecant: // what it passes on is the turning of the longitude shaft
		return gap{(minutesAnHour(w.Longitude) - minutesAnHour(r.Longitude)).Knots() / r.Secant, speedLimit + part*r.TAS.Knots()}
	case picture.LinkGroundSecant:
		e, re := w.GroundEast*units.Speed(w.GroundSecant/r.GroundSecant), r.GroundEast
		return pairs(r.GroundNorth, e, r.GroundNorth, re)
	}
	return s.totalGround(of)
}

func (s *Story) totalGround(of picture.Link) gap {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkLatitude:
		return gap{(w.Air.Lat - r.Air.Lat).Minutes(), s.airLimit()}
	case picture.LinkLongitude:
		return gap{turnOf(w.Air.Lon, r.Air.Lon).Minutes() * math.Cos(float64(r.Air.Lat)), s.airLimit()}
	case picture.LinkClock:
		return gap{w.Clock - r.Clock, clockLimit}
	case picture.LinkWind:
		n, e := w.Wind.Velocity()
		rn, re := r.Wind.Velocity()
		run := units.Speed(w.Clock)
		return gap{math.Hypot((run*n - rn).Knots(), (run*e - re).Knots()), windLimit}
	case picture.LinkAdders:
		return pairs(w.GroundNorth, w.GroundEast, r.GroundNorth, r.GroundEast)
	case picture.LinkGround:
		return gap{apart(units.Position(w.Ground), units.Position(r.Ground)), s.groundLimit()}
	case picture.LinkMarker:
		return gap{apart(units.Position(w.Marker), units.Position(r.Marker)), s.groundLimit()}
	}
	return gap{0, 1}
}

// own is how far a link departs from its own law, given what it takes up. What
// begins the chain is held against the truth.
func (s *Story) own(of picture.Link) gap {
	w, r := &s.Now, s.Truth
	if s.held(of) {
		return gap{0, 1}
	}
	switch of {
	case picture.LinkPitot, picture.LinkStatic, picture.LinkCompass, picture.LinkClock:
		return s.total(of)
	case picture.LinkAirLog:
		return s.ownAirLog()
	case picture.LinkDrive:
		return speeds(w.Drive, w.TAS)
	case picture.LinkVariation:
		return degrees(units.Angle(w.Setter), units.Angle(r.Setter), setterLimit)
	case picture.LinkRepeater:
		return degrees(units.Angle(w.Heading), units.Angle(w.Compass)+units.Angle(w.Setter), s.headingLimit(headingLimit))
	case picture.LinkResolver:
		sin, cos := math.Sincos(float64(w.Heading))
		return gap{math.Hypot(w.BallNorth-cos, w.BallEast-sin), ballLimit}
	case picture.LinkNorthDisc:
		return s.ownDisc(w.NorthRate, w.BallNorth)
	case picture.LinkEastDisc:
		return s.ownDisc(w.EastRate, w.BallEast)
	case picture.LinkSecant:
		return ratios(w.Secant, secant(w.Air.Lat))
	}
	return s.ownGround(of)
}

func (s *Story) ownGround(of picture.Link) gap {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkLatitude:
		return speeds(minutesAnHour(w.Latitude), w.NorthRate)
	case picture.LinkLongitude:
		return speeds(minutesAnHour(w.Longitude), w.EastRate*units.Speed(w.Secant))
	case picture.LinkWind:
		n, e := w.Wind.Velocity()
		rn, re := r.Wind.Velocity()
		return gap{math.Hypot((n - rn).Knots(), (e - re).Knots()), windLimit}
	case picture.LinkGroundSecant:
		if s.Mechanism.Ground == ground.Plotted { // it stands at a middle latitude
			return ratios(w.GroundSecant, secant(w.GroundGear))
		}
		return ratios(w.GroundSecant, secant(w.Ground.Lat))
	case picture.LinkMarker:
		return gap{apart(units.Position(w.Marker), units.Position(w.Ground)), lengthLimit}
	}
	return gap{0, 1}
}

// ownAirLog holds the air log against the law of its capsules and the true
// temperature. A shaft that stands below the least speed of the make is in
// order (threshold of the service table: 60 kt, 5 kt hysteresis).
func (s *Story) ownAirLog() gap {
	w := &s.Now
	law := isa.TAS(isa.Mach(impact(w.Pitot, w.Static), w.Static), s.Truth.Temperature)
	if w.TAS == 0 && law < 65*units.Knot {
		return gap{0, 1}
	}
	return speeds(w.TAS, law)
}

// ownDisc holds a disc against its input and its ball. One that takes up the
// play of its train stands, and is in order.
func (s *Story) ownDisc(rate units.Speed, ball float64) gap {
	if rate == 0 {
		return gap{0, 1}
	}
	return gap{(rate - s.Now.Drive*units.Speed(ball)).Knots(), speedLimit + part*s.Now.Drive.Knots()}
}

// minutesAnHour takes a rate of turning in rad/s as minutes of arc an hour: a
// speed, as one minute of latitude is one mile.
func minutesAnHour(rate float64) units.Speed {
	return units.Speed(units.Angle(rate).Minutes()) * units.Speed(units.NM)
}

func secant(lat units.Angle) float64 { return 1 / math.Cos(float64(lat)) }

// headingLimit is a limit of a heading, wider while the aircraft turns.
func (s *Story) headingLimit(straight float64) float64 {
	if s.turning() {
		return turnLimit
	}
	return straight
}

// A turn is over at the latest after the time that half a circle takes at half a
// degree a second, and a repeater needs some seconds after it.
const (
	longestTurn = 6 * time.Minute
	settling    = 10 * time.Second
)

// turning tells from the plot whether the aircraft turns, or has just done so.
func (s *Story) turning() bool {
	if s.View == nil {
		return false
	}
	for i := len(s.View.Marks) - 1; i >= 0; i-- {
		m := &s.View.Marks[i]
		since := s.View.Elapsed - m.Elapsed
		switch {
		case since > longestTurn:
			return false
		case m.Event == aboard.TurnEnded:
			return since < settling
		case m.Event == aboard.LegBegun:
			return true
		}
	}
	return false
}

// run is how far the aircraft went through the air since the counters were set,
// NM, at its present speed.
func (s *Story) run() float64 { return s.Truth.TAS.Knots() * s.Truth.WindRun / 3600 }

func (s *Story) airLimit() float64 { return placeLimit + s.part()*s.run() }

// part is what a place may be off by of the run.
func (s *Story) part() float64 {
	if s.Mechanism.Class == integrator.Service {
		return partUsed
	}
	return part
}

// groundLimit adds what the method itself is out by: air path and wind are summed
// apart, and V W t^2 tan(phi) / 2R is the most that this makes (mechanism's laws,
// ground position; R = 3437.75 NM).
func (s *Story) groundLimit() float64 {
	const radius = 3437.746771
	wind := s.Truth.Wind.Speed.Knots() * s.Truth.WindRun / 3600
	method := s.run() * wind * math.Abs(math.Tan(float64(s.Truth.Ground.Lat))) / (2 * radius)
	return placeLimit + s.part()*(s.run()+wind) + method
}

// apart is the distance of two places in minutes called miles: north, and east
// times the cosine of the right latitude.
func apart(a, right units.Position) float64 { return sim.OffsetOf(a, right).NM() }
