package papers

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/integrator"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Each row of a card of a service compass (B = 1, C = -0.5: mech_service.csv)
// satisfies steer + deviation(steer) = for, to the rounding of what is printed:
// half a degree in steer, a twentieth in the deviation.
func TestCardRowsHold(t *testing.T) {
	p := *plan(t, "first-look")
	p.Mechanism.Class = integrator.Service
	pages := Deviation(&p)
	require.Len(t, pages, 1)
	words := texts(A4, pages[0])
	rows := 0
	for i := 0; i+2 < len(words); i++ {
		if len(words[i]) != 3 || len(words[i+1]) != 3 || !isFigures(words[i]) || !isFigures(words[i+1]) || !isDeviation(words[i+2]) {
			continue
		}
		rows++
		forM, steer := number(t, words[i]), number(t, words[i+1])
		dev := signed(t, words[i+2])
		s, c := math.Sincos(steer * math.Pi / 180)
		assert.InDelta(t, 1*s-0.5*c, dev, 0.05+0.01, "%v", words[i:i+3])
		assert.InDelta(t, 0, units.WrapHalfDegrees(steer+dev-forM), 0.56, "%v", words[i:i+3])
	}
	assert.Equal(t, 24, rows, "a row each 15 degrees")
}

func isFigures(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

func isDeviation(s string) bool { return s == "0.0" || s[len(s)-1] == 'E' || s[len(s)-1] == 'W' }

func signed(t *testing.T, s string) float64 {
	if s[len(s)-1] == 'W' {
		return -first(t, s)
	}
	return first(t, s)
}

// What the flight breaks is not on the card: it would tell the trainee.
func TestCardDoesNotKnowTheFaults(t *testing.T) {
	page := Deviation(plan(t, "after-the-swing"))[0].(DeviationPage)
	for _, r := range page.Card {
		assert.InDelta(t, 0, units.WrapHalfDegrees(r.Steer.Degrees()-r.For.Degrees()), 1e-9)
	}
}

// A card of a swing in flight says what it rests on and has the readings in its form, the
// newest if there are many, and all on the page.
func TestCardOfASwing(t *testing.T) {
	var swing [][]string
	for i := range 14 {
		swing = append(swing, []string{"045", "085.0T", "20.0 E", "065", "1" + string(rune('A'+i))})
	}
	page := SwungPage("A flight, 1957", "8 headings", airplot.Coefficients{A: units.Degree}, swing)
	words := texts(A4, page)
	for _, want := range []string{"A flight, 1957", "8 headings", "085.0T", "1N"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "1A", "there is no room for fourteen")
	assert.NotContains(t, words, look.Text(look.PaperCardNote))
}
