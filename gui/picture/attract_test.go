package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// BenchmarkAttractGround is what an exhibit waits for at its start and after each visit.
func BenchmarkAttractGround(b *testing.B) {
	d := paint.NewImage(1920, 1080)
	brush := NewBrush(d, look.Of(look.Night), look.Size{Part: 1, Device: 1})
	for b.Loop() {
		AttractGround(brush, 1920, 1080)
	}
}

// TestThinnedKeepsEnds, and no two points nearer than that but at the end.
func TestThinnedKeepsEnds(t *testing.T) {
	var line []paint.Point
	for i := range 100 {
		line = append(line, paint.Pt(float64(i), float64(i%3)))
	}
	out := thinned(line, 8)
	assert.Equal(t, line[0], out[0])
	assert.Equal(t, line[99], out[len(out)-1])
	assert.InDelta(t, 100/8, len(out), 3)
	for i := 1; i < len(out)-1; i++ {
		assert.GreaterOrEqual(t, out[i].Dist(out[i-1]), 8.0)
	}
	assert.Equal(t, line, thinned(line, 0), "a thin pen leaves none out")
}
