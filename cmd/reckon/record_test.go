package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRecordAndReplay: what fly writes down comes out alike; a record that is cut
// off, spoilt or of something else says so.
func TestRecordAndReplay(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.record")
	status, _, said := call("", "fly", "pitot-ice", "--record", file, "--csv", filepath.Join(t.TempDir(), "a.csv"))
	require.Zero(t, status, said)
	status, out, said := call("", "replay", file)
	assert.Zero(t, status, said)
	assert.Contains(t, out, "minutes compared by hashes\nall are alike\n")
	text, err := os.ReadFile(file)
	require.NoError(t, err)

	spoil := func(change func([]byte) []byte) (int, string, string) {
		other := filepath.Join(t.TempDir(), "b.record")
		require.NoError(t, os.WriteFile(other, change(bytes.Clone(text)), 0o600))
		return call("", "replay", other)
	}
	status, out, said = spoil(func(b []byte) []byte { return b[:len(b)-40] })
	assert.Equal(t, exitBad, status)
	assert.Contains(t, out, "there is no closing line")
	assert.Contains(t, said, "the last line is torn")
	status, _, said = spoil(func(b []byte) []byte {
		at := bytes.LastIndex(b, []byte(`"true":[`))
		b[at+12]++
		return b
	})
	assert.Equal(t, exitBad, status)
	assert.Contains(t, said, "has been changed")
	status, _, said = spoil(func([]byte) []byte { return []byte("schema = 1\n") })
	assert.Equal(t, exitBad, status)
	assert.Contains(t, said, "line 1: ")
	status, _, _ = call("", "replay", filepath.Join(t.TempDir(), "none"))
	assert.Equal(t, exitBad, status)
}

// TestDebriefAddsUp: the account of a record is that of the flight, its printed
// columns add up, and its JSON keeps to the contract.
func TestDebriefAddsUp(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.record")
	status, flown, said := call("", "fly", "slipping-drive", "--until", "50m", "--record", file, "--json")
	require.Zero(t, status, said)
	var last struct {
		Error struct {
			Air    float64 `json:"air_nm"`
			Ground float64 `json:"ground_nm"`
		} `json:"error"`
	}
	require.NoError(t, json.Unmarshal([]byte(flown), &last))
	status, out, said := call("", "debrief", file, "--json")
	require.Zero(t, status, said)
	var d debriefJSON
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	assert.InDelta(t, last.Error.Ground, d.Total.NM, 1e-9)
	assert.InDelta(t, last.Error.Air, d.Air.Total.NM, 1e-9)
	var n, e, most float64
	var worst string
	for _, l := range d.Links {
		n, e = n+l.NorthNM, e+l.EastNM
		if l.NM > most {
			most, worst = l.NM, l.ID
		}
	}
	assert.InDelta(t, d.Total.NorthNM, n, 1e-9)
	assert.InDelta(t, d.Total.EastNM, e, 1e-9)
	assert.Equal(t, "drive", worst)
	assert.Len(t, d.Timeline, 51)
	for _, l := range d.Links {
		if assert.Equal(t, l.ID == "drive", l.IfRight != nil, "only the drive was wrong: %s", l.ID); l.IfRight != nil {
			assert.Less(t, l.IfRight.NM, 0.0052*170, "the earth's shape is left")
		}
	}
	status, out, said = call("", "debrief", file, "--json", "--right", "drive")
	require.Zero(t, status, said)
	var right debriefJSON
	require.NoError(t, json.Unmarshal([]byte(out), &right))
	for _, l := range d.Links {
		if l.ID == "drive" {
			assert.InDelta(t, l.IfRight.NM, right.Total.NM, 1e-9)
		}
	}
	status, _, said = call("", "debrief", file, "--right", "gremlin")
	assert.Equal(t, 2, status)
	assert.Contains(t, said, "gremlin")

	status, out, said = call("", "debrief", file)
	require.Zero(t, status, said)
	sums := map[string]float64{}
	for _, line := range strings.Split(out, "\n") {
		if len(line) < 55 {
			continue
		}
		north, err := strconv.ParseFloat(strings.TrimSpace(line[30:39]), 64)
		if err != nil {
			continue
		}
		if strings.HasPrefix(line, "total") {
			assert.InDelta(t, sums["now"], north, 1e-9, out)
			sums["now"] = 0
		} else {
			sums["now"] += north
		}
	}
	assert.Contains(t, out, "drive ")
	assert.Regexp(t, `(?m)^drive .* left$`, out)
}
