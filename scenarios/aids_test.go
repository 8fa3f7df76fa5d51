package scenarios

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/sim"
)

// TestReadingsThatCannotBe: each with what would be right.
func TestReadingsThatCannotBe(t *testing.T) {
	text, err := flightFiles.ReadFile(fileOf("first-look"))
	require.NoError(t, err)
	for entry, want := range map[string]string{
		`take = "telescope Sun"`:                              "the aids are",
		`take = "loop Cape Linet"`:                            "Cape Linnet",
		`take = "loop Skerrow"`:                               "no such beacon",
		`take = "pulse Skerrow"`:                              "no such chain station",
		`take = "sextant Vulcan"`:                             "no such body",
		`take = "drift Sun"`:                                  "write drift",
		"take = \"loop Cape Linnet\"\nerror = 31":             "-30",
		"set_variation_deg = 3\nerror = 1":                    "belongs to take",
		"set_variation_deg = 3\ntimed = true":                 "belongs to take",
		"take = \"loop Cape Linnet\"\ntimed = true":           "belongs to take = \"drift\"",
		"take = \"drift\"\ntiming_error_s = 1":                "belongs to timed = true",
		"take = \"drift\"\ntimed = true\ntiming_error_s = 61": "-60",
		"take = \"drift\"\ntimed = 3":                         "true or false",
		"take = \"sextant Sun\"\nerror = \"much\"":            "number",
	} {
		_, _, err := Load("f", strings.NewReader(string(text)+"\n[[crew]]\nat = \"5m\"\n"+entry+"\n"))
		require.Error(t, err, entry)
		assert.Contains(t, err.Error(), want, entry)
	}
	p, _, err := Load("f", strings.NewReader(string(text)+"\n[[crew]]\nat = \"5m\"\ntake = \"sextant rigil kentaurus\"\nerror = -2\n[[crew]]\nat = \"6m\"\ntake = \"pulse Teal Holm\"\n[[crew]]\nat = \"7m\"\ntake = \"drift\"\nerror = 0.5\ntimed = true\ntiming_error_s = -0.25\n"))
	require.NoError(t, err)
	var taken []aboard.Reading
	for _, c := range p.Crew {
		if c.Action.Kind == aboard.TakeAid {
			taken = append(taken, c.Action.Reading)
		}
	}
	assert.Equal(t, []aboard.Reading{
		{Aim: aboard.Aim{Aid: aboard.Sextant, Source: "Rigil Kentaurus"}, ByCrew: true, Error: -2},
		{Aim: aboard.Aim{Aid: aboard.PulseReceiver, Source: "Teal Holm"}, ByCrew: true},
		{Aim: aboard.Aim{Aid: aboard.DriftSight}, ByCrew: true, Error: 0.5, Timing: aboard.Timing{On: true, Error: -0.25}},
	}, taken)
}

func TestStationsOfTheWaters(t *testing.T) {
	w, err := Waters("tern-islands")
	require.NoError(t, err)
	kinds := map[sim.StationKind]int{}
	first := ""
	for _, s := range stationsOf(w) {
		kinds[s.Kind]++
		if s.Kind == sim.ChainStation && first == "" {
			first = s.Name
		}
	}
	assert.Equal(t, 3, kinds[sim.ChainStation])
	assert.Equal(t, "Skerrow", first, "the master")
	assert.GreaterOrEqual(t, kinds[sim.BeaconStation], 4)
	assert.Empty(t, stationsOf(nil))
}

// TestWhatIsWrongWithTheAids: errors and failures of the aids, and a cloud below.
func TestWhatIsWrongWithTheAids(t *testing.T) {
	p := example(t)
	assert.Equal(t, []aboard.Aid{aboard.PulseReceiver}, p.Aids.OutOfOrder)
	assert.InDelta(t, 0.5, p.Aids.Drift.Degrees(), 1e-12)
	assert.InDelta(t, -2, p.Aids.Sextant.Minutes(), 1e-12)
	assert.InDelta(t, 1.5, p.Aids.Loop.Degrees(), 1e-12)
	assert.InDelta(t, 0.02, p.Aids.Timing, 1e-12)
	assert.InDelta(t, -0.5, p.Aids.Heading.Degrees(), 1e-12)
	assert.Equal(t, 2.5, p.Aids.Pulse)
	assert.Equal(t, []sim.Span{{From: sim.TicksOf(80 * time.Minute), To: sim.TicksOf(100 * time.Minute)}}, p.Undercast)
}
