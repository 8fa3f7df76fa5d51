package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden logs anew")

// call runs reckon as from a shell.
func call(in string, args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, streams{strings.NewReader(in), &o, &e})
	return status, o.String(), e.String()
}

func TestExitStatus(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte("schema = 1\ntitle = 3\nstrat = 1\n"), 0o600))
	for _, c := range []struct {
		args []string
		want int
	}{
		{[]string{"list"}, exitDone},
		{[]string{"check", "first-look"}, exitDone},
		{[]string{"fly", "--until", "1m"}, exitDone},
		{[]string{"--help"}, exitDone},
		{[]string{"check", bad}, exitBad},
		{[]string{"fly", bad}, exitBad},
		{[]string{"fly", "no-such-flight"}, exitBad},
		{[]string{"fly", "no/such/file.toml"}, exitBad},
		{[]string{"work", "rhumb"}, exitBad}, // an empty CSV
		{[]string{}, exitUsage},
		{[]string{"fyl"}, exitUsage},
		{[]string{"fly", "--untl", "1m"}, exitUsage},
		{[]string{"fly", "--until", "soon"}, exitUsage},
		{[]string{"fly", "--until", "-1m"}, exitUsage},
		{[]string{"fly", "--chart", "x.gif"}, exitUsage},
		{[]string{"work", "horoscope"}, exitUsage},
		{[]string{"completion", "tcsh"}, exitUsage},
	} {
		status, out, errs := call("", c.args...)
		assert.Equal(t, c.want, status, "%v: %s", c.args, errs)
		if c.want == exitDone {
			assert.NotEmpty(t, out, "%v", c.args)
			assert.Empty(t, errs, "%v", c.args)
		} else {
			assert.NotEmpty(t, errs, "%v", c.args)
			assert.Empty(t, out, "results alone go to standard output: %v", c.args)
		}
	}
}

func TestCheckNamesEveryError(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bad.toml")
	require.NoError(t, os.WriteFile(file, []byte("schema = 1\ntitle = 3\nstrat = 1\n"), 0o600))
	_, _, errs := call("", "check", file)
	assert.Contains(t, errs, file+":2: title = 3")
	assert.Contains(t, errs, file+":3: strat")
	assert.Contains(t, errs, "start")
	assert.Contains(t, errs, "aircraft")
}

// The keys of the contract, with a value for each.
func TestJSON(t *testing.T) {
	status, out, _ := call("", "fly", "--json", "--until", "40m")
	require.Equal(t, exitDone, status)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	keys := map[string]string{
		"truth":  "lat_deg lon_deg air_lat_deg air_lon_deg heading_true_deg tas_kt track_true_deg groundspeed_kt wind_from_deg_true wind_kt pressure_altitude_ft variation_deg",
		"sensed": "pitot_pa static_pa air_temperature_c heading_magnetic_deg",
		"shown":  "northing_nm easting_nm air_lat_deg air_lon_deg ground_lat_deg ground_lon_deg marker_lat_deg marker_lon_deg air_distance_nm heading_true_deg tas_kt wind_from_deg_true wind_kt variation_deg",
		"error":  "air_nm ground_nm",
	}
	assert.Len(t, got, len(keys)+3)
	for part, names := range keys {
		values := got[part].(map[string]any)
		assert.Len(t, values, len(strings.Fields(names)), part)
		for _, name := range strings.Fields(names) {
			x, ok := values[name].(float64)
			assert.True(t, ok && !math.IsNaN(x), "%s.%s", part, name)
		}
	}
	assert.Equal(t, 2400.0, got["elapsed_s"])
	assert.Equal(t, 38400.0, got["tick"])
	assert.Regexp(t, regexp.MustCompile("^[0-9a-f]{16}$"), got["hash"])
	_, again, _ := call("", "fly", "first-look", "--json", "--until", "40m")
	assert.Equal(t, out, again, "the same flight, the same hash")
}

func TestCSVHasARowAMinute(t *testing.T) {
	file := filepath.Join(t.TempDir(), "minutes.csv")
	status, _, errs := call("", "fly", "--until", "10m30s", "--csv", file)
	require.Equal(t, exitDone, status, errs)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.Len(t, lines, 1+11+1, "header, 0 to 10 minutes, the end")
	assert.Equal(t, strings.Join(minuteColumns, ","), lines[0])
	assert.True(t, strings.HasPrefix(lines[2], "60,1957-08-14T09:31:00Z,"), lines[2])
	assert.True(t, strings.HasPrefix(lines[12], "630,"), lines[12])
}

func TestCompletionKnowsTheWords(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish"} {
		status, out, _ := call("", "completion", shell)
		require.Equal(t, exitDone, status)
		for _, word := range []string{"fly", "first-look", "geodesic", "until", "spread", "merge", "shard", "landfall"} {
			assert.Contains(t, out, word, shell)
		}
	}
}

func TestWorkThroughTheCommand(t *testing.T) {
	status, out, _ := call("lat1_deg,lon1_deg,lat2_deg,lon2_deg\n0,0,0,1\n", "work", "rhumb")
	require.Equal(t, exitDone, status)
	// A degree of the equator of WGS-84: 6378137 pi/180/1852 NM.
	assert.Contains(t, out, "0,0,0,1,90,60.107")
}

// The log of each shipped flight, as printed; figures to a tenth do not differ
// between processors, the hash may.
func TestShippedFlightsFlyAsBefore(t *testing.T) {
	for _, name := range []string{"first-look", "weather-triangle", "far-south", "pitot-ice", "old-variation", "warm-air", "slipping-drive", "stuck-repeater", "after-the-swing", "every-mile", "night-stars", "inside-the-lattice"} {
		status, out, errs := call("", "fly", name)
		require.Equal(t, exitDone, status, errs)
		out = regexp.MustCompile(`hash +[0-9a-f]{16}`).ReplaceAllString(out, "hash")
		file := filepath.Join("testdata", name+".golden")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(file, []byte(out), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), out, name)
	}
}
