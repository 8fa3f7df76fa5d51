package scene

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/paint"
)

var screens = [][3]float64{{1920, 1080, 1}, {1366, 768, 1}, {1080, 1920, 1}, {1280, 720, 1}, {1600, 900, 1}, {1280, 1024, 1}, {3840, 2160, 2}, {3840, 2160, 1}, {1200, 1920, 1}, {2160, 3840, 2}}

func shapes() (all []Shape) {
	for _, z := range screens {
		for _, stage := range []conduct.Stage{conduct.Attract, conduct.Playing, conduct.Cloud, conduct.Parting, conduct.Result, conduct.Keeper} {
			for _, low := range []bool{false, true} {
				for _, languages := range []int{1, 2, 4} {
					all = append(all, Shape{z[0], z[1], z[2], stage, false, low, languages, true})
					if stage == conduct.Playing {
						all = append(all, Shape{z[0], z[1], z[2], stage, true, low, languages, true})
					}
				}
			}
		}
	}
	return all
}

// TestTouchTargets: 80 units at least either way, on the screen, none over another; with
// low set, and upright always, in the lowest two fifths.
func TestTouchTargets(t *testing.T) {
	for _, s := range shapes() {
		name := fmt.Sprintf("%+v", s)
		p := Layout(s)
		screen := paint.R(0, 0, s.W, s.H)
		for i, z := range p.Zones {
			at := fmt.Sprintf("%s: target %d %v", name, z.Target, z.Box)
			require.GreaterOrEqual(t, math.Min(z.Box.W, z.Box.H), Least*s.Dev, at)
			require.True(t, screen.Covers(z.Box), at)
			if z.Target != conduct.Anywhere && (s.Low || p.Upright) {
				require.GreaterOrEqual(t, z.Box.Y, s.H*0.6, at)
			}
			for _, o := range p.Zones[:i] {
				if z.Target != conduct.Anywhere && o.Target != conduct.Anywhere {
					require.False(t, z.Box.Inset(0.5).Overlaps(o.Box.Inset(0.5)), "%s over target %d %v", at, o.Target, o.Box)
				}
			}
		}
	}
}

// TestCardsDoNotOverlap.
func TestCardsDoNotOverlap(t *testing.T) {
	for _, s := range shapes() {
		p := Layout(s)
		cards := []paint.Rect{p.Chart, p.Side, p.Break, p.Steer, p.Speed, p.Wind, p.Linkage, p.Strip, p.Land, p.Larger, p.Again}
		cards = append(cards, p.Languages...)
		for i, a := range cards {
			for _, b := range cards[:i] {
				if a.W > 0 && b.W > 0 {
					require.False(t, a.Inset(0.5).Overlaps(b.Inset(0.5)), "%+v: %v %v", s, a, b)
				}
			}
			require.True(t, a.W == 0 || paint.R(0, 0, s.W, s.H).Covers(a), "%+v: %v", s, a)
		}
	}
}

func TestEveryStageHasItsTargets(t *testing.T) {
	has := func(s Shape) map[conduct.Target]bool {
		all := map[conduct.Target]bool{}
		p := Layout(s)
		for _, z := range p.Zones {
			c := z.Box.Centre()
			assert.Equal(t, z.Target, p.At(c.X, c.Y))
			all[z.Target] = true
		}
		return all
	}
	play := has(Shape{1920, 1080, 1, conduct.Playing, false, false, 2, true})
	for k := conduct.SteerLess; k <= conduct.AgainKey; k++ {
		assert.True(t, play[k], "target %d", k)
	}
	cloud := has(Shape{1920, 1080, 1, conduct.Cloud, false, false, 2, true})
	assert.False(t, cloud[conduct.BreakKey] || cloud[conduct.InsideKey] || cloud[conduct.LandKey])
	assert.True(t, cloud[conduct.WindRim] && cloud[conduct.AgainKey])
	assert.True(t, has(Shape{1920, 1080, 1, conduct.Result, false, false, 2, true})[conduct.LandKey])
	assert.False(t, has(Shape{1920, 1080, 1, conduct.Playing, false, false, 2, false})[conduct.LandKey])
	assert.Len(t, has(Shape{1920, 1080, 1, conduct.Keeper, false, false, 2, true}), 4)
	assert.Empty(t, has(Shape{1920, 1080, 1, conduct.Shut, false, false, 2, true}))
}
