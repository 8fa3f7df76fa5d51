package picture

import (
	"math"
	"sort"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// leastInset is the least span of the large-scale chart, degrees of longitude.
const leastInset = 1.5 / 60

// link is the vector of a part on the chart.
type link struct {
	part *AccountPart
	a, z paint.Point
}

// accountInset draws the parts head to tail, from the true position to where they
// lead.
func (b *Brush) accountInset(r paint.Rect, a *Account) {
	box := b.chartCard(r)
	v := a.insetView(box, b.K)
	room := DrawGround(b, v, a.Near)
	b.PushClip(v.Box)
	defer b.PopClip()
	k := b.K.Symbol()
	links := a.links(v)
	from, to := v.ToPixel(a.True), v.ToPixel(a.aside(a.North, a.East))
	shown := v.ToPixel(a.Shown)
	b.dashed(from, to, 1.6*k, b.C.Verm, 3*k, 5*k)
	room.TakeLine([]paint.Point{from, to})
	for _, l := range links {
		b.link(l)
		room.TakeLine([]paint.Point{l.a, l.z})
	}
	b.TruthDiamond(from, 1.1*k)
	b.Marker(shown, 0.9*k, a.Heading.Degrees())
	if a.pulled() {
		b.TwinMarker(to, k)
	}
	for _, p := range []paint.Point{from, to, shown} {
		room.Take(paint.R(p.X-14*k, p.Y-14*k, 28*k, 28*k))
		room.marks = append(room.marks, p)
	}
	b.insetLabels(room, a, links, from, to, shown)
}

// insetView fits the chain and the two positions.
func (a *Account) insetView(box paint.Rect, z look.Size) View {
	all := []units.Position{a.True, a.Shown}
	north, east := 0.0, 0.0
	for i := range a.Parts {
		if p := &a.Parts[i]; !p.Right {
			north, east = north+p.North, east+p.East
			all = append(all, a.aside(north, east))
		}
	}
	return fit(box, 84*z.Symbol(), leastInset, all...)
}

// links are the vectors of the parts that are in the chain.
func (a *Account) links(v View) (all []link) {
	north, east := 0.0, 0.0
	at := v.ToPixel(a.True)
	for i := range a.Parts {
		p := &a.Parts[i]
		if p.Right {
			continue
		}
		north, east = north+p.North, east+p.East
		z := v.ToPixel(a.aside(north, east))
		all = append(all, link{p, at, z})
		at = z
	}
	return all
}

func (b *Brush) link(l link) {
	k, c := b.K.Symbol(), b.tone(l.part.Family)
	s := stroke{colour: c, width: 4 * k, heads: 1, head: 16 * k}
	if l.a.Dist(l.z) < leastForHeads*k {
		s.heads = 0
	}
	if l.part.Family == HeadingFamily { // brass has an outline
		under := s
		under.colour, under.width, under.heads = b.C.BrassLo, 6.4*k, 0
		b.vector(l.a, l.z, under, 0)
	}
	b.vector(l.a, l.z, s, 0.55)
	b.disc(l.z.X, l.z.Y, 3.2*k, b.C.Ink, none, 0)
}

// insetLabels names the two positions, the whole and its parts, the largest first.
func (b *Brush) insetLabels(room *Room, a *Account, links []link, from, to, shown paint.Point) {
	k := b.K.Symbol()
	bold := func(s string, c colour) words { return words{s, look.Bold, b.K.Text(16), c} }
	second := func(s string) words { return words{s, look.Regular, b.K.Text(15), b.C.Ink2} }
	mid := paint.Pt((from.X+to.X)/2, (from.Y+to.Y)/2)
	away := func(p, q paint.Point) place { // away from the other end
		if p.Y < q.Y {
			return above
		}
		return below
	}
	all := []label{
		{at: from, clear: 12 * k, first: away(from, shown), must: true, lines: []words{bold(look.Text(look.TruePosition), b.C.Verm), second(a.True.String())}},
		{at: shown, clear: 20 * k, first: away(shown, from), must: true, lines: []words{bold(look.Text(look.AccountShown), b.C.Ink), second(a.Shown.String())}},
		{at: mid, clear: 2 * k, first: aboveRight, far: true, keen: true, lines: []words{bold(a.totalWords(), b.C.Verm)}},
	}
	sort.SliceStable(links, func(i, j int) bool { return links[i].a.Dist(links[i].z) > links[j].a.Dist(links[j].z) })
	for _, l := range links {
		if l.part.Printed == [3]int{} || math.Hypot(l.part.North, l.part.East) < 0.05 {
			continue
		}
		all = append(all, label{at: paint.Pt((l.a.X+l.z.X)/2, (l.a.Y+l.z.Y)/2), clear: 4 * k, first: rightOf, far: true, keen: true,
			lines: []words{bold(l.part.Name, b.C.Ink), second(northEast(l.part.Printed))}})
	}
	for _, l := range all {
		b.label(room, l, b.C.Sea)
	}
}

// northEast writes tenths of miles as they are read on a chart: 4.3 S, 5.5 E.
func northEast(tenths [3]int) string {
	return signed(tenths[0], "N", "S") + ", " + signed(tenths[1], "E", "W")
}

func signed(tenths int, plus, minus string) string {
	if tenths < 0 {
		return units.Figure(float64(-tenths)/10, 1) + " " + minus
	}
	return units.Figure(float64(tenths)/10, 1) + " " + plus
}
