package sim

import (
	"hash/fnv"
	"math"
	"reflect"

	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/sim/aircraft"
	"stillair/sim/earth"
	"stillair/sim/geomag"
	"stillair/sim/sensor"
)

// State is everything that moves, at one tick. It holds no pointer, map, slice
// or function: copying it keeps it.
type State struct {
	Tick      int64
	Commands  int64 // commands applied so far
	Over      bool  // the last leg has ended
	World     World
	Chance    sensor.Chance
	Senses    sensor.State
	Sensed    integrator.Inputs
	Mechanism integrator.State
	Leg       LegState
	Follow    bool // the variation setter follows the field
	Faults    FaultState
	ClockGain float64 // seconds that the clock aboard is fast
}

// World is the truth.
type World struct {
	Ground, Air earth.Place // Air: the start moved without wind
	Aircraft    aircraft.State
	Variation   units.Variation
	North, East float64 // the moving air here and now, m/s
	Force       float64 // of the earth's field, horizontal, nT; 0: not known
	Field       geomag.Patch
	Run         Run
}

// Run is how far the aircraft has flown, and the air under it moved, in metres.
type Run struct {
	Flown               units.Sum // through the air since the start
	Since               int64     // tick at which the counters were set; from there:
	North, East         units.Sum // through the air
	WindNorth, WindEast units.Sum
}

func (r *Run) add(north, east, windNorth, windEast float64) {
	r.North.Add(north)
	r.East.Add(east)
	r.WindNorth.Add(windNorth)
	r.WindEast.Add(windEast)
}

// setCounters begins the true air position anew where the aircraft is, as the
// counters are set.
func (w *World) setCounters(tick int64) {
	w.Air = earth.At(w.Ground.Position())
	w.Run = Run{Flown: w.Run.Flown, Since: tick}
}

// LegState is how far the present leg has come.
type LegState struct {
	Index int64
	Began int64
	Frame Steer     // what Aircraft.Orders.Heading is read on
	Flown units.Sum // metres through the air on this leg
	ToGo  float64   // rad to the place, by what the pilot knows
}

// Hash is FNV-1a over the float64 bits (and integers and booleans as 64-bit
// words) of the state in declared order.
func (s *State) Hash() uint64 {
	h := fnv.New64a()
	var word [8]byte
	put := func(x uint64) {
		for i := range word {
			word[i] = byte(x >> (8 * i))
		}
		h.Write(word[:]) // a hash never fails to write
	}
	hashValue(reflect.ValueOf(s).Elem(), put)
	return h.Sum64()
}

func hashValue(v reflect.Value, put func(uint64)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			hashValue(v.Field(i), put)
		}
	case reflect.Array:
		for i := range v.Len() {
			hashValue(v.Index(i), put)
		}
	case reflect.Float64, reflect.Float32:
		put(math.Float64bits(v.Float()))
	case reflect.Bool:
		if v.Bool() {
			put(1)
		} else {
			put(0)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		put(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		put(v.Uint())
	default:
		panic("sim: the state holds a " + v.Kind().String())
	}
}
