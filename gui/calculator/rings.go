package calculator

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// rings is the picture of the computer.
type rings struct {
	kit.Painted
	view *View
}

func newRings(v *View) *rings {
	r := &rings{view: v}
	r.Extend(r, v.screen, fyne.NewSize(300, 200), r.paint)
	return r
}

func (r *rings) paint(d *paint.Raster, w, h float64, z look.Size) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), r.Palette().Ground)
	card := r.view.computerCard()
	picture.DrawComputerCard(picture.NewBrush(d, r.Palette(), z), picture.ComputerCardLayout(z, paint.R(0, 0, w, h)), &card)
}

// ring lies over the dial: the brass ring is turned by it.
type ring struct {
	kit.Spot
	view    *View
	held    bool
	last    float64 // direction of the hand, degrees
	refused bool    // the drag in hand is not on the ring
}

func newRing(v *View) *ring {
	r := &ring{view: v}
	r.Press = func() { v.canvas().Focus(r) } // which tells what it is
	r.Point = func(tell func(fyne.CanvasObject, string)) { tell(r, r.said()) }
	r.Extend(r, v.screen)
	return r
}

// said is what the ring says of itself.
func (r *ring) said() string {
	s := r.view.computer.Readings()
	return look.Textf(look.CalcRingSaid, s.Height, s.Temperature, s.CAS, s.TAS) + ".\n" + look.Text(look.CalcRingHow)
}

// hand is the direction of the hand round the dial, and whether it is on the ring.
func (r *ring) hand(at fyne.Position) (float64, bool) {
	radius := float64(r.Size().Width) / 2
	return picture.SpeedDial{X: radius, Y: radius, R: radius}.Ring(paint.Pt(float64(at.X), float64(at.Y)))
}

// Dragged turns the brass ring with the hand.
func (r *ring) Dragged(e *fyne.DragEvent) {
	if r.refused {
		return
	}
	if !r.held {
		deg, ok := r.hand(e.Position.Subtract(e.Dragged))
		if !ok {
			r.refused = true
			return
		}
		r.held, r.last = true, deg
	}
	deg, _ := r.hand(e.Position)
	r.view.computer.Turn(math.Remainder(deg-r.last, 360))
	r.last = deg
	r.turned()
}

// DragEnd lets the ring go.
func (r *ring) DragEnd() { r.held, r.refused = false, false }

// Scrolled turns the ring by a knot under the cursor.
func (r *ring) Scrolled(e *fyne.ScrollEvent) {
	if e.Scrolled.DY == 0 { // sideways
		return
	}
	r.view.computer.StepTAS(math.Copysign(1, float64(e.Scrolled.DY)))
	r.turned()
}

// TypedKey is part of the toolkit's contract.
func (r *ring) TypedKey(e *fyne.KeyEvent) {
	by := 1.0
	if shiftHeld() {
		by = 10
	}
	switch e.Name {
	case fyne.KeyUp:
		r.view.computer.StepTAS(by)
	case fyne.KeyDown:
		r.view.computer.StepTAS(-by)
	default:
		r.Spot.TypedKey(e)
		return
	}
	r.turned()
}

func (r *ring) turned() {
	r.view.screen.Hints.Leave(r)
	r.view.apply()
}

// steps says what minus and plus change.
type steps uint8

const (
	byHeight steps = iota
	byTemperature
)

// A step of the keys.
const heightStep, temperatureStep = 500.0, 1.0

// stepping chooses what minus and plus change.
func (v *View) stepping(s steps) {
	v.steps = s
	v.apply()
}

// step goes to the next multiple of a step, up or down.
func (v *View) step(k *kit.Key, way float64) {
	next := func(x, step float64) float64 {
		const slack = 1e-6 // of a step: what stands on a multiple goes to the next
		if way > 0 {
			return step * (math.Floor(x/step+slack) + 1)
		}
		return step * (math.Ceil(x/step-slack) - 1)
	}
	c := v.computer
	var err error
	if v.steps == byHeight {
		err = c.SetHeight(units.Length(next(c.Height().Feet(), heightStep)) * units.Foot)
	} else {
		err = c.SetTemperature(units.Celsius(next(c.Temperature().Celsius(), temperatureStep)))
	}
	v.apply()
	if err != nil {
		k.Tell(err.Error())
	}
}

// plate lies over a plate of the picture: its value is typed.
type plate struct{ kit.Spot }

// newPlates makes those of calibrated and true airspeed, height and temperature.
func newPlates(v *View) (all []*plate) {
	c := v.computer
	for _, p := range []struct {
		name look.Key
		now  func() string
		take func(string) error
	}{
		{look.CalcCAS, func() string { return c.Readings().CAS }, c.TypeCAS},
		{look.CalcExact, func() string { return c.Readings().TAS }, c.TypeTAS},
		{look.CalcHeight, func() string { return c.Readings().Height }, c.TypeHeight},
		{look.CalcTemperature, func() string { return c.Readings().Temperature }, c.TypeTemperature},
	} {
		s := &plate{}
		name := look.Capital(look.Text(p.name))
		s.Press = func() {
			v.screen.Hints.Leave(s)
			before := p.now()
			kit.Ask(v.canvas(), v.screen, name, look.Text(look.CalcPlateAsk), before, func(text string) error {
				if text == before { // what was printed is not more exact than what is kept
					return nil
				}
				err := p.take(text)
				v.apply()
				return err
			})
		}
		s.Point = func(tell func(fyne.CanvasObject, string)) {
			tell(s, name+" "+p.now()+".\n"+look.Text(look.CalcPlateHint))
		}
		s.Extend(s, v.screen)
		all = append(all, s)
	}
	return all
}
