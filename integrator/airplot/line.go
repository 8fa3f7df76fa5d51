package airplot

import (
	"math"
	"time"

	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// Kind says what sort of reading a position line comes from.
type Kind uint8

// The kinds of position lines.
const (
	BearingKind Kind = iota + 1
	AltitudeKind
	TimeDifferenceKind
	TrackKind
	PinpointKind
)

// Locus is a reading and thereby a curve: the places where the same would be
// read. The types of this package are the only ones.
type Locus interface {
	Kind() Kind
	// departure is the reading less what would be read at p, in radians,
	// metres or seconds. Its gradient is that of the reading, reversed.
	departure(p units.Position) float64
	// sigma is one standard deviation in the same unit, for a gradient of so
	// much per metre.
	sigma(perMetre float64) float64
	// before is where the aircraft was when it read, if it is at p after a run.
	before(p units.Position, r Run) units.Position
}

// Line is a position line: a reading, and the run from its time to the time for
// which the line is wanted. A line with a run is a transferred one.
type Line struct {
	Locus  Locus
	Run    Run
	Time   time.Time // of the reading
	Source string    // what was observed, as the chart has it: "Gannet Rock"
}

// Transferred is the line moved on by a further run. Runs along one track add
// up; a run after a turn does not fit into one rhumb line: ok is then false.
func (l Line) Transferred(r Run) (moved Line, ok bool) {
	switch {
	case l.Run.Distance == 0:
		l.Run = r
	case r.Distance == 0:
	case math.Abs(float64(units.WrapHalf(l.Run.Track-r.Track))) < 1e-9:
		l.Run.Distance += r.Distance
	default:
		return l, false
	}
	return l, true
}

// departure is that of the reading, for an aircraft at p at the time wanted.
func (l Line) departure(p units.Position) float64 {
	return l.Locus.departure(l.Locus.before(p, l.Run))
}

// Bearing is the true bearing of a station, taken in the aircraft: the azimuth
// there of the geodesic to the station. One of Sigma (of the bearing) and Across
// (of the line, across itself, at the place in question) is given; Across counts
// if both are.
type Bearing struct {
	Station units.Position
	Bearing units.Angle
	Sigma   units.Angle
	Across  units.Length
}

// Kind is BearingKind.
func (Bearing) Kind() Kind { return BearingKind }

func (b Bearing) departure(p units.Position) float64 {
	azimuth, _, _ := geodesy.GeodesicInverse(p, b.Station)
	return float64(units.WrapHalf(b.Bearing - azimuth))
}

func (b Bearing) sigma(perMetre float64) float64 {
	if b.Across != 0 {
		return b.Across.Metres() * perMetre
	}
	return b.Sigma.Radians()
}

func (Bearing) before(p units.Position, r Run) units.Position { return r.back(p) }

// Altitude is the observed altitude of a body, corrected for all but position:
// a circle about the place where the body is overhead.
type Altitude struct {
	GHA, Declination units.Angle
	Observed         units.Angle
	Sigma            units.Angle // a minute moves the line by a mile
}

// Kind is AltitudeKind.
func (Altitude) Kind() Kind { return AltitudeKind }

func (a Altitude) departure(p units.Position) float64 {
	hc, _ := sight.Reduce(p, a.GHA, a.Declination)
	return float64(a.Observed - hc)
}

func (a Altitude) sigma(float64) float64 { return a.Sigma.Radians() }

func (Altitude) before(p units.Position, r Run) units.Position { return r.backByArc(p) }

// Rhumb is a line drawn on the chart: a rhumb line through a point, on one side
// or the other of which the aircraft is by Across, one standard deviation. A
// track and a drift line are such lines.
type Rhumb struct {
	Through  units.Position
	Course   units.Angle
	Across   units.Length
	pinpoint bool
}

// Kind is TrackKind, or PinpointKind for the lines of a pinpoint.
func (l Rhumb) Kind() Kind {
	if l.pinpoint {
		return PinpointKind
	}
	return TrackKind
}

// departure is how far the line lies to the right of p, seen along its course;
// for distances that are small beside the earth.
func (l Rhumb) departure(p units.Position) float64 {
	course, distance := geodesy.RhumbInverse(l.Through, p)
	return -distance.Metres() * math.Sin(float64(course-l.Course))
}

func (l Rhumb) sigma(float64) float64 { return l.Across.Metres() }

func (Rhumb) before(p units.Position, r Run) units.Position { return r.back(p) }

// Pinpoint is a place recognised below: two lines through it, along the parallel
// and along the meridian, so that it may be weighed against other lines. Sigma
// is one standard deviation of each.
func Pinpoint(at units.Position, sigma units.Length, when time.Time, source string) [2]Line {
	line := func(course units.Angle) Line {
		return Line{Locus: Rhumb{at, course, sigma, true}, Time: when, Source: source}
	}
	return [2]Line{line(90 * units.Degree), line(0)}
}
