package sky

import (
	"math"

	"stillair/integrator/units"
)

// The earth's turning (IERS), standard gravity (exact, by definition) and a mean
// radius: what the reference rows of the bubble are worked with.
const (
	earthRate  = 7.292115e-5 // radians a second
	gravity    = 9.80665     // metres a second, a second
	meanRadius = 6371 * units.Kilometre
)

// Motion is how an aircraft moves over the earth while a bubble is held.
type Motion struct {
	Latitude      units.Angle
	Track         units.Angle // true
	Groundspeed   units.Speed
	TurnPerSecond units.Angle // of the track, right +
	GainPerSecond units.Speed // of the groundspeed
}

// Lean is how far the zenith that a bubble shows lies from the true one, to the
// right of the track and ahead, from first principles (reference note on
// astronomy, 5.6):
//
//	right = -(2 omega V sin L + V^2 tan L sin C / R - V C') / g
//	ahead = V' / g
//
// where the second term is the turning of a constant true track toward the
// meridian. It has no sense within a degree of a pole, where the latitude is
// held at 89 degrees.
func (m Motion) Lean() (right, ahead units.Angle) {
	lat := math.Max(-89, math.Min(89, m.Latitude.Degrees())) * (math.Pi / 180)
	v := m.Groundspeed.MetresPerSecond()
	z := 2*earthRate*v*math.Sin(lat) +
		v*v*math.Tan(lat)*math.Sin(m.Track.Radians())/meanRadius.Metres() -
		v*m.TurnPerSecond.Radians()
	return units.Angle(math.Atan(-z / gravity)), units.Angle(math.Atan(m.GainPerSecond.MetresPerSecond() / gravity))
}

// Misread is how much too high a bubble shows a body at an azimuth, by the lean
// of its zenith toward the body.
func (m Motion) Misread(azimuth units.Angle) units.Angle {
	right, ahead := m.Lean()
	sin, cos := math.Sincos((azimuth - m.Track).Radians())
	return right*units.Angle(sin) + ahead*units.Angle(cos)
}
