// Package calc is what the calculator knows: a wind triangle of six quantities, of
// which any four settle the other two, and the height-and-airspeed computer. It has
// no toolkit, changes nothing of a flight and sees nothing but what the dials show.
//
// # Notation
//
//	O  origin    A  tip of the air vector    G  tip of the ground vector
//	air vector   heading, true airspeed      from O to A
//	wind vector  from the direction it comes from, so it points down the wind, from A to G
//	drift        track less heading, + to the right
//	ring angle   360 log10(v/u) degrees clockwise from the top, u the value at the top
//
// Directions are degrees true, clockwise from north; speeds knots.
//
// # The triangle
//
// A quantity is given (locked) or follows. With four given the figure is settled by
// airplot.Triangle; with fewer it is free, and a change holds what is locked and of
// the rest as much as can be. A figure that cannot close keeps what is given and
// shows the smallest gap that these leave.
//
// # The computer
//
// True airspeed is exact (integrator/isa, compressible); beside it stands the rule
// of thumb of 2 % for each 1000 ft. Turning the brass ring is going to another height:
// the calibrated airspeed stays under the cursor and comes to stand against another
// true one. The fixed ring has at its top what was put under the cursor last. The rule
// is one of instruction, read in several secondary pages
// (testdata/airspeed_rule_of_thumb.csv).
package calc
