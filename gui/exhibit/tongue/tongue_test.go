package tongue

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// TestShippedLanguagesAreComplete: no word is missing, none is unknown, the same places
// are filled in, every character is in our type.
func TestShippedLanguagesAreComplete(t *testing.T) {
	all, err := Load("")
	require.NoError(t, err)
	require.Contains(t, all, "en")
	require.Contains(t, all, "de")
	for code, l := range all {
		for _, w := range Words {
			assert.NotEmpty(t, l.Text(w), "%s: %s", code, w)
		}
		for id := range all["en"].faults {
			_, ok := l.Fault(id)
			assert.True(t, ok, "%s: no sentence for %s", code, id)
		}
		if code == "en" {
			continue
		}
		for _, k := range PictureKeys()[4:] {
			assert.NotEmpty(t, l.Picture[k], "%s: picture.%s", code, k)
		}
		same := 0
		for _, w := range Words {
			if l.Text(w) == all["en"].Text(w) {
				same++
			}
		}
		assert.Less(t, same, 8, "%s has the English words", code)
	}
	assert.GreaterOrEqual(t, len(Told(all, []string{"en", "de"})), 10)
}

func TestEveryWordIsListed(t *testing.T) {
	seen := map[Word]bool{}
	for _, w := range Words {
		assert.False(t, seen[w], "%s twice", w)
		seen[w] = true
	}
	source, err := os.ReadFile("words.go")
	require.NoError(t, err)
	assert.Equal(t, strings.Count(string(source), ` Word = "`), len(Words))
}

func TestTexts(t *testing.T) {
	all, err := Load("")
	require.NoError(t, err)
	en, de := all["en"], all["de"]
	assert.Equal(t, "1 sea mile", en.Count(1))
	assert.Equal(t, "0 sea miles", en.Count(0))
	assert.Equal(t, "12.5 sea miles", en.Tenths(12.46))
	assert.Equal(t, "12,5 Seemeilen", de.Tenths(12.46))
	assert.Equal(t, "Land at Skerrow in cloud", en.Text(Land, Fill{"place", "Skerrow"}))
	plain, bold := Sentence("One. |Two.")
	assert.Equal(t, []string{"One.", "Two."}, []string{plain, bold})
	assert.Equal(t, "Deutsch", de.Text(Name))
}

// another writes a further language into a folder, with one change.
func another(t *testing.T, change func(string) string) string {
	t.Helper()
	text, err := os.ReadFile("texts/en.toml")
	require.NoError(t, err)
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "eo.toml"), []byte(change(string(text))), 0o644))
	return folder
}

// TestAThirdLanguageIsOneFile, and comes beside those of the program.
func TestAThirdLanguageIsOneFile(t *testing.T) {
	all, err := Load(another(t, func(s string) string { return strings.Replace(s, `"English"`, `"Esperanto"`, 1) }))
	require.NoError(t, err)
	assert.Len(t, all, 3)
	assert.Equal(t, "Esperanto", all["eo"].Text(Name))
}

func TestWhatIsWrongWithALanguageIsTold(t *testing.T) {
	for want, change := range map[string][2]string{
		"eo.toml:1: mend: is missing":                       {`mend = "Mend it"`, ""},
		"mend: must not be empty":                           {`mend = "Mend it"`, `mend = " "`},
		"mend: must be a text in quotes":                    {`mend = "Mend it"`, `mend = 3`},
		"mand: unknown key":                                 {`mend = "Mend it"`, `mand = "x"`},
		"knots: must have {n} to be filled in, has nothing": {`"{n} knots"`, `"knots"`},
		"knots: must have {n} to be filled in, has {m}":     {`"{n} knots"`, `"{m} knots"`},
		"the type face has no '☉'":                          {`"Mend it"`, `"Mend ☉"`},
		"has 400 bytes: at most 300":                        {`"Mend it"`, `"` + strings.Repeat("x", 400) + `"`},
		"faults.drive-slap: no such fault in the catalogue": {`drive-slip =`, `drive-slap =`},
		"picture.link_nothing: no such word of the picture": {"[faults]", "[picture]\nlink_nothing = \"x\"\n[faults]"},
		"pictures.a: unknown table":                         {"[faults]", "[pictures]\na = \"x\"\n[faults]"},
		"eo.toml:":                                          {`mend = "Mend it"`, `mend = "Mend it`},
	} {
		all, err := Load(another(t, func(s string) string { return strings.Replace(s, change[0], change[1], 1) }))
		if assert.Error(t, err, want) {
			assert.Contains(t, err.Error(), want)
		}
		assert.NotContains(t, all, "eo", want)
		assert.Contains(t, all, "en", "the others stay")
	}
	_, err := Load(filepath.Join(t.TempDir(), "nowhere"))
	assert.Error(t, err)
	assert.Equal(t, look.Key("north"), PictureKeys()[0])
}
