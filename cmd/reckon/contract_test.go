package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// minutes flies and reads the CSV it wrote.
func minutes(t *testing.T, args ...string) []map[string]string {
	file := filepath.Join(t.TempDir(), "minutes.csv")
	status, _, errs := call("", append([]string{"fly", "--csv", file}, args...)...)
	require.Equal(t, exitDone, status, errs)
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		out = append(out, row)
	}
	return out
}

// end flies and reads the JSON of the last tick.
func end(t *testing.T, args ...string) map[string]any {
	status, out, errs := call("", append([]string{"fly", "--json"}, args...)...)
	require.Equal(t, exitDone, status, errs)
	return decode(t, out)
}

func decode(t *testing.T, text string) (got map[string]any) {
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	return got
}

// The last row of the CSV is the moment of the JSON, figure by figure.
func TestCSVAndJSONAgree(t *testing.T) {
	all := minutes(t, "weather-triangle", "--until", "33m20s")
	row, got := all[len(all)-1], end(t, "weather-triangle", "--until", "33m20s")
	shown, truth := got["shown"].(map[string]any), got["truth"].(map[string]any)
	sensed, wrong := got["sensed"].(map[string]any), got["error"].(map[string]any)
	seen := 0
	check := func(column string, want any) {
		seen++
		x, err := strconv.ParseFloat(row[column], 64)
		require.NoError(t, err, column)
		assert.Equal(t, want, x, column)
	}
	check("elapsed_s", got["elapsed_s"])
	for column := range row {
		switch name, isShown := strings.CutPrefix(column, "shown_"); {
		case isShown:
			check(column, shown[name])
		case column == "pressure_altitude_ft":
			check(column, truth[column])
		case column == "air_temperature_c":
			check(column, sensed[column])
		case strings.HasSuffix(column, "_error_nm"):
			check(column, wrong[strings.Replace(column, "_error", "", 1)])
		}
	}
	for column, key := range map[string]string{
		"true_lat_deg": "lat_deg", "true_lon_deg": "lon_deg", "true_air_lat_deg": "air_lat_deg", "true_air_lon_deg": "air_lon_deg",
		"true_heading_deg": "heading_true_deg", "true_tas_kt": "tas_kt", "true_track_deg": "track_true_deg",
		"true_groundspeed_kt": "groundspeed_kt", "true_wind_from_deg_true": "wind_from_deg_true", "true_wind_kt": "wind_kt",
		"true_variation_deg": "variation_deg",
	} {
		check(column, truth[key])
	}
	assert.Equal(t, len(row)-1, seen, "every column but the clock's")
}

// Rows fall on whole minutes, in order, and the flight's end comes last.
func TestCSVRowsStandOnMinutes(t *testing.T) {
	all := minutes(t, "first-look")
	for i, row := range all[:len(all)-1] {
		require.Equal(t, strconv.Itoa(60*i), row["elapsed_s"])
	}
	got := end(t, "first-look")
	assert.Equal(t, strconv.FormatFloat(got["elapsed_s"].(float64), 'f', -1, 64), all[len(all)-1]["elapsed_s"])
	assert.Len(t, minutes(t, "--until", "2m"), 3, "an end on a minute is one row")
}

// --until is rounded up to a tick; 0 is the start and not the end; beyond the
// end is the end.
func TestUntil(t *testing.T) {
	for until, tick := range map[string]float64{"0s": 0, "1ns": 1, "62500us": 1, "1s": 16, "1m0.1s": 962} {
		assert.Equal(t, tick, end(t, "--until", until)["tick"], until)
	}
	assert.Equal(t, end(t)["hash"], end(t, "--until", "999h")["hash"])
	assert.Len(t, minutes(t, "--until", "0s"), 1)
}

func TestFlightOnStandardInput(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "scenarios", "flights", "first-look.toml"))
	require.NoError(t, err)
	_, want, _ := call("", "fly", "first-look")
	status, got, errs := call(string(text), "fly", "-")
	require.Equal(t, exitDone, status, errs)
	assert.Equal(t, want, got)
}

func TestCheckGoesOnAfterABadFile(t *testing.T) {
	status, out, errs := call("", "check", "nowhere", "first-look", "far-south", "nothing")
	assert.Equal(t, exitBad, status)
	assert.Equal(t, 2, strings.Count(out, "in order"))
	assert.Contains(t, errs, "nowhere")
	assert.Contains(t, errs, "nothing")
}

func TestListNamesEachFlightFirst(t *testing.T) {
	_, out, _ := call("", "list")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	var names []string
	for _, line := range lines {
		names = append(names, strings.Fields(line)[0])
	}
	assert.Equal(t, []string{"first-look", "weather-triangle", "far-south",
		"pitot-ice", "old-variation", "warm-air", "slipping-drive", "stuck-repeater", "after-the-swing", "every-mile",
		"lesson-air-position", "lesson-pitot-to-miles", "lesson-airspeed-and-height", "lesson-true-heading",
		"lesson-north-and-east", "lesson-wind", "lesson-fix-and-reset", "lesson-broken-link", "find-the-quiet-dial", "find-the-missing-miles",
		"find-the-still-card", "find-the-wrong-dial", "find-the-warm-bulb", "find-the-two"}, names)
}

// full is a disk without room.
type full struct{}

var errFull = errors.New("no room left")

func (full) Write([]byte) (int, error) { return 0, errFull }

// Results that did not arrive are a failure, whatever the command.
func TestResultsThatDoNotArrive(t *testing.T) {
	for _, args := range [][]string{
		{"list"}, {"check", "first-look"}, {"completion", "bash"}, {"completion", "fish"}, {"--help"},
		{"fly", "--until", "1m"}, {"fly", "--json", "--until", "1m"}, {"work", "rhumb"},
	} {
		var errs bytes.Buffer
		in := strings.NewReader("lat1_deg,lon1_deg,lat2_deg,lon2_deg\n0,0,0,1\n")
		assert.Equal(t, exitBad, run(args, streams{in, full{}, &errs}), "%v", args)
		assert.Contains(t, errs.String(), errFull.Error(), "%v", args)
	}
	missing := filepath.Join(t.TempDir(), "no", "such", "folder")
	for _, args := range [][]string{{"--csv", missing + ".csv"}, {"--chart", missing + ".svg"}} {
		status, out, errs := call("", append([]string{"fly", "--until", "1m"}, args...)...)
		assert.Equal(t, exitBad, status)
		assert.NotEmpty(t, errs)
		assert.Empty(t, out)
	}
}
