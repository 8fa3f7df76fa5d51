package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// setter is a card with a ring that is turned: by dragging the knob, with the
// wheel or the arrow keys, or by typing the value. What is turned shows at once
// and is handed to the mechanism as one action when the hand rests.
type setter struct {
	card
	drag   func(x, y float64) // pointer on the ring, units of the card
	turn   func(steps int)    // arrow keys left and right, wheel
	push   func(steps int)    // arrow keys up and down
	ask    func()             // type the value
	commit func()             // hand over what was turned

	focused bool
	rest    *time.Timer
	held    bool // turned and not yet handed over
}

// restTime is how long the hand must rest before what was turned by wheel or
// keys is handed over.
const restTime = 350 * time.Millisecond

func newSetter(screen *kit.Screen, title look.Key, inner func(s *setter, d *paint.Raster, w, h float64, z look.Size)) *setter {
	s := &setter{}
	s.init(s, screen, title, func(d *paint.Raster, w, h float64, z look.Size) {
		inner(s, d, w, h, z)
		if s.focused {
			var p paint.Path
			p.RoundRect(paint.R(0, 0, w, h).Inset(2*z.Device), look.CardRadius*z.Device)
			d.Stroke(&p, paint.Pen{Width: 3 * z.Device}, s.Palette().SlateHi)
		}
	})
	return s
}

// turned notes that the ring has been moved; rested says whether the hand will
// say itself when it is done.
func (s *setter) turned(rested bool) {
	s.held = true
	s.Repaint()
	if s.rest != nil {
		s.rest.Stop()
	}
	if !rested {
		s.rest = time.AfterFunc(restTime, func() { fyne.Do(s.release) })
	}
}

func (s *setter) release() {
	if s.held {
		s.held = false
		s.commit()
	}
}

// Dragged turns the ring.
func (s *setter) Dragged(e *fyne.DragEvent) {
	s.drag(float64(e.Position.X), float64(e.Position.Y))
	s.turned(true)
}

// DragEnd hands over.
func (s *setter) DragEnd() { s.release() }

// Scrolled turns the ring a step, whatever the wheel says of its speed.
func (s *setter) Scrolled(e *fyne.ScrollEvent) {
	s.turn(int(math.Copysign(1, float64(e.Scrolled.DY))))
	s.turned(false)
}

// Tapped opens the card for typing.
func (s *setter) Tapped(*fyne.PointEvent) { s.ask() }

// Cursor is part of the toolkit's contract.
func (s *setter) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained is part of the toolkit's contract.
func (s *setter) FocusGained() { s.focused = true; s.Repaint() }

// FocusLost is part of the toolkit's contract.
func (s *setter) FocusLost() { s.focused = false; s.Repaint() }

// TypedRune is part of the toolkit's contract.
func (s *setter) TypedRune(rune) {}

// TypedKey turns with the arrows and opens the card with Enter.
func (s *setter) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		s.turn(-1)
	case fyne.KeyRight:
		s.turn(1)
	case fyne.KeyUp:
		s.push(1)
	case fyne.KeyDown:
		s.push(-1)
	case fyne.KeyReturn, fyne.KeyEnter:
		s.ask()
		return
	default:
		return
	}
	s.turned(false)
}
