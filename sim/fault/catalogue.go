// Package fault holds the catalogue of what can go wrong with the senses, the
// mechanism and its settings, and the orders by which a flight asks for it.
//
// The catalogue is data: data/mech_faults.csv names each fault, its law and
// what a viewer sees of it; data/mech_fault_parameters.csv its parameters with
// type, unit, default and range; data/mech_service.csv the healthy
// imperfections of a used instrument. Kinds:
//
//	fault         something breaks or wears
//	setting       something is set wrong
//	crew          an action is late or wrong
//	construction  how a particular instrument was built
//	explanation   follows from the weather, the earth or the method; it has a
//	              line in the error account but cannot be given
//
// A flight may order the first four. Any of them may come on as a step; ramps
// and intermittent onsets only where the catalogue says so.
package fault

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

// Kind sorts the entries of the catalogue.
type Kind string

// The five kinds.
const (
	Breakage     Kind = "fault"
	WrongSetting Kind = "setting"
	CrewError    Kind = "crew"
	Construction Kind = "construction"
	Explanation  Kind = "explanation"
)

// Entry is one line of the catalogue.
type Entry struct {
	ID             string
	Link           string // of the chain from pitot head to counters: "air data", "drive", ...
	Kind           Kind
	Title          string
	Shapes         []Shape // how it may come on; Step is always the first
	AfterClearing  string  // what stays when it is mended
	Law            string
	ClosedForm     string // consequence on a straight leg
	ViewerSees     string
	NavigatorCheck string // what finds it
	LookAlikes     string
	Provenance     string
	Params         []Param
}

// Type is the type of a parameter.
type Type string

// The four types.
const (
	Number  Type = "number"
	Integer Type = "integer"
	Choice  Type = "choice"
	Bool    Type = "bool"
)

// Param is one parameter of a fault. A choice is held as its index, a bool as
// 0 or 1.
type Param struct {
	Name     string
	Type     Type
	Unit     string // "" for ratios and fractions
	Default  float64
	Min, Max float64
	Choices  []string
	// Ramps is true for the amount that a ramp brings on; it starts there
	// from Healthy: 1 for ratios and factors, else 0.
	Ramps   bool
	Healthy float64
}

//go:embed data/mech_faults.csv
var faultsCSV string

//go:embed data/mech_fault_parameters.csv
var parametersCSV string

// Catalogue gives all entries in the order of the table. The slice is shared:
// read it, do not change it.
func Catalogue() []Entry { return catalogue().entries }

// Lookup finds an entry by its id.
func Lookup(id string) (*Entry, bool) {
	c := catalogue()
	i, ok := c.index[id]
	if !ok {
		return nil, false
	}
	return &c.entries[i], true
}

type table struct {
	entries []Entry
	index   map[string]int
}

// catalogue reads the embedded tables once. They are part of the program, so a
// bad row is a fault of the program, and panics.
var catalogue = sync.OnceValue(func() table {
	t := table{index: map[string]int{}}
	for _, r := range records(faultsCSV) {
		t.index[r["id"]] = len(t.entries)
		t.entries = append(t.entries, Entry{
			ID: r["id"], Link: r["link"], Kind: Kind(r["kind"]), Title: r["title"],
			Shapes: shapesOf(r["onset_shapes"]), AfterClearing: r["after_clearing"],
			Law: r["law"], ClosedForm: r["closed_form_straight_leg"],
			ViewerSees: r["viewer_sees"], NavigatorCheck: r["navigator_check"],
			LookAlikes: r["look_alikes"], Provenance: r["provenance"],
		})
	}
	for _, r := range records(parametersCSV) {
		i, ok := t.index[r["fault_id"]]
		if !ok {
			panic("parameter of an unknown fault " + r["fault_id"])
		}
		e := &t.entries[i]
		e.Params = append(e.Params, paramOf(r, e))
	}
	return t
})

// records reads a table with a header row into maps by column name.
func records(text string) []map[string]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		r := make(map[string]string, len(row))
		for i, name := range rows[0] {
			r[name] = row[i]
		}
		out = append(out, r)
	}
	return out
}

// shapesOf reads the column onset_shapes: shapes with remarks in brackets,
// separated by commas. Step is accepted for every entry, and a "constant" is
// a step from the start.
func shapesOf(column string) []Shape {
	shapes := []Shape{Step}
	for _, s := range []Shape{Ramp, Intermittent} {
		for _, word := range strings.Split(column, ",") {
			if f := strings.Fields(word); len(f) > 0 && f[0] == s.String() {
				shapes = append(shapes, s)
				break
			}
		}
	}
	return shapes
}

// notAmounts are parameters that describe a fault's manner, not its size; a
// ramp leaves them alone.
var notAmounts = map[string]bool{"settle_s": true, "cabin_dp_over_qc": true}

// ratios are the parameters whose healthy value is 1.
var ratios = map[string]bool{"ratio": true, "speed_factor": true, "scale_factor": true}

func paramOf(r map[string]string, e *Entry) Param {
	p := Param{Name: r["name"], Type: Type(r["type"]), Unit: r["unit"]}
	switch p.Type {
	case Number, Integer:
		p.Default, p.Min, p.Max = number(r["default"]), number(r["min"]), number(r["max"])
		if ratios[p.Name] {
			p.Healthy = 1
		}
	case Choice:
		p.Choices = strings.Fields(r["choices"])
		p.Max = float64(len(p.Choices) - 1)
		p.Default = float64(indexOf(p.Choices, r["default"]))
	case Bool:
		p.Choices = []string{"false", "true"}
		p.Max = 1
		p.Default = float64(indexOf(p.Choices, r["default"]))
	default:
		panic("unknown type of parameter " + r["type"])
	}
	p.Ramps = p.Type == Number && e.Accepts(Ramp) && !notAmounts[p.Name]
	return p
}

func number(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return x
}

func indexOf(words []string, word string) int {
	for i, w := range words {
		if w == word {
			return i
		}
	}
	panic("no choice " + word)
}

// String names the shape as a flight file does.
func (s Shape) String() string {
	switch s {
	case Step:
		return "step"
	case Ramp:
		return "ramp"
	case Intermittent:
		return "intermittent"
	}
	return "shape " + strconv.Itoa(int(s))
}

// Accepts says whether the entry may come on in this shape.
func (e *Entry) Accepts(s Shape) bool {
	for _, have := range e.Shapes {
		if have == s {
			return true
		}
	}
	return false
}

// CanRamp says whether a ramp is accepted: the catalogue has to list it and
// there has to be an amount to bring on.
func (e *Entry) CanRamp() bool {
	if !e.Accepts(Ramp) {
		return false
	}
	for _, p := range e.Params {
		if p.Ramps {
			return true
		}
	}
	return false
}

// Param finds a parameter by name; its index is that in Order.Params.
func (e *Entry) Param(name string) (int, bool) {
	for i, p := range e.Params {
		if p.Name == name {
			return i, true
		}
	}
	return 0, false
}

// Defaults gives the default of every parameter, fresh, in their order.
func (e *Entry) Defaults() []float64 {
	d := make([]float64, len(e.Params))
	for i, p := range e.Params {
		d[i] = p.Default
	}
	return d
}

// Refusal says why a flight may not order the entry, or "" if it may.
func (e *Entry) Refusal() string {
	if e.Kind != Explanation {
		return ""
	}
	return "is an explanation and cannot be given as a fault: it follows from " +
		"the weather, the earth or the method, and has its own line in the debrief"
}

// Range writes what a parameter may be: "0 to 0.9", "N or E".
func (p Param) Range() string {
	switch p.Type {
	case Choice, Bool:
		return strings.Join(p.Choices, " or ")
	case Integer:
		return fmt.Sprintf("a whole number from %v to %v", p.Min, p.Max)
	}
	s := fmt.Sprintf("%v to %v", p.Min, p.Max)
	if p.Unit != "" {
		s += " " + p.Unit
	}
	return s
}

// Format writes a held value as a flight file does.
func (p Param) Format(v float64) string {
	if len(p.Choices) > 0 {
		if i := int(v); i >= 0 && i < len(p.Choices) {
			return p.Choices[i]
		}
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// Check gives an error if the parameter may not have this value. NaN fails.
func (p Param) Check(v float64) error {
	whole := p.Type == Number || v == float64(int64(v))
	if v >= p.Min && v <= p.Max && whole {
		return nil
	}
	return fmt.Errorf("%s = %v: must be %s", p.Name, v, p.Range())
}

// Check gives an error if an order names no entry that can be given, a shape
// that its entry does not know, or a parameter out of range. It does not know
// the mechanism: see NeedsPlotted.
func (o Order) Check() error {
	e, ok := Lookup(o.ID)
	if !ok {
		return fmt.Errorf("no fault %q", o.ID)
	}
	if why := e.Refusal(); why != "" {
		return fmt.Errorf("%s %s", o.ID, why)
	}
	if !e.Accepts(o.Shape) || o.Shape == Ramp && !e.CanRamp() {
		return fmt.Errorf("%s cannot come on as %v", o.ID, o.Shape)
	}
	if len(o.Params) != len(e.Params) {
		return fmt.Errorf("%s has %d parameters, not %d", o.ID, len(e.Params), len(o.Params))
	}
	for i, p := range e.Params {
		if err := p.Check(o.Params[i]); err != nil {
			return fmt.Errorf("%s: %w", o.ID, err)
		}
	}
	if err := o.checkTimes(); err != nil {
		return fmt.Errorf("%s: %w", o.ID, err)
	}
	return nil
}

// checkTimes gives an error for a time that cannot be, or a trigger that would
// never come.
func (o Order) checkTimes() error {
	if o.At < 0 || o.For < 0 || o.RampTicks < 0 || o.On < 0 || o.Off < 0 {
		return errors.New("a time below 0")
	}
	if t := o.Trigger; t.Kind > BySignal || t.Signal < 0 || t.Signal > 9 {
		return errors.New("a signal is 0 to 9")
	} else if nm := t.Within.NM(); t.Kind == ByPlace && !(nm >= 0 && nm <= 600) {
		return errors.New("within 0 to 600 NM of a place")
	}
	return nil
}

// NeedsPlotted is true for the entries that exist only where the ground
// position is plotted (air position + present wind x time since the reset);
// the running design has no such clock.
func (e *Entry) NeedsPlotted() bool { return e.ID == "wind-clock-not-reset" }
