// Package rows reads the CSV files of published and independently computed
// values in the testdata folders. Only tests import it.
package rows

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Row is one line of a file of check values.
type Row struct {
	t     testing.TB
	where string
	cells map[string]string
}

// Read returns every row of a CSV file whose first line names the columns. A
// file without rows fails the test: a loop over nothing would check nothing.
func Read(t testing.TB, path string) []Row {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	if len(all) < 2 {
		t.Fatalf("%s: no rows", path)
	}
	out := make([]Row, 0, len(all)-1)
	for i, rec := range all[1:] {
		cells := make(map[string]string, len(rec))
		for j, name := range all[0] {
			cells[name] = rec[j]
		}
		where := filepath.Base(path) + " row " + strconv.Itoa(i+1)
		out = append(out, Row{t, where, cells})
	}
	return out
}

// String says which row it is, for messages.
func (r Row) String() string { return r.where }

// Text returns a cell; a column that is not there fails the test.
func (r Row) Text(column string) string {
	r.t.Helper()
	s, ok := r.cells[column]
	if !ok {
		r.t.Fatalf("%s: no column %q", r.where, column)
	}
	return s
}

// Float returns a cell as a number; a cell that is none fails the test.
func (r Row) Float(column string) float64 {
	r.t.Helper()
	v, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.t.Fatalf("%s: column %s: %v", r.where, column, err)
	}
	return v
}

// Has tells whether the row has something in a column.
func (r Row) Has(column string) bool { return r.Text(column) != "" }

// HalfDigit returns half a unit in the last printed digit of a number: how far
// rounding alone can have moved it. "97.0" gives 0.05, "1.8514e-5" 0.5e-9.
func (r Row) HalfDigit(column string) float64 {
	r.t.Helper()
	r.Float(column)
	mantissa, exponent, _ := strings.Cut(strings.ToLower(r.Text(column)), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	e, _ := strconv.Atoi(exponent) // "" is 0; Float has read it before
	return 0.5 * math.Pow10(e-len(decimals))
}
