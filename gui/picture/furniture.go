package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// besideLatitudes is how far furniture stays off the latitudes, pixels at
// scale 1.
const besideLatitudes = 76

// outer is how far from its corner furniture may stand, in parts of the chart's
// shorter side.
const outer = 0.4

// spare finds room for a piece of furniture of w by h pixels: wholly free, as
// near to a corner of the box as can be, inset pixels off its edge, off coasts
// and lines by much if that can be and else by little. ok is false if there is
// none in the outer parts of the chart.
func (b *Brush) spare(room *Room, w, h, inset float64) (q paint.Rect, ok bool) {
	for _, margin := range []float64{26, 14, 4} {
		if q, ok = b.spareWith(room, w, h, inset, margin*b.K.Symbol()); ok {
			return q, true
		}
	}
	return q, false
}

func (b *Brush) spareWith(room *Room, w, h, inset, margin float64) (q paint.Rect, ok bool) {
	k := b.K.Symbol()
	in := room.box.Inset(inset)
	in.H -= b.K.Text(look.TextSmall) * 1.6
	in.W -= besideLatitudes * k
	if room.side < room.box.Centre().X {
		in.X += besideLatitudes * k
	}
	sums, best := room.sums(), outer*math.Min(in.W, in.H)
	for y := in.Y; y+h <= in.Bottom(); y += 2 * roomCell {
		for x := in.X; x+w <= in.Right(); x += 2 * roomCell {
			// The corners that are left or low come first between equals.
			dx, dy := math.Min(x-in.X, in.Right()-w-x+1), math.Min(y-in.Y+1, in.Bottom()-h-y)
			if d := math.Hypot(dx, dy); d < best && room.none(sums, paint.R(x, y, w, h).Inset(-margin)) {
				q, best = paint.R(x, y, w, h), d
			}
		}
	}
	return q, q.W > 0
}

// widest is the part of the chart's width and height that one piece of
// furniture may take.
const widest = 0.4

// piece is one piece of furniture: its size, how far off the edge it stands,
// and how it is drawn into its rectangle.
type piece struct {
	w, h, inset float64
	draw        func(b *Brush, q paint.Rect)
}

// placed is a piece of furniture in its place.
type placed struct {
	at   paint.Rect
	draw func(b *Brush, q paint.Rect)
}

// furniture draws key, rose and scale bar where nothing else is: in the first
// order, of those tried, that finds room for most of them.
func (b *Brush) furniture(v View, g *Ground, room *Room) {
	pieces := [3]piece{b.keyPiece(g), b.rosePiece(g), b.scalePiece(v)}
	if g.waters.Bare {
		pieces[2].draw = nil
	}
	var best [3]paint.Rect
	most, wanted := -1, 0
	for i := range pieces {
		p := &pieces[i]
		if p.w > widest*room.box.W || p.h > widest*room.box.H {
			p.draw = nil
		}
		wanted += b2i(p.draw != nil)
	}
	for _, order := range [][3]int{{0, 1, 2}, {1, 0, 2}, {2, 1, 0}} {
		var at [3]paint.Rect
		found, try := 0, room.Clone()
		for _, i := range order {
			p := pieces[i]
			if p.draw == nil {
				continue
			}
			if q, ok := b.spare(try, p.w, p.h, p.inset); ok {
				at[i] = q
				try.Take(q)
				found++
			}
		}
		if found > most {
			best, most = at, found
		}
		if most == wanted {
			break
		}
	}
	for i, q := range best {
		if q.W > 0 {
			room.Take(q)
			pieces[i].draw(b, q)
			room.furniture = append(room.furniture, placed{q, pieces[i].draw})
		}
	}
}

// keyPiece is the key, on charts that have room for it.
func (b *Brush) keyPiece(g *Ground) (p piece) {
	if len(g.waters.Key) == 0 || b.K.Small() {
		return p
	}
	w, h, _, _ := b.keySize(g.waters.Key)
	return piece{w, h, b.K.Px(24), func(b *Brush, q paint.Rect) { Key(b, math.Round(q.X), math.Round(q.Y), g.waters.Key) }}
}

// rosePiece is the compass rose: a true ring, inside it the magnetic ring
// turned by the variation.
func (b *Brush) rosePiece(g *Ground) (p piece) {
	if g.waters.Rose == nil || b.K.Small() {
		return p
	}
	r := b.K.Px(84)
	w, h := 2.1*r, 2.3*r+b.K.Px(24)
	return piece{w, h, b.K.Px(24), func(b *Brush, q paint.Rect) {
		CompassRose(b, q.X+w/2, q.Y+1.25*r, r, *g.waters.Rose, g.waters.Year)
	}}
}

// CompassRose draws a rose of radius r with the variation and its year under
// it (year 0: without).
func CompassRose(b *Brush, x, y, r float64, variation units.Variation, year int) {
	k, d := b.K.Symbol(), variation.Degrees()
	b.disc(x, y, r*1.02, b.C.Sea, none, 0)
	b.disc(x, y, r, none, b.C.Ink, 1.3*k)
	b.ticks(x, y, r, r*0.05, r*0.09, 0, b.C.Ink)
	for i, s := range compassLetters() {
		b.upright(paint.Polar(x, y, r*0.82, float64(i)*90), s, b.K.Text(look.TextSmall), b.C.Ink2)
	}
	in := r * 0.66
	b.disc(x, y, in, none, b.C.BrassText, 1.2*k)
	b.ticks(x, y, in, in*0.07, in*0.13, d, b.C.BrassText)
	for i := range 4 {
		s := look.Text(look.MagneticNorth)
		if i > 0 {
			s = units.Degrees3(units.Angle(i*90) * units.Degree)
		}
		b.upright(paint.Polar(x, y, in*0.68, float64(i)*90+d), s, b.K.Figure(12.5), b.C.BrassText)
	}
	b.line(paint.Pt(x, y-r*0.66), paint.Pt(x, y+r*0.12), b.K.Hair(), b.C.Ink)
	b.line(paint.Pt(x, y), paint.Polar(x, y, in*0.52, d), 1.4*k, b.C.BrassText)
	b.polygon(b.C.Ink, none, 0, paint.Pt(x, y-r*1.2), paint.Pt(x-r*0.083, y-r*1.02), paint.Pt(x+r*0.083, y-r*1.02))
	if year > 0 {
		size := b.K.Text(14.5)
		b.haloed(x, y+r+size*1.35, variation.String()+"  "+units.Figure(float64(year), 0), look.Regular, size, paint.Middle, b.C.BrassText, b.C.Sea)
	}
}

// milesToDegree is the length of a degree of longitude at a latitude, NM.
func milesToDegree(lat units.Angle) float64 {
	return units.Length(float64(geodesy.PrimeVerticalRadius(lat)) * math.Cos(lat.Radians()) * math.Pi / 180).NM()
}

// scalePiece is a bar of sea miles, true at the latitude of the middle.
func (b *Brush) scalePiece(v View) (p piece) {
	k, size := b.K.Symbol(), b.K.Text(14)
	perMile := 1 / v.MilesPerPixel(v.Centre.Lat)
	miles := 1.0
	for _, m := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000} {
		if m*perMile <= 170*k {
			miles = m
		}
	}
	w := miles * perMile
	text := look.Textf(look.ScaleAt, units.LatitudeLabel(roundMinute(v.Centre.Lat)))
	tall, long := size*2.6+6*k, math.Max(w+size*3, look.Regular.Font().Width(text, size))
	return piece{long, tall, 18 * k, func(b *Brush, q paint.Rect) {
		b.scaleBar(math.Round(q.X+size), math.Round(q.Y+size*1.3), w, miles, text, size)
	}}
}

// scaleBar draws the bar, w pixels for so many miles, from (x, y) to the right.
func (b *Brush) scaleBar(x, y, w, miles float64, text string, size float64) {
	k := b.K.Symbol()
	for i := range 4 {
		fill := b.C.Card
		if i%2 == 0 {
			fill = b.C.Ink
		}
		b.rect(paint.R(x+w*float64(i)/4, y, w/4, 6*k), 0, fill, b.C.Ink, b.K.Hair())
	}
	for _, f := range []float64{0, 0.5, 1} {
		b.haloed(x+w*f, y-4*k, units.Figure(miles*f, int(math.Mod(miles, 2))*b2i(f == 0.5)), look.Engraved, size, paint.Middle, b.C.Ink2, b.C.Sea)
	}
	b.haloed(x, y+6*k+size*1.1, text, look.Regular, size, paint.Start, b.C.Ink2, b.C.Sea)
}

func b2i(v bool) int {
	if v {
		return 1
	}
	return 0
}

func roundMinute(a units.Angle) units.Angle {
	return units.Angle(math.Round(a.Minutes())) * units.ArcMinute
}

// KeyRow is one row of a key.
type KeyRow uint8

// The rows a key may have.
const (
	RowRequired KeyRow = iota
	RowAirPlot
	RowGround
	RowDR
	RowWind
	RowWinds
	RowSymbols
	RowMarker
	RowTruth
	RowPosition
	RowTransferred
	RowPencil
)

var rowWords = [...]look.Key{
	look.KeyRequired, look.KeyAirPlot, look.KeyGroundTrack, look.KeyDRTrack, look.KeyWind, look.KeyWinds, look.KeySymbols,
	look.KeyMarker, look.KeyTrueTrack, look.KeyPositionLine, look.KeyTransferred, look.KeyPencil,
}

// keySize is the size of a key: rows of 22, or as high as their text needs.
func (b *Brush) keySize(rows []KeyRow) (w, h, row, size float64) {
	size = b.K.Text(look.TextSmall)
	row = math.Max(b.K.Px(22), size*1.45)
	for _, r := range rows {
		w = math.Max(w, look.Regular.Font().Width(look.Text(rowWords[r]), size))
	}
	return w + 84*b.K.Symbol() + size, float64(len(rows))*row + 16*b.K.Symbol(), row, size
}

// Key draws the key with its corner at (x, y) and gives its rectangle.
func Key(b *Brush, x, y float64, rows []KeyRow) paint.Rect {
	w, h, row, size := b.keySize(rows)
	k := b.K.Symbol()
	card := paint.R(x, y, w, h)
	b.rect(card, look.PlateRadius*k, b.C.Card, b.C.Line, b.K.Hair())
	for i, r := range rows {
		mid := y + 8*k + row*(float64(i)+0.5)
		b.keySign(paint.Pt(x+42*k, mid), r, k)
		b.write(x+84*k, mid+size*0.36, look.Text(rowWords[r]), look.Regular, size, paint.Start, b.C.Ink)
	}
	return card
}

func (b *Brush) keySign(p paint.Point, r KeyRow, k float64) {
	a, z := p.Add(-30*k, 0), p.Add(30*k, 0)
	line := func(kind look.LineKind) { b.vector(a, z, b.strokeOf(kind, k), 0.5) }
	switch r {
	case RowRequired:
		line(look.RequiredTrack)
		b.TurningPoint(p, 0.9*k)
	case RowAirPlot:
		line(look.AirPlot)
	case RowGround:
		line(look.GroundTrack)
	case RowDR:
		line(look.DRTrack)
	case RowWind:
		line(look.WindSet)
	case RowWinds:
		set, found := b.strokeOf(look.WindSet, k*0.8), b.strokeOf(look.WindFound, k*0.8)
		b.vector(p.Add(-34*k, 0), p.Add(-2*k, 0), set, 0.5)
		b.vector(p.Add(4*k, 0), p.Add(36*k, 0), found, 0.5)
	case RowSymbols:
		b.AirCross(p.Add(-24*k, 0), 0.85*k)
		b.CountersBox(p, 0.75*k)
		b.FixTriangle(p.Add(24*k, 2*k), 0.85*k)
	case RowMarker:
		b.Marker(p, 0.42*k, 90)
	case RowTruth:
		line(look.TrueTrack)
		b.TruthDiamond(p, 0.7*k)
	case RowPosition, RowTransferred:
		b.positionLine(p.Add(-30*k, 5*k), p.Add(30*k, -5*k), r == RowTransferred, k)
	case RowPencil:
		b.pencilLine(p.Add(-30*k, 4*k), p.Add(30*k, -4*k), k)
	}
}

// positionLine draws a position line between two points, an open head at both
// ends, two when it was transferred.
func (b *Brush) positionLine(a, z paint.Point, transferred bool, k float64) {
	s := b.strokeOf(look.PositionLine, k)
	b.line(a, z, s.width, s.colour)
	n := 1 + b2i(transferred)
	for i := range n {
		d := float64(i) * 7 * k
		u := unit(a, z)
		b.openHead(z.Add(-u.X*d, -u.Y*d), u, s.head, s.width, s.colour)
		b.openHead(a.Add(u.X*d, u.Y*d), paint.Pt(-u.X, -u.Y), s.head, s.width, s.colour)
	}
}
