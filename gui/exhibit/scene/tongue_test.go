package scene

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/helm"
)

// The invented language of the tests is written with these letters alone, so that a word
// of any other on the screen is seen.
const (
	inventedCode = "ko"
	letters      = "kolu"
)

var (
	lineOf = regexp.MustCompile(`^(\S+ *= *")(.*)"$`)
	keeps  = regexp.MustCompile(`\{\w+\}|\|`) // what a translation leaves as it is
)

// invented is the English file, each of its words made up of the invented letters, as
// long as it was.
func invented(t *testing.T) string {
	t.Helper()
	english, err := os.ReadFile("../tongue/texts/en.toml")
	require.NoError(t, err)
	var out []string
	for _, line := range strings.Split(string(english), "\n") {
		if m := lineOf.FindStringSubmatch(line); m != nil && !strings.HasPrefix(line, "decimal") {
			line = m[1] + invent(m[2]) + `"`
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func invent(s string) string {
	var out strings.Builder
	for s != "" {
		at := keeps.FindStringIndex(s)
		if at == nil {
			at = []int{len(s), len(s)}
		}
		for i, c := range []rune(s[:at[0]]) {
			if unicode.IsLetter(c) {
				c = rune(letters[i%len(letters)])
			}
			out.WriteRune(c)
		}
		out.WriteString(s[at[0]:at[1]])
		s = s[at[1]:]
	}
	return out.String()
}

// folderOf writes a text as the file of the invented language.
func folderOf(t *testing.T, text string) string {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, inventedCode+".toml"), []byte(text), 0o644))
	return folder
}

// TestAThirdLanguageIsOneFile: with it, whatever is written in a visit, on the attract
// loop and on the keeper's pages is in its words, and has room.
func TestAThirdLanguageIsOneFile(t *testing.T) {
	all, err := tongue.Load(folderOf(t, invented(t)))
	require.NoError(t, err)
	l := all[inventedCode]
	require.NotNil(t, l)
	ours := letters + strings.ToUpper(letters)
	stages := map[string]func(*conduct.Machine){
		"playing": func(*conduct.Machine) {},
		"broken":  func(m *conduct.Machine) { m.Touch(conduct.BreakKey) },
		"inside":  func(m *conduct.Machine) { m.Touch(conduct.InsideKey) },
		"cloud":   func(m *conduct.Machine) { m.Touch(conduct.LandKey) },
	}
	written := 0
	for stage, begin := range stages {
		e := visit(t, 1366, 768, l, false)
		e.in.Names = []string{l.Text(tongue.Name)}
		e.in.Moment = &helm.Moment{Revealed: &helm.Revealed{}}
		begin(e.in.Machine)
		var s Scene
		e.p = s.Places(1366, 768, 1, e.in)
		for _, w := range textsOf(e, drawn(e)) {
			told := strings.ReplaceAll(w.text, "Skerrow", "") // a name stays
			if told == "A" {                                  // the sign of larger text
				continue
			}
			foreign := strings.IndexFunc(told, func(c rune) bool { return unicode.IsLetter(c) && !strings.ContainsRune(ours, c) })
			assert.Negative(t, foreign, "%s: %q", stage, w.text)
			if strings.ContainsAny(told, ours) {
				written++
			}
		}
	}
	assert.Greater(t, written, 30, "words were written")
}

// TestAMissingKeyIsNamed, each of them, with its file.
func TestAMissingKeyIsNamed(t *testing.T) {
	whole := invented(t)
	for _, w := range tongue.Words {
		line := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(string(w)) + ` *=.*\n`)
		require.Len(t, line.FindAllString(whole, -1), 1, w)
		folder := folderOf(t, line.ReplaceAllString(whole, ""))
		all, err := tongue.Load(folder)
		if assert.Error(t, err, w) {
			assert.Equal(t, fmt.Sprintf("%s:1: %s: is missing", filepath.Join(folder, inventedCode+".toml"), w), err.Error())
		}
		assert.NotContains(t, all, inventedCode, "%s: it is left out", w)
	}
}
