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
