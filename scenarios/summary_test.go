package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// summed is a flight that is in order, with a line of its own in its head.
func summed(line string) (*Source, error) {
	_, src, err := Load("sum.toml", strings.NewReader("schema = 1\ntitle = \"t\"\nstart = 1957-08-14T09:30:00Z\nseed = 1\n"+line+`
[aircraft]
position = "47 10.0 S 178 30.0 E"
heading_true_deg = 90
pressure_altitude_ft = 10000
tas_kt = 180
[[leg]]
heading_true_deg = 90
duration = "10m"
`))
	return src, err
}

func TestSummaryIsOneOptionalLine(t *testing.T) {
	src, err := summed("")
	require.NoError(t, err)
	assert.Empty(t, src.Summary)
	longest := strings.Repeat("é", 200)
	src, err = summed(`summary = "` + longest + `"`)
	require.NoError(t, err)
	assert.Equal(t, longest, src.Summary, "characters count, not bytes")
	for line, want := range map[string]string{
		`summary = ""`:                      `sum.toml:5: summary = "": must not be empty`,
		`summary = 7`:                       `sum.toml:5: summary = 7: must be a string, not a whole number`,
		`summary = "a\nb"`:                  `sum.toml:5: summary = "a\nb": must be one line of at most 200 characters`,
		`sumary = "a"`:                      `sum.toml:5: sumary = "a": unknown key; did you mean summary?`,
		"summary = \"a\"\nsummary = \"a\"":  `sum.toml:6: summary = "a": doubled key: first given in line 5`,
		`summary = "` + longest + `e"`:      `must be one line of at most 200 characters`,
		`summary = { en = "a", it = "b" }`:  `must be a string`,
		"summary = [\"a\"]":                 `must be a string`,
		"summary = \"\"\"\na\nb\"\"\"":      `must be one line of at most 200 characters`,
		"summary = \"a tab\\tin the line\"": `must be one line of at most 200 characters`,
	} {
		_, err := summed(line)
		assert.ErrorContains(t, err, want, line)
	}
}

// A card has room for two lines of some thirty characters each.
func TestShippedFlightsHaveASentenceForTheirCard(t *testing.T) {
	for _, s := range Shipped() {
		assert.Regexp(t, `^[A-Z].{20,60}[.?]$`, s.Summary, s.Name)
		_, src, err := Open(s.Name)
		require.NoError(t, err)
		assert.Equal(t, src.Summary, s.Summary)
	}
}
