// Package sighting is what a hand does at the navigator's aids: it turns a ring, a wheel
// or a knob while it looks at a scene, and in the end there is a reading, which is where
// the control then stands and nothing else. It knows nothing of the toolkit.
package sighting

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"strings"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Hand is a hand at an aid.
type Hand interface {
	// See brings it up to what is to be seen and to what the dials show.
	See(s *aboard.Scene, v *aboard.View)
	// Turn turns the control by so many fine steps, right or up +.
	Turn(steps float64)
	// Drag turns the ring or the knob along with a hand that goes so many degrees
	// clockwise, or so many radii of the ring up.
	Drag(clockwise, up float64)
	// Draw draws the eyepiece.
	Draw(b *picture.Brush, x, y, r float64)
	// Value is what is read now, as on the plate; Told what is to be done, or is so.
	Value() string
	Told() string
	// Wanting is why it cannot be read yet, "" if it can.
	Wanting() string
	// Reading is what was read.
	Reading() aboard.Reading
	// Controls are the aid's further controls, two at most; Press presses one.
	Controls() []Control
	Press(i int)
	// Under is a line under the value, "" if there is none; Bar is how strong a signal is,
	// of one, and the least so far; ok is false of an aid that hears none.
	Under() string
	Bar() (signal, lowest float64, ok bool)
	// Homing says whether the aid is flown by: it then goes on when it is no longer looked
	// through.
	Homing() bool
}

// Control is a further control of an aid: its word, what it does, whether it is pressed in
// and why it cannot be pressed, "" if it can.
type Control struct {
	Word, Hint string
	In         bool
	Off        string
}

// coarse is how many fine steps a coarse one has.
const coarse = 10

// Coarse is how many fine steps a coarse turn of an aid's control is.
func Coarse(a aboard.Aid) float64 {
	if a == aboard.PulseReceiver {
		return 250
	}
	return coarse
}

// New puts a hand to an aid; nil for an aid without an eyepiece.
func New(a aboard.Aim) Hand {
	b := base{aim: a}
	switch a.Aid {
	case aboard.DriftSight:
		return &drift{base: b}
	case aboard.Sextant:
		return &sextant{base: b}
	case aboard.Loop:
		return newLoop(b)
	case aboard.PulseReceiver:
		return &pulse{base: b}
	case aboard.HeadingCheck:
		return &check{base: b}
	}
	return nil
}

// base is what all hands have.
type base struct {
	aim   aboard.Aim
	scene aboard.Scene
	seen  bool
}

// see keeps the scene; first says whether it is the first with something in it.
func (b *base) see(s *aboard.Scene) (first bool) {
	b.scene = *s
	if s.Missing != aboard.Had || b.seen {
		return false
	}
	b.seen = true
	return true
}

// Wanting is why nothing is to be seen.
func (b *base) Wanting() string { return MissingText(b.scene.Missing) }

// Controls are none.
func (b *base) Controls() []Control { return nil }

// Press does nothing.
func (b *base) Press(int) {}

// Under is nothing.
func (b *base) Under() string { return "" }

// Bar is none.
func (b *base) Bar() (signal, lowest float64, ok bool) { return 0, 0, false }

// Homing is what only the loop does.
func (b *base) Homing() bool { return false }

// told is what is to be done, or why there is nothing to do.
func (b *base) told(k look.Key) string {
	if why := b.Wanting(); why != "" {
		return why
	}
	return look.Text(k)
}

var missing = map[aboard.Missing]look.Key{
	aboard.TooFar: look.MissingTooFar, aboard.TooLow: look.MissingTooLow, aboard.TooLight: look.MissingTooLight,
	aboard.OutOfSight: look.MissingOutOfSight, aboard.NotThere: look.MissingNotThere, aboard.OnlyOneThere: look.MissingOnlyOne,
	aboard.OutOfOrder: look.MissingOutOfOrder, aboard.OverCloud: look.MissingOverCloud,
}

// MissingText says why an aid has nothing to show, "" if it has.
func MissingText(m aboard.Missing) string {
	if m == aboard.Had {
		return ""
	}
	return look.Text(missing[m])
}

// crewErrors are the standard deviations of the errors of the crew's hand, in the
// units of aboard.Reading.Error (common practice, no source).
var crewErrors = map[aboard.Aid]float64{
	aboard.DriftSight: 0.5, aboard.Sextant: 2, aboard.Loop: 1, aboard.PulseReceiver: 0.5, aboard.HeadingCheck: 0.3, aboard.Pinpoint: 0.3,
}

// crewTiming is that of a time from wire to wire, s: the two presses of a stop watch (common
// practice, no source).
const crewTiming = 0.3

// ByCrew is a reading that the program's hand takes at a tick, with an error drawn from
// aim and tick.
func ByCrew(a aboard.Aim, tick int64) aboard.Reading {
	h := fnv.New64a()
	_, _ = h.Write([]byte(a.String()))
	draw := rand.New(rand.NewPCG(h.Sum64(), uint64(tick)))
	drawn := func(sigma float64) float64 {
		return math.Round(100*sigma*math.Max(-2.5, math.Min(2.5, draw.NormFloat64()))) / 100
	}
	r := aboard.Reading{Aim: a, ByCrew: true, Error: drawn(crewErrors[a.Aid])}
	if a.Aid == aboard.DriftSight {
		r.Timing = aboard.Timing{On: true, Error: drawn(crewTiming)}
	}
	return r
}

// AltitudeText writes an altitude with its signs: 43° 35.6′.
func AltitudeText(a units.Angle) string {
	return strings.Replace(aboard.AltitudeText(a), " ", "° ", 1) + "′"
}

// ValueText is what was read, as the window writes it.
func ValueText(r *aboard.Reading) string {
	switch r.Aid {
	case aboard.Sextant:
		return AltitudeText(r.Angle)
	case aboard.PulseReceiver:
		return units.Figure(r.Delay, 1) + look.Text(look.PulseUnit)
	}
	return r.Value()
}

// degrees is an angle as a number.
func degrees(a units.Angle) float64 { return a.Degrees() }

// clamp keeps v within -most to most.
func clamp(v, most float64) float64 { return math.Max(-most, math.Min(most, v)) }
