package sighting

import (
	"math"
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// sextant is a hand at the bubble sextant. The two minutes begin when the body is held
// in the bubble for the first time; the mean of where the wheel stood is the reading.
type sextant struct {
	base
	set    float64 // altitude, minutes of arc
	began  int64   // tick; only if taking
	tick   int64   // the last one that counts
	sum    float64 // of altitude by ticks
	taking bool
}

// The sextant: the length of a sight, minutes of arc in the radius of the view, those
// within which the body is in the bubble, and those off at which it is found.
const (
	sightTicks = 120 * sim.TicksPerSecond
	viewArc    = 40.0
	bubbleArc  = 9.0
	foundOff   = 18.0
	radiusArc  = 25.0 // minutes that a drag over the radius of the ring turns
)

func (s *sextant) See(scene *aboard.Scene, _ *aboard.View) {
	if s.see(scene) { // the body is found, near the middle
		s.set = math.Round(scene.Altitude.Minutes()/5)*5 - foundOff
	}
	if scene.Missing != aboard.Had {
		return
	}
	switch {
	case s.taking && scene.Tick < s.tick: // the clock was put back
		s.PressSecond()
	case s.taking && s.tick-s.began < sightTicks:
		to := min(scene.Tick, s.began+sightTicks)
		s.sum += s.set * float64(to-s.tick)
		s.tick = to
	case !s.taking && s.inBubble():
		s.taking, s.began, s.tick, s.sum = true, scene.Tick, scene.Tick, 0
	}
}

// off is how far the body stands above the middle of the bubble, minutes.
func (s *sextant) off() float64 {
	return s.scene.Altitude.Minutes() - s.set - s.scene.Wander.Minutes()
}

func (s *sextant) inBubble() bool { return math.Abs(s.off()) < bubbleArc }

func (s *sextant) Turn(steps float64)     { s.set += steps }
func (s *sextant) Drag(_, up float64)     { s.set += up * radiusArc }
func (s *sextant) Second() (string, bool) { return look.Text(look.SextantAgain), false }

// PressSecond begins the two minutes anew.
func (s *sextant) PressSecond() { s.taking = false }

// share is how much of the two minutes has gone.
func (s *sextant) share() float64 {
	if !s.taking {
		return 0
	}
	return float64(s.tick-s.began) / sightTicks
}

func (s *sextant) Draw(b *picture.Brush, x, y, r float64) {
	disc := s.aim.Source == "Sun" || s.aim.Source == "Moon"
	p := picture.Sextant{
		BubbleX: s.scene.Aside.Minutes() / viewArc, BubbleY: -s.scene.Wander.Minutes() / viewArc,
		BodyY: -(s.scene.Altitude.Minutes() - s.set) / viewArc, Sun: disc, Share: s.share(),
		Wheel: s.set / 20, Field: len(s.aim.Source), Day: !s.scene.Night,
	}
	if s.scene.Missing != aboard.Had {
		p.BodyY = math.NaN()
	}
	picture.DrawSextant(b, x, y, r, p)
}

// mean is that of the two minutes so far, or where the wheel stands.
func (s *sextant) mean() units.Angle {
	m := s.set
	if s.taking && s.tick > s.began {
		m = s.sum / float64(s.tick-s.began)
	}
	return units.Angle(m) * units.ArcMinute
}

func (s *sextant) Value() string { return AltitudeText(s.mean()) }

func (s *sextant) Told() string {
	if !s.taking {
		return s.told(look.SextantFind)
	}
	if s.share() >= 1 {
		return look.Text(look.SextantDone)
	}
	left := int(math.Ceil(float64(sightTicks-(s.tick-s.began)) / sim.TicksPerSecond))
	return look.Textf(look.SextantHold, left)
}

func (s *sextant) Wanting() string {
	if why := s.base.Wanting(); why != "" {
		return why
	}
	if s.share() < 1 {
		return look.Text(look.SextantNotYet)
	}
	return ""
}

func (s *sextant) Reading() aboard.Reading {
	middle := s.began + sightTicks/2
	tenth := math.Round(s.mean().Minutes()*10) / 10
	return aboard.Reading{
		Aim: s.aim, Angle: units.Angle(tenth) * units.ArcMinute,
		Before: time.Duration(s.scene.Tick-middle) * time.Second / sim.TicksPerSecond,
	}
}
