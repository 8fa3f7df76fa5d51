package papers

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator"
	"stillair/scenarios"
	"stillair/sim"
)

// plan is a shipped flight.
func plan(t *testing.T, name string) *sim.Plan {
	p, _, err := scenarios.Open(name)
	require.NoError(t, err)
	return p
}

// texts are the words on a page, in the order of their drawing.
func texts(on Paper, p Page) (out []string) {
	for _, c := range record(on, p).Texts() {
		out = append(out, c.Text)
	}
	return out
}

func record(on Paper, p Page) *paint.Record {
	var r paint.Record
	Draw(&r, on, p)
	return &r
}

// all are the pages of every kind of paper, by name.
func all(t *testing.T, on Paper) map[string][]Page {
	out := map[string][]Page{}
	add := func(kind string, pages []Page, err error) {
		require.NoError(t, err, kind)
		require.NotEmpty(t, pages, kind)
		out[kind] = pages
	}
	pages, err := Sheets(plan(t, "weather-triangle"), on, SheetOrder{Latitude: StandardLatitude})
	add("sheet", pages, err)
	pages, err = Stars(plan(t, "night-stars"), on, StarsOrder{SheetOrder: SheetOrder{Latitude: StandardLatitude}})
	add("stars", pages, err)
	for name, o := range map[string]LogOrder{"log": {}, "log filled": {Filled: true}, "log short": {Short: true}, "log short filled": {Short: true, Filled: true}} {
		pages, err = Log(plan(t, "weather-triangle"), on, o)
		add(name, pages, err)
	}
	pages, err = Plan(plan(t, "weather-triangle"), on)
	add("plan", pages, err)
	pages, err = Readings(withAids(t), on, 5*time.Minute)
	add("readings", pages, err)
	pages, err = Problems(plan(t, "weather-triangle"), on, 31, 9)
	add("problems", pages, err)
	service := *plan(t, "first-look")
	service.Mechanism.Class = integrator.Service
	add("deviation", Deviation(&service), nil)
	for _, name := range []string{"", "Port Aldous", "Mollyhawk", "Cape Linnet"} {
		pages, err = Landfall(plan(t, "first-look"), name)
		add("landfall "+name, pages, err)
	}
	pages, err = Landfall(plan(t, "far-south"), "")
	add("landfall far south", pages, err)
	for _, name := range []string{"first-look", "weather-triangle", "far-south"} {
		add("rule "+name, Rule(plan(t, name), StandardLatitude), nil)
	}
	add("deviation of nothing", Deviation(plan(t, "first-look")), nil)
	pages, err = Problems(plan(t, "far-south"), on, 3, 1)
	add("problems far south", pages, err)
	return out
}

// place is where a text is drawn: its inked rectangle.
func place(c paint.Call) paint.Rect {
	ink := c.Type.Font.Ink(c.Text, c.Type.Size)
	w := c.Type.Font.Width(c.Text, c.Type.Size)
	return paint.R(c.At.X-w*float64(c.Type.Anchor)/2+ink.X, c.At.Y+ink.Y, ink.W, ink.H)
}

// The rules of every page: nothing outside the margins, no text below 2.5 mm,
// the cautions at the foot, and no two words over each other.
func TestEveryPageKeepsTheRules(t *testing.T) {
	for _, on := range []Paper{A4, Letter} {
		inside := paint.R(margin, margin, on.W-2*margin, on.H-2*margin).Inset(-0.01)
		for kind, pages := range all(t, on) {
			for i, p := range pages {
				r := record(on, p)
				words := r.Texts()
				said := ""
				for j, c := range words {
					box := place(c)
					assert.True(t, inside.Covers(box), "%s %d on %s: %q at %v", kind, i, on.Name, c.Text, box)
					assert.GreaterOrEqual(t, c.Type.Size, 2.5, "%s: %q", kind, c.Text)
					assert.NotContains(t, c.Text, "\u2026", "%s: cut off", kind)
					said += " " + c.Text
					for _, other := range words[:j] {
						assert.False(t, box.Inset(0.15).Overlaps(place(other).Inset(0.15)), "%s %d on %s: %q over %q", kind, i, on.Name, c.Text, other.Text)
					}
				}
				for _, c := range r.Calls {
					if c.Name == "stroke" || c.Name == "fill" {
						assert.True(t, inside.Covers(c.Path.Bounds()), "%s %d on %s: %v", kind, i, on.Name, c.Path.Bounds())
					}
				}
				assert.Contains(t, said, look.Text(look.CautionLong), "%s %d", kind, i)
			}
		}
	}
}

// The same data give the same file.
func TestPapersAreTheSameEachTime(t *testing.T) {
	first, again := all(t, A4), all(t, A4)
	for kind := range first {
		var a, b bytes.Buffer
		require.NoError(t, Write(&a, A4, kind, first[kind]))
		require.NoError(t, Write(&b, A4, kind, again[kind]))
		assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), kind)
	}
}

func TestPaperSizes(t *testing.T) {
	for _, name := range []string{"A4", "a4", "Letter", "letter"} {
		p, err := PaperOf(name)
		require.NoError(t, err)
		assert.True(t, strings.EqualFold(name, p.Name))
	}
	_, err := PaperOf("A3")
	assert.ErrorContains(t, err, "A4 or Letter")
	// ISO 216 and ANSI/ASME Y14.1: 297 by 210 mm, 11 by 8.5 in, the page box to
	// a hundredth of a point.
	for on, box := range map[Paper]string{A4: "/MediaBox [0 0 841.89 595.28]", Letter: "/MediaBox [0 0 792.00 612.00]"} {
		var b bytes.Buffer
		require.NoError(t, Write(&b, on, "test", []Page{Sheet{Latitude: StandardLatitude, Denominator: StandardScale}}))
		assert.Contains(t, b.String(), box)
	}
}

func sorted(words []string) []string {
	slices.Sort(words)
	return words
}
