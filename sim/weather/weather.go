// Package weather is the air of the world: wind by layers and blocks of time,
// temperature as a deviation from the standard atmosphere.
package weather

import (
	"sort"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// Entry is one wind: at all heights, or a level between which the wind is
// linear in height (as a vector), for a block of ticks (Until 0: to the end).
type Entry struct {
	Wind        units.Wind
	Base        *units.Length
	From, Until int64
}

// Departure is by how much the wind met departs from the entries: a vector for
// each stretch of Every ticks, one after the other, the last one to the end. The
// zero value is none.
type Departure struct {
	Every   int64 // above 0 where there are vectors
	Vectors []Vector
}

// Vector is a motion of the air, the way it moves.
type Vector struct{ North, East units.Speed }

// at is the vector of a tick.
func (d *Departure) at(tick int64) (north, east float64) {
	if len(d.Vectors) == 0 {
		return 0, 0
	}
	v := d.Vectors[min(tick/d.Every, int64(len(d.Vectors)-1))]
	return float64(v.North), float64(v.East)
}

// Air is the compiled weather of a flight; it does not change.
type Air struct {
	deviation units.Temperature
	blocks    []block
	departure Departure
}

// block is the winds of one stretch of time, from tick `from` until the next.
type block struct {
	from   int64
	layers []layer // by height; none: calm
}

type layer struct {
	base        float64 // m
	north, east float64 // m/s, the way the air moves
}

// New compiles the weather. Time that no entry covers is calm. The loader has
// seen to it that no two entries claim the same height and time.
func New(isaDeviation float64, entries []Entry) *Air {
	edges := map[int64]bool{0: true}
	for _, e := range entries {
		edges[e.From] = true
		if e.Until > 0 {
			edges[e.Until] = true
		}
	}
	air := &Air{deviation: units.Temperature(isaDeviation)}
	for at := range edges {
		air.blocks = append(air.blocks, block{at, layersAt(entries, at)})
	}
	sort.Slice(air.blocks, func(i, j int) bool { return air.blocks[i].from < air.blocks[j].from })
	return air
}

func layersAt(entries []Entry, tick int64) []layer {
	var out []layer
	for _, e := range entries {
		if tick < e.From || (e.Until > 0 && tick >= e.Until) {
			continue
		}
		n, east := e.Wind.Velocity()
		l := layer{north: float64(n), east: float64(east)}
		if e.Base != nil {
			l.base = e.Base.Metres()
		}
		out = append(out, l)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].base < out[j].base })
	return out
}

// With is the same weather whose wind departs from its entries.
func (w *Air) With(d Departure) *Air {
	other := *w
	other.departure = d
	return &other
}

// Change is a wind at every height from a tick on.
type Change struct {
	From int64
	Wind units.Wind
}

// Changed is the same weather until the first change; from there on each change
// blows until the next. They come in order of time; of two at one tick the later counts.
func (w *Air) Changed(changes []Change) *Air {
	other := *w
	other.blocks = nil
	for _, b := range w.blocks {
		if len(changes) == 0 || b.from < changes[0].From {
			other.blocks = append(other.blocks, b)
		}
	}
	for i, c := range changes {
		if i > 0 && c.Wind == changes[i-1].Wind {
			continue
		}
		n, e := c.Wind.Velocity()
		other.blocks = append(other.blocks, block{c.From, []layer{{north: float64(n), east: float64(e)}}})
	}
	return &other
}

// Wind is the velocity of the air in the tick that begins at this one, m/s
// north and east, at a pressure altitude in metres. Below the lowest and above
// the highest level it is that level's.
func (w *Air) Wind(tick int64, height float64) (north, east float64) {
	north, east = w.entered(tick, height)
	if len(w.departure.Vectors) > 0 {
		n, e := w.departure.at(tick)
		north, east = north+n, east+e
	}
	return north, east
}

// entered is the wind by the entries.
func (w *Air) entered(tick int64, height float64) (north, east float64) {
	b := len(w.blocks) - 1
	for b > 0 && w.blocks[b].from > tick {
		b--
	}
	layers := w.blocks[b].layers
	if len(layers) == 0 {
		return 0, 0
	}
	i := 0
	for i < len(layers) && layers[i].base <= height {
		i++
	}
	switch i {
	case 0:
		return layers[0].north, layers[0].east
	case len(layers):
		return layers[i-1].north, layers[i-1].east
	}
	lo, hi := layers[i-1], layers[i]
	k := (height - lo.base) / (hi.base - lo.base)
	return lo.north + float64(k*(hi.north-lo.north)), lo.east + float64(k*(hi.east-lo.east))
}

// Temperature is that of the air at a pressure altitude.
func (w *Air) Temperature(h units.Length) units.Temperature {
	return isa.Temperature(h) + w.deviation
}
