package scenarios

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
)

// Bounds of a report: so many problems are written out, and so many are kept
// to be sorted; beyond that they are only counted.
const (
	maxWritten = 50
	maxKept    = 1000
)

// Problem is one thing that is wrong with a file.
type Problem struct {
	File   string
	Line   int    // from 1
	Column int    // from 1; 0 where the line says enough
	Key    string // as leg[2].heading_true_deg, entries counted from 1; "" for the file itself
	Value  string // as written, shortened; "" where there is none
	Msg    string // what is wrong, with the legal range or the nearest names
}

// Error writes the problem on one line:
// FILE:LINE: KEY = VALUE: what is wrong.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File + ":" + strconv.Itoa(p.Line))
	if p.Column > 0 {
		b.WriteString(":" + strconv.Itoa(p.Column))
	}
	b.WriteString(": ")
	if p.Key != "" {
		b.WriteString(p.Key)
		if p.Value != "" {
			b.WriteString(" = " + p.Value)
		}
		b.WriteString(": ")
	}
	b.WriteString(p.Msg)
	return b.String()
}

// Errors is everything that is wrong with a file, by line; at most 50
// problems, and how many more there are.
type Errors struct {
	Problems []Problem
	More     int
}

// Error writes a line for each problem, and a last one with the count of those
// left out.
func (e *Errors) Error() string {
	lines := make([]string, 0, len(e.Problems)+1)
	for _, p := range e.Problems {
		lines = append(lines, p.Error())
	}
	if e.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", e.More))
	}
	return strings.Join(lines, "\n")
}

// problems gathers what is wrong while a file is read.
type problems struct {
	file  string
	kept  []Problem
	total int
}

// full says that further problems are only counted, so that nobody need work
// out what to say about them.
func (ps *problems) full() bool { return len(ps.kept) >= maxKept }

func (ps *problems) add(line int, key, value, format string, args ...any) {
	ps.addAt(line, 0, key, value, format, args...)
}

func (ps *problems) addAt(line, column int, key, value, format string, args ...any) {
	ps.total++
	if ps.full() {
		return
	}
	ps.kept = append(ps.kept, Problem{ps.file, line, column, key, value, fmt.Sprintf(format, args...)})
}

// err gives the problems as an error, or nil if there are none.
func (ps *problems) err() error {
	if ps.total == 0 {
		return nil
	}
	sort.SliceStable(ps.kept, func(i, j int) bool { return ps.kept[i].Line < ps.kept[j].Line })
	n := min(len(ps.kept), maxWritten)
	return &Errors{Problems: ps.kept[:n:n], More: ps.total - n}
}
