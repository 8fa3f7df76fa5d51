// Package export makes data files of a flown flight: GeoJSON and KML for maps,
// CSV for sums. It has no toolkit. Without reveal nothing in a file comes from
// the world: it is what the crew could have written down.
//
// A Take is a list of things: the air track and the ground track as the
// instrument showed them, one of each from one setting of the counters to the
// next; the true track, if it may be seen; marks (a leg begun, a turn ended, the end);
// what the crew did; position lines of readings, each as a curve of so far to
// either side of the ground position shown; and fixes: of position lines, as package
// plotting works them, pinpoints, and where the counters were set.
//
// Notation
//
//	positions     degrees, WGS-84, N and E positive, longitudes in [-180, 180]
//	times         UTC, RFC 3339
//	lines         where one crosses the 180th meridian it is cut there, both ends
//	              on it (RFC 7946, 3.1.9); between its points it is taken as
//	              straight in latitude and longitude, which is out by less than
//	              a metre over the ten seconds between two points
//	figures       places are written to 1e-7 degree (11 mm)
//
// Uncertainties: that of a position line is one standard deviation across, of hand
// and aid together (package airplot says where from); the ellipse of a fix holds it
// with probability 0.95. Those in the CSV are standard
// uncertainties of reading a display, 0.29 of its last figure (JCGM 100:2008, F.2.2.1:
// a value known to lie within one step, any place in it as likely, has a
// standard deviation of the step over the root of 12). They are not the error of the
// instrument, which nobody aboard knows.
package export
