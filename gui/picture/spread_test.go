package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// someSpread is a spread of some figures.
func someSpread() Spread {
	s := Spread{Title: "Spread: 40 flights with drawn errors", Told: "a flight", Flights: 40}
	for i := range 9 {
		h := float64(i) / 2
		s.Hours = append(s.Hours, h)
		s.Median, s.Half, s.Most = append(s.Median, 4*h), append(s.Half, 4.2*h), append(s.Most, 9*h)
		s.FormHalf, s.FormMost = append(s.FormHalf, 4.1*h), append(s.FormMost, 8.8*h)
		s.Shares = append(s.Shares, [SpreadLinks]float64{0.5, 0.25, 0.15, 0.06, 0.04})
	}
	s.Mean = Miss{2, -3}
	s.HalfAxes, s.MostAxes = SpreadEllipse{12, 6, 30}, SpreadEllipse{25, 12.5, 30}
	for i := range 40 {
		sin, cos := math.Sincos(float64(i))
		s.Dots = append(s.Dots, Miss{20 * sin, 11 * cos})
	}
	return s
}

func drawnSpread(v look.Variant, s Spread) (*paint.Raster, *look.Palette) {
	d := paint.NewImage(SpreadWidth, SpreadHeight)
	pal := look.Of(v)
	DrawSpread(NewBrush(d, pal, look.SizeOf(SpreadWidth, SpreadHeight, 1)), paint.R(0, 0, SpreadWidth, SpreadHeight), s)
	return d, pal
}

// The areas of the strip are as large as the shares, and each has its colour.
func TestSharesOfTheStrip(t *testing.T) {
	d, pal := drawnSpread(look.Paper, someSpread())
	count := map[colour]float64{}
	x := 400 // a column of the strip, away from the time scale
	for y := 560; y < SpreadHeight; y++ {
		c := d.Pixels().RGBAAt(x, y)
		count[colour(c)]++
	}
	all := 0.0
	want := map[colour]float64{pal.Wind: 0.5, pal.Brass: 0.25, pal.Air: 0.15, pal.SlateHi: 0.06, pal.Pos: 0.04}
	for c := range want {
		all += count[c]
	}
	require.Greater(t, all, 200.0)
	for c, share := range want {
		// the four lines between take 3 pixels each with their soft edges, half of
		// them from either side
		assert.InDelta(t, share, count[c]/all, 6/all, "%v", c)
	}
}

// The ellipse lies where its mean, axes and bearing say: the ends of the greater
// axis and of the smaller one are on it.
func TestEllipseOfTheEnd(t *testing.T) {
	b := NewBrush(&paint.Record{}, look.Of(look.Paper), look.SizeOf(1920, 1080, 1))
	mean, e := Miss{2, -3}, SpreadEllipse{25, 10, 30}
	seen := map[string]bool{}
	at := func(m Miss) paint.Point {
		n, x := m.North-mean.North, m.East-mean.East
		sin, cos := math.Sincos(30 * math.Pi / 180)
		along, across := n*cos+x*sin, x*cos-n*sin
		assert.InDelta(t, 1, math.Hypot(along/25, across/10), 1e-9)
		seen[fmt.Sprintf("%.0f %.0f", math.Abs(along), math.Abs(across))] = true
		return paint.Pt(m.East, -m.North)
	}
	b.spreadEllipse(mean, e, at, paint.Pen{}, none)
	assert.True(t, seen["25 0"] && seen["0 10"], "%v", seen)
}

// No name lies on another or leaves the plot, wherever the curves end.
func TestNamesOfTheCurvesKeepApart(t *testing.T) {
	b := NewBrush(&paint.Record{}, look.Of(look.Paper), look.SizeOf(1920, 1080, 1))
	rapid.Check(t, func(t *rapid.T) {
		p := paint.R(50, 100, 400, 300)
		names := make([]spreadName, rapid.IntRange(1, 6).Draw(t, "names"))
		for i := range names {
			names[i].y = rapid.Float64Range(100, 400).Draw(t, "y")
		}
		b.spreadNames(p, names)
		for i := range names {
			require.True(t, names[i].y >= p.Y-1e-9 && names[i].y <= p.Bottom()+1e-9)
			if i > 0 {
				require.GreaterOrEqual(t, names[i].y-names[i-1].y, 1.3*look.TextBody-1e-9)
			}
		}
	})
}

// Percents add up to a hundred and are none further than one from their share.
func TestWholePercents(t *testing.T) {
	assert.Equal(t, []int{34, 33, 33}, wholePercents([]float64{1.0 / 3, 1.0 / 3, 1.0 / 3}))
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.Float64Range(0.001, 1), 1, 8).Draw(t, "parts")
		sum, all := 0.0, 0
		for _, p := range parts {
			sum += p
		}
		for i := range parts {
			parts[i] /= sum
		}
		for i, n := range wholePercents(parts) {
			all += n
			require.Less(t, math.Abs(float64(n)-100*parts[i]), 1.0)
		}
		require.Equal(t, 100, all)
	})
}

func TestStepsOfAScale(t *testing.T) {
	assert.Equal(t, 5.0, NiceStep(26.0/6))
	assert.Equal(t, 0.2, NiceStep(1.0/6))
	assert.Equal(t, 1.0, NiceStep(0))
	assert.Equal(t, 1.0, NiceStep(math.Inf(1)))
	rapid.Check(t, func(t *rapid.T) {
		length, n := rapid.Float64Range(1e-6, 1e6).Draw(t, "length"), rapid.IntRange(1, 12).Draw(t, "n")
		step := NiceStep(length / float64(n))
		require.LessOrEqual(t, length/step, float64(n)*(1+1e-9))
		require.Greater(t, length/step, float64(n)/2.6)
	})
	for hours, want := range map[float64]float64{8: 1, 4: 0.5, 48: 6, 0.5: 1.0 / 12, 2: 0.25} {
		assert.Equal(t, want, hourStep(hours), "%v h", hours)
	}
}

// The words and figures of the picture, as a reader of the file finds them; in every
// light, of a single flight, of one that was stopped early, and of none.
func TestWordsOfTheSpread(t *testing.T) {
	text := func(s Spread) string {
		var out strings.Builder
		require.NoError(t, paint.Export(&out, paint.SVGFile, SpreadWidth, SpreadHeight, s.Title, func(d paint.Surface) {
			DrawSpread(NewBrush(d, look.Of(look.Night), look.SizeOf(SpreadWidth, SpreadHeight, 1)), paint.R(0, 0, SpreadWidth, SpreadHeight), s)
		}))
		assert.NotContains(t, out.String(), "NaN")
		assert.NotContains(t, out.String(), "Inf")
		return out.String()
	}
	s := someSpread()
	for _, words := range []string{"16.0 median miss", "36.0 holds 95 in 100", "50 % wind not known", "4 % start position", "half of the flights: 12.0 by 6.0 NM, 030T", "one dot is one flight", "3.5 h"} {
		assert.Contains(t, text(s), words)
	}
	s.Shares = nil
	assert.Contains(t, text(s), look.Text(look.SpreadNoShares))
	s.Flights = 5000
	assert.Contains(t, text(s), "40 of 5000 shown")
	text(Spread{})
	text(Spread{Flights: 1, Hours: []float64{0}, Median: []float64{0}, Half: []float64{0}, Most: []float64{0}, FormHalf: []float64{0}, FormMost: []float64{0}, Dots: []Miss{{}}})
	for _, v := range []look.Variant{look.Night, look.Lamp} {
		d, pal := drawnSpread(v, someSpread())
		assert.Equal(t, opaque(pal.Ground), d.Pixels().RGBAAt(3, 3))
	}
}
