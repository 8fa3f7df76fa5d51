// Package sensor is what the aircraft's senses feel of the world: pitot and
// static pressure, air temperature, magnetic heading. In this version the
// senses are perfect; their imperfections live here when they come.
package sensor

import (
	"stillair/integrator"
	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim/stream"
)

// Chance is the streams of the instruments, each drawn once a tick. Perfect
// senses do not look at them.
type Chance struct{ Pitot, Static, Thermometer, Compass stream.Stream }

// NewChance seeds the streams of a flight.
func NewChance(seed uint64) Chance {
	return Chance{
		Pitot: stream.New(seed, "pitot"), Static: stream.New(seed, "static"),
		Thermometer: stream.New(seed, "thermometer"), Compass: stream.New(seed, "compass"),
	}
}

// Draw takes the numbers of the next tick.
func (c *Chance) Draw() {
	c.Pitot.Draw()
	c.Static.Draw()
	c.Thermometer.Draw()
	c.Compass.Draw()
}

// World is the part of the truth that the senses meet.
type World struct {
	TAS         units.Speed
	Height      units.Length // pressure altitude
	Temperature units.Temperature
	Heading     units.TrueHeading
	Variation   units.Variation
}

// Feel gives the inputs of the mechanism.
//
//	p  = the pressure of the standard atmosphere at the pressure altitude
//	qc = p ((1 + 0.2 M^2)^3.5 - 1),  M = TAS / a(T)
func Feel(w World) integrator.Inputs {
	static := isa.Pressure(w.Height)
	mach := float64(w.TAS) / float64(isa.SpeedOfSound(w.Temperature))
	return integrator.Inputs{
		Air: airlog.Inputs{
			Pitot:       static + isa.ImpactPressureAtMach(mach, static),
			Static:      static,
			Temperature: w.Temperature,
		},
		Compass: w.Heading.Magnetic(w.Variation).Compass(0),
	}
}
