package trainee

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// dial is a card with a name and one drawn thing; key is what its picture depends on.
type dial struct {
	kit.Painted
	key func() any
}

func (d *dial) apply() { d.Update(d.key()) }

type dialKey struct {
	a, b int64
	fast bool
	p    *look.Palette
}

func newDial(v *View, title look.Key, key func() dialKey, inner func(b *picture.Brush, room paint.Rect)) *dial {
	d := &dial{}
	d.key = func() any {
		k := key()
		k.p = v.screen.Palette
		return k
	}
	d.Extend(d, v.screen, fyne.NewSize(60, 40), func(s *paint.Raster, w, h float64, z look.Size) {
		c := v.screen.Palette
		kit.Paper(s, w, h, z, c)
		top := 0.0
		if title != "" {
			t := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall)}
			t.Size *= min(1, (w-10*z.Device)/t.Font.Width(look.Text(title), t.Size))
			s.Text(w/2-t.Font.Width(look.Text(title), t.Size)/2, 1.3*t.Size, look.Text(title), t, c.Ink)
			top = 1.6 * t.Size
		}
		pad := 6 * z.Device
		inner(picture.NewBrush(s, c, z), paint.R(pad, top, w-2*pad, h-top-pad))
	})
	return d
}

// The dials, in their order.
const (
	positionDial = iota
	groundDial
	milesDial
	headingDial
	speedDial
	windDial
	variationDial
	smallDials // four
	dialCount  = smallDials + 4
)

func tenth(x float64) int64 { return int64(math.Round(10 * x)) }

func newDials(v *View) []*dial {
	s := func() *aboard.View { return &v.now.View }
	all := make([]*dial, 0, dialCount)
	all = append(all,
		newDial(v, "", func() dialKey { return v.drumKey(units.Position(s().Air)) },
			func(b *picture.Brush, room paint.Rect) { v.paintPosition(b, room, look.AirPosition, s().AirCounters) }),
		newDial(v, "", func() dialKey { return v.drumKey(units.Position(s().Ground)) },
			func(b *picture.Brush, room paint.Rect) {
				v.paintPosition(b, room, look.GroundPosition, s().GroundCounters)
			}),
		newDial(v, "", func() dialKey { return dialKey{a: int64(s().AirLog.NM() * 1000), fast: v.fast()} }, v.paintMiles),
		newDial(v, look.TrueHeading, func() dialKey { return dialKey{a: tenth(s().Heading.Degrees())} }, func(b *picture.Brush, room paint.Rect) {
			x, y, r := picture.FitDial(room, b.K, picture.HeadingCardBox)
			picture.HeadingCard(b, x, y, r, s().Heading)
		}),
		newDial(v, look.TrueAirspeed, func() dialKey { return dialKey{a: tenth(s().TAS.Knots())} }, func(b *picture.Brush, room paint.Rect) {
			x, y, r := picture.FitDial(room, b.K, picture.AirspeedFanBox)
			picture.AirspeedFan(b, x, y, r, picture.TASFan(s().TAS))
		}),
		newDial(v, look.WindSetTitle, func() dialKey {
			return dialKey{a: tenth(s().WindSet.From.Degrees()), b: tenth(s().WindSet.Speed.Knots())}
		}, func(b *picture.Brush, room paint.Rect) {
			room = v.valueUnder(b, room, s().WindSet.String())
			x, y, r := picture.FitDial(room, b.K, picture.WindSetterBox)
			picture.WindSetter(b, x, y, r, s().WindSet)
		}),
		newDial(v, look.VariationSet, func() dialKey { return dialKey{a: tenth(s().VariationSet.Degrees())} }, func(b *picture.Brush, room paint.Rect) {
			x, y, r := picture.FitDial(room, b.K, picture.VariationSetterBox)
			picture.VariationSetter(b, x, y, r, s().VariationSet)
		}),
		v.smallDial(look.PressureAlt, func() float64 { return s().PressureAltitude.Feet() / 10 },
			func() (float64, string) {
				return picture.HeightShare(s().PressureAltitude), units.HeightText(s().PressureAltitude)
			}),
		v.smallDial(look.Thermometer, func() float64 { return s().AirTemperature.Celsius() },
			func() (float64, string) {
				return picture.TemperatureShare(s().AirTemperature), units.TemperatureText(s().AirTemperature)
			}),
		v.smallDial(look.Indicated, func() float64 { return s().IAS.Knots() },
			func() (float64, string) { return picture.AirspeedShare(s().IAS), units.SpeedText(s().IAS) }),
		newDial(v, look.Compass, func() dialKey { return dialKey{a: tenth(s().Compass.Degrees())} }, func(b *picture.Brush, room paint.Rect) {
			room = v.valueUnder(b, room, s().Compass.String())
			x, y, r := picture.FitDial(room, b.K, picture.StandbyCompassBox)
			picture.StandbyCompass(b, x, y, r, s().Compass)
		}),
	)
	return all
}

// smallDial is a needle on a round dial, and its value in figures.
func (v *View) smallDial(title look.Key, of func() float64, show func() (share float64, value string)) *dial {
	return newDial(v, title, func() dialKey { return dialKey{a: tenth(of())} }, func(b *picture.Brush, room paint.Rect) {
		share, value := show()
		room = v.valueUnder(b, room, value)
		x, y, r := picture.FitDial(room, b.K, picture.SmallDialBox)
		picture.SmallDial(b, x, y, r, share)
	})
}

// valueUnder writes a value at the foot of a room and gives what is left over it.
func (v *View) valueUnder(b *picture.Brush, room paint.Rect, value string) paint.Rect {
	t := paint.Type{Font: look.Engraved.Font(), Size: b.K.Text(look.TextBody), Anchor: paint.Middle}
	t.Size *= min(1, room.W/t.Font.Width(value, t.Size))
	b.Text(room.X+room.W/2, room.Bottom()-0.1*t.Size, value, t, b.C.Ink)
	room.H -= 1.25 * t.Size
	return room
}

// drumKey is what the drums of a position depend on, to a hundredth of a tenth of a minute.
func (v *View) drumKey(p units.Position) dialKey {
	return dialKey{a: int64(p.Lat.Minutes() * 1000), b: int64(p.Lon.Minutes() * 1000), fast: v.fast()}
}

// paintPosition draws the two counters of a position with its name beside them.
func (v *View) paintPosition(b *picture.Brush, room paint.Rect, name look.Key, c aboard.Counters) {
	u := b.K.Device
	room = paint.R(room.X+4*u, room.Y+5*u, room.W-8*u, room.H-6*u)
	bold := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	words := bold.Wrap(look.Capital(look.Text(name)), 0.3*room.W)
	half := room.H / 2
	left := room.X + 0.32*room.W
	for i, row := range []picture.Counter{
		{Reading: c.Latitude, Row: picture.LatitudeRow, Fast: v.fast()}, {Reading: c.Longitude, Row: picture.LongitudeRow, Fast: v.fast()},
	} {
		wide, tall := picture.CounterSize(row, 100)
		drum := math.Min(100*(half-4*u)/tall, 100*(room.Right()-left)/wide)
		cw, ch := picture.CounterSize(row, drum)
		picture.DrumCounter(b, room.Right()-cw, room.Y+float64(i)*half+(half-ch)/2, drum, row)
	}
	for i, line := range words {
		b.Text(room.X, room.Y+(1.15+1.2*float64(i))*bold.Size, line, bold, b.C.Ink)
	}
	y := room.Y + half + 0.5*half + 0.35*small.Size
	b.Text(room.X, y, look.Text(look.TraineeLatLong), small, b.C.Ink2)
}

// paintMiles draws the air log counter.
func (v *View) paintMiles(b *picture.Brush, room paint.Rect) {
	row := picture.Counter{Reading: v.now.View.AirLogCounter, Row: picture.MilesRow, Fast: v.fast()}
	u := b.K.Device
	_, tall := picture.CounterSize(row, 100)
	drum := 100 * (room.H - 4*u) / tall
	cw, ch := picture.CounterSize(row, drum)
	bold := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	unit := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall), Anchor: paint.End}
	miles := look.Text(look.NauticalMiles)
	right := room.Right() - unit.Font.Width(miles, unit.Size) - 10*u
	y := room.Y + room.H/2 + 2*u
	picture.DrumCounter(b, right-cw, y-ch/2, drum, row)
	b.Text(room.X+4*u, y+0.35*bold.Size, look.Text(look.AirLogCounter), bold, b.C.Ink)
	b.Text(room.Right()-2*u, y+0.35*unit.Size, miles, unit, b.C.Ink2)
}

// layDials lays the column out: positions, miles, two large dials, two setters, four small
// dials, and the keys that set things.
func (v *View) layDials(in kit.Box, gap float32) {
	keys := float32(2*kit.Target + 12)
	room := in.H - keys - 6*gap
	y := in.Y
	row := func(share float32, dials ...*dial) {
		tall := share * room
		w := (in.W - float32(len(dials)-1)*gap) / float32(len(dials))
		for i, d := range dials {
			kit.Box{X: in.X + float32(i)*(w+gap), Y: y, W: w, H: tall}.Put(d)
		}
		y += tall + gap
	}
	d := v.dials
	row(0.135, d[positionDial])
	row(0.135, d[groundDial])
	row(0.075, d[milesDial])
	row(0.235, d[headingDial], d[speedDial])
	row(0.235, d[windDial], d[variationDial])
	row(0.185, d[smallDials], d[smallDials+1], d[smallDials+2], d[smallDials+3])
	paper := kit.Box{X: in.X, Y: in.Y + in.H - keys, W: in.W, H: keys}
	paper.Put(v.under)
	half := (in.W - 12) / 2
	for i, k := range v.settings {
		kit.Box{X: in.X + 4 + float32(i%2)*(half+4), Y: paper.Y + 4 + float32(i/2)*(kit.Target+4), W: half, H: kit.Target}.Put(k)
	}
}

// newSettings are the keys that set wind, variation, static source and repeater.
func newSettings(v *View) [4]*kit.Key {
	key := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(v.screen, look.Text(word), kit.NoSign, kit.Target, press)
		k.Hint = look.Text(hint)
		return k
	}
	return [4]*kit.Key{
		key(look.TraineeSetWind, look.TraineeSetWindHint, v.askWind),
		key(look.TraineeSetVariation, look.TraineeSetVariationHint, v.askVariation),
		key(look.TraineeStatic, look.TraineeStaticHint, func() { v.deeds.Do(aboard.Action{Kind: aboard.AlternateStatic, On: true}) }),
		key(look.TraineeSynchronise, look.TraineeSynchroniseHint, func() { v.deeds.Do(aboard.Action{Kind: aboard.Resynchronise}) }),
	}
}

func (v *View) askWind() {
	kit.Ask(v.canvas(), v.screen, look.Text(look.TraineeSetWind), look.Text(look.TraineeWindForm), v.now.View.WindSet.String(), func(text string) error {
		w, err := units.ParseWind(text)
		if err == nil {
			v.deeds.Do(aboard.Action{Kind: aboard.SetWind, Wind: w})
		}
		return err
	})
}

func (v *View) askVariation() {
	kit.Ask(v.canvas(), v.screen, look.Text(look.TraineeSetVariation), look.Text(look.TraineeVariationForm), v.now.View.VariationSet.String(), func(text string) error {
		x, err := units.ParseVariation(text)
		if err == nil {
			v.deeds.Do(aboard.Action{Kind: aboard.SetVariation, Variation: x})
		}
		return err
	})
}
