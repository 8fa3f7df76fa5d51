package film

import (
	"fmt"
	"strconv"
	"strings"

	"stillair/gui/look"
)

// Size is that of a frame, pixels.
type Size struct{ W, H int }

// The smallest and the largest side of a frame.
const leastSide, mostSide = 240, 7680

// ParseSize reads 1920x1080.
func ParseSize(text string) (Size, error) {
	w, h, _ := strings.Cut(text, "x")
	x, errX := strconv.Atoi(w)
	y, errY := strconv.Atoi(h)
	if errX != nil || errY != nil || min(x, y) < leastSide || max(x, y) > mostSide {
		return Size{}, fmt.Errorf("%s: must be WIDTHxHEIGHT, each %d to %d pixels, such as 1920x1080", text, leastSide, mostSide)
	}
	return Size{x, y}, nil
}

// String writes the size as ParseSize reads it.
func (s Size) String() string { return fmt.Sprintf("%dx%d", s.W, s.H) }

// shape is how a frame is laid out.
type shape uint8

const (
	wide shape = iota
	square
	tall
)

// shape is wide from 4 to 3 on, tall below 4 to 5.
func (s Size) shape() shape {
	switch r := float64(s.W) / float64(s.H); {
	case r >= 4.0/3-0.01:
		return wide
	case r < 0.8:
		return tall
	}
	return square
}

// designs are the frames for which the layouts give their sizes, units. Square and
// tall ones are looked at on a telephone: their text is half as large again.
var designs = [...]struct{ w, h float64 }{wide: {1920, 1080}, square: {720, 720}, tall: {720, 1280}}

// A wide frame of fewer lines than this is laid out for a smaller one, so that its
// words can be read.
const (
	fewLines       = 800
	smallW, smallH = 1280.0, 720.0
)

// unit is the number of pixels of a unit of the layout.
func (s Size) unit() float64 {
	d := designs[s.shape()]
	if s.shape() == wide && s.H < fewLines {
		d.w, d.h = smallW, smallH
	}
	return min(float64(s.W)/d.w, float64(s.H)/d.h)
}

// look is the scale of what is drawn.
func (s Size) look() look.Size { return look.Size{Part: s.unit(), Device: s.unit()} }
