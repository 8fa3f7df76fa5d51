package main

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
)

// point is east and north of an island's middle, NM.
type point struct{ x, y float64 }

func (p point) plus(q point, k float64) point { return point{p.x + k*q.x, p.y + k*q.y} }
func (p point) to(q point) point              { return point{q.x - p.x, q.y - p.y} }
func (p point) length() float64               { return math.Hypot(p.x, p.y) }
func cross(a, b point) float64                { return a.x*b.y - a.y*b.x }

// vertex is a point of a growing ring; a pinned one is hand-placed and stays.
type vertex struct {
	point
	pinned bool
}

// brush is how the coast of one island is drawn.
type brush struct {
	rng    *rand.Rand
	rough  float64 // how far a midpoint goes sideways, of the edge's length
	detail float64 // longest edge at the end, NM
	phase  [3]float64
}

func newBrush(name string, rough, detail float64) *brush {
	h := fnv.New64a()
	h.Write([]byte(name))
	b := &brush{rng: rand.New(rand.NewPCG(h.Sum64(), 1957)), rough: rough, detail: detail}
	for i := range b.phase {
		b.phase[i] = b.rng.Float64() * 2 * math.Pi
	}
	return b
}

// draw makes a coast through hand-placed points by midpoint displacement,
// ragged on some shores and smooth on others.
func (b *brush) draw(shape []point) []point {
	ring := make([]vertex, len(shape))
	for i, p := range shape {
		ring[i] = vertex{p, true}
	}
	for range 12 {
		next, grew := b.split(ring)
		ring = next
		if !grew {
			break
		}
	}
	ring = soften(ring)
	out := make([]point, len(ring))
	for i, v := range ring {
		out[i] = v.point
	}
	return out
}

// roughness varies along the coast, so that cliffs and beaches alternate.
func (b *brush) roughness(p point) float64 {
	r := math.Hypot(p.x, p.y)
	a := math.Atan2(p.y, p.x)
	wave := math.Sin(2*a+b.phase[0]) + math.Sin(5*a+b.phase[1]) + 0.7*math.Sin(0.3*r+7*a+b.phase[2])
	return b.rough * (0.62 + 0.38*math.Tanh(1.5*wave))
}

// bend is how far, of an edge's length, its midpoint goes aside. Long edges
// bend well on every shore, or the hand-placed polygon would show.
func (b *brush) bend(edge float64, at point) float64 {
	r := b.roughness(at)
	if edge > 5*b.detail {
		r = max(r, 0.85*b.rough)
	}
	return r
}

// split puts a displaced midpoint into every edge that is too long. A midpoint
// whose edges would cross or crowd the coast elsewhere is drawn again nearer
// to the edge.
func (b *brush) split(ring []vertex) ([]vertex, bool) {
	grew := false
	for i := 0; i < len(ring); i++ {
		p, q := ring[i].point, ring[(i+1)%len(ring)].point
		edge := p.to(q)
		if edge.length() <= b.detail {
			continue
		}
		grew = true
		middle := p.plus(edge, 0.4+0.2*b.rng.Float64())
		side := point{-edge.y, edge.x}
		k := clamp(b.rng.NormFloat64(), 2.2) * b.bend(edge.length(), middle)
		m := middle
		for range 4 {
			if m = middle.plus(side, k); free(ring, i, m, 0.3*b.detail) {
				break
			}
			k, m = k/3, middle
		}
		ring = append(ring[:i+1], append([]vertex{{m, false}}, ring[i+1:]...)...)
		i++ // not the new edge in this pass
	}
	return ring, grew
}

func clamp(x, lim float64) float64 { return max(-lim, min(lim, x)) }

// free says whether the edges to and from m cross no other edge and m keeps
// its distance from the others.
func free(ring []vertex, i int, m point, room float64) bool {
	n := len(ring)
	p, q := ring[i].point, ring[(i+1)%n].point
	for j := range ring {
		if j == i {
			continue
		}
		a, c := ring[j].point, ring[(j+1)%n].point
		if (j+1)%n != i && crosses(p, m, a, c) || j != (i+1)%n && crosses(m, q, a, c) {
			return false
		}
		if j != (i+1)%n && (j+1)%n != i && away(m, a, c) < room {
			return false
		}
	}
	return true
}

// crosses says whether the segments ab and cd have a point in common.
func crosses(a, b, c, d point) bool {
	s1, s2 := cross(a.to(b), a.to(c)), cross(a.to(b), a.to(d))
	s3, s4 := cross(c.to(d), c.to(a)), cross(c.to(d), c.to(b))
	return s1*s2 <= 0 && s3*s4 <= 0 && !(s1 == 0 && s2 == 0 && s3 == 0 && s4 == 0)
}

// away is the distance of m from the segment ac.
func away(m, a, c point) float64 {
	e := a.to(c)
	l := e.length()
	if l == 0 {
		return a.to(m).length()
	}
	u := max(0, min(1, (a.to(m).x*e.x+a.to(m).y*e.y)/(l*l)))
	return a.plus(e, u).to(m).length()
}

// soften takes the teeth off: each free vertex goes a quarter of the way to
// the middle of its neighbours, unless that would make the ring cross itself.
func soften(ring []vertex) []vertex {
	n := len(ring)
	out := append([]vertex(nil), ring...)
	for i := range ring {
		if ring[i].pinned {
			continue
		}
		p, q := ring[(i+n-1)%n], ring[(i+1)%n]
		mid := p.plus(p.to(q.point), 0.5)
		out[i].point = ring[i].plus(ring[i].to(mid), 0.35)
	}
	if simple(points(out)) {
		return out
	}
	return ring
}

func points(ring []vertex) []point {
	out := make([]point, len(ring))
	for i, v := range ring {
		out[i] = v.point
	}
	return out
}

// simple says whether a ring does not cross itself.
func simple(ring []point) bool {
	n := len(ring)
	for i := range ring {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if crosses(ring[i], ring[i+1], ring[j], ring[(j+1)%n]) {
				return false
			}
		}
	}
	return true
}

// clockwise turns a ring round if need be.
func clockwise(ring []point) []point {
	area := 0.0
	for i, p := range ring {
		area += cross(p, ring[(i+1)%len(ring)])
	}
	if area > 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	return ring
}

// skerry is a small rock: a circle with a few bumps, in polar form, which
// cannot cross itself.
func (b *brush) skerry(at point, radius float64) []point {
	stretch, turn := 0.55+0.4*b.rng.Float64(), b.rng.Float64()*math.Pi
	p1, p2 := b.rng.Float64()*2*math.Pi, b.rng.Float64()*2*math.Pi
	n := max(8, min(40, int(2*math.Pi*radius/0.15)))
	ring := make([]point, n)
	for i := range ring {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := radius * (1 + 0.18*math.Sin(2*a+p1) + 0.13*math.Sin(3*a+p2) + 0.08*(b.rng.Float64()-0.5))
		s, c := math.Sincos(a)
		u, v := r*c, r*s*stretch
		st, ct := math.Sincos(turn)
		ring[i] = point{at.x + u*ct - v*st, at.y + u*st + v*ct}
	}
	return ring
}

// skerries strews rocks off the ragged shores, clear of the coast and of one
// another.
func (b *brush) skerries(coast []point, count int) [][]point {
	var rocks [][]point
	var centres []point
	var radii []float64
	for try := 0; try < 60*count && len(rocks) < count; try++ {
		i := b.rng.IntN(len(coast))
		p, q := coast[i], coast[(i+1)%len(coast)]
		off := 0.7 + 2.2*b.rng.Float64()*b.rng.Float64()
		radius := 0.16 + 0.4*b.rng.Float64()*b.rng.Float64()
		e := p.to(q)
		at := p.plus(point{-e.y, e.x}, off/e.length()) // the sea is to the left, clockwise
		if b.roughness(p) < 0.5*b.rough || !alone(at, radius, coast, centres, radii) {
			continue
		}
		centres, radii = append(centres, at), append(radii, radius)
		rocks = append(rocks, b.skerry(at, radius))
	}
	return rocks
}

func alone(at point, radius float64, coast, centres []point, radii []float64) bool {
	for i := range coast {
		if away(at, coast[i], coast[(i+1)%len(coast)]) < 1.5*radius+0.25 {
			return false
		}
	}
	for i, c := range centres {
		if c.to(at).length() < 1.5*(radius+radii[i])+0.15 {
			return false
		}
	}
	return !inside(at, coast)
}

// inside says whether p lies in the ring.
func inside(p point, ring []point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}
