package work

import (
	"fmt"
	"io"
	"slices"
)

// kept is a row of a form that works cases.
type kept struct {
	raw     []byte
	row     int // counted from 1 after the header
	line    int
	in, out []float64
	err     error
}

// groups works all cases: everything is read, each case is worked, and the rows
// are written as they came.
func (j *job) groups(rows *records, w io.Writer) error {
	all, cases := j.keep(rows)
	if rows.err != nil {
		return rows.err // half a case is no case
	}
	for _, members := range cases {
		j.work(all, members)
	}
	for i := range all {
		k := &all[i]
		if k.err != nil {
			j.bad.add(placed(k.err, k.row, k.line))
			continue
		}
		j.cells, j.out = split(k.raw, j.cells), k.out
		j.compose(k.raw)
		if _, err := w.Write(j.line); err != nil {
			return err
		}
	}
	return nil
}

// keep reads all rows and finds which of them make a case; those whose case
// cannot be read belong to none.
func (j *job) keep(rows *records) (all []kept, cases map[string][]int) {
	cases = map[string][]int{}
	for n := 1; ; n++ {
		rec, ok := rows.next()
		if !ok {
			return all, cases
		}
		k := kept{raw: slices.Clone(rec.raw), row: n, line: rec.line}
		k.err = j.take(rec)
		if k.err == nil && j.form.Check != nil {
			k.err = j.form.Check(j.in)
		}
		k.in, k.out = slices.Clone(j.in), make([]float64, len(j.out))
		if name := j.caseOf(rec); name != "" {
			cases[name] = append(cases[name], len(all))
		}
		all = append(all, k)
	}
}

// caseOf is the name of a row's case, if its cells can be told.
func (j *job) caseOf(rec record) string {
	if rec.fault != "" || len(j.cells) != len(j.names) {
		return ""
	}
	return string(content(j.cells[j.source[0]]))
}

// work works one case, given by the indices of its rows.
func (j *job) work(all []kept, members []int) {
	in, out := make([][]float64, len(members)), make([][]float64, len(members))
	spoilt := 0
	for i, m := range members {
		in[i], out[i] = all[m].in, all[m].out
		if all[m].err != nil && spoilt == 0 {
			spoilt = all[m].row
		}
	}
	var err error
	if spoilt > 0 {
		err = fmt.Errorf("row %d, of the same case, is bad", spoilt)
	} else if err = j.form.Group(in, out); err == nil {
		err = j.allFinite(out)
	}
	for _, m := range members {
		if all[m].err == nil {
			all[m].err = err
		}
	}
}

// allFinite refuses results that are none in any row.
func (j *job) allFinite(out [][]float64) error {
	for _, j.out = range out {
		if err := j.finite(); err != nil {
			return err
		}
	}
	return nil
}
