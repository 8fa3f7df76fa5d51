package kit

import (
	"sync"

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
