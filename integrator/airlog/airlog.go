// Package airlog is the unit that turns pitot and static pressure and air
// temperature into true airspeed, and winds it into air miles.
//
//	qc = pitot - static                 impact pressure, Pa; below 0 it counts as 0
//	M  = sqrt(5 ((qc/p + 1)^(2/7) - 1))  Mach number (NASA RP-1046)
//	V  = M a(T)                          true airspeed
//
// Its shaft turns in proportion to V. The air log counter is tapped from that
// shaft, before the drive, so that a slipping drive shows as a disagreement.
// Within a tick the speed is taken to run evenly from its one end to the other.
package airlog

import (
	"math"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Inputs are the pressures at the unit, after the lines, and the temperature
// of the air as its bulb gives it.
type Inputs struct {
	Pitot, Static units.Pressure
	Temperature   units.Temperature
}

// State is the unit at one moment.
type State struct {
	TAS   units.Speed       // speed of the shaft; its ripple is not in it
	Miles units.Sum         // NM on the air log counter
	Set   units.Temperature // on the knob of the hand-set temperature; 0: not yet set

	Felt    units.Speed // what the capsules ask of the shaft
	Stands  bool        // the shaft stands, below its least speed
	Hunting float64     // s into the period of the ripple

	last Inputs       // at the end of the last step
	was  Imperfection // in the last step
}

// Settle takes up the inputs as they stand, without winding: after a sudden
// change at a tick boundary, and at the start. The knob of the hand-set
// temperature, if it was not set yet, is set by the thermometer.
func (s *State) Settle(in Inputs, w *Imperfection) {
	first := s.Set == 0
	if first {
		s.Set = in.Temperature
	}
	s.last, s.was = in, *w
	s.Felt = s.speed(in, w)
	s.Stands = s.stands(s.Felt, w)
	if first || !w.Frozen {
		s.turn()
	}
}

// turn sets the speed of the shaft by what is felt.
func (s *State) turn() {
	s.TAS = s.Felt
	if s.Stands {
		s.TAS = 0
	}
}

// Wind runs the unit for a step of dt seconds that ends with these inputs and
// returns the air miles (NM) that its shaft turned.
func (s *State) Wind(in Inputs, dt float64, w *Imperfection) float64 {
	miles := s.run(in, dt, w)
	s.Miles.Add(miles)
	return miles
}

// WindAt does so while a hand turns the shaft at a speed of its own; the unit
// before it goes on, and what it would have turned is given too.
func (s *State) WindAt(v units.Speed, in Inputs, dt float64, w *Imperfection) (unheld, miles float64) {
	unheld = s.run(in, dt, w)
	miles = units.Length(float64(v) * dt).NM()
	s.Miles.Add(miles)
	return unheld, miles
}

// run runs the unit for a step and gives what it would turn its shaft.
func (s *State) run(in Inputs, dt float64, w *Imperfection) float64 {
	if s.was != *w { // something broke or was mended at the beginning of the step
		s.Settle(s.last, w)
	}
	miles := units.Length(float64(s.follow(in, w)) * dt).NM()
	if w.Ripple.Amount != 0 || s.Hunting != 0 {
		miles *= s.hunt(dt, w)
	}
	return miles
}

// follow brings the shaft to what is felt at the end of a step and gives its
// mean speed over the step.
func (s *State) follow(in Inputs, w *Imperfection) units.Speed {
	tas, felt, stood := s.TAS, s.Felt, s.Stands
	s.last, s.Felt = in, s.speed(in, w)
	s.Stands = s.stands(s.Felt, w)
	if w.Frozen {
		return tas
	}
	s.turn()
	if s.Stands != stood {
		return meanOver(felt, s.Felt, s.Stands, w)
	}
	return 0.5 * (tas + s.TAS)
}

// speed is what the capsules and the temperature channel make of the inputs.
func (s *State) speed(in Inputs, w *Imperfection) units.Speed {
	t := s.Cam(in, w)
	qc := in.Pitot - in.Static
	var v units.Speed
	if w.Incompressible {
		v = isa.IncompressibleTAS(qc, isa.Density(in.Static, t))
	} else {
		v = isa.TAS(isa.Mach(qc, in.Static), t)
	}
	return v * units.Speed(1+w.Scale)
}

// coldest keeps a temperature that was set far too low above absolute zero.
const coldest units.Temperature = 100

// Cam is the temperature that the density cam is set by.
func (s *State) Cam(in Inputs, w *Imperfection) units.Temperature {
	if w.Source == Bulb && w.TemperatureError == 0 {
		return in.Temperature
	}
	return s.temperature(in, w)
}

// Turns is the speed at which the shaft turns now, the ripple of its regulator
// evened out: one whose two parts are as long as each other is not in it.
func (s *State) Turns(w *Imperfection) units.Speed {
	if r := &w.Ripple; r.Amount != 0 && r.Period > 0 && !w.Frozen {
		return s.TAS * units.Speed(1+r.Amount*(2*r.Duty-1))
	}
	return s.TAS
}

func (s *State) temperature(in Inputs, w *Imperfection) units.Temperature {
	t := in.Temperature
	switch w.Source {
	case Standard:
		return isa.Temperature(isa.PressureAltitude(in.Static))
	case HandSet:
		t = s.Set
	}
	return max(coldest, t+units.Temperature(w.TemperatureError))
}

// stands tells whether the shaft stands at a speed asked for.
func (s *State) stands(v units.Speed, w *Imperfection) bool {
	switch {
	case v >= w.Threshold:
		return false
	case v < w.Threshold-w.Hysteresis:
		return true
	}
	return s.Stands
}

// meanOver is the mean speed of a step in which the shaft started or stopped
// while what was asked of it ran evenly from one speed to another.
func meanOver(from, to units.Speed, stopped bool, w *Imperfection) units.Speed {
	if from == to {
		return to
	}
	runs, at := to, w.Threshold
	if stopped {
		runs, at = from, w.Threshold-w.Hysteresis
	}
	part := max(0, min(1, (runs-at)/units.Speed(math.Abs(float64(to-from)))))
	return part * 0.5 * (runs + at)
}

// hunt runs the ripple on for dt seconds and gives the mean of its factor. Its
// period begins when it appears.
func (s *State) hunt(dt float64, w *Imperfection) float64 {
	r := &w.Ripple
	if r.Amount == 0 || r.Period <= 0 {
		s.Hunting = 0
		return 1
	}
	fast := func(t float64) float64 { // seconds of the faster part up to t
		whole := math.Floor(t / r.Period)
		return (whole*r.Duty + min(t/r.Period-whole, r.Duty)) * r.Period
	}
	end := s.Hunting + dt
	part := (fast(end) - fast(s.Hunting)) / dt
	s.Hunting = math.Mod(end, r.Period)
	if w.Frozen {
		return 1
	}
	return 1 + r.Amount*(2*part-1)
}
