package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Gap is what lies between the marker and the true position.
type Gap struct {
	Marker units.GroundPosition
	True   units.Position
}

// Words are miles and bearing from the marker to the true position, by the
// rhumb line between the two as they are printed.
func (g Gap) Words() (miles, towards string) {
	course, distance := geodesy.RhumbInverse(units.Position(g.Marker).Printed(), g.True.Printed())
	miles = units.DistanceText(distance)
	if units.Figure(distance.NM(), 1) == units.Figure(0, 1) {
		return miles, look.Text(look.GapNone)
	}
	return miles, look.Textf(look.GapTowards, units.TrueText(course))
}

// Take keeps labels off the line and the diamond that DrawGap will draw.
func (g Gap) Take(v View, room *Room, k look.Size) {
	a, z, s := v.ToPixel(units.Position(g.Marker)), v.ToPixel(g.True), k.Symbol()
	room.TakeLine([]paint.Point{a, z})
	room.Take(paint.R(z.X-11*s, z.Y-11*s, 22*s, 22*s))
	room.marks = append(room.marks, z)
}

// The plate of the gap: how far off it is tried to stand, pixels at scale 1, and
// what it costs to cover plot all over. It is so large that a line across it is
// only a small part.
var plateGaps = []float64{60, 90, 130, 175, 225}

const plateCost = 4 * coverCost

// DrawGap draws the line from the marker to the true position with its miles on
// a plate; room is what the plot has left.
func DrawGap(b *Brush, v View, room *Room, g Gap, held *Held) {
	k := b.K.Symbol()
	a, z := v.ToPixel(units.Position(g.Marker)), v.ToPixel(g.True)
	b.PushClip(v.Box)
	defer b.PopClip()
	if d := a.Dist(z); d > 24*k {
		u := unit(a, z)
		b.line(a.Add(u.X*11*k, u.Y*11*k), z.Add(-u.X*9*k, -u.Y*9*k), 3*k, b.C.Verm)
	}
	plate := b.plate(room, a, z, g, held)
	near := paint.Pt(math.Max(plate.X, math.Min(plate.Right(), z.X)), math.Max(plate.Y, math.Min(plate.Bottom(), z.Y)))
	u := unit(z, near)
	b.line(z.Add(u.X*20*k, u.Y*20*k), near, 1.4*k, b.C.Verm)
	b.gapDiamond(a, z)
	miles, towards := g.Words()
	b.rect(plate, look.PlateRadius*k, b.C.Card, b.C.Verm, 2*k)
	big, small := b.plateText()
	b.write(plate.X+16*k, plate.Y+10*k+big*0.8, miles, look.Engraved, big, paint.Start, b.C.Verm)
	b.write(plate.X+16*k, plate.Bottom()-12*k, towards, look.Regular, small, paint.Start, b.C.Ink2)
}

// gapDiamond is the true position: where the marker would lie under the diamond,
// a wider one is drawn round it.
func (b *Brush) gapDiamond(marker, at paint.Point) {
	k := b.K.Symbol()
	if marker.Dist(at) > 22*k {
		b.TruthDiamond(at, 1.3*k)
		return
	}
	const r = 20
	b.polygon(none, b.C.Verm, 2.6*k, at.Add(0, -r*k), at.Add(r*k, 0), at.Add(0, r*k), at.Add(-r*k, 0))
}

func (b *Brush) plateText() (big, small float64) {
	return b.K.Text(look.TextFigure) * math.Max(1, 0.8*b.K.Symbol()/b.K.Part), b.K.Text(16)
}

// plate finds the place of the plate: where it covers least, nearest to the true
// position, and where it stood before if that is nearly as good.
func (b *Brush) plate(room *Room, marker, at paint.Point, g Gap, held *Held) paint.Rect {
	k := b.K.Symbol()
	miles, towards := g.Words()
	big, small := b.plateText()
	w := 32*k + math.Max(look.Engraved.Font().Width(miles, big), look.Regular.Font().Width(towards, small))
	h := 34*k + big*0.8 + small
	in, pool := room.box.Inset(8*k), paint.R(marker.X-34*k, marker.Y-34*k, 68*k, 68*k)
	best, least, kept, id := paint.R(in.X, in.Y, w, h), math.Inf(1), 0, 0
	try := func(q paint.Rect, gap float64) {
		id++
		if !in.Covers(q) || q.Overlaps(pool) {
			return
		}
		cost := gap + plateCost*room.burden(q.Inset(-4*k))/lineHurts
		if crosses([]paint.Point{marker, at}, q) {
			cost += plateCost // over the gap itself only where there is no other place
		}
		if held.stood("gap", id) {
			cost -= stayBonus
		}
		if cost < least {
			best, least, kept = q, cost, id
		}
	}
	for _, gap := range plateGaps {
		for a := 0.0; a < 360; a += 22.5 {
			try(beside(at, a, gap*k, w, h), gap)
		}
	}
	if least >= plateCost { // in a corner: anywhere else
		for y := in.Y; y+h <= in.Bottom(); y += h / 2 {
			for x := in.X; x+w <= in.Right(); x += w / 2 {
				q := paint.R(x, y, w, h)
				try(q, q.Centre().Dist(at)/k)
			}
		}
	}
	held.keep("gap", kept)
	return best
}

// beside is a rectangle whose nearest point lies so far off at in a direction.
func beside(at paint.Point, deg, gap, w, h float64) paint.Rect {
	p := paint.Polar(at.X, at.Y, gap, deg)
	s, c := math.Sincos(deg * math.Pi / 180)
	return paint.R(p.X-w/2+w/2*s, p.Y-h/2-h/2*c, w, h)
}
