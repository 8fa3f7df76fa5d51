package train

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

const dt = 1.0 / 16

// run flies one leg; wrong says what is wrong at a time.
func run(lat, kt, heading, seconds float64, wrong func(at float64) Imperfection) units.Position {
	s := At(units.At(lat, 0))
	sin, cos := math.Sincos(heading * math.Pi / 180)
	d := kt * dt / 3600
	for i := range int(math.Round(seconds / dt)) {
		w := wrong(float64(i) * dt)
		s.Turn(d*cos, d*sin, &w)
	}
	return s.Position()
}

// given reads "a=1;b=2" into numbers; words are left out.
func given(text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(part, "=")
		if x, err := strconv.ParseFloat(value, 64); err == nil {
			got[name] = x
		}
	}
	return got
}

// wrongOf is the imperfection of a row, or nil if the trains do not have it.
func wrongOf(r rows.Row) func(at float64) Imperfection {
	p := given(r.Text("params"))
	always := func(w Imperfection) func(float64) Imperfection {
		return func(float64) Imperfection { return w }
	}
	jammed := func(at float64) bool { return at >= p["jam_from_s"] && at < p["to_s"] }
	switch r.Text("fault_id") {
	case "secant-gear-held":
		return always(Imperfection{SecantHeld: true, HeldLatitude: units.Angle(p["held_lat_deg"]) * units.Degree})
	case "secant-gear-at-limit":
		return always(Imperfection{SecantLimit: units.Angle(p["limit_deg"]) * units.Degree})
	case "latitude-drum-jam":
		return func(at float64) Imperfection { return Imperfection{LatJammed: jammed(at)} }
	case "longitude-drum-jam":
		return func(at float64) Imperfection { return Imperfection{LonJammed: jammed(at)} }
	case "latitude-sense-reversed":
		return always(Imperfection{LatReversed: true})
	case "longitude-sense-reversed":
		return always(Imperfection{LonReversed: true})
	}
	return nil
}

func TestFlightsWithOneThingWrong(t *testing.T) {
	seen := 0
	for _, r := range rows.Read(t, "../testdata/mech_flights.csv") {
		wrong := wrongOf(r)
		if wrong == nil || strings.Contains(r.Text("params"), "disengage") {
			continue
		}
		seen++
		var seconds, kt, heading float64
		_, err := fmt.Sscanf(r.Text("legs"), "%fs %fkt %fdeg", &seconds, &kt, &heading)
		require.NoError(t, err)
		p := run(r.Float("lat1_deg"), kt, heading, seconds, wrong)
		assert.InDelta(t, r.Float("ind_lat_deg"), p.Lat.Degrees(), 1e-7, "%v", r)
		assert.InDelta(t, r.Float("ind_lon_deg"), p.Lon.Degrees(), 1e-7, "%v", r)
		truth := run(r.Float("lat1_deg"), kt, heading, seconds, func(float64) Imperfection { return Imperfection{} })
		assert.InDelta(t, r.Float("truth_lat_deg"), truth.Lat.Degrees(), 1e-7, "%v", r)
		assert.InDelta(t, r.Float("truth_lon_deg"), truth.Lon.Degrees(), 1e-7, "%v", r)
	}
	require.GreaterOrEqual(t, seen, 12)
}

// The closed form of a rhumb line on the sphere is what many small turns make.
func TestRhumbIsManySmallTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, heading := rapid.Float64Range(-75, 75).Draw(t, "lat"), rapid.Float64Range(0, 360).Draw(t, "heading")
		p := run(lat, 300, heading, 1200, func(float64) Imperfection { return Imperfection{} })
		sin, cos := math.Sincos(heading * math.Pi / 180)
		q := Rhumb(units.At(lat, 0), 100*cos, 100*sin)
		require.InDelta(t, q.Lat.Minutes(), p.Lat.Minutes(), 1e-8)
		require.InDelta(t, q.Lon.Minutes(), p.Lon.Minutes(), 1e-6)
	})
}

func TestThePoleIsFinite(t *testing.T) {
	s := At(units.At(89.999, 0))
	for range 100 {
		s.Turn(0.01, 0.01, &Imperfection{})
	}
	assert.False(t, math.IsNaN(s.Lon.Total) || math.IsInf(s.Lon.Total, 0))
	q := Rhumb(units.At(89, 0), 300, 300)
	assert.False(t, math.IsNaN(float64(q.Lon)) || math.IsInf(float64(q.Lon), 0))
}
