package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// recordOf draws a moment at the size of the design.
func recordOf(l *Linkage) (*paint.Record, *LinkageScene) {
	rec, z := &paint.Record{}, look.Size{Part: 1, Device: 1}
	s := NewLinkageScene(z, paint.R(linkX, linkY, LinkageW, LinkageH))
	s.Draw(NewBrush(rec, look.Of(look.Paper), z), l)
	return rec, s
}

// stripesAt counts the striped fills that touch a rectangle.
func stripesAt(rec *paint.Record, q paint.Rect) (n int) {
	var clip []paint.Rect
	for _, c := range rec.Calls {
		switch c.Name {
		case "clip":
			clip = append(clip, c.Rect)
		case "unclip":
			clip = clip[:len(clip)-1]
		case "fill":
			if c.Col == look.Of(look.Paper).Verm && len(clip) > 0 && len(c.Path.Pts) == 4 && clip[len(clip)-1].Intersect(c.Path.Bounds()).Overlaps(q) {
				n++
			}
		}
	}
	return n
}

// shaftSpots are places on the shafts, by the link that drives them.
var shaftSpots = map[Link][]paint.Point{
	LinkCapsules:     {{X: 470, Y: mainY}},
	LinkAirLog:       {{X: 730, Y: mainY}, {X: 690, Y: 226}},
	LinkDrive:        {{X: 940, Y: mainY}, {X: 1240, Y: mainY}, {X: eastX, Y: 330}},
	LinkCompass:      {{X: 262, Y: rowY}},
	LinkDeviation:    {{X: 490, Y: rowY}},
	LinkVariation:    {{X: 715, Y: rowY}},
	LinkRepeater:     {{X: 1000, Y: rowY}, {X: splitX, Y: 640}},
	LinkNorthDisc:    {{X: splitX, Y: 220}, {X: 1300, Y: northY}, {X: latBranch, Y: 400}},
	LinkEastDisc:     {{X: 1446, Y: crankY}, {X: lonBranch, Y: 600}},
	LinkLatitude:     {{X: secantX, Y: 300}},
	LinkSecant:       {{X: 1572, Y: pinionY(-46.6 * degree)}},
	LinkClock:        {{X: 1180, Y: clockY}, {X: windX, Y: 798}},
	LinkWind:         {{X: 1380, Y: eastSumY}, {X: 1380, Y: northSumY}},
	LinkAdders:       {{X: 1560, Y: eastSumY}, {X: 1600, Y: northSumY}},
	LinkGroundSecant: {{X: 1652, Y: pinion2Y(-46.7 * degree)}},
}

// TestStripesFollowTheError: with a link broken, the shafts that it drives and
// all that hang on them are striped, and no others.
func TestStripesFollowTheError(t *testing.T) {
	for broken := range LinkCount {
		l := linkageOf(3.3)
		l.breakLink(broken)
		rec, _ := recordOf(l)
		for of, spots := range shaftSpots {
			for _, p := range spots {
				n := stripesAt(rec, paint.R(p.X-9, p.Y-9, 18, 18))
				if l.Links[of].Stands == Agrees {
					assert.Zero(t, n, "link %d broken: the shaft of %d at %v", broken, of, p)
				} else {
					assert.Positive(t, n, "link %d broken: the shaft of %d at %v", broken, of, p)
				}
			}
		}
	}
}

// TestStripesRunOutward: they begin at the broken link and reach the marker last.
func TestStripesRunOutward(t *testing.T) {
	l := linkageOf(3.3)
	l.breakLink(LinkDrive)
	last := map[Link]float64{}
	for run := 0.0; run <= 1; run += 0.05 {
		l.Run = run
		for i := range LinkCount {
			part := l.striped(i)
			assert.GreaterOrEqual(t, part, last[i], "what is striped stays so")
			last[i] = part
			for _, from := range hangsOn[i] {
				if l.Links[from].Stands != Agrees && l.Links[i].Stands != Agrees {
					assert.GreaterOrEqual(t, l.striped(from), part, "%d before %d", from, i)
				}
			}
		}
	}
	l.Run = 0
	assert.Zero(t, l.striped(LinkDrive))
	l.Run = 1
	assert.Equal(t, 1.0, l.striped(LinkMarker))
	assert.Zero(t, l.striped(LinkAirLog))
}

// TestEveryLinkShowsItsFault: each has a dashed ring, a flag with its words, and,
// but for the clutch, which parts, and the marker, a gap of the ground's colour.
func TestEveryLinkShowsItsFault(t *testing.T) {
	c := look.Of(look.Paper)
	for i := range LinkCount {
		l := linkageOf(3.3)
		l.breakLink(i)
		rec, s := recordOf(l)
		p := s.d.faultPlace(i)
		rings, gaps, flags := 0, 0, 0
		for _, k := range rec.Calls {
			b := k.Path.Bounds()
			switch {
			case k.Name == "stroke" && k.Col == c.Verm && len(k.Pen.Dash) > 0 && b.W > 30:
				rings++
			case k.Name == "fill" && k.Col == s.d.zoneGround() && b.W < 40 && b.H < 40 && b.Contains(paint.Pt(p.x, p.y)):
				gaps++
			case k.Name == "text" && k.Col == c.OnVerm:
				flags++
			}
		}
		assert.Equal(t, 1, rings, "ring of %d", i)
		assert.Positive(t, flags, "flag of %d", i)
		if i != LinkMarker {
			assert.Positive(t, gaps, "gap of %d", i)
		}
	}
}

func TestHiddenTruthShowsNothing(t *testing.T) {
	rec, _ := recordOf(linkageOf(3.3))
	c := look.Of(look.Paper)
	for _, k := range rec.Calls {
		assert.NotEqual(t, c.Verm, k.Col)
		assert.NotEqual(t, c.VermFill, k.Col)
		assert.NotEqual(t, look.Text(look.LinkAgrees), k.Text)
	}
}

// TestHandShowsWhereItHolds: a brass ring at the plate of the link, or at the
// link itself.
func TestHandShowsWhereItHolds(t *testing.T) {
	count := func(l *Linkage, q paint.Rect) (n int) {
		rec, _ := recordOf(l)
		for _, k := range rec.Calls {
			if b := k.Path.Bounds(); k.Name == "fill" && k.Col == look.Of(look.Paper).BrassHi && math.Abs(b.W-22) < 0.5 && math.Abs(b.H-22) < 0.5 && q.Overlaps(b) {
				n++
			}
		}
		return n
	}
	for of := range handPlaces {
		l := linkageOf(3.3)
		room := linkRooms[of].Inset(-6)
		if plate, ok := linkPlates[of]; ok {
			room = plate.Inset(-6)
		}
		before := count(l, room)
		l.Links[of].Held = true
		assert.Equal(t, before+1, count(l, room), "%d", of)
	}
}

// TestLightLeavesOneLinkAlone: under the light of the walk the link and its plate
// are what they were, and elsewhere the picture is paler.
func TestLightLeavesOneLinkAlone(t *testing.T) {
	plain := draw(linkageOf(3.3), 1, look.Paper).Pixels()
	for i := range LinkCount {
		l := linkageOf(3.3)
		l.Lit = i
		lit := draw(l, 1, look.Paper).Pixels()
		c := LinkBounds(look.Size{Part: 1, Device: 1}, paint.R(0, 0, LinkageW, LinkageH), i).Centre()
		assert.Equal(t, plain.At(int(c.X), int(c.Y)), lit.At(int(c.X), int(c.Y)), "%d", i)
		assert.NotEqual(t, plain.At(930-24, 276-88), lit.At(930-24, 276-88), "%d: the main shaft", i)
	}
}

// TestLinkIsFoundWhereItIsDrawn: a hand on the middle of a part finds its link,
// between the parts none, and the rooms hold what they are of.
func TestLinkIsFoundWhereItIsDrawn(t *testing.T) {
	middles := [LinkCount]paint.Point{
		{X: 144, Y: 258}, {X: 172, Y: 336}, {X: 402, Y: 289}, {X: 569, Y: 289}, {X: 690, Y: 190}, {X: 815, Y: mainY},
		{X: 126, Y: 722}, {X: 346, Y: 720}, {X: 570, Y: 722}, {X: 796, Y: 722}, {X: splitX, Y: crankY}, {X: splitX, Y: mainY},
		{X: eastX, Y: crankY}, {X: 1740, Y: northY}, {X: secantX, Y: 429}, {X: 1720, Y: pinionY(-46.6 * degree)},
		{X: clockX, Y: clockY}, {X: windX, Y: windY}, {X: lonBranch, Y: eastSumY}, {X: cone2X, Y: 690}, {X: 1780, Y: 735}, {X: 1713, Y: 852},
	}
	for _, f := range []float64{1, 0.68, 0.6} {
		z, box := look.Size{Part: f, Device: 1}, paint.R(31, 17, LinkageW*f, LinkageH*f)
		for i, m := range middles {
			p := paint.Pt(box.X+(m.X-linkX)*f, box.Y+(m.Y-linkY)*f)
			require.True(t, LinkBounds(z, box, Link(i)).Contains(p), "%d", i)
			assert.Equal(t, Link(i), LinkAt(z, box, p), "%d", i)
		}
		assert.Equal(t, NoLink, LinkAt(z, box, paint.Pt(box.X+2, box.Y+2)))
		assert.Equal(t, NoLink, LinkAt(z, box, paint.Pt(box.X+(480-linkX)*f, box.Y+(545-linkY)*f)))
	}
}

// TestWordsAreNotRounded: parts stand in steps, but what is written is the value.
func TestWordsAreNotRounded(t *testing.T) {
	l := linkageOf(3.3)
	l.Hands.Compass, l.Hands.Heading, l.Hands.Temperature = 24.6*units.MagneticHeading(degree), 47.51*units.TrueHeading(degree), 260.19
	rec, _ := recordOf(l)
	var all []string
	for _, c := range rec.Texts() {
		all = append(all, c.Text)
	}
	assert.Contains(t, all, "025C")
	assert.Contains(t, all, "\u221213.0 C")
}

// TestStripHoldsWhatItIsAbout: air position, marker and truth lie on the strip of
// chart, wherever they are, also on the two sides of 180.
func TestStripHoldsWhatItIsAbout(t *testing.T) {
	for lat := -75.0; lat <= 75; lat += 12.5 {
		for _, lon := range []float64{-179.97, -60, 0.02, 179.98} {
			for _, off := range []float64{0, 0.02, 0.3, 2, 6} {
				l := linkageOf(3)
				at := func(lat, lon float64) units.Position {
					return units.Position{Lat: units.Angle(lat) * degree, Lon: units.WrapHalf(units.Angle(lon) * degree)}
				}
				p := &l.Small.Plot
				p.Air, p.Marker = units.AirPosition(at(lat, lon)), units.GroundPosition(at(lat+off/3, lon+off))
				p.Truth = &Truth{Position: at(lat-off/2, lon-off/4)}
				_, s := recordOf(l)
				n := &s.seen.strip
				for _, q := range []paint.Point{n.air, n.marker, n.truth} {
					assert.True(t, n.view.Box.Inset(4).Contains(q), "lat %g lon %g off %g: %v", lat, lon, off, q)
				}
			}
		}
	}
}
