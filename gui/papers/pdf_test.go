package papers

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
)

// segment is a straight stroke of a page of a PDF, in millimetres from its
// upper left corner.
type segment struct {
	a, z  paint.Point
	width float64
}

func (s segment) vertical() bool   { return math.Abs(s.a.X-s.z.X) < 1e-9 }
func (s segment) horizontal() bool { return math.Abs(s.a.Y-s.z.Y) < 1e-9 }
func (s segment) length() float64  { return s.a.Dist(s.z) }

// contents are the content streams of the pages of a PDF.
func contents(t *testing.T, pdf []byte) (out []string) {
	for {
		_, after, ok := bytes.Cut(pdf, []byte("\nstream\n"))
		if !ok {
			return out
		}
		var stream []byte
		stream, pdf, ok = bytes.Cut(after, []byte("\nendstream"))
		require.True(t, ok)
		r, err := zlib.NewReader(bytes.NewReader(stream))
		if err != nil {
			continue
		}
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if bytes.Contains(text, []byte(" l\n")) && bytes.Contains(text, []byte(" w\n")) {
			out = append(out, string(text))
		}
	}
}

// strokes reads every straight stroke of a content stream.
func strokes(t *testing.T, content string, paperHeight float64) (out []segment) {
	var nums []float64
	var at paint.Point
	var path []segment
	width := 0.0
	point := func() paint.Point {
		require.GreaterOrEqual(t, len(nums), 2)
		n := nums[len(nums)-2:]
		return paint.Pt(n[0]/pointsPerMM, paperHeight-n[1]/pointsPerMM)
	}
	for _, word := range strings.Fields(content) {
		if x, err := strconv.ParseFloat(word, 64); err == nil {
			nums = append(nums, x)
			continue
		}
		switch word {
		case "w":
			width = nums[len(nums)-1] / pointsPerMM
		case "m":
			at = point()
		case "l":
			path = append(path, segment{at, point(), width})
			at = point()
		case "S":
			out = append(out, path...)
			path = nil
		case "f", "n":
			path = nil
		}
		nums = nums[:0]
	}
	return out
}

// printed writes pages and reads their strokes back, a slice for each page.
func printed(t *testing.T, on Paper, pages ...Page) (out [][]segment) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, on, "test", pages))
	for _, c := range contents(t, b.Bytes()) {
		out = append(out, strokes(t, c, on.H))
	}
	require.Len(t, out, len(pages))
	return out
}
