package charttable

import (
	"errors"
	"strings"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// ringPlace is where the ring of a setter was last drawn, device pixels.
type ringPlace struct{ x, y, r, device float64 }

// point turns units of the card into device pixels.
func (p ringPlace) point(x, y float64) paint.Point { return paint.Pt(x*p.device, y*p.device) }

// windSetter is the card on which the wind is set.
type windSetter struct {
	*setter
	table *Table
	value units.Wind
	ring  ringPlace
	keys  [2]*kit.Key // minus and plus for the speed, where there is room
}

func newWindSetter(t *Table) *windSetter {
	w := &windSetter{table: t}
	w.setter = newSetter(t, look.WindSetTitle, w.paint)
	w.self, w.how = w, look.WindHow
	w.words = func() string { return spokenWind(w.value) }
	w.setter.drag = func(x, y float64) {
		if from, ok := picture.WindAt(w.ring.x, w.ring.y, w.ring.r, w.ring.point(x, y)); ok {
			w.value.From = from
		}
	}
	w.setter.turn = func(n int) { w.value.From = units.Wrap(w.value.From + units.Angle(n)*units.Degree) }
	w.setter.push = w.addKnots
	w.setter.open = w.askValue
	w.setter.commit = func() { w.handed.give(t, aboard.Action{Kind: aboard.SetWind, Wind: w.value}) }
	for i, sign := range []kit.Sign{kit.MinusSign, kit.PlusSign} {
		n := 2*i - 1
		w.keys[i] = kit.NewKey(t.screen, "", sign, kit.Target, func() { w.step(w.push, n) })
		w.keys[i].Hint = look.Text([]look.Key{look.WindLess, look.WindMore}[i])
		w.keys[i].Repeats = true
	}
	return w
}

// addKnots changes the speed, 0 to 250 kt.
func (w *windSetter) addKnots(n int) {
	w.value.Speed = max(0, min(250*units.Knot, w.value.Speed+units.Speed(n)*units.Knot))
}

// show takes over the value set, unless a hand is on the ring.
func (w *windSetter) show(v units.Wind) {
	if !w.busy() {
		w.value = v
	}
	for _, k := range w.keys {
		reason := ""
		if w.table.moment.Over {
			reason = look.Text(look.FlightEnded)
		}
		k.Forbid(reason)
	}
	w.Update(windKey{w.value, w.Palette()})
}

type windKey struct {
	v units.Wind
	p *look.Palette
}

func (w *windSetter) askValue() {
	kit.Ask(w.table.canvas(), w.table.screen, look.Text(look.WindAsk), look.Text(look.WindAskHint), w.value.String(),
		func(text string) error {
			v, err := units.ParseWind(text)
			if err != nil {
				return err
			}
			w.value = v
			w.commit()
			return nil
		})
}

func (w *windSetter) paint(s *setter, d *paint.Raster, width, h float64, z look.Size) {
	note(d, width, z, w.value.String(), look.Semibold, look.TextLabel, s.Palette().Wind)
	x, y, r := w.fit(width, h, z)
	w.ring = ringPlace{x, y, r, z.Device}
	picture.WindSetter(w.table.brush(d, z), x, y, r, w.value)
}

// fit is where the ring stands on a card of w by h pixels: in the middle, or with
// keys in the corners as large as leaves the knob its way round between them.
func (w *windSetter) fit(width, h float64, z look.Size) (x, y, r float64) {
	room := dialRoom(width, h, z)
	x, y, r = picture.FitDial(room, z, picture.WindSetterBox)
	if !w.keysFit() {
		return x, y, r
	}
	const reach = 1.19 // of the knob, in radii
	corner := paint.Pt(width-(keyInset+kit.Target)*partOf(z), h-(keyInset+kit.Target)*partOf(z))
	low, high := 0.0, r
	for range 30 {
		r = (low + high) / 2
		y = room.Y + reach*r
		if ringFree(paint.Pt(x, y), corner) >= reach*r {
			low = r
		} else {
			high = r
		}
	}
	return x, room.Y + reach*low, low
}

// ringFree is how far a ring may reach from its middle to a key whose upper
// inner corner is given.
func ringFree(m, corner paint.Point) float64 {
	if m.Y > corner.Y { // the middle lies beside the key, not above it
		return corner.X - m.X
	}
	return m.Dist(corner)
}

// keyInset is how far the two keys stand from the corner of the card, units.
const keyInset = 6

// keysFit says whether the two keys go beside the ring and leave it readable: a
// card so small is set by its knob and by typing.
func (w *windSetter) keysFit() bool { return w.Size().Width >= 226 && w.Size().Height >= 170 }

// placeKeys puts the keys into the lower corners of the card, or away.
func (w *windSetter) placeKeys() {
	at, size := w.Position(), w.Size()
	k := float32(partOf(w.table.screen.Size(1)))
	key, inset := kit.Target*k, keyInset*k
	y := at.Y + size.Height - inset - key
	box{at.X + inset, y, key, key}.put(w.keys[0])
	box{at.X + size.Width - inset - key, y, key, key}.put(w.keys[1])
	show(w.keysFit() && w.Visible(), w.keys[0], w.keys[1])
}

// variationSetter is the card on which the variation is set.
type variationSetter struct {
	*setter
	table   *Table
	value   units.Variation
	follows bool
	ring    ringPlace
}

func newVariationSetter(t *Table) *variationSetter {
	v := &variationSetter{table: t}
	v.setter = newSetter(t, look.VariationSet, v.paint)
	v.self, v.how = v, look.VariationHow
	v.words = func() string { return spokenVariation(v.value, v.follows) }
	set := func(x units.Variation) {
		v.value, v.follows = units.Variation(units.WrapHalf(units.Angle(x))), false
	}
	v.setter.drag = func(x, y float64) {
		if at, ok := picture.VariationAt(v.ring.x, v.ring.y, v.ring.r, v.ring.point(x, y)); ok {
			set(at)
		}
	}
	step := func(n int) { set(v.value + units.Variation(float64(n)*0.5)*units.Variation(units.Degree)) }
	v.setter.turn, v.setter.push = step, step
	v.setter.open = v.askValue
	v.setter.commit = func() { v.handed.give(t, v.action()) }
	return v
}

func (v *variationSetter) action() aboard.Action {
	if v.follows {
		return aboard.Action{Kind: aboard.FollowField}
	}
	return aboard.Action{Kind: aboard.SetVariation, Variation: v.value}
}

// show takes over the value set, unless a hand is on the ring.
func (v *variationSetter) show(x units.Variation, follows bool) {
	if !v.busy() {
		v.value, v.follows = x, follows
	}
	v.Update(variationKey{quarter(10 * v.value.Degrees()), v.follows, v.Palette()})
}

type variationKey struct {
	quarters int64
	follows  bool
	p        *look.Palette
}

// field is the word that sends the setter after the field again.
const field = "field"

func (v *variationSetter) askValue() {
	kit.Ask(v.table.canvas(), v.table.screen, look.Text(look.VariationAsk), look.Text(look.VariationHint), v.value.Tenths(),
		func(text string) error {
			if strings.EqualFold(strings.TrimSpace(text), field) {
				v.follows = true
				v.commit()
				return nil
			}
			x, err := units.ParseVariation(text)
			if err != nil {
				return errors.New(err.Error() + "; or: " + field)
			}
			v.value, v.follows = x, false
			v.commit()
			return nil
		})
}

func (v *variationSetter) paint(s *setter, d *paint.Raster, w, h float64, z look.Size) {
	room := dialRoom(w, h, z)
	if v.follows {
		words, c := look.Text(look.FollowsField), s.Palette().BrassText
		small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.Middle}
		left := titleInset(z) + look.Semibold.Font().Width(look.Text(s.title), z.Text(look.TextBody))
		if left+small.Font.Width(words, small.Size)+2*titleInset(z) < w {
			note(d, w, z, words, look.Regular, look.TextSmall, c)
		} else { // no room beside the title: at the foot
			room.H -= small.Size * 0.9
			d.Text(w/2, h-0.45*small.Size, words, small, c)
		}
	}
	x, y, r := picture.FitDial(room, z, picture.VariationSetterBox)
	v.ring = ringPlace{x, y, r, z.Device}
	picture.VariationSetter(v.table.brush(d, z), x, y, r, v.value)
}
