package scenarios

import (
	"math/big"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim"
)

func cueRules() CueRules {
	return CueRules{
		Views: []string{"chart", "linkage", "both"}, Links: []string{"drive", "resolver"}, InLink: []string{"linkage", "both"},
		View: "chart", From: time.Minute, Speed: big.NewRat(30, 1),
	}
}

func loadCues(text string) (*Cues, error) {
	return LoadCues("c.toml", strings.NewReader(text), cueRules())
}

// What stands before the first cue is as the command line says; what a cue does not
// say stays; times are exact.
func TestCuesAreRead(t *testing.T) {
	c, err := loadCues(`
length = "1m"
[[cue]]
at = "10.5s"
speed = 0.1
view = "both"
link = "drive"
caption = "The drive slips."
[[cue]]
at = "20s"
flight = "40m"
[[cue]]
at = "30s"
flight = "45m"
link = ""
caption = ""
`)
	require.NoError(t, err)
	assert.Equal(t, time.Minute, c.Length)
	require.Len(t, c.Passages, 4)
	p := c.Passages
	assert.Equal(t, Passage{Start: big.NewRat(60, 1), Speed: big.NewRat(30, 1), View: "chart"}, p[0])
	assert.Equal(t, "375", p[1].Start.RatString(), "60 + 30 x 10.5")
	assert.Equal(t, "1/10", p[1].Speed.RatString(), "as it was written, not as it is held")
	assert.Equal(t, [3]string{"both", "drive", "The drive slips."}, [3]string{p[1].View, p[1].Link, p[1].Caption})
	assert.Equal(t, "2400", p[2].Start.RatString(), "a speed of its own before it: the film cuts")
	assert.Equal(t, "30", p[2].Speed.RatString(), "300 s of flight in 10 of film")
	assert.Equal(t, p[1].Caption, p[2].Caption)
	assert.Equal(t, [3]string{"both", "", ""}, [3]string{p[3].View, p[3].Link, p[3].Caption})
	assert.Equal(t, "2550", p[2].Flight(big.NewRat(25, 1)).RatString())
	assert.Equal(t, []int{0, 3, 9, 12}, []int{p[0].Line, p[1].Line, p[2].Line, p[3].Line})

	c, err = loadCues("[[cue]]\nat = \"0s\"\nflight = \"5m\"\n[[cue]]\nat = \"10s\"\nflight = \"6m\"\n")
	require.NoError(t, err)
	require.Len(t, c.Passages, 2, "a first cue at 0 takes the place of what stands before")
	assert.Equal(t, "6", c.Passages[0].Speed.RatString())
	assert.Equal(t, "6", c.Passages[1].Speed.RatString(), "and it goes on so")

	c, err = loadCues("[[cue]]\nat = \"10s\"\nflight = \"6m\"\n")
	require.NoError(t, err)
	assert.Equal(t, "30", c.Passages[0].Speed.RatString(), "300 s from --from to the first cue, in 10")
}

// Every error names file, line, key, value and what would be legal.
func TestCuesAreRefused(t *testing.T) {
	at := "[[cue]]\nat = \"1s\"\n"
	for text, want := range map[string]string{
		"":                                           "c.toml:1: cue: is required: at least one [[cue]]",
		"[[cue]]\nspeed = 1":                         `c.toml:1: cue[1].at: is required: film time at which the cue begins, such as "12.5s"`,
		"[[cue]]\nat = 5":                            `c.toml:2: cue[1].at = 5: must be a duration in quotes, such as "12.5s", not a whole number`,
		"[[cue]]\nat = \"soon\"":                     `c.toml:2: cue[1].at = "soon": must be a duration as Go writes it, such as "12.5s", "90s" or "0s"`,
		"[[cue]]\nat = \"-1s\"":                      `c.toml:2: cue[1].at = "-1s": must be 0s to 12h`,
		at + "flight = \"49h\"":                      `c.toml:3: cue[1].flight = "49h": must be 0s to 48h`,
		at + "speed = -1":                            "c.toml:3: cue[1].speed = -1: must be 0 to 3600 seconds of flight in a second of film",
		at + "speed = 3601":                          "c.toml:3: cue[1].speed = 3601: must be 0 to 3600 seconds of flight in a second of film",
		at + "speed = nan":                           "c.toml:3: cue[1].speed = nan: must be 0 to 3600 seconds of flight in a second of film",
		at + "speed = \"30\"":                        `c.toml:3: cue[1].speed = "30": must be a number, 0 to 3600 seconds of flight in a second of film, not a string`,
		at + "view = \"map\"":                        `c.toml:3: cue[1].view = "map": must be "chart", "linkage" or "both"`,
		at + "view = \"linkge\"":                     `c.toml:3: cue[1].view = "linkge": must be "chart", "linkage" or "both"; did you mean "linkage"?`,
		at + "link = \"wheel\"":                      `c.toml:3: cue[1].link = "wheel": must be "drive" or "resolver"`,
		at + "link = \"drive\"":                      `c.toml:3: cue[1].link = "drive": has no place in the view chart: must be in linkage or both`,
		at + "caption = 3":                           "c.toml:3: cue[1].caption = 3: must be a string, not a whole number",
		at + "caption = \"a\\nb\"":                   `c.toml:3: cue[1].caption = "a\nb": must be one line of at most 200 characters`,
		at + "colour = \"red\"":                      `c.toml:3: cue[1].colour = "red": unknown key; known here: at, flight, speed, view, link, caption`,
		at + "at = \"2s\"":                           `c.toml:3: cue[1].at = "2s": doubled key: first given in line 2`,
		"lenght = \"5s\"\n" + at:                     `c.toml:1: lenght = "5s": unknown key; did you mean length?`,
		"length = \"0s\"\n" + at:                     `c.toml:1: length = "0s": must be above 0, up to 12h`,
		"length = \"1s\"\n" + at:                     `c.toml:1: length = "1s": must be later than the last cue, 1s in line 2`,
		at + "speed = 0":                             "c.toml:1: length: is required, above 1s, for the last cue stands still",
		at + at:                                      `c.toml:4: cue[2].at = "1s": must be later than the cue before it, in line 2`,
		at + "flight = \"30s\"":                      `c.toml:3: cue[1].flight = "30s": must be 1m0s to 1h1m0s, for the cue before it has no speed and runs up to here (with a speed of its own the film cuts)`,
		at + "[[cue]]\nat = \"2s\"\nflight = \"1m\"": `c.toml:5: cue[2].flight = "1m": must be 1m30s to 1h1m30s, for the cue before it has no speed and runs up to here (with a speed of its own the film cuts)`,
		"[cue]\nat = \"1s\"":                         "must be written [[cue]], once for each",
		"cue = 3":                                    "c.toml:1: cue = 3: must be tables [[cue]], not a whole number",
		at + "speed = = 3":                           "c.toml:3:9: not TOML",
	} {
		_, err := loadCues(text)
		assert.ErrorContains(t, err, want, text)
	}
	_, err := loadCues(at + "speed = -1\nview = \"map\"\n[[cue]]\nat = \"x\"\n")
	assert.Equal(t, 3, strings.Count(err.Error(), "c.toml:"), "all at once: %v", err)
}

// The example is in order for the flight that it names, and shows every key.
func TestExampleCues(t *testing.T) {
	text, err := os.ReadFile("example-cues.toml")
	require.NoError(t, err)
	rules := cueRules()
	rules.Views, rules.Links, rules.From = append(rules.Views, "counters"), sim.LinkNames(), 0
	c, err := LoadCues("example-cues.toml", strings.NewReader(string(text)), rules)
	require.NoError(t, err)
	assert.Equal(t, 40*time.Second, c.Length)
	require.Len(t, c.Passages, 6)
	assert.Equal(t, "100", c.Passages[1].Speed.RatString(), "20 minutes in 12 s")
	require.NoError(t, c.Check(90*time.Minute))
	for _, key := range []string{"length", "at", "flight", "speed", "view", "link", "caption"} {
		assert.Contains(t, string(text), "\n"+key+" = ")
	}
}

func TestCuesBeyondTheFlight(t *testing.T) {
	c, err := loadCues("[[cue]]\nat = \"1s\"\nspeed = 1\n[[cue]]\nat = \"2s\"\nflight = \"40m\"\n")
	require.NoError(t, err)
	assert.NoError(t, c.Check(40*time.Minute))
	assert.EqualError(t, c.Check(39*time.Minute), "c.toml:4: cue[2]: the flight is at 40m0s here and ends at 39m0s: must be 0s to 39m0s")
}

// Whatever stands in the file, it is read or refused, and what is read runs on
// without a gap in film time.
func FuzzCues(f *testing.F) {
	f.Add("[[cue]]\nat = \"1s\"\nspeed = 3\n[[cue]]\nat = \"2s\"\nflight = \"2h\"\n")
	f.Add("length = \"3s\"\n[[cue]]\nat = \"0s\"\nspeed = 0.0\nview = \"both\"\nlink = \"drive\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := loadCues(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.NotEmpty(t, c.Passages)
		require.Zero(t, c.Passages[0].At)
		for i, p := range c.Passages {
			require.GreaterOrEqual(t, p.Speed.Sign(), 0)
			require.True(t, i == 0 || p.At > c.Passages[i-1].At)
			require.GreaterOrEqual(t, p.Start.Sign(), 0)
		}
	})
}
