// Package spread flies one plan many times, each flight with errors drawn from
// stated laws, and says how the error of the ground position grows: how far off
// the middle flight is, which ellipse holds half of them and which 95 in 100, and
// which link has the greatest part in it.
//
// Notation
//
//	k            number of a flight, from 0
//	sigma        standard deviation of an error, one for each term of a Law
//	N, E         error of the ground position, indicated minus true, minutes
//	             called NM, as everywhere in this project (sim.OffsetOf)
//	s1, s2       semi-axes of the 1-sigma ellipse, the greater first
//	bearing      of the greater axis, clockwise from true north, 0 to 180
//
// Drawing. What is drawn for term x of flight k comes from a stream of its own
// (package stream: SHA-256 of the seed and a name made of k and x), so that it is
// the same however many flights there are, in whichever shard and on however many
// cores; a term that is added changes no other. Errors are normal, constant for
// the flight, but for the wander of the wind, which is correlated in time: an
// Ornstein-Uhlenbeck process for each component with a stated time, drawn as its
// exact means over stretches of five minutes.
//
// Flying. Each flight is flown by the engine itself at its own step of 1/16 s; no
// reduced model stands between. It is looked at each Every (15 min) and at its end.
//
// Where the crew of the plan set the counters, they take the fix anew in each flight:
// as far from its true place as in the flight without drawn errors.
//
// Sharing out. By first order: the plan is flown once without drawn errors, and
// twice for each term, at plus and at minus one sigma of that term alone; half the
// difference of the two errors is the effect g of the term. The variance of the
// whole is then the sum of |g|^2 over the terms, for they are independent, and the
// share of a term its part in that sum. That of the wander is the effect of a
// constant wind error, scaled by the closed form of Growth with the time since
// the counters were set. Interactions and curvature are left out: the shares add
// up to 1, whatever the drawn flights say.
//
// Every figure of spread is worked from the flights in the order of their
// numbers, so that shards that are merged give the same figures, to the last bit,
// as one run on the same platform.
package spread
