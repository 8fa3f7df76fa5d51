package picture

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Dials in these tests stand round (500, 500) with R = 100.
const mid, radius = 500.0, 100.0

func dial(k look.Size, draw func(b *Brush, x, y, r float64)) *paint.Record {
	return record(k, func(b *Brush) { draw(b, mid, mid, radius) })
}

// bearing is the direction of p from the middle of the dial, 0 to 360.
func bearing(p paint.Point) float64 {
	return units.WrapDegrees(math.Atan2(p.X-mid, mid-p.Y) * 180 / math.Pi)
}

// figures are the texts by word: the direction and distance of the middle of
// each (0.36 of its size above its baseline).
func figures(r *paint.Record) map[string][][2]float64 {
	m := map[string][][2]float64{}
	for _, c := range r.Texts() {
		p := c.At.Add(0, -0.36*c.Type.Size)
		m[c.Text] = append(m[c.Text], [2]float64{bearing(p), p.Dist(paint.Pt(mid, mid)) / radius})
	}
	return m
}

// tip is the first point of the last brass shape of three corners: a needle.
func tip(t *testing.T, r *paint.Record) paint.Point {
	t.Helper()
	for i := len(r.Calls) - 1; i >= 0; i-- {
		if c := r.Calls[i]; c.Name == "fill" && c.Col == look.Of(look.Paper).Brass && len(c.Path.Pts) == 3 {
			return c.Path.Pts[0]
		}
	}
	require.Fail(t, "no needle")
	return paint.Point{}
}

// Heading 268: W stands two degrees right of the lubber line, and so on round,
// all upright (the design: the ring turns, its figures do not).
func TestHeadingCard(t *testing.T) {
	r := dial(fullSize, func(b *Brush, x, y, r float64) { HeadingCard(b, x, y, r, 268*units.TrueHeading(units.Degree)) })
	f := figures(r)
	for word, card := range map[string]float64{"N": 0, "E": 90, "S": 180, "W": 270, "03": 30, "06": 60, "12": 120, "15": 150, "21": 210, "24": 240, "30": 300, "33": 330} {
		require.Len(t, f[word], 1, word)
		assert.InDelta(t, units.WrapDegrees(card-268), f[word][0][0], 1e-6, word)
		assert.InDelta(t, 0.66, f[word][0][1], 1e-6, word)
	}
	require.Len(t, f["268T"], 1)
	assert.InDelta(t, 0, f["268T"][0][1], 1e-6, "the value stands in the middle")
	for _, c := range r.Texts() {
		assert.Equal(t, "text", c.Name, "upright: %s", c.Text)
	}
	strokes := 0
	for _, c := range r.Calls {
		if c.Name == "stroke" && len(c.Path.Pts) == 2 {
			strokes++
			assert.InDelta(t, 0.945, c.Path.Pts[0].Dist(paint.Pt(mid, mid))/radius, 1e-6)
		}
	}
	assert.Equal(t, 36, strokes, "a tick each ten degrees")
}

func TestSmallHeadingCardKeepsLettersOnly(t *testing.T) {
	r := record(fullSize, func(b *Brush) { HeadingCard(b, 100, 100, 57, 0) })
	assert.Len(t, r.Texts(), 5, "four letters and the value")
	r = record(fullSize, func(b *Brush) { HeadingCard(b, 100, 100, 59, 0) })
	assert.Len(t, r.Texts(), 13)
}

// Expected by hand: 178 kt on a scale of 100 to 260 over 116 degrees stands at
// -58 + 78/160 x 116 = -1.45 degrees.
func TestAirspeedFan(t *testing.T) {
	r := dial(fullSize, func(b *Brush, x, y, r float64) { AirspeedFan(b, x, y, r, TASFan(178*units.Knot)) })
	p := tip(t, r)
	assert.InDelta(t, 360-1.45, bearing(p), 1e-6)
	assert.InDelta(t, 0.99, p.Dist(paint.Pt(mid, mid))/radius, 1e-6)
	f := figures(r)
	for word, deg := range map[string]float64{"120": -43.5, "160": -14.5, "200": 14.5, "240": 43.5} {
		require.Len(t, f[word], 1, word)
		assert.InDelta(t, units.WrapDegrees(deg), f[word][0][0], 1e-6)
		assert.InDelta(t, 1.27, f[word][0][1], 0.03)
	}
	assert.Contains(t, f, "178")
	assert.Contains(t, f, "kt")
}

func TestFanScaleHoldsTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := units.Speed(rapid.Float64Range(0, 700).Draw(t, "kt")) * units.Knot
		f := TASFan(v)
		assert.GreaterOrEqual(t, f.Low, units.Speed(0))
		assert.LessOrEqual(t, f.Low, v)
		assert.GreaterOrEqual(t, f.High, v)
		assert.InDelta(t, 160, (f.High - f.Low).Knots(), 1e-9)
	})
}

// The arrow blows from the side the wind comes from; the knob stands there.
func TestWindSetter(t *testing.T) {
	wind := units.Wind{From: 307 * units.Degree, Speed: 32 * units.Knot}
	draw := func(w units.Wind) *paint.Record {
		return dial(fullSize, func(b *Brush, x, y, r float64) { WindSetter(b, x, y, r, w) })
	}
	r, heads := draw(wind), 0
	c := look.Of(look.Paper)
	for _, call := range r.Calls {
		switch {
		case call.Name == "stroke" && call.Col == c.Wind:
			assert.InDelta(t, 307, bearing(call.Path.Pts[0]), 1e-6)
			assert.InDelta(t, 127, bearing(call.Path.Pts[1]), 1e-6)
		case call.Name == "fill" && call.Col == c.Wind:
			heads++
			// From the notch to the tip a head points downwind.
			a, z := call.Path.Pts[2], call.Path.Pts[0]
			assert.InDelta(t, 127, bearing(paint.Pt(mid+z.X-a.X, mid+z.Y-a.Y)), 1e-6)
		}
	}
	assert.Equal(t, 3, heads)
	assert.InDelta(t, 307, bearing(knobOf(t, r)), 1e-6)
	for _, call := range draw(units.Wind{}).Calls {
		assert.NotEqual(t, c.Wind, call.Col, "a calm has no arrow")
	}
}

// knobOf is the middle of the brass disc on the rim.
func knobOf(t *testing.T, r *paint.Record) paint.Point {
	t.Helper()
	for _, c := range r.Calls {
		if q := c.Path.Bounds(); c.Name == "fill" && c.Col == look.Of(look.Paper).Brass && math.Abs(q.W-2*0.17*radius) < 1e-6 {
			return q.Centre()
		}
	}
	require.Fail(t, "no knob")
	return paint.Point{}
}

func TestVariationSetter(t *testing.T) {
	c := look.Of(look.Paper)
	for _, v := range []struct {
		deg    float64
		text   string
		inUse  string
		should float64
	}{{24, "24 E", "E", 24}, {-78, "78 W", "W", 282}, {0, "0", "E", 0}, {23.5, "23.5 E", "E", 23.5}, {179, "179 E", "E", 179}} {
		r := dial(fullSize, func(b *Brush, x, y, r float64) {
			VariationSetter(b, x, y, r, units.Variation(v.deg)*units.Variation(units.Degree))
		})
		assert.InDelta(t, v.should, bearing(knobOf(t, r)), 1e-6)
		f := figures(r)
		require.NotEmpty(t, f[v.text], v.text)
		assert.InDelta(t, 0, f[v.text][len(f[v.text])-1][1], 1e-6, "in the middle, after the figures of the scale")
		for _, call := range r.Texts() {
			if call.Text == "E" || call.Text == "W" {
				assert.Equal(t, call.Text == v.inUse, call.Col == c.BrassText, "%s at %v", call.Text, v.deg)
			}
		}
		assert.Len(t, f["90"], 2)
		assert.Equal(t, 180.0, math.Round(f["180"][0][0]))
	}
}

// Whole scales by hand: 8000 ft is 0.8 of a turn of 10,000; -1 C 59 of 100
// degrees above -60; 158 kt 98 of 200 above 60. The scale has 270 degrees.
func TestSmallDials(t *testing.T) {
	for share, v := range map[float64]float64{
		0.8: HeightShare(8000 * units.Foot), 0.59: TemperatureShare(units.Celsius(-1)), 0.49: AirspeedShare(158 * units.Knot),
	} {
		assert.InDelta(t, share, v, 1e-9)
		r := dial(fullSize, func(b *Brush, x, y, r float64) { SmallDial(b, x, y, r, v) })
		assert.InDelta(t, units.WrapDegrees(-135+270*share), bearing(tip(t, r)), 1e-6)
		assert.Empty(t, r.Texts(), "a scale without figures")
	}
	for _, beyond := range []float64{-3, 7, math.Inf(1)} {
		r := dial(fullSize, func(b *Brush, x, y, r float64) { SmallDial(b, x, y, r, beyond) })
		assert.InDelta(t, 180, math.Abs(units.WrapHalfDegrees(bearing(tip(t, r)))), 45.001, "stopped at the end of the scale")
	}
}

func TestStandbyCompass(t *testing.T) {
	r := dial(fullSize, func(b *Brush, x, y, r float64) {
		StandbyCompass(b, x, y, r, 245*units.CompassHeading(units.Degree))
	})
	f := figures(r)
	for word, card := range map[string]float64{"N": 0, "E": 90, "S": 180, "W": 270} {
		assert.InDelta(t, units.WrapDegrees(card-245), f[word][0][0], 1e-6)
	}
}

// The hand that holds the drawn knob gets the drawn value back.
func TestHandOnTheKnobGivesTheValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-50, 900).Draw(t, "x"), rapid.Float64Range(-50, 900).Draw(t, "y")
		r := rapid.Float64Range(20, 200).Draw(t, "r")
		out := rapid.Float64Range(0.2, 4).Draw(t, "out")
		deg := float64(rapid.IntRange(-180, 179).Draw(t, "deg"))
		hand := paint.Polar(x, y, r*out, deg+rapid.Float64Range(-0.49, 0.49).Draw(t, "beside"))
		from, ok := WindAt(x, y, r, hand)
		require.True(t, ok)
		assert.InDelta(t, units.WrapDegrees(deg), from.Degrees(), 1e-9)
		v, ok := VariationAt(x, y, r, hand)
		require.True(t, ok)
		assert.InDelta(t, deg, v.Degrees(), 1e-9)
	})
	_, ok := WindAt(10, 10, 50, paint.Pt(10, 10))
	assert.False(t, ok)
	_, ok = VariationAt(10, 10, 50, paint.Pt(12, 9))
	assert.False(t, ok)
}

func TestWhatIsOnTheRing(t *testing.T) {
	assert.True(t, OnRing(fullSize, 100, 100, 70, paint.Pt(170, 100)))
	assert.True(t, OnRing(fullSize, 100, 100, 70, paint.Pt(100, 100-70-27)), "a hand's breadth outside")
	assert.False(t, OnRing(fullSize, 100, 100, 70, paint.Pt(100, 100)))
	field := VariationField(fullSize, 100, 100, 70, 0)
	assert.Equal(t, paint.Pt(100, 100), field.Centre())
	for _, p := range []paint.Point{{X: field.X, Y: 100}, {X: 100, Y: field.Y}} {
		assert.False(t, OnRing(fullSize, 100, 100, 70, p), "field and ring do not overlap")
	}
}

// kinds are all dials with the values that reach farthest.
func kinds() map[string]struct {
	box  Box
	draw func(b *Brush, x, y, r, v float64)
} {
	type kind = struct {
		box  Box
		draw func(b *Brush, x, y, r, v float64)
	}
	return map[string]kind{
		"heading": {HeadingCardBox, func(b *Brush, x, y, r, v float64) {
			HeadingCard(b, x, y, r, units.TrueHeading(v)*units.TrueHeading(units.Degree))
		}},
		"fan": {AirspeedFanBox, func(b *Brush, x, y, r, v float64) { AirspeedFan(b, x, y, r, TASFan(units.Speed(v)*units.Knot)) }},
		"wind": {WindSetterBox, func(b *Brush, x, y, r, v float64) {
			WindSetter(b, x, y, r, units.Wind{From: units.Angle(v) * units.Degree, Speed: 100 * units.Knot})
		}},
		"variation": {VariationSetterBox, func(b *Brush, x, y, r, v float64) {
			VariationSetter(b, x, y, r, units.Variation(v)*units.Variation(units.Degree))
		}},
		"small": {SmallDialBox, func(b *Brush, x, y, r, v float64) { SmallDial(b, x, y, r, v/360) }},
		"standby": {StandbyCompassBox, func(b *Brush, x, y, r, v float64) {
			StandbyCompass(b, x, y, r, units.CompassHeading(v)*units.CompassHeading(units.Degree))
		}},
	}
}

// A dial placed in an area stays inside it, at every size and value, and uses
// its width or its height.
func TestDialsStayInTheirPlace(t *testing.T) {
	for name, kind := range kinds() {
		for _, k := range []look.Size{fullSize, look.SizeOf(1366, 768, 1), look.SizeOf(3840, 2160, 2)} {
			for _, area := range []paint.Rect{paint.R(20, 30, 160, 190), paint.R(20, 30, 300, 120), paint.R(20, 30, 80, 80)} {
				area.W, area.H = area.W*k.Device, area.H*k.Device
				x, y, r := FitDial(area, k, kind.box)
				if r < 8 {
					assert.Equal(t, "fan", name, "only the fan's words need more room than %v", area)
					continue
				}
				s := paint.NewImage(int(area.Right())+40, int(area.Bottom())+40)
				b := NewBrush(s, look.Of(look.Paper), k)
				for v := 1.0; v < 360; v += 44 {
					kind.draw(b, x, y, r, v)
				}
				checkInk(t, s, area, name)
				q := kind.box(k, r)
				assert.True(t, q.W > area.W-0.01 || q.H > area.H-0.01, "%s %v", name, area)
			}
		}
	}
}

func BenchmarkDials(b *testing.B) {
	for name, kind := range kinds() {
		b.Run(fmt.Sprint(name), func(b *testing.B) {
			s := paint.NewImage(220, 220)
			brush := NewBrush(s, look.Of(look.Paper), fullSize)
			b.ReportAllocs()
			for b.Loop() {
				kind.draw(brush, 110, 120, 72, 178)
			}
		})
	}
}
