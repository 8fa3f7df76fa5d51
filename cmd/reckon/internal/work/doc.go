// Package work is the engine behind `reckon work TOPIC`: the trade's
// calculations on a CSV. It reads rows, adds result columns and writes the rows
// in the same order, one at a time, in memory that does not grow with the file
// (but for the topics that work cases, below).
//
// # What is read
//
// The first line names the columns, in any order; blanks around a name do not
// count. Columns the topic does not know pass through byte for byte. Cells may
// be quoted (RFC 4180), lines may end in LF or CRLF, a UTF-8 byte order mark
// and blank lines are skipped (a blank line is not a row). The output ends its
// lines in LF and has no mark.
//
// A number is written in decimal figures, with or without an exponent; NaN,
// infinities, hexadecimal and figures beyond float64 are refused, and so is a
// number outside its column's range. Latitude N +, longitude E +, degrees;
// longitudes of any size are accepted, results lie in [-180, 180).
//
// # What is written
//
// The row as it came, then the results, each with the shortest digits that read
// back to the same float64 (minus zero as 0). Where a topic can both read a
// column and work it out (the six figures of a wind triangle) and the header has
// it, the result goes into the cells of that column that were left empty.
//
// Topics that work cases (rows with the same name in the column case) keep the
// whole input, since the last row may belong to the first one's case; the
// results of a case stand on each of its rows. A case with a bad row is left
// out whole.
//
// # What is refused
//
// A bad cell, a wrong number of cells or a row that has no answer makes a bad
// row: it is left out, every good row before and after it is written, and Run
// then returns a *RowErrors that names row (counted from 1 after the header),
// line and column of each, at most 50 of them and then a count. A header that
// does not say what is asked (columns missing, doubled, or a result column
// already there) and an unknown topic are refused before anything is written.
//
// # A topic
//
// A topic is a value of type Topic in a file of its own, topic_NAME.go, and one
// line in the list in topics.go. It declares its forms: which columns are read,
// which are added, and a function from numbers to numbers. The engine finds the
// form from the header, reads and checks the cells, and reports what is bad;
// the function sees finite numbers within their ranges and only has to say
// when there is no answer:
//
//	func squareTopic() Topic {
//		return Topic{
//			Name:    "square",
//			Help:    "side of a square from its area",
//			Example: "area_m2\n4\n",
//			Forms: []Form{{
//				Reads: []Column{AtLeast("area_m2", 0)},
//				Adds:  []string{"side_m"},
//				Work: func(in, out []float64) error {
//					out[0] = math.Sqrt(in[0])
//					return nil
//				},
//			}},
//		}
//	}
//
// Work is called once for each row with in in the order of Reads and out in the
// order of Adds; it must keep nothing of either and return Bad(column, ...) for
// a row without an answer. A result that is not finite is a bad row too.
//
// Of several forms the header decides: a form fits when the header has all its
// required columns; of those that fit, the one that reads the most columns of
// the header is taken, and a tie is refused, since the header asks two things.
// A cell that is text (a date, a name) has a Column with a Parse of its own.
package work
