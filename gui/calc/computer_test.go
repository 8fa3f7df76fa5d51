package calc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// Closed form of a scale of one decade: 360 degrees for a factor of ten, nothing for
// the value at the top, and a ratio is a turn.
func TestRingAngles(t *testing.T) {
	assert.Zero(t, RingAngle(178, 178))
	assert.InDelta(t, 360, RingAngle(1780, 178), 1e-9)
	assert.InDelta(t, 360*math.Log10(200.0/178), RingAngle(200, 178), 1e-12)
	assert.InDelta(t, 108.371, RingAngle(200, 100), 1e-3, "360 log10 2 = 360 x 0.301030")
	assert.InDelta(t, -108.371, RingAngle(100, 200), 1e-3)
	c := NewComputer()
	assert.InDelta(t, RingAngle(c.TAS().Knots(), 178), RingAngle(c.CAS().Knots(), 178)+c.RingDegrees(), 1e-9,
		"turned so far, the brass ring has the calibrated airspeed under the true one")
}

// The example is that of the drawing of this screen (158.2 and 183.5, worked there by
// a script of its own).
func TestTheExampleOfTheComputer(t *testing.T) {
	c := NewComputer()
	assert.Equal(t, Readings{CAS: "158.2", TAS: "178.0", Rule: "183.5", Height: "8000", Temperature: "-0.8"}, c.Readings())
	assert.Equal(t, "the rule is 5.5 kt high here,\n5.5 NM in an hour", c.Difference())
	assert.Equal(t, "standard day", c.Day())
	require.NoError(t, c.TypeTemperature("−20"))
	assert.Equal(t, "19.2 C colder than standard", c.Day())
	require.NoError(t, c.TypeTemperature("30 C"))
	assert.Equal(t, "30.8 C warmer than standard", c.Day())
	assert.Contains(t, c.Difference(), "kt low here")
	require.NoError(t, c.TypeHeight("0 ft"))
	require.NoError(t, c.TypeTemperature("15"))
	assert.Equal(t, "the rule agrees here to a tenth of a knot", c.Difference())
	assert.InDelta(t, c.CAS().Knots(), c.TAS().Knots(), 1e-9, "standard sea level")
	require.NoError(t, c.TypeTAS("200 kt"))
	assert.InDelta(t, 200, c.TAS().Knots(), 1e-9)
	require.NoError(t, c.TypeCAS("150"))
	assert.Equal(t, 150*units.Knot, c.CAS())
}

func TestWhatTheComputerRefuses(t *testing.T) {
	c := NewComputer()
	before := *c
	for reason, try := range map[string]func() error{
		`"high" is not a number`:                         func() error { return c.TypeHeight("high") },
		"The height must lie between -1000 and 40000 ft": func() error { return c.TypeHeight("40001") },
		"between -60.8 and 59.2 C":                       func() error { return c.TypeTemperature("60") },
		"The rings reach from 60 to 600 kt":              func() error { return c.TypeCAS("59") },
		"from 60 to 600 kt, calibrated and true":         func() error { return c.TypeTAS("601") },
		"faster than sound": func() error {
			d := *c
			require.NoError(t, d.SetHeight(30000*units.Foot))
			return d.SetTAS(595 * units.Knot)
		},
	} {
		assert.ErrorContains(t, try(), reason)
	}
	assert.Equal(t, before, *c)
}

// Turning the ring: the true airspeed grows by the factor of the turn, whatever the
// state, unless an end is reached; there and back is where it was.
func TestTurningTheRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := NewComputer()
		require.NoError(t, c.SetCAS(units.Speed(kt(t, 90, 300))*units.Knot))
		if err := c.SetHeight(units.Length(kt(t, 0, 30000)) * units.Foot); err != nil {
			t.Skip("too fast")
		}
		before, by := *c, rapid.Float64Range(-60, 60).Draw(t, "turn")
		c.Turn(by)
		require.NoError(t, c.check())
		require.Equal(t, before.cas, c.cas)
		ft := c.Height().Feet()
		if c.mach() < 0.9999 && c.TAS().Knots() < 599.99 && ft > lowestFeet+0.01 && ft < highestFeet-0.01 {
			require.InDelta(t, by, RingAngle(c.TAS().Knots(), before.TAS().Knots()), 1e-6)
			c.Turn(-by)
			require.InDelta(t, before.Height().Feet(), c.Height().Feet(), 1e-3)
		}
	})
	c := NewComputer()
	c.StepTAS(1)
	assert.InDelta(t, 179, c.TAS().Knots(), 1e-9)
	assert.Equal(t, 178*units.Knot, c.Top(), "the fixed ring stays")
	c.Turn(-90)
	assert.InDelta(t, -1000, c.Height().Feet(), 1e-6)
	c.Turn(300)
	assert.InDelta(t, 40000, c.Height().Feet(), 1e-6)
	require.NoError(t, c.SetHeight(0))
	require.NoError(t, c.SetCAS(450*units.Knot))
	c.Turn(90)
	assert.LessOrEqual(t, c.mach(), 1.0)
	assert.InDelta(t, 600, c.TAS().Knots(), 1e-6, "the end of the ring")
}

func TestCurve(t *testing.T) {
	c := NewComputer()
	all := c.Curve()
	require.Len(t, all, 51)
	assert.Equal(t, CurveFeet*1.0, all[50].Feet)
	assert.InDelta(t, c.CAS().Knots()*1.5, all[50].Rule, 1e-9)
	assert.InDelta(t, 178, all[16].Exact, 1e-9)
	// the drawing of this screen, worked by a script of its own: 234 and 237 kt
	assert.Equal(t, []string{"234", "237"}, []string{units.Figure(all[50].Exact, 0), units.Figure(all[50].Rule, 0)})
	require.NoError(t, c.SetHeight(0))
	require.NoError(t, c.SetCAS(500*units.Knot))
	assert.Less(t, len(c.Curve()), 51, "it ends at the speed of sound")
}
