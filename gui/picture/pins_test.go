package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

func pinsOn(p Pins, v look.Variant) (*paint.Record, View) {
	var r paint.Record
	view := Fit(paint.R(0, 0, 800, 500), 60, units.At(-47, 179), units.At(-46, -179))
	DrawPins(NewBrush(&r, look.Of(v), look.SizeOf(1920, 1080, 1)), view, p)
	return &r, view
}

func callsOf(r *paint.Record, name string, palette *look.Palette) (verm []paint.Call) {
	for _, c := range r.Calls {
		if c.Name == name && c.Col == palette.Verm {
			verm = append(verm, c)
		}
	}
	return verm
}

// The lines end at the true position, across 180, once they may be seen at all.
func TestPinLinesRunToTheTruePosition(t *testing.T) {
	p := Pins{All: []Pin{{Letter: "A", At: units.At(-46.5, 179.5)}, {Letter: "B", At: units.At(-46.8, -179.5)}}}
	r, _ := pinsOn(p, look.Paper)
	assert.Empty(t, callsOf(r, "stroke", look.Of(look.Paper)))
	assert.Len(t, r.Texts(), 2)
	truth := units.At(-46.2, -179.8)
	p.To = &truth
	for _, drawn := range []float64{0.5, 1} {
		p.Drawn = drawn
		r, v := pinsOn(p, look.Paper)
		lines := callsOf(r, "stroke", look.Of(look.Paper))
		require.Len(t, lines, 2)
		for i, l := range lines {
			foot, end := v.ToPixel(p.All[i].At), v.ToPixel(truth)
			assert.Equal(t, foot, l.Path.Pts[0])
			assert.InDelta(t, foot.Dist(end)*drawn-pinClear*drawn, foot.Dist(l.Path.Pts[1]), 1e-6)
			assert.NotEmpty(t, l.Pen.Dash)
			assert.InDelta(t, 0, (end.X-foot.X)*(l.Path.Pts[1].Y-foot.Y)-(end.Y-foot.Y)*(l.Path.Pts[1].X-foot.X), 1e-6, "straight")
		}
	}
}

// Labels of the plot keep off pins and their lines.
func TestLabelsKeepOffPins(t *testing.T) {
	box := paint.R(0, 0, 800, 500)
	v := Fit(box, 60, units.At(-47, 179), units.At(-46, -179))
	truth := units.At(-46.2, -179.8)
	p := Pins{All: []Pin{{Letter: "A", At: units.At(-46.5, 179.5)}}, To: &truth}
	empty := NewRoom(box)
	room := p.Beside(empty, v, look.SizeOf(1920, 1080, 1))
	foot, end := v.ToPixel(p.All[0].At), v.ToPixel(truth)
	for _, at := range []paint.Point{foot, PinHead(foot, 1), paint.Pt((foot.X+end.X)/2, (foot.Y+end.Y)/2)} {
		spot := paint.R(at.X-8, at.Y-8, 16, 16)
		assert.True(t, empty.Free(spot), "the room handed in stays")
		assert.False(t, room.Free(spot))
	}
	assert.True(t, room.Free(paint.R(20, 420, 40, 20)))
}

// The letter can be read on the head in every light of the chart.
func TestPinLettersCanBeRead(t *testing.T) {
	for _, v := range []look.Variant{look.Paper, look.Night, look.Lamp, look.LampLit, look.LampUnlit} {
		r, _ := pinsOn(Pins{All: []Pin{{Letter: "A", At: units.At(-46.5, 179.5)}}}, v)
		text := r.Texts()
		require.Len(t, text, 1)
		var head paint.Call
		for _, c := range r.Calls {
			if c.Name == "fill" && c.Path.Bounds().W > 20 {
				head = c
			}
		}
		// Luminance by the formula of WCAG 2, in its linear part alone: enough to
		// tell dark from light.
		light := func(c colour) float64 { return 0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B) }
		assert.Greater(t, abs(light(head.Col)-light(text[0].Col)), 50.0, v)
	}
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
