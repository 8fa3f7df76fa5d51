package integrator

import (
	"fmt"
	"slices"

	"stillair/integrator/airlog"
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

// Value is one value of the service table, by its name there.
type Value struct {
	Name string
	X    float64
}

// healthy are the imperfections of a used instrument, in the order of the
// chain; a choice of this project (testdata/mech_service.csv).
var healthy = [...]Value{
	{"line_lag_s", 0.3},
	{"tas_scale", 0.005},
	{"threshold_kt", 60},
	{"regulator_ripple", 0.01},
	{"train_play_nm", 0.05},
	{"deviation_b_deg", 1},
	{"deviation_c_deg", -0.5},
	{"slaving_deg_min", 2},
	{"slaving_dead_band_deg", 0.5},
	{"repeater_step_deg", 0.5},
	{"repeater_lag_s", 0.3},
	{"secant_limit_deg", 70},
}

// values are those of the class with the single values of the flight in their
// place, in the order of the chain.
func (c *Config) values() (out []Value) {
	for _, v := range healthy {
		x, given := c.Values[v.Name]
		switch {
		case given:
			out = append(out, Value{v.Name, x})
		case c.Class == Service:
			out = append(out, v)
		}
	}
	return out
}

// Imperfections are what the class and the single values make of the links of
// the mechanism. What they make of the senses is in Senses.
func (c *Config) Imperfections() (w Imperfections, err error) {
	w.Ground.Design = c.Ground
	if w.AirLog.Source, err = source(c.TemperatureSource); err != nil {
		return w, err
	}
	if err := c.known(); err != nil {
		return w, err
	}
	for _, v := range c.values() {
		w.Set(v.Name, v.X) // those of the senses are left
	}
	return w, nil
}

// Senses are the values that no link of the mechanism takes, in the order of
// the chain: they belong to the lines, to the compass and to the repeaters.
func (c *Config) Senses() (out []Value) {
	var w Imperfections
	for _, v := range c.values() {
		if !w.Set(v.Name, v.X) {
			out = append(out, v)
		}
	}
	return out
}

// known refuses a value that the service table does not have.
func (c *Config) known() error {
	for name, x := range c.Values {
		if !slices.ContainsFunc(healthy[:], func(v Value) bool { return v.Name == name }) {
			return fmt.Errorf("%s = %g: no such value", name, x)
		}
	}
	return nil
}

func source(word string) (airlog.Source, error) {
	switch word {
	case "", "bulb":
		return airlog.Bulb, nil
	case "standard":
		return airlog.Standard, nil
	case "hand-set":
		return airlog.HandSet, nil
	}
	return 0, fmt.Errorf("temperature_source = %q", word)
}

// What the service table leaves open: how far below its least speed the air log
// stops, and the beat of its regulator.
const (
	hysteresis   = 5 * units.Knot // as the fault low-speed-threshold
	ripplePeriod = 2.0            // s, as the fault regulator-ripple
	rippleDuty   = 0.5
)

// Set gives one value of the service table to the link it belongs to; false if
// it belongs to none of the mechanism.
func (w *Imperfections) Set(name string, x float64) bool {
	switch name {
	case "tas_scale":
		w.AirLog.Scale = x
	case "threshold_kt":
		w.AirLog.Threshold, w.AirLog.Hysteresis = units.Speed(x)*units.Knot, hysteresis
	case "regulator_ripple":
		w.AirLog.Ripple = airlog.Ripple{Amount: x, Period: ripplePeriod, Duty: rippleDuty}
	case "train_play_nm":
		w.Drive.Play = x
	case "secant_limit_deg": // of the make: both pairs of trains have it
		w.Train.SecantLimit = units.Angle(x) * units.Degree
		w.Ground.Train.SecantLimit = w.Train.SecantLimit
	default:
		return false
	}
	return true
}
