package sky

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// How far the places may stand from ERFA 2.0.0.1 (stars and Sun) and the full
// ELP-2000/82 (Moon), 1900 to 2030, in seconds of arc on the sky; the test below
// logs what they are: 0.12, 0.74 and 7.9.
const (
	starWithin  = 0.3
	sunWithin   = 1.8 // 0.0005 deg, the tolerance of the reference rows
	moonUsually = 3.1 // root mean square
	moonWithin  = 8.2 // 0.003 deg; design 6.3 asks for 0.02
)

func instant(t testing.TB, text string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return at
}

// off is the signed difference of two angles in degrees, in seconds of arc.
func off(got units.Angle, wantDegrees float64) float64 {
	return units.WrapHalfDegrees(got.Degrees()-wantDegrees) * 3600
}

// apart is how far two places stand apart on the sky, in seconds of arc.
func apart(ra, dec units.Angle, wantRA, wantDec float64) float64 {
	return math.Hypot(off(ra, wantRA)*math.Cos(dec.Radians()), off(dec, wantDec))
}

func body(t testing.TB, name string) Body {
	t.Helper()
	b, err := Lookup(name)
	require.NoError(t, err)
	return b
}

// worst is the greatest difference met, by kind of body.
type worst struct{ star, sun, moon float64 }

func (w *worst) of(b Body) (greatest *float64, within float64) {
	switch b {
	case Sun:
		return &w.sun, sunWithin
	case Moon:
		return &w.moon, moonWithin
	}
	return &w.star, starWithin
}

// 126 instants over the whole span, Sun, Moon and three stars at each, so that
// every star comes several times.
func TestApparentPlacesOverTheSpan(t *testing.T) {
	var w worst
	met := map[Body]int{}
	squares := 0.0 // of the Moon's
	for _, r := range rows.Read(t, "testdata/apparent_computed.csv") {
		b := body(t, r.Text("body"))
		met[b]++
		s := At(instant(t, r.Text("utc")))
		assert.InDelta(t, 0, off(s.Aries(), r.Float("gast_deg")), 0.36, "%s: GAST", r) // 1e-4 deg between formula sets
		gha, dec := s.Place(b)
		greatest, within := w.of(b)
		miss := apart(gha, dec, r.Float("gha_deg"), r.Float("dec_deg"))
		assert.LessOrEqual(t, miss, within, "%s: %s", r, b)
		*greatest = math.Max(*greatest, miss)
		switch b {
		case Sun:
			assert.InDelta(t, r.Float("distance"), s.sunAU, 1e-5, "%s: au", r)
		case Moon:
			squares += miss * miss
			assert.InDelta(t, r.Float("distance"), s.moonFar.Kilometres(), 20, "%s: km", r)
		}
	}
	assert.Len(t, met, Count, "every body")
	moonUsual := math.Sqrt(squares / float64(met[Moon]))
	assert.LessOrEqual(t, moonUsual, moonUsually)
	t.Logf("Moon usually %.2f\"", moonUsual)
	t.Logf("greatest: stars %.2f\", Sun %.2f\", Moon %.1f\"", w.star, w.sun, w.moon)
}
