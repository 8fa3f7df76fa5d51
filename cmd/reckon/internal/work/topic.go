package work

import (
	"fmt"
	"math"
	"strings"
)

// Topic is one of the trade's calculations on a CSV.
type Topic struct {
	Name    string // as typed after `reckon work`
	Help    string // one line, without the name
	Example string // a CSV with header that the topic answers without error
	Forms   []Form // the header decides which one is asked
}

// Form is one set of columns that a topic reads, and what it adds.
type Form struct {
	Reads []Column
	Adds  []string
	// Least is the number of columns of Reads that the header must have at
	// least, for forms whose columns are optional one by one.
	Least int
	// Work turns one row's numbers (in the order of Reads) into its results
	// (in the order of Adds).
	//
	// A column named in Adds that the form also reads, as an optional one, is
	// not appended when the header has it: the result goes into the cell where
	// that is empty.
	Work func(in, out []float64) error
	// Group, instead of Work, is for forms whose first column names a case
	// (see Name): it turns all rows of a case into their results. Rows of a case
	// need not stand together. A bad row spoils its case.
	Group func(in, out [][]float64) error
	// Check, if set, refuses a row by itself, before Group sees its case.
	Check func(in []float64) error
}

// Column is a column that a form reads.
type Column struct {
	Name     string
	Min, Max float64 // both within the range
	// Optional says that the column, or the cell, may be missing; in then
	// holds Default.
	Optional bool
	Default  float64
	// Parse, if set, turns a cell that is not a plain number into one; Means
	// says what such a cell must be.
	Parse func(cell string) (float64, error)
	Means string
	// name says that any text but none will do; its number is 0.
	name bool
}

// Name is a required column of names, such as that of a case.
func Name(name string) Column {
	c := Number(name)
	c.name, c.Means = true, "a name"
	c.Parse = func(string) (float64, error) { return 0, nil }
	return c
}

// Number is a required column without limits.
func Number(name string) Column {
	return Column{Name: name, Min: -math.MaxFloat64, Max: math.MaxFloat64}
}

// Between is a required column with a range, ends included.
func Between(name string, low, high float64) Column {
	return Column{Name: name, Min: low, Max: high}
}

// AtLeast is a required column with a lower limit only, included.
func AtLeast(name string, low float64) Column {
	return Column{Name: name, Min: low, Max: math.MaxFloat64}
}

// Latitude is a required column in degrees, -90 to 90.
func Latitude(name string) Column { return Between(name, -90, 90) }

// Longitude is a required column in degrees, of any size.
func Longitude(name string) Column { return Number(name) }

// Direction is a required column of degrees clockwise from north; negative
// ones, as geodesists write azimuths, are accepted, more than a turn is not.
func Direction(name string) Column { return Between(name, -360, 360) }

// Or makes the column optional, with the value that an absent one stands for.
func (c Column) Or(absent float64) Column {
	c.Optional, c.Default = true, absent
	return c
}

// rangeText words the column's range for an error.
func (c Column) rangeText() string {
	switch low, high := c.Min > -math.MaxFloat64, c.Max < math.MaxFloat64; {
	case c.Means != "":
		return c.Means
	case low && high:
		return fmt.Sprintf("%v to %v", c.Min, c.Max)
	case low:
		return fmt.Sprintf("%v or more", c.Min)
	case high:
		return fmt.Sprintf("%v or less", c.Max)
	}
	return "any finite number"
}

// Describe words what a form reads, for errors and help.
func (f Form) Describe() string {
	var must, may []string
	for _, c := range f.Reads {
		if c.Optional {
			may = append(may, c.Name)
			continue
		}
		must = append(must, c.Name)
	}
	text := strings.Join(must, ", ")
	switch {
	case f.Least > 0 && len(must) == 0:
		text = fmt.Sprintf("%d of %s", f.Least, strings.Join(may, ", "))
	case len(may) > 0:
		text += "; optional " + strings.Join(may, ", ")
	}
	return text
}

// Reads words what the topic reads: its forms, joined by "or".
func (t Topic) Reads() string {
	texts := make([]string, len(t.Forms))
	for i, f := range t.Forms {
		texts[i] = f.Describe()
	}
	return strings.Join(texts, ", or ")
}

// choose finds the form that the header asks for.
func (t Topic) choose(header []string) (Form, error) {
	best, most, tie := -1, 0, false
	for i, f := range t.Forms {
		n, fits := f.fit(header)
		if !fits || n < most {
			continue
		}
		tie = n == most && best >= 0
		best, most = i, n
	}
	switch {
	case best < 0:
		return Form{}, fmt.Errorf("%s reads %s; the header has %s",
			t.Name, t.Reads(), strings.Join(header, ", "))
	case tie:
		return Form{}, fmt.Errorf("the header asks two things of %s, which reads %s: rename a column that is not meant",
			t.Name, t.Reads())
	}
	return t.Forms[best], nil
}

// fit counts the columns of the header that the form reads, and says whether
// they suffice.
func (f Form) fit(header []string) (n int, fits bool) {
	for _, c := range f.Reads {
		switch {
		case index(header, c.Name) >= 0:
			n++
		case !c.Optional:
			return 0, false
		}
	}
	return n, n >= f.Least
}

func index(names []string, name string) int {
	for i, n := range names {
		if n == name {
			return i
		}
	}
	return -1
}
