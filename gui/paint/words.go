package paint

import "strings"

// Wrap breaks words into lines no wider than width; a longer word stands alone.
func Wrap(words string, measure func(string) float64, width float64) []string {
	var lines []string
	for _, paragraph := range strings.Split(words, "\n") {
		line := ""
		for _, w := range strings.Fields(paragraph) {
			switch longer := strings.TrimSpace(line + " " + w); {
			case line != "" && measure(longer) > width:
				lines = append(lines, line)
				line = w
			default:
				line = longer
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// Wrap breaks words into lines of the type no wider than width.
func (t Type) Wrap(words string, width float64) []string {
	return Wrap(words, func(s string) float64 { return t.Font.Width(s, t.Size) }, width)
}

const ellipsis = "\u2026"

// Shorten cuts words that are wider than there is room for, and marks the cut.
func (t Type) Shorten(words string, width float64) string {
	if t.Font.Width(words, t.Size) <= width {
		return words
	}
	letters := []rune(words)
	for len(letters) > 0 && t.Font.Width(string(letters)+ellipsis, t.Size) > width {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimRight(string(letters), " ,.;") + ellipsis
}
