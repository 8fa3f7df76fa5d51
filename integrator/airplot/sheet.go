package airplot

import (
	"errors"
	"math"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Sheet is the navigator's plot of a moment: the readings in the log, and what those
// that are used give.
type Sheet struct {
	Readings []Taken
	Used     []bool // of the readings
	At       time.Duration
	DR       units.GroundPosition // the ground position shown then
	Moved    []Moved              // of the readings used
	Fixes    []Fix                // one, or two where the lines cross twice; none: Err says why
	Err      error
	Hat      *Hat         // of three lines
	LeftOut  units.Length // how far the fix moves at most if one line is left out; 0 of two lines

	// The wind found from the air position at the time of the fix, since the counters
	// were last set; Since 0: none.
	Air   units.AirPosition
	Wind  units.Wind
	Since time.Duration
}

// Moved is a line of a reading, and the run to the time of the fix in it.
type Moved struct {
	Reading int // in Sheet.Readings
	Line    Line
}

// LeastForWind is the least time since the counters were set from which a wind is
// found: a mile of error in the fix is 10 kt in six minutes.
const LeastForWind = 6 * time.Minute

// farFromDR is how far from the ground position shown a second crossing may lie and still
// be in question.
const farFromDR = 300 * units.NM

// ReadingsOf are the readings in the log, with what the crew had when they were good.
func ReadingsOf(v *aboard.View) (all []Taken) {
	marks := Traces(v.Marks)
	for _, e := range v.Log {
		if e.Event != aboard.Observed {
			continue
		}
		when := max(0, e.Elapsed-e.Action.Reading.Before)
		all = append(all, Taken{Entry: e, When: when, Air: marks.AirAt(when), Ground: marks.GroundAt(when), Heading: e.Heading})
	}
	return all
}

// HasLine says whether a reading gives a position line.
func (t *Taken) HasLine() bool { return len(t.Lines(time.Time{})) > 0 }

// Work works a plot from the readings that are used, at the time of the newest of
// them; used has a value for each reading.
func Work(v *aboard.View, used []bool) *Sheet {
	s := &Sheet{Readings: ReadingsOf(v), Used: used}
	marks, start := Traces(v.Marks), v.Clock.Add(-v.Elapsed)
	for i := range s.Readings {
		if s.uses(i) {
			s.At = max(s.At, s.Readings[i].When)
		}
	}
	s.DR = marks.GroundAt(s.At)
	var lines []Line
	for i := range s.Readings {
		if !s.uses(i) {
			continue
		}
		r := marks.GroundRun(s.Readings[i].When, s.At)
		for _, l := range s.Readings[i].Lines(start) {
			l.Run = r
			s.Moved, lines = append(s.Moved, Moved{i, l}), append(lines, l)
		}
	}
	s.fix(lines)
	s.wind(marks)
	return s
}

func (s *Sheet) uses(i int) bool { return i < len(s.Used) && s.Used[i] && s.Readings[i].HasLine() }

func (s *Sheet) fix(lines []Line) {
	near := units.Position(s.DR)
	if s.Fixes, s.Err = Solve(near, lines); s.Err != nil {
		return
	}
	if len(s.Fixes) > 1 && geodesy.Distance(near, s.Fixes[1].Position) > farFromDR {
		s.Fixes = s.Fixes[:1] // circles of altitude cross again, in another part of the world
	}
	if len(lines) < 3 {
		return
	}
	if len(lines) == 3 {
		if hat, err := CockedHat(near, [3]Line(lines)); err == nil {
			s.Hat = &hat
		}
	}
	for i := range lines {
		rest := append(append([]Line(nil), lines[:i]...), lines[i+1:]...)
		if f, err := Solve(s.Fixes[0].Position, rest); err == nil {
			s.LeftOut = max(s.LeftOut, geodesy.Distance(f[0].Position, s.Fixes[0].Position))
		}
	}
}

func (s *Sheet) wind(marks Traces) {
	s.Air = marks.AirAt(s.At)
	since := s.At - marks.SetBefore(s.At)
	if len(s.Fixes) != 1 || since < LeastForWind {
		return
	}
	if w, err := WindFound(s.Air, units.GroundPosition(s.Fixes[0].Position), since); err == nil {
		s.Wind, s.Since = w, since
	}
}

// TakeNearer takes of two crossings the one that lies nearer to the ground position shown,
// as a navigator does who trusts the reckoning so far.
func (s *Sheet) TakeNearer(v *aboard.View) {
	if len(s.Fixes) > 1 {
		s.Fixes = s.Fixes[:1]
		s.wind(Traces(v.Marks))
	}
}

// ErrNoFixYet is the error of NewPosition without a fix.
var ErrNoFixYet = errors.New("there is no fix, or there are two")

// NewPosition is the fix brought on to a later moment: the air run since then, and
// what a wind has done meanwhile. It is what the counters are reset to.
func (s *Sheet) NewPosition(v *aboard.View, wind units.Wind) (units.Position, error) {
	if len(s.Fixes) != 1 {
		return units.Position{}, ErrNoFixYet
	}
	p, err := Traces(v.Marks).AirRun(s.At, v.Elapsed).Forward(s.Fixes[0].Position)
	if err != nil {
		return p, err
	}
	dr, err := DRPosition(units.AirPosition(p), wind, v.Elapsed-s.At)
	return units.Position(dr), err
}

// Miss is how far off a place, truly that of the aircraft when a reading was good, the
// reading's line lies; 0 of a reading without a line. Of a pinpoint it is the distance.
func (t *Taken) Miss(place units.Position) (miss units.Length, ok bool) {
	lines := t.Lines(time.Time{})
	if len(lines) == 0 {
		return 0, false
	}
	if len(lines) > 1 {
		return geodesy.Distance(place, t.Entry.Action.Reading.At), true
	}
	on, err := lines[0].Near(place)
	if err != nil {
		return 0, false
	}
	return geodesy.Distance(place, on.Point), true
}

// DriftsOf are the readings of the drift sight that are used, newest last.
func (s *Sheet) DriftsOf() (all []Drift) {
	for i := range s.Readings {
		t := &s.Readings[i]
		if r := &t.Entry.Action.Reading; r.Aid == aboard.DriftSight && r.Missing == aboard.Had && i < len(s.Used) && s.Used[i] {
			all = append(all, Drift{Heading: t.Heading, TAS: t.Entry.TAS, Drift: r.Angle})
		}
	}
	return all
}

// TimedWind is the wind by drift and groundspeed of the newest reading of the drift sight
// that is used and was timed.
type TimedWind struct {
	units.Wind
	Reading int  // in Sheet.Readings
	Newest  bool // no drift that is used was read later
}

// WindByTiming is the wind of the newest reading of drift and groundspeed that is used,
// with the heading and the true airspeed that the dials showed when it was entered; ok is
// false if there is none.
func (s *Sheet) WindByTiming() (w TimedWind, ok bool) {
	newest := true
	for i := len(s.Readings) - 1; i >= 0; i-- {
		t := &s.Readings[i]
		r := &t.Entry.Action.Reading
		if r.Aid != aboard.DriftSight || r.Missing != aboard.Had || i >= len(s.Used) || !s.Used[i] {
			continue
		}
		if r.Timing.Gives() {
			return TimedWind{WindFromTrack(t.Heading, t.Entry.TAS, r.Angle, r.Timing.Groundspeed), i, newest}, true
		}
		newest = false
	}
	return w, false
}

// towardStation turns a relative bearing that a loop read to the end of its null that
// lies nearer to the station by the ground position shown.
func towardStation(bearing units.Angle, from, station units.Position) units.Angle {
	azimuth, _, _ := geodesy.GeodesicInverse(from, station)
	if math.Abs(float64(units.WrapHalf(bearing-azimuth))) > math.Pi/2 {
		return Reciprocal(bearing)
	}
	return bearing
}
