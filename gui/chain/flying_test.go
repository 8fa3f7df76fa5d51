package chain

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// flown is a flight in hand.
type flown struct {
	*sim.Engine
	plan *sim.Plan
}

func fly(t testing.TB, text string) flown {
	t.Helper()
	p, _, err := scenarios.Load("test", strings.NewReader(text))
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	return flown{e, p}
}

func shippedFlight(t testing.TB, name string) flown {
	t.Helper()
	p, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	return flown{e, p}
}

// story tells the moment with the truth.
func (f flown) story() *Story {
	right, view := f.TrueWorks(), f.View()
	return &Story{View: &view, Now: f.Works(), Truth: &right, Faults: f.Faults(), Mechanism: f.plan.Mechanism, Held: f.Held()}
}

func (f flown) fly(d time.Duration) { f.Advance(sim.TicksOf(d)) }

// box is a flight with turns, climbs, changes of speed and a steady wind that is
// set right, across the 180th meridian.
const box = `
schema = 1
title = "Box"
start = 1957-08-14T09:30:00Z
seed = 7
[aircraft]
position = "47 10.0 S 179 30.0 E"
heading_true_deg = 48
pressure_altitude_ft = 4000
tas_kt = 178
[[air.wind]]
from_deg_true = 295
speed_kt = 27
[mechanism]
class = %q
%s
[setting]
wind_from_deg_true = 295
wind_kt = 27
[[leg]]
heading_true_deg = 48
duration = "15m"
[[leg]]
heading_true_deg = 99
pressure_altitude_ft = 9000
duration = "25m"
[[leg]]
heading_true_deg = 268
tas_kt = 210
duration = "30m"
[[leg]]
heading_true_deg = 355
tas_kt = 150
pressure_altitude_ft = 3000
turn_rate_deg_s = 1
duration = "30m"
[[leg]]
heading_true_deg = 180
duration = "20m"
`

// broken lists the links that are, with their flags.
func broken(s *Story) (out []string) {
	for i, v := range s.Judge() {
		if v.Stands == picture.Broken {
			out = append(out, fmt.Sprintf("%d %s", i, v.Flag))
		}
	}
	return out
}

// An instrument in order, with right settings, is nowhere broken and carries
// nothing, in turns and climbs, over 180 and after a reset; also one of the
// service class, and one whose ground position is plotted.
func TestInOrderNothingIsWrong(t *testing.T) {
	for _, make := range []struct{ class, more string }{{"ideal", ""}, {"service", ""}, {"ideal", `ground = "plotted"`}} {
		f := fly(t, fmt.Sprintf(box, make.class, make.more))
		step := int64(1) // every tick; the others every third
		if make.class != "ideal" || make.more != "" {
			step = 3
		}
		if testing.Short() { // under the race detector
			step = 16
		}
		for !f.Over() { // so many moments that there is no check of its own for each link
			s := f.story()
			for i, v := range s.Judge() {
				if of := picture.Link(i); v.Stands != picture.Agrees || v.Wrong[0] != "" {
					t.Fatalf("%v: %s link %d %s %q: own %+v total %+v sum %+v", make, s.View.Elapsed, i, v.Flag, v.Wrong, s.own(of), s.total(of), s.sum(of))
				}
			}
			if f.Tick()%480 == 0 {
				require.Nil(t, s.Follow())
			}
			if f.Tick() == 160*240 {
				require.NoError(t, f.Do(aboard.Action{Kind: aboard.SetCounters, Position: f.Snapshot().Truth.Position}))
			}
			f.Advance(step)
		}
		require.Equal(t, sim.TicksOf(2*time.Hour), f.Tick())
	}
}

// Every fault of a shipped flight shows at its own link all the while it is in
// force, and no other link is said to be broken by a law of its own.
func TestShippedFaultsShowAtTheirLinks(t *testing.T) {
	shown := 0
	for name, link := range map[string]picture.Link{
		"after-the-swing": picture.LinkDeviation, "old-variation": picture.LinkVariation, "pitot-ice": picture.LinkPitot,
		"slipping-drive": picture.LinkDrive, "stuck-repeater": picture.LinkRepeater, "warm-air": picture.LinkAirLog,
	} {
		f := shippedFlight(t, name)
		for !f.Over() {
			f.Advance(sim.TicksOf(30 * time.Second))
			s := f.story()
			for i, v := range s.Judge() {
				if picture.Link(i) == link {
					require.Equal(t, s.Faults[0].Stands == sim.FaultInForce, v.Stands == picture.Broken, "%s at %s", name, s.View.Elapsed)
					continue
				}
				require.NotEqual(t, picture.Broken, v.Stands, "%s at %s: link %d %s", name, s.View.Elapsed, i, v.Flag)
			}
			if s.Faults[0].Stands == sim.FaultInForce {
				shown++
			}
		}
	}
	assert.Greater(t, shown, 500)
}

// Every entry of the catalogue has its link, and there is no other.
func TestEveryFaultHasALink(t *testing.T) {
	for _, e := range fault.Catalogue() {
		p, ok := places[e.ID]
		assert.True(t, ok, e.ID)
		assert.NotEmpty(t, p.flag, e.ID)
		assert.NotEmpty(t, linksOf(&fault.Order{ID: e.ID, Params: e.Defaults()}), e.ID)
	}
	assert.Len(t, places, len(fault.Catalogue()))
}

// Cards name what may break by its id, which the card for breaking links takes.
// Whatever can be given is on the card of the link at which it shows then.
func TestCardsNameFaultsByTheirIDs(t *testing.T) {
	f := fly(t, fmt.Sprintf(box, "ideal", ""))
	s := f.story()
	named := map[string]bool{}
	for _, of := range Walk() {
		for _, id := range s.Card(of).Faults {
			_, ok := fault.Lookup(id)
			assert.True(t, ok, id)
			named[id] = true
		}
	}
	for _, e := range fault.Catalogue() {
		assert.Equal(t, e.Refusal() == "" && !e.NeedsPlotted(), named[e.ID], e.ID)
		if o := (fault.Order{ID: e.ID, Params: e.Defaults()}); named[e.ID] {
			assert.Contains(t, s.Card(linksOf(&o)[0]).Faults, e.ID)
		}
	}
}

// Hidden, nothing is judged.
func TestNothingIsJudgedHidden(t *testing.T) {
	f := shippedFlight(t, "slipping-drive")
	f.fly(30 * time.Minute)
	s := f.story()
	s.Truth, s.Faults = nil, nil
	assert.Equal(t, [picture.LinkCount]Verdict{}, s.Judge())
	assert.Nil(t, s.Follow())
	for _, of := range Walk() {
		assert.Empty(t, s.Card(of).Error)
	}
}
