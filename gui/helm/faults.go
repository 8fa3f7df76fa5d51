package helm

import (
	"sort"

	"stillair/sim"
	"stillair/sim/fault"
)

// Break orders a fault, now or when it says.
func (h *Helm) Break(o fault.Order) { h.try(func(e *sim.Engine) error { return e.Break(o) }) }

// Mend ends a fault by its number in Revealed.Faults.
func (h *Helm) Mend(number int) { h.try(func(e *sim.Engine) error { return e.Mend(number) }) }

// MendAll mends every fault with this id that is not yet over.
func (h *Helm) MendAll(id string) { h.try(func(e *sim.Engine) error { return e.MendAll(id) }) }

// Signal gives a signal, 0 to 9, that faults may wait for.
func (h *Helm) Signal(n int) { h.try(func(e *sim.Engine) error { return e.Signal(n) }) }

// try has the engine do something that it may refuse.
func (h *Helm) try(do func(*sim.Engine) error) {
	h.order(func(p *pilot) {
		p.deeds++
		if err := do(p.engine); err != nil {
			p.refusal = err.Error()
		}
	})
}

// breaksOf are the comings and the ends of faults, by time.
func breaksOf(faults []sim.FaultStatus) (list []Break) {
	for _, f := range faults {
		if f.Onset == fault.Never || f.Ends < f.Onset { // mended before it came
			continue
		}
		words := f.Order.ID
		if e, ok := fault.Lookup(f.Order.ID); ok {
			words = e.Title
		}
		list = append(list, Break{Tick: f.Onset, Words: words})
		if f.Ends < fault.Never {
			list = append(list, Break{Tick: f.Ends, Words: words, Mended: true})
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].Tick < list[j].Tick })
	return list
}
