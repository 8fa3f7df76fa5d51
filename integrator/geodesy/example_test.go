package geodesy_test

import (
	"fmt"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

func degreesMinutesSeconds(d, m, s float64) float64 { return d + m/60 + s/3600 }

// Great circle from Los Angeles to New York on the sphere of 60 NM to a degree:
// worked examples of the Aviation Formulary V1.46.
func ExampleGreatCircle() {
	from := units.At(33+57./60, -(118 + 24./60))
	to := units.At(40+38./60, -(73 + 47./60))
	arc, course := geodesy.GreatCircle(from, to)
	fmt.Printf("%.6f rad = %.0f NM\n", arc.Radians(), arc.Minutes())
	fmt.Printf("%.6f rad = %.0f deg\n", course.Radians(), course.Degrees())
	// Output:
	// 0.623585 rad = 2144 NM
	// 1.150035 rad = 66 deg
}

// The point 40 % along the same route (Aviation Formulary V1.46): 38 40.167 N
// 101 37.570 W.
func ExampleGreatCirclePoint() {
	from := units.At(33+57./60, -(118 + 24./60))
	arc, course := geodesy.GreatCircle(from, units.At(40+38./60, -(73+47./60)))
	p := geodesy.GreatCirclePoint(from, course, 0.4*arc)
	fmt.Printf("%.3f N %.3f W\n", p.Lat.Minutes()-38*60, -p.Lon.Minutes()-101*60)
	// Output: 40.167 N 37.570 W
}

// The test line of the Geocentric Datum of Australia technical manual:
// 54972.271 m, 306 52 05.37, reverse azimuth 127 10 25.07.
func ExampleGeodesicInverse() {
	a := units.At(-degreesMinutesSeconds(37, 57, 3.72030), degreesMinutesSeconds(144, 25, 29.52440))
	b := units.At(-degreesMinutesSeconds(37, 39, 10.15610), degreesMinutesSeconds(143, 55, 35.38390))
	azimuth, onward, distance := geodesy.GeodesicInverse(a, b)
	fmt.Printf("%.3f m\n", distance.Metres())
	fmt.Printf("%.2f seconds beyond 306 52\n", (azimuth.Degrees()-306-52./60)*3600)
	fmt.Printf("%.2f seconds beyond 127 10\n", (onward.Degrees()-180-127-10./60)*3600)
	// Output:
	// 54972.271 m
	// 5.37 seconds beyond 306 52
	// 25.07 seconds beyond 127 10
}

// The rhumb line from New York to Singapore after 4000 km, from the manual page
// RhumbSolve(1): 32 10 26.8 N 030 20 57.3 W.
func ExampleRhumbDirect() {
	from := units.At(degreesMinutesSeconds(40, 38, 23), -degreesMinutesSeconds(73, 46, 44))
	course := units.Angle(degreesMinutesSeconds(103, 34, 58.2)) * units.Degree
	p, err := geodesy.RhumbDirect(from, course, 4000*units.Kilometre)
	fmt.Printf("32 10 %.1f N  30 20 %.1f W  %v\n",
		(p.Lat.Degrees()-32-10./60)*3600, (-p.Lon.Degrees()-30-20./60)*3600, err)
	// Output: 32 10 26.8 N  30 20 57.3 W  <nil>
}

// Meridional parts of 45 degrees, as the American Practical Navigator's table
// has them: 3013.648 (quoted in physics note 4.2).
func ExampleMeridionalParts() {
	fmt.Printf("%.3f\n", geodesy.MeridionalParts(45*units.Degree))
	// Output: 3013.648
}

// A sheet of 1:1 000 000 at 56 degrees has 62.393 mm to a degree of longitude
// (PROJ, WGS-84; navigation note 8).
func ExampleMercator() {
	sheet := geodesy.NewMercator(units.At(56, -20), 56*units.Degree, 1_000_000)
	fmt.Printf("%.3f mm, scale at 60 N %.6f\n",
		sheet.Degree().Metres()*1000, sheet.ScaleFactor(60*units.Degree))
	// Output: 62.393 mm, scale at 60 N 1.118150
}
