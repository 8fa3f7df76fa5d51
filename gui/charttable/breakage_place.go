package charttable

import (
	"cmp"
	"slices"

	"stillair/gui/atlas"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// nears are how near to a place is there, NM.
var nears = [...]int{1, 2, 5, 10, 20}

// nearAtFirst is where they begin.
const nearAtFirst = 5

// beginPlace has the fault come at a place: at first at the next named one that is
// far enough off to be come to, else where the marker stands.
func (b *breakage) beginPlace() {
	here := units.Position(b.table.moment.View.Marker)
	b.order.Trigger = fault.Trigger{Kind: fault.ByPlace, Within: nearAtFirst * units.NM, Place: here}
	b.placed = -1
	b.places = nil
	if waters, err := atlas.Of(b.table.plan); err == nil {
		b.places = slices.Clone(waters.Places)
	}
	slices.SortStableFunc(b.places, func(p, q picture.Place) int { return cmp.Compare(milesTo(here, p), milesTo(here, q)) })
}

func milesTo(here units.Position, p picture.Place) float64 {
	_, d := geodesy.RhumbInverse(here, p.At)
	return d.NM()
}

// nextMiles goes round how near is there.
func (b *breakage) nextMiles() {
	at := 0
	for i, n := range nears {
		if b.order.Trigger.Within >= units.Length(n)*units.NM {
			at = i
		}
	}
	b.order.Trigger.Within = units.Length(nears[(at+1)%len(nears)]) * units.NM
	b.show()
}

// nextPlace goes round the named places, the nearest first, and back to where the
// marker stands.
func (b *breakage) nextPlace() {
	b.placed++
	b.order.Trigger.Place = units.Position(b.table.moment.View.Marker)
	if b.placed >= len(b.places) {
		b.placed = -1
	} else {
		b.order.Trigger.Place = b.places[b.placed].At
	}
	b.show()
}

func (b *breakage) milesText() string {
	return units.Figure(b.order.Trigger.Within.NM(), 0) + " NM"
}

// placeText is the name of the place, or its position.
func (b *breakage) placeText() string {
	if b.placed >= 0 && b.placed < len(b.places) {
		return b.places[b.placed].Name
	}
	return b.order.Trigger.Place.String()
}

// layPlace puts the keys of a place into a row.
func (b *breakage) layPlace(in box, y float32) {
	third := (in.w - breakGap) / 3
	box{in.x, y, third, kit.Target}.put(b.miles)
	box{in.x + third + breakGap, y, in.w - third - breakGap, kit.Target}.put(b.where)
	b.miles.Set(look.Textf(look.BreakWithin, b.milesText()), kit.NoSign, false)
	b.where.Set(b.placeText(), kit.NoSign, false)
	show(true, b.miles, b.where)
}
