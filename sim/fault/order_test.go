package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Amounts by hand: a window includes its first tick and not its last.
func TestAmount(t *testing.T) {
	type at struct {
		tick   int64
		amount float64
		acts   bool
	}
	for name, c := range map[string]struct {
		o    Order
		want []at
	}{
		"step to the end": {Order{At: 10}, []at{{9, 0, false}, {10, 1, true}, {1e9, 1, true}}},
		"step":            {Order{At: 10, For: 5}, []at{{9, 0, false}, {10, 1, true}, {14, 1, true}, {15, 0, false}}},
		"ramp": {Order{At: 10, For: 50, Shape: Ramp, RampTicks: 20},
			[]at{{9, 0, false}, {10, 0, true}, {15, 0.25, true}, {30, 1, true}, {59, 1, true}, {60, 0, false}}},
		"ramp cut short":     {Order{At: 0, For: 10, Shape: Ramp, RampTicks: 20}, []at{{9, 0.45, true}, {10, 0, false}}},
		"ramp of no length":  {Order{At: 3, Shape: Ramp}, []at{{2, 0, false}, {3, 1, true}}},
		"intermittent":       {Order{At: 100, Shape: Intermittent, On: 3, Off: 2}, []at{{100, 1, true}, {102, 1, true}, {103, 0, false}, {104, 0, false}, {105, 1, true}, {108, 0, false}, {110, 1, true}}},
		"intermittent, over": {Order{At: 100, For: 6, Shape: Intermittent, On: 3, Off: 2}, []at{{105, 1, true}, {106, 0, false}}},
	} {
		for _, w := range c.want {
			amount, acts := c.o.Amount(w.tick)
			assert.Equal(t, w, at{w.tick, amount, acts}, name)
		}
	}
}

// Until names the very next tick at which the amount differs, and never misses
// one: compared with looking at every tick.
func TestUntilIsTheNextChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, lo, hi int64) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }
		o := Order{At: n("at", 0, 20), For: n("for", 0, 30), Shape: Shape(n("shape", 0, 2)),
			RampTicks: n("ramp", 0, 10), On: n("on", 1, 6), Off: n("off", 1, 6)}
		tick := n("tick", 0, 60)
		amount, acts := o.Amount(tick)
		next := o.Until(tick)
		for u := tick + 1; u < min(next, 80); u++ {
			a, on := o.Amount(u)
			if a != amount || on != acts {
				t.Fatalf("%+v changes at %d, not %d", o, u, next)
			}
		}
		if next == Never || o.For > 0 && next == o.At+o.For { // the end of a window may fall into an off time
			return
		}
		if a, on := o.Amount(next); a == amount && on == acts {
			t.Fatalf("%+v does not change at %d", o, next)
		}
	})
}
