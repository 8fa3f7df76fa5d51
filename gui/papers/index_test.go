package papers

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Every sheet of a long flight is on the index with its number, and the frames on the
// paper, read from the file, are where the formulas of the projection put the corners
// of the sheets. The index is drawn on the sheet's own projection, hence a frame stays a
// rectangle, smaller by the ratio of the scales; 0.01 mm are three steps of the file's
// coordinates.
func TestIndexHasEverySheet(t *testing.T) {
	for _, name := range []string{"weather-triangle", "far-south"} {
		pages, err := Sheets(plan(t, name), A4, SheetOrder{Latitude: StandardLatitude})
		require.NoError(t, err)
		index := pages[0].(IndexPage)
		require.Len(t, pages, len(index.Sheets)+1)
		c, scale := index.chart(A4)
		hand := byHand(c.mid, 56, scale, indexFrame(A4).Centre())
		page := printed(t, A4, index)[0]
		words := texts(A4, index)
		box := frameOf(A4)
		for i, s := range index.Sheets {
			m := hand.place(float64(s.Centre.Lat), float64(s.Centre.Lon))
			w, h := box.W*1e6/scale, box.H*1e6/scale
			// The fourth side closes the path and is no stroke of its own.
			edge := func(x1, y1, x2, y2 float64) bool {
				return slices.ContainsFunc(page, func(q segment) bool {
					a, z := paint.Pt(m.X+x1*w/2, m.Y+y1*h/2), paint.Pt(m.X+x2*w/2, m.Y+y2*h/2)
					return q.a.Dist(a) < 0.01 && q.z.Dist(z) < 0.01 || q.a.Dist(z) < 0.01 && q.z.Dist(a) < 0.01
				})
			}
			assert.True(t, edge(-1, -1, 1, -1) && edge(1, -1, 1, 1) && edge(1, 1, -1, 1), "%s: sheet %d", name, i+1)
			assert.Contains(t, words, strconv.Itoa(i+1), name)
			assert.True(t, indexFrame(A4).Covers(paint.R(m.X-w/2, m.Y-h/2, w, h)), "%s: sheet %d in the frame", name, i+1)
		}
	}
}

// Neighbours name one another, from the opposite sides, and overlap by what two sheets
// of a flight overlap at least.
func TestNeighboursNameOneAnother(t *testing.T) {
	all, err := sheets(plan(t, "far-south"), A4, SheetOrder{Latitude: StandardLatitude})
	require.NoError(t, err)
	n := 0
	for i := range all {
		said := strings.Join(texts(A4, all[i]), " ")
		for _, next := range all[i].Next {
			other := all[next.Number]
			back := slices.IndexFunc(other.Next, func(b neighbour) bool { return b.Number == i })
			require.NotEqual(t, -1, back)
			assert.Equal(t, []int{-next.East, -next.South}, []int{other.Next[back].East, other.Next[back].South})
			assert.Contains(t, said, "to sheet "+strconv.Itoa(next.Number+1))
			c := other.chart(A4)
			dx := math.Abs(c.at(all[i].Centre).X - c.box.Centre().X)
			assert.True(t, next.East == 0 || c.box.W-dx >= tileLap-1e-6)
			n++
		}
	}
	assert.Greater(t, n, len(all), "a row of sheets has two neighbours each but for its ends")
}

// Few sheets have no index: it would be one more paper to lose.
func TestFewSheetsHaveNoIndex(t *testing.T) {
	pages, err := Sheets(plan(t, "first-look"), A4, SheetOrder{Latitude: StandardLatitude})
	require.NoError(t, err)
	require.Len(t, pages, 2)
	s, ok := pages[0].(Sheet)
	require.True(t, ok)
	require.Len(t, s.Next, 1, "they name one another all the same")
	assert.Contains(t, texts(A4, s), "to sheet 2")
	at := units.At(-47, 179)
	pages, err = Sheets(plan(t, "far-south"), A4, SheetOrder{Latitude: StandardLatitude, Centre: &at})
	require.NoError(t, err)
	require.Len(t, pages, 1)
	assert.Empty(t, pages[0].(Sheet).Next)
}
