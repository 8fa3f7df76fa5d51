package sighting

import (
	"math"
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/sim"
)

// drift is a hand at the drift sight.
type drift struct {
	base
	wires  float64 // degrees
	run    float64 // radii of the view that the sea has run
	tick   int64
	height units.Length // pressure altitude

	timing watch
	began  int64 // tick of the first press
	took   int64 // ticks between the two
}

// watch is the stop watch of the drift sight.
type watch uint8

const (
	watchIdle watch = iota
	watchRuns
	watchStopped
)

// The drift sight: how far the ring goes, a fine step, how much of the height the radius of
// the view spans, and how long the sea runs on at most between two looks: as long as one may
// time something, so that neither a slow window nor a fast clock lets the sea fall behind it.
const (
	mostDrift = 25.0 // degrees
	driftStep = 0.1
	viewSpan  = 0.5
	mostJump  = 600.0 // s
)

// timingAt is how far from the middle the timing wires lie, radii of the view.
var timingAt = math.Tan(float64(aboard.TimingWire)) / viewSpan

func (d *drift) See(s *aboard.Scene, v *aboard.View) {
	d.see(s)
	if past := float64(s.Tick-d.tick) / sim.TicksPerSecond; past > 0 {
		d.run += s.Rate * math.Min(past, mostJump) / viewSpan
	}
	// A clock that was put back, or a sea that is hidden, has no time between.
	if s.Tick < d.tick || s.Missing != aboard.Had {
		d.timing = watchIdle
	}
	d.tick, d.height = s.Tick, v.PressureAltitude
}

func (d *drift) Turn(steps float64) { d.wires = clamp(d.wires+steps*driftStep, mostDrift) }

func (d *drift) Drag(clockwise, _ float64) {
	d.wires = clamp(d.wires+clockwise/picture.DriftGear, mostDrift)
}

func (d *drift) Controls() []Control {
	c := Control{Word: look.Text(look.DriftTime), Hint: look.Text(look.DriftTimeHint), In: d.timing == watchRuns, Off: d.Wanting()}
	switch d.timing {
	case watchRuns:
		c.Word = look.Text(look.DriftStop)
	case watchStopped:
		c.Word = look.Text(look.DriftTimeAgain)
	}
	return []Control{c}
}

// Press starts the watch, or stops it; a time of nothing is none.
func (d *drift) Press(int) {
	switch {
	case d.Wanting() != "":
	case d.timing != watchRuns:
		d.timing, d.began = watchRuns, d.tick
	case d.tick > d.began:
		d.timing, d.took = watchStopped, d.tick-d.began
	default:
		d.timing = watchIdle
	}
}

func (d *drift) Draw(b *picture.Brush, x, y, r float64) {
	picture.DrawDriftSight(b, x, y, r, picture.DriftSight{
		Wires: d.wires, Streaks: picture.StreaksAt(d.run, 7), Drift: degrees(d.scene.Along), Night: d.scene.Night,
		Nothing: d.scene.Missing != aboard.Had, Across: timingAt, Timing: d.timing == watchRuns,
	})
}

func (d *drift) Value() string { return aboard.DriftText(units.Angle(d.wires)*units.Degree, 1) }

// Under is the time that runs, or the groundspeed that came of it.
func (d *drift) Under() string {
	switch t := d.timed(); {
	case d.timing == watchRuns:
		return SecondsText(sim.TimeOf(d.tick - d.began))
	case t.Gives():
		return t.GroundspeedText()
	}
	return ""
}

// SecondsText writes a time to a tenth of a second: 19.2 s.
func SecondsText(t time.Duration) string { return units.Figure(t.Seconds(), 1) + " s" }

func (d *drift) Told() string {
	switch {
	case d.Wanting() != "":
		return d.Wanting()
	case d.timing == watchRuns:
		return look.Text(look.DriftTiming)
	case d.timing == watchStopped:
		return look.Textf(look.DriftTimed, SecondsText(sim.TimeOf(d.took)), units.HeightText(d.height))
	case d.scene.Night:
		return look.Text(look.DriftToldNight)
	}
	return look.Text(look.DriftTold)
}

// timed is the timing as it is read now, with the height as it is shown now.
func (d *drift) timed() aboard.Timing {
	if d.timing != watchStopped {
		return aboard.Timing{}
	}
	t := aboard.Timing{On: true, Took: sim.TimeOf(d.took), Height: d.height}
	t.Groundspeed, _ = airplot.GroundspeedByTiming(t.Height, aboard.TimingWire, -aboard.TimingWire, t.Took)
	return t
}

// Reading is the drift, and the time if one was taken; what that is worked with is filled
// in when it is entered.
func (d *drift) Reading() aboard.Reading {
	r := aboard.Reading{Aim: d.aim, Angle: units.Angle(math.Round(10*d.wires)/10) * units.Degree}
	if t := d.timed(); t.On {
		r.Timing = aboard.Timing{On: true, Took: t.Took}
	}
	return r
}
