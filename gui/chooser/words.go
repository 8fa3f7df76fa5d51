package chooser

import (
	"image/color"
	"path/filepath"
	"strings"
	"unicode"

	"stillair/gui/look"
	"stillair/gui/paint"
)

func base(path string) string { return filepath.Base(path) }

// shortTitle is a title that fits the width: whole; else up to its first colon;
// else cut.
func shortTitle(s string, t paint.Type, width float64) string {
	if t.Font.Width(s, t.Size) <= width {
		return s
	}
	if head, _, found := strings.Cut(s, ": "); found {
		s = head
	}
	return t.Shorten(s, width)
}

// fold breaks words into at most so many lines of a width; most 0 is any number.
// A word that is longer than a line is broken where the line ends.
func fold(s string, t paint.Type, width float64, most int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + w)
		if t.Font.Width(longer, t.Size) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = w; t.Font.Width(line, t.Size) > width; {
			n := fits(line, t, width)
			lines, line = append(lines, line[:n]), line[n:]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if most > 0 && len(lines) > most {
		lines[most-1] = t.Shorten(lines[most-1]+" "+lines[most], width)
		lines = lines[:most]
	}
	return lines
}

// fits is how many bytes of a word fit the width, one character at least.
func fits(s string, t paint.Type, width float64) int {
	n := 0
	for i, r := range s {
		if end := i + len(string(r)); n == 0 || t.Font.Width(s[:end], t.Size) <= width {
			n = end
		}
	}
	return n
}

// printable is a text with a sign in place of what the face has no outline for.
func printable(s string, f look.Face) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case unicode.IsControl(r):
			return -1
		case !f.Font().Has(r):
			return '?'
		}
		return r
	}, s)
}

// typeOf is text in a face at a size of the scale of type.
func typeOf(f look.Face, z look.Size, size float64) paint.Type {
	return paint.Type{Font: f.Font(), Size: z.Text(size)}
}

// paper draws a sheet of card on the ground of the window.
func paper(d *paint.Raster, w, h float64, body paint.Rect, z look.Size, p *look.Palette, outline float64, ink color.NRGBA) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Ground)
	path.Reset().RoundRect(body.Inset(outline/2), look.CardRadius*z.Device)
	d.Fill(&path, p.Card)
	d.Stroke(&path, paint.Pen{Width: outline}, ink)
}
