package work

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
)

// Run reads a CSV from in, adds the topic's results to each row and writes the
// good rows to out; see the package comment. The error is a *RowErrors for bad
// rows, wraps ErrUnknownTopic for a topic that is not there, and is of another
// kind for a header that does not serve or a failure of in or out.
func Run(topic string, in io.Reader, out io.Writer) error {
	t, err := find(topic)
	if err != nil {
		return err
	}
	return t.run(in, out)
}

func find(name string) (Topic, error) {
	all := Topics()
	names := make([]string, len(all))
	for i, t := range all {
		if t.Name == name {
			return t, nil
		}
		names[i] = t.Name
	}
	return Topic{}, fmt.Errorf("%w %q; there are %s", ErrUnknownTopic, name, strings.Join(names, ", "))
}

// run is Run for a topic in hand.
func (t Topic) run(in io.Reader, out io.Writer) error {
	rows := newRecords(in)
	head, err := readHeader(rows)
	if err != nil {
		return fmt.Errorf("%w: the first line names the columns, for %s %s", err, t.Name, t.Reads())
	}
	j, err := newJob(t, head.raw)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(out, 1<<16)
	if _, err := w.Write(j.header(head.raw)); err != nil {
		return err
	}
	if j.form.Group != nil {
		err = j.groups(rows, w)
	} else {
		err = j.rows(rows, w)
	}
	if flushed := w.Flush(); err == nil || flushed != nil {
		return errors.Join(flushed, j.outcome())
	}
	return errors.Join(err, j.outcome())
}

// readHeader takes the first row, without its byte order mark.
func readHeader(rows *records) (record, error) {
	head, ok := rows.next()
	if rows.err != nil {
		return record{}, rows.err
	}
	if bytes.HasPrefix(head.raw, []byte("\xff\xfe")) || bytes.HasPrefix(head.raw, []byte("\xfe\xff")) {
		return record{}, errors.New("the input is UTF-16; it must be UTF-8")
	}
	head.raw = bytes.TrimPrefix(head.raw, []byte("\xef\xbb\xbf"))
	switch {
	case !ok || len(head.raw) == 0:
		return record{}, errors.New("the input is empty")
	case head.fault != "":
		return record{}, fmt.Errorf("header (line %d): %s", head.line, head.fault)
	}
	return head, nil
}

// job is one run of a form over an input.
type job struct {
	form   Form
	names  []string // the header's
	source []int    // for each of Reads its cell, or -1
	target []int    // for each of Adds the cell to fill where empty, or -1: append
	fills  bool     // any target is a cell
	in     []float64
	out    []float64
	cells  [][]byte
	line   []byte // what is about to be written
	bad    RowErrors
}

func newJob(t Topic, header []byte) (*job, error) {
	cells := split(header, nil)
	names := make([]string, len(cells))
	for i, c := range cells {
		names[i] = string(content(c))
		if names[i] != "" && index(names[:i], names[i]) >= 0 {
			return nil, fmt.Errorf("the header has the column %s twice", names[i])
		}
	}
	form, err := t.choose(names)
	if err != nil {
		return nil, err
	}
	j := &job{form: form, names: names, cells: cells,
		in: make([]float64, len(form.Reads)), out: make([]float64, len(form.Adds))}
	for _, c := range form.Reads {
		j.source = append(j.source, index(names, c.Name))
	}
	return j, j.aim(t.Name)
}

// aim finds where each result goes, and refuses to write over a column.
func (j *job) aim(topic string) error {
	for _, name := range j.form.Adds {
		at := index(j.names, name)
		if at >= 0 && !j.form.reads(name) {
			return fmt.Errorf("the header already has the column %s, which %s adds", name, topic)
		}
		j.target = append(j.target, at)
		j.fills = j.fills || at >= 0
	}
	return nil
}

func (f Form) reads(name string) bool {
	for _, c := range f.Reads {
		if c.Name == name {
			return true
		}
	}
	return false
}

// header is the header's line with the names of the results.
func (j *job) header(raw []byte) []byte {
	j.line = append(j.line[:0], raw...)
	for i, name := range j.form.Adds {
		if j.target[i] < 0 {
			j.line = append(append(j.line, ','), name...)
		}
	}
	return append(j.line, '\n')
}

// rows works all rows; an error is a failure of the input or of the output.
func (j *job) rows(rows *records, w io.Writer) error {
	for n := 1; ; n++ {
		rec, ok := rows.next()
		if !ok {
			return rows.err
		}
		if err := j.row(rec); err != nil {
			j.bad.add(placed(err, n, rec.line))
			continue
		}
		if _, err := w.Write(j.line); err != nil {
			return err
		}
	}
}

// placed gives an error of a row its place.
func placed(err error, row, line int) *RowError {
	var b *badCell
	if errors.As(err, &b) {
		return &RowError{row, line, b.columns, b.reason}
	}
	return &RowError{Row: row, Line: line, Reason: err.Error()}
}

// outcome is nil if all rows were good.
func (j *job) outcome() error {
	if j.bad.Count == 0 {
		return nil
	}
	return &j.bad
}

// row works one row and leaves the line to write in j.line.
func (j *job) row(rec record) error {
	if err := j.take(rec); err != nil {
		return err
	}
	if err := j.form.Work(j.in, j.out); err != nil {
		return err
	}
	if err := j.finite(); err != nil {
		return err
	}
	j.compose(rec.raw)
	return nil
}

// take reads the cells of a row into j.in.
func (j *job) take(rec record) error {
	if rec.fault != "" {
		return errors.New(rec.fault)
	}
	j.cells = split(rec.raw, j.cells)
	if len(j.cells) != len(j.names) {
		return fmt.Errorf("%d cells, the header has %d columns", len(j.cells), len(j.names))
	}
	for i := range j.form.Reads {
		v, err := j.read(&j.form.Reads[i], j.source[i])
		if err != nil {
			return err
		}
		j.in[i] = v
	}
	return nil
}

// finite refuses results that are none.
func (j *job) finite() error {
	for i, v := range j.out {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Bad(j.form.Adds[i], "there is no finite answer")
		}
	}
	return nil
}

// read gives the number of a column: of the cell, or what its absence means.
func (j *job) read(c *Column, at int) (float64, error) {
	if at < 0 {
		return c.Default, nil
	}
	cell := content(j.cells[at])
	if len(cell) == 0 && c.Optional {
		return c.Default, nil
	}
	return c.number(cell)
}

// compose writes the row with its results.
func (j *job) compose(raw []byte) {
	if !j.fills {
		j.line = append(j.line[:0], raw...)
	} else {
		j.line = j.line[:0]
		for i, cell := range j.cells {
			if i > 0 {
				j.line = append(j.line, ',')
			}
			j.line = j.appendFilled(cell, i)
		}
	}
	for i, at := range j.target {
		if at < 0 {
			j.line = appendNumber(append(j.line, ','), j.out[i])
		}
	}
	j.line = append(j.line, '\n')
}

// appendFilled writes a cell, or the result that belongs there if it is empty.
func (j *job) appendFilled(cell []byte, at int) []byte {
	i := indexInt(j.target, at)
	if i < 0 || len(content(cell)) > 0 {
		return append(j.line, cell...)
	}
	return appendNumber(j.line, j.out[i])
}

func indexInt(list []int, v int) int {
	for i, n := range list {
		if n == v {
			return i
		}
	}
	return -1
}
