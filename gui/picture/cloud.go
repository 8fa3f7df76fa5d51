package picture

import (
	"math"
	"sort"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Cloud is a layer of cloud over a chart: circles painted from the top down, so
// that only their upper arcs show. Where they lie comes from a hash of their
// row and column on the whole Mercator chart at this scale: the same view has
// the same cloud, and dragged aside the cloud goes with the chart (the graticule
// over it must be drawn anew then in any case).
type Cloud struct {
	view  View
	k     float64
	puffs []puff // from the top down
}

// puff is one circle.
type puff struct {
	at paint.Point
	r  float64
}

// The circles of a cloud, pixels at scale 1.
const (
	puffAcross, puffDown   = 46, 34 // from one to the next
	puffLeast, puffMost    = 30, 56 // radius
	strayAcross, strayDown = 20, 13 // how far one lies off its place
)

// NewCloud lays the circles out over the box of a view.
func NewCloud(v View, size look.Size) *Cloud {
	c := &Cloud{view: v, k: size.Symbol()}
	// A whole number of columns goes round the earth: no seam at 180.
	columns := math.Max(1, math.Round(360*v.Scale/(puffAcross*c.k)))
	across, down := 360*v.Scale/columns, puffDown*c.k
	s, m := v.spot(), v.Box.Centre()
	left, top := m.X-s.lon*v.Scale, m.Y+s.psi*v.Scale // of column 0 and row 0
	edge := (puffMost + strayAcross) * c.k
	cell := func(at, from, step float64) int64 { return int64(math.Floor((at - from) / step)) }
	for row := cell(v.Box.Y-edge, top, down); row <= cell(v.Box.Bottom()+edge, top, down)+1; row++ {
		for col := cell(v.Box.X-edge, left, across); col <= cell(v.Box.Right()+edge, left, across)+1; col++ {
			n := int64(columns)
			h := hashOf((col%n+n)%n, row)
			c.puffs = append(c.puffs, puff{
				at: paint.Pt(left+float64(col)*across+(share(h)*2-1)*strayAcross*c.k,
					top+float64(row)*down+(share(h>>20)*2-1)*strayDown*c.k),
				r: (puffLeast + share(h>>40)*(puffMost-puffLeast)) * c.k,
			})
		}
	}
	sort.SliceStable(c.puffs, func(i, j int) bool { return c.puffs[i].at.Y < c.puffs[j].at.Y })
	return c
}

// hashOf mixes row and column (the finisher of SplitMix64).
func hashOf(col, row int64) uint64 {
	h := uint64(col)*0x9E3779B97F4A7C15 ^ uint64(row)*0xC2B2AE3D27D4EB4F
	h = (h ^ h>>30) * 0xBF58476D1CE4E5B9
	h = (h ^ h>>27) * 0x94D049BB133111EB
	return h ^ h>>31
}

// share is a number from 0 to 1 out of the lowest twenty bits.
func share(h uint64) float64 { return float64(h&0xFFFFF) / 0xFFFFF }

// Hole is an opening in a cloud round a position, Open from 0 to 1 of the way.
type Hole struct {
	At   units.Position
	Open float64
}

// The size of a hole: its radius in miles, the least on the screen in pixels at
// scale 1, and the most, as a part of the chart's shorter side.
const (
	holeMiles = 22.5
	holeLeast = 90
	holeMost  = 1.0 / 3
)

// HoleRadius is the radius of a hole when it is open, pixels. Circles nearer
// than that, and by half of themselves farther, are gone.
func HoleRadius(v View, at units.Position, k look.Size) float64 {
	r := math.Max(holeMiles/v.MilesPerPixel(at.Lat), holeLeast*k.Symbol())
	return math.Min(r, holeMost*math.Min(v.Box.W, v.Box.H))
}

// How far beyond the hole a circle may lie, in its radii, and still be gone, or
// be of the rim.
const (
	goneShare = 0.55
	rimShare  = 1.35
)

// hole is a Hole on the chart.
type hole struct {
	at   paint.Point
	r, k float64
	open float64
}

func (c *Cloud) hole(h Hole, size look.Size) hole {
	return hole{c.view.ToPixel(h.At), HoleRadius(c.view, h.At, size), c.k, h.Open}
}

// going says whether a circle lies within the hole.
func (h hole) going(p puff) bool { return p.at.Dist(h.at) < h.r+goneShare*p.r }

// gone says whether a circle has been taken away: the nearest go first.
func (h hole) gone(p puff) bool { return h.going(p) && h.reaches(p, goneShare) }

// rim says whether a circle stands at the edge of what is open.
func (h hole) rim(p puff) bool {
	return !h.going(p) && p.at.Dist(h.at) < h.r+rimShare*p.r && h.reaches(p, rimShare)
}

// reaches says whether the opening has come as far as a circle, of those that
// may lie so many radii beyond the hole.
func (h hole) reaches(p puff, beyond float64) bool {
	return h.open > 0 && p.at.Dist(h.at) <= h.open*(h.r+beyond*puffMost*h.k)
}

// box is all that a hole may change.
func (h hole) box() paint.Rect {
	r := h.r + (rimShare+1)*puffMost*h.k + 2
	return paint.R(h.at.X-r, h.at.Y-r, 2*r, 2*r).Snap()
}

// HoleBox is the part of the chart that a hole changes.
func (c *Cloud) HoleBox(h Hole, size look.Size) paint.Rect {
	return c.hole(h, size).box().Intersect(c.view.Box).Snap()
}

// Covers says whether a position lies under the cloud that is left.
func (c *Cloud) Covers(p units.Position, h Hole, size look.Size) bool {
	if h.Open <= 0 { // between circles lies the ground of the cloud
		return true
	}
	at, open := c.view.ToPixel(p), c.hole(h, size)
	for _, q := range c.puffs {
		if q.at.Dist(at) <= q.r && !open.gone(q) {
			return true
		}
	}
	return !open.box().Contains(at) // where no circle happens to lie the cloud is whole too
}

// DrawCover draws the cloud with graticule and frame over it, whole, and gives
// the room for the labels of the plot.
func DrawCover(b *Brush, c *Cloud) *Room {
	v := c.view
	room := NewRoom(v.Box)
	b.PushClip(v.Box)
	b.rect(v.Box, 0, b.C.Card, none, 0)
	b.puffs(c, hole{})
	b.graticule(v)
	labels := b.graticuleLabels(v, room)
	b.PopClip()
	b.frame(v)
	b.PushClip(v.Box)
	b.writeGraticule(labels, b.C.Card)
	b.PopClip()
	return room
}

// DrawLid draws what is left of the cloud about a hole, with the graticule: to be
// laid over land and true track.
func DrawLid(b *Brush, c *Cloud, h Hole) {
	open := c.hole(h, b.K)
	b.PushClip(open.box().Intersect(c.view.Box))
	defer b.PopClip()
	b.puffs(c, open)
	b.graticule(c.view)
	b.writeGraticule(b.graticuleLabels(c.view, NewRoom(c.view.Box)), b.C.Card)
}

// puffs draws the circles that are left, those of the rim in a stronger line.
func (b *Brush) puffs(c *Cloud, open hole) {
	k := c.k
	for _, p := range c.puffs {
		switch {
		case open.k > 0 && open.gone(p):
		case open.k > 0 && open.rim(p):
			b.disc(p.at.X, p.at.Y, p.r, b.C.Card, b.C.Ink2, 1.6*k)
		case open.k > 0 && !open.box().Overlaps(paint.R(p.at.X-p.r, p.at.Y-p.r, 2*p.r, 2*p.r)):
		default:
			b.disc(p.at.X, p.at.Y, p.r, b.C.Card, b.C.CloudLine(), 1.2*k)
		}
	}
}

// DrawLand draws what lies under a cloud: water, land and their names.
func DrawLand(b *Brush, v View, g *Ground) {
	room := NewRoom(v.Box)
	b.PushClip(v.Box)
	b.coasts(v, g, room)
	for _, line := range g.waters.Keep {
		room.comeAlong(v.ToPixels(line))
	}
	b.places(v, g, room)
	b.PopClip()
}

// DrawTrueTrack draws the true track alone.
func DrawTrueTrack(b *Brush, v View, t *Truth) {
	if t == nil || len(t.Track) < 2 {
		return
	}
	pts := straightened(thin(v.ToPixels(t.Track), 0.5), onLine)
	b.course(pts, b.strokeOf(look.TrueTrack, b.K.Symbol()), 0)
}
