package charttable

import (
	"math"

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
	t.position = newCard(t.screen, look.AirPositionTitle, t.paintPosition)
	t.airLog = newCard(t.screen, look.AirLogCounter, t.paintAirLog)
	t.heading = newCard(t.screen, look.TrueHeading, t.paintHeading)
	t.speed = newCard(t.screen, look.TrueAirspeed, t.paintSpeed)
	t.wind = newWindSetter(t)
	t.variation = newVariationSetter(t)
	t.smallDials()
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
	fast := m.Playing && m.Rate >= fastRate
	t.position.Update(positionKey{keyOf(v.AirCounters.Latitude, fast), keyOf(v.AirCounters.Longitude, fast), fast, p})
	t.airLog.Update(positionKey{keyOf(v.AirLogCounter, fast), drumKey{}, fast, p})
	t.heading.Update(dialKey{quarter(v.Heading.Degrees()), p})
	t.speed.Update(dialKey{quarter(v.TAS.Knots()), p})
	t.wind.show(v.WindSet)
	t.variation.show(v.VariationSet, v.FollowsField)
	for i, x := range []float64{v.PressureAltitude.Feet() / 8, v.AirTemperature.Celsius(), v.IAS.Knots(), v.Compass.Degrees()} {
		t.small[i].Update(dialKey{quarter(x), p})
	}
}

type positionKey struct {
	a, b drumKey
	fast bool
	p    *look.Palette
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

// smallDials makes the four cards at the foot of the column.
func (t *Table) smallDials() {
	dial := func(title look.Key, value func() string, draw func(b *picture.Brush, x, y, r float64)) *card {
		return newCard(t.screen, "", func(d *paint.Raster, w, h float64, z look.Size) {
			p := t.screen.Palette
			size := z.Text(look.TextSmall)
			text := paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}
			d.Text(w/2, size*1.3, look.Text(title), text, p.Ink)
			text.Size = z.Text(look.TextBody)
			text.Font = look.Engraved.Font()
			d.Text(w/2, h-0.45*text.Size, value(), text, p.Ink)
			room := paint.R(0, size*1.6, w, h-size*1.6-text.Size*1.35)
			x, y, r := picture.FitDial(room, z, picture.StandbyCompassBox)
			draw(t.brush(d, z), x, y, r)
		})
	}
	v := func() *aboard.View { return &t.moment.View }
	t.small = [4]*card{
		dial(look.PressureAlt, func() string { return units.HeightText(v().PressureAltitude) },
			func(b *picture.Brush, x, y, r float64) {
				picture.SmallDial(b, x, y, r, picture.HeightShare(v().PressureAltitude))
			}),
		dial(look.Thermometer, func() string { return units.TemperatureText(v().AirTemperature) },
			func(b *picture.Brush, x, y, r float64) {
				picture.SmallDial(b, x, y, r, picture.TemperatureShare(v().AirTemperature))
			}),
		dial(look.Indicated, func() string { return units.SpeedText(v().IAS) },
			func(b *picture.Brush, x, y, r float64) { picture.SmallDial(b, x, y, r, picture.AirspeedShare(v().IAS)) }),
		dial(look.Compass, func() string { return v().Compass.String() },
			func(b *picture.Brush, x, y, r float64) { picture.StandbyCompass(b, x, y, r, v().Compass) }),
	}
}

func (t *Table) paintPosition(d *paint.Raster, w, h float64, z look.Size) {
	c, v := t.screen.Palette, &t.moment.View
	fast := t.moment.Playing && t.moment.Rate >= fastRate
	note(d, w, z, look.Text(look.AirPositionHint), look.Regular, look.TextSmall, c.Ink2)
	b := picture.NewBrush(d, c, z)
	top, pad := titleFoot(z), titleInset(z)
	room := (h - top - pad*0.7) / 2
	drum := math.Min(room*0.86/1.24, (w-2*pad)/9)
	for i, row := range []struct {
		name look.Key
		c    picture.Counter
	}{
		{look.Latitude, picture.Counter{Reading: v.AirCounters.Latitude, Row: picture.LatitudeRow, Fast: fast}},
		{look.Longitude, picture.Counter{Reading: v.AirCounters.Longitude, Row: picture.LongitudeRow, Fast: fast}},
	} {
		y := top + float64(i)*room
		cw, ch := picture.CounterSize(row.c, drum)
		picture.DrumCounter(b, w-pad-cw, y+(room-ch)/2, drum, row.c)
		size := z.Text(look.TextBody)
		d.Text(pad, y+room/2+0.35*size, look.Text(row.name), paint.Type{Font: look.Regular.Font(), Size: size}, c.Ink)
	}
}

func (t *Table) paintAirLog(d *paint.Raster, w, h float64, z look.Size) {
	c := t.screen.Palette
	b := picture.NewBrush(d, c, z)
	row := picture.Counter{Reading: t.moment.View.AirLogCounter, Row: picture.MilesRow, Fast: t.moment.Playing && t.moment.Rate >= fastRate}
	pad := titleInset(z)
	drum := (h - 0.8*pad) / 1.24
	cw, ch := picture.CounterSize(row, drum)
	size := z.Text(look.TextBody)
	unit := paint.Type{Font: look.Regular.Font(), Size: size, Anchor: paint.End}
	d.Text(w-pad, h/2+0.35*size, look.Text(look.NauticalMiles), unit, c.Ink2)
	x := w - pad - unit.Font.Width(look.Text(look.NauticalMiles), size) - 8*z.Device
	picture.DrumCounter(b, x-cw, (h-ch)/2, drum, row)
	hint := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	left := pad + look.Semibold.Font().Width(look.Text(look.AirLogCounter), size) + 10*z.Device
	if text := look.Text(look.AirLogHint); left+hint.Font.Width(text, hint.Size) < x-cw-10*z.Device {
		d.Text(x-cw-10*z.Device, h/2+0.35*hint.Size, text, hint, c.Ink2)
	}
}

// drawClock draws the clock's drums and gives their right edge.
func drawClock(d *paint.Raster, x, y, drum float64, r counter.Reading, c *look.Palette, z look.Size, fast bool) float64 {
	house := picture.DrumCounter(picture.NewBrush(d, c, z), x, y, drum, picture.Counter{Reading: r, Row: picture.ClockRow, Fast: fast})
	return house.Right()
}
