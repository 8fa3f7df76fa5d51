package scenarios

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/debrief"
)

// What the flights around one fault promise in their comments: how far, in NM,
// the ground position is out, before it came and at its worst.
func TestFlightsAroundOneFault(t *testing.T) {
	for name, c := range map[string]struct {
		early       int     // minutes, before it has done much
		late        int     // minutes
		least, most float64 // NM at that time
	}{
		"pitot-ice":       {14, 40, 33, 38}, // 12 min at 185 kt is 37 NM, less the tail of the decay
		"old-variation":   {5, 80, 7, 13},
		"warm-air":        {1, 50, 4, 7}, // 3 in a hundred of 167 NM
		"slipping-drive":  {10, 60, 9, 15},
		"stuck-repeater":  {24, 40, 25, 31}, // 2 x 46.25 NM x sin(35/2 deg) = 27.8
		"after-the-swing": {1, 80, 5, 11},   // 2 x 63.3 NM x sin(3 deg) = 6.6 north, C 4.4 east
	} {
		m := flown(t, name)
		assert.Less(t, m[c.early].Error.Ground.NM(), 0.4, name)
		worst := m[c.late].Error.Ground.NM()
		assert.True(t, worst > c.least && worst < c.most, "%s: %v NM", name, worst)
		first, end := m[0].Truth.Position, last(m).Truth.Position
		assert.True(t, first.Lat.Degrees() < -44 && first.Lat.Degrees() > -52 && end.Lat.Degrees() > -52 && end.Lat.Degrees() < -44, name)
		p, _, err := Open(name)
		require.NoError(t, err)
		assert.NotEmpty(t, p.Moments, name)
	}
	iced := flown(t, "pitot-ice")
	assert.Less(t, iced[51].Error.Ground.NM(), 0.2, "the fix of the file is that of the true place")
	assert.Less(t, iced[20].Shown.TAS.Knots(), 1.0)
	assert.Greater(t, iced[28].Shown.TAS.Knots(), 180.0)
}

// The instrument flies to Skerrow, and the aircraft ends on the other side of 180;
// the causes in the file are the causes of it.
func TestEveryMileEndsElsewhere(t *testing.T) {
	p, _, err := Open("every-mile")
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(1 << 40)
	end := e.Snapshot()
	w, err := Waters("tern-islands")
	require.NoError(t, err)
	for _, place := range w.Places {
		if place.Name == "Skerrow" {
			assert.Less(t, sim.OffsetOf(units.Position(end.Shown.Ground), place.At).NM(), 3.0, "the marker stands over the island")
		}
	}
	assert.Greater(t, end.Error.Ground.NM(), 10.0)
	assert.Greater(t, end.Truth.Position.Lon, units.Angle(0), "the aircraft is west of 180")
	blame := map[string]float64{}
	for _, l := range debrief.Of(e).Ground.Lines {
		blame[l.ID] = l.NM()
	}
	for _, id := range []string{"drive", "wind", "variation"} {
		assert.Greater(t, blame[id], 3.0, id)
	}
	assert.Greater(t, blame["temperature"], 1.0)
	assert.Less(t, blame["crew"], 1.5)
}

// The box of the poor swing closes on the counters and not in truth.
func TestTheBoxClosesOnTheCountersAlone(t *testing.T) {
	m := flown(t, "after-the-swing")
	end := last(m)
	off := sim.OffsetOf(end.Truth.Position, m[0].Truth.Position)
	assert.Greater(t, off.NM(), 5.0)
	shown := sim.OffsetOf(end.Truth.Position, m[0].Truth.Position)
	shown.North += end.Error.Ground.North
	shown.East += end.Error.Ground.East
	assert.Less(t, shown.NM(), 1.0)
}

// The setter that nobody turns does not say that it follows the field, until it
// is put right.
func TestTheSetterLeftAlone(t *testing.T) {
	p, _, err := Open("old-variation")
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	first := e.View()
	assert.False(t, first.FollowsField)
	e.Advance(sim.TicksOf(79 * time.Minute))
	assert.Equal(t, first.VariationSet, e.View().VariationSet)
	e.Advance(sim.TicksOf(2 * time.Minute))
	assert.True(t, e.View().FollowsField)
	assert.Greater(t, e.View().VariationSet, first.VariationSet)
}
