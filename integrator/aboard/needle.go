package aboard

import (
	"math"

	"stillair/integrator/units"
)

// NeedleFull is how far off the nose a station of full strength lays the left-right needle
// hard over (a choice of this instrument).
const NeedleFull = 20 * units.Degree

// Needle is where the left-right needle of the loop stands while the coil lies athwart and
// the sense is heard: -1 hard to the left, 1 hard to the right, to the side on which the
// station lies, as the loop hears it. It is in the middle with the station on the nose, and
// right astern too, where the least swing sends it over; what blurs the null makes it weak.
// Where nothing is heard it is dead: it lies in the middle and alive is false.
func (s *Scene) Needle() (side float64, alive bool) {
	if s.Aid != Loop || s.Missing != Had {
		return 0, false
	}
	at := (1 - s.Floor) * math.Sin(float64(s.Null)) / math.Sin(float64(NeedleFull))
	return math.Max(-1, math.Min(1, at)), true
}
