package charttable

import (
	"slices"

	"stillair/sim/fault"
)

// BreakHere opens the card on which links are broken at the first of some faults
// of the catalogue, that of the link somebody points at.
func (t *Table) BreakHere(ids []string) {
	if len(ids) == 0 {
		return
	}
	e, ok := fault.Lookup(ids[0])
	if !ok {
		return
	}
	if !t.broken.on {
		t.ToggleBreakage()
	}
	b := t.broken
	b.entry = nil
	b.open(e.Link)
	b.from = max(0, slices.IndexFunc(b.faults(), func(f *fault.Entry) bool { return f.ID == e.ID }))
	b.show()
}
