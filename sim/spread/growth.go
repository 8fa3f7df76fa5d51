package spread

import "math"

// Way is what the closed form needs to know of a flight at a moment, from when the
// counters were last set.
type Way struct {
	Hours       float64 // since then
	North, East float64 // NM flown through the air, straight
	FromStart   bool    // they have not been set since the start
	Temperature float64 // K
}

// Growth is the covariance of the error that a law leads to, in closed form
// (navigation note 7.1, written for any track: d is the way through the air since
// the counters were set, straight, for constant errors of heading and of speed
// turn and stretch that, whatever the turns on it):
//
//	across d  sqrt((d s_h)^2 + w^2)     s_h^2: compass, variation, repeater, resolver, rad
//	along d   sqrt((d s_v)^2 + w^2)     s_v^2: air log, drive, and by first order
//	                                    static e/2, thermometer e/(2 T)
//	w^2 = (s_w t)^2 + wander + start
//	wander    2 s^2 tau (t - tau (1 - exp(-t/tau)))
//
// The static and thermometer terms are for speeds at which the air does not
// compress; at Mach 0.4 they are 2 percent off (computed).
func (l *Law) Growth(w Way) Covariance {
	var head, speed float64
	for _, t := range []Term{Compass, Variation, Repeater, Resolver} {
		head = math.Hypot(head, l.Sigma[t]*math.Pi/180)
	}
	speed = math.Hypot(l.Sigma[AirLog], l.Sigma[Drive])
	speed = math.Hypot(speed, l.Sigma[Static]/2)
	if w.Temperature > 0 {
		speed = math.Hypot(speed, l.Sigma[Thermometer]/(2*w.Temperature))
	}
	round := l.Sigma[Wind] * w.Hours
	round = math.Hypot(round, l.Sigma[Wander]*w.Hours*Persistence(w.Hours, l.WanderTime.Hours()))
	if w.FromStart {
		round = math.Hypot(round, l.Sigma[Start])
	}
	c := Covariance{NN: round * round, EE: round * round}
	return c.plus(speed*w.North, speed*w.East).plus(-head*w.East, head*w.North)
}

// Persistence is how far a velocity error with exponential correlation leads in
// time t, as a part of how far a constant one would: sqrt(2 (x - 1 + exp(-x)))/x
// with x = t/tau; 1 for short times, sqrt(2/x) for long ones.
func Persistence(t, tau float64) float64 {
	if tau <= 0 {
		return 0
	}
	x := t / tau
	if x < 1e-3 {
		return 1 - x/6 // next term x^2 (1/24 - 1/72): 3e-8
	}
	return math.Sqrt(2*(x+math.Expm1(-x))) / x
}
