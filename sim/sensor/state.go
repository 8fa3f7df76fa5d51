package sensor

import (
	"stillair/integrator"
	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// State is what the senses remember, and what is wrong with them now. It holds
// no pointer, map, slice or function: copying it keeps it.
type State struct {
	Wrong     Imperfection
	Alternate bool // the crew has opened the alternate static source
	Last      World
	Lines     Lines
	Dial      VerticalSpeed
	Compass   units.CompassHeading // reading of the magnetic element, deviation included
	Master    Master
}

// World is the part of the truth that the senses meet at the end of a tick.
type World struct {
	TAS         units.Speed
	Height      units.Length // pressure altitude
	Climb       units.Speed
	Temperature units.Temperature
	Heading     units.TrueHeading
	Turned      units.Angle // of the heading within the tick, clockwise
	Variation   units.Variation
	Force       float64 // of the earth's field, horizontal, nT; 0: not known
	Latitude    units.Angle
	WindEast    units.Speed // of the moving air, towards the east
}

// Begin puts the senses into the world with everything at rest, and gives the
// inputs of the mechanism.
func (s *State) Begin(w *World) integrator.Inputs {
	wrong := s.Wrong
	*s = State{Alternate: s.Alternate}
	s.Settle(w)
	s.Wrong = wrong
	return s.Settle(w)
}

// Settle takes up a sudden change of the world or of what is wrong, without
// time going by, and gives the inputs of the mechanism.
func (s *State) Settle(w *World) integrator.Inputs { return s.Step(w, 0) }

// Step runs the senses for dt seconds that end with this world, and gives the
// inputs of the mechanism then. Within a step pressures and rates are taken to
// change uniformly.
func (s *State) Step(w *World, dt float64) integrator.Inputs {
	in := Feel(w)
	ideal := s.linesIdeal()
	if ideal {
		s.Lines.run(in.Air)
	} else {
		in.Air.Pitot, in.Air.Static = s.runLines(in.Air, dt)
	}
	if s.Wrong.Thermometer != (Thermometer{}) {
		in.Air.Temperature = s.Wrong.Thermometer.reading(w)
	}
	s.Dial.run(w.Climb, in.Air.Static, dt, ideal)
	s.Compass = in.Compass
	if s.headingIdeal() {
		s.Master = Master{Zero: units.Angle(in.Compass) - units.Angle(w.Heading)}
	} else {
		s.Compass = s.Wrong.Compass.reading(w.Heading.Magnetic(w.Variation), weakness(w.Force))
		in.Compass = s.runMaster(w, dt)
	}
	s.Last = *w
	return in
}

// Feel is what perfect senses give.
//
//	p  = the pressure of the standard atmosphere at the pressure altitude
//	qc = p ((1 + 0.2 M^2)^3.5 - 1),  M = TAS / a(T)
func Feel(w *World) integrator.Inputs {
	static := isa.Pressure(w.Height)
	return integrator.Inputs{
		Air: airlog.Inputs{
			Pitot:       static + isa.ImpactPressureAtMach(w.mach(), static),
			Static:      static,
			Temperature: w.Temperature,
		},
		Compass: w.Heading.Magnetic(w.Variation).Compass(0),
	}
}

func (w *World) mach() float64 {
	return float64(w.TAS) / float64(isa.SpeedOfSound(w.Temperature))
}

// reading of the bulb: the temperature of the air, the part of the rise by
// ramming that is not taken off, and its error.
func (t *Thermometer) reading(w *World) units.Temperature {
	return isa.IndicatedTemperature(w.Temperature, t.Recovery, w.mach()) + units.Temperature(t.Error)
}
