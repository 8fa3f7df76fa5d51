package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Sheet is a chart on a page of its own.
type Sheet struct {
	Title  string // of the flight
	Line   string // under it: date and so forth
	Ground *Ground
	Plot   Plot
	Pins   Pins
	// Overlay works what is printed over the ground in the view of the sheet; nil:
	// nothing is.
	Overlay func(View) *Overlay
	Pencil  []Pencil
	Facts   []Fact // beside the chart, under the key
}

// Fact is a named figure.
type Fact struct{ Name, Value string }

// sheetWidth is the page width for which the sheet's sizes are given; on A4
// its smallest text is then 2.7 mm high.
const sheetWidth = 1471

// SheetSize is a page of the shape of A4 on its side, w pixels wide.
func SheetSize(w int) (int, int) { return w, int(math.Round(float64(w) * 210 / 297)) }

// ChartSheet draws the sheet on a page of w by h pixels: the flight's name on
// top, the chart, key and facts beside it, the caution at the foot.
func ChartSheet(s paint.Surface, w, h float64, sheet Sheet) {
	k := look.Size{Part: w / sheetWidth, Device: w / sheetWidth}
	b := NewBrush(s, look.Of(look.Paper), k)
	edge, u := k.Px(36), k.Part
	b.rect(paint.R(0, 0, w, h), 0, b.C.Card, none, 0)
	b.Still(paint.Pt(edge+k.Px(25), edge+k.Px(14)), k.Px(14))
	b.write(edge+k.Px(64), edge+k.Px(18), sheet.Title, look.Semibold, k.Text(24), paint.Start, b.C.Ink)
	b.write(edge+k.Px(64), edge+k.Px(40), sheet.Line, look.Regular, k.Text(look.TextSmall), paint.Start, b.C.Ink2)
	b.write(w-edge, edge+k.Px(18), look.Text(look.Stillair), look.Engraved, k.Text(22), paint.End, b.C.Ink)
	b.write(w-edge, edge+k.Px(40), look.Text(look.ChartProjection), look.Regular, k.Text(look.TextSmall), paint.End, b.C.Ink2)
	b.write(edge, h-edge*0.8, look.Text(look.Caution), look.Semibold, k.Text(look.TextSmall), paint.Start, b.C.Ink)

	rows := sheet.Plot.Rows()
	if len(sheet.Pencil) > 0 {
		rows = append(rows, RowPencil)
	}
	side, _, _, _ := b.keySize(rows)
	top, foot := edge+k.Px(62), h-edge*0.8-k.Px(30)
	frame := FrameWidth(k)
	box := paint.R(edge+frame, top+frame, w-2*edge-side-20*u-2*frame, foot-top-2*frame).Snap()
	view := Fit(box, k.Px(70), append(sheet.Plot.Positions(), sheet.Pins.positions()...)...)
	ground := *sheet.Ground
	ground.waters.Key = nil
	room := DrawGround(b, view, &ground)
	sheet.plot(b, view, room)
	DrawPins(b, view, sheet.Pins)
	x := w - edge - side
	key := Key(b, x, top, rows)
	y := b.pinList(x, key.Bottom()+k.Px(24), side, sheet.Pins)
	b.facts(x, y, side, foot, sheet.Facts)
}

// plot draws overlay, plot and pencil lines.
func (s *Sheet) plot(b *Brush, v View, room *Room) {
	var fixes []Crossing
	if s.Overlay != nil {
		o := s.Overlay(v)
		fixes, room = o.Crossings, room.Clone()
		for _, line := range s.Plot.Tracks() {
			room.TakeLine(v.ToPixels(line))
		}
		for _, q := range DrawOverlay(b, v, o, room) {
			room.TakeText(q)
		}
	}
	left := DrawPlot(b, v, &s.Plot, s.Pins.Beside(room, v, b.K))
	b.PushClip(v.Box)
	defer b.PopClip()
	for _, p := range s.Pencil {
		DrawPencil(b, v, p, left)
	}
	DrawCrossings(b, v, fixes, left, nil)
}

// facts writes each name over its value, as many as there is room for down to
// the foot.
func (b *Brush) facts(x, y, w, foot float64, facts []Fact) {
	name, value := b.K.Text(look.TextSmall), b.K.Text(look.TextBody)
	for _, f := range facts {
		if y+name*1.4+value*1.5 > foot {
			return
		}
		b.line(paint.Pt(x, y), paint.Pt(x+w, y), b.K.Hair(), b.C.Line)
		b.write(x, y+name*1.4, f.Name, look.Regular, name, paint.Start, b.C.Ink2)
		b.write(x, y+name*1.4+value*1.25, f.Value, look.Semibold, value, paint.Start, b.C.Ink)
		y += name*1.4 + value*1.25 + b.K.Px(14)
	}
}

// FactsOf are the facts of a plot: the moment and its positions.
func FactsOf(p *Plot, wind units.Wind, airMiles units.Length) []Fact {
	return []Fact{
		{look.Text(look.SheetTime), units.TimeText(p.Clock) + ", " + units.DateText(p.Clock)},
		{look.Text(look.FactAir), p.Air.String()},
		{look.Text(look.FactGround), p.Ground.String()},
		{look.Text(look.TrueHeading), p.Heading.String()},
		{look.Text(look.WindSetTitle), wind.String()},
		{look.Text(look.AirLogCounter), units.DistanceText(airMiles)},
	}
}

// TurningPoints are the turning points of the required track as facts.
func TurningPoints(required []Waypoint) []Fact {
	var out []Fact
	for _, w := range required {
		if w.Label != "" {
			out = append(out, Fact{w.Label, w.At.String()})
		}
	}
	return out
}
