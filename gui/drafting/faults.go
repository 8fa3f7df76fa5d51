package drafting

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"stillair/gui/look"
	"stillair/scenarios/edit"
	"stillair/sim/fault"
)

// fault are the rows of a fault.
func (s *sheet) fault(item string) {
	s.moment(look.DraftAt, item+".at", "")
	s.duration(look.DraftFor, item+".for", look.Text(look.DraftToEnd))
	id, _ := s.plain(item + ".id")
	e, ok := fault.Lookup(id)
	if !ok {
		return
	}
	s.shape(item, e)
	for i := range e.Params {
		s.param(item, e, &e.Params[i])
	}
}

// shapeWords name the shapes.
var shapeWords = map[fault.Shape]look.Key{fault.Step: look.DraftStep, fault.Ramp: look.DraftRamp, fault.Intermittent: look.DraftComesGoes}

// shape are the rows of how a fault comes on.
func (s *sheet) shape(item string, e *fault.Entry) {
	now, has := s.plain(item + ".shape")
	if !has {
		now = fault.Step.String()
	}
	var picks []Pick
	value := now
	for _, sh := range e.Shapes {
		if sh == fault.Ramp && !e.CanRamp() {
			continue
		}
		p := Pick{Word: look.Text(shapeWords[sh]), Value: sh.String(), Now: sh.String() == now}
		if p.Now {
			value = p.Word
		}
		picks = append(picks, p)
	}
	s.picks(look.Text(look.DraftShape), value, picks, func(text string) ([]edit.Change, error) { return shaped(item, text), nil })
	switch now {
	case "ramp":
		s.duration(look.DraftRampTime, item+".ramp", "")
	case "intermittent":
		s.duration(look.DraftOn, item+".on", "")
		s.duration(look.DraftOff, item+".off", "")
	}
}

// shaped writes a shape with the times that belong to it.
func shaped(item, shape string) []edit.Change {
	drop := func(keys ...string) (out []edit.Change) {
		for _, k := range keys {
			out = append(out, edit.Drop(item+"."+k))
		}
		return out
	}
	set := func(k, v string) edit.Change { return edit.Set(item+"."+k, edit.Text(v)) }
	switch shape {
	case "ramp":
		return append(drop("on", "off"), set("shape", shape), set("ramp", "5m"))
	case "intermittent":
		return append(drop("ramp"), set("shape", shape), set("on", "20s"), set("off", "40s"))
	}
	return drop("shape", "ramp", "on", "off")
}

// param is the row of a parameter, with the range of the catalogue.
func (s *sheet) param(item string, e *fault.Entry, p *fault.Param) {
	path, label := item+"."+p.Name, plainName(p.Name, p.Unit)
	usual := strconv.FormatFloat(p.Default, 'g', -1, 64)
	switch p.Type {
	case fault.Choice:
		now, has := s.plain(path)
		if !has {
			now = p.Choices[int(p.Default)]
		}
		var picks []Pick
		for _, c := range p.Choices {
			picks = append(picks, Pick{Word: look.Capital(plainName(c, "")), Value: c, Now: c == now})
		}
		s.picks(label, plainName(now, ""), picks, func(text string) ([]edit.Change, error) {
			return []edit.Change{edit.Set(path, edit.Text(text))}, nil
		})
	case fault.Bool:
		s.truth(label, path)
	case fault.Integer:
		s.rowAs(label, path, p.Unit, usual, p.Range(), readWhole)
	default:
		s.numberAs(label, path, p.Unit, strings.TrimSpace(usual+" "+p.Unit))
		r := &s.rows[len(s.rows)-1]
		r.Hint = p.Range() + "\n" + look.Textf(look.DraftNothing, strings.TrimSpace(usual+" "+p.Unit))
	}
}

// plainName is a name of a file in words, without the unit at its end.
func plainName(name, unit string) string {
	for _, end := range []string{"_deg_min", "_deg_h", "_deg", "_kt", "_nm", "_ft", "_s", "_min", "_c", "_hpa", "_pa"} {
		if unit != "" && strings.HasSuffix(name, end) {
			name = strings.TrimSuffix(name, end)
			break
		}
	}
	return look.Capital(strings.NewReplacer("_", " ", "-", " ").Replace(name))
}

// NewFaults are the faults that can be added, under the links in which they sit.
func NewFaults(d *edit.Draft) []Pick {
	var out []Pick
	link := ""
	all := slices.Clone(fault.Catalogue())
	order := map[string]int{}
	for i, e := range all {
		if _, ok := order[e.Link]; !ok {
			order[e.Link] = i
		}
	}
	slices.SortStableFunc(all, func(a, b fault.Entry) int { return cmp.Compare(order[a.Link], order[b.Link]) })
	for _, e := range all {
		if e.Refusal() != "" {
			continue
		}
		if e.Link != link {
			link = e.Link
			out = append(out, Pick{Word: look.Capital(link), Title: true})
		}
		out = append(out, Pick{Word: look.Capital(e.Title), Value: e.ID})
	}
	return out
}

// AddFault puts a fault in the middle of the flight.
func AddFault(d *edit.Draft, id string) (made string, err error) {
	return addEvent(d, "fault", edit.Field{Key: "id", Value: edit.Text(id)}, edit.Field{Key: "at", Value: middle(d)})
}
