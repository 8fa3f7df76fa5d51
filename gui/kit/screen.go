package kit

import "stillair/gui/look"

// Screen is what all controls of a window share: the colours in use and the
// size of the window, in units. It belongs to the toolkit's goroutine.
type Screen struct {
	Palette *look.Palette
	W, H    float32
}

// Size is the scale of drawn parts and text at so many device pixels a unit.
func (s *Screen) Size(device float64) look.Size {
	return look.SizeOf(float64(s.W)*device, float64(s.H)*device, device)
}
