package geomag

import (
	"bufio"
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

// maxDegree is the degree of IGRF-14; terms is the number of pairs n, m with
// 0 <= m <= n from 0, 0 to 13, 13.
const (
	maxDegree = 13
	terms     = (maxDegree + 1) * (maxDegree + 2) / 2
)

// The years the model covers, ends included.
const (
	FirstYear = 1900.0
	LastYear  = 2030.0
)

//go:embed igrf14coeffs.txt
var igrf14 string

// term is one pair of Gauss coefficients, nT.
type term struct{ g, h float64 }

// coefficients are the pairs of one moment, or their yearly change, in the
// order of index.
type coefficients [terms]term

// index gives the place of a pair: all n of m = 0, then all of m = 1, ...
func index(n, m int) int { return m*(2*maxDegree+3-m)/2 + n - m }

// table is the whole model: coefficients at each epoch and the yearly change
// after the last.
type table struct {
	epochs []float64 // years
	at     []coefficients
	change coefficients // nT/year
}

// loadIGRF parses the embedded file, once.
var loadIGRF = sync.OnceValues(func() (*table, error) { return parseTable(igrf14) })

// parseTable reads IAGA's text: comments, a line "c/s deg ord ...", a line
// "g/h n m 1900.0 ... 2025.0 2025-30" that names the columns, then a line for
// each coefficient.
func parseTable(text string) (*table, error) {
	var t *table
	scan := bufio.NewScanner(strings.NewReader(text))
	for line := 1; scan.Scan(); line++ {
		fields := strings.Fields(scan.Text())
		var err error
		switch {
		case len(fields) == 0 || fields[0][0] == '#' || fields[0] == "c/s":
			continue
		case fields[0] == "g/h":
			t, err = newTable(fields)
		case t == nil:
			err = fmt.Errorf("a coefficient before the line of epochs")
		default:
			err = t.addLine(fields)
		}
		if err != nil {
			return nil, fmt.Errorf("coefficient file line %d: %w", line, err)
		}
	}
	if t == nil {
		return nil, fmt.Errorf("coefficient file: no line of epochs")
	}
	return t, scan.Err()
}

// newTable reads the epochs of the heading line.
func newTable(fields []string) (*table, error) {
	if len(fields) < 5 {
		return nil, fmt.Errorf("%d columns, want at least 5", len(fields))
	}
	t := &table{}
	for _, f := range fields[3 : len(fields)-1] {
		year, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, fmt.Errorf("epoch %q: want a year", f)
		}
		t.epochs = append(t.epochs, year)
	}
	t.at = make([]coefficients, len(t.epochs))
	return t, nil
}

// addLine reads one coefficient at all epochs: "g 1 0 -31543 ... 12.6".
func (t *table) addLine(fields []string) error {
	if len(fields) != len(t.epochs)+4 {
		return fmt.Errorf("%d columns, want %d", len(fields), len(t.epochs)+4)
	}
	n, errN := strconv.Atoi(fields[1])
	m, errM := strconv.Atoi(fields[2])
	if errN != nil || errM != nil || n < 1 || n > maxDegree || m < 0 || m > n {
		return fmt.Errorf("degree %s order %s: want 1 to %d and 0 to the degree", fields[1], fields[2], maxDegree)
	}
	for i, f := range fields[3:] {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return fmt.Errorf("coefficient %q: want a number", f)
		}
		c := &t.change
		if i < len(t.epochs) {
			c = &t.at[i]
		}
		if err := c.set(fields[0], n, m, v); err != nil {
			return err
		}
	}
	return nil
}

// set stores a coefficient by its letter.
func (c *coefficients) set(letter string, n, m int, v float64) error {
	switch letter {
	case "g":
		c[index(n, m)].g = v
	case "h":
		c[index(n, m)].h = v
	default:
		return fmt.Errorf("coefficient letter %q: want g or h", letter)
	}
	return nil
}

// moment gives the coefficients of a year: linear between epochs, along the
// yearly change after the last.
func (t *table) moment(year float64) coefficients {
	last := len(t.epochs) - 1
	for i := range last {
		if year < t.epochs[i+1] {
			part := (year - t.epochs[i]) / (t.epochs[i+1] - t.epochs[i])
			return blend(&t.at[i], 1-part, &t.at[i+1], part)
		}
	}
	return blend(&t.at[last], 1, &t.change, year-t.epochs[last])
}

// blend gives u a + v b.
func blend(a *coefficients, u float64, b *coefficients, v float64) coefficients {
	var c coefficients
	for i := range c {
		c[i] = term{
			float64(u*a[i].g) + float64(v*b[i].g),
			float64(u*a[i].h) + float64(v*b[i].h),
		}
	}
	return c
}
