// Package geodesy holds the navigator's tables: rhumb lines, geodesics, the
// meridian arc, isometric latitude and the Mercator chart, all on WGS-84; and
// the great circle on a sphere for problems that are set on one.
//
// It serves the crew's plot, the chart and the calculations on files. The earth
// of the mechanism and the earth of the world are other packages that share no
// code with this one, so that the three check each other.
//
// # Notation
//
//	phi     geographic latitude, N +           lambda  longitude, E +
//	beta    reduced latitude                   psi     isometric latitude
//	mu      rectifying latitude                m       meridian arc from the equator
//	a, b    semi-axes 6378137, 6356752.314 m   f, n    flattening, third flattening
//	e2, ep2 eccentricity squared, second one   M, N    radii of curvature
//	C       course of a rhumb line             s       length of a line
//	alpha   azimuth of a geodesic              sigma, omega  arc and longitude on the auxiliary sphere
//
// Courses and azimuths run clockwise from true north in [0, 360), longitudes
// of results lie in [-180, 180). Longitudes of arguments may be of any size.
//
// # Problems solved
//
//	RhumbInverse, RhumbDirect         constant course, the shorter way round
//	GeodesicInverse, GeodesicDirect   shortest line
//	MeridianArc, MeridianRadius, PrimeVerticalRadius, IsometricLatitude,
//	MeridionalParts                   tables of one latitude
//	Mercator                          the plotting sheet, with its inverse
//	GreatCircle...                    the sphere of one minute to a mile
//
// Each line comes twice: in quantities, for the program, and in bare degrees
// and metres (names ending in Degrees), for files, where a whole number of
// degrees must stay whole and 180 must be exactly half round.
//
// # Special cases
//
// A position is invalid if it is not finite or its latitude is beyond 90; the
// results are then NaN (and ErrInvalid where there is an error).
//
// Rhumb lines: between coincident points course and length are 0. Half round
// exactly, the line goes east if the second longitude is the greater figure and
// west otherwise. Any rhumb line that is not a meridian winds round the pole
// without end, so a line from or to a pole is the meridian of its other end,
// and RhumbDirect refuses (ErrPole) to leave a pole on a course that is not
// along a meridian, to arrive at one, and to run beyond one.
//
// Geodesics: the line exists and is found for every pair, antipodes included.
// Where several are equally short (opposite points of one parallel, poles) the
// one over the north pole or, off the meridian, the one that leaves northward
// is given; at a pole the azimuth is that toward the longitude given for it.
//
// # Accuracy
//
// Against GeographicLib 2.1.2, over 100,000 random lines of each sort with
// near-antipodal, near-polar, near-east-west and short ones among them, the
// worst differences were 1.2e-8 m for geodesics (lengths and end points), 2.2e-8
// m for the lengths of rhumb lines and 5.4e-8 m for their ends short of 80
// degrees of latitude; tools_test.go asserts 1e-7 m. Ends of rhumb lines near a
// pole are checked against a computation with 50 digits (polar_test.go).
//
// # Sources
//
// C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013)
// 43-55, for the geodesic and the series of order 6; the series of the meridian
// arc in the third flattening go back to F. R. Helmert (1880). Rhumb lines use
// closed differences of the isometric latitude, so that they lose nothing when
// the two latitudes come together.
package geodesy
