package exhibit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/keep"
	"stillair/gui/exhibit/tongue"
	"stillair/integrator/units"
	"stillair/sim"
)

// TestWhatMayBreakShows: whatever may be chosen for an exhibit parts the two marks by a
// mile at least, once a visitor has turned and flown faster for forty minutes; and what
// is mended leaves that standing, within the tenth that a curved earth adds.
func TestWhatMayBreakShows(t *testing.T) {
	all, err := tongue.Load("")
	require.NoError(t, err)
	ids := tongue.Told(all, []string{"en", "de"})
	require.Greater(t, len(ids), 10)
	for _, id := range ids {
		f := keep.Open(file(t, "schema = 1\n[[fault]]\nid = \""+id+"\"\n"), t.TempDir(), Shipped)
		require.NoError(t, f.Wrong, id)
		x := f.Exhibit
		order := sim.HelmOrder{Heading: x.Flight.Heading, TAS: x.Flight.TAS, Wind: x.Flight.Wind}
		e, err := sim.New(planOf(x, conduct.Flight{Order: order, Set: x.Flight.Wind}))
		require.NoError(t, err)
		minutes := func(n int64) { e.Advance(n * 60 * sim.TicksPerSecond) }
		minutes(10)
		assert.Less(t, e.Snapshot().Error.Ground.NM(), 0.2, id)
		require.NoError(t, e.Break(x.Faults[0]))
		order.Heading, order.TAS = units.TrueHeading(150*units.Degree), 240*units.Knot
		require.NoError(t, e.Steer(order))
		minutes(40)
		off := e.Snapshot().Error.Ground.NM()
		assert.Greater(t, off, 1.0, id)
		require.NoError(t, e.MendAll(id))
		minutes(10)
		assert.Greater(t, e.Snapshot().Error.Ground.NM(), 0.7*off, "%s: the standing error stays", id)
	}
}
