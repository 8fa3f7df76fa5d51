package sight

import (
	"math"

	"stillair/integrator/units"
)

// Shift is how far a position line found with a bubble horizon has to be moved
// to the RIGHT of the track (left where negative), in its three parts.
type Shift struct {
	Coriolis units.Length // the earth turns under the flight: 2.62 V sin L
	Rhumb    units.Length // a constant true track bends: 0.146 V^2 sin C tan L
	Turn     units.Length // the track changes: -5.25 V C'
}

// Total is the sum of the three.
func (s Shift) Total() units.Length { return s.Coriolis + s.Rhumb + s.Turn }

// BubbleShift gives the shift for a flight at a groundspeed and track in a
// latitude, V in hundreds of knots and C' in degrees a minute, right +. The
// coefficients are those of the sight-reduction tables, from memory; first
// principles give 2.630, 0.1456 and 5.246, within 0.4 per cent.
//
// The rhumb part is for a constant true track and must be left out on a
// great circle held by gyro. It grows without limit toward a pole.
func BubbleShift(groundspeed units.Speed, latitude, track, turnPerMinute units.Angle) Shift {
	v := groundspeed.Knots() / 100
	sinLat, tanLat := math.Sin(latitude.Radians()), math.Tan(latitude.Radians())
	return Shift{
		Coriolis: units.Length(2.62*v*sinLat) * units.NM,
		Rhumb:    units.Length(0.146*v*v*math.Sin(track.Radians())*tanLat) * units.NM,
		Turn:     units.Length(-5.25*v*turnPerMinute.Degrees()) * units.NM,
	}
}

// AltitudeCorrection is the same shift as an amount to add to the observed
// altitude of a body at an azimuth: Z sin(Zn - track). In the northern
// hemisphere a body to the right of the track reads too low.
func (s Shift) AltitudeCorrection(azimuth, track units.Angle) units.Angle {
	return units.Angle(s.Total().NM()*math.Sin((azimuth-track).Radians())) * units.ArcMinute
}
