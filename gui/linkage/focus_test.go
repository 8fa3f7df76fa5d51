package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/picture"
)

// In a narrow view every link of the focus is seen whole, whatever link it is, and
// the picture is drawn at a scale at which its words can be read; a wide view shows
// all of it.
func TestFocusIsSeenWhole(t *testing.T) {
	v := &View{}
	for l := picture.Link(0); l < picture.LinkCount; l++ {
		v.focus = []picture.Link{l}
		box := v.box(902, 550, 1)
		b := picture.LinkBounds(look.Size{}, box, l)
		assert.True(t, b.X >= 0 && b.Right() <= 902, "%d: %v", l, b)
		assert.GreaterOrEqual(t, box.W/pictureW, leastPart)
		assert.LessOrEqual(t, box.H, 550.0+1e-9)
		assert.True(t, box.X <= 1e-9 && box.Right() >= 902-1e-9, "no empty edge")
		twice := v.box(1804, 1100, 2)
		assert.InDelta(t, 2*box.X, twice.X, 1e-9, "the same at two pixels to a unit")
		assert.Equal(t, boxOf(1264, 790, false), v.box(1264, 790, 1))
	}
	v.focus = []picture.Link{picture.LinkCounter, picture.LinkEastDisc}
	for _, l := range v.focus {
		b := picture.LinkBounds(look.Size{}, v.box(902, 550, 1), l)
		assert.True(t, b.X >= 0 && b.Right() <= 902)
	}
	v.focus = nil
	assert.Equal(t, boxOf(902, 550, false), v.box(902, 550, 1))
	v.focus, v.beside = []picture.Link{picture.LinkDrive}, true
	assert.Equal(t, boxOf(600, 550, true), v.box(600, 550, 1))
}
