package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// fastRate is the time rate from which the lowest drum is drawn as a band.
const fastRate = 30

// instruments makes the cards of the column.
func (t *Table) instruments() {
	v := func() *aboard.View { return &t.moment.View }
	t.air = &airDrums{table: t, clock: time.Now}
	t.ring = newFocusRing()
	t.position = newDial(t, look.AirPositionTitle, func() string { return spokenPosition(t.air.reading(t.moment)) }, t.paintPosition)
	t.position.open, t.position.how = t.OpenCounters, look.AirPositionHow
	t.airLog = newDial(t, "", func() string { return spokenMiles(v().AirLogCounter) }, t.paintAirLog)
	t.heading = newDial(t, look.TrueHeading, func() string {
		return look.Textf(look.SpokenHeading, spokenDirection(units.Angle(v().Heading)))
	}, t.paintHeading)
	t.speed = newDial(t, look.TrueAirspeed, func() string {
		return look.Textf(look.SpokenTAS, spokenFigure(v().TAS.Knots(), 0))
	}, t.paintSpeed)
	t.wind = newWindSetter(t)
	t.variation = newVariationSetter(t)
	t.smallDials()
}

// column are the cards of the column.
func (t *Table) column() []fyne.CanvasObject {
	all := []fyne.CanvasObject{t.position, t.airLog, t.heading, t.speed, t.wind, t.variation}
	for _, d := range t.small {
		all = append(all, d)
	}
	return all
}

// showColumn shows the cards unless something lies over them.
func (t *Table) showColumn() {
	covered := t.columnTaken() || t.standing != TableAlone
	for _, o := range t.column() {
		if covered {
			t.screen.Hints.Leave(o) // the pointer may be over it and will not be seen to go
		}
	}
	show(!covered, t.column()...)
	if !covered && t.TwinOpen() { // its card lies under the air position
		show(false, t.column()[1:]...)
	}
	t.wind.placeKeys()
	t.layStage()
}

// drumKey is what the picture of a counter depends on, to a hundredth of a
// digit: half a pixel at the largest drums.
type drumKey [counter.MaxDrums + 2]int32

func keyOf(r counter.Reading, fast bool) (k drumKey) {
	for i := range r.Drums {
		if !fast || i > 0 {
			k[i] = int32(r.Drums[i] * 100)
		}
	}
	k[counter.MaxDrums] = int32(r.Letter)
	k[counter.MaxDrums+1] = int32(r.LetterTurn * 100)
	return k
}

func (t *Table) applyInstruments(m *helm.Moment) {
	v, p := &m.View, t.screen.Palette
	t.air.apply(m)
	t.showDrums()
	t.airLog.Update(positionKey{keyOf(v.AirLogCounter, fast(m)), drumKey{}, fast(m), false, p})
	t.heading.Update(dialKey{quarter(v.Heading.Degrees()), p})
	t.speed.Update(dialKey{quarter(v.TAS.Knots()), p})
	t.wind.show(v.WindSet)
	t.variation.show(v.VariationSet, v.FollowsField)
	for i, x := range []float64{v.PressureAltitude.Feet() / 8, v.AirTemperature.Celsius(), v.IAS.Knots(), v.Compass.Degrees()} {
		t.small[i].Update(dialKey{quarter(x), p})
	}
}

// showDrums brings the drums of the air position up to date: they move with the
// flight, with the hand on a knob, and when they run to a new setting.
func (t *Table) showDrums() {
	now, quick := t.air.reading(t.moment), fast(t.moment)
	over := now.Longitude.Over
	t.position.Update(positionKey{keyOf(now.Latitude, quick), keyOf(now.Longitude, quick), quick, over, t.screen.Palette})
	t.counters.apply(t.moment)
}

type positionKey struct {
	a, b        drumKey
	quick, over bool
	p           *look.Palette
}

// dialKey is what the picture of a dial depends on, to a quarter of its unit.
type dialKey struct {
	quarters int64
	p        *look.Palette
}

func quarter(x float64) int64 { return int64(math.Round(4 * x)) }

func (t *Table) paintHeading(d *paint.Raster, w, h float64, z look.Size) {
	x, y, r := picture.FitDial(dialRoom(w, h, z), z, picture.HeadingCardBox)
	picture.HeadingCard(t.brush(d, z), x, y, r, t.moment.View.Heading)
}

func (t *Table) paintSpeed(d *paint.Raster, w, h float64, z look.Size) {
	x, y, r := picture.FitDial(dialRoom(w, h, z), z, picture.AirspeedFanBox)
	picture.AirspeedFan(t.brush(d, z), x, y, r, picture.TASFan(t.moment.View.TAS))
}

func (t *Table) brush(d *paint.Raster, z look.Size) *picture.Brush {
	return picture.NewBrush(d, t.screen.Palette, z)
}

// dialRoom is the room for a dial under the title of a card.
func dialRoom(w, h float64, z look.Size) paint.Rect {
	top, pad := titleFoot(z), 8*z.Device
	return paint.R(pad, top, w-2*pad, h-top-pad)
}

func (t *Table) paintPosition(d *paint.Raster, w, h float64, z look.Size) {
	c, now := t.screen.Palette, t.air.reading(t.moment)
	if now.Longitude.Over {
		note(d, w, z, look.Text(look.Past180), look.Semibold, look.TextSmall, c.BrassText)
	} else {
		note(d, w, z, look.Text(look.AirPositionHint), look.Regular, look.TextSmall, c.Ink2)
	}
	top, pad := titleFoot(z), titleInset(z)
	room := (h - top - pad*0.7) / 2
	for i, row := range []picture.Counter{
		{Reading: now.Latitude, Row: picture.LatitudeRow, Fast: fast(t.moment)},
		{Reading: now.Longitude, Row: picture.LongitudeRow, Fast: fast(t.moment)},
	} {
		t.paintRow(d, paint.R(pad, top+float64(i)*room, w-2*pad, room), z, axis(i), row)
	}
}

// paintRow draws one counter with its name, and the lever where there is one.
func (t *Table) paintRow(d *paint.Raster, room paint.Rect, z look.Size, x axis, row picture.Counter) {
	c, b := t.screen.Palette, t.brush(d, z)
	drum := math.Min(room.H*0.94/1.24, room.W/8.2)
	width, tall := picture.CounterSize(row, drum)
	left := room.Right() - width
	picture.DrumCounter(b, left, room.Y+(room.H-tall)/2, drum, row)
	name := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	word := look.Text([2]look.Key{look.Latitude, look.Longitude}[x])
	d.Text(room.X, room.Y+room.H/2+0.35*name.Size, word, name, c.Ink)
	if x == longitude && t.counters.hasLever() {
		from := room.X + name.Font.Width(word, name.Size) + 4*z.Device
		picture.SenseLever(b, paint.R(from, room.Y, left-from-4*z.Device, room.H), t.moment.View.LeverEast)
	}
}

func (t *Table) paintAirLog(d *paint.Raster, w, h float64, z look.Size) {
	c := t.screen.Palette
	b := picture.NewBrush(d, c, z)
	row := picture.Counter{Reading: t.moment.View.AirLogCounter, Row: picture.MilesRow, Fast: fast(t.moment)}
	pad := titleInset(z)
	drum := (h - 0.8*pad) / 1.24
	cw, ch := picture.CounterSize(row, drum)
	size := z.Text(look.TextBody)
	name := paint.Type{Font: look.Semibold.Font(), Size: size}
	d.Text(pad, h/2+0.35*size, look.Text(look.AirLogCounter), name, c.Ink)
	unit := paint.Type{Font: look.Regular.Font(), Size: size, Anchor: paint.End}
	d.Text(w-pad, h/2+0.35*size, look.Text(look.NauticalMiles), unit, c.Ink2)
	x := w - pad - unit.Font.Width(look.Text(look.NauticalMiles), size) - 8*z.Device
	picture.DrumCounter(b, x-cw, (h-ch)/2, drum, row)
	hint := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	left := pad + name.Font.Width(look.Text(look.AirLogCounter), size) + 10*z.Device
	if text := look.Text(look.AirLogHint); left+hint.Font.Width(text, hint.Size) < x-cw-10*z.Device {
		d.Text(x-cw-10*z.Device, h/2+0.35*hint.Size, text, hint, c.Ink2)
	}
}
