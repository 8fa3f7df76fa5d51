package picture

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// wordsAndPlates are what a test finds on a drawn picture: words, and what they may not
// touch.
type wordsAndPlates struct {
	words []word
	// figures are letters that stand alone: on plates, on drums, and beside the
	// resolver and its crank.
	figures []word
	plates  []plateOn // slate and vermilion: a word lies in one or off it
	brass   []paint.Rect
	titles  map[string]bool
}

type word struct {
	text string
	room paint.Rect
	size float64
	at   int // in the order of drawing
}

type plateOn struct {
	room paint.Rect
	flag bool
	at   int
}

// ownRooms are left to tests of their own: dials, the strip of chart.
var ownRooms = []paint.Rect{
	{X: 56, Y: 650, W: 140, H: 140}, {X: 272, Y: 656, W: 148, H: 128}, {X: 500, Y: 650, W: 140, H: 140},
	{X: 726, Y: 650, W: 140, H: 140}, {X: 1148, Y: 654, W: 144, H: 144}, {X: 1552, Y: 792, W: 322, H: 120},
}

func drawnWords(f float64, larger bool, l *Linkage) *wordsAndPlates {
	var rec paint.Record
	c := look.Of(look.Paper)
	z := look.Size{Part: f, Device: 1, Larger: larger}
	s := NewLinkageScene(z, paint.R(0, 0, LinkageW*f, LinkageH*f))
	s.Draw(NewBrush(&rec, c, z), l)
	w := &wordsAndPlates{titles: map[string]bool{}}
	for _, t := range zones {
		w.titles[look.Text(t.title)] = true
	}
	for i, k := range rec.Calls {
		switch {
		case k.Name == "text":
			w.word(i, k, &s.d)
		case k.Name == "fill" && (k.Col == c.Slate || k.Col == c.VermFill || k.Col == c.Verm):
			if r := k.Path.Bounds(); r.W > 40*f && r.H > 20*f && len(k.Path.Pts) < 20 && !own(r.Centre(), &s.d) {
				w.plates = append(w.plates, plateOn{r, k.Col == c.Verm, i})
			}
		case k.Name == "fill" && (k.Col == c.Brass || k.Col == c.BrassHi):
			if r := k.Path.Bounds(); len(k.Path.Pts) < 9 && !own(r.Centre(), &s.d) { // what is round fills no rectangle
				w.brass = append(w.brass, r)
			}
		}
	}
	return w
}

func own(p paint.Point, d *draft) bool {
	for _, r := range ownRooms {
		if d.rect(r).Contains(p) {
			return true
		}
	}
	return false
}

func (w *wordsAndPlates) word(i int, k paint.Call, d *draft) {
	ink, x := k.Type.Font.Ink(k.Text, k.Type.Size), k.At.X
	switch wide := k.Type.Font.Width(k.Text, k.Type.Size); k.Type.Anchor {
	case paint.Middle:
		x -= wide / 2
	case paint.End:
		x -= wide
	}
	r := paint.R(x+ink.X, k.At.Y+ink.Y, ink.W, ink.H)
	if own(r.Centre(), d) {
		return
	}
	if len([]rune(k.Text)) == 1 {
		w.figures = append(w.figures, word{k.Text, r, k.Type.Size, i})
		return
	}
	w.words = append(w.words, word{k.Text, r, k.Type.Size, i})
}

// check says what lies on what.
func (w *wordsAndPlates) check(t *testing.T, what string, f float64) {
	t.Helper()
	for i, a := range w.words {
		assert.NotContains(t, a.text, "\u2026", "%s: cut", what)
		least := 13.5
		if f < 0.62 { // the smallest window of all
			least = 12.5
		}
		assert.GreaterOrEqual(t, a.size, least, "%s: %q is too small", what, a.text)
		for _, b := range w.words[:i] {
			assert.False(t, a.room.Overlaps(b.room) && !w.titles[b.text], "%s: %q lies on %q", what, a.text, b.text)
		}
		for _, p := range w.plates {
			within := p.at < a.at && p.room.Inset(-1).Covers(a.room)
			assert.False(t, a.room.Overlaps(p.room) && !within && !(p.flag && w.titles[a.text]), "%s: %q lies on the edge of a plate or under it", what, a.text)
		}
		for _, q := range w.brass {
			assert.False(t, a.room.Inset(0.5*f).Overlaps(q) && !w.onPlate(a), "%s: %q lies on brass", what, a.text)
		}
	}
	for i, p := range w.plates {
		for _, q := range w.plates[:i] {
			assert.False(t, p.room.Inset(0.4).Overlaps(q.room), "%s: plate %v lies on plate %v", what, p.room, q.room)
		}
	}
}

// onPlate says whether a word lies on a plate, which may lie on brass.
func (w *wordsAndPlates) onPlate(a word) bool {
	for _, p := range w.plates {
		if p.at < a.at && p.room.Inset(-1).Covers(a.room) {
			return true
		}
	}
	return false
}

// longFlags are the longest that the catalogue of faults and the settings give.
var longFlags = [LinkCount]string{
	"Standing water head in the pitot line", "Static vents see a pressure that differs from the free stream",
	"Capsule or line answers late", "Density correction assumes standard temperature at the pressure height",
	"Held by hand", "Change gear for the wrong mile or wrong unit fitted",
	"Slaving dead band or weak torque leaves a residual", "Deviation left after the swing",
	"Setter not reset as variation changes along the way", "Step-by-step transmission out of step",
	"Small component does not move its train", "Lost motion in the counter trains", "Lost motion in the counter trains",
	"Latitude counter set to count the wrong way (N for S)", "Wrong latitude on the counter drives the secant gear",
	"Longitude sense lever E for W", "Wind clock started late after a reset",
	"New wind dialled in flight without a reset (plotted design)", "Held by hand", "Held by hand",
	"Counters set to the fix position some time after the fix",
	"Constant mm per mile on a chart whose scale grows with latitude",
}

// TestLinkageWordsKeepOff: at no size lies a word on another, on brass, or on the
// edge of a plate or a row of drums, whatever is broken.
func TestLinkageWordsKeepOff(t *testing.T) {
	for _, f := range []float64{1, 0.6806, 0.638, 0.6, 2} {
		for _, larger := range []bool{false, true} {
			at := fmt.Sprintf("at %g, larger %t, ", f, larger)
			drawnWords(f, larger, linkageOf(3.3)).check(t, at+"in order", f)
			for i := range LinkCount {
				l := linkageOf(3.3)
				for _, flag := range []string{"Pitot line leaks", longFlags[i]} {
					l.breakLink(i)
					l.Links[i].Flag = flag
					drawnWords(f, larger, l).check(t, at+fmt.Sprintf("link %d broken: %s", i, flag), f)
				}
			}
		}
	}
}

// TestWordsKeepOffPinions: wherever the pinions have slid, and the drums with them.
func TestWordsKeepOffPinions(t *testing.T) {
	for lat := units.Angle(0); lat <= 70; lat += 5 {
		for _, f := range []float64{1, 0.6806, 0.6} {
			l := linkageOf(3.3)
			l.Hands.Gear, l.Hands.GroundGear = lat*degree, lat*degree
			drawnWords(f, false, l).check(t, fmt.Sprintf("at %g, latitude %g", f, float64(lat)), f)
			l.breakLink(LinkDrive)
			drawnWords(f, false, l).check(t, fmt.Sprintf("at %g, latitude %g, drive broken", f, float64(lat)), f)
		}
	}
}

// TestFlagsOfSeveralFaults: of several flags none lies on another, and every
// broken link keeps its ring.
func TestFlagsOfSeveralFaults(t *testing.T) {
	l := linkageOf(3.3)
	for i := range LinkCount {
		l.Links[i].Stands, l.Links[i].Flag = Broken, "Pitot line leaks"
	}
	w := drawnWords(1, false, l)
	flags := 0
	for i, p := range w.plates {
		if p.flag {
			flags++
		}
		for _, q := range w.plates[:i] {
			assert.False(t, p.flag && q.flag && p.room.Overlaps(q.room))
		}
	}
	assert.Greater(t, flags, 8)
}

// TestLongValuesStayOnTheirPlates: also in other units, also after two days.
func TestLongValuesStayOnTheirPlates(t *testing.T) {
	for _, f := range []float64{1, 0.6806, 0.6} {
		l := linkageOf(3.3)
		set := func(value, unit string, links ...Link) {
			for _, i := range links {
				l.Links[i].Value, l.Links[i].Unit = value, unit
			}
		}
		set("101325", "Pa", LinkPitot, LinkStatic, LinkCapsules)
		set("\u2212123.4", "m/s", LinkAirLog)
		set("12345.6", "km", LinkDrive)
		set("10345.6 W", "", LinkNorthDisc, LinkEastDisc)
		set("123.5 W", "", LinkDeviation, LinkVariation)
		w := drawnWords(f, false, l)
		w.check(t, fmt.Sprintf("at %g", f), f)
		on := 0
		for _, a := range w.figures {
			for _, p := range w.plates {
				if a.room.Overlaps(p.room) {
					on++
					assert.True(t, a.room.X >= p.room.X+1 && a.room.Right() <= p.room.Right()-1, "at %g: %q leaves its plate", f, a.text)
				}
			}
		}
		assert.Greater(t, on, 60)
	}
}
