package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shortFlight is a few minutes long, so that many are soon flown.
const shortFlight = `schema = 1
title = "Out and round"
start = 1957-08-14T09:30:00Z
seed = 7
[aircraft]
position = [-47, 178]
heading_true_deg = 90
pressure_altitude_ft = 8000
tas_kt = 180
[[leg]]
heading_true_deg = 90
duration = "3m30s"
[spread]
compass_deg = 1
air_log_scale = 0.02
wind_kt = 5
`

// in puts a file into a folder of the test's own.
func in(t *testing.T, name, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return file
}

func contents(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return text
}

// done calls reckon, which must succeed.
func done(t *testing.T, args ...string) (out, errs string) {
	t.Helper()
	status, out, errs := call("", args...)
	require.Equal(t, exitDone, status, errs)
	return out, errs
}

// TestSpreadTable: a row for each look at the flights, the figures those of the CSV.
func TestSpreadTable(t *testing.T) {
	flight, file := in(t, "short.toml", shortFlight), filepath.Join(t.TempDir(), "a.csv")
	out, errs := done(t, "spread", flight, "--flights", "30", "--every", "1m", "--out", file)
	assert.Empty(t, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 5+5+2+3, out)
	assert.Equal(t, "standard deviations (as the flight says):", lines[11])
	assert.Equal(t, "       1 deg deviation not known, the same on all headings", lines[13])
	assert.Equal(t, "Out and round: 30 of 30 flights, errors drawn: flight, seed 7", lines[0])
	r, err := csv.NewReader(bytes.NewReader(contents(t, file))).ReadAll()
	require.NoError(t, err)
	require.Len(t, r, 1+5)
	column := map[string]int{}
	for i, name := range r[0] {
		column[name] = i
	}
	for i, clock := range []string{"0:00", "0:01", "0:02", "0:03", "end"} {
		f := strings.Fields(lines[5+i])
		require.GreaterOrEqual(t, len(f), 9, lines[5+i])
		assert.Equal(t, []string{clock, "30"}, f[:2])
		for k, name := range map[int]string{2: "median_miss_nm", 3: "r50_nm", 4: "r95_nm"} {
			var x float64
			_, err := fmt.Sscan(r[1+i][column[name]], &x)
			require.NoError(t, err)
			assert.Equal(t, fmt.Sprintf("%.1f", x), f[k], name)
		}
	}
	assert.Equal(t, "210", r[5][column["elapsed_s"]])
	assert.Equal(t, "0", r[5][column["share_thermometer"]])
	// 3.5 min: wind 5 kt 0.29 NM a component, compass 180 NM/h 0.18 NM, air log 0.21 NM
	assert.Contains(t, lines[9], "wind not known 69 %")
}

// TestSpreadShardsMerge: byte for byte the file and the table of one run, however
// many jobs; what does not fit or is missing is told.
func TestSpreadShardsMerge(t *testing.T) {
	flight, dir := in(t, "short.toml", shortFlight), t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	table, _ := done(t, "spread", flight, "--runs", "11", "--every", "1m", "--out", at("whole.json"), "--jobs", "1")
	var shards []string
	for i := 1; i <= 3; i++ {
		name := at(fmt.Sprintf("%d.json", i))
		done(t, "spread", flight, "--flights", "11", "--every", "1m", "--shard", fmt.Sprintf("%d/3", i), "--jobs", "3", "--out", name)
		shards = append(shards, name)
	}
	merged, errs := done(t, "spread", "merge", shards[2], shards[0], shards[1], "--out", at("merged.json"))
	assert.Empty(t, errs)
	assert.Equal(t, table, merged)
	assert.Equal(t, string(contents(t, at("whole.json"))), string(contents(t, at("merged.json"))))

	out, errs := done(t, "spread", "merge", shards[0], shards[2])
	assert.Equal(t, "flights 3 to 6 of 0 to 10 are missing\n", errs)
	assert.Contains(t, out, "7 of 11 flights")

	status, _, errs := call("", "spread", "merge", shards[0], shards[0])
	assert.Equal(t, exitBad, status)
	assert.Contains(t, errs, "flight 0 is in two shards")
	done(t, "spread", flight, "--flights", "11", "--every", "1m", "--shard", "2/3", "--seed", "8", "--out", at("other.json"))
	status, _, errs = call("", "spread", "merge", shards[0], at("other.json"))
	assert.Equal(t, exitBad, status)
	assert.Contains(t, errs, "another seed (8, not 7)")
	done(t, "spread", flight, "--flights", "11", "--every", "1m", "--shard", "2/3", "--preset", "ordinary", "--out", at("other.json"))
	status, _, errs = call("", "spread", "merge", shards[0], at("other.json"))
	assert.Equal(t, exitBad, status)
	assert.Contains(t, errs, "another law of errors (ordinary)")
	status, _, errs = call("", "spread", "merge", flight)
	assert.Equal(t, exitBad, status)
	assert.Contains(t, errs, "no file of a spread")
	status, _, _ = call("", "spread", "merge", at("none.json"))
	assert.Equal(t, exitBad, status)
}

// TestSpreadPresets: which law is flown, and that it says so.
func TestSpreadPresets(t *testing.T) {
	plain := in(t, "plain.toml", strings.Split(shortFlight, "[spread]")[0])
	out, _ := done(t, "spread", plain, "--flights", "2")
	assert.Contains(t, out, "errors drawn: ordinary, seed 7")
	out, _ = done(t, "spread", plain, "--flights", "2", "--preset", "neglected", "--seed", "18446744073709551615")
	assert.Contains(t, out, "errors drawn: neglected, seed 18446744073709551615")
	assert.Contains(t, out, "(invented: nobody measured them)")
	assert.Contains(t, out, "changing on the way, remembered for 2h0m0s")
	own := in(t, "own.toml", shortFlight)
	out, _ = done(t, "spread", own, "--flights", "2", "--preset", "well-kept")
	assert.Contains(t, out, "errors drawn: well-kept")
}

func TestSpreadCalledWrongly(t *testing.T) {
	flight := in(t, "short.toml", shortFlight)
	for _, args := range [][]string{
		{"--flights", "0"}, {"--flights", "1000001"}, {"--preset", "new"}, {"--shard", "0/3"}, {"--shard", "4/3"}, {"--shard", "1"},
		{"--shard", "one/2"}, {"--every", "1s"}, {"--jobs", "-1"}, {"--out", "a.xml"}, {"--plot", "a.gif"}, {"--seed", "-1"},
		{"--flights", "2", "--shard", "1/5"},
	} {
		status, out, errs := call("", append([]string{"spread", flight}, args...)...)
		assert.Equal(t, exitUsage, status, "%v: %s", args, errs)
		assert.Empty(t, out, "%v", args)
	}
	status, _, _ := call("", "spread")
	assert.Equal(t, exitUsage, status)
	status, _, errs := call("", "spread", in(t, "bad.toml", shortFlight+"wander_kt = 3\n"))
	assert.Equal(t, exitBad, status)
	assert.Contains(t, errs, "spread.wander_kt = 3: wants wander_time")
}

// TestSpreadStopped: what had been flown is written and shown, and merges with the
// rest; the exit status says that it is not all.
func TestSpreadStopped(t *testing.T) {
	flight, dir := in(t, "short.toml", shortFlight), t.TempDir()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	c := spreadFlyCmd{Flight: flight, Flights: 10, Every: time.Minute, Jobs: 1, ctx: ctx, spreadOut: spreadOut{Out: filepath.Join(dir, "a.json")}}
	err := c.Run(streams{strings.NewReader(""), &out, &errs})
	assert.EqualError(t, err, "stopped: 0 of 10 flights were flown; they are kept in "+c.Out+", from which --resume "+c.Out+" goes on")
	assert.Empty(t, out.String())
	assert.Contains(t, errs.String(), "no flight was flown")
	table, _ := done(t, "spread", flight, "--flights", "10", "--every", "1m", "--out", filepath.Join(dir, "b.json"))
	merged, _ := done(t, "spread", "merge", filepath.Join(dir, "a.json"), filepath.Join(dir, "b.json"))
	assert.Equal(t, table, merged)

	// From a part, with gaps before and after it, the whole is flown on, byte for byte.
	part := filepath.Join(dir, "part.json")
	done(t, "spread", flight, "--flights", "10", "--every", "1m", "--shard", "2/3", "--out", part)
	for _, from := range []string{"a.json", "part.json", "b.json"} {
		resumed, _ := done(t, "spread", flight, "--flights", "10", "--every", "1m", "--resume", filepath.Join(dir, from), "--out", filepath.Join(dir, "c.json"))
		assert.Equal(t, table, resumed, from)
		assert.Equal(t, string(contents(t, filepath.Join(dir, "b.json"))), string(contents(t, filepath.Join(dir, "c.json"))), from)
	}
	status, _, said := call("", "spread", flight, "--flights", "10", "--every", "1m", "--seed", "9", "--resume", part)
	assert.Equal(t, exitBad, status)
	assert.Contains(t, said, "another seed (9, not 7)")
}

// Progress speaks now and then, with the time left by the pace so far.
func TestProgress(t *testing.T) {
	var b bytes.Buffer
	now := time.Unix(0, 0)
	p := newProgress(&b)
	p.now = func() time.Time { return now }
	p.began, p.spoke = now, now
	for done := 1; done <= 100; done++ {
		now = now.Add(250 * time.Millisecond)
		p.told(done, 100)
	}
	p.end()
	assert.Equal(t, "40 of 100 flights flown, 15s left\n80 of 100 flights flown, 5s left\n", b.String())
}

// TestSpreadPlot: a picture in each format, and a JSON file that others can read.
func TestSpreadPlot(t *testing.T) {
	flight, dir := in(t, "short.toml", shortFlight), t.TempDir()
	for ending, begins := range map[string]string{"svg": "<svg", "png": "\x89PNG", "pdf": "%PDF"} {
		plot, data := filepath.Join(dir, "a."+ending), filepath.Join(dir, "a.json")
		done(t, "spread", flight, "--flights", "5", "--every", "1m", "--plot", plot, "--out", data)
		assert.Contains(t, string(contents(t, plot)[:200]), begins)
		var got struct {
			Flights []struct {
				End [2]float64 `json:"end_nm"`
			} `json:"flights"`
			Moments []struct {
				N int `json:"n"`
			} `json:"moments"`
		}
		require.NoError(t, json.Unmarshal(contents(t, data), &got))
		assert.Len(t, got.Flights, 5)
		assert.Len(t, got.Moments, 5)
		assert.NotZero(t, got.Flights[4].End[0])
	}
}
