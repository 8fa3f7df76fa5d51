package sim

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
)

// story is what the lists tell of a flight, without the figures.
func story(e *Engine) (marks []aboard.Mark, log []aboard.Entry) {
	v := e.View()
	return v.Marks, v.Log
}

// Going back and on again tells nothing twice: an action done at the very end of
// what has been flown, and one done anew in its place, stand in the lists once.
func TestGoingBackTellsNothingTwice(t *testing.T) {
	at, last := int64(3001), int64(9000)
	windy := aboard.Action{Kind: aboard.SetWind, Wind: wind(250, 40)}
	turned := aboard.Action{Kind: aboard.SetVariation, Variation: 0.3}
	want := engine(t, busy())
	want.Advance(at)
	require.NoError(t, want.Do(windy))
	want.Advance(last - at)
	marks, log := story(want)

	e := engine(t, busy())
	e.Advance(at)
	require.NoError(t, e.Do(windy))
	e.GoTo(at - 100)
	e.GoTo(last)
	gotMarks, gotLog := story(e)
	assert.Equal(t, marks, gotMarks, "back and on over an action just done")
	assert.Equal(t, log, gotLog)
	assert.Len(t, e.TrueTrack(), len(gotMarks))

	for _, first := range []aboard.Action{windy, turned} {
		for _, on := range []int64{0, 1, 2000} {
			e = engine(t, busy())
			e.Advance(at)
			require.NoError(t, e.Do(first))
			e.Advance(on)
			e.GoTo(at - 1)
			e.GoTo(at)
			require.NoError(t, e.Do(windy))
			e.GoTo(last)
			gotMarks, gotLog = story(e)
			assert.Equal(t, marks, gotMarks, "done anew after %d ticks", on)
			assert.Equal(t, log, gotLog)
			assert.Equal(t, want.Hash(), e.Hash())
		}
	}
}

// Two actions at one tick both stay; a leg and a planned action at that tick are
// told once.
func TestActionsAtTheTickOfALegAndOfAPlannedAction(t *testing.T) {
	for _, at := range []int64{0, TicksOf(5 * time.Minute), TicksOf(10 * time.Minute)} {
		plain := engine(t, busy())
		plain.Advance(at)
		fly := func(e *Engine) *Engine {
			require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(1, 2)}))
			require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(3, 4)}))
			e.Advance(1000)
			return e
		}
		want := fly(plain)
		back := engine(t, busy())
		back.Advance(at + 500)
		back.GoTo(at)
		fly(back)
		assert.Equal(t, want.Hash(), back.Hash())
		marks, log := story(want)
		gotMarks, gotLog := story(back)
		assert.Equal(t, marks, gotMarks, "at tick %d", at)
		assert.Equal(t, log, gotLog, "at tick %d", at)
		legs := 0
		for _, m := range gotMarks {
			if m.Event == aboard.LegBegun && m.Elapsed == TimeOf(at) {
				legs++
			}
		}
		assert.LessOrEqual(t, legs, 1)
	}
}
