// Package aid is what can be seen through the navigator's aids, with the errors of
// the aid itself. The errors of the hand that reads are the person's: a reading is
// whatever the hand makes of what is to be seen.
//
// Each aid has an error of its own that stays for a flight, drawn from a stream with
// the aid's name, and what flickers: that is worked from the seed, the aid and the
// tick alone, so that looking or not looking changes nothing. All functions are pure.
//
// Notation
//
//	azimuth, bearing   clockwise from true north, at the aircraft
//	relative bearing   clockwise from the nose
//	drift              track minus heading, to the right +
//	us                 microseconds
//
// Sizes of errors: of the loop 'from memory' (navigation note of this project,
// section 3), of the pulse receiver what 'about 6 miles at 400' asks for (section 5.2);
// the others common practice, no source.
package aid

import (
	"encoding/binary"
	"hash/fnv"
	"math"

	"stillair/integrator/units"
	"stillair/sim/stream"
)

// World is what of the world an aid sees by.
type World struct {
	Seed        uint64
	Tick        int64
	At          units.Position
	Heading     units.Angle // true
	Track       units.Angle // true
	Groundspeed units.Speed
	Height      units.Length
	TurnRate    float64 // rad/s, to the right +
	Pressure    units.Pressure
	Temperature units.Temperature
}

// fixed is an error that stays for a flight: a standard normal deviate.
func (w *World) fixed(aid string) float64 {
	s := stream.New(w.Seed, "aid "+aid)
	return s.Normal()
}

// flicker is a standard normal deviate of an aid that is another one every so many
// ticks.
func (w *World) flicker(aid string, every int64) float64 {
	s := stream.New(w.Seed^mixed(aid, w.Tick/every), "flicker")
	return s.Normal()
}

// phase is an angle of an aid that stays for a flight, rad.
func (w *World) phase(aid string) float64 {
	s := stream.New(w.Seed, "phase "+aid)
	return 2 * math.Pi * s.Uniform()
}

// mixed is a number of a name and a count.
func mixed(name string, n int64) uint64 {
	h := fnv.New64a()
	h.Write([]byte(name))
	h.Write(binary.LittleEndian.AppendUint64(nil, uint64(n)))
	return h.Sum64()
}
