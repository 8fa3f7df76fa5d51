package film

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
)

// fixed is a flight on which two bearings are taken and give a fix.
const fixed = `schema = 1
title = "Two bearings"
start = 1957-08-14T01:30:00Z
seed = 7
waters = "tern-islands"
[aircraft]
position = [-46.8, 179.2]
heading_true_deg = 95
pressure_altitude_ft = 8000
tas_kt = 180
[[leg]]
heading_true_deg = 95
duration = "20m"
[[air.wind]]
from_deg_true = 300
speed_kt = 35
[setting]
wind_from_deg_true = 290
wind_kt = 25
[[crew]]
at = "9m"
take = "loop Cape Linnet"
[[crew]]
at = "11m"
take = "loop Gannet Rock"
`

// TestNavigatorsWork: position lines and fix come onto the chart as they are worked,
// go where the film goes back, and are told by the key from the start.
func TestNavigatorsWork(t *testing.T) {
	plan, _, err := scenarios.Load("fixed.toml", strings.NewReader(fixed))
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(1 << 40)
	s, err := NewScript(Plan{Rate: Rate{1, 1}, Speed: big.NewRat(60, 1), View: ChartView}, sim.TimeOf(e.Tick()))
	require.NoError(t, err)
	st, err := NewStudio(e, s, Look{Size: Size{640, 360}})
	require.NoError(t, err)
	end := take(e, s.Shot(20), false).plot(st.required)
	rows := keyOf(e, &end)
	for _, r := range []picture.KeyRow{picture.RowPosition, picture.RowTransferred, picture.RowWinds} {
		assert.Contains(t, rows, r)
	}
	worked := func(minute int) (lines, fixes int) {
		m := take(e, s.Shot(minute), false)
		st.settle(m)
		plot := m.plot(st.required)
		return len(plot.Lines), len(plot.Fixes)
	}
	for _, c := range [][3]int{{8, 0, 0}, {10, 1, 0}, {12, 3, 1}, {20, 3, 1}, {10, 1, 0}, {0, 0, 0}, {12, 3, 1}} {
		lines, fixes := worked(c[0])
		assert.Equal(t, c, [3]int{c[0], lines, fixes}, "the first line stands as it was taken, and moved on")
	}
}
