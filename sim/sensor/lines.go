package sensor

import (
	"math"

	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/lag"
	"stillair/integrator/units"
)

// AlternatePositionError is that of the alternate static source, which takes
// cabin air: its pressure is a little low and the dials read a little high
// (physics note 2.5; the size is an engineering choice).
const AlternatePositionError = -0.05

// metreOfWater is the pressure under a metre of water of 1000 kg/m3.
const metreOfWater units.Pressure = 9806.65

// Lines are the pressures on their way from head and vents to the unit and the
// dials, which hang on the same lines.
//
//	head, vents -> [blockage, cabin leak] -> Pitot, Static
//	   -> [alternate source, leak, water] -> Driven -> [lag] -> Unit
type Lines struct {
	Head          Pressures // true, at the head and in the free air
	Pitot, Static units.Pressure
	Leak          units.Pressure // come in from the cabin, above that at the vents
	LeakSettle    float64        // seconds, of the last leak
	Driven, Unit  Pressures
}

// Pressures are a pair of total and static pressure.
type Pressures struct{ Pitot, Static units.Pressure }

// run fills ideal lines.
func (l *Lines) run(head airlog.Inputs) {
	p := Pressures{head.Pitot, head.Static}
	l.Head, l.Driven, l.Unit = p, p, p
	l.Pitot, l.Static = p.Pitot, p.Static
}

func (s *State) linesIdeal() bool {
	w := &s.Wrong
	return w.Pitot == (Pitot{}) && w.Static == (Static{}) && w.LineLag == 0 && !s.Alternate && s.Lines.Leak == 0
}

// runLines gives the pressures at the unit.
func (s *State) runLines(head airlog.Inputs, dt float64) (pitot, static units.Pressure) {
	l := &s.Lines
	to := Pressures{head.Pitot, head.Static}
	l.fillStatic(to, dt, &s.Wrong.Static)
	l.fillPitot(to, dt, &s.Wrong.Pitot)
	l.Head = to

	driven := Pressures{l.Pitot, l.Static}
	if s.Alternate {
		driven.Static = to.Static + AlternatePositionError*(to.Pitot-to.Static)
	}
	driven.Pitot = s.Wrong.Pitot.spoil(driven, dt)
	l.Unit.Pitot = follow(l.Unit.Pitot, l.Driven.Pitot, driven.Pitot, dt, s.Wrong.LineLag)
	l.Unit.Static = follow(l.Unit.Static, l.Driven.Static, driven.Static, dt, s.Wrong.LineLag)
	l.Driven = driven
	return l.Unit.Pitot, l.Unit.Static
}

// fillStatic brings the pressure in the static line to that at the vents and
// what comes in from the cabin. Blocked, the line keeps its pressure; the leak
// goes on beside it.
func (l *Lines) fillStatic(to Pressures, dt float64, w *Static) {
	qc, before := to.Pitot-to.Static, l.Head.Pitot-l.Head.Static
	if w.Leak != 0 {
		l.LeakSettle = w.Settle
	}
	k := units.Pressure(w.Leak * w.CabinOverQc)
	l.Leak = follow(l.Leak, k*before, k*qc, dt, l.LeakSettle)
	if math.Abs(float64(l.Leak)) < 1e-6 && k == 0 { // Pa: below any dial
		l.Leak = 0
	}
	if !w.Trapped {
		l.Static = to.Static + units.Pressure(w.PositionError)*qc + l.Leak
	}
}

// fillPitot brings the pressure in the pitot line to that at the head, or lets
// it run out of the drain.
func (l *Lines) fillPitot(to Pressures, dt float64, w *Pitot) {
	switch {
	case w.Trapped:
	case w.RamBlocked:
		l.Pitot = follow(l.Pitot, l.Head.Static, to.Static, dt, w.Decay)
	default:
		l.Pitot = to.Pitot
	}
}

// spoil is the total pressure that leak and water leave of the impact pressure
// in the line.
func (w *Pitot) spoil(line Pressures, dt float64) units.Pressure {
	if w.Leak == 0 && w.Surge.Amplitude == 0 && w.WaterHead == 0 {
		return line.Pitot
	}
	qc := (line.Pitot - line.Static) * units.Pressure(1-w.Leak)
	if a := w.Surge.Amplitude; a != 0 {
		qc *= units.Pressure(1 + a*math.Sin(2*math.Pi*math.Mod((w.Surge.Since+dt)/w.Surge.Period, 1)))
	}
	return line.Static + qc - metreOfWater*units.Pressure(w.WaterHead)
}

func follow(y, from, to units.Pressure, dt, tau float64) units.Pressure {
	return units.Pressure(lag.Follow(float64(y), float64(from), float64(to), dt, tau))
}

// VerticalSpeedLag is that of the vertical speed dial, seconds of a first-order
// lag: the dial has come to a new rate after some 6 to 9 s (common practice, no
// source).
const VerticalSpeedLag = 3.0

// VerticalSpeed is the dial: the rate at which the altimeter changes, late. The
// dial of ideal lines has no lag; one that has been disturbed keeps its lag
// until it has come to rest.
type VerticalSpeed struct {
	Reads  units.Speed
	Static units.Pressure // felt at the end of the last step
	Late   bool
}

const atRest = 1e-6 // m/s

func (d *VerticalSpeed) run(climb units.Speed, static units.Pressure, dt float64, ideal bool) {
	if !ideal && d.Static != 0 {
		d.Late = true
	}
	if !d.Late {
		*d = VerticalSpeed{Reads: climb, Static: static}
		return
	}
	if dt == 0 {
		return
	}
	rate := float64(isa.PressureAltitude(static)-isa.PressureAltitude(d.Static)) / dt
	d.Reads = units.Speed(rate - lag.Behind(rate-float64(d.Reads), 0, dt, VerticalSpeedLag))
	d.Static = static
	d.Late = !ideal || math.Abs(float64(d.Reads-climb)) > atRest
}

// LineLag is the lag of a line, seconds: a tube of length and bore that feeds
// instruments of so many cubic metres, in the standard air of a pressure
// altitude. 128 mu L V/(pi d^4 p), laminar and isothermal (physics note 2.7).
func LineLag(length, bore units.Length, volume float64, h units.Length) float64 {
	d2 := float64(bore) * float64(bore)
	return 128 * isa.Viscosity(isa.Temperature(h)) * float64(length) * volume / (math.Pi * d2 * d2 * float64(isa.Pressure(h)))
}
