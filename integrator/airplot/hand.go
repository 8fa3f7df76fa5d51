package airplot

import (
	"math"
	"time"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// A plot drawn by hand is held against the plot that is worked, which both are the
// crew's: what is found are errors of drawing, not of the readings.

// PencilLine is a line drawn by hand from one place to another: on Mercator's chart a
// rhumb line.
type PencilLine struct{ From, To units.Position }

// Measure is its course and length.
func (p PencilLine) Measure() (course units.Angle, length units.Length) {
	return geodesy.RhumbInverse(p.From, p.To)
}

// Nearest is the place of the line, between its ends, that is nearest to another.
func (p PencilLine) Nearest(to units.Position) units.Position {
	course, length := p.Measure()
	if length == 0 {
		return p.From
	}
	bearing, distance := geodesy.RhumbInverse(p.From, to)
	along := distance * units.Length(math.Cos(float64(bearing-course)))
	on, err := geodesy.RhumbDirect(p.From, course, max(0, min(length, along)))
	if err != nil {
		return p.From
	}
	return on
}

// Apart is how far a thing drawn by hand lies from the worked one, and in which
// direction from it; at no distance the direction is 0.
type Apart struct {
	Off  units.Length
	True units.Angle
}

func apartFrom(worked, hand units.Position) Apart {
	course, distance := geodesy.RhumbInverse(worked, hand)
	if distance == 0 {
		course = 0
	}
	return Apart{distance, course}
}

// LineCheck is how a position line drawn by hand lies against the worked one: how far
// off at a place, and by how much it is turned, clockwise +, within a quarter of a
// circle, for a line has no direction.
type LineCheck struct {
	Apart
	Turned units.Angle
	At     units.Position // the place on the line drawn
}

// CheckLine holds a line drawn by hand against a worked one, where the line drawn is
// nearest to a place: the fix, or the DR position. The error is ErrNoFix where the worked
// line does not come near.
func CheckLine(hand PencilLine, worked Line, near units.Position) (LineCheck, error) {
	at := hand.Nearest(near)
	on, err := worked.Near(at)
	if err != nil {
		return LineCheck{}, err
	}
	course, _ := hand.Measure()
	turned := units.Angle(math.Remainder(float64(course-on.Bearing), math.Pi))
	return LineCheck{apartFrom(on.Point, at), turned, at}, nil
}

// RunCheck is how a run drawn by hand, along the air plot or the track, stands against
// the worked one: by how much it is turned, clockwise +, by how much it is longer, and
// where it ends. Begins is how far off its beginning is.
type RunCheck struct {
	Turned       units.Angle
	Longer       units.Length
	Begins, Ends Apart
}

// CheckRun holds a run drawn by hand against a worked one. One of no length has no
// direction: nothing is turned then.
func CheckRun(hand, worked PencilLine) RunCheck {
	course, length := hand.Measure()
	own, should := worked.Measure()
	c := RunCheck{Longer: length - should, Begins: apartFrom(worked.From, hand.From), Ends: apartFrom(worked.To, hand.To)}
	if length > 0 && should > 0 {
		c.Turned = units.WrapHalf(course - own)
	}
	return c
}

// CheckPlace holds a place marked by hand against the worked one.
func CheckPlace(hand, worked units.Position) Apart { return apartFrom(worked, hand) }

// WindCheck is a wind drawn by hand, and how it differs from the worked one: in
// direction, clockwise +, in speed, and as a vector.
type WindCheck struct {
	Wind   units.Wind
	Veered units.Angle
	Faster units.Speed
	Apart  units.Speed
}

// CheckWind holds a wind vector drawn by hand, from the air position to the ground
// position, against the wind worked over the same time. The error is ErrNoTime.
func CheckWind(hand PencilLine, since time.Duration, worked units.Wind) (WindCheck, error) {
	w, err := WindFound(units.AirPosition(hand.From), units.GroundPosition(hand.To), since)
	if err != nil {
		return WindCheck{}, err
	}
	n, e := w.Velocity()
	north, east := worked.Velocity()
	c := WindCheck{Wind: w, Faster: w.Speed - worked.Speed, Apart: units.Speed(math.Hypot(float64(n-north), float64(e-east)))}
	if w.Speed > 0 && worked.Speed > 0 {
		c.Veered = units.WrapHalf(w.From - worked.From)
	}
	return c, nil
}

// HandFix is the place that lines drawn by hand agree on, near a place: where two cross,
// of more the place from which the sum of the squares of the distances is least. The
// errors are those of Solve.
func HandFix(near units.Position, lines []PencilLine) (units.Position, error) {
	all := make([]Line, len(lines))
	for i, l := range lines {
		course, _ := l.Measure()
		all[i] = Line{Locus: Rhumb{Through: l.From, Course: course, Across: units.NM}}
	}
	found, err := Solve(near, all)
	if err != nil {
		return units.Position{}, err
	}
	return found[0].Position, nil
}

// What a plot by hand is good for (common practice, no source): a point is put down
// within a millimetre on the chart, a line laid off within two degrees.
const (
	HandMillimetres = 1.0
	HandDegrees     = 2.0
)

// Allowance is what is granted to a hand on a chart.
type Allowance struct {
	Off    units.Length
	Turned units.Angle
}

// AllowanceFor is that on a chart with so much of the earth to a millimetre. A line so
// short that a millimetre at either end turns it by more is granted that.
func AllowanceFor(perMillimetre units.Length, line PencilLine) Allowance {
	a := Allowance{Off: HandMillimetres * perMillimetre, Turned: HandDegrees * units.Degree}
	if _, length := line.Measure(); length > 0 {
		a.Turned = max(a.Turned, units.Angle(math.Atan2(2*a.Off.Metres(), length.Metres())))
	}
	return a
}

// Grants says whether a line is within it.
func (a Allowance) Grants(c LineCheck) bool {
	return c.Off <= a.Off && units.Angle(math.Abs(float64(c.Turned))) <= a.Turned
}

// GrantsRun says whether a run is: both its ends.
func (a Allowance) GrantsRun(c RunCheck) bool { return c.Begins.Off <= a.Off && c.Ends.Off <= a.Off }

// GrantsWind says whether a wind is, drawn over so long: both ends of its vector may be
// off.
func (a Allowance) GrantsWind(c WindCheck, since time.Duration) bool {
	return units.Length(c.Apart.MetresPerSecond()*since.Seconds()) <= 2*a.Off
}

// OfFix is what is granted to a fix at which lines cut at an angle: each may be off by
// so much.
func (a Allowance) OfFix(cut units.Angle) units.Length {
	return a.Off * units.Length(math.Sqrt2/math.Max(math.Sin(float64(cut)), 0.1))
}
