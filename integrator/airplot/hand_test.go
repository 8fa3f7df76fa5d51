package airplot

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Worked by hand on the plane at 47 S, where a minute of latitude is 1852.8 m and one of
// longitude 1267.6 m (radii of curvature of WGS-84 by slide rule: 6369.6 km and 6389.6 km
// times the cosine 0.68200).
const (
	latMinute = 1852.8 / 1852.0 // NM
	lonMinute = 1267.6 / 1852.0
)

// spot is a place so many miles north and east of 47 S 180.
func spot(north, east float64) units.Position {
	return units.Position{
		Lat: -47*deg + units.Angle(north/latMinute)*units.ArcMinute,
		Lon: units.WrapHalf(180*deg + units.Angle(east/lonMinute)*units.ArcMinute),
	}
}

// TestALineDrawnByHand: the worked line runs east through the origin; the pencil crosses
// the meridian of the DR position, 6 NM east, 1.3 NM north of it, and runs 088: two
// degrees anticlockwise.
func TestALineDrawnByHand(t *testing.T) {
	worked := Line{Locus: Rhumb{Through: spot(0, 0), Course: 90 * deg, Across: units.NM}}
	slope := math.Tan(2 * math.Pi / 180)
	hand := PencilLine{spot(1.3-26*slope, -20), spot(1.3+14*slope, 20)}
	for _, h := range []PencilLine{hand, {hand.To, hand.From}} { // a line has no direction
		c, err := CheckLine(h, worked, spot(0, 6))
		require.NoError(t, err)
		// the foot of the perpendicular from the DR position lies 1.3 sin 2 = 0.05 NM
		// west of it: 1.3 cos^2 2 = 1.298 NM north
		assert.InDelta(t, 1.298, c.Off.NM(), 0.005)
		assertDirection(t, 0, c.True, 0.3)
		assert.InDelta(t, -2, c.Turned.Degrees(), 0.2, "the meridians do not run together on the plane")
	}
	// what lies beyond the end of the pencil is measured at its end
	c, err := CheckLine(hand, worked, spot(0, 300))
	require.NoError(t, err)
	assert.Less(t, geodesy.Distance(c.At, hand.To).NM(), 0.001)
}

// TestARunDrawnByHand: 3 NM north, 4 NM east is 053.13T for 5 NM; the hand has 5 NM east
// instead: 36.87 degrees to the right, as long, and it ends 3 NM south and 1 NM east of
// the worked end: 3.162 NM 161.57T.
func TestARunDrawnByHand(t *testing.T) {
	c := CheckRun(PencilLine{spot(0, 0), spot(0, 5)}, PencilLine{spot(0, 0), spot(3, 4)})
	assert.InDelta(t, 36.87, c.Turned.Degrees(), 0.05)
	assert.InDelta(t, 0, c.Longer.NM(), 0.005)
	assert.InDelta(t, 0, c.Begins.Off.NM(), 1e-9)
	assert.InDelta(t, math.Sqrt(10), c.Ends.Off.NM(), 0.005)
	assertDirection(t, 161.57, c.Ends.True, 0.05)
	none := CheckRun(PencilLine{spot(0, 0), spot(0, 0)}, PencilLine{spot(0, 0), spot(3, 4)})
	assert.Zero(t, none.Turned)
	assert.InDelta(t, -5, none.Longer.NM(), 0.01)
}

// TestAFixDrawnByHand: two lines through 2 NM north, 1 NM east cross there; the worked fix
// is the origin: 2.236 NM 026.57T. A third line, 3 NM east of the crossing and running
// north, beside one running north through it: least squares puts the fix between.
func TestAFixDrawnByHand(t *testing.T) {
	east := PencilLine{spot(2, -20), spot(2, 15)}
	north := PencilLine{spot(-14, 1), spot(18, 1)}
	fix, err := HandFix(spot(5, -5), []PencilLine{east, north})
	require.NoError(t, err)
	c := CheckPlace(fix, spot(0, 0))
	assert.InDelta(t, math.Sqrt(5), c.Off.NM(), 0.005)
	assertDirection(t, 26.57, c.True, 0.1)
	third := PencilLine{spot(-14, 4), spot(18, 4)}
	fix, err = HandFix(spot(5, -5), []PencilLine{east, north, third})
	require.NoError(t, err)
	c = CheckPlace(fix, spot(2, 2.5))
	assert.Less(t, c.Off.NM(), 0.01)
	_, err = HandFix(spot(0, 0), []PencilLine{north, third})
	var parallel *ParallelError
	assert.ErrorAs(t, err, &parallel)
	_, err = HandFix(spot(0, 0), []PencilLine{north})
	assert.ErrorIs(t, err, ErrTooFew)
	assert.Zero(t, CheckPlace(fix, fix).True)
}

// TestAWindDrawnByHand: rows of nav_air_plot.csv. The vector from the air position of a row
// to its ground position gives the wind that the row has found; it is held against the wind
// that blew, and the vector between the two is worked by the rule of cosines.
func TestAWindDrawnByHand(t *testing.T) {
	n := 0
	for _, r := range table(t, "nav_air_plot.csv", 11) {
		if strings.HasPrefix(r.Text("case"), "published, plane vectors") {
			continue
		}
		n++
		hand := PencilLine{units.At(r.Float("air_lat"), r.Float("air_lon")), units.At(r.Float("ground_lat"), r.Float("ground_lon"))}
		from, speed := r.Float("wind_from_deg"), r.Float("wind_kt")
		found, kt := r.Float("wind_found_from_deg"), r.Float("wind_found_kt")
		c, err := CheckWind(hand, hours(r.Float("elapsed_h")), units.Wind{From: angle(from), Speed: knots(speed)})
		require.NoError(t, err)
		assertWind(t, found, kt, c.Wind, 0.001, 0.001, r)
		veered := math.Remainder(found-from, 360)
		if speed > 0 {
			assert.InDelta(t, veered, c.Veered.Degrees(), 0.001, r)
		}
		assert.InDelta(t, kt-speed, c.Faster.Knots(), 0.001, r)
		gap := math.Sqrt(kt*kt + speed*speed - 2*kt*speed*math.Cos(veered*math.Pi/180))
		assert.InDelta(t, gap, c.Apart.Knots(), 0.003, r)
	}
	assert.Positive(t, n)
	_, err := CheckWind(PencilLine{}, 0, units.Wind{})
	assert.ErrorIs(t, err, ErrNoTime)
}

// TestWhatIsGranted: a millimetre of a chart on which it is 1.2 NM; 2 degrees, or what a
// millimetre at either end turns a line of 20 NM by: atan(2.4/20) = 6.84 degrees.
func TestWhatIsGranted(t *testing.T) {
	mm := miles(1.2)
	long := AllowanceFor(mm, PencilLine{spot(0, 0), spot(0, 120)})
	assert.InDelta(t, 1.2, long.Off.NM(), 1e-12)
	assert.InDelta(t, 2, long.Turned.Degrees(), 1e-9)
	short := AllowanceFor(mm, PencilLine{spot(0, 0), spot(20, 0)})
	assert.InDelta(t, 6.84, short.Turned.Degrees(), 0.01)

	line := func(off, turned float64) LineCheck {
		return LineCheck{Apart: Apart{Off: miles(off)}, Turned: angle(turned)}
	}
	assert.True(t, long.Grants(line(1.2, -2)))
	assert.False(t, long.Grants(line(1.21, 0)))
	assert.False(t, long.Grants(line(0, -2.01)))
	assert.True(t, long.GrantsRun(RunCheck{Ends: Apart{Off: miles(1.2)}}))
	assert.False(t, long.GrantsRun(RunCheck{Begins: Apart{Off: miles(1.3)}}))
	assert.False(t, long.GrantsRun(RunCheck{Ends: Apart{Off: miles(1.3)}}))
	// two millimetres are 2.4 NM, over half an hour 4.8 kt
	assert.True(t, long.GrantsWind(WindCheck{Apart: knots(4.79)}, 30*time.Minute))
	assert.False(t, long.GrantsWind(WindCheck{Apart: knots(4.81)}, 30*time.Minute))
	// two lines square to one another may put the fix root 2 off, at 30 degrees twice that
	assert.InDelta(t, 1.697, long.OfFix(90*deg).NM(), 0.001)
	assert.InDelta(t, 3.394, long.OfFix(30*deg).NM(), 0.001)
}

// A line laid exactly on the worked one is not off and not turned, wherever it is; moved
// square off it, it is off by as much.
func TestALineLaidRightIsNotOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := somewhere(t)
		course := drawAngle(t, "course", 0, 360)
		off := units.Length(rapid.Float64Range(0, 20).Draw(t, "off")) * units.NM
		side := units.Wrap(course + math.Pi/2)
		moved, err := geodesy.RhumbDirect(at, side, off)
		require.NoError(t, err)
		from, err := geodesy.RhumbDirect(moved, course, -15*units.NM)
		require.NoError(t, err)
		to, err := geodesy.RhumbDirect(moved, course, 15*units.NM)
		require.NoError(t, err)
		c, err := CheckLine(PencilLine{from, to}, Line{Locus: Rhumb{Through: at, Course: course, Across: units.NM}}, at)
		require.NoError(t, err)
		assert.InDelta(t, off.NM(), c.Off.NM(), 0.02)
		assert.InDelta(t, 0, c.Turned.Degrees(), 0.5)
	})
}
