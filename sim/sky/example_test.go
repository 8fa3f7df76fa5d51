package sky_test

import (
	"fmt"
	"time"

	"stillair/integrator/units"
	"stillair/sim/sky"
)

// 'Astronomical Algorithms' 2nd ed., example 47.a (from memory): the Moon on
// 1992 April 12 at 0h TD has apparent right ascension 134.688470, declination
// 13.768368, distance 368409.7 km and parallax 0.991990. Delta T was 59 s.
func ExampleSky_Apparent() {
	s := sky.At(time.Date(1992, 4, 11, 23, 59, 1, 0, time.UTC))
	ra, dec := s.Apparent(sky.Moon)
	fmt.Printf("%.3f %.3f, parallax %.4f\n", ra.Degrees(), dec.Degrees(), s.Parallax(sky.Moon).Degrees())
	// Output: 134.688 13.768, parallax 0.9920
}

// Sirius as the reference rows have it: 1942 November 8, 04:45 UT, from 36 N
// 7 30 W, altitude 36.54802 and azimuth 191.75330 (ERFA 2.0.0.1).
func ExampleSky_Horizontal() {
	s := sky.At(time.Date(1942, 11, 8, 4, 45, 0, 0, time.UTC))
	sirius, _ := sky.Lookup("Sirius")
	alt, az := s.Horizontal(sirius, units.At(36, -7.5))
	fmt.Printf("%.3f %.3f\n", alt.Degrees(), az.Degrees())
	// Output: 36.548 191.753
}
