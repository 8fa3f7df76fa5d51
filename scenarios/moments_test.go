package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim"
)

func moment(at, name string) string { return fmt.Sprintf("[[moment]]\nat = %q\nname = %q\n", at, name) }

func TestNamedMoments(t *testing.T) {
	p, _, err := Load("f", strings.NewReader(edit("", moment("0s", "Off")+moment("90.01s", "On")+moment("48h", strings.Repeat("é", 60)))))
	require.NoError(t, err)
	assert.Equal(t, []sim.Moment{{At: 0, Name: "Off"}, {At: 1441, Name: "On"}, {At: 48 * 57600, Name: strings.Repeat("é", 60)}}, p.Moments,
		"times round up to a tick, and 60 characters are 60 whatever their bytes")
	p, _, err = Load("f", strings.NewReader(plainFlight))
	require.NoError(t, err)
	assert.Empty(t, p.Moments)
}

// Nine have a digit each; a tenth has none.
func TestNineMoments(t *testing.T) {
	some := func(n int) (s string) {
		for i := range n {
			s += moment(fmt.Sprintf("%dm", i), fmt.Sprint("number ", i))
		}
		return s
	}
	assert.NoError(t, check(plainFlight+some(9)))
	assert.EqualError(t, check(plainFlight+some(11)), "f:40: moment[10]: too many: must be 9 at most, one for each digit")
}

// Each shipped flight has moments a lecturer would go to: within the flight,
// none at the start, which Home goes to, and with names that tell them apart.
func TestMomentsOfTheShippedFlights(t *testing.T) {
	for _, s := range Shipped() {
		p, _, err := Open(s.Name)
		require.NoError(t, err)
		assert.True(t, len(p.Moments) >= 3 && len(p.Moments) <= 9, "%s has %d", s.Name, len(p.Moments))
		e, err := sim.New(p)
		require.NoError(t, err)
		for e.Advance(1<<20) > 0 {
		}
		names := map[string]bool{}
		for _, m := range p.Moments {
			assert.True(t, m.At > 0 && m.At < e.Tick(), "%s: %s at %v", s.Name, m.Name, sim.TimeOf(m.At))
			assert.False(t, names[m.Name], "%s: %s twice", s.Name, m.Name)
			names[m.Name] = true
		}
	}
}
