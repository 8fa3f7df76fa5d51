package scenarios

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim/spread"
)

func lawOf(t *testing.T, text string) *spread.Law {
	t.Helper()
	_, src, err := Load("f", strings.NewReader(text))
	require.NoError(t, err)
	return src.Spread
}

// Every figure of the example, read off the file by eye.
func TestSpreadOfTheExample(t *testing.T) {
	text, err := os.ReadFile("example.toml")
	require.NoError(t, err)
	want := &spread.Law{Name: "flight", WanderTime: 90 * time.Minute}
	for term, s := range map[spread.Term]float64{
		spread.Wind: 5, spread.Wander: 4, spread.Compass: 0.8, spread.Variation: 0.4, spread.Repeater: 0.3, spread.Resolver: 0.2,
		spread.Static: 0.008, spread.Thermometer: 1.5, spread.AirLog: 0.012, spread.Drive: 0.003, spread.Start: 0.7,
	} {
		want.Sigma[term] = s
	}
	assert.Equal(t, want, lawOf(t, string(text)))
}

// A preset is the law that single figures change; without one what is not given
// is not drawn; without the table nothing is said.
func TestSpreadOfAFlight(t *testing.T) {
	assert.Nil(t, lawOf(t, plainFlight))
	assert.Equal(t, &spread.Law{Name: "flight"}, lawOf(t, edit("", "[spread]")))
	want, _ := spread.Preset("neglected")
	want.Name, want.Sigma[spread.Drive] = "flight", 0
	assert.Equal(t, &want, lawOf(t, edit("", "[spread]\npreset = \"neglected\"\ndrive_ratio = 0")))
	for _, name := range spread.Presets() {
		law := lawOf(t, edit("", "[spread]\npreset = \""+name+"\""))
		assert.NoError(t, law.Check(), name)
	}
}

func TestSpreadRefusals(t *testing.T) {
	for text, want := range map[string]string{
		"[spread]\npreset = \"ordinry\"":                    `f:14: spread.preset = "ordinry": must be "well-kept", "ordinary" or "neglected"; did you mean "ordinary"?`,
		"[spread]\nwind_kts = 3":                            `f:14: spread.wind_kts = 3: unknown key; did you mean wind_kt?`,
		"[spread]\nwander_kt = 3":                           `f:14: spread.wander_kt = 3: wants wander_time: the time after which the wander keeps 1/e of what it was, such as "2h"`,
		"[spread]\nwander_kt = 3\nwander_time = \"59.99s\"": "",
		"[spread]\nwander_kt = 3\nwander_time = \"59s\"":    `f:15: spread.wander_time = "59s": must be 1m to 48h`,
		"[spread]\nwander_kt = 3\nwander_time = \"soon\"":   `f:15: spread.wander_time = "soon": must be a duration as Go writes it, such as "1h30m", "90s" or "0s"`,
		"[spread]\ncompass_deg = 10.5":                      "f:14: spread.compass_deg = 10.5: must be 0 to 10 deg",
		"[[spread]]\ncompass_deg = 1":                       "f:13: spread: must be written [spread], once",
	} {
		err := check(edit("", text))
		if want == "" {
			assert.NoError(t, err, text)
		} else {
			assert.EqualError(t, err, want, text)
		}
	}
}
