package overlay

import (
	"math"

	"stillair/integrator/units"
)

// side is an edge of the grid by its number: twice that of the corner at its
// western or southern end, one more if it runs north.
type side int

func (g *grid) side(i, j int, north bool) side {
	s := side(2 * (j*(g.Columns+1) + i))
	if north {
		s++
	}
	return s
}

// contour joins the crossings of a level.
func (g *grid) contour(level float64) []Line {
	next := g.joints(level)
	var lines []Line
	walk := func(from side) {
		var line Line
		for at, ok := from, true; ok; {
			line = append(line, g.crossing(at, level))
			at, ok = next.leave(at)
		}
		if len(line) > 1 {
			lines = append(lines, line)
		}
	}
	for _, s := range next.ends() {
		walk(s)
	}
	for _, s := range next.order { // what is left are rings
		if next.count(s) > 0 {
			walk(s)
		}
	}
	return lines
}

// joints say which crossings are joined through a cell. They are gone through in
// the order in which they were found, so that the lines never depend on chance.
type joints struct {
	to    map[side][2]side
	n     map[side]int
	order []side
}

func (k *joints) join(a, b side) {
	for _, p := range [2][2]side{{a, b}, {b, a}} {
		if _, known := k.n[p[0]]; !known {
			k.order = append(k.order, p[0])
		}
		to := k.to[p[0]]
		to[k.n[p[0]]&1] = p[1]
		k.to[p[0]] = to
		k.n[p[0]]++
	}
}

func (k *joints) count(s side) int { return k.n[s] }

// ends are the crossings with one joint only: where lines begin.
func (k *joints) ends() (all []side) {
	for _, s := range k.order {
		if k.n[s] == 1 {
			all = append(all, s)
		}
	}
	return all
}

// leave goes to the next crossing over a joint and takes the joint away.
func (k *joints) leave(s side) (side, bool) {
	if k.n[s] == 0 {
		return 0, false
	}
	to := k.to[s][k.n[s]-1]
	k.n[s]--
	k.forget(to, s)
	return to, true
}

// forget takes the joint from s to another crossing away.
func (k *joints) forget(s, to side) {
	pair := k.to[s]
	if k.n[s] == 2 && pair[0] == to {
		pair[0] = pair[1]
		k.to[s] = pair
	}
	k.n[s]--
}

// joints finds the crossings of a level, cell by cell.
func (g *grid) joints(level float64) *joints {
	k := &joints{to: map[side][2]side{}, n: map[side]int{}}
	for j := range g.Rows {
		for i := range g.Columns {
			g.joinCell(k, i, j, level)
		}
	}
	return k
}

// joinCell joins the crossings of one cell: two, or four where two opposite
// corners are high. Those are told apart by the value in the middle.
func (g *grid) joinCell(k *joints, i, j int, level float64) {
	sw, se := g.value(i, j) >= level, g.value(i+1, j) >= level
	nw, ne := g.value(i, j+1) >= level, g.value(i+1, j+1) >= level
	if sw == se && sw == nw && sw == ne {
		return
	}
	south, north := g.side(i, j, false), g.side(i, j+1, false)
	west, east := g.side(i, j, true), g.side(i+1, j, true)
	if sw == ne && se == nw { // a saddle
		if g.at(g.place(float64(i)+0.5, float64(j)+0.5)) >= level == sw {
			k.join(south, east)
			k.join(west, north)
		} else {
			k.join(south, west)
			k.join(east, north)
		}
		return
	}
	var cut []side
	for _, e := range []struct {
		s    side
		a, b bool
	}{{south, sw, se}, {east, se, ne}, {north, nw, ne}, {west, sw, nw}} {
		if e.a != e.b {
			cut = append(cut, e.s)
		}
	}
	k.join(cut[0], cut[1])
}

// crossing is where the level is met on a side, by false position with the
// stale end's value halved (Illinois), at most 60 times.
func (g *grid) crossing(s side, level float64) units.Position {
	corner, north := int(s)/2, s&1 == 1
	i, j := corner%(g.Columns+1), corner/(g.Columns+1)
	along := func(t float64) units.Position {
		if north {
			return g.place(float64(i), float64(j)+t)
		}
		return g.place(float64(i)+t, float64(j))
	}
	i2, j2 := i+1, j
	if north {
		i2, j2 = i, j+1
	}
	a, b := 0.0, 1.0
	fa, fb := g.value(i, j)-level, g.value(i2, j2)-level
	t := a
	for range 60 {
		t = a + (b-a)*fa/(fa-fb)
		f := g.at(along(t)) - level
		if math.Abs(f) < g.near {
			break
		}
		switch {
		case (f >= 0) != (fb >= 0):
			a, fa = b, fb
		default:
			fa /= 2
		}
		b, fb = t, f
	}
	return along(t)
}
