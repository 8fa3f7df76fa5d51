package atlas

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/spread"
)

// The picture holds the figures of the spread, closed form beside them: of a term
// that has one exactly (the start: the same at every time), 1.1774 and 2.4477 sigma.
func TestSpreadOf(t *testing.T) {
	field := units.Variation(0)
	p := &sim.Plan{
		Title: "A leg", Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Field: &field, Pilot: sim.AsPlanned,
		Aircraft: sim.Aircraft{Speed: sim.SpeedOrder{Speed: 180 * units.Knot}},
		Legs:     []sim.Leg{{Ticks: sim.TicksOf(150 * time.Second)}},
	}
	law := spread.Law{Name: "flight"}
	law.Sigma[spread.Start] = 2
	r, err := spread.Run(context.Background(), spread.Job{Plan: p, Law: law, Seed: 5, Flights: 20, Every: time.Minute, Workers: 1})
	require.NoError(t, err)
	s := SpreadOf(&spread.File{Head: spread.Head{Title: p.Title}, Result: r})
	assert.Equal(t, "Spread: 20 flights with drawn errors", s.Title)
	assert.Equal(t, "A leg; each instrument of its own making: flight; seed 5", s.Told)
	assert.InDeltaSlice(t, []float64{0, 1.0 / 60, 2.0 / 60, 2.5 / 60}, s.Hours, 1e-12)
	require.Len(t, s.Dots, 20)
	for i := range s.Hours {
		assert.InDelta(t, 2*1.17741, s.FormHalf[i], 1e-4)
		assert.InDelta(t, 2*2.44775, s.FormMost[i], 1e-4)
		assert.Equal(t, [spread.Links]float64{spread.StartLink: 1}, s.Shares[i])
		assert.Greater(t, s.Most[i], s.Half[i])
	}
	assert.InDelta(t, s.MostAxes.Major/s.HalfAxes.Major, 2.44775/1.17741, 1e-4)
	for l, word := range []string{"wind not known", "heading", "air log", "drive", "start position"} {
		assert.Equal(t, word, look.Text(SpreadLink(spread.Link(l))))
	}

	// A flight that ended before others: its time is not looked at.
	r.Flights[3].Errors = r.Flights[3].Errors[:2]
	s = SpreadOf(&spread.File{Result: r})
	assert.Len(t, s.Hours, 3)
	r.Law.Sigma[spread.Start], r.Effects = 0, []spread.Effect{}
	s = SpreadOf(&spread.File{Result: r})
	assert.Len(t, s.Hours, 3)
	assert.Empty(t, s.Shares)
}
