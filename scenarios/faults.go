package scenarios

import (
	"stillair/integrator/ground"
	"stillair/sim/fault"
)

// faults reads the orders for faults.
func (l *loader) faults(t *table) {
	for i, n := range t.entries("fault") {
		path := entry("fault", i+1)
		known := []string{"id", "at", "for", "shape", "ramp", "on", "off"}
		e := l.faultEntry(n, path)
		if e == nil { // its parameters cannot be told from unknown keys
			l.plan.Faults = append(l.plan.Faults, (&table{l, n, path}).order(nil))
			continue
		}
		for _, p := range e.Params {
			known = append(known, p.Name)
		}
		f := l.newTable(n, path, known...)
		o := f.order(e)
		o.ID, o.Params = e.ID, f.params(e)
		l.plan.Faults = append(l.plan.Faults, o)
	}
}

// faultEntry finds what a [[fault]] names in the catalogue; nil if it may not
// be given.
func (l *loader) faultEntry(n *node, path string) *fault.Entry {
	t := &table{l, n, path}
	t.require("id", "what breaks, an id of the catalogue")
	id, ok := t.text("id")
	if !ok {
		return nil
	}
	e, ok := fault.Lookup(id)
	if !ok {
		near := ""
		if !t.full() {
			if ids := fault.Nearest(id); len(ids) > 0 {
				near = "; did you mean " + orList(ids) + "?"
			}
		}
		t.bad("id", "no such fault%s", near)
		return nil
	}
	if why := e.Refusal(); why != "" {
		t.bad("id", "%s", why)
		return nil
	}
	if e.NeedsPlotted() && l.plan.Mechanism.Ground != ground.Plotted {
		t.bad("id", `needs mechanism.ground = "plotted": the running design has no wind clock to reset`)
	}
	return e
}

// order reads the window and the shape; e is nil if the id is bad.
func (t *table) order(e *fault.Entry) fault.Order {
	var o fault.Order
	t.require("at", `flight time of the onset, such as "20m"`)
	o.At, _ = t.duration("at", true)
	o.For, _ = t.duration("for", false)
	if i := t.word("shape", "step", "ramp", "intermittent"); i >= 0 {
		o.Shape = fault.Shape(i)
	}
	o.RampTicks = t.shapeTime("ramp", fault.Ramp, o.Shape)
	o.On = t.shapeTime("on", fault.Intermittent, o.Shape)
	o.Off = t.shapeTime("off", fault.Intermittent, o.Shape)
	switch {
	case e == nil:
	case !e.Accepts(o.Shape):
		t.bad("shape", "%s comes on as %s only", e.ID, shapeList(e))
	case o.Shape == fault.Ramp && !e.CanRamp():
		t.bad("shape", "%s has no amount that could ramp", e.ID)
	}
	return o
}

// shapeTime reads a time that belongs to one shape: required with it, refused
// without.
func (t *table) shapeTime(key string, want, have fault.Shape) int64 {
	if have == want {
		t.require(key, `a duration, with shape = "`+want.String()+`"`)
	} else if t.has(key) {
		t.bad(key, `only with shape = "%v"`, want)
		return 0
	}
	ticks, _ := t.duration(key, false)
	return ticks
}

func shapeList(e *fault.Entry) string {
	var words []string
	for _, s := range e.Shapes {
		if s != fault.Ramp || e.CanRamp() {
			words = append(words, s.String())
		}
	}
	return orList(words)
}

// params reads the parameters, each with its default.
func (t *table) params(e *fault.Entry) []float64 {
	values := e.Defaults()
	for i, p := range e.Params {
		switch p.Type {
		case fault.Number:
			if x, ok := t.number(p.Name, p.Min, p.Max, p.Unit); ok {
				values[i] = x
			}
		case fault.Integer:
			want := p.Range()
			if v, ok := t.get(p.Name, want, wholeKind); ok && t.within(p.Name, v.num, p.Min, p.Max, "") {
				values[i] = v.num
			}
		case fault.Bool:
			if b, ok := t.truth(p.Name); ok {
				values[i] = 0
				if b {
					values[i] = 1
				}
			}
		case fault.Choice:
			if c := t.word(p.Name, p.Choices...); c >= 0 {
				values[i] = float64(c)
			}
		}
	}
	return values
}
