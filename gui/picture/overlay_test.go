package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// net is an overlay of upright and level lines, each ten minutes, with a fix in the
// middle.
func net() *Overlay {
	o := &Overlay{Crossings: []Crossing{{At: units.At(-47, 180), Words: []string{"fix 1030Z"}}}}
	for n := -12; n <= 12; n++ {
		d := float64(n) / 6
		weight := 0
		if n%3 == 0 {
			weight = 1
		}
		o.Inks[0].Curves = append(o.Inks[0].Curves, InkCurve{weight, "42°30′", [][]units.Position{{units.At(-49, 180+d), units.At(-45, 180+d)}}})
		o.Inks[1].Curves = append(o.Inks[1].Curves, InkCurve{weight, "33°00′", [][]units.Position{{units.At(-47+d, 177), units.At(-47+d, 183)}}})
	}
	o.Inks[0].Read, o.Inks[0].Plate = [][]units.Position{{units.At(-49, 180), units.At(-45, 180)}}, "Antares 42°22.5′"
	return o
}

func overprint(o *Overlay, p *look.Palette) (*printing, *paint.Raster) {
	d := paint.NewImage(1300, 900)
	v := View{Centre: units.At(-47, 180), Scale: 300, Box: paint.R(20, 20, 1260, 860)}
	b := NewBrush(d, p, look.SizeOf(1920, 1080, 1))
	l := &printing{Brush: b, v: v, o: o, k: 1, room: NewRoom(v.Box)}
	DrawOverlay(b, v, o, nil)
	for i := range o.Inks {
		l.readPlate(i)
	}
	for i := range o.Inks {
		l.plates(i)
	}
	return l, d
}

// Plates stand on the chart, at least 54 pixels apart and 120 from the fix, whether
// at the edge or between the curves; each ink has some.
func TestPlatesKeepApart(t *testing.T) {
	for _, atEdge := range []bool{true, false} {
		o := net()
		o.AtEdge = atEdge
		l, _ := overprint(o, look.Of(look.Paper))
		require.GreaterOrEqual(t, len(l.put), 9)
		fix := l.v.ToPixel(o.Crossings[0].At)
		for i, q := range l.put {
			assert.True(t, l.v.Box.Covers(q))
			least := 120.0
			if i == 0 { // that of the curve of what was read stands nearer
				least = 90
			}
			assert.GreaterOrEqual(t, q.Centre().Dist(fix), least)
			for _, r := range l.put[:i] {
				assert.GreaterOrEqual(t, q.Centre().Dist(r.Centre()), 54.0)
				assert.False(t, q.Overlaps(r))
			}
		}
	}
}

// The two inks differ by shape, whatever the light: the first is full, the second
// broken.
func TestInksDifferByShape(t *testing.T) {
	for _, variant := range []look.Variant{look.Paper, look.Night, look.LampLit, look.LampUnlit} {
		o := &Overlay{}
		o.Inks[0].Curves = []InkCurve{{1, "", [][]units.Position{{units.At(-46.8, 178.5), units.At(-46.8, 181.5)}}}}
		o.Inks[1].Curves = []InkCurve{{1, "", [][]units.Position{{units.At(-47.2, 178.5), units.At(-47.2, 181.5)}}}}
		l, d := overprint(o, look.Of(variant))
		at := func(lat float64) (inked, all int) {
			y := int(l.v.ToPixel(units.At(lat, 180)).Y)
			for x := 250; x < 1050; x++ {
				all++
				if d.Pixels().RGBAAt(x, y).A > 60 {
					inked++
				}
			}
			return inked, all
		}
		full, all := at(-46.8)
		assert.Equal(t, all, full, "%v", variant)
		broken, all := at(-47.2)
		assert.InDelta(t, 9.0/14, float64(broken)/float64(all), 0.06, "%v", variant)
	}
}

// Nothing is printed outside the frame.
func TestOverlayStaysInTheFrame(t *testing.T) {
	l, d := overprint(net(), look.Of(look.Paper))
	for y := range 900 {
		for x := range 1300 {
			if !l.v.Box.Inset(-1).Contains(paint.Pt(float64(x), float64(y))) {
				require.Zero(t, d.Pixels().RGBAAt(x, y).A, "%d %d", x, y)
			}
		}
	}
}
