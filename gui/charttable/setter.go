package charttable

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// setter is a dial with a ring that is turned: by dragging the knob, with the
// wheel or the arrow keys, or by typing the value. What is turned shows at once
// and is handed to the mechanism as one action when the hand rests.
type setter struct {
	dial
	drag   func(x, y float64) // pointer on the ring, units of the card
	turn   func(steps int)    // arrow keys left and right, wheel
	push   func(steps int)    // arrow keys up and down
	commit func()             // hand over what was turned

	rest   resting
	held   bool // turned and not yet handed over
	handed handed
}

func newSetter(t *Table, title look.Key, inner func(s *setter, d *paint.Raster, w, h float64, z look.Size)) *setter {
	s := &setter{}
	s.table, s.self = t, s
	s.init(s, t.screen, title, func(d *paint.Raster, w, h float64, z look.Size) { inner(s, d, w, h, z) })
	return s
}

// busy says whether a hand is on the ring, or what it set is still on its way to
// the mechanism.
func (s *setter) busy() bool { return s.held || s.handed.waits(s.table.moment) }

// can says whether the ring can be turned now, and tells the reason if not.
func (s *setter) can() bool {
	if s.table.moment.Over {
		s.table.screen.Hints.Tell(s.self, look.Text(look.FlightEnded))
		return false
	}
	return true
}

// turned notes that the ring has been moved; rested says whether the hand will
// say itself when it is done.
func (s *setter) turned(rested bool) {
	s.held = true
	s.Repaint()
	s.rest.stop()
	if !rested {
		s.rest.after(s.table.screen, s.release)
	}
}

func (s *setter) release() {
	s.rest.stop()
	if s.held {
		s.held = false
		s.commit()
	}
}

// step turns the ring by so many steps of one of its movements.
func (s *setter) step(move func(int), n int) {
	if s.can() {
		move(n)
		s.turned(false)
	}
}

// Dragged turns the ring.
func (s *setter) Dragged(e *fyne.DragEvent) {
	if s.can() {
		s.table.screen.Hints.Leave(s.self)
		s.drag(float64(e.Position.X), float64(e.Position.Y))
		s.turned(true)
	}
}

// DragEnd hands over.
func (s *setter) DragEnd() { s.release() }

// Scrolled turns the ring a step, whatever the wheel says of its speed.
func (s *setter) Scrolled(e *fyne.ScrollEvent) {
	s.step(s.turn, int(math.Copysign(1, float64(e.Scrolled.DY))))
}

// TypedKey turns with the arrows and opens the card with Enter.
func (s *setter) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		s.step(s.turn, -1)
	case fyne.KeyRight:
		s.step(s.turn, 1)
	case fyne.KeyUp:
		s.step(s.push, 1)
	case fyne.KeyDown:
		s.step(s.push, -1)
	default:
		s.dial.TypedKey(e)
	}
}
