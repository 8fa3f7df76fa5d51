package papers

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
	"stillair/sim"
)

// The drums as they are read off. Source: this project's own design of the
// counters (mech_counters.csv): drums show the digit they have passed.
func TestDrumsAreReadOff(t *testing.T) {
	for _, c := range []struct {
		r    counter.Reading
		want string
	}{
		{counter.Latitude(-(47*60 + 28.35)), "47 28.3 S"},
		{counter.Latitude(0), "00 00.0 N"},
		{counter.Latitude(59.999), "00 59.9 N"},
		{counter.Hemisphere(-(178*60 + 48.7)), "178 48.7 W"},
		{counter.Hemisphere(10800), "180 00.0 W"},
		{counter.East360(-60), "359 00.0"},
	} {
		assert.Equal(t, c.want, drums(c.r))
	}
}

// A filled log has a line at every event but those of the clock, and one each
// ten minutes; the figures are those of the dials at that time, whatever is
// wrong with them.
func TestLogRowsAreWhatWasShown(t *testing.T) {
	p := plan(t, "every-mile")
	rows, err := logRows(p, false)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(math.MaxInt64 / 2)
	log := e.View().Log
	events := 0
	for i := range log {
		if log[i].Event == aboard.Sample {
			continue
		}
		events++
		want := units.TimeText(p.Start.Add(log[i].Elapsed))[:4]
		assert.True(t, slices.ContainsFunc(rows, func(r []string) bool {
			return r[0] == want && r[4] == units.Degrees3(units.Angle(log[i].Heading)) && r[19] == Remark(p, &log[i]) && r[13] == log[i].Wind.String() && r[10] == units.Figure(log[i].AirMiles.NM(), 1)
		}), "%s %s", want, Remark(p, &log[i]))
	}
	assert.GreaterOrEqual(t, len(rows), events)
	at := p.Start.Truncate(10 * time.Minute)
	for ; at.Before(p.Start.Add(sim.TimeOf(e.Tick()))); at = at.Add(10 * time.Minute) {
		if !at.Before(p.Start) {
			assert.True(t, slices.ContainsFunc(rows, func(r []string) bool { return r[0] == units.TimeText(at)[:4] }), at)
		}
	}
}

// The dead reckoning of a line holds by plane vectors: track and groundspeed
// are heading and airspeed plus the wind, from the printed figures alone. The
// tolerance is half a unit of each of them.
func TestLogLinesAddUp(t *testing.T) {
	rows, err := logRows(plan(t, "weather-triangle"), false)
	require.NoError(t, err)
	num := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return x
	}
	for _, r := range rows {
		from, kt, _ := strings.Cut(r[13], "/")
		x, y := polar(num(r[4]), num(r[8]))
		wx, wy := polar(num(from)+180, num(kt))
		gs := math.Hypot(x+wx, y+wy)
		assert.InDelta(t, gs, num(r[16]), 2, "%v", r)
		track := math.Atan2(x+wx, y+wy) * 180 / math.Pi
		assert.InDelta(t, 0, units.WrapHalfDegrees(num(r[15])-track), 1.2, "%v", r)
	}
}

func polar(deg, r float64) (x, y float64) {
	s, c := math.Sincos(deg * math.Pi / 180)
	return r * s, r * c
}

// Nothing on log, readings, plan and sheet is the truth: of a flight whose
// instrument is wrong in five ways, no true position is printed once the shown
// one has parted from it by more than a mile.
func TestPapersDoNotTellTheTruth(t *testing.T) {
	p := plan(t, "every-mile")
	said := map[string]bool{}
	for _, pages := range told(t, p) {
		for _, page := range pages {
			words := texts(A4, page)
			for i, s := range words {
				said[s] = true
				if i > 0 { // a position is printed at once, or latitude and then longitude
					said[words[i-1]+" "+s] = true
				}
			}
		}
	}
	e, err := sim.New(p)
	require.NoError(t, err)
	parted, shown := 0, 0
	for !e.Over() {
		e.Advance(60 * sim.TicksPerSecond)
		s := e.Snapshot()
		if said[s.Shown.Air.String()] {
			shown++
		}
		if s.Error.Ground.NM() < 1 {
			continue
		}
		parted++
		assert.False(t, said[s.Truth.Position.String()], "%v at %v", s.Truth.Position, sim.TimeOf(s.Tick))
	}
	assert.Positive(t, shown, "positions are found where they are printed")
	assert.Greater(t, parted, 20, "the flight is one whose instrument is wrong")
}

// told are the papers that a class gets of a flight.
func told(t *testing.T, p *sim.Plan) map[string][]Page {
	out := map[string][]Page{}
	var err error
	out["sheet"], err = Sheets(p, A4, SheetOrder{Latitude: StandardLatitude})
	require.NoError(t, err)
	out["log"], err = Log(p, A4, LogOrder{Filled: true})
	require.NoError(t, err)
	out["plan"], err = Plan(p, A4)
	require.NoError(t, err)
	out["readings"], err = Readings(p, A4, time.Minute)
	require.NoError(t, err)
	return out
}
