package scenarios

import (
	"errors"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

func exhibitRules() ExhibitRules {
	return ExhibitRules{
		Languages: func(folder string) ([]string, error) {
			if folder == "broken" {
				return nil, errors.New("es.toml: no word for mend")
			}
			return []string{"de", "en", "es"}, nil
		},
		Told: func(string, []string) []string { return []string{"drive-slip", "pitot-leak", "variation-mis-set"} },
	}
}

func loadExhibit(text string) (*Exhibit, error) {
	return LoadExhibit("hall.toml", strings.NewReader(text), exhibitRules())
}

func TestAnExhibitOfOneLine(t *testing.T) {
	x, err := loadExhibit("schema = 1\n")
	require.NoError(t, err)
	assert.Equal(t, []string{"en", "de"}, x.Languages)
	assert.Equal(t, 90*time.Second, x.Idle)
	assert.Equal(t, "KEY", x.Keeper)
	assert.Equal(t, "Port Aldous", x.Flight.Place)
	assert.Equal(t, "Skerrow", x.Landing.Place)
	require.Len(t, x.Faults, 1)
	assert.Equal(t, "drive-slip", x.Faults[0].ID)
	assert.Nil(t, x.Hours)
	assert.True(t, x.Hours.OpenAt(time.Now()), "always open")
}

func TestAWholeExhibit(t *testing.T) {
	x, err := loadExhibit(`schema = 1
title = "Where are we?"
languages = ["es", "de"]
texts = "texts"
idle = "2m"
low = true
captions = true
reduced_motion = true
larger_text = true
cursor = true
light = "night"
keeper = "mus3"
shift_px = 8
shift_every = "30s"
rate = 45
[flight]
from = "port halyard"
start = 1960-01-02T03:04:05Z
heading_true_deg = 360
tas_kt = 150
wind_from_deg_true = 200
wind_kt = 10
pressure_altitude_ft = 5000
[[fault]]
id = "drive-slip"
slip = 0.2
[[fault]]
id = "pitot-leak"
[landing]
at = "Fulmar"
time = "2m"
[hours]
monday = "10:00-18:00"
sunday = "00:00-24:00"
`)
	require.NoError(t, err)
	assert.Equal(t, []string{"es", "de"}, x.Languages)
	assert.True(t, x.Low && x.Captions && x.ReducedMotion && x.Larger && x.Cursor && x.Night)
	assert.Equal(t, "MUS3", x.Keeper)
	assert.Equal(t, 8, x.Shift)
	assert.Equal(t, 45.0, x.Rate)
	assert.Equal(t, "Port Halyard", x.Flight.Place)
	assert.Zero(t, x.Flight.Heading)
	assert.InDelta(t, 150, x.Flight.TAS.Knots(), 1e-9)
	assert.InDelta(t, 10, x.Flight.Wind.Speed.Knots(), 1e-9)
	assert.Equal(t, units.Angle(200)*units.Degree, x.Flight.Wind.From)
	assert.Equal(t, 1960, x.Flight.Start.Year())
	require.Len(t, x.Faults, 2)
	assert.Equal(t, []float64{0.2}, x.Faults[0].Params)
	assert.Equal(t, []float64{0.1}, x.Faults[1].Params, "the catalogue's default")
	assert.Equal(t, 2*time.Minute, x.Landing.Time)
	at := func(day, hour, minute int) bool {
		return x.Hours.OpenAt(time.Date(2026, 11, day, hour, minute, 59, 0, time.Local)) // the 23rd is a Monday
	}
	assert.False(t, at(23, 9, 59))
	assert.True(t, at(23, 10, 0))
	assert.True(t, at(23, 17, 59))
	assert.False(t, at(23, 18, 0))
	assert.False(t, at(24, 12, 0), "a day that is not named is closed")
	assert.True(t, at(22, 23, 59))
}

// TestExhibitsAreRefused: every key and value, each with its line, key, value and what
// would be legal; all of them at once.
func TestExhibitsAreRefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                                            "schema: is required",
		"schema = 2":                                  "schema = 2: this file wants schema 2",
		"idel = \"2m\"":                               "idel = \"2m\": unknown key; did you mean idle",
		"title = \"\"":                                "title = \"\": must not be empty",
		"languages = [\"xx\"]":                        "languages = \"xx\": no such language: there are de, en, es",
		"languages = []":                              "must have 1 to 6 entries",
		"languages = [\"en\", \"en\"]":                "given twice",
		"languages = 3":                               "must be an array of strings",
		"texts = \"broken\"":                          "texts = \"broken\": es.toml: no word for mend",
		"idle = \"19s\"":                              "idle = \"19s\": must be 20s to 30m",
		"idle = 90":                                   "must be a duration in quotes",
		"low = 1":                                     "low = 1: must be true or false",
		"captions = \"no\"":                           "must be true or false",
		"light = \"lamp\"":                            "light = \"lamp\": must be \"paper\" or \"night\"",
		"keeper = \"KE\"":                             "keeper = \"KE\": must be 3 to 8 different letters or figures",
		"keeper = \"KEK\"":                            "must be 3 to 8 different",
		"shift_px = 17":                               "shift_px = 17: must be 0 to 16",
		"shift_px = 1.5":                              "must be a whole number, 0 to 16, not a number",
		"shift_every = \"1s\"":                        "must be 5s to 1h",
		"rate = 0.5":                                  "rate = 0.5: must be 1 to 240 seconds of flight in a second",
		"rate = nan":                                  "rate = nan: must be 1 to 240",
		"[flight]\nwaters = \"baltic\"":               "flight.waters = \"baltic\": must be \"tern-islands\"",
		"[flight]\nfrom = \"Skerow\"":                 "flight.from = \"Skerow\": no such place in tern-islands; did you mean Skerrow",
		"[flight]\nstart = 1899-01-01T00:00:00Z":      "must be 1900-01-01T00:00:00Z to 2030",
		"[flight]\nheading_true_deg = 361":            "flight.heading_true_deg = 361: must be 0 to 360",
		"[flight]\ntas_kt = 80":                       "flight.tas_kt = 80: must be 90 to 300 kt",
		"[flight]\nwind_kt = 81":                      "flight.wind_kt = 81: must be 0 to 80 kt",
		"[flight]\nwind_from_deg_true = -1":           "must be 0 to 360",
		"[flight]\npressure_altitude_ft = 0":          "must be 500 to 25000 ft",
		"[[fault]]\nid = \"drive-slap\"":              "fault[1].id = \"drive-slap\": no such fault; did you mean",
		"[[fault]]\nid = \"drive-broken\"":            "has no sentence in every language of the exhibit; those with one: drive-slip, pitot-leak, variation-mis-set",
		"[[fault]]\nid = \"drive-slip\"\nslip = 2":    "fault[1].slip = 2: must be 0 to 1",
		"[[fault]]\nid = \"drive-slip\"\nslop = 1":    "unknown key; did you mean slip",
		"[[fault]]\nid = \"drive-slip\"\nat = \"5m\"": "fault[1].at = \"5m\": unknown key",
		"[[fault]]\nslip = 1":                         "fault[1].id: is required",
		strings.Repeat("[[fault]]\nid = \"drive-slip\"\n", 7): "at most 6 [[fault]]",
		"[landing]\nat = \"Atlantis\"":                        "landing.at = \"Atlantis\": no such place",
		"[landing]\nat = \"Port Aldous\"":                     "must be 20 to 400 NM",
		"[landing]\ntime = \"5s\"":                            "must be 30s to 5m",
		"[hours]\nmonday = \"9-17\"":                          "hours.monday = \"9-17\": must be from 00:00 to 24:00",
		"[hours]\nmonday = \"17:00-09:00\"":                   "the end after the beginning",
		"[hours]\nmonday = \"10:00-24:01\"":                   "must be from 00:00 to 24:00",
		"[hours]\nmonay = \"10:00-18:00\"":                    "unknown key; did you mean monday",
		"[hours]":                                             "names no day on which it is open",
		"hours = 3":                                           "must be a table",
	} {
		if !strings.HasPrefix(text, "schema") && text != "" {
			text = "schema = 1\n" + text
		}
		_, err := loadExhibit(text)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
			assert.True(t, strings.HasPrefix(err.Error(), "hall.toml:"), err.Error())
		}
	}
}

func TestAllThatIsWrongWithAnExhibitComesAtOnce(t *testing.T) {
	_, err := loadExhibit("schema = 1\nidle = 3\nrate = 0\nlow = 0\n[hours]\nmonday = \"x\"\n[flight\n")
	var all *Errors
	require.True(t, errors.As(err, &all))
	lines := map[int]bool{}
	for _, p := range all.Problems {
		lines[p.Line] = true
	}
	for _, line := range []int{2, 3, 4, 6, 7} {
		assert.True(t, lines[line], "line %d: %v", line, err)
	}
}

// TestAPlaceThatIsNotThereIsToldOnce: how far the landing is from it is not.
func TestAPlaceThatIsNotThereIsToldOnce(t *testing.T) {
	_, err := loadExhibit("schema = 1\n[flight]\nfrom = \"Nowhere\"\n[landing]\nat = \"Skerrow\"\n")
	var all *Errors
	require.True(t, errors.As(err, &all))
	require.Len(t, all.Problems, 1)
	assert.Contains(t, all.Problems[0].Error(), "no such place")
}

func FuzzExhibit(f *testing.F) {
	if text, err := os.ReadFile("../docs/exhibit/exhibit.toml"); err == nil {
		f.Add(string(text))
	}
	f.Add("schema = 1\n[[fault]]\nid = \"drive-slip\"\n[hours]\nmonday = \"10:00-18:00\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		x, err := loadExhibit(text)
		if err != nil {
			return
		}
		assert.NotEmpty(t, x.Languages)
		assert.NotEmpty(t, x.Faults)
		assert.GreaterOrEqual(t, x.Idle, minIdle)
		assert.NotEmpty(t, x.Flight.Place)
		for _, o := range x.Faults {
			assert.NoError(t, o.Check())
		}
	})
}
