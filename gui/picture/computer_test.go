package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/gui/paint"
)

func someRings() *SpeedRings {
	return &SpeedRings{CAS: 158.2, TAS: 178, Top: 178, TASText: "178", Height: "8000", Temperature: "-0.8", Day: "standard day"}
}

func drawnRings(at SpeedDial, z look.Size, s *SpeedRings) *paint.Record {
	var rec paint.Record
	DrawSpeedRings(NewBrush(&rec, look.Of(look.Paper), z), at, s)
	return &rec
}

// The law of the rings by hand: a full circle is a decade; twice as much is 108.37
// degrees (log10 2 = 0.30103).
func TestRingLaw(t *testing.T) {
	assert.Zero(t, RingDegrees(178, 178))
	assert.InDelta(t, 360, RingDegrees(600, 60), 1e-9)
	assert.InDelta(t, 108.37, RingDegrees(356, 178), 0.005)
	assert.InDelta(t, 360*math.Log10(200/178.0), RingDegrees(200, 178), 1e-12)
	s := someRings()
	assert.InDelta(t, 18.43, s.Turned(), 0.01, "360 log10(178/158.2): log10 1.12516 = 0.051214")
	assert.Zero(t, s.Cursor())
}

// Each figure of the fixed ring stands at 360 log10(v/178), those of the brass ring
// further by the turn; the calibrated airspeed stands under the cursor.
func TestFiguresStandByTheLaw(t *testing.T) {
	at := SpeedDial{400, 400, 250}
	s := someRings()
	seen := map[string]int{}
	for _, k := range drawnRings(at, look.SizeOf(1920, 1080, 1), s).Texts() {
		v, err := strconv.Atoi(k.Text)
		if err != nil || k.Text == s.TASText || k.Text == s.Height {
			continue
		}
		seen[k.Text]++
		p := paint.Pt(k.At.X, k.At.Y-0.36*k.Type.Size)
		r := p.Dist(paint.Pt(at.X, at.Y)) / at.R
		deg := math.Atan2(p.X-at.X, at.Y-p.Y) * 180 / math.Pi
		want := 360 * math.Log10(float64(v)/178)
		if r < 0.8 {
			want += 360 * math.Log10(178/158.2)
			assert.InDelta(t, 0.675, r, 1e-9)
		} else {
			assert.InDelta(t, 0.925, r, 1e-9)
		}
		assert.InDelta(t, 0, math.Remainder(deg-want, 360), 1e-9, "%d", v)
	}
	for _, v := range []string{"60", "100", "160", "200", "300", "500"} {
		assert.Equal(t, 2, seen[v], "%s stands on both rings", v)
	}
}

// The ticks of the fixed ring stand by the same law; none is nearer to the next than
// two pixels, however small the dial.
func TestTicksStandApart(t *testing.T) {
	for _, r := range []float64{90, 130, 180, 250} {
		z := look.SizeOf(1280, 720, 1)
		at := SpeedDial{300, 300, r}
		brass := at.radii(z).brass
		var degs []float64
		for _, k := range drawnRings(at, z, someRings()).Calls {
			if k.Name == "stroke" && len(k.Path.Pts) == 2 {
				p, q := k.Path.Pts[0], k.Path.Pts[1]
				if math.Abs(p.Dist(paint.Pt(at.X, at.Y))-brass*r) < 1e-6 && q.Dist(paint.Pt(at.X, at.Y)) > brass*r {
					degs = append(degs, math.Atan2(p.X-at.X, at.Y-p.Y)*180/math.Pi)
				}
			}
		}
		require.Greater(t, len(degs), 50, "R = %v", r)
		for i := 1; i < len(degs); i++ {
			step := math.Remainder(degs[i]-degs[i-1], 360)
			assert.Greater(t, step*math.Pi/180*brass*r, 2.0, "R = %v", r)
		}
	}
}

// Between the rim and the ticks, and between the ticks and the hole of the brass ring,
// the figures touch nothing, however small the dial.
func TestFiguresKeepToTheirBands(t *testing.T) {
	for _, r := range []float64{125, 132, 150, 178, 205, 250, 320} {
		z := look.SizeOf(1280, 720, 1)
		if r > 160 {
			z = look.SizeOf(1920, 1080, 1)
		}
		at, s := SpeedDial{400, 400, r}, someRings()
		band := at.radii(z)
		for _, k := range drawnRings(at, z, s).Texts() {
			if _, err := strconv.Atoi(k.Text); err != nil || k.Text == s.TASText || k.Text == s.Height {
				continue
			}
			q := textRoom(k)
			near, far := math.Inf(1), 0.0
			for _, p := range []paint.Point{{X: q.X, Y: q.Y}, {X: q.Right(), Y: q.Y}, {X: q.X, Y: q.Bottom()}, {X: q.Right(), Y: q.Bottom()}, {X: q.X, Y: q.Centre().Y}, {X: q.Right(), Y: q.Centre().Y}, {X: q.Centre().X, Y: q.Y}, {X: q.Centre().X, Y: q.Bottom()}} {
				d := p.Dist(paint.Pt(at.X, at.Y))
				near, far = math.Min(near, d), math.Max(far, d)
			}
			if q.Centre().Dist(paint.Pt(at.X, at.Y)) > band.brass*r {
				assert.Less(t, far, r-1, "%s on the fixed ring, R = %v", k.Text, r)
				assert.Greater(t, near, (band.brass+0.055)*r, "%s on the fixed ring, R = %v", k.Text, r)
				continue
			}
			assert.Less(t, far, (band.brass-0.055)*r, "%s on the brass, R = %v", k.Text, r)
			assert.Greater(t, near, band.hole*r+1, "%s on the brass, R = %v", k.Text, r)
		}
	}
}

// No figure or word of the dial lies on another, wherever rings and cursor stand, and
// none leaves the room that the dial was fitted to.
func TestWordsOfTheRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cas := rapid.Float64Range(60, 300).Draw(t, "cas")
		s := someRings()
		s.CAS, s.TAS, s.Top = cas, cas*rapid.Float64Range(0.97, 2).Draw(t, "ratio"), rapid.Float64Range(60, 600).Draw(t, "top")
		s.TASText = strconv.Itoa(int(s.TAS))
		if rapid.Bool().Draw(t, "warm") {
			s.Height, s.Temperature, s.Day = "12500", "-12.3", "19.2 C warmer than standard"
		}
		z := look.SizeOf(1920, 1080, 1)
		box := paint.R(0, 0, 560, rapid.Float64Range(260, 560).Draw(t, "high"))
		if rapid.Bool().Draw(t, "small") {
			z = look.SizeOf(1280, 720, 1)
		}
		at := FitSpeedDial(z, box)
		var seen []paint.Rect
		texts := drawnRings(at, z, s).Texts()
		for i, k := range texts {
			q := textRoom(k)
			require.True(t, box.Covers(q), "%q leaves the room", k.Text)
			require.GreaterOrEqual(t, k.Type.Size, 12.5)
			for j, other := range seen {
				require.False(t, q.Overlaps(other), "%q lies on %q", texts[i].Text, texts[j].Text)
			}
			seen = append(seen, q)
		}
	})
}

func TestHandOnTheRing(t *testing.T) {
	at := SpeedDial{100, 100, 80}
	deg, ok := at.Ring(paint.Pt(100+0.68*80, 100))
	assert.True(t, ok)
	assert.InDelta(t, 90, deg, 1e-9)
	_, ok = at.Ring(paint.Pt(100, 100))
	assert.False(t, ok)
}

func TestWordsOfTheCurve(t *testing.T) {
	s := &SpeedCurve{LastFeet: 25000, AtFeet: 8000, AtExact: 178, AtRule: 183.5, ExactText: "exact 234", RuleText: "rule 237"}
	for ft := 0.0; ft <= 25000; ft += 500 {
		s.Feet, s.Exact, s.Rule = append(s.Feet, ft), append(s.Exact, 158+ft*0.003), append(s.Rule, 158+ft*0.00316)
	}
	for _, c := range []struct{ w, h, wide, tall float64 }{{1920, 1080, 820, 220}, {1280, 720, 560, 380}} {
		var rec paint.Record
		box := paint.R(0, 0, c.wide, c.tall)
		DrawSpeedCurve(NewBrush(&rec, look.Of(look.Night), look.SizeOf(c.w, c.h, 1)), box, s)
		var words []string
		var seen []paint.Rect
		for _, k := range rec.Texts() {
			q := textRoom(k)
			assert.True(t, box.Covers(q), "%q leaves the room", k.Text)
			for j, other := range seen {
				assert.False(t, q.Overlaps(other), "%q lies on %q", k.Text, words[j])
			}
			seen, words = append(seen, q), append(words, k.Text)
		}
		for _, w := range []string{"exact 234", "rule 237", "0", "25000", "160", "220"} {
			assert.Contains(t, words, w, strings.Join(words, " "))
		}
	}
	var rec paint.Record
	DrawSpeedCurve(NewBrush(&rec, look.Of(look.Paper), look.SizeOf(1280, 720, 1)), paint.R(0, 0, 500, 300), &SpeedCurve{LastFeet: 25000})
	assert.NotContains(t, rec.String(), "NaN")
}
