// Package score marks an exercise: a flight on which something is wrong that the trainee
// does not know of. It holds what is asked, what the trainee reports, writes down and
// plots by hand, and gives marks by stated criteria; the result is a value, which is
// written as a page or as a table.
//
// It imports neither the toolkit nor the engine. The trainee's window holds a Book of this
// package, and what that window holds must not lead to the truth; the truth comes in as
// values (Flown) only where a sheet is worked, which is the trainer's side, or after
// landing. So one sheet serves window, page and test.
//
// The criteria, each with a weight of its own; their sum is what can be had:
//
//	detection  from the onset of a fault to the first report of its link: whole within
//	           Criteria.ReportWithin, nothing from three times that on, even between
//	link       the right link named; a report that fits no fault that has come costs a
//	           quarter of this criterion if it was made as sure, a tenth if not
//	fault      the right fault named by the last report of its link: whole if sure, 8 in
//	           10 if not; half for one that the catalogue lists as its look-alike
//	position   from the first onset on, each whole minute: the position the trainee goes
//	           by (shown, or by hand) against the true one; whole within Criteria.Hold,
//	           nothing from three times that on, even between; the mean of all minutes
//	log        of the stretches of Criteria.LogEvery, those in which the trainee wrote a
//	           line or took a reading
//
// With several faults the first three are means over those that have come. If none came,
// they are whole, less what false reports cost. All shares are choices of this program
// (common practice, no source).
package score
