package account

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/debrief"
	"stillair/sim/fault"
)

func flown(t *testing.T, name string, change func(*sim.Plan)) *sim.Engine {
	t.Helper()
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	if change != nil {
		change(plan)
	}
	e, err := sim.New(plan)
	require.NoError(t, err)
	return e
}

func storyOf(t *testing.T, e *sim.Engine) *Story {
	t.Helper()
	s, err := New(e.Plan(), Gather(e))
	require.NoError(t, err)
	return s
}

// addsUp: the printed columns add up to the printed sums, which are the error of the
// flight, and the chain ends where the instrument shows the aircraft.
func addsUp(t *testing.T, a *picture.Account, rows []Part) {
	t.Helper()
	require.Len(t, rows, len(a.Parts))
	var sum [3]int
	var n, e float64
	for _, p := range a.Parts {
		if p.Right {
			assert.Zero(t, p.Printed)
			continue
		}
		n, e = n+p.North, e+p.East
		for c := range sum {
			sum[c] += p.Printed[c]
		}
	}
	assert.Equal(t, sum, a.Sum)
	assert.InDelta(t, a.North, n, 1e-6*float64(len(debrief.IDs())))
	assert.InDelta(t, a.East, e, 1e-6*float64(len(debrief.IDs())))
	assert.InDelta(t, 10*a.North, float64(sum[0]), 0.51)
	assert.InDelta(t, 10*a.East, float64(sum[1]), 0.51)
	assert.InDelta(t, 10*a.NM(), float64(sum[2]), 0.51)
}

// TestEveryShippedFlightIsAccountedFor at several of its moments.
func TestEveryShippedFlightIsAccountedFor(t *testing.T) {
	list := scenarios.Shipped()
	if testing.Short() {
		list = list[:2]
	}
	for _, f := range list {
		t.Run(f.Name, func(t *testing.T) {
			e := flown(t, f.Name, nil)
			e.Advance(1 << 40)
			s := storyOf(t, e)
			end := e.Snapshot()
			a, rows := s.At(e.Tick())
			addsUp(t, &a, rows)
			assert.InDelta(t, end.Error.Ground.NM(), a.NM(), 1e-9)
			assert.InDelta(t, a.NM(), a.AsFlown[len(a.AsFlown)-1].NM, 1e-9)
			off := sim.OffsetOf(a.Shown, a.True)
			assert.InDelta(t, a.North, off.North, 1e-6)
			assert.InDelta(t, a.East, off.East, 1e-6)
			require.NotEmpty(t, a.Lessons)
			for _, at := range []float64{0, 0.3, 0.7} {
				a, rows := s.At(int64(at * float64(e.Tick())))
				addsUp(t, &a, rows)
			}
			var page bytes.Buffer
			require.NoError(t, WritePage(&page, paint.SVGFile, e.Plan().Title, &a))
			assert.Contains(t, page.String(), look.Text(look.Caution))
		})
	}
}

// TestLessonsNameTheFault: the sentences have the figures of the table.
func TestLessonsNameTheFault(t *testing.T) {
	e := flown(t, "slipping-drive", nil)
	e.Advance(1 << 40)
	s := storyOf(t, e)
	a, rows := s.At(e.Tick())
	drive := -1
	for i, r := range rows {
		if r.ID == "drive" {
			drive = i
		}
	}
	require.GreaterOrEqual(t, drive, 0)
	p := a.Parts[drive]
	assert.Equal(t, "The drive cost "+units.Figure(float64(p.Printed[2])/10, 1)+" NM.", a.Lessons[0].Head)
	assert.Contains(t, a.Lessons[0].Body, "clutch slips, from ")
	only, ok := s.told.IfOnly, false
	for _, l := range a.Lessons {
		if strings.HasPrefix(l.Head, "With the drive right") {
			ok = true
			assert.Contains(t, l.Head, units.Figure(only[0].NM(), 1)+" NM would have been left of "+units.Figure(a.NM(), 1))
		}
	}
	assert.True(t, ok, "%v", a.Lessons)
	assert.Contains(t, p.Say("Drive"), " miles along the line")
}

// TestPulledOutTheChainCloses: with the drive taken as right the account is that of
// the flight without it, and its curve is drawn beside.
func TestPulledOutTheChainCloses(t *testing.T) {
	e := flown(t, "slipping-drive", nil)
	e.Advance(1 << 40)
	s := storyOf(t, e)
	r, err := debrief.If(e, "drive")
	require.NoError(t, err)
	s.Suppose([]string{"drive"}, &r)
	a, rows := s.At(e.Tick())
	addsUp(t, &a, rows)
	assert.InDelta(t, s.told.IfOnly[0].NM(), a.NM(), 1e-9)
	assert.InDelta(t, a.NM(), a.If[len(a.If)-1].NM, 1e-9)
	assert.InDelta(t, e.Snapshot().Error.Ground.NM(), sim.OffsetOf(a.Shown, a.True).NM(), 1e-6, "the marker stays where it was")
	pulled := false
	for i, p := range a.Parts {
		pulled = pulled || rows[i].ID == "drive" && p.Right
	}
	assert.True(t, pulled, "it stands in the table still")
}

// TestWhatHappenedStandsOnTheCurve: breaks, mends, resets and settings, at the
// error that was flown; the jump is that of the reset.
func TestWhatHappenedStandsOnTheCurve(t *testing.T) {
	e := flown(t, "first-look", nil)
	require.NoError(t, e.Break(fault.Order{ID: "drive-slip", Params: []float64{0.2}}))
	e.Advance(sim.TicksOf(20 * time.Minute))
	require.NoError(t, e.Mend(0))
	before := e.Snapshot().Error.Ground.NM()
	truth := e.Snapshot().Truth.Position
	truth.Lat += units.ArcMinute
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetCounters, Position: truth}))
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 300 * units.Degree, Speed: 20 * units.Knot}}))
	e.Advance(sim.TicksOf(20 * time.Minute))
	s := storyOf(t, e)
	a, _ := s.At(e.Tick())
	kinds := map[picture.AccountKind]float64{}
	for _, ev := range a.Events {
		if ev.Minute > 0 || ev.Kind == picture.AccountBreak {
			kinds[ev.Kind] = ev.Minute
		}
	}
	assert.Equal(t, map[picture.AccountKind]float64{picture.AccountBreak: 0, picture.AccountMend: 20, picture.AccountReset: 20, picture.AccountSetting: 20}, kinds)
	for i, p := range a.AsFlown {
		if p.Jump {
			assert.InDelta(t, before, a.AsFlown[i-1].NM, 1e-6)
			assert.InDelta(t, 1, p.NM, 1e-6, "a minute of latitude")
		}
	}
	last := a.Lessons[len(a.Lessons)-1]
	assert.Contains(t, last.Body, units.Figure(before, 1)+" NM before and 1.0 NM after")
	assert.False(t, math.IsNaN(a.NM()))
}

// TestNothingFlownOwesNothing.
func TestNothingFlownOwesNothing(t *testing.T) {
	e := flown(t, "first-look", nil)
	s := storyOf(t, e)
	a, rows := s.At(0)
	addsUp(t, &a, rows)
	assert.Equal(t, look.Text(look.AccountNothing), a.Lessons[0].Head)
	var page bytes.Buffer
	require.NoError(t, WritePage(&page, paint.PNG, "x", &a))
}
