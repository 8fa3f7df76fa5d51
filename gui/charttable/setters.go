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
}

func newWindSetter(t *Table) *windSetter {
	w := &windSetter{table: t}
	w.setter = newSetter(t.screen, look.WindSetTitle, w.paint)
	w.setter.drag = func(x, y float64) {
		if from, ok := picture.WindAt(w.ring.x, w.ring.y, w.ring.r, w.ring.point(x, y)); ok {
			w.value.From = from
		}
	}
	w.setter.turn = func(n int) { w.value.From = units.Wrap(w.value.From + units.Angle(n)*units.Degree) }
	w.setter.push = w.addKnots
	w.setter.ask = w.askValue
	w.setter.commit = func() { t.helm.Do(aboard.Action{Kind: aboard.SetWind, Wind: w.value}) }
	return w
}

// addKnots changes the speed, 0 to 250 kt.
func (w *windSetter) addKnots(n int) {
	w.value.Speed = max(0, min(250*units.Knot, w.value.Speed+units.Speed(n)*units.Knot))
}

// show takes over the value set, unless a hand is on the ring.
func (w *windSetter) show(v units.Wind) {
	if !w.held {
		w.value = v
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
	x, y, r := picture.FitDial(dialRoom(width, h, z), z, picture.WindSetterBox)
	w.ring = ringPlace{x, y, r, z.Device}
	picture.WindSetter(w.table.brush(d, z), x, y, r, w.value)
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
	v.setter = newSetter(t.screen, look.VariationSet, v.paint)
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
	v.setter.ask = v.askValue
	v.setter.commit = func() { t.helm.Do(v.action()) }
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
	if !v.held {
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
	if v.follows {
		words := look.Text(look.FollowsField)
		left := titleInset(z) + look.Semibold.Font().Width(look.Text(s.title), z.Text(look.TextBody))
		if left+look.Regular.Font().Width(words, z.Text(look.TextSmall))+2*titleInset(z) < w {
			note(d, w, z, words, look.Regular, look.TextSmall, s.Palette().BrassText)
		}
	}
	x, y, r := picture.FitDial(dialRoom(w, h, z), z, picture.VariationSetterBox)
	v.ring = ringPlace{x, y, r, z.Device}
	picture.VariationSetter(v.table.brush(d, z), x, y, r, v.value)
}
