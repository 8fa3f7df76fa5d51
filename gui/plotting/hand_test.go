package plotting

import (
	"bytes"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// drew is a line drawn by hand on a chart with a mile to a millimetre.
func drew(from, to units.Position, means Name) Drawn {
	return Drawn{ID: 1, Line: airplot.PencilLine{From: from, To: to}, PerMM: units.NM, Measured: "measured", Means: means}
}

// off is a place so many miles north and east of another.
func offset(p units.Position, north, east float64) units.Position {
	return at(at(p, 0, north, time.Hour), 90, east, time.Hour)
}

func named1(t *testing.T, names []Name, w Work) Name {
	t.Helper()
	for _, n := range names {
		if n.What == w {
			return n
		}
	}
	require.Fail(t, "no such name", "%d", w)
	return Name{}
}

// handy is a book after two lines: one heard at half an hour with the beacon north, so that
// it runs north and south through the aircraft, and one 12 minutes later with the beacon
// east.
func handy(t *testing.T) (*trip, *Book) {
	t.Helper()
	v, b := begun(), &Book{}
	v.fly(30 * time.Minute)
	v.hears("North", 0)
	v.fly(42 * time.Minute)
	v.hears("East", 90)
	v.take(b, nil)
	return v, b
}

// TestALineIsHeldAgainstTheReading: the pencil line of the first reading runs 002 and
// passes 1.3 NM east of the DR position; the worked one, moved on, passes 0.24 NM east of it
// (see TestALineIsMovedWithTheRun): 1.1 NM off. Moved 36 NM east of a meridian it leans by
// 36/3438 tan 47 = 0.64 degrees to the left: it is turned 2.6 degrees, and what lies off it
// lies to 089.4.
func TestALineIsHeldAgainstTheReading(t *testing.T) {
	v, b := handy(t)
	dr := groundAt(42 * time.Minute)
	moved := named1(t, b.LineNames(&v.View), LineMoved)
	words, under := b.NameText(&v.View, moved)
	assert.Equal(t, [2]string{"1000Z North", "moved to 1012Z"}, [2]string{words, under})
	d := drew(offset(dr, -30, 1.3-30*math.Tan(2*math.Pi/180)), offset(dr, 30, 1.3+30*math.Tan(2*math.Pi/180)), moved)
	c := b.Check(&v.View, []Drawn{d})
	require.Len(t, c, 1)
	assert.Equal(t, "1000Z North, moved to 1012Z", c[0].Name)
	assert.Equal(t, "1.1 NM 089T off the worked line, turned 3° to the right", c[0].Told)
	assert.True(t, c[0].Checked)
	assert.False(t, c[0].Good, "more than a millimetre, and more than two degrees")
	assert.Equal(t, "1000Z North  002T", b.Label(&v.View, moved, &d))
	assert.Empty(t, c[0].Miss)

	// The same reading as taken lies 36 NM back; where it was heard the aircraft was 90 tan 47 x
	// 6/3438 = 0.17 NM east of the marker: 36 + 1.3 - 0.17 = 37.1 NM.
	d.Means = Name{What: LineTaken, reading: moved.reading}
	assert.Contains(t, b.Check(&v.View, []Drawn{d})[0].Told, "37.1 NM")

	// One within what is granted.
	d = drew(offset(dr, -30, 0.9), offset(dr, 30, 0.9), moved)
	assert.True(t, b.Check(&v.View, []Drawn{d})[0].Good)

	// A reading that has been taken back has no line.
	v.Log = v.Log[1:]
	v.deeds++
	v.take(b, nil)
	c = b.Check(&v.View, []Drawn{d})
	assert.Equal(t, "The worked plot has no such thing now.", c[0].Told)
	assert.False(t, c[0].Checked)
}

// TestTheFixWhereTheLinesCross: both lines are drawn 2 NM out of place, the one east, the
// other north: they cross 2.83 NM 045T of the worked fix.
func TestTheFixWhereTheLinesCross(t *testing.T) {
	v, b := handy(t)
	fix := b.sheet.Fixes[0].Position
	moved, taken := named1(t, b.LineNames(&v.View), LineMoved), named1(t, b.LineNames(&v.View), LineTaken)
	all := []Drawn{
		drew(offset(fix, -30, 2), offset(fix, 30, 2), moved),
		drew(offset(fix, 2, -30), offset(fix, 2, 30), taken),
	}
	c := b.Check(&v.View, all)
	require.Len(t, c, 3)
	assert.Equal(t, "Where your lines cross", c[2].What)
	assert.Equal(t, "fix, 1012Z", c[2].Name)
	assert.Equal(t, "2.8 NM 045T off the worked one", c[2].Told)
	assert.False(t, c[2].Good, "1.41 NM are granted where lines cut square")
	assert.Equal(t, "within 1.0 NM (1 mm) and 2°", b.Granted(all)[len("a hand: "):])
	// with the truth, how far that is off: the worked fix is where the aircraft was
	v.take(b, truthAt)
	assert.Equal(t, "2.8 NM off", b.Check(&v.View, all)[2].Miss)
	assert.Equal(t, "2.0 NM off", b.Check(&v.View, all)[0].Miss)
}

// TestRunsByHand: the DR track of 42 minutes at 180 kt is 126 NM on 090; the hand has
// 093 and 128 NM, so that it ends 128 sin 3 = 6.7 NM south and 1.8 NM east: 6.9 NM 165T.
// The air run at 150 kt is 105 NM.
func TestRunsByHand(t *testing.T) {
	v, b := handy(t)
	n := named1(t, b.LineNames(&v.View), RunDrawn)
	words, under := b.NameText(&v.View, n)
	assert.Equal(t, [2]string{"DR track", "0930Z to 1012Z"}, [2]string{words, under})
	c := b.Check(&v.View, []Drawn{drew(departure, at(departure, 93, 128, time.Hour), n)})
	assert.Equal(t, "worked 090T 126.0 NM: yours is turned 3° to the right and 2.0 NM longer; it ends 7.0 NM 164T off.", c[0].Told)
	assert.False(t, c[0].Good)
	n = named1(t, b.LineNames(&v.View), AirDrawn)
	c = b.Check(&v.View, []Drawn{drew(departure, at(departure, 90, 105, time.Hour), n)})
	assert.Equal(t, "worked 090T 105.0 NM: yours is not turned and as long; it ends 0.0 NM off.", c[0].Told)
	assert.True(t, c[0].Good)
	c = b.Check(&v.View, []Drawn{drew(at(departure, 0, 5, time.Hour), at(departure, 90, 103, time.Hour), n)})
	assert.Contains(t, c[0].Told, "shorter")
	assert.Contains(t, c[0].Told, "It begins 5.0 NM 000T off.")
}

// TestTheWindByHand: the worked wind runs from the air position to the fix; the hand's ends
// 3 NM north of the fix. Worked: 31.14 minutes of longitude, 21.22 NM east, and 6 south in 42
// minutes: 22.05 NM, 31.499 kt from 285.8; by hand 3 south: 21.44 NM, 30.6 kt from 278.0. They
// are told as printed.
func TestTheWindByHand(t *testing.T) {
	v, b := handy(t)
	n := named1(t, b.LineNames(&v.View), WindDrawn)
	d := drew(airAt(42*time.Minute), offset(b.sheet.Fixes[0].Position, 3, 0), n)
	c := b.Check(&v.View, []Drawn{d})
	assert.Equal(t, "278/31, worked 286/31: 8° and 0 kt apart", c[0].Told)
	assert.False(t, c[0].Good, "3 NM; two millimetres are 2")
	assert.Equal(t, "278/31", b.Label(&v.View, n, &d))
	d = drew(airAt(42*time.Minute), offset(b.sheet.Fixes[0].Position, 1.9, 0), n)
	assert.True(t, b.Check(&v.View, []Drawn{d})[0].Good)

	// Without a fix it is the wind that carried the ground position.
	v.Log, v.deeds = nil, v.deeds+1
	v.take(b, nil)
	n = named1(t, b.LineNames(&v.View), WindDrawn)
	c = b.Check(&v.View, []Drawn{drew(airAt(42*time.Minute), groundAt(42*time.Minute), n)})
	assert.Equal(t, "270/30, worked 270/30: 0° and 0 kt apart", c[0].Told)
}

// TestMarksByHand: pins for fix, DR position and air position.
func TestMarksByHand(t *testing.T) {
	v, b := handy(t)
	names := b.MarkNames(&v.View)
	pin := func(p units.Position, w Work) Checked {
		d := drew(p, p, named1(t, names, w))
		d.Mark = "B"
		return b.Check(&v.View, []Drawn{d})[0]
	}
	fix := b.sheet.Fixes[0].Position
	c := pin(offset(fix, 0, -1.2), FixMarked)
	assert.Equal(t, [3]string{"Pin B", "fix, 1012Z", "1.2 NM 270T off the worked one"}, [3]string{c.What, c.Name, c.Told})
	assert.True(t, c.Good)
	c = pin(offset(groundAt(42*time.Minute), 2.5, 0), GroundMarked)
	assert.Equal(t, [2]string{"DR position, 1012Z", "2.5 NM 000T off the worked one"}, [2]string{c.Name, c.Told})
	assert.False(t, c.Good)
	c = pin(airAt(42*time.Minute), AirMarked)
	assert.Equal(t, [2]string{"Air position, 1012Z", "0.0 NM off the worked one"}, [2]string{c.Name, c.Told})

	// the fix of a plot of which one line has been taken back is no more
	v.Log, v.deeds = v.Log[:1], v.deeds+1
	v.take(b, nil)
	assert.False(t, pin(fix, FixMarked).Checked)
	d := drew(fix, fix, Name{})
	assert.Equal(t, "not said what it is", b.Check(&v.View, []Drawn{d})[0].Told)
	assert.Empty(t, b.Granted(nil))
}

// TestThePencilIsTakenBack: every deed of the pencil, one after the other, and back again.
func TestThePencilIsTakenBack(t *testing.T) {
	var p Pencil
	assert.False(t, p.Undo())
	line := airplot.PencilLine{From: departure, To: units.At(-46, 179)}
	require.True(t, p.Draw(line, units.NM, "000T  60.0 NM"))
	id := p.At(line)
	require.NotZero(t, id)
	p.Call(id, Name{What: WindDrawn}, "270/30")
	assert.Equal(t, "270/30", p.Lines()[0].Words)
	p.CallMark("A", Name{What: FixMarked})
	p.Call(id, Name{}, "")
	assert.Equal(t, "000T  60.0 NM", p.Lines()[0].Words)
	p.RubOut(id)
	p.RubOut(id) // it is gone
	assert.Empty(t, p.Lines())
	for _, want := range []string{"000T  60.0 NM", "270/30", "270/30", "000T  60.0 NM"} {
		require.True(t, p.Undo())
		assert.Equal(t, want, p.Lines()[0].Words)
	}
	assert.Equal(t, Name{}, p.MarkMeans("A"))
	require.True(t, p.CanUndo())
	require.True(t, p.Undo())
	assert.Empty(t, p.Lines())
	assert.False(t, p.CanUndo())
	for range MostLines {
		require.True(t, p.Draw(line, units.NM, ""))
	}
	assert.False(t, p.Draw(line, units.NM, ""), "the chart takes no more")
}

// checks enters a heading check on a compass heading, with the deviation that it shows and
// a variation of 20 E.
func (v *trip) checks(compass, deviation float64) {
	heading := units.Wrap(units.Angle(compass+deviation+20) * deg)
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.HeadingCheck, Source: "Sun"}, Angle: heading})
	e := &v.Log[len(v.Log)-1]
	e.Variation, e.Compass = units.Variation(20*deg), units.CompassHeading(units.Angle(compass)*deg)
}

// TestTheSwingOfAFlight: the published swing of nav_compass.csv (Handbook of Magnetic
// Compass Adjustment, NGA 2004, art. 501), entered as heading checks; the coefficients by
// least squares are those of its second row, what is left over 0.051 degrees.
func TestTheSwingOfAFlight(t *testing.T) {
	v := begun()
	s := SwingOf(v.Log)
	assert.Contains(t, s.Told(), "No heading check yet.")
	assert.Empty(t, s.Now(&v.View))
	swing := [][2]float64{{0, 10.5}, {45, 20}, {90, 11.5}, {135, -1.2}, {180, -5.5}, {225, -8}, {270, -12.5}, {315, -6.8}}
	for i, r := range swing {
		v.checks(r[0], r[1])
		s = SwingOf(v.Log)
		assert.Len(t, s.Checks, i+1)
		assert.InDelta(t, r[1], s.Checks[i].Deviation.Degrees(), 1e-9)
		switch {
		case i < 2:
			assert.Zero(t, s.Terms)
			assert.Contains(t, s.Told(), "too few")
		case i < 4:
			assert.Equal(t, 3, s.Terms, "three headings, four")
			assert.Contains(t, s.Told(), "A to C only")
			assert.Zero(t, s.Card.D)
		case i == len(swing)-1:
			assert.Equal(t, 5, s.Terms)
		}
	}
	for want, got := range map[float64]units.Angle{1: s.Card.A, 11.9397: s.Card.B, 7.9598: s.Card.C, 5: s.Card.D, 1.5: s.Card.E} {
		assert.InDelta(t, want, got.Degrees(), 0.001)
	}
	assert.Equal(t, "A 1.0  B 11.9  C 8.0  D 5.0  E 1.5", s.Words())
	assert.Equal(t, "8 headings give A to E. What is left over: 0.1°.", s.Told())

	// On compass 022.5 the deviation is 17.519 (the same row): 040.0M, with 20 E 060.0T.
	var b Book
	v.take(&b, nil)
	row := b.Rows(&v.View)[1]
	assert.Equal(t, "deviation 20.0 E", row.Moved)
	assert.False(t, row.Box || row.Used)
	assert.Equal(t, aboard.HeadingCheck, b.Aid(1))
	assert.Equal(t, aboard.NoAid, b.Aid(8))
	v.Compass, v.VariationSet, v.Heading = units.CompassHeading(22.5*deg), units.Variation(20*deg), units.TrueHeading(42.5*deg)
	assert.Equal(t, "Now 023C, deviation 17.5 E, variation 20.0 E: 060T. The repeater shows 043T.", s.Now(&v.View))
	card := s.Picture()
	assert.True(t, card.Made && len(card.Readings) == 8)
	assert.Equal(t, []string{"045", "085.0T", "20.0 E", "065", "20.0 E"}, s.Rows()[1])
	var out bytes.Buffer
	require.NoError(t, WriteSwing(&out, paint.PDFFile, "A flight", v.Clock, &s))
	assert.Greater(t, out.Len(), 10000)
	assert.Error(t, WriteSwing(&out, paint.PNG, "A flight", v.Clock, &s))
}

// TestASwingOnTooFewHeadings: five readings on three headings are three headings, and two
// of them close together are one: the published cardinal swing with a reading repeated.
func TestASwingOnTooFewHeadings(t *testing.T) {
	v := begun()
	for _, r := range [][2]float64{{0, -4}, {2, -4}, {4, -4}, {90, 6}, {93, 6}} {
		v.checks(r[0], r[1])
	}
	s := SwingOf(v.Log)
	assert.Equal(t, 2, s.Headings)
	assert.Zero(t, s.Terms)
	assert.Contains(t, s.Told(), "2 headings so far: too few")
	v.checks(180, 8)
	s = SwingOf(v.Log)
	assert.Equal(t, 3, s.Terms)
	v.checks(270, 2)
	assert.Equal(t, 3, SwingOf(v.Log).Terms, "four headings are not five")
	v = begun()
	for _, r := range [][2]float64{{0, -4}, {90, 6}, {180, 8}, {270, 2}} {
		v.checks(r[0], r[1])
	}
	s = SwingOf(v.Log)
	assert.InDelta(t, 2, s.Card.B.Degrees(), 1e-9)
	assert.InDelta(t, -6, s.Card.C.Degrees(), 1e-9)
	assert.Equal(t, "A 3.0  B 2.0  C -6.0", s.Words())
	// one that failed does not count
	v.enter(aboard.Reading{Aim: aboard.Aim{Aid: aboard.HeadingCheck, Source: "Sun"}, Missing: aboard.OutOfSight})
	assert.Equal(t, s.Checks, SwingOf(v.Log).Checks)
}
