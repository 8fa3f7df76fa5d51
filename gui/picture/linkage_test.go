package picture

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

const degree = units.Degree

// linkageOf is a flight at some tick, its numbers by hand.
func linkageOf(turns float64) *Linkage {
	at := func(lat, lon float64) units.Position {
		return units.Position{Lat: units.Angle(lat) * degree, Lon: units.Angle(lon) * degree}
	}
	l := &Linkage{Run: 1, Lit: NoLink, Chosen: NoLink}
	l.Turns = Turns{
		AirLog: turns, Drive: turns, North: turns * 0.67, East: turns * 0.74, Longitude: turns * 1.08, Heading: 4.8,
		WindNorth: -turns * 0.06, WindEast: turns * 0.14, GroundNorth: turns * 0.6, GroundEast: turns * 0.88, GroundLongitude: turns * 1.2, Wind: turns * 0.3,
	}
	l.Hands = Hands{
		Impact: 0.6, Temperature: 272.35, Compass: 24 * units.MagneticHeading(degree), Setter: 24 * units.Variation(degree),
		Sent: 48 * units.TrueHeading(degree), Heading: 48 * units.TrueHeading(degree), BallNorth: 0.669, BallEast: 0.743,
		Gear: -46.6 * degree, GroundGear: -46.7 * degree, Clock: time.Date(1957, 8, 14, 9, 46, 40, 0, time.UTC),
		Wind: units.Wind{From: 295 * degree, Speed: 27 * units.Knot}, AirLog: counter.Miles(49.44 + turns/10),
	}
	l.Hands.AirCounters.Latitude = counter.Latitude(-(46*60 + 36.9) + turns/15)
	l.Hands.AirCounters.Longitude = counter.Hemisphere(179*60 + 23.7 + turns/10)
	l.Hands.GroundCounts.Latitude = counter.Latitude(-(46*60 + 40.1))
	l.Hands.GroundCounts.Longitude = counter.Hemisphere(179*60 + 33.8)
	set := func(of Link, value, unit, a, b string) {
		l.Links[of] = LinkState{Value: value, Unit: unit, Note: [2]string{a, b}}
	}
	set(LinkPitot, "793.8", "hPa", "pitot pressure:", "air brought to rest")
	set(LinkStatic, "752.6", "hPa", "static pressure:", "air undisturbed")
	set(LinkCapsules, "41.1", "hPa", "impact pressure:", "the difference")
	set(LinkAirLog, "178.0", "kt", "true airspeed", "")
	set(LinkCounter, "", "", "tapped before", "the drive")
	set(LinkDrive, "49.4", "NM", "distance wound on", "")
	set(LinkCompass, "024C", "", "compass heading", "")
	set(LinkDeviation, "0", "", "from the last swing", "")
	set(LinkVariation, "24 E", "", "from the chart", "")
	set(LinkRepeater, "048T", "", "true heading", "")
	set(LinkResolver, "048T", "", "", "")
	set(LinkNorthDisc, "33.1 N", "", "ball off centre:", "north")
	set(LinkEastDisc, "36.7 E", "", "ball right", "of centre")
	set(LinkSecant, "x 1.456", "", "", "")
	set(LinkGroundSecant, "x 1.457", "", "", "")
	set(LinkWind, "295/27", "", "set by hand, kt", "")
	set(LinkMarker, "", "", "the marker on the chart", "")
	l.Small.Ground = NewGround(Waters{})
	l.Small.Plot = Plot{
		Air: units.AirPosition(at(-46.61, 179.39)), Ground: units.GroundPosition(at(-46.67, 179.56)),
		Marker: units.GroundPosition(at(-46.67, 179.56)), Heading: l.Hands.Heading,
	}
	return l
}

// hangsOn are the links that a link is driven by.
var hangsOn = map[Link][]Link{
	LinkCapsules: {LinkPitot, LinkStatic}, LinkAirLog: {LinkCapsules}, LinkCounter: {LinkAirLog}, LinkDrive: {LinkAirLog},
	LinkDeviation: {LinkCompass}, LinkVariation: {LinkDeviation}, LinkRepeater: {LinkVariation}, LinkResolver: {LinkRepeater},
	LinkNorthDisc: {LinkDrive, LinkResolver}, LinkEastDisc: {LinkDrive, LinkResolver}, LinkLatitude: {LinkNorthDisc},
	LinkSecant: {LinkLatitude, LinkEastDisc}, LinkLongitude: {LinkSecant}, LinkWind: {LinkClock},
	LinkAdders: {LinkNorthDisc, LinkEastDisc, LinkWind}, LinkGroundSecant: {LinkAdders},
	LinkGround: {LinkAdders, LinkGroundSecant}, LinkMarker: {LinkGround},
}

// wrongWords are what may stand on the error plates, as long as they come.
var wrongWords = map[Link][2]string{
	LinkPitot: {"12.3 hPa too high", "right: 781.5"}, LinkStatic: {"12.3 hPa too low", "right: 764.9"},
	LinkCapsules: {"24.6 hPa too high", "right: 16.5"}, LinkAirLog: {"113.9 kt too high", "right: 64.1"},
	LinkCounter: {"12.5 NM too many", "right: 36.9"}, LinkDrive: {"short 15.6 NM", "right: 241.3"},
	LinkCompass: {"24\u00b0 too much", "right: 220C"}, LinkDeviation: {"24\u00b0 too much", "right: 220C"},
	LinkVariation: {"12.5\u00b0 too far west", "right: 24 E"}, LinkRepeater: {"12\u00b0 too little", "right: 060T"},
	LinkResolver: {"12\u00b0 too little", "right: 060T"}, LinkNorthDisc: {"12.2 too far N"}, LinkEastDisc: {"12.4 too far W"},
	LinkLatitude: {"12.2\u2032 too far north", "right: 47 28.5 S"}, LinkLongitude: {"14.4\u2032 too far west", "right: 179 13.2 W"},
	LinkSecant: {"right: x 1.484"}, LinkGroundSecant: {"right: x 1.484"}, LinkWind: {"12 kt out"}, LinkMarker: {"23.7 NM out"}, LinkGround: {"23.7 NM out"},
}

// breakLink shows a link broken and all that hangs on it striped.
func (l *Linkage) breakLink(of Link) {
	for i := range l.Links {
		l.Links[i].Stands = Agrees
	}
	l.Links[of].Stands, l.Links[of].Flag = Broken, "Drive slips 6 in 100"
	l.Links[of].Wrong = wrongWords[of]
	for range l.Links { // as often as there are links: the order does not matter
		for i, from := range hangsOn {
			for _, f := range from {
				if l.Links[i].Stands == Agrees && l.Links[f].Stands != Agrees {
					l.Links[i].Stands, l.Links[i].Wrong = Carries, wrongWords[i]
				}
			}
		}
	}
	at := l.Small.Plot.Marker
	l.Small.Plot.Truth = &Truth{Position: units.Position{Lat: at.Lat - 0.05*degree, Lon: at.Lon - 0.05*degree}}
}

// draw draws the picture at a factor.
func draw(l *Linkage, f float64, v look.Variant) *paint.Raster {
	w, h := LinkageW*f, LinkageH*f
	r := paint.NewImage(int(w), int(h))
	z := look.Size{Part: f, Device: 1}
	b := NewBrush(r, look.Of(v), z)
	r.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), look.Of(v).Ground)
	NewLinkageScene(z, paint.R(0, 0, w, h)).Draw(b, l)
	return r
}

func moments() []*Linkage {
	all := []*Linkage{linkageOf(3.3), linkageOf(3.5), linkageOf(3.81), linkageOf(4.4)}
	all[2].Hands.Heading, all[2].Hands.BallNorth, all[2].Hands.BallEast = 268*units.TrueHeading(degree), -0.035, -0.999
	all[3].Hands.Gear, all[3].Hands.Impact, all[3].Hands.Temperature = -20*degree, 0.1, 255
	broken := linkageOf(4.4)
	broken.breakLink(LinkDrive)
	half := linkageOf(4.6)
	half.breakLink(LinkVariation)
	half.Run = 0.5
	lit, later := linkageOf(4.7), linkageOf(5.1)
	lit.Lit, later.Lit, later.Chosen = LinkSecant, LinkSecant, LinkCompass
	all = append(all, broken, half, lit, later, linkageOf(6.2))
	for i := range uint64(24) {
		l := anyMoment(rand.New(rand.NewPCG(7, i)))
		later := *l
		later.Turns.Drive += 0.3
		later.Turns.East += 0.2
		later.Hands.Gear *= 0.9
		all = append(all, l, &later)
	}
	return all
}

// anyMoment has every part somewhere.
func anyMoment(r *rand.Rand) *Linkage {
	l := linkageOf(10 * r.Float64())
	h := &l.Hands
	h.Impact, h.Temperature = r.Float64(), units.Temperature(240+40*r.Float64())
	heading := 360 * r.Float64()
	sin, cos := math.Sincos(heading * math.Pi / 180)
	h.Heading, h.Compass, h.BallNorth, h.BallEast = units.TrueHeading(heading)*units.TrueHeading(degree), units.MagneticHeading(heading)*units.MagneticHeading(degree), cos, sin
	h.Gear, h.GroundGear = units.Angle(160*r.Float64()-80)*degree, units.Angle(80*r.Float64())*degree
	h.Clock = h.Clock.Add(time.Duration(r.IntN(5000)) * time.Second)
	h.AirCounters.Longitude = counter.Hemisphere(20*r.Float64() - 10)
	h.GroundCounts.Latitude = counter.Latitude(2*r.Float64() - 1)
	move := func(a *units.Angle) { *a += units.Angle(0.2*r.Float64()-0.1) * degree }
	p := &l.Small.Plot
	move(&p.Air.Lat)
	move(&p.Air.Lon)
	move(&p.Marker.Lon)
	l.Links[LinkDrive].Value = units.Figure(100*r.Float64(), 1)
	if r.IntN(3) == 0 {
		l.Links[LinkCounter].Note[0] = "agrees"
	}
	l.Fast = r.IntN(8) == 0
	if i := Link(r.IntN(60)); i < LinkCount {
		l.breakLink(i)
		l.Lit = Link(r.IntN(int(LinkCount) + 1))
	}
	return l
}

// TestOnlyWhatMovesIsRepainted: nothing for nothing, and little for a little.
func TestOnlyWhatMovesIsRepainted(t *testing.T) {
	brush, r, scene, all := bench()
	require.Len(t, scene.Repaint(brush, r, all[0]), 1, "at first the whole")
	assert.Empty(t, scene.Repaint(brush, r, all[0]))
	now := *all[0]
	now.Turns.Heading += 0.3
	changed := scene.Repaint(brush, r, &now)
	assert.NotEmpty(t, changed)
	for _, q := range changed {
		assert.True(t, q.In(image.Rect(160, 440, 1090, 660)), "only the shafts of the heading: %v", q)
	}
	assert.Empty(t, scene.Repaint(brush, r, &now))
	now.Fast = true
	assert.Equal(t, []image.Rectangle{image.Rect(0, 0, LinkageW, LinkageH)}, scene.Repaint(brush, r, &now))
	now.Turns.Drive += 0.4
	assert.Empty(t, scene.Repaint(brush, r, &now), "what turns too fast does not move")
}

// TestRepaintIsDraw: what is repainted piece by piece is what is drawn whole, to
// the last shade, and nothing changes outside the rectangles given.
func TestRepaintIsDraw(t *testing.T) {
	for _, at := range []struct{ f, x float64 }{{1, 7}, {0.68, 7}, {1.37, 7}, {0.7, -620}} { // the last with the left out of sight
		f := at.f
		z := look.Size{Part: f, Device: 1}
		box := paint.R(at.x, 5, LinkageW*f, LinkageH*f)
		r, whole := paint.NewImage(int(box.Right())+9, int(box.Bottom())+9), paint.NewImage(int(box.Right())+9, int(box.Bottom())+9)
		b, over := NewBrush(r, look.Of(look.Paper), z), NewBrush(whole, look.Of(look.Paper), z)
		scene, fresh := NewLinkageScene(z, box), NewLinkageScene(z, box)
		all := moments()
		if f != 0.68 {
			all = all[:16]
		}
		for i, l := range all {
			before := append([]byte(nil), r.Pixels().Pix...)
			changed := scene.Repaint(b, r, l)
			fresh.Begin(over, whole, l)
			require.Zero(t, differing(r.Pixels(), whole.Pixels().Pix), "moment %d at %g", i, f)
			for _, q := range changed {
				wipe(before, r.Pixels(), q)
			}
			require.Zero(t, differing(r.Pixels(), before), "moment %d at %g: outside", i, f)
		}
	}
}

// wipe makes a rectangle of before like the image.
func wipe(before []byte, im *image.RGBA, q image.Rectangle) {
	for y := q.Min.Y; y < q.Max.Y; y++ {
		at := im.PixOffset(q.Min.X, y)
		copy(before[at:at+4*q.Dx()], im.Pix[at:])
	}
}

// differing counts the pixels that differ at all.
func differing(a *image.RGBA, b []byte) (n int) {
	for i := 0; i < len(a.Pix); i += 4 {
		if !bytes.Equal(a.Pix[i:i+4], b[i:i+4]) {
			n++
		}
	}
	return n
}

// TestLinkageInNumbers: what the picture shows is to the scale of what it is told.
func TestLinkageInNumbers(t *testing.T) {
	for h := 0.0; h < 360; h += 7 {
		x, y := CrankPin(units.TrueHeading(h) * units.TrueHeading(degree))
		assert.InDelta(t, h, math.Mod(math.Atan2(x, -y)*180/math.Pi+360, 360), 1e-9, "the crank stands at the heading")
		assert.InDelta(t, discR-8, math.Hypot(x, y), 1e-9)
		sin, cos := math.Sincos(h * math.Pi / 180)
		assert.InDelta(t, y/(discR-8), NorthBall(cos)/ballWay, 1e-9, "a rod from the slot to the north ball is straight")
		assert.InDelta(t, x/(discR-8), EastBall(sin)/ballWay, 1e-9)
	}
	assert.Equal(t, []float64{coneTop, coneTop + coneTall/2, coneTop + coneTall, coneTop + coneTall},
		[]float64{pinionY(0), pinionY(-35 * degree), pinionY(70 * degree), pinionY(88 * degree)})
	assert.Equal(t, []float64{8, 10.5, 13, 13}, []float64{CapsuleAxis(0), CapsuleAxis(0.5), CapsuleAxis(1), CapsuleAxis(2)})
}

// barsOf are the left edges of the bars of a colour on the shaft behind the
// drive: turn marks, or stripes.
func barsOf(l *Linkage, c color.NRGBA) (xs []float64) {
	var rec paint.Record
	z := look.Size{Part: 1, Device: 1}
	d := NewLinkageScene(z, paint.R(0, 0, LinkageW, LinkageH)).look(NewBrush(&rec, look.Of(look.Paper), z), l)
	d.shaft(&shaft{LinkDrive, 850, mainY, 1014, mainY, 26, func(t *Turns) float64 { return t.Drive }})
	for _, k := range rec.Calls {
		if k.Name == "fill" && k.Col == c && len(k.Path.Pts) == 4 {
			xs = append(xs, k.Path.Pts[0].X)
		}
	}
	return xs
}

func marksOf(l *Linkage) []float64 { return barsOf(l, look.Of(look.Paper).BrassLo) }

// TestStripesRunOnePitchATurn too.
func TestStripesRunOnePitchATurn(t *testing.T) {
	at := func(turns float64) float64 {
		l := linkageOf(turns)
		l.breakLink(LinkAirLog)
		assert.Empty(t, marksOf(l))
		return barsOf(l, look.Of(look.Paper).Verm)[0]
	}
	assert.InDelta(t, at(3), at(4), 1e-9)
	assert.InDelta(t, stripePitch/4, at(3.25)-at(3), 1e-9)
}

func TestMarksRunOnePitchATurn(t *testing.T) {
	at := func(turns float64) float64 { return marksOf(linkageOf(turns))[0] }
	assert.InDelta(t, at(3), at(4), 1e-9)
	assert.InDelta(t, turnPitch/4, at(3.25)-at(3), 1e-9)
	assert.InDelta(t, turnPitch, marksOf(linkageOf(3))[1]-at(3), 1e-9)
	fast := linkageOf(3.25)
	fast.Fast = true
	assert.Empty(t, marksOf(fast), "what turns too fast has no marks")
}

func TestLinksArePointedAt(t *testing.T) {
	z := look.Size{Part: 0.68, Device: 1}
	box := paint.R(12, 8, LinkageW*0.68, LinkageH*0.68)
	for i := range LinkCount {
		r := LinkBounds(z, box, i)
		assert.True(t, box.Covers(r), "%d", i)
		assert.GreaterOrEqual(t, math.Min(r.W, r.H), 40.0, "%d", i)
		for j := range LinkCount {
			assert.False(t, i != j && LinkBounds(z, box, j).Contains(r.Centre()), "%d in %d", i, j)
		}
	}
}

// bench are moments at which all turns, the heading too.
func bench() (b *Brush, r *paint.Raster, scene *LinkageScene, all []*Linkage) {
	z := look.Size{Part: 1, Device: 1}
	r = paint.NewImage(LinkageW, LinkageH)
	all = make([]*Linkage, 64)
	for i := range all {
		all[i] = linkageOf(3 + float64(i)*0.16)
		all[i].Hands.Heading = units.TrueHeading(float64(i)) * units.TrueHeading(degree)
		all[i].Small.Ground = all[0].Small.Ground
	}
	return NewBrush(r, look.Of(look.Paper), z), r, NewLinkageScene(z, paint.R(0, 0, LinkageW, LinkageH)), all
}

func BenchmarkLinkageFrame(b *testing.B) {
	brush, r, scene, all := bench()
	i := 0
	for b.Loop() {
		scene.Repaint(brush, r, all[i%len(all)])
		i++
	}
}

// BenchmarkLinkageLit: a frame of the walk, all but one link under paper.
func BenchmarkLinkageLit(b *testing.B) {
	brush, r, scene, all := bench()
	for _, l := range all {
		l.breakLink(LinkDrive)
		l.Lit = LinkDrive
	}
	i := 0
	for b.Loop() {
		scene.Repaint(brush, r, all[i%len(all)])
		i++
	}
}

func BenchmarkLinkageWhole(b *testing.B) {
	brush, r, scene, all := bench()
	for b.Loop() {
		scene.Begin(brush, r, all[0])
	}
}

// BenchmarkLinkageStill: nothing has moved.
func BenchmarkLinkageStill(b *testing.B) {
	brush, r, scene, all := bench()
	for b.Loop() {
		scene.Repaint(brush, r, all[0])
	}
}
