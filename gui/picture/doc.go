// Package picture draws: drum counters, dials, the chart and the chart sheet.
// A picture is a function from a value to calls on a surface. It knows no
// clock, no world and no toolkit, so that window, files, papers and tests show
// the same thing.
//
// Notation
//
//	x, y, R, h  device pixels
//	K           look.Size: Px scales a drawn part given at 1080 lines, Text a
//	            text (with a floor), Symbol a chart symbol
//	directions  degrees clockwise from the top of the surface
//	View        Mercator on WGS-84: x = k (lambda - lambda0),
//	            y = -k (180/pi) (psi - psi0), k pixels to a degree of longitude
//
// The chart comes in two halves: DrawGround (sea, land, graticule, names: dear,
// the same until the view changes; keep it as an image) and DrawPlot (what the
// crew drew and where the marker stands: cheap, each time something moved).
package picture
