package integrator

import (
	"fmt"

	"stillair/integrator/ground"
	"stillair/integrator/units"
)

// Class is the build of the instrument.
type Class uint8

// The two classes: Ideal has no imperfection and no secant limit; Service has
// the healthy imperfections of a used instrument.
const (
	Ideal Class = iota
	Service
)

// LongitudeDesign says how the longitude counter meets 0 and 180.
type LongitudeDesign uint8

// The three designs of the longitude counter.
const (
	HemisphereAuto  LongitudeDesign = iota // E/W letter drum, reverses by itself
	East360                                // 000 to 359 59.9, always east
	HemisphereLever                        // the crew throws the lever
)

// Config is how one instrument was built. The zero value is the default.
type Config struct {
	Class     Class
	Ground    ground.Design
	Longitude LongitudeDesign
	// Values are single values of the service table given by the flight, by
	// their names there; nil: none.
	Values map[string]float64
	// TemperatureSource is "", "bulb", "standard" or "hand-set".
	TemperatureSource string
}

// Imperfections are what the class and the single values make of the links. It
// refuses what this version does not build.
func (c *Config) Imperfections() (w Imperfections, err error) {
	if c.Class != Ideal {
		return w, fmt.Errorf("the class of the mechanism is not ideal")
	}
	if c.TemperatureSource != "" && c.TemperatureSource != "bulb" {
		return w, fmt.Errorf("temperature_source = %q", c.TemperatureSource)
	}
	for name, x := range c.Values {
		switch name {
		case "secant_limit_deg":
			w.Train.SecantLimit = units.Angle(x) * units.Degree
			w.Ground.Train.SecantLimit = w.Train.SecantLimit
		case "tas_scale":
			w.AirLog.Scale = x
		default:
			return w, fmt.Errorf("%s = %g", name, x)
		}
	}
	return w, nil
}
