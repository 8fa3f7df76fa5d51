package paint

import (
	"fmt"
	"image/png"
	"io"
	"math"
	"path/filepath"
	"strings"
)

// Format is a kind of file a picture can be written to.
type Format uint8

// The formats.
const (
	PNG Format = iota + 1
	SVGFile
	PDFFile
)

// a4Width is the long side of an A4 sheet in points (297 mm).
const a4Width = 297 / 25.4 * 72

// FormatOf tells the format from a file's name.
func FormatOf(name string) (Format, error) {
	switch ext := strings.ToLower(filepath.Ext(name)); ext {
	case ".png":
		return PNG, nil
	case ".svg":
		return SVGFile, nil
	case ".pdf":
		return PDFFile, nil
	default:
		return 0, fmt.Errorf("%s: a picture's name ends in .png, .svg or .pdf, not %q", name, ext)
	}
}

// Export draws a picture of w by h pixels and writes it. A PDF page is as
// wide as A4 is long.
func Export(out io.Writer, f Format, w, h int, title string, draw func(Surface)) error {
	switch f {
	case PNG:
		s := NewImage(w, h)
		draw(s)
		return png.Encode(out, s.Pixels())
	case SVGFile:
		s := NewSVG(float64(w), float64(h), title)
		draw(s)
		_, err := s.WriteTo(out)
		return err
	case PDFFile:
		s := NewPDF(float64(w), float64(h), math.Round(a4Width*100)/100, title)
		draw(s)
		_, err := s.WriteTo(out)
		return err
	}
	return fmt.Errorf("unknown picture format %d", f)
}
