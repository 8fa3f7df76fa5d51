// Package debrief accounts for every mile: it shares the error of a flight out to
// the links of the chain, as vectors that add up to it exactly.
//
// The way is telescoping in chain order (mechanism note of this project, section
// 11). Beside the flight, on the truth that was flown, runs a mechanism in which
// nothing is wrong; a second one in which only the first link is as it was; a third
// with the first two; and so on to the flight itself. The line of a link is what
// switching it on changed: with everything before it as it really was, what did this
// link add? The sum of all lines is the error of the flight, whatever the order;
// the lines depend on the order, which is that of the chain.
//
//	earth        what an instrument in perfect order is out by: its sphere
//	method       plotted ground positions only
//	static       pitot and static lines
//	temperature  temperature and density
//	air-log, drive, compass, variation, repeater, resolver, trains
//	counters     drums, and where they were set at the start
//	wind         the wind set against the wind met
//	clock        the wind clock
//	crew         resets to what was not the true place, slews, levers, hands
//
// Before the crew's line every reset is a good one, to the true position at the
// time. A link that is in order costs no run. Errors are indicated minus true,
// north and east in minutes called NM, as everywhere in this project.
package debrief
