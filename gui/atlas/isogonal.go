package atlas

import (
	"math"
	"slices"

	"stillair/gui/picture"
	"stillair/integrator/units"
)

// gridStep is the grid on which the variation is worked, degrees; between its
// points it is taken as linear, which is good to some thousandths of a degree
// away from the poles. isoStep is the interval of the lines, most their number:
// near a pole, where they crowd, none are drawn.
const (
	gridStep = 0.25
	isoStep  = 0.5
	most     = 80
)

// node is a point on an edge of the grid: the edge from (i, j) eastward (up
// false) or northward.
type node struct {
	i, j int
	up   bool
}

// isogonals are the lines of equal value of f over the region.
func isogonals(r region, f func(lat, lon float64) float64) []picture.Isogonal {
	g := sample(r, f)
	low, high := math.Inf(1), math.Inf(-1)
	for _, row := range g {
		low, high = math.Min(low, slices.Min(row)), math.Max(high, slices.Max(row))
	}
	if (high-low)/isoStep > most {
		return nil
	}
	var out []picture.Isogonal
	for k := math.Ceil(low / isoStep); k*isoStep <= high; k++ {
		for _, line := range contour(g, k*isoStep) {
			iso := picture.Isogonal{Value: units.Variation(units.Angle(k*isoStep) * units.Degree)}
			for _, p := range line {
				iso.Points = append(iso.Points, units.At(r.south+p[1]*gridStep, units.WrapHalfDegrees(r.west+p[0]*gridStep)))
			}
			out = append(out, iso)
		}
	}
	return out
}

// sample gives f on the grid, rows from the south, columns from the west.
func sample(r region, f func(lat, lon float64) float64) [][]float64 {
	g := make([][]float64, int((r.north-r.south)/gridStep)+1)
	for j := range g {
		g[j] = make([]float64, int((r.east-r.west)/gridStep)+1)
		for i := range g[j] {
			g[j][i] = f(r.south+float64(j)*gridStep, r.west+float64(i)*gridStep)
		}
	}
	return g
}

// contour follows one value through the grid, cell by cell; lines are in grid
// units, x and y.
func contour(g [][]float64, value float64) [][][2]float64 {
	at := func(i, j int) float64 { return g[j][i] - value }
	cut := func(n node) bool {
		i, j := n.i+1, n.j
		if n.up {
			i, j = n.i, n.j+1
		}
		return (at(n.i, n.j) < 0) != (at(i, j) < 0)
	}
	next := map[node][]node{}
	var ends []node
	for j := 0; j < len(g)-1; j++ {
		for i := 0; i < len(g[0])-1; i++ {
			var hit []node
			for _, n := range [4]node{{i, j, false}, {i + 1, j, true}, {i, j + 1, false}, {i, j, true}} {
				if cut(n) {
					hit = append(hit, n)
				}
			}
			for k := 0; k+1 < len(hit); k += 2 { // two, or four at a saddle
				a, b := hit[k], hit[k+1]
				next[a], next[b] = append(next[a], b), append(next[b], a)
				ends = append(ends, a, b)
			}
		}
	}
	return chains(next, ends, func(n node) [2]float64 {
		a := at(n.i, n.j)
		if n.up {
			return [2]float64{float64(n.i), float64(n.j) + a/(a-at(n.i, n.j+1))}
		}
		return [2]float64{float64(n.i) + a/(a-at(n.i+1, n.j)), float64(n.j)}
	})
}

// chains joins linked nodes into lines, open ones from their ends first.
func chains(next map[node][]node, order []node, place func(node) [2]float64) [][][2]float64 {
	var out [][][2]float64
	seen := map[node]bool{}
	walk := func(n node) {
		var line [][2]float64
		start := n
		for ok := true; ok; {
			seen[n], ok = true, false
			line = append(line, place(n))
			for _, m := range next[n] {
				if !seen[m] {
					n, ok = m, true
					break
				}
			}
		}
		if len(line) > 2 && slices.Contains(next[n], start) { // it closes
			line = append(line, line[0])
		}
		if len(line) > 1 {
			out = append(out, line)
		}
	}
	for _, open := range []bool{true, false} {
		for _, n := range order {
			if !seen[n] && (!open || len(next[n]) == 1) {
				walk(n)
			}
		}
	}
	return out
}
