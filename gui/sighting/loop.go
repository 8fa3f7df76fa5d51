package sighting

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// loop is a hand at the loop.
type loop struct {
	base
	bearing float64 // relative, degrees
	heard   []float64
	lowest  float64
	sense   bool
}

// loopStep is a fine step of the loop, degrees.
const loopStep = 0.5

func newLoop(b base) *loop {
	l := &loop{base: b, heard: make([]float64, 360), lowest: math.NaN()}
	for i := range l.heard {
		l.heard[i] = math.NaN()
	}
	return l
}

func (l *loop) See(s *aboard.Scene, _ *aboard.View) {
	if l.see(s) { // the loop stands anywhere but at the null
		l.bearing = math.Mod(math.Round(degrees(s.Null))+55, 360)
	}
	l.hear(l.bearing)
}

// hear takes up the signal at a bearing.
func (l *loop) hear(at float64) {
	if l.scene.Missing != aboard.Had {
		return
	}
	signal := l.scene.Signal(units.Angle(at) * units.Degree)
	for _, end := range []float64{at, at + 180} { // the other end hears as much
		l.heard[int(math.Mod(math.Round(end)+720, 360))] = signal
	}
	if !(signal >= l.lowest) {
		l.lowest = signal
	}
}

func (l *loop) Turn(steps float64)     { l.Drag(steps*loopStep, 0) }
func (l *loop) Second() (string, bool) { return look.Text(look.LoopSense), l.sense }
func (l *loop) PressSecond()           { l.sense = !l.sense }
func (l *loop) Drag(clockwise, _ float64) {
	for step := 0.0; step < math.Abs(clockwise); step++ { // all that lies between is heard
		l.hear(l.bearing + math.Copysign(step, clockwise))
	}
	l.bearing = math.Mod(l.bearing+clockwise+720, 360)
	l.hear(l.bearing)
}

// side is 1 if the station lies at the near end of the null, -1 at the other; 0 while
// the sense is not heard.
func (l *loop) side() int {
	switch {
	case !l.sense:
		return 0
	case math.Abs(math.Remainder(l.bearing-degrees(l.scene.Null), 360)) < 90:
		return 1
	}
	return -1
}

func (l *loop) Draw(b *picture.Brush, x, y, r float64) {
	p := picture.Loop{Bearing: l.bearing, Signal: math.NaN(), Trail: l.heard, Lowest: l.lowest, Sense: l.side()}
	if l.scene.Missing == aboard.Had {
		p.Signal = l.scene.Signal(units.Angle(l.bearing) * units.Degree)
	}
	picture.DrawLoop(b, x, y, r, p)
}

func (l *loop) Value() string { return units.RelativeText(l.angle()) }

func (l *loop) Told() string {
	if l.sense {
		return l.told(look.LoopToldSense)
	}
	return l.told(look.LoopTold)
}

// angle is the bearing of the end that is read.
func (l *loop) angle() units.Angle {
	at := l.bearing
	if l.side() < 0 {
		at += 180
	}
	return units.Wrap(units.Angle(math.Round(2*at)/2) * units.Degree)
}

func (l *loop) Reading() aboard.Reading { return aboard.Reading{Aim: l.aim, Angle: l.angle()} }
