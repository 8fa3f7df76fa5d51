package airplot

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// somewhere draws a place between 70 S and 70 N, as often as not near the
// equator or the date line.
func somewhere(t *rapid.T) units.Position {
	lat := rapid.Float64Range(-70, 70)
	lon := rapid.Float64Range(-180, 180)
	return units.At(
		rapid.OneOf(lat, rapid.Float64Range(-0.5, 0.5)).Draw(t, "lat"),
		rapid.OneOf(lon, rapid.Float64Range(179.5, 180.5)).Draw(t, "lon"))
}

func drawAngle(t *rapid.T, name string, low, high float64) units.Angle {
	return angle(rapid.Float64Range(low, high).Draw(t, name))
}

// about draws a DR position within so many miles.
func about(t *rapid.T, p units.Position, far float64) units.Position {
	off := toward(drawAngle(t, "off", 0, 360), 1852*rapid.Float64Range(0, far).Draw(t, "far"))
	return onEllipsoid.moved(p, off)
}

// runTo draws a run, and gives where it must have begun to end at p. It is
// worked here from the tables of the geodesy package alone.
func runTo(t *rapid.T, p units.Position) (Run, units.Position) {
	r := Run{drawAngle(t, "track", 0, 360), miles(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-60, 60)).Draw(t, "run"))}
	from, err := geodesy.RhumbDirect(p, r.Track+math.Pi, r.Distance)
	if err != nil {
		t.Fatal(err)
	}
	return r, from
}

// assertFound: one of the fixes is the true position within 0.01 NM, and the
// first one if first.
func assertFound(t *rapid.T, truth units.Position, found []Fix, nearest bool) {
	best := geodesy.Distance(truth, found[0].Position)
	if !nearest && len(found) > 1 {
		best = min(best, geodesy.Distance(truth, found[1].Position))
	}
	if best.NM() > 0.01 {
		t.Fatalf("%v NM off: %v, found %v", best.NM(), truth, found)
	}
}

// TestBearingsFixTheTruePosition: two error-free bearings that cut at 20 to 160
// degrees, from stations 10 to 300 miles away, run on; DR up to 8 miles off.
func TestBearingsFixTheTruePosition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := somewhere(t)
		first := drawAngle(t, "first", 0, 360)
		var lines []Line
		for _, out := range []units.Angle{first, first + drawAngle(t, "between", 20, 160)} {
			run, from := runTo(t, truth)
			station, _ := geodesy.GeodesicDirect(from, out, miles(rapid.Float64Range(10, 300).Draw(t, "away")))
			lines = append(lines, Line{Locus: Bearing{Station: station, Bearing: units.Wrap(out), Sigma: deg}, Run: run})
		}
		found, err := Solve(about(t, truth, 8), lines)
		if err != nil {
			t.Fatal(err)
		}
		assertFound(t, truth, found, true)
	})
}

// TestAltitudesFixTheTruePosition: two bodies whose azimuths differ by 20 to 160
// degrees, 5 to 85 degrees high; the DR position up to 60 miles off, and the
// other crossing not nearer to it than the truth, or offered second.
func TestAltitudesFixTheTruePosition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := somewhere(t)
		first := drawAngle(t, "first", 0, 360)
		var lines []Line
		for _, zn := range []units.Angle{first, first + drawAngle(t, "between", 20, 160)} {
			run := Run{drawAngle(t, "track", 0, 360), miles(rapid.Float64Range(-60, 60).Draw(t, "run"))}
			from := onRhumbSphere(truth, run)
			altitude := drawAngle(t, "altitude", 5, 85)
			below := geodesy.GreatCirclePoint(from, zn, math.Pi/2-altitude)
			lines = append(lines, Line{
				Locus: Altitude{GHA: -below.Lon, Declination: below.Lat, Observed: altitude, Sigma: units.ArcMinute},
				Run:   run,
			})
		}
		found, err := Solve(about(t, truth, 60), lines)
		if err != nil {
			t.Fatal(err)
		}
		assertFound(t, truth, found, false)
	})
}

// onRhumbSphere is where a run that ends at p began, on the sphere, in a
// thousand small steps with the latitude of their middle: another way than that
// of the code.
func onRhumbSphere(p units.Position, r Run) units.Position {
	const steps = 1000
	lat, lon := p.Lat.Radians(), p.Lon.Radians()
	arc := -r.Distance.NM() * float64(units.ArcMinute) / steps
	s, c := math.Sincos(r.Track.Radians())
	for range steps {
		lon += arc * s / math.Cos(lat+arc*c/2)
		lat += arc * c
	}
	return units.Position{Lat: units.Angle(lat), Lon: units.Angle(lon)}
}

// beyondUse is how far a microsecond moves a line where its two stations are seen
// 5 degrees apart: c/(2 sin 2.5 deg). Behind that, near the extension of the
// baseline, one reading belongs to two places a mile apart, and the chart is
// hatched.
const beyondUse = 3437 * units.Metre

// TestTimeDifferencesFixTheTruePosition: chains of every shape with baselines of
// 60 to 250 miles, the aircraft 20 to 500 miles from the master where the lines
// cut at 15 degrees at least and no baseline's extension is near: not where a
// microsecond moves the fix by 2 miles and more.
func TestTimeDifferencesFixTheTruePosition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := somewhere(t)
		master, _ := geodesy.GeodesicDirect(truth, drawAngle(t, "toward", 0, 360), miles(rapid.Float64Range(20, 500).Draw(t, "range")))
		first := drawAngle(t, "first", 0, 360)
		station := func(out units.Angle) units.Position {
			p, _ := geodesy.GeodesicDirect(master, out, miles(rapid.Float64Range(60, 250).Draw(t, "baseline")))
			return p
		}
		c := Chain{
			Master: master, A: station(first), B: station(first + drawAngle(t, "between", 60, 300)),
			DelayA: TimeDifference(rapid.Float64Range(0, 3e-2).Draw(t, "delay")), Index: 1.000338,
		}
		if l := c.LatticeAt(truth, Microsecond, 0); l.Cut < 15*deg || max(l.ShiftA, l.ShiftB) > beyondUse || l.Ellipse.Major > 2*units.NM {
			t.Skip("a poor cut, or behind the extension of a baseline")
		}
		a, b := c.Pairs()
		found, err := c.Fix(about(t, truth, 20), a.At(truth), b.At(truth), Microsecond)
		if err != nil {
			t.Fatal(err)
		}
		assertFound(t, truth, found, false)
	})
}

// TestConversionAngleFollowsTheGeodesic: the navigation note has the rule err by
// about 0.1 degree at 400 miles, for middle latitudes; twice that is the bound
// here, below 60 degrees and on one side of the equator.
func TestConversionAngleFollowsTheGeodesic(t *testing.T) {
	worst := 0.0
	rng := rand.New(rand.NewPCG(7, 7))
	for range 2000 {
		a := units.At(60*rng.Float64(), 360*rng.Float64())
		b, _ := geodesy.GeodesicDirect(a, angle(360*rng.Float64()), miles(400*rng.Float64()))
		if b.Lat < 0 || b.Lat > 60*deg {
			continue
		}
		for _, side := range []units.Angle{1, -1} {
			p, q := a, b
			p.Lat, q.Lat = side*p.Lat, side*q.Lat
			great, _, _ := geodesy.GeodesicInverse(p, q)
			rhumb, _ := geodesy.RhumbInverse(p, q)
			off := units.WrapHalf(great + ConversionAngle(p, q) - rhumb)
			worst = math.Max(worst, math.Abs(off.Degrees()))
		}
	}
	assert.Less(t, worst, 0.2)
	assert.Greater(t, worst, 0.02, "the rule is not exact")
}

// scatter solves readings with errors again and again and gives the root mean
// squares of the fixes along the axes of an ellipse.
func scatter(t *testing.T, truth units.Position, e Ellipse, n int, solve func(*rand.Rand) []Line) (major, minor, mean float64) {
	t.Helper()
	rng := rand.New(rand.NewPCG(1957, 8))
	along := toward(e.Bearing, 1)
	var sum vector
	for range n {
		found, err := Solve(truth, solve(rng))
		require.NoError(t, err)
		v := onEllipsoid.between(truth, found[0].Position)
		a, c := v.dot(along), along.cross(v)
		major, minor = major+a*a, minor+c*c
		sum = vector{sum.north + v.north, sum.east + v.east}
	}
	k := 1 / float64(n)
	return math.Sqrt(major * k), math.Sqrt(minor * k), sum.size() * k
}

// TestEllipsesAgainstMonteCarlo: the spread of 4000 fixes with normal errors is
// that of the ellipse within the sampling error of a standard deviation, 1/sqrt(2n)
// = 1.1 %: four of that.
func TestEllipsesAgainstMonteCarlo(t *testing.T) {
	const n = 4000
	tolerance := 4 / math.Sqrt(2*n)
	truth := units.At(-47, 179.9)
	c := Chain{Master: units.At(-48, 178), A: units.At(-46.2, 178.5), B: units.At(-48.8, -179.5)}
	pairA, pairB := c.Pairs()
	readings := map[string]func(e func(i int) float64) []Line{
		"bearings": func(e func(int) float64) []Line {
			var lines []Line
			for i, s := range []units.Position{units.At(-46, 179), units.At(-46.2, -178.5), units.At(-48.5, 179)} {
				z, _, _ := geodesy.GeodesicInverse(truth, s)
				lines = append(lines, Line{Locus: Bearing{Station: s, Bearing: z + angle(0.3*e(i)), Sigma: 0.3 * deg}})
			}
			return lines
		},
		"altitudes": func(e func(int) float64) []Line {
			var lines []Line
			for i, b := range [][2]float64{{170, -20}, {230, -57}, {150, 10}} {
				hc, _ := sight.Reduce(truth, angle(b[0]), angle(b[1]))
				sigma := units.Angle(i+1) * units.ArcMinute
				lines = append(lines, Line{Locus: Altitude{angle(b[0]), angle(b[1]), hc + sigma*units.Angle(e(i)), sigma}})
			}
			return lines
		},
		"time differences": func(e func(int) float64) []Line {
			return []Line{
				{Locus: Hyperbola{pairA, pairA.At(truth) + Microsecond*TimeDifference(e(0)), Microsecond}},
				{Locus: Hyperbola{pairB, pairB.At(truth) + Microsecond*TimeDifference(e(1)), Microsecond}},
			}
		},
	}
	for name, lines := range readings {
		exact, err := Solve(truth, lines(func(int) float64 { return 0 }))
		require.NoError(t, err)
		require.Less(t, geodesy.Distance(truth, exact[0].Position).NM(), 1e-4, name)
		e := exact[0].Ellipse
		major, minor, mean := scatter(t, truth, e, n, func(rng *rand.Rand) []Line {
			return lines(func(int) float64 { return rng.NormFloat64() })
		})
		// an altitude's mile is a minute of arc, 0.3 % from 1852 m at most
		assert.InEpsilon(t, e.Major.Metres(), major, tolerance+0.003, name)
		assert.InEpsilon(t, e.Minor.Metres(), minor, tolerance+0.003, name)
		assert.Less(t, mean, 4*e.Major.Metres()/math.Sqrt(n), name)
		t.Logf("%s: ellipse %.3f x %.3f NM, spread %.3f x %.3f", name, e.Major.NM(), e.Minor.NM(), major/1852, minor/1852)
	}
}

// TestTheHatHoldsTheTruthOnceInFour: with three lines of independent errors.
func TestTheHatHoldsTheTruthOnceInFour(t *testing.T) {
	const n = 1500
	rng := rand.New(rand.NewPCG(60, 60))
	inside := 0
	truth := units.At(-47, 179.9)
	for range n {
		var lines [3]Line
		for i := range lines {
			normal := angle(float64(i)*60 + 10)
			at := onEllipsoid.moved(truth, toward(normal, 1852*rng.NormFloat64()))
			lines[i] = Line{Locus: Rhumb{Through: at, Course: normal + 90*deg, Across: units.NM}}
		}
		hat, err := CockedHat(truth, lines)
		require.NoError(t, err)
		if holds(hat, truth) {
			inside++
		}
	}
	assert.InDelta(t, InsideHat, float64(inside)/n, 4*math.Sqrt(InsideHat*(1-InsideHat)/n))
}

// holds says whether p sees the corners all one way round.
func holds(h Hat, p units.Position) bool {
	turns := 0
	for i, c := range h.Corners {
		a, b := onEllipsoid.between(p, c), onEllipsoid.between(p, h.Corners[(i+1)%3])
		turns += int(math.Copysign(1, a.cross(b)))
	}
	return turns == 3 || turns == -3
}
