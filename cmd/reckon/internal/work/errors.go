package work

import (
	"errors"
	"fmt"
	"strings"
)

// ErrUnknownTopic is wrapped by the error of Run for a topic that is not there:
// a matter of usage, not of the data.
var ErrUnknownTopic = errors.New("unknown topic")

// errorLimit is the number of bad rows that are named one by one.
const errorLimit = 50

// RowError is what is wrong with one row.
type RowError struct {
	Row     int      // counted from 1 after the header
	Line    int      // of the input, counted from 1 with the header
	Columns []string // the column at fault, or the columns that do not agree
	Reason  string
}

// Error names row, line and column.
func (e *RowError) Error() string {
	where := fmt.Sprintf("row %d (line %d)", e.Row, e.Line)
	switch len(e.Columns) {
	case 0:
	case 1:
		where += ", column " + e.Columns[0]
	default:
		where += ", columns " + strings.Join(e.Columns, ", ")
	}
	return where + ": " + e.Reason
}

// RowErrors are the bad rows of an input: the first 50 and the number of all.
type RowErrors struct {
	First []*RowError
	Count int
}

// Error gives a line for each row named and one for the rest.
func (e *RowErrors) Error() string {
	lines := make([]string, 0, len(e.First)+1)
	for _, r := range e.First {
		lines = append(lines, r.Error())
	}
	if more := e.Count - len(e.First); more > 0 {
		lines = append(lines, fmt.Sprintf("and %d more bad rows", more))
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the rows named.
func (e *RowErrors) Unwrap() []error {
	all := make([]error, len(e.First))
	for i, r := range e.First {
		all[i] = r
	}
	return all
}

func (e *RowErrors) add(r *RowError) {
	e.Count++
	if len(e.First) < errorLimit {
		e.First = append(e.First, r)
	}
}

// badCell is an error of a row that does not know its place yet.
type badCell struct {
	columns []string
	reason  string
}

func (b *badCell) Error() string { return strings.Join(b.columns, ", ") + ": " + b.reason }

// Bad is what a topic's Work returns for a row without an answer: the column at
// fault and why.
func Bad(column, format string, args ...any) error {
	return BadTogether([]string{column}, format, args...)
}

// BadTogether is Bad for several columns that do not agree with each other.
func BadTogether(columns []string, format string, args ...any) error {
	return &badCell{columns, fmt.Sprintf(format, args...)}
}
