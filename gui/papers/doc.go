// Package papers makes what is printed of a flight and taken away: plotting
// sheets true to scale, log forms, readings, problems with their key, cards and
// things to cut out. It knows no toolkit; the pages come out as one PDF.
//
// A paper is a slice of Page values, made by the function of its kind (Sheets,
// Log, ...) from a plan or a flown flight, and written by Write. A page is
// plain data until it is drawn; the same data give the same file.
//
// # Notation
//
//	x, y      millimetres on the paper, x to the right, y down, (0,0) the corner
//	margin    10 mm on every side, nothing stands outside
//	R         paper length of a radian of longitude, mm: N(ts) cos(ts)/S x 1000
//	ts, S     standard latitude, denominator of the natural scale there
//
// Colours are those of the screens on white: ink for what is printed, brass
// text for variation alone, the colour of the air for what the program has
// filled in. The smallest text is 2.5 mm to the em.
//
// # Accuracy
//
// Charts are the Mercator projection on WGS-84 (geodesy.Mercator). Places come
// out within 0.004 mm, half the last printed figure of the file's coordinates
// in both ends of a length; sheet_test.go measures the lines in the file itself.
//
// # What a paper may know
//
// Sheet, log form, readings and plan hold what stands on the chart and what is
// shown aboard, never the truth; the key of the problems is worked from the
// printed numbers by integrator/airplot, integrator/isa and integrator/geodesy.
package papers
