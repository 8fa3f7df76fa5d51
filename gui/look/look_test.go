package look_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// luminance and contrast are the formulas of WCAG 2 (W3C Recommendation,
// "relative luminance", "contrast ratio"; from memory).
func luminance(c color.NRGBA) float64 {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.03928 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Expected figures: the contrast table of the design's look, computed there by
// a script of its own; half the last printed digit.
func TestContrastIsAsDesigned(t *testing.T) {
	p, n, lit, lamp := look.Of(look.Paper), look.Of(look.Night), look.Of(look.LampLit), look.Of(look.Lamp)
	for _, c := range []struct {
		name string
		a, b color.NRGBA
		want float64
	}{
		{"ink on card", p.Ink, p.Card, 14.15}, {"ink on low", p.Ink, p.Low, 11.41}, {"ink on sea", p.Ink, p.Sea, 13.54},
		{"ink2 on card", p.Ink2, p.Card, 7.09}, {"air on sea", p.Air, p.Sea, 5.69}, {"wind on sea", p.Wind, p.Sea, 10.97},
		{"pos on sea", p.Pos, p.Sea, 5.52}, {"brass text on card", p.BrassText, p.Card, 6.50}, {"verm on its fill", p.Verm, p.VermFill, 4.70},
		{"on slate", p.OnSlate, p.Slate, 8.24}, {"drum ink", p.DrumInk, p.Drum, 13.54}, {"on brass", p.OnBrass, p.BrassHi, 9.13},
		{"button outline", p.SlateHi, p.Card, 5.52}, {"brass outline", p.BrassLo, p.Card, 6.06}, {"flag", p.OnVerm, p.Verm, 6.66},
		{"night ink on card", n.Ink, n.Card, 12.20}, {"night ink on sea", n.Ink, n.Sea, 13.14}, {"night air on sea", n.Air, n.Sea, 10.49},
		{"night wind on sea", n.Wind, n.Sea, 5.68}, {"night verm on its fill", n.Verm, n.VermFill, 4.98}, {"night drum", n.DrumInk, n.Drum, 10.55},
		{"night on brass", n.OnBrass, n.BrassHi, 10.31}, {"night pos on sea", n.Pos, n.Sea, 6.79}, {"night flag", n.OnVerm, n.Verm, 5.12},
		{"lit ink", lit.Ink, lit.Sea, 5.06}, {"lit ink2", lit.Ink2, lit.Sea, 4.67},
		{"lamp ink on card", lamp.Ink, lamp.Card, 5.85}, {"lamp ink2 on card", lamp.Ink2, lamp.Card, 4.95}, {"lamp drum", lamp.DrumInk, lamp.Drum, 6.35},
	} {
		assert.InDelta(t, c.want, contrast(c.a, c.b), 0.0051, c.name)
	}
}

func TestTextIsReadableInEveryLight(t *testing.T) {
	for _, v := range []look.Variant{look.Paper, look.Night, look.Lamp, look.LampLit} {
		p := look.Of(v)
		for name, c := range map[string][2]color.NRGBA{
			"ink": {p.Ink, p.Card}, "ink2": {p.Ink2, p.Card}, "chart ink": {p.Ink, p.Sea}, "chart ink2": {p.Ink2, p.Sea},
			"wind": {p.Wind, p.Sea}, "air": {p.Air, p.Sea}, "pos": {p.Pos, p.Sea}, "drum": {p.DrumInk, p.Drum},
		} {
			assert.GreaterOrEqual(t, contrast(c[0], c[1]), 4.5, "%s: %s", v, name)
		}
	}
}

func TestLightButtonGoesRound(t *testing.T) {
	v := look.Paper
	var seen []string
	for range 4 {
		seen = append(seen, v.String())
		assert.Equal(t, v, look.Of(v).Variant)
		v = v.Next()
	}
	assert.Equal(t, []string{"paper", "night", "lamp", "paper"}, seen)
}

// Widths: of the faces themselves, read with another library (fontTools; the
// design's look): Lato's figures 1160 of 2000 units, Routed Gothic's 1 352 and
// its other figures 672 of 1024.
func TestFigureWidths(t *testing.T) {
	for _, f := range []look.Face{look.Regular, look.Semibold, look.Bold} {
		for _, d := range "0123456789" {
			assert.InDelta(t, 0.58, f.Font().Width(string(d), 1), 1e-9, "%s %c", f, d)
		}
	}
	assert.InDelta(t, 352.0/1024, look.Engraved.Font().Width("1", 1), 1e-9)
	for _, d := range "023456789" {
		assert.InDelta(t, 672.0/1024, look.Engraved.Font().Width(string(d), 1), 1e-9, "%c", d)
	}
}

func TestEveryCharacterExists(t *testing.T) {
	// What the pictures write beside the catalogue: figures, letters of the
	// notation and the signs of drums and plates.
	const notation = "0123456789NSEWTMCRZ /.:,()°′×−–+-?kftgabcdefhijlmnopqrsuvwxyzABDFGHIJKLOPQUVXY"
	for f := look.Regular; f <= look.Engraved; f++ {
		for _, r := range notation {
			assert.True(t, f.Font().Has(r), "%s lacks %q", f, r)
		}
		for key, s := range catalogue(t) {
			for _, r := range s {
				assert.True(t, f.Font().Has(r), "%s lacks %q of %s", f, r, key)
			}
		}
		assert.False(t, f.Font().Has('☉'), "the check itself must be able to fail")
	}
}

func catalogue(t *testing.T) map[string]string {
	text, err := os.ReadFile("messages.toml")
	require.NoError(t, err)
	words := map[string]string{}
	require.NoError(t, toml.Unmarshal(text, &words))
	require.NotEmpty(t, words)
	return words
}

func TestKeysAndMessagesAgree(t *testing.T) {
	keys := map[string]bool{}
	files, err := filepath.Glob("keys*.go")
	require.NoError(t, err)
	for _, name := range files {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				s, err := strconv.Unquote(lit.Value)
				require.NoError(t, err)
				assert.False(t, keys[s], "%s twice", s)
				keys[s] = true
			}
			return true
		})
	}
	words := catalogue(t)
	for k := range keys {
		assert.NotEmpty(t, words[k], "no message for %s", k)
		assert.Equal(t, words[k], look.Text(look.Key(k)))
	}
	for k := range words {
		assert.True(t, keys[k], "message %s has no key", k)
	}
	assert.Equal(t, "?no_such_key", look.Text("no_such_key"))
}

// One word for one thing, on every screen and paper.
func TestOneWordForOneThing(t *testing.T) {
	refused := map[string]string{
		"actual position": "true position", "real position": "true position", "estimated position": "ground position",
		"current position": "ground position or air position", "dead reckoning position": "DR position", "dead-reckoning": "DR",
		"actual track": "true track", "flown track": "ground track", "planned track": "required track", "course": "track or heading",
		"air mileage": "air log counter", "distance counter": "air log counter", "odometer": "air log counter",
		"line of position": "position line", "bearing line": "position line", "ground speed": "groundspeed", "air speed": "airspeed",
		"way point": "turning point", "waypoint": "turning point", "malfunction": "fault", "failure": "fault",
	}
	for key, s := range catalogue(t) {
		for bad, good := range refused {
			assert.NotContains(t, strings.ToLower(s), bad, "%s: say %s", key, good)
		}
	}
}

func TestCautionIsThatOfTheDesign(t *testing.T) {
	assert.Equal(t, "For teaching and display only: not for navigation in flight.", look.Text(look.Caution))
	for _, part := range []string{
		"not a trainer approved by any authority", "blocked pitot and static systems is simplified",
		"approved flight manual and licensed instruction", "electrical and fire safety follow local codes",
	} {
		assert.Contains(t, look.Text(look.CautionLong), part)
	}
}

func TestSizes(t *testing.T) {
	full, small, fine := look.SizeOf(1920, 1080, 1), look.SizeOf(1366, 768, 1), look.SizeOf(3840, 2160, 2)
	assert.Equal(t, 15.0, full.Text(look.TextSmall))
	assert.InDelta(t, 13.5, small.Text(look.TextSmall), 1e-9)
	assert.Equal(t, 30.0, fine.Text(look.TextSmall))
	assert.InDelta(t, 0.8, small.Symbol(), 1e-9)
	assert.Equal(t, 2.0, fine.Symbol())
	assert.Equal(t, 2.0, fine.Hair())
	assert.Equal(t, 1.0, small.Hair())
	assert.True(t, small.Small())
	assert.False(t, full.Small() || fine.Small())
}

func TestLicencesGoWithTheFaces(t *testing.T) {
	for _, f := range []string{"fonts/Lato-OFL.txt", "fonts/RoutedGothic-OFL.txt"} {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		assert.Contains(t, string(text), "PERMISSION & CONDITIONS")
		assert.Contains(t, string(text), "Copyright")
	}
}
