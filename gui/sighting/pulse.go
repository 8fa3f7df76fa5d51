package sighting

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// pulse is a hand at the pulse receiver.
type pulse struct {
	base
	delay  float64 // us
	closer bool
}

// The pulse receiver: a fine step, what a turn of the knob is, and what the radius of
// the view spans, us.
const (
	pulseStep  = 0.2
	pulseTurn  = 40.0
	pulseWide  = 250.0
	pulseClose = 25.0
)

func (p *pulse) See(s *aboard.Scene, _ *aboard.View) {
	if p.see(s) {
		p.delay = math.Round(s.Delay/50)*50 + 100
	}
}

func (p *pulse) Turn(steps float64)        { p.delay = math.Max(0, p.delay+steps*pulseStep) }
func (p *pulse) Drag(clockwise, _ float64) { p.Turn(clockwise / 360 * p.turn() / pulseStep) }
func (p *pulse) Second() (string, bool)    { return look.Text(look.PulseCloser), p.closer }
func (p *pulse) PressSecond()              { p.closer = !p.closer }

// turn is what a turn of the knob is: more where the traces are long.
func (p *pulse) turn() float64 {
	if p.closer {
		return pulseTurn
	}
	return 5 * pulseTurn
}

func (p *pulse) span() float64 {
	if p.closer {
		return pulseClose
	}
	return pulseWide
}

func (p *pulse) Draw(b *picture.Brush, x, y, r float64) {
	w := picture.Pulse{
		Offset: p.scene.Delay - p.delay, PerRadius: p.span(), Amplitude: [2]float64{1, 0.8},
		Noise: int(p.scene.Tick / 3 % 64), Knob: math.Mod(p.delay/p.turn()*360, 360), Name: p.aim.Source,
	}
	if p.scene.Missing != aboard.Had {
		w.Amplitude = [2]float64{}
	}
	picture.DrawPulse(b, x, y, r, w)
}

func (p *pulse) Value() string { return units.Figure(p.delay, 1) + look.Text(look.PulseUnit) }
func (p *pulse) Told() string  { return p.told(look.PulseTold) }

func (p *pulse) Reading() aboard.Reading {
	return aboard.Reading{Aim: p.aim, Delay: math.Round(10*p.delay) / 10}
}
