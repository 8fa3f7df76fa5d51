// Package overlay works the two overlays of the chart from what the crew know:
// the curves of equal altitude of two stars, which move with the clock, and the
// lattice of the pulse chain. It gives lines on the earth, not pictures, and
// knows neither truth nor toolkit.
//
// # Notation
//
//	h    altitude of a body, geocentric, without refraction
//	a    altitude as a sextant reads it: a - f R(a) = h, R the refraction at a
//	     in the air its table is printed for, f what the air of the aircraft's
//	     pressure altitude and temperature multiplies it by (sight.ThinAir)
//	GHA  Greenwich hour angle, westward +     dec  declination, N +
//	TD   time difference of a pair, secondary less master, us
//	psi  angle between master and secondary as seen from a place
//
// Altitudes are in minutes of arc, time differences in microseconds: those are
// the figures that stand on the plates.
//
// # Star curves
//
// A curve joins the places from which a star stands at the altitude written on
// it, refraction included. The lean of a bubble in an aircraft that flies over a
// turning earth is not in the curves: it moves the fix of any bubble sights by
// Z to one side of the track, and Tilt says by how much.
//
// # How the lines are found
//
// The value is worked on a grid of the Mercator chart (longitude and isometric
// latitude); where it passes a level along an edge of the grid the crossing is
// found by false position, and the crossings are joined cell by cell. Every
// point of a line is on its curve to 0.0005 of the unit; between two points the
// line is the chord of a curve over one cell. Longitudes of a line run on over
// 180 and 360: lines are never torn at the date line.
//
// What is finer than a cell may be left out: the last loop of a curve round a
// star's own place, the tongue of a hyperbola behind a station. Levels within
// half a microsecond of a pair's limits are not drawn, for there the hyperbola
// has become the extension of the baseline.
//
// # Sources
//
// Positions of stars: package sky. Refraction and its scaling: package sight.
// TD = (d2 - d1 + b)/v + delay on WGS-84: package airplot (navigation note, 5.1).
// A line of a pair moves (v/2)/sin(psi/2) for each unit of TD (5.2).
package overlay
