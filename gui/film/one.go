package film

import (
	"image"
	"math/big"
	"time"

	"stillair/scenarios"
	"stillair/sim"
)

// One draws the one frame of a moment of a flight that has been flown that far: a still.
// The chart holds the whole of the required track, as in a film from the start.
func One(e *sim.Engine, at time.Duration, view string, l Look) (*image.RGBA, error) {
	s := &Script{
		rate: Rate{25, 1}, frames: 1, to: sim.TicksOf(at),
		passages: []scenarios.Passage{{Start: ratOf(at), Speed: new(big.Rat), View: view}},
	}
	st, err := NewStudio(e, s, l)
	if err != nil {
		return nil, err
	}
	m := take(e, s.Shot(0), l.Reveal)
	st.settle(m)
	return st.NewArtist().Draw(m), nil
}
