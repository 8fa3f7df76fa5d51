// Package airplot is the crew's plotting work: position lines and fixes, wind
// finding, the manual air plot, corrections to track and time, and the
// compass swing. It knows what the crew reads and nothing of where the
// aircraft really is. Values go in and values come out; nothing is kept.
//
// # Notation
//
//	phi, lambda  latitude N +, longitude E +    Zn   azimuth of a body
//	GHA, dec     Greenwich hour angle W +, declination N +
//	Hc, Ho       computed and observed altitude of a body
//	p            a position of the aircraft     r    reading less what would be read at p
//	g            gradient of what is read, toward north and east
//	s, sigma     one standard deviation         psi  angle between two stations as seen
//	TD           time difference: secondary less master
//
// Headings, tracks, bearings and azimuths run clockwise from true north; drift
// is track less heading, + to the right; wind directions are where it comes
// from; deviation E + (magnetic less compass). An intercept is + toward the
// body. Longitudes of results lie in [-180, 180), directions in [0, 360).
//
// # Position lines
//
// A [Line] is one reading (a [Locus]), its time and source, and the [Run] to the
// time for which it is wanted. There are bearings of stations ([Bearing]),
// altitudes of bodies ([Altitude]), time differences ([Hyperbola]) and lines
// on the chart ([Rhumb]: a track, a drift line, and the two lines of a
// [Pinpoint]). Near a place a line is straight ([Line.Near]); [Line.Trace]
// gives the curve itself.
//
// # Fixes
//
// [Solve] finds where lines meet: it minimises the sum of (r/sigma)^2 over the
// curves themselves by Gauss-Newton steps, damped where a step would lead away,
// until a step is below a millimetre. With two lines that is their crossing.
// The ellipse is the inverse of sum g g'/sigma^2. Where two circles or two
// hyperbolas cross twice both places are given, the one nearer the DR position
// first. Lines that cut at less than [LeastCut] are refused ([ParallelError]).
//
// Earths: bearings, time differences and lines on the chart are worked on
// WGS-84. An altitude is worked, as the tables have it, with a minute of arc
// for a mile, and so is the run with it; the tangent plane of a fix of nothing
// but altitudes has the same miles.
//
// # Accuracy
//
// Error-free readings give the place back within 0.01 NM between 70 S and 70 N
// (property_test.go, which measures it); a line's bend is not neglected
// anywhere.
//
// # Sources
//
// The formulas are those of the navigation note of this project, sections 1 to
// 7; published problems and independently computed rows are in testdata. Chain
// geometry: P = J^-1 S J^-T, J of rows (u_i - u_M)/v.
package airplot
