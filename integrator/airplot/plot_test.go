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

func hours(h float64) time.Duration { return time.Duration(math.Round(h * float64(time.Hour))) }

// legsOf reads "0@160x0.5 + 120@160x0.5".
func legsOf(t testing.TB, r rows.Row) (legs []Leg) {
	t.Helper()
	for _, s := range strings.Split(r.Text("legs(true_heading_deg@TAS_kt for hours)"), " + ") {
		v := figures(t, s, 3)
		legs = append(legs, Leg{units.TrueHeading(angle(v[0])), knots(v[1]), hours(v[2])})
	}
	return legs
}

// TestAirPlots: every row of nav_air_plot.csv: air position, the ground position
// carried leg by leg, the wind found, and the DR position with that wind.
func TestAirPlots(t *testing.T) {
	for _, r := range table(t, "nav_air_plot.csv", 11) {
		wind := units.Wind{From: angle(r.Float("wind_from_deg")), Speed: knots(r.Float("wind_kt"))}
		legs, elapsed := legsOf(t, r), hours(r.Float("elapsed_h"))
		if strings.HasPrefix(r.Text("case"), "published, plane vectors") {
			// track 045, 55 NM in 15 minutes: drift 7 left, groundspeed 220
			require.Equal(t, "0.05 deg; 0.05 kt", r.Text("tolerance"))
			got := WindFromTrack(legs[0].Heading, legs[0].TAS, -7*deg, knots(220))
			assertWind(t, 92.28, 41.47, got, 0.05, 0.05, r)
			continue
		}
		require.True(t, strings.HasPrefix(r.Text("tolerance"), "1e-6 deg position; 0.001 deg, 0.001 kt rhumb wind"), r)
		start := units.At(r.Float("start_lat"), r.Float("start_lon"))
		air, err := AirPosition(units.AirPosition(start), legs)
		require.NoError(t, err)
		assertPlace(t, r.Float("air_lat"), r.Float("air_lon"), units.Position(air), 1e-6, r)

		ground := units.GroundPosition(start)
		for _, l := range legs {
			track, speed := TrackMade(l.Heading, l.TAS, wind)
			ground, err = NewDR(ground, track, speed, l.Elapsed)
			require.NoError(t, err)
		}
		assertPlace(t, r.Float("ground_lat"), r.Float("ground_lon"), units.Position(ground), 1e-6, r)

		found, err := WindFound(air, ground, elapsed)
		require.NoError(t, err)
		assertWind(t, r.Float("wind_found_from_deg"), r.Float("wind_found_kt"), found, 0.001, 0.001, r)
		dr, err := DRPosition(air, found, elapsed)
		require.NoError(t, err)
		assertPlace(t, r.Float("ground_lat"), r.Float("ground_lon"), units.Position(dr), 1e-6, r)
	}
}

// driftTolerance is that of the rows with observed drifts: degrees, knots, and
// of the linear form where that is printed.
var driftTolerance = map[string][3]float64{
	"0.5 deg; 1 kt": {0.5, 1}, "0.01 deg; 0.01 kt": {0.01, 0.01}, "0.2 deg; 0.5 kt": {0.2, 0.5},
	"0.05 deg, 0.05 kt for angular least squares; 0.5 for the linear form": {0.05, 0.05, 0.5},
	"0.01 deg, 0.01 kt angular; linear form 0.01":                          {0.01, 0.01, 0.01},
}

// TestDriftAndWind: every row of nav_drift_wind.csv.
func TestDriftAndWind(t *testing.T) {
	counts := map[string]int{}
	for _, r := range table(t, "nav_drift_wind.csv", 19) {
		switch method := r.Text("method"); {
		case strings.Contains(method, "headings"):
			counts["drifts"]++
			assertDrifts(t, r)
		case method == "drift + groundspeed":
			counts["track"]++
			require.Equal(t, "0.001", r.Text("tolerance"))
			v := figures(t, r.Text("observations"), 3)
			got := WindFromTrack(units.TrueHeading(angle(v[0])), knots(r.Float("TAS_kt")), angle(v[1]), knots(v[2]))
			assertWind(t, r.Float("answer_1"), r.Float("answer_2"), got, 0.001, 0.001, r)
		case strings.HasPrefix(method, "groundspeed by timing"):
			counts["groundspeed"]++
			require.Equal(t, "0.001 kt", r.Text("tolerance"))
			v := figures(t, r.Text("observations"), 4)
			got, err := GroundspeedByTiming(units.Length(v[0])*units.Foot, angle(v[1]), angle(v[2]), hours(v[3]/3600))
			require.NoError(t, err)
			assert.InDelta(t, r.Float("answer_1"), got.Knots(), 0.001, r)
		default:
			counts["timing"]++
			assertTimedDrift(t, r)
		}
	}
	assert.Equal(t, map[string]int{"drifts": 11, "track": 4, "groundspeed": 1, "timing": 3}, counts)
}

func assertDrifts(t *testing.T, r rows.Row) {
	t.Helper()
	tol, known := driftTolerance[r.Text("tolerance")]
	require.True(t, known, r)
	var readings []Drift
	for _, s := range strings.Fields(r.Text("observations")) {
		v := figures(t, s, 2)
		readings = append(readings, Drift{units.TrueHeading(angle(v[0])), knots(r.Float("TAS_kt")), angle(v[1])})
	}
	wind, rms, err := WindFromDrifts(readings)
	require.NoError(t, err, r)
	assertWind(t, r.Float("answer_1"), r.Float("answer_2"), wind, tol[0], tol[1], r)
	note := r.Text("note")
	if strings.Contains(note, "rms") {
		assert.InDelta(t, first(t, note, "residual"), rms.Degrees(), 0.0006, r)
	}
	if mark := "linear"; strings.Contains(note, mark) {
		line, err := driftLines(readings)
		require.NoError(t, err)
		v := figures(t, after(t, note, mark), 2)
		got := units.WindOf(units.Speed(line.north), units.Speed(line.east))
		assertWind(t, v[0], v[1], got, math.Max(tol[2], 0.006), math.Max(tol[2], 0.006), r)
	}
}

// assertTimedDrift works a row for an object to starboard, and its mirror image
// to port.
func assertTimedDrift(t *testing.T, r rows.Row) {
	t.Helper()
	require.Equal(t, "0.005 deg", r.Text("tolerance"))
	v := figures(t, r.Text("observations"), 6)
	for _, port := range []bool{false, true} {
		d, err := DriftByTiming(hours(v[0]/3600), hours(v[3]/3600), port)
		require.NoError(t, err)
		want := r.Float("answer_1")
		if port {
			want = -want
		}
		assert.InDelta(t, want, d.Degrees(), 0.005, r)
	}
}

func TestWindFindingRefused(t *testing.T) {
	_, err := WindFound(units.AirPosition{}, units.GroundPosition{}, 0)
	assert.ErrorIs(t, err, ErrNoTime)
	_, err = DriftByTiming(0, time.Second, false)
	assert.ErrorIs(t, err, ErrNoTime)
	_, err = GroundspeedByTiming(units.Foot, deg, 0, 0)
	assert.ErrorIs(t, err, ErrNoTime)

	one := Drift{0, knots(150), 5 * deg}
	_, _, err = WindFromDrifts([]Drift{one})
	assert.ErrorIs(t, err, ErrTooFewDrifts)
	_, _, err = WindFromDrifts([]Drift{one, {1, 0, 0}})
	assert.ErrorIs(t, err, ErrDrift)
	var parallel *ParallelError
	_, _, err = WindFromDrifts([]Drift{one, {units.TrueHeading(deg), knots(150), 5 * deg}})
	require.ErrorAs(t, err, &parallel)
	assert.InDelta(t, 1, parallel.Cut.Degrees(), 1e-9)

	still, err := WindFound(units.AirPosition{}, units.GroundPosition{}, time.Hour)
	assert.NoError(t, err)
	assert.Equal(t, units.Wind{}, still)
}

// TestOneInSixty: every row of nav_one_in_sixty.csv, rule and exact.
func TestOneInSixty(t *testing.T) {
	tolerances := map[string]float64{"0.05": 0.05, "0.5": 0.5, "0.0005": 0.0005}
	for _, r := range table(t, "nav_one_in_sixty.csv", 9) {
		tol, known := tolerances[r.Text("tolerance")]
		require.True(t, known, r)
		toGo := math.Inf(1)
		if r.Has("distance_to_go_NM") {
			toGo = r.Float("distance_to_go_NM")
		}
		run, off := miles(r.Float("distance_run_NM")), miles(r.Float("distance_off_NM"))
		rule, exact := OneInSixty(run, off, miles(toGo)), ExactTrackError(run, off, miles(toGo))
		assert.InDelta(t, first(t, r.Text("track_error_deg_1in60"), ""), rule.Error.Degrees(), tol, r)
		assert.InDelta(t, r.Float("track_error_exact_atan_deg"), exact.Error.Degrees(), 0.0005, r)
		if math.IsInf(toGo, 1) {
			continue
		}
		assert.InDelta(t, r.Float("closing_angle_deg_1in60"), rule.Closing.Degrees(), tol, r)
		assert.InDelta(t, r.Float("closing_angle_exact_atan_deg"), exact.Closing.Degrees(), 0.0005, r)
		if total := r.Text("total_correction_deg_1in60"); total == "12 (5+7 rounded)" {
			tol = 0.5 // each part rounded to a degree
		}
		assert.InDelta(t, first(t, r.Text("total_correction_deg_1in60"), ""), rule.Alter.Degrees(), tol, r)
	}
}

// TestToDestination: a passage of 120 miles down a meridian against a wind of 30
// knots from ahead at 150 takes an hour on 180; one with the wind on the beam
// crabs by asin(30/150).
func TestToDestination(t *testing.T) {
	from := units.GroundPosition(units.At(-47, 179.9))
	to, err := geodesy.RhumbDirect(units.At(-47, 179.9), 180*deg, 120*units.NM)
	require.NoError(t, err)
	p, err := ToDestination(from, units.GroundPosition(to), knots(150), units.Wind{From: 180 * deg, Speed: knots(30)})
	require.NoError(t, err)
	assert.InDelta(t, 180, p.Track.Degrees(), 1e-9)
	assert.InDelta(t, 120, p.Distance.NM(), 1e-9)
	assert.InDelta(t, 180, p.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 120, p.Groundspeed.Knots(), 1e-9)
	assert.InDelta(t, 3600, p.Elapsed.Seconds(), 1e-6)
	noon := time.Date(1957, 8, 14, 12, 0, 0, 0, time.UTC)
	assert.WithinDuration(t, noon.Add(time.Hour), p.ETA(noon), time.Microsecond)

	p, err = ToDestination(from, units.GroundPosition(to), knots(150), units.Wind{From: 270 * deg, Speed: knots(30)})
	require.NoError(t, err)
	assert.InDelta(t, 180+11.537, p.Heading.Degrees(), 0.001)
	assert.InDelta(t, math.Sqrt(150*150-30*30), p.Groundspeed.Knots(), 1e-9)

	for _, w := range []units.Wind{{From: 270 * deg, Speed: knots(151)}, {From: 180 * deg, Speed: knots(150)}} {
		_, err = ToDestination(from, units.GroundPosition(to), knots(150), w)
		assert.ErrorIs(t, err, ErrWindTooStrong)
	}
}

// TestRunByAirPlot: between the two times the aircraft ran by its air plot and
// downwind; on one heading over the equator that is the wind triangle.
func TestRunByAirPlot(t *testing.T) {
	wind := units.Wind{From: 0, Speed: knots(30)}
	start := units.AirPosition(units.At(0, 0))
	end, err := AirPosition(start, []Leg{{units.TrueHeading(90 * deg), knots(180), 20 * time.Minute}})
	require.NoError(t, err)
	run, err := RunByAirPlot(start, end, wind, 20*time.Minute)
	require.NoError(t, err)
	track, speed := TrackMade(units.TrueHeading(90*deg), knots(180), wind)
	want := RunOver(track, speed, 20*time.Minute)
	// at 10 miles off the equator a parallel is 4e-6 shorter, and a degree of
	// latitude 0.6 % shorter than of longitude throughout: that turns nothing,
	// since miles are miles both ways
	assert.InDelta(t, want.Track.Degrees(), run.Track.Degrees(), 0.001)
	assert.InDelta(t, want.Distance.NM(), run.Distance.NM(), 0.001)
}

// TestDRGrowth: the rows of nav_fix_statistics.csv on dead reckoning.
func TestDRGrowth(t *testing.T) {
	counts := map[string]int{}
	for _, r := range table(t, "nav_fix_statistics.csv", 32) {
		switch r.Text("quantity") {
		case "DR error, constant independent biases":
			counts["bias"]++
			require.Equal(t, "0.5 %", r.Text("tolerance"))
			v := figures(t, r.Text("input"), 5)
			doubt := Doubt{angle(v[2]), knots(v[3]), knots(v[4])}
			along, across := doubt.Growth(knots(v[0]), hours(v[1]))
			want := figures(t, r.Text("answer"), 3)
			assert.InEpsilon(t, want[0], along.NM(), 0.005, r)
			assert.InEpsilon(t, want[1], across.NM(), 0.005, r)
			e := Ellipse{Major: max(along, across), Minor: min(along, across)}
			assert.InEpsilon(t, want[2], e.DRMS().NM(), 0.005, r)
			assert.InEpsilon(t, first(t, r.Text("detail"), "CEP"), e.Radius(0.5).NM(), 0.005, r)
			assert.InEpsilon(t, first(t, r.Text("detail"), "R95"), e.Radius(0.95).NM(), 0.005, r)
		case "DR error from a wind error with exponential correlation":
			counts["wind"]++
			require.Equal(t, "1e-4 relative", r.Text("tolerance"))
			v := figures(t, r.Text("input"), 3)
			got := WindGrowth(knots(v[0]), hours(v[1]), hours(v[2]))
			assert.InEpsilon(t, figures(t, r.Text("answer"), 1)[0], got.NM(), 1e-4, r)
		}
	}
	assert.Equal(t, map[string]int{"bias": 5, "wind": 6}, counts)
}

// TestStatistics: the rest of nav_fix_statistics.csv; the rows on two lines are
// in TestEllipseOfTwoLines.
func TestStatistics(t *testing.T) {
	one := Ellipse{Major: units.NM, Minor: units.NM}
	checks := map[string]func(r rows.Row){
		"CEP from the two sigmas, approximation": func(r rows.Row) {
			assert.InDelta(t, r.Float("answer"), one.CircularErrorProbable().NM(), 0.001, r)
			assert.InDelta(t, first(t, r.Text("provenance"), "exact"), one.Radius(0.5).NM(), 1e-5, r)
		},
		"2 DRMS over CEP, circular": func(r rows.Row) {
			assert.InDelta(t, r.Float("answer"), 2*float64(one.DRMS()/one.Radius(0.5)), 0.05, r)
		},
		"probability inside DRMS": func(r rows.Row) {
			v := figures(t, r.Text("answer"), 2)
			line := Ellipse{Major: units.NM}
			assert.InDelta(t, v[0], 100*one.Probability(one.DRMS()), 0.05, r)
			assert.InDelta(t, v[1], 100*line.Probability(line.DRMS()), 0.05, r)
		},
		"95 % radius over CEP, circular": func(r rows.Row) {
			assert.InDelta(t, r.Float("answer"), float64(one.Radius(0.95)/one.Radius(0.5)), 0.03, r)
		},
		"50 % and 95 % radius, sigma ratio k (larger sigma = 1)": func(r rows.Row) {
			e := Ellipse{Major: units.NM, Minor: miles(figures(t, r.Text("input"), 1)[0])}
			assert.InDelta(t, first(t, r.Text("answer"), "CEP"), e.Radius(0.5).NM(), 1e-4, r)
			assert.InDelta(t, first(t, r.Text("answer"), "R95"), e.Radius(0.95).NM(), 1e-4, r)
			assert.InDelta(t, first(t, r.Text("detail"), "DRMS"), e.DRMS().NM(), 1e-4, r)
			assert.InDelta(t, first(t, r.Text("detail"), " = "), e.CircularErrorProbable().NM(), 1e-4, r)
		},
		"scale of the error ellipse containing probability p": func(r rows.Row) {
			assert.InDelta(t, r.Float("answer"), ScaleFor(figures(t, r.Text("input"), 1)[0]), 1e-5, r)
		},
		"probability that the position lies inside the triangle of three position lines": func(r rows.Row) {
			assert.InDelta(t, r.Float("answer"), InsideHat, 0.002, r)
		},
	}
	n := 0
	for _, r := range table(t, "nav_fix_statistics.csv", 32) {
		if check, mine := checks[r.Text("quantity")]; mine {
			check(r)
			n++
		}
	}
	assert.Equal(t, 32-6-11, n)
}
