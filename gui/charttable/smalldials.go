package charttable

import (
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// newSmallDial makes one of the four cards at the foot of the column: a name, a
// round dial and its value in figures.
func newSmallDial(t *Table, title look.Key, words, value func() string, draw func(b *picture.Brush, x, y, r float64)) *dial {
	return newDial(t, "", words, func(d *paint.Raster, w, h float64, z look.Size) {
		p := t.screen.Palette
		size := z.Text(look.TextSmall)
		text := paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.Middle}
		// The names are short, but the cards are narrow and text may be larger.
		text.Size *= min(1, (w-8*z.Device)/text.Font.Width(look.Text(title), size))
		d.Text(w/2, size*1.3, look.Text(title), text, p.Ink)
		text.Size = z.Text(look.TextBody)
		text.Font = look.Engraved.Font()
		d.Text(w/2, h-0.45*text.Size, value(), text, p.Ink)
		room := paint.R(0, size*1.6, w, h-size*1.6-text.Size*1.35)
		x, y, r := picture.FitDial(room, z, picture.StandbyCompassBox)
		draw(t.brush(d, z), x, y, r)
	})
}

// smallDials makes the four cards at the foot of the column.
func (t *Table) smallDials() {
	v := func() *aboard.View { return &t.moment.View }
	share := func(of func() float64) func(b *picture.Brush, x, y, r float64) {
		return func(b *picture.Brush, x, y, r float64) { picture.SmallDial(b, x, y, r, of()) }
	}
	t.small = [4]*dial{
		newSmallDial(t, look.PressureAlt,
			func() string {
				return look.Textf(look.SpokenHeight, spokenFigure(v().PressureAltitude.Feet(), 0))
			},
			func() string { return units.HeightText(v().PressureAltitude) },
			share(func() float64 { return picture.HeightShare(v().PressureAltitude) })),
		newSmallDial(t, look.Thermometer,
			func() string {
				return look.Textf(look.SpokenTemperature, spokenFigure(v().AirTemperature.Celsius(), 0))
			},
			func() string { return units.TemperatureText(v().AirTemperature) },
			share(func() float64 { return picture.TemperatureShare(v().AirTemperature) })),
		newSmallDial(t, look.Indicated,
			func() string { return look.Textf(look.SpokenIAS, spokenFigure(v().IAS.Knots(), 0)) },
			func() string { return units.SpeedText(v().IAS) },
			share(func() float64 { return picture.AirspeedShare(v().IAS) })),
		newSmallDial(t, look.Compass,
			func() string { return look.Textf(look.SpokenCompass, spokenDirection(units.Angle(v().Compass))) },
			func() string { return v().Compass.String() },
			func(b *picture.Brush, x, y, r float64) { picture.StandbyCompass(b, x, y, r, v().Compass) }),
	}
}
