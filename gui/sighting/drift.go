package sighting

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// drift is a hand at the drift sight.
type drift struct {
	base
	wires float64 // degrees
	run   float64 // radii of the view that the sea has run
	tick  int64
}

// The drift sight: how far the ring goes, a fine step, and how much of the height the
// radius of the view spans.
const (
	mostDrift = 25.0 // degrees
	driftStep = 0.1
	viewSpan  = 0.5
)

func (d *drift) See(s *aboard.Scene, _ *aboard.View) {
	d.see(s)
	if past := float64(s.Tick-d.tick) / sim.TicksPerSecond; past > 0 {
		d.run += s.Rate * math.Min(past, 1) / viewSpan
	}
	d.tick = s.Tick
}

func (d *drift) Turn(steps float64) { d.wires = clamp(d.wires+steps*driftStep, mostDrift) }

func (d *drift) Drag(clockwise, _ float64) {
	d.wires = clamp(d.wires+clockwise/picture.DriftGear, mostDrift)
}

func (d *drift) Draw(b *picture.Brush, x, y, r float64) {
	picture.DrawDriftSight(b, x, y, r, picture.DriftSight{
		Wires: d.wires, Streaks: picture.StreaksAt(d.run, 7), Drift: degrees(d.scene.Along), Night: d.scene.Night,
		Nothing: d.scene.Missing != aboard.Had,
	})
}

func (d *drift) Value() string { return aboard.DriftText(units.Angle(d.wires)*units.Degree, 1) }

func (d *drift) Told() string {
	if d.scene.Night {
		return d.told(look.DriftToldNight)
	}
	return d.told(look.DriftTold)
}

func (d *drift) Reading() aboard.Reading {
	return aboard.Reading{Aim: d.aim, Angle: units.Angle(math.Round(10*d.wires)/10) * units.Degree}
}
