package airplot

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// bearingCases are the fixes of nav_radio_bearings.csv.
func bearingCases(t testing.TB) (cases []rows.Row) {
	for _, r := range table(t, "nav_radio_bearings.csv", 23) {
		if r.Text("case") == "fix from bearings taken in the aircraft" {
			cases = append(cases, r)
		}
	}
	require.Len(t, cases, 2)
	return cases
}

func TestBearingFixes(t *testing.T) {
	for _, r := range bearingCases(t) {
		require.Equal(t, "0.0005 deg position; 0.1 NM", r.Text("tolerance"))
		v, p := figures(t, r.Text("input"), 6), figures(t, r.Text("answer"), 2)
		var lines []Line
		for k := 0; k < 6; k += 3 {
			lines = append(lines, Line{Locus: Bearing{Station: units.At(v[k], v[k+1]), Bearing: angle(v[k+2]), Sigma: deg}})
		}
		found, err := Solve(units.At(p[0]+0.2, p[1]+0.3), lines)
		require.NoError(t, err)
		assertPlace(t, p[0], p[1], found[0].Position, 0.0005, r)
		assert.InDelta(t, 0, geodesy.Distance(units.At(p[0], p[1]), found[0].Position).NM(), 0.1, r)
	}
}

// TestBearingsLaidOffByTheRule: what the same bearings give on a Mercator chart,
// without and with the conversion angle, is printed in the file: 20 miles out,
// and a mile.
func TestBearingsLaidOffByTheRule(t *testing.T) {
	for _, r := range bearingCases(t) {
		v := figures(t, r.Text("input"), 6)
		p := figures(t, r.Text("answer"), 2)
		dr := units.At(p[0]+0.2, p[1]+0.3)
		plain, ruled := make([]Line, 2), make([]Line, 2)
		for k := range 2 {
			station, bearing := units.At(v[3*k], v[3*k+1]), angle(v[3*k+2])
			plain[k] = Line{Locus: Rhumb{Through: station, Course: bearing, Across: units.NM}}
			ruled[k] = Line{Locus: Rhumb{Through: station, Course: MercatorBearing(bearing, dr, station), Across: units.NM}}
		}
		want := figures(t, strings.SplitN(r.Text("detail"), "give ", 2)[1], 9)
		found, err := Solve(dr, plain)
		require.NoError(t, err)
		assertPlace(t, want[0], want[1], found[0].Position, 0.0005, r)
		// figures 3 to 5: 0.2 deg N and 0.3 deg E of the truth, and the miles out
		found, err = Solve(dr, ruled)
		require.NoError(t, err)
		assertPlace(t, want[5], want[6], found[0].Position, 0.0005, r)
	}
}

// hyperbolicCase is a row of nav_hyperbolic_fix.csv.
func hyperbolicCase(t testing.TB, r rows.Row) (c Chain, a, b TimeDifference) {
	t.Helper()
	station := func(column string) units.Position {
		v := figures(t, r.Text(column), 2)
		return units.At(v[0], v[1])
	}
	delay := figures(t, r.Text("coding_delay_us(A;B)"), 2)
	return Chain{
			Master: station("master"), A: station("secondary_A"), B: station("secondary_B"),
			DelayA: TimeDifference(delay[0]) * Microsecond, DelayB: TimeDifference(delay[1]) * Microsecond,
			Index: r.Float("refractive_index"),
		}, TimeDifference(r.Float("TD_A_us")) * Microsecond,
		TimeDifference(r.Float("TD_B_us")) * Microsecond
}

// TestHyperbolicFixes: every row of nav_hyperbolic_fix.csv: position, the other
// solution or that there is none within 1500 miles, lattice, ellipse.
func TestHyperbolicFixes(t *testing.T) {
	for _, r := range table(t, "nav_hyperbolic_fix.csv", 12) {
		require.Equal(t, "0.0005 deg, or 0.03 NM along the ellipse major axis beyond 300 NM; geometry 0.5 %", r.Text("tolerance"))
		chain, a, b := hyperbolicCase(t, r)
		place := units.At(r.Float("lat"), r.Float("lon"))
		near := onEllipsoid.moved(place, toward(units.Angle(1), 20*1852))
		found, err := chain.Fix(near, a, b, Microsecond)
		require.NoError(t, err, r)
		f, detail := found[0], r.Text("detail")
		if far := first(t, detail, ""); far > 300 {
			assert.InDelta(t, 0, geodesy.Distance(place, f.Position).NM(), 0.03, r)
		} else {
			assertPlace(t, place.Lat.Degrees(), place.Lon.Degrees(), f.Position, 0.0005, r)
		}
		assertOther(t, r, chain, found)

		lattice := chain.LatticeAt(f.Position, Microsecond, 0)
		assert.InEpsilon(t, first(t, detail, "moves the line"), lattice.ShiftA.NM(), 0.005, r)
		assert.InEpsilon(t, first(t, detail, "(A)"), lattice.ShiftB.NM(), 0.005, r)
		for _, e := range []Ellipse{f.Ellipse, lattice.Ellipse} {
			assert.InEpsilon(t, first(t, detail, "us errors"), e.Major.NM(), 0.005, r)
			assert.InEpsilon(t, first(t, detail, " x "), e.Minor.NM(), 0.005, r)
			assert.InEpsilon(t, first(t, detail, "DRMS"), e.DRMS().NM(), 0.005, r)
			assert.InDelta(t, 0, math.Remainder(e.Bearing.Degrees()-first(t, detail, "major axis"), 180), 0.5, r)
		}
		for _, cut := range []units.Angle{f.Cut, lattice.Cut} {
			assert.InEpsilon(t, first(t, detail, "lines cut at"), cut.Degrees(), 0.005, r)
		}
	}
}

func assertOther(t testing.TB, r rows.Row, chain Chain, found []Fix) {
	t.Helper()
	if r.Text("other_solution") == "none within 1500 NM" {
		for _, f := range found[1:] {
			assert.Greater(t, geodesy.Distance(chain.Master, f.Position).NM(), 1500.0, r)
		}
		return
	}
	other := figures(t, r.Text("other_solution"), 2)
	require.Len(t, found, 2, r)
	assertPlace(t, other[0], other[1], found[1].Position, 0.0005, r)
}

// TestLatticeGeometry: the plane geometry of nav_hyperbolic_geometry.csv.
func TestLatticeGeometry(t *testing.T) {
	for _, r := range table(t, "nav_hyperbolic_geometry.csv", 16) {
		require.Equal(t, "0.5 %", r.Text("tolerance"))
		between := angle(r.Float("angle_between_baselines_deg"))
		own := toward(angle(r.Float("receiver_bearing_from_bisector_deg")), r.Float("range_from_master"))
		// A lies on the side on which bearings from the bisector are positive:
		// the file's angles subtended say so
		see := func(side units.Angle, far float64) units.Angle {
			return toward(side*between/2, far).minus(own).direction()
		}
		base := r.Float("baseline")
		l := LatticeOf(see(0, 0), see(1, base), see(-1, base), SpeedOfLight,
			TimeDifference(r.Float("TD_error_us"))*Microsecond, r.Float("TD_error_correlation"))
		us := r.Float("TD_error_us")
		for column, got := range map[string]float64{
			"NM_per_us_A": l.ShiftA.NM() / us, "NM_per_us_B": l.ShiftB.NM() / us,
			"angle_subtended_A_deg": subtended(see(0, 0), see(1, base)),
			"angle_subtended_B_deg": subtended(see(0, 0), see(-1, base)),
			"crossing_angle_deg":    l.Cut.Degrees(),
			"sigma_major_NM":        l.Ellipse.Major.NM(), "sigma_minor_NM": l.Ellipse.Minor.NM(),
			"DRMS_NM": l.Ellipse.DRMS().NM(), "radius_95_NM": l.Ellipse.Radius(0.95).NM(),
		} {
			assert.InEpsilon(t, r.Float(column), got, 0.005, "%s %s", r, column)
		}
	}
}

func subtended(a, b units.Angle) float64 {
	return math.Abs(units.WrapHalf(a - b).Degrees())
}

// TestEllipseOfTwoLines: the crossing lines of nav_fix_statistics.csv are two
// tracks over the equator; "counted" as the file has it.
func TestEllipseOfTwoLines(t *testing.T) {
	n := 0
	for _, r := range table(t, "nav_fix_statistics.csv", 32) {
		if r.Text("quantity") != "two crossing position lines" {
			continue
		}
		n++
		require.Equal(t, "1e-3", r.Text("tolerance"))
		v := figures(t, strings.NewReplacer("s1=", "", "s2=", "").Replace(r.Text("input")), 4)
		track := func(normal, sigma float64) Line {
			return Line{Locus: Rhumb{Through: units.At(0, 0), Course: angle(normal + 90), Across: miles(sigma)}}
		}
		found, err := Solve(units.At(0.1, 0.1), []Line{track(0, v[0]), track(v[2], v[1])})
		require.NoError(t, err)
		e := found[0].Ellipse
		want := figures(t, strings.Replace(r.Text("answer"), "R95", "", 1), 5)
		assert.InDelta(t, want[0], e.Major.NM(), 1e-3, r)
		assert.InDelta(t, want[1], e.Minor.NM(), 1e-3, r)
		assert.InDelta(t, want[2], e.DRMS().NM(), 1e-3, r)
		assert.InDelta(t, want[3], e.Radius(0.5).NM(), 1e-3, r)
		assert.InDelta(t, want[4], e.Radius(0.95).NM(), 1e-3, r)
		if axis, has := strings.CutPrefix(r.Text("detail"), "major axis "); has {
			assert.InDelta(t, 0, math.Remainder(e.Bearing.Degrees()-first(t, axis, ""), 180), 0.02, r)
		}
	}
	assert.Equal(t, 6, n)
}

func TestLinesRefused(t *testing.T) {
	track := func(lat, course float64) Line {
		return Line{Locus: Rhumb{Through: units.At(lat, 0), Course: angle(course), Across: units.NM}}
	}
	_, err := Solve(units.At(0, 0), []Line{track(0, 0)})
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = Solve(units.At(0, 0), []Line{track(0, 0), {Locus: Bearing{Station: units.At(1, 1)}}})
	assert.ErrorIs(t, err, ErrNoSigma)

	var parallel *ParallelError
	_, err = Solve(units.At(0, 0), []Line{track(0, 40), track(0, 41.5)})
	require.ErrorAs(t, err, &parallel)
	assert.InDelta(t, 1.5, parallel.Cut.Degrees(), 0.001)
	assert.EqualError(t, err, "the position lines cut at 1.5 degrees only; a fix takes 2 at least")
	_, err = Solve(units.At(0, 0), []Line{track(1, 90), track(-1, 90)})
	assert.ErrorAs(t, err, &parallel, "two parallels never meet")

	pair := Pair{Master: units.At(0, 0), Secondary: units.At(0, 1), Delay: 100 * Microsecond}
	var beyond *ChainError
	_, err = Solve(units.At(1, 1), []Line{track(0, 0), {Locus: Hyperbola{pair, 99 * Microsecond, Microsecond}}})
	require.ErrorAs(t, err, &beyond)
	// a degree of the equator is 111319.49 m (units of WGS-84), twice that at the speed of light
	assert.InDelta(t, 100, beyond.Low.Microseconds(), 1e-6)
	assert.InDelta(t, 100+2*111319.4908/299.792458, beyond.High.Microseconds(), 1e-6)
	assert.ErrorContains(t, err, "a time difference of 99 us cannot be received")

	circle := func(lon float64) Line {
		return Line{Locus: Altitude{GHA: angle(-lon), Observed: 80 * deg, Sigma: units.ArcMinute}}
	}
	for _, lat := range []float64{0, 5, -20} {
		_, err = Solve(units.At(lat, 15), []Line{circle(0), circle(30)})
		assert.ErrorIs(t, err, ErrNoMeet)
	}
}

// TestNear: the straight piece of a bearing line of 090 through a station on the
// equator to the east runs along the equator, as far off as the DR position is.
func TestNear(t *testing.T) {
	l := Line{Locus: Bearing{Station: units.At(0, 10), Bearing: 90 * deg, Sigma: deg}}
	s, err := l.Near(units.At(0.5, 8))
	require.NoError(t, err)
	assertPlace(t, 0, 8, s.Point, 0.01)
	assert.InDelta(t, 90, math.Mod(s.Bearing.Degrees(), 180), 0.01)
	// 1.745 NM per degree at 100 NM (navigation note, section 3)
	assert.InDelta(t, 0.01745*geodesy.Distance(s.Point, units.At(0, 10)).NM(), s.Sigma.NM(), 0.01)
}

// TestTraceStaysOnItsCurve: every point of a trace reads what was read, and the
// points are about evenly spaced.
func TestTraceStaysOnItsCurve(t *testing.T) {
	pair := Pair{Master: units.At(-47, 179.5), Secondary: units.At(-46, 178)}
	dr := units.At(-46.5, -179.5)
	for _, l := range []Line{
		{Locus: Bearing{Station: units.At(-48, 178), Bearing: 220 * deg, Sigma: deg}},
		{Locus: Altitude{GHA: 185 * deg, Declination: -20 * deg, Observed: 64 * deg, Sigma: units.ArcMinute}},
		{Locus: Hyperbola{pair, 900 * Microsecond, Microsecond}},
		{Locus: Rhumb{Through: dr, Course: 75 * deg, Across: units.NM}, Run: Run{30 * deg, 40 * units.NM}},
	} {
		points, err := l.Trace(dr, 90*units.NM, 9)
		require.NoError(t, err)
		require.Len(t, points, 19)
		for i, p := range points {
			assert.InDelta(t, 0, l.departure(p)/l.Locus.sigma(l.metric().gradient(l, p).size()), 1e-6)
			if i > 0 {
				assert.InDelta(t, 10, geodesy.Distance(points[i-1], p).NM(), 0.3)
			}
		}
	}
}

// TestTransferredLines: a pinpoint run on is where the run ends.
func TestTransferredLines(t *testing.T) {
	from := units.At(-47, 179.5)
	r := RunOver(60*deg, knots(180), 20*time.Minute)
	pin := Pinpoint(from, units.NM, time.Time{}, "Gannet Rock")
	assert.Equal(t, PinpointKind, pin[0].Locus.Kind())
	for i := range pin {
		once, ok := pin[i].Transferred(Run{60 * deg, 20 * units.NM})
		require.True(t, ok)
		pin[i], ok = once.Transferred(Run{60 * deg, 40 * units.NM})
		require.True(t, ok)
		_, ok = pin[i].Transferred(Run{61 * deg, units.NM})
		assert.False(t, ok)
	}
	want, err := geodesy.RhumbDirect(from, 60*deg, 60*units.NM)
	require.NoError(t, err)
	assert.InDelta(t, 60, r.Distance.NM(), 1e-12)
	found, err := Solve(from, pin[:])
	require.NoError(t, err)
	assert.InDelta(t, 0, geodesy.Distance(want, found[0].Position).Metres(), 0.01)
}

// TestCockedHat: three lines a mile outward of a place over the equator, 120
// degrees apart, make an equilateral triangle of height 3 and area 9/sqrt(3);
// equal weights put the fix in its middle.
func TestCockedHat(t *testing.T) {
	var lines []Line
	for k := range 3 {
		out := angle(float64(k) * 120)
		at, err := geodesy.RhumbDirect(units.At(0, 100), out, units.NM)
		require.NoError(t, err)
		lines = append(lines, Line{Locus: Rhumb{Through: at, Course: out + 90*deg, Across: units.NM}})
	}
	found, err := Solve(units.At(0.1, 100.1), lines)
	require.NoError(t, err)
	assertPlace(t, 0, 100, found[0].Position, 1e-5)
	hat, err := CockedHat(found[0].Position, [3]Line(lines))
	require.NoError(t, err)
	assert.InDelta(t, 9/math.Sqrt(3), hat.AreaNM2, 0.001)
	for _, c := range hat.Corners {
		assert.InDelta(t, 2, geodesy.Distance(c, units.At(0, 100)).NM(), 0.001)
	}
	lines[1] = lines[0]
	_, err = CockedHat(found[0].Position, [3]Line(lines))
	assert.Error(t, err)
}
