package kit

import (
	"strings"

	"stillair/gui/paint"
)

const ellipsis = "\u2026"

// Shorten cuts words that are wider than there is room for, and marks the cut.
func Shorten(words string, t paint.Type, width float64) string {
	if t.Font.Width(words, t.Size) <= width {
		return words
	}
	letters := []rune(words)
	for len(letters) > 0 && t.Font.Width(string(letters)+ellipsis, t.Size) > width {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimRight(string(letters), " ,.;") + ellipsis
}
