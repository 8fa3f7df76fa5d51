package fault

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// Every entry has its four texts, and no text is without its entry: whole
// sentences, short enough for a card, and no file's words in them.
func TestEveryEntryInPlainWords(t *testing.T) {
	for _, e := range Catalogue() {
		x := e.Text()
		for _, s := range []string{x.Breaks, x.Sees, x.Told, x.Remedy} {
			n := utf8.RuneCountInString(s)
			assert.True(t, n >= 20 && n <= 200, "%s: %d letters: %s", e.ID, n, s)
			assert.True(t, strings.HasSuffix(s, ".") && strings.ToUpper(s[:1]) == s[:1], "%s: %s", e.ID, s)
			assert.NotContains(t, s, "_", e.ID)
			assert.NotContains(t, s, "—", e.ID)
			assert.NotContains(t, s, "  ", e.ID)
		}
	}
	assert.Len(t, texts(), len(Catalogue()))
}

// TestLooksLike: what can be given has up to three faults that it may be taken
// for, other ones of the catalogue, each with a check that fits on the card. They
// are those that the catalogue names, and what follows from its closed forms.
func TestLooksLike(t *testing.T) {
	all := Catalogue()
	for i := range all {
		e := &all[i]
		alike := e.Text().Alike
		if e.Refusal() != "" {
			assert.Empty(t, alike, e.ID)
			continue
		}
		assert.NotEmpty(t, alike, e.ID)
		assert.LessOrEqual(t, len(alike), 3, e.ID)
		seen := map[string]bool{e.ID: true}
		for _, a := range alike {
			_, known := Lookup(a.ID)
			assert.True(t, known, "%s: %s", e.ID, a.ID)
			assert.False(t, seen[a.ID], "%s: %s twice", e.ID, a.ID)
			seen[a.ID] = true
			assert.NotEmpty(t, a.Check)
			assert.LessOrEqual(t, len(a.Check), 95, a.Check)
		}
		if first, _, _ := strings.Cut(e.LookAlikes, " "); first != "" {
			if _, known := Lookup(strings.TrimRight(first, ",;")); known {
				assert.True(t, seen[strings.TrimRight(first, ",;")], "%s: the catalogue's first look-alike, %s, is missing", e.ID, first)
			}
		}
	}
}
