package overlay

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

const deg = units.Degree

var (
	night = time.Date(1957, 8, 14, 10, 30, 0, 0, time.UTC) // at the Tern Islands
	day   = time.Date(1957, 8, 14, 0, 30, 0, 0, time.UTC)
	here  = units.At(-47.2, -178.3)
	thin  = sight.ThinAir(isa.Pressure(8000*units.Foot), isa.Temperature(8000*units.Foot))

	skerrow   = units.At(-47.4333, -179.8544) // M
	mollyhawk = units.At(-46.2883, 179.1471)  // A
	tealHolm  = units.At(-47.7630, -177.1727) // B
)

// sheetOf is a window of the chart about a place, so many degrees of latitude
// high, in cells of about 2 NM.
func sheetOf(p units.Position, tall float64) Window {
	half := units.Angle(tall/2) * deg
	wide := half * 1.6 / units.Angle(math.Cos(p.Lat.Radians()))
	n := max(20, int(tall*30))
	return Window{South: p.Lat - half, North: p.Lat + half, West: p.Lon - wide, East: p.Lon + wide, Columns: n * 8 / 5, Rows: n}
}

func known(over time.Time, near units.Position) Sky { return Sky{over, near, thin} }

// Points of a star curve have the altitude written on it, as the sky of the world
// has it with refraction: within 0.2' (asked for), in fact within the 0.0005' to
// which crossings are found. Windows lie across the date line and near a pole.
func TestStarCurvesHaveTheirAltitude(t *testing.T) {
	for _, near := range []units.Position{here, units.At(-47, 179.99), units.At(52, 10), units.At(74, -100), units.At(2, -179.9)} {
		over := night
		for sky.Night != lightAt(over, near) {
			over = over.Add(time.Hour)
		}
		s := Stars(StarOrder{Sky: known(over, near), Window: sheetOf(near, 3), Step: 10})
		require.True(t, s.Dark)
		require.NotEmpty(t, s.Pairs, "%v", near)
		world := sky.At(over)
		for i, b := range [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body} {
			require.Greater(t, len(s.Curve[i].Curves), 10, "three degrees of latitude, a curve each ten minutes")
			points := 0
			for _, c := range s.Curve[i].Curves {
				for _, line := range c.Lines {
					for _, p := range line {
						h, _ := world.Seen(b, p, thin)
						require.InDelta(t, c.Level, h.Minutes(), 0.002, "%v at %v", b, p)
						points++
					}
				}
			}
			assert.Greater(t, points, 500)
		}
	}
}

func lightAt(over time.Time, at units.Position) sky.Light {
	s := sky.At(over)
	return s.Light(at)
}

// Between two points a line is a chord: in the middle of each it is still within
// 0.2' of the altitude claimed.
func TestChordsStayOnTheCurve(t *testing.T) {
	s := Stars(StarOrder{Sky: known(night, here), Window: sheetOf(here, 5), Step: 30})
	world := sky.At(night)
	for i, b := range [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body} {
		for _, c := range s.Curve[i].Curves {
			for _, line := range c.Lines {
				for k := 1; k < len(line); k++ {
					h, _ := world.Seen(b, middle(line[k-1], line[k]), thin)
					require.InDelta(t, c.Level, h.Minutes(), 0.2)
				}
			}
		}
	}
}

// middle is the middle of a straight piece on the chart.
func middle(a, b units.Position) units.Position {
	psi := (geodesy.IsometricLatitude(a.Lat) + geodesy.IsometricLatitude(b.Lat)) / 2
	return units.Position{Lat: geodesy.LatitudeOfIsometric(psi), Lon: (a.Lon + b.Lon) / 2}
}

// A line is not torn, at the date line least of all: no step is longer than a
// cell's diagonal.
func TestLinesAreNotTorn(t *testing.T) {
	w := sheetOf(units.At(-47, 180), 4)
	cell := math.Hypot(float64(w.East-w.West)/float64(w.Columns), float64(w.East-w.West)/float64(w.Rows))
	s := Stars(StarOrder{Sky: known(night, here), Window: w, Step: 10})
	l := Lattice(LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Window: w, Step: 25})
	for _, f := range append(s.Curve[:], l.Curve[:]...) {
		require.NotEmpty(t, f.Curves)
		for _, c := range f.Curves {
			for _, line := range c.Lines {
				for k := 1; k < len(line); k++ {
					require.Less(t, math.Abs(float64(line[k].Lon-line[k-1].Lon)), cell)
				}
			}
		}
	}
}

func TestWeights(t *testing.T) {
	s := Stars(StarOrder{Sky: known(night, here), Window: sheetOf(here, 3), Step: 10})
	for _, c := range s.Curve[0].Curves {
		want := Fine
		switch m := int(math.Round(c.Level)); {
		case m%60 == 0:
			want = Heavy
		case m%30 == 0:
			want = Middle
		}
		assert.Equal(t, want, c.Weight, "%v", c.Level)
	}
	l := Lattice(LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Window: sheetOf(here, 3), Step: 25})
	for _, c := range l.Curve[1].Curves {
		assert.Equal(t, int(math.Round(c.Level))%100 == 0, c.Weight == Heavy, "%v", c.Level)
	}
}

// By day there are no stars, and it says so.
func TestByDayThereAreNoStars(t *testing.T) {
	s := Stars(StarOrder{Sky: known(day, here), Window: sheetOf(here, 3), Step: 10})
	assert.False(t, s.Dark)
	assert.Empty(t, s.Pairs)
	assert.Empty(t, s.Curve[0].Curves)
}

// The best pairs cut well, and the chosen one is kept whatever the best is.
func TestPairs(t *testing.T) {
	s := Stars(StarOrder{Sky: known(night, here)})
	require.Len(t, s.Pairs, 3)
	for _, p := range s.Pairs {
		assert.Greater(t, p.Crossing, 70*deg)
		assert.True(t, p.A.Body.IsStar() && p.B.Body.IsStar())
		apart := math.Abs(units.WrapHalfDegrees((p.A.Azimuth - p.B.Azimuth).Degrees()))
		assert.InDelta(t, math.Min(apart, 180-apart), p.Crossing.Degrees(), 1e-9)
	}
	antares, _ := sky.Lookup("Antares")
	altair, _ := sky.Lookup("Altair")
	s = Stars(StarOrder{Sky: known(night, here), Pair: [2]sky.Body{antares, altair}})
	assert.Equal(t, antares, s.Pair.A.Body)
	assert.Equal(t, altair, s.Pair.B.Body)
	// A star that has set is no star for a pair: the best one stands in.
	sirius, _ := sky.Lookup("Sirius")
	s = Stars(StarOrder{Sky: known(night, here), Pair: [2]sky.Body{sirius, altair}})
	assert.Equal(t, s.Pairs[0], s.Pair)
}

// The crossing of two altitudes read without error anywhere, at any hour of the
// night, is the place they were read at: within 0.1 NM (asked for), with no
// better knowledge of it than 40 NM.
func TestTwoAltitudesGiveThePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := units.At(rapid.Float64Range(-65, 65).Draw(t, "lat"), rapid.Float64Range(-180, 179.99).Draw(t, "lon"))
		over := night.Add(time.Duration(rapid.IntRange(0, 365*24*60).Draw(t, "minutes")) * time.Minute)
		believed, err := geodesy.RhumbDirect(at, units.Angle(rapid.Float64Range(0, 360).Draw(t, "toward"))*deg, 40*units.NM)
		require.NoError(t, err)
		s := Stars(StarOrder{Sky: known(over, believed)})
		if !s.Dark || s.Pair.Crossing < LeastCut {
			t.Skip("by day, or no pair")
		}
		world := sky.At(over)
		var read [2]Read
		for i, b := range [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body} {
			h, _ := world.Seen(b, at, thin)
			read[i] = ReadAt(h.Minutes())
		}
		s = Stars(StarOrder{Sky: known(over, believed), Pair: [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body}, Read: read})
		require.NoError(t, s.Err)
		_, off := geodesy.RhumbInverse(at, s.Fixes[0].Position)
		require.Less(t, off.NM(), 0.1)
	})
}

// The fix stands on both curves of what was read, as drawn, across 180 too.
func TestTheFixStandsOnTheReadCurves(t *testing.T) {
	at := units.At(-47.1, 179.98)
	o := StarOrder{Sky: known(night, at), Window: sheetOf(at, 2), Step: 10}
	s := Stars(o)
	o.Pair = [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body}
	for i, b := range o.Pair {
		o.Read[i] = ReadAt(o.Altitude(b, at))
	}
	s = Stars(o)
	for i := range s.Curve {
		require.NotEmpty(t, s.Curve[i].Read)
		assert.Less(t, nearest(s.Curve[i].Read, s.Fixes[0].Position), 0.05)
	}
}

// nearest is how far the nearest point of the lines is, NM, by chords.
func nearest(lines []Line, p units.Position) float64 {
	best := math.Inf(1)
	for _, line := range lines {
		for k := 1; k < len(line); k++ {
			for i := range 101 {
				u := units.Angle(i) / 100
				q := units.Position{Lat: line[k-1].Lat + u*(line[k].Lat-line[k-1].Lat), Lon: line[k-1].Lon + u*(line[k].Lon-line[k-1].Lon)}
				_, d := geodesy.RhumbInverse(p, q)
				best = math.Min(best, d.NM())
			}
		}
	}
	return best
}

// In two minutes a curve stands 2 x 15.041' of longitude farther west and is
// otherwise the same: the earth turns once in 23 h 56 m 4.1 s (almanacs).
func TestCurvesGoWestWithTheClock(t *testing.T) {
	o := StarOrder{Sky: known(night, here), Window: sheetOf(here, 3), Step: 10}
	s := Stars(o)
	o.Pair = [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body}
	for i, b := range o.Pair {
		o.Read[i] = ReadAt(o.Altitude(b, here))
	}
	s = Stars(o)
	moved := units.Position{Lat: here.Lat, Lon: here.Lon - 2*15.041*units.ArcMinute}
	for i := range s.Later {
		require.NotEmpty(t, s.Later[i])
		assert.Less(t, nearest(s.Later[i], moved), 0.05)
	}
	assert.InDelta(t, 10.22, Westward(units.Angle(-47.2)*deg).NM(), 0.01, "15.041 cos 47.2")
}

// Points of the lattice have the time difference written on them to 0.01 us (asked
// for), by the distances of the navigator's tables: TD = (d2 - d1 + b) n/c + delay.
func TestLatticeLinesHaveTheirTimeDifference(t *testing.T) {
	distance := func(p, q units.Position) float64 {
		p.Lon = units.WrapHalf(p.Lon)
		_, _, d := geodesy.GeodesicInverse(p, q)
		return d.Metres()
	}
	l := Lattice(LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Window: sheetOf(units.At(-46.9, -178.5), 4), Step: 25})
	for i, station := range [2]units.Position{mollyhawk, tealHolm} {
		points := 0
		for _, c := range l.Curve[i].Curves {
			for _, line := range c.Lines {
				for _, p := range line {
					td := (distance(p, station)-distance(p, skerrow)+distance(skerrow, station))*1.0003/299.792458 + 1000
					require.InDelta(t, c.Level, td, 0.01)
					points++
				}
			}
		}
		assert.Greater(t, points, 2000)
	}
}

// Two time differences read without error give the place within 0.1 NM wherever
// the lattice is of use; where it answers twice, one of the two is the place.
func TestTwoTimeDifferencesGiveThePlace(t *testing.T) {
	o := LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm}
	pairs := o.Pairs()
	rapid.Check(t, func(t *rapid.T) {
		at := units.At(rapid.Float64Range(-52, -42).Draw(t, "lat"), units.WrapHalfDegrees(rapid.Float64Range(174, 190).Draw(t, "lon")))
		if o.poor(at) {
			t.Skip("hatched")
		}
		q := o
		q.Near, _ = geodesy.RhumbDirect(at, units.Angle(rapid.Float64Range(0, 360).Draw(t, "toward"))*deg, 5*units.NM)
		for i := range q.Read {
			q.Read[i] = ReadAt(pairs[i].At(at).Microseconds())
		}
		l := Lattice(q)
		require.NoError(t, l.Err)
		best := math.Inf(1)
		for _, f := range l.Fixes {
			_, off := geodesy.RhumbInverse(at, f.Position)
			best = math.Min(best, off.NM())
		}
		require.Less(t, best, 0.1)
		require.Len(t, l.Worth, len(l.Fixes))
	})
}

// Behind a station, on the extension of its baseline, the sheet is hatched; square
// off the baseline it is not.
func TestHatchLiesBehindTheBaselines(t *testing.T) {
	o := LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm}
	for _, station := range [2]units.Position{mollyhawk, tealHolm} {
		course, d := geodesy.RhumbInverse(skerrow, station)
		behind, err := geodesy.RhumbDirect(skerrow, course, d*1.4)
		require.NoError(t, err)
		assert.True(t, o.poor(behind))
		beyond, err := geodesy.RhumbDirect(skerrow, course+180*deg, d*0.4)
		require.NoError(t, err)
		assert.True(t, o.poor(beyond), "behind the master too")
	}
	assert.False(t, o.poor(here))
	o.Window = sheetOf(skerrow, 5)
	strokes := Lattice(o).Weak
	require.NotEmpty(t, strokes)
	bad := 0
	for _, s := range strokes {
		if !o.poor(middle(s[0], s[1])) {
			bad++
		}
	}
	// a sliver of good sea narrower than the steps of a stroke may be crossed
	assert.LessOrEqual(t, bad, len(strokes)/50, "of %d", len(strokes))
}

// Where 1 us of a pair moves a line, by the note's 5.2: v/2 / sin(psi/2); at the
// least angle that is 1.85 NM (c = 299.792458 m/us, closed form).
func TestLeastAngleIsWorthTwoMiles(t *testing.T) {
	assert.InDelta(t, 1.85, 299.792458/2/math.Sin(LeastAngle.Radians()/2)/1852, 0.01)
}

// The tilt of the bubble in the southern hemisphere is to the left of the track:
// 2.62 V sin L for V hundreds of knots and, due west, 0.146 V^2 tan L (sight
// reduction tables, from memory).
func TestTilt(t *testing.T) {
	z, to := Tilt(200*units.Knot, -45*deg, 0)
	assert.InDelta(t, 2.62*2*math.Sqrt2/2, z.NM(), 1e-9)
	assert.InDelta(t, 270, to.Degrees(), 1e-9)
	_, to = Tilt(200*units.Knot, 45*deg, 0)
	assert.InDelta(t, 90, to.Degrees(), 1e-9)
}

// Steps leave room between the lines.
func TestSteps(t *testing.T) {
	for _, c := range []struct{ pixels, altitude, lattice float64 }{
		{6, 10, 25}, {2.9, 10, 25}, {2.5, 30, 25}, {1.3, 30, 25}, {0.5, 60, 25}, {0.19, 300, 100}, {0.03, 600, 500},
	} {
		assert.Equal(t, c.altitude, AltitudeStep(c.pixels), "%v", c.pixels)
		assert.Equal(t, c.lattice, LatticeStep(c.pixels), "%v", c.pixels)
	}
}

// A window that is none gives no lines and does no harm.
func TestNoWindow(t *testing.T) {
	for _, w := range []Window{{}, {South: -1, North: 1, West: 1, East: 0, Columns: 5, Rows: 5}, {South: -90 * deg, North: 0, East: 1, Columns: 5, Rows: 5}} {
		assert.Empty(t, Stars(StarOrder{Sky: known(night, here), Window: w, Step: 10}).Curve[0].Curves)
		assert.Empty(t, Lattice(LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Window: w, Step: 25}).Curve[0].Curves)
	}
}

// Readings that cannot be are said to be so.
func TestReadingsThatCannotBe(t *testing.T) {
	o := LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Near: here, Read: [2]Read{ReadAt(200), ReadAt(1500)}}
	var wrong *airplot.ChainError
	assert.ErrorAs(t, Lattice(o).Err, &wrong)
	k := known(night, here)
	s := Stars(StarOrder{Sky: k, Read: [2]Read{ReadAt(88 * 60), ReadAt(88 * 60)}})
	assert.ErrorIs(t, s.Err, airplot.ErrNoMeet)
}

func BenchmarkStars(b *testing.B) {
	o := StarOrder{Sky: known(night, here), Window: sheetOf(here, 3), Step: 10, Read: [2]Read{ReadAt(2542), ReadAt(2034)}}
	for b.Loop() {
		Stars(o)
	}
}

func BenchmarkLattice(b *testing.B) {
	o := LatticeOrder{Master: skerrow, A: mollyhawk, B: tealHolm, Window: sheetOf(here, 3), Step: 25, Read: [2]Read{ReadAt(1600), ReadAt(1500)}}
	for b.Loop() {
		Lattice(o)
	}
}
