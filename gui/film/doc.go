// Package film makes a film of a flight: it composes a frame without controls
// from a moment of a flown engine, drawn with the pictures of the window, and
// runs frames off on all cores, in order, into files or an encoder. It has no
// toolkit and asks no clock.
//
// Notation
//
//	film time    seconds of film; frame n stands at n times the rate's
//	             denominator over its numerator, exactly
//	flight time  seconds since the start of the flight; a frame shows the last
//	             tick (1/16 s) at or before it
//	unit         a pixel of a frame of 1920 by 1080; see Size.unit for the
//	             other shapes
//
// The same flight, script and look give the same bytes, whatever the number of
// cores: a frame is drawn from its moment alone. What is repainted piece by
// piece is kept by keys of what can be seen, and where the labels of a chart stand,
// which hangs on where they stood before, is settled in the order of the frames
// before any is drawn.
package film
