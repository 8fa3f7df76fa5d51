package sim

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Whatever is done to the clock and the knobs, what is left is one straight
// history: the hash, the tracks and the log are those of a flight in which the
// actions that were not taken back were done in their order, and nothing else.
func TestOneHistory(t *testing.T) {
	const last = 12000
	rapid.Check(t, func(t *rapid.T) {
		e := engine(t, busy())
		var done []Command                // actions not taken back, in order
		applied := 0                      // of these, in the present state
		at := rapid.Int64Range(0, last-1) // an action at the last tick shows in the next
		for range rapid.IntRange(1, 12).Draw(t, "moves") {
			if rapid.Bool().Draw(t, "act") && !e.Over() {
				a := rapid.SampledFrom([]aboard.Action{
					{Kind: aboard.SetWind, Wind: wind(250, 40)},
					{Kind: aboard.SetWind, Wind: wind(10, 5)},
					{Kind: aboard.SetVariation, Variation: 0.3},
					{Kind: aboard.FollowField},
					{Kind: aboard.SetCounters, Position: units.At(-46, -179.5)},
					{Kind: aboard.SlewLatitude, Slew: units.ArcMinute},
					{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aboard.Aim{Aid: aboard.DriftSight}, Angle: 0.1}},
				}).Draw(t, "action")
				c := Command{Action: a}
				switch rapid.IntRange(0, 4).Draw(t, "kind") {
				case 0:
					c = Command{Kind: Break, Order: drawOrder(t, last)}
					if e.course.fits(&c.Order) != nil { // needs the plotted design
						continue
					}
				case 1:
					if len(e.Faults()) > 0 {
						c = Command{Kind: Mend, Fault: rapid.IntRange(0, len(e.Faults())-1).Draw(t, "which fault")}
					}
				case 2:
					c = Command{Kind: ByHand, Hand: drawHand(t)}
				}
				c.Tick = e.Tick()
				require.NoError(t, do(e, c))
				done = append(done[:applied:applied], c)
				applied++
				continue
			}
			if rapid.Bool().Draw(t, "take back") {
				if last, ok := e.LastDeed(); ok {
					require.NoError(t, e.Undo())
					i := applied - 1
					for done[i].Kind != Act {
						i--
					}
					require.Equal(t, done[i].Action, last)
					done = append(done[:i:i], done[i+1:]...)
					applied--
				} else {
					require.ErrorIs(t, e.Undo(), ErrNothingToTakeBack)
				}
				continue
			}
			// To anywhere, to a boundary of interest, or nowhere.
			to := at.Draw(t, "to")
			if len(done) > 0 && rapid.Bool().Draw(t, "near") {
				to = max(0, done[rapid.IntRange(0, len(done)-1).Draw(t, "which")].Tick+rapid.Int64Range(-1, 1).Draw(t, "by"))
				to = min(to, last-1)
			}
			if rapid.Bool().Draw(t, "keyframe") {
				to -= to % keyframeTicks
			}
			from := e.Tick()
			e.GoTo(to)
			switch {
			case to < from: // gone back: an action at the very tick is not done yet
				for applied = 0; applied < len(done) && done[applied].Tick < to; {
					applied++
				}
			case to > from:
				for applied < len(done) && done[applied].Tick < to {
					applied++
				}
			}
		}
		e.GoTo(last)

		straight := engine(t, busy())
		for _, c := range done {
			straight.Advance(c.Tick - straight.Tick())
			require.NoError(t, do(straight, c))
		}
		straight.Advance(last - straight.Tick())
		require.Equal(t, straight.Tick(), e.Tick())
		require.Equal(t, straight.Hash(), e.Hash())
		wantMarks, wantLog := story(straight)
		marks, log := story(e)
		require.Equal(t, wantMarks, marks)
		require.Equal(t, wantLog, log)
		require.Equal(t, straight.TrueTrack(), e.TrueTrack())
		require.Equal(t, straight.Commands(), e.Commands())
	})
}

// do gives a command as a caller would.
func do(e *Engine, c Command) error {
	switch c.Kind {
	case Break:
		return e.Break(c.Order)
	case Mend:
		return e.Mend(c.Fault)
	case ByHand:
		return e.Hold(c.Hand)
	}
	return e.Do(c.Action)
}
