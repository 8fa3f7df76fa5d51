package flights

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/look"
	"stillair/scenarios"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// plainFlight is a flight of ten minutes that is in order.
const plainFlight = `schema = 1
title = "Plain"
summary = "Ten minutes due east."
start = 1957-08-14T09:30:00Z
seed = 1
[aircraft]
position = "47 10.0 S 178 30.0 E"
heading_true_deg = 90
pressure_altitude_ft = 8000
tas_kt = 180
[[leg]]
heading_true_deg = 90
duration = "10m"
`

// file writes a flight into a folder of its own.
func file(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plain.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

func TestOpenAFile(t *testing.T) {
	path := file(t, plainFlight)
	f, err := Open(path)
	require.NoError(t, err)
	assert.Equal(t, "plain.toml", f.Name)
	assert.Equal(t, path, f.Path)
	assert.Equal(t, "Plain", f.Plan.Title)
	assert.Equal(t, "Ten minutes due east.", f.Summary)
	assert.Equal(t, 10*time.Minute, f.Length())
	assert.Equal(t, time.Date(1957, 8, 14, 9, 40, 0, 0, time.UTC), f.End())
	assert.Equal(t, plainFlight, string(f.Source.Text))
	assert.Len(t, f.Survey.Legs, 1)
}

func TestOpenAShippedFlight(t *testing.T) {
	for _, s := range scenarios.Shipped() {
		f, err := Open(s.Name)
		require.NoError(t, err)
		assert.Equal(t, s.Name, f.Name)
		assert.Empty(t, f.Path)
		assert.Equal(t, s.Summary, f.Summary)
		assert.Greater(t, f.Length(), time.Hour)
	}
	_, err := Open("first-lok")
	assert.ErrorContains(t, err, "did you mean first-look?")
	list, n := Explain(err)
	assert.Equal(t, 1, n)
	assert.Contains(t, list[0].What, "first-look")
}

func TestAFileWithErrorsSaysAllOfThem(t *testing.T) {
	path := file(t, strings.Replace(strings.Replace(plainFlight, "tas_kt = 180", "  tas_kt = 950", 1), `"10m"`, "10", 1))
	_, err := Open(path)
	var refused *Refused
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, "plain.toml", refused.Name)
	assert.Equal(t, path, refused.Path)
	list, n := Explain(err)
	require.Equal(t, 2, n)
	assert.Equal(t, []Wrong{
		{10, "tas_kt = 950", "Aircraft, true airspeed: 950 is too much.", "Legal: 40 to 450 kt."},
		{13, "duration = 10", "Leg 1, duration: a whole number will not do.", `Legal: a duration in quotes, such as "1h30m".`},
	}, list)
}

func TestWhatIsNoFlightFile(t *testing.T) {
	folder := t.TempDir()
	for path, words := range map[string]look.Key{
		folder:                               look.FileIsFolder,
		filepath.Join(folder, "none.toml"):   look.FileMissing,
		filepath.Join(folder, "no", "x.y"):   look.FileMissing,
		os.DevNull:                           look.FileIsOdd,
		filepath.Join(folder, "a\x00b.toml"): look.FileUnreadable,
	} {
		_, err := Open(path)
		require.Error(t, err, path)
		list, n := Explain(err)
		assert.Equal(t, 1, n)
		assert.Equal(t, []Wrong{{What: look.Text(words)}}, list, path)
	}
	_, err := Open(filepath.Join(folder, "none.toml"))
	assert.True(t, errors.Is(err, fs.ErrNotExist), "the reason is kept")
}

func TestTooLarge(t *testing.T) {
	_, err := Open(file(t, plainFlight+strings.Repeat("# x\n", 1<<20)))
	assert.ErrorContains(t, err, "larger than 4 MB")
}

func TestLengthText(t *testing.T) {
	for d, want := range map[time.Duration]string{
		40 * time.Minute: "40 min", 2 * time.Hour: "2 h", 90 * time.Minute: "1 h 30 min",
		59*time.Minute + 40*time.Second: "1 h", 20 * time.Second: "0 min", 48 * time.Hour: "48 h",
	} {
		assert.Equal(t, want, LengthText(d))
	}
}

func TestWhere(t *testing.T) {
	for key, want := range map[string]string{
		"":                          "",
		"title":                     "Title",
		"leg[2].cas_kt":             "Leg 2, calibrated airspeed",
		"leg[12]":                   "Leg 12",
		"air.wind[3].from_deg_true": "Wind 3, direction",
		"air.isa_deviation_c":       "Air, deviation from standard",
		"crew[3].set_wind.speed_kt": "Crew action 3, set wind, speed",
		"fault[1].drift_deg_h":      "Fault 1, drift",
		"mechanism.slaving_deg_min": "Mechanism, slaving",
		"a.b...":                    "A, b",
	} {
		assert.Equal(t, want, Where(key), key)
	}
}

// Whatever the loader has to say comes through: each file of its own tests of
// errors gives as many problems, and no word of a message is lost.
func TestNoWordOfTheLoaderIsLost(t *testing.T) {
	files, err := filepath.Glob("../../scenarios/testdata/bad/*.toml")
	require.NoError(t, err)
	require.Greater(t, len(files), 15)
	for _, path := range files {
		_, err := Open(path)
		var all *scenarios.Errors
		require.ErrorAs(t, err, &all, path)
		list, n := Explain(err)
		assert.Equal(t, len(all.Problems)+all.More, n)
		require.Len(t, list, len(all.Problems))
		for i, w := range list {
			p := all.Problems[i]
			assert.Equal(t, p.Line, w.Line)
			assert.NotEmpty(t, w.What)
			said := strings.ToLower(w.What + " " + w.Legal)
			for _, word := range strings.FieldsFunc(strings.ToLower(p.Msg), func(r rune) bool { return strings.ContainsRune(" ,;:.?()", r) }) {
				if !strings.Contains("must be not is required unknown key table toml a string an array", word) {
					assert.Contains(t, said, word, "%s: %s", path, p.Error())
				}
			}
		}
	}
}
