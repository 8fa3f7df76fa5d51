package charttable

import (
	"math"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// The card, units.
const (
	twinPad  = 12
	twinGap  = 4
	twinHead = 150 // what drums and gap need above the keys
)

// lay puts the card under that of the air position, over the rest of the column.
func (w *twinning) lay(p plan) {
	all := p.instruments()
	w.place = box{all.x, p.airLog.y, all.w, all.y + all.h - p.airLog.y}
	w.show()
}

// show brings the card up to the choices and lays it: wind and variation beside
// one another, a fault on each row as long as there is room.
func (w *twinning) show() {
	t := w.table
	show(false, w.objects()...)
	t.showColumn()
	if !w.on || w.place.w == 0 {
		return
	}
	w.offer(t.moment)
	w.place.put(w.paper)
	in := box{w.place.x + twinPad, w.place.y, w.place.w - 2*twinPad, w.place.h - twinPad}
	const row = kit.Target + twinGap
	half := (in.w - twinGap) / 2
	rows := 2 + min(len(w.offers)-2, max(1, int((in.h-twinHead)/row)-2))
	y := in.y + in.h - float32(rows)*row + twinGap
	w.foot = y - in.y
	for i := range rows - 2 { // all faults, then single ones
		box{in.x, y, in.w, kit.Target}.put(w.keys[2+i])
		show(true, w.keys[2+i])
		y += row
	}
	box{in.x, y, half, kit.Target}.put(w.keys[0])
	box{in.x + half + twinGap, y, half, kit.Target}.put(w.keys[1])
	y += row
	box{in.x, y, half, kit.Target}.put(w.none)
	box{in.x + half + twinGap, y, half, kit.Target}.put(w.shut)
	word := paint.Type{Font: look.Semibold.Font(), Size: t.screen.Size(1).Text(look.TextBody)}
	for i := range w.offers {
		w.offers[i].short = word.Shorten(w.offers[i].word, float64(w.keys[i].Size().Width)-20)
	}
	show(true, w.paper, w.keys[0], w.keys[1], w.none, w.shut)
	w.apply(t.moment)
	w.paper.Repaint()
}

// paint draws title, drums in outline and gap above the keys.
func (w *twinning) paint(d *paint.Raster, wide, _ float64, z look.Size) {
	m, c := w.table.moment, w.table.screen.Palette
	pad, size := twinPad*z.Device, z.Text(look.TextBody)
	title := paint.Type{Font: look.Semibold.Font(), Size: size}
	y := pad*0.6 + size
	if m.Twin == nil {
		d.Text(pad, y, look.Text(look.TwinTitleNone), title, c.Ink)
		return
	}
	lines := wrapped(look.Textf(look.TwinTitle, m.Twin.Name), title, wide-2*pad)
	for i, line := range lines[:min(2, len(lines))] {
		d.Text(pad, y+float64(i)*1.2*size, line, title, c.Ink)
		y += float64(i) * 1.2 * size
	}
	top, foot := y+0.4*size, float64(w.foot)*z.Device-0.4*size
	plate := 1.7 * size
	room := math.Min((foot-top-plate)/2, wide/8.2*1.5)
	for i, row := range []picture.Counter{
		{Reading: m.Twin.View.AirCounters.Latitude, Row: picture.LatitudeRow, Fast: fast(m)},
		{Reading: m.Twin.View.AirCounters.Longitude, Row: picture.LongitudeRow, Fast: fast(m)},
	} {
		w.paintRow(d, paint.R(pad, top+float64(i)*room, wide-2*pad, room), z, row, apart(m.View.Air, m.Twin.View.Air, axis(i)))
	}
	w.paintGap(d, paint.R(pad, top+2*room+0.2*size, wide-2*pad, plate-0.2*size), z)
}

func (w *twinning) paintRow(d *paint.Raster, room paint.Rect, z look.Size, row picture.Counter, apart string) {
	c := w.table.screen.Palette
	drum := math.Min(room.H*0.92/1.24, room.W/8.2)
	width, tall := picture.CounterSize(row, drum)
	picture.GhostCounter(w.table.brush(d, z), room.Right()-width, room.Y+(room.H-tall)/2, drum, row)
	small := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall)}
	d.Text(room.X, room.Y+room.H/2+0.35*small.Size, apart, small, c.Verm)
}

// paintGap writes the gap between the two markers.
func (w *twinning) paintGap(d *paint.Raster, r paint.Rect, z look.Size) {
	m, c := w.table.moment, w.table.screen.Palette
	words, ink := look.Text(look.TwinNoGap), c.Ink2
	if m.Twin.Gap >= leastGap {
		words, ink = look.Textf(look.TwinGap, units.DistanceText(m.Twin.Gap), units.TrueText(m.Twin.Bearing)), c.Verm
	}
	var path paint.Path
	path.RoundRect(r.Inset(z.Device), look.PlateRadius*z.Device)
	if ink == c.Verm {
		d.Fill(&path, c.VermFill)
	}
	d.Stroke(&path, paint.Pen{Width: 1.6 * z.Device}, ink)
	size := math.Min(z.Text(look.TextBody), r.H*0.7)
	d.Text(r.X+r.W/2, r.Y+r.H/2+0.35*size, words, paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}, ink)
}

// apart is how far a counter of the flight stands from that of the twin, "" if
// by less than a twentieth of a minute.
func apart(flight, twin units.AirPosition, x axis) string {
	by, words := (flight.Lat - twin.Lat).Minutes(), [2]look.Key{look.TwinNorth, look.TwinSouth}
	if x == longitude {
		by, words = units.WrapHalf(flight.Lon-twin.Lon).Minutes(), [2]look.Key{look.TwinEast, look.TwinWest}
	}
	switch {
	case math.Abs(by) < 0.05:
		return ""
	case by > 0:
		return look.Textf(words[0], units.Figure(by, 1))
	}
	return look.Textf(words[1], units.Figure(-by, 1))
}
