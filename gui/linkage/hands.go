package linkage

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// hands hold the input of a link: what it does alone is seen, with the aircraft
// flying on. Let go, it follows the chain again.
type hands struct {
	view  *View
	held  sim.Hand
	knobs []*knob // of the link; none: it cannot be held
	hold  *kit.Key
	all   [2]*knob
}

// knob is one figure that a hand sets: less, the value, more.
type knob struct {
	of          *hands
	word        look.Key
	unit        string
	minus, plus *kit.Key
	value       *kit.Key
	step        float64
	get         func(*sim.Hand) float64
	set         func(*sim.Hand, float64)
	low, high   float64
	round       bool // the circle
}

func newHands(v *View) *hands {
	h := &hands{view: v}
	h.hold = kit.NewKey(v.screen, look.Text(look.HandWord), kit.NoSign, kit.Target, h.toggle)
	h.hold.Hint = look.Text(look.HandHint)
	for i := range h.all {
		k := &knob{of: h}
		k.minus = kit.NewKey(v.screen, "", kit.MinusSign, kit.Target, func() { k.turn(-1) })
		k.plus = kit.NewKey(v.screen, "", kit.PlusSign, kit.Target, func() { k.turn(1) })
		k.minus.Repeats, k.plus.Repeats = true, true
		k.value = kit.NewKey(v.screen, "", kit.NoSign, 96, v.screen.AfterLetter(k.ask))
		h.all[i] = k
	}
	return h
}

func (h *hands) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{h.hold}
	for _, k := range h.all {
		all = append(all, k.minus, k.value, k.plus)
	}
	return all
}

func (h *hands) rows() int { return len(h.knobs) }

// turn takes up the link whose card is open.
func (h *hands) turn(l picture.Link) {
	h.knobs = nil
	input, ok := inputs[l]
	if !ok {
		return
	}
	now := &h.view.moment.Works
	h.held = sim.Hand{Input: input, Heading: now.Heading, Latitude: now.Gear, Wind: now.Wind, Speed: now.TAS}
	if hands := &h.view.moment.Held; hands.Holds(input) {
		h.held = sim.Hand{Input: input, Heading: hands.Heading, Latitude: hands.Latitude, Wind: hands.Wind, Speed: hands.Speed}
	}
	a, b := h.all[0], h.all[1]
	h.knobs = h.all[:1]
	switch input {
	case sim.HandHeading:
		a.be(look.HandHeading, "", 5, 0, 360,
			func(x *sim.Hand) float64 { return units.Angle(x.Heading).Degrees() },
			func(x *sim.Hand, v float64) { x.Heading = units.TrueHeading(units.Angle(v) * units.Degree) })
	case sim.HandLatitude:
		a.be(look.HandLatitude, "", 5, -89, 89,
			func(x *sim.Hand) float64 { return x.Latitude.Degrees() },
			func(x *sim.Hand, v float64) { x.Latitude = units.Angle(v) * units.Degree })
	case sim.HandSpeed:
		a.be(look.HandSpeed, look.Text(look.Knots), 10, 0, 600,
			func(x *sim.Hand) float64 { return x.Speed.Knots() },
			func(x *sim.Hand, v float64) { x.Speed = units.Speed(v) * units.Knot })
	case sim.HandWind:
		h.knobs = h.all[:2]
		a.be(look.HandFrom, "", 10, 0, 360,
			func(x *sim.Hand) float64 { return x.Wind.From.Degrees() },
			func(x *sim.Hand, v float64) { x.Wind.From = units.Angle(v) * units.Degree })
		b.be(look.HandWindSpeed, look.Text(look.Knots), 5, 0, 200,
			func(x *sim.Hand) float64 { return x.Wind.Speed.Knots() },
			func(x *sim.Hand, v float64) { x.Wind.Speed = units.Speed(v) * units.Knot })
	}
}

// inputs are the links that can be held, and by what.
var inputs = map[picture.Link]sim.HandInput{
	picture.LinkRepeater: sim.HandHeading, picture.LinkResolver: sim.HandHeading,
	picture.LinkAirLog: sim.HandSpeed, picture.LinkSecant: sim.HandLatitude, picture.LinkWind: sim.HandWind,
}

func (k *knob) be(word look.Key, unit string, step, low, high float64, get func(*sim.Hand) float64, set func(*sim.Hand, float64)) {
	k.word, k.unit, k.step, k.low, k.high, k.get, k.set = word, unit, step, low, high, get, set
	k.round = high == 360
}

// toggle holds the link, or lets it go.
func (h *hands) toggle() {
	h.give(!h.view.holds(h.held.Input))
}

func (h *hands) give(on bool) {
	h.held.On = on
	h.view.helm.Hold(h.held)
}

// turn goes a step up or down; a link that is not held yet is held from then on.
func (k *knob) turn(by float64) {
	v := k.get(&k.of.held)
	k.take((math.Floor(v/k.step+0.5) + by) * k.step)
}

func (k *knob) take(v float64) {
	if k.round {
		v = math.Mod(v+360, 360)
	}
	k.set(&k.of.held, max(k.low, min(k.high, v)))
	k.of.give(true)
	k.show()
}

// ask has the value typed.
func (k *knob) ask() {
	v := k.of.view
	kit.Ask(v.canvas(), v.screen, look.Text(k.word), look.Textf(look.HandAsk, k.span()), units.Figure(k.get(&k.of.held), 0),
		func(text string) error {
			x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
			if err != nil || x < k.low || x > k.high || math.IsNaN(x) {
				return errors.New(look.Textf(look.HandAsk, k.span()))
			}
			k.take(x)
			return nil
		})
}

func (k *knob) span() string {
	return units.Figure(k.low, 0) + " \u2013 " + units.Figure(k.high, 0)
}

func (k *knob) show() {
	text := units.Figure(k.get(&k.of.held), 0)
	if k.round {
		text = units.TrueText(units.Angle(k.get(&k.of.held)) * units.Degree)
	}
	if k.unit != "" {
		text += " " + k.unit
	}
	k.value.Set(text, kit.NoSign, false)
}

// lay puts the knobs above the keys of the card.
func (h *hands) lay(in paint.Rect, seen bool) {
	kit.Show(false, h.objects()...)
	if !seen || len(h.knobs) == 0 {
		return
	}
	h.hold.Set(h.hold.Word, kit.NoSign, h.view.holds(h.held.Input))
	row := float64(kit.Target + cardGap)
	y := in.Bottom() - kit.Target - float64(len(h.knobs))*row - cardPad/2
	kit.Box{X: float32(in.X), Y: float32(y), W: h.hold.Needs(), H: kit.Target}.Put(h.hold)
	kit.Show(true, h.hold)
	for i, k := range h.knobs {
		at, right := y+float64(i)*row, in.Right()
		const value = 96
		kit.Box{X: float32(right - kit.Target), Y: float32(at), W: kit.Target, H: kit.Target}.Put(k.plus)
		kit.Box{X: float32(right - kit.Target - 4 - value), Y: float32(at), W: value, H: kit.Target}.Put(k.value)
		kit.Box{X: float32(right - 2*kit.Target - 8 - value), Y: float32(at), W: kit.Target, H: kit.Target}.Put(k.minus)
		kit.Show(true, k.minus, k.value, k.plus)
		k.show()
	}
}

// paint writes the names of the knobs.
func (h *hands) paint(d *paint.Raster, z look.Size) {
	if len(h.knobs) == 0 || !h.hold.Visible() {
		return
	}
	text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody), Anchor: paint.End}
	corner := h.view.card.paper.Position()
	for _, k := range h.knobs {
		x := float64(k.minus.Position().X-corner.X)*z.Device - 10*z.Device
		y := float64(k.minus.Position().Y-corner.Y+kit.Target/2)*z.Device + 0.35*text.Size
		d.Text(x, y, look.Text(k.word), text, h.view.screen.Palette.Ink)
	}
}

// holds says whether an input is held by hand now.
func (v *View) holds(i sim.HandInput) bool { return v.moment.Held.Holds(i) }

// dragged turns what is held by hand towards the pointer: the crank of the
// resolver and the wind.
func (v *View) dragged(l picture.Link, to fyne.Position) {
	input, ok := inputs[l]
	if !ok || v.card.mode != opened || v.card.link != l {
		return
	}
	b := picture.LinkBounds(v.screen.Size(1), v.box(float64(v.pane.Size().Width), float64(v.pane.Size().Height), 1), l)
	m := b.Centre()
	deg := math.Round(math.Mod(math.Atan2(float64(to.X)-m.X, m.Y-float64(to.Y))*180/math.Pi+360, 360))
	if input == sim.HandHeading || input == sim.HandWind {
		v.card.hands.all[0].take(deg)
	}
}
