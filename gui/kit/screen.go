package kit

import (
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/look"
)

// Screen is what all controls of a window share: the colours in use, the size
// of the window in units, and what its user has asked for. It belongs to the
// toolkit's goroutine.
type Screen struct {
	Palette *look.Palette
	W, H    float32

	LargerText    bool
	ReducedMotion bool
	HidePlan      bool // what is planned does not show ahead of the clock

	owing sync.Mutex // over owed, and owed and listed of those in it: tests draw from several goroutines
	owed  []*Painted // asked for and not drawn yet

	// Hints is the slip on which controls say what they are; nil: nobody reads.
	Hints *Hints
	// Keys is given the keys that the control with the focus does not use; nil:
	// they go nowhere.
	Keys func(*fyne.KeyEvent)
	// OnMain does something on the toolkit's goroutine; nil: the toolkit does. Tests,
	// whose toolkit has none of its own, make it a queue.
	OnMain func(do func())
}

// Later does something on the toolkit's goroutine; it may be called from any.
func (s *Screen) Later(do func()) {
	if s.OnMain != nil {
		s.OnMain(do)
		return
	}
	fyne.Do(do)
}

// After does something on the toolkit's goroutine after a while, unless it is stopped
// before.
func (s *Screen) After(d time.Duration, do func()) (stop func()) { return later(s, d, do) }

// later is the clock; a test winds it by hand.
var later = func(s *Screen, d time.Duration, do func()) (stop func()) {
	timer := time.AfterFunc(d, func() { s.Later(do) })
	return func() { timer.Stop() }
}

// AfterLetter gives a function that opens something once the letter of a key has
// gone by, lest it be typed into what opens.
func (s *Screen) AfterLetter(open func()) func() {
	return func() { s.After(50*time.Millisecond, open) }
}

// Size is the scale of drawn parts and text at so many device pixels a unit.
func (s *Screen) Size(device float64) look.Size {
	z := look.SizeOf(float64(s.W)*device, float64(s.H)*device, device)
	z.Larger = s.LargerText
	return z
}

// PassOn hands on a key that a control does not use.
func (s *Screen) PassOn(e *fyne.KeyEvent) {
	if s.Keys != nil {
		s.Keys(e)
	}
}
