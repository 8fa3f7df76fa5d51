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
	homing  bool // the coil lies athwart
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
	if !l.homing {
		l.hear(l.bearing)
	}
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

func (l *loop) Turn(steps float64) { l.Drag(steps*loopStep, 0) }
func (l *loop) Homing() bool       { return l.homing }

// The further controls of the loop.
const (
	senseControl = iota
	homeControl
)

// HomeControl is the number of the control that has the loop home on its station.
const HomeControl = homeControl

func (l *loop) Controls() []Control {
	sense := Control{Word: look.Text(look.LoopSense), Hint: look.Text(look.LoopSenseHint), In: l.sense}
	if l.homing {
		sense.Off = look.Text(look.LoopAthwart)
	}
	return []Control{sense, {Word: look.Text(look.LoopHome), Hint: look.Text(look.LoopHomeHint), In: l.homing}}
}

func (l *loop) Press(i int) {
	switch {
	case i == homeControl:
		l.homing = !l.homing
	case !l.homing:
		l.sense = !l.sense
	}
}

// Wanting is also that a needle is no bearing.
func (l *loop) Wanting() string {
	if why := l.base.Wanting(); why != "" || !l.homing {
		return why
	}
	return look.Text(look.LoopAthwart)
}

// Bar is what is heard at the line of the null, and the least so far; with the coil
// athwart all that comes in.
func (l *loop) Bar() (signal, lowest float64, ok bool) {
	switch {
	case l.scene.Missing != aboard.Had:
		return math.NaN(), math.NaN(), true
	case l.homing:
		return 1 - l.scene.Floor, math.NaN(), true
	}
	return l.scene.Signal(units.Angle(l.bearing) * units.Degree), l.lowest, true
}

func (l *loop) Drag(clockwise, _ float64) {
	if l.homing {
		return
	}
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
	if l.homing {
		picture.DrawHoming(b, x, y, r, NeedleOf(&l.scene))
		return
	}
	p := picture.Loop{Bearing: l.bearing, Signal: math.NaN(), Trail: l.heard, Lowest: l.lowest, Sense: l.side()}
	if l.scene.Missing == aboard.Had {
		p.Signal = l.scene.Signal(units.Angle(l.bearing) * units.Degree)
	}
	picture.DrawLoop(b, x, y, r, p)
}

// NeedleOf is the left-right needle of a scene.
func NeedleOf(s *aboard.Scene) picture.Needle {
	side, alive := s.Needle()
	return picture.Needle{Side: side, Dead: !alive}
}

// Value is the bearing; of a coil athwart the side on which the needle lies.
func (l *loop) Value() string {
	if !l.homing {
		return units.RelativeText(l.angle())
	}
	return NeedleText(NeedleOf(&l.scene))
}

// ahead is how far a needle may lie off the middle and be called ahead: two degrees.
const ahead = 0.1

// NeedleText is what a needle says in a word.
func NeedleText(n picture.Needle) string {
	switch {
	case n.Dead:
		return look.Text(look.NeedleDead)
	case n.Side < -ahead:
		return look.Text(look.NeedleLeft)
	case n.Side > ahead:
		return look.Text(look.NeedleRight)
	}
	return look.Text(look.NeedleAhead)
}

func (l *loop) Told() string {
	switch why := l.base.Wanting(); {
	case l.homing && why != "":
		return why
	case l.homing:
		return look.Text(look.LoopToldHome)
	case l.sense:
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
