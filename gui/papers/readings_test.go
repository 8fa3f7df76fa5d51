package papers

import (
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// withAids is the first look with readings taken by the clock.
func withAids(t *testing.T) *sim.Plan {
	text, err := os.ReadFile("../../scenarios/flights/first-look.toml")
	require.NoError(t, err)
	for _, take := range []struct{ at, what string }{
		{"3m", "drift"}, {"5m", "sextant Rigil Kentaurus"}, {"7m30s", "loop Cape Linnet"}, {"9m", "pulse Teal Holm"},
		{"11m", "heading Rigil Kentaurus"}, {"12m", "pinpoint Gannet Rock"},
	} {
		text = append(text, "\n[[crew]]\nat = \""+take.at+"\"\ntake = \""+take.what+"\"\n"...)
	}
	p, _, err := scenarios.Load("with aids", strings.NewReader(string(text)))
	require.NoError(t, err)
	return p
}

// rowsOf are all rows of a paper of readings.
func rowsOf(pages []Page) (all [][]string) {
	for _, p := range pages {
		all = append(all, p.(ReadingsPage).Rows...)
	}
	return all
}

// Every minute of the flight has its line, and its figures are those of the
// dials at that tick of another flight of the same plan, to the last digit; a
// drum shows the digit it has passed, so it reads up to a tenth less.
func TestReadingsAreThoseOfTheDials(t *testing.T) {
	for _, name := range []string{"first-look", "every-mile", "stuck-repeater"} {
		p := plan(t, name)
		pages, err := Readings(p, A4, time.Minute)
		require.NoError(t, err)
		all := rowsOf(pages)
		e, err := sim.New(p)
		require.NoError(t, err)
		at, minutes := 0, 0
		for ; !e.Over(); e.Advance(60 * sim.TicksPerSecond) {
			v := e.View()
			for at < len(all) && all[at][0] != units.TimeText(v.Clock)[:4] {
				at++
			}
			require.Less(t, at, len(all), "%s: no line for %v", name, v.Clock)
			r := all[at]
			minutes++
			assert.InDelta(t, v.IAS.Knots(), number(t, r[4]), 0.5+1e-9)
			assert.InDelta(t, v.TAS.Knots(), number(t, r[8]), 0.5+1e-9)
			assert.InDelta(t, v.PressureAltitude.Feet(), number(t, r[5]), 0.5+1e-9)
			assert.InDelta(t, v.AirTemperature.Celsius(), number(t, r[7]), 0.5+1e-9)
			assert.InDelta(t, 0, units.WrapHalfDegrees(v.Heading.Degrees()-number(t, r[3])), 0.5+1e-9)
			assert.InDelta(t, 0, units.WrapHalfDegrees(v.Compass.Degrees()-number(t, r[1])), 0.5+1e-9)
			assert.InDelta(t, v.AirLog.NM()-0.05, number(t, r[9]), 0.0501)
			for i, want := range map[int]units.Position{10: units.Position(v.Air), 13: units.Position(v.Ground)} {
				got, err := units.ParsePosition(r[i] + " " + r[i+1])
				require.NoError(t, err)
				assert.InDelta(t, math.Abs(want.Lat.Minutes())-0.05, math.Abs(got.Lat.Minutes()), 0.0501)
				lon := math.Abs(units.WrapHalf(want.Lon).Minutes())
				assert.InDelta(t, lon-0.05, math.Abs(got.Lon.Minutes()), 0.0501)
				assert.Less(t, math.Abs(units.WrapHalf(got.Lon-want.Lon).Minutes()), 0.11, "the same side of 180")
			}
		}
		assert.Greater(t, minutes, 40, name)
	}
}

// What the aids said stands beside the time, to the figures the trade writes.
func TestReadingsTellWhatTheAidsSaid(t *testing.T) {
	pages, err := Readings(withAids(t), A4, 10*time.Minute)
	require.NoError(t, err)
	said := map[string]string{}
	for _, r := range rowsOf(pages) {
		said[r[0]] = r[len(r)-1]
	}
	for at, want := range map[string]string{
		"0933":    `^Drift \d+\.\d [LR]$`,
		"0935":    `^Sextant Rigil Kentaurus( \d+ \d\d\.\d|: not to be had)$`,
		"0937:30": `^Loop Cape Linnet \d{3}R$`,
		"0939":    `^Pulse Teal Holm \d+\.\d us$`,
		"0941":    `^Heading Rigil Kentaurus( \d{3}T|: not to be had)$`,
		"0942":    `^Pinpoint Gannet Rock: not to be had$`,
	} {
		assert.Regexp(t, want, said[at], at)
	}
}

// A sight is good for its middle, whose time is told; the words are short enough
// for their column on either paper.
func TestSightTellsItsTime(t *testing.T) {
	p := plan(t, "first-look")
	n := aboard.Entry{Elapsed: 20 * time.Minute, Event: aboard.Observed, Action: aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
		Aim: aboard.Aim{Aid: aboard.Sextant, Source: "Rigil Kentaurus"}, Angle: 43*units.Degree + 35.6*units.ArcMinute, Before: time.Minute,
	}}}
	assert.Equal(t, "Sextant Rigil Kentaurus 43 35.6 at 0949Z", Remark(p, &n))
	n.Action.Reading.Missing = aboard.TooLight
	assert.Equal(t, "Sextant Rigil Kentaurus: not to be had", Remark(p, &n))
}
