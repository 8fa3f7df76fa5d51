package picture

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// shades paints a picture of w by h and gives its pixels.
func shades(p *look.Palette, w, h int, draw func(b *Brush)) []byte {
	s := paint.NewImage(w, h)
	var path paint.Path
	s.Fill(path.Rect(paint.R(0, 0, float64(w), float64(h))), p.Card)
	draw(NewBrush(s, p, look.SizeOf(1366, 768, 1)))
	return s.Pixels().Pix
}

// TestTheNeedleIsSeen: to the left, to the right, in the middle and dead are four pictures,
// large and small, in every light; a dead one does not tell where it would lie.
func TestTheNeedleIsSeen(t *testing.T) {
	for _, light := range []look.Variant{look.Paper, look.Night, look.Lamp} {
		large := func(n Needle) []byte {
			return shades(look.Of(light), 300, 280, func(b *Brush) { DrawHoming(b, 150, 140, 100, n) })
		}
		small := func(n Needle) []byte {
			return shades(look.Of(light), 116, 22, func(b *Brush) { DrawNeedle(b, paint.R(0, 0, 116, 22), n) })
		}
		for _, draw := range []func(Needle) []byte{large, small} {
			var seen [][]byte
			for _, n := range []Needle{{Side: -0.5}, {Side: 0.5}, {}, {Dead: true}} {
				for _, other := range seen {
					require.False(t, bytes.Equal(other, draw(n)), "%v %v", light, n)
				}
				seen = append(seen, draw(n))
			}
			assert.True(t, bytes.Equal(draw(Needle{Dead: true}), draw(Needle{Dead: true, Side: 1})))
			assert.True(t, bytes.Equal(draw(Needle{Side: 1}), draw(Needle{Side: 3})), "no further than hard over")
			assert.True(t, bytes.Equal(draw(Needle{}), draw(Needle{Side: math.NaN()})))
		}
	}
}

// TestTheWireThatIsWaitedForIsLit.
func TestTheWireThatIsWaitedForIsLit(t *testing.T) {
	draw := func(d DriftSight) []byte {
		return shades(look.Of(look.Paper), 300, 280, func(b *Brush) { DrawDriftSight(b, 150, 140, 100, d) })
	}
	none := draw(DriftSight{})
	idle, runs := draw(DriftSight{Across: 0.7}), draw(DriftSight{Across: 0.7, Timing: true})
	differs := func(a, b []byte, from, to int) bool {
		return !bytes.Equal(a[from*300*4:to*300*4], b[from*300*4:to*300*4])
	}
	assert.True(t, differs(none, idle, 80, 90), "a wire ahead, 56 above the middle at 140")
	assert.True(t, differs(none, idle, 190, 200), "and one astern")
	assert.True(t, differs(idle, runs, 80, 90))
	assert.True(t, differs(idle, runs, 190, 200))
	assert.False(t, differs(idle, runs, 100, 180), "else nothing changes")
	assert.True(t, bytes.Equal(none, draw(DriftSight{Across: 1})), "no wire beyond the view")
}

// TestTheSignalBarIsAsLongAsTheSignal: counted in the row through its middle.
func TestTheSignalBarIsAsLongAsTheSignal(t *testing.T) {
	c := look.Of(look.Paper)
	long := func(signal, lowest float64) (n int) {
		pix := shades(c, 200, 20, func(b *Brush) { DrawSignalBar(b, paint.R(0, 4, 200, 12), signal, lowest) })
		for x := range 200 {
			if p := pix[(10*200+x)*4:]; p[0] == c.Pos.R && p[1] == c.Pos.G && p[2] == c.Pos.B {
				n++
			}
		}
		return n
	}
	for _, signal := range []float64{0.1, 0.5, 1} {
		assert.InDelta(t, 200*signal, long(signal, math.NaN()), 3)
	}
	assert.Zero(t, long(math.NaN(), math.NaN()))
	assert.InDelta(t, 100, long(0.5, 0.25), 6, "with a tick in it")
}

// TestWindsStandWithoutAFix: what else is found is written though there is no fix.
func TestWindsStandWithoutAFix(t *testing.T) {
	draw := func(c FixCard) []byte {
		return shades(look.Of(look.Paper), 380, 200, func(b *Brush) { DrawFix(b, paint.R(0, 0, 380, 200), &c) })
	}
	c := FixCard{Told: look.Text(look.PlotMore), Wind: "303/52"}
	bare := draw(c)
	c.Add(look.PlotByTime, "301/50")
	assert.False(t, bytes.Equal(bare, draw(c)))
}
