// Package sensor is what the aircraft's senses feel of the world: pitot and
// static pressure, air temperature, magnetic heading; and what is wrong with
// them between the world and the mechanism.
//
//	pitot head, static vents -> lines -> unit, dials     (lines.go)
//	bulb -> thermometer                                  (state.go)
//	magnetic element -> master gyro -> mechanism         (compass.go, gyro.go)
//
// Imperfection is what is wrong, State what the senses remember. What is
// remembered goes on while something is wrong: what is mended does not jump but
// where its law says so. Rates are first-order lags with inputs that move
// uniformly within a step (package lag), exact for any step; the wander of the
// gyro is the mean of the two ends of a step, its slaving exact.
//
// Laws: mechanism note of this project sections 3 and 5, physics note 2.5 to
// 2.7. Sizes are engineering choices where nothing is said.
package sensor

import "stillair/sim/stream"

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
