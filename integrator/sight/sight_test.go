package sight

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// between is the angle from one bearing to another, in degrees, either way.
func between(a, b float64) float64 { return math.Abs(units.WrapHalfDegrees(a - b)) }

// lopTolerance reads altitude, azimuth and intercept from the words of a row;
// the numbers stand in that order with their units.
func lopTolerance(t *testing.T, r rows.Row) (altitude, azimuth, intercept float64) {
	text := r.Text("tolerance")
	var n []float64
	for _, s := range regexp.MustCompile(`[0-9.]*[0-9]`).FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err, text)
		n = append(n, v)
	}
	switch text {
	case "0.2' altitude and intercept; azimuth column computed":
		return 0.2 / 60, 0.00005, 0.2 // azimuth: half its last digit
	case "0.1' ; 0.05 deg":
		return 0.1 / 60, 0.05, 0.1
	case "0.0001 deg altitude; 0.001 deg azimuth; 0.01 NM":
		return n[0], n[1], n[2]
	}
	require.Len(t, n, 3, text)
	return n[0] / 60, n[1], n[2]
}

// Published and computed intercepts, each row with its own tolerance. One row
// prints no GHA: there it is the printed LHA less the longitude.
func TestInterceptRows(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/nav_celestial_lop.csv") {
		at := units.At(r.Float("assumed_lat"), r.Float("assumed_lon"))
		lha := r.Float("LHA_deg")
		gha := lha - r.Float("assumed_lon")
		if r.Has("GHA_deg") {
			gha = r.Float("GHA_deg")
			assert.LessOrEqual(t, between(gha+r.Float("assumed_lon"), lha), 2e-5, "%s: LHA", r)
		}
		hc, zn := Reduce(at, units.Angle(gha)*units.Degree, units.Angle(r.Float("dec_deg"))*units.Degree)
		a := Intercept(units.Angle(r.Float("Ho_deg"))*units.Degree, hc)
		altitude, azimuth, miles := lopTolerance(t, r)
		assert.InDelta(t, r.Float("Hc_deg"), hc.Degrees(), altitude, "%s: altitude", r)
		assert.LessOrEqual(t, between(r.Float("Zn_deg"), zn.Degrees()), azimuth, "%s: azimuth", r)
		assert.InDelta(t, r.Float("intercept_NM(+=toward)"), a.NM(), miles, "%s: intercept", r)
	}
}

// A nautical-training sheet: Sun, 29 November 1992 17h47m49s UT, from
// 26 27.0 N 130 27.0 W; Ho 27 49.9. It prints Hc 27 53.3, Zn 136.8, intercept
// 3.4 away. The declination, not printed, is from ERFA 2.0.0.1.
func ExampleReduce() {
	deg, min := units.Degree, units.ArcMinute
	dr := units.Position{Lat: 26*deg + 27*min, Lon: -(130*deg + 27*min)}
	hc, zn := Reduce(dr, 319.37333*deg-dr.Lon, -21.60659*deg)
	a := Intercept(27*deg+49.9*min, hc)
	fmt.Printf("Hc 27 %.1f, Zn %.1f, intercept %.1f NM\n", hc.Minutes()-27*60, zn.Degrees(), a.NM())
	// Output: Hc 27 53.3, Zn 136.8, intercept -3.4 NM
}

func TestRefractionRows(t *testing.T) {
	h := 20000 * units.Foot
	thin := ThinAir(isa.Pressure(h), isa.Temperature(h))
	assert.InDelta(t, 0.525, thin, 0.0005, "as the reference prints it")
	for _, r := range rows.Read(t, "testdata/refraction.csv") {
		alt := units.Angle(r.Float("altitude_deg")) * units.Degree
		const tol = 1e-4 // minutes of arc: the rows' own
		assert.InDelta(t, r.Float("R_from_apparent_alt_arcmin"), Refraction(alt).Minutes(), tol, r)
		assert.InDelta(t, r.Float("R_from_true_alt_arcmin"), RefractionOfTrue(alt).Minutes(), tol, r)
		assert.InDelta(t, r.Float("R_apparent_at_20000ft_ISA_arcmin"), thin*Refraction(alt).Minutes(), tol, r)
		// Another formula altogether: the almanac's, within 0.7' on the horizon and
		// 0.4' at half a degree, 0.06' above 2 degrees.
		assert.InDelta(t, r.Float("R_nautical_almanac_arcmin"), Refraction(alt).Minutes(),
			map[bool]float64{true: 0.06, false: 0.7}[r.Float("altitude_deg") >= 2], r)
	}
}

// 'Astronomical Algorithms' 2nd ed., example 16.a: the Sun's lower limb at an
// apparent altitude of 30' is lifted by 28.754'; its upper limb, at a true
// altitude of 33.246', by 24.618'.
func ExampleRefraction() {
	fmt.Printf("%.3f' %.3f'\n", Refraction(30*units.ArcMinute).Minutes(),
		RefractionOfTrue(33.246*units.ArcMinute).Minutes())
	// Output: 28.754' 24.618'
}

func TestRefractionIsTame(t *testing.T) {
	assert.Zero(t, Refraction(90*units.Degree), "overhead nothing is bent, though the formula passes through 0 before")
	assert.Zero(t, RefractionOfTrue(90*units.Degree))
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(-90, 90).Draw(t, "altitude")
		thin := rapid.Float64Range(0, 1.2).Draw(t, "thin")
		alt := units.Angle(h) * units.Degree
		r := Refraction(alt).Minutes()
		require.True(t, r >= 0 && r < 55, "%v", r)
		if h > -1 {
			require.GreaterOrEqual(t, Refraction(alt-units.ArcMinute).Minutes(), r, "less the higher")
		}
		seen := Lifted(alt, thin)
		require.InDelta(t, h, (seen - Refraction(seen)*units.Angle(thin)).Degrees(), 1e-9)
	})
}

func TestBubbleRows(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/coriolis_bubble.csv") {
		s := BubbleShift(units.Speed(r.Float("GS_kt"))*units.Knot, units.Angle(r.Float("lat_deg"))*units.Degree,
			units.Angle(r.Float("true_track_deg"))*units.Degree,
			units.Angle(r.Float("turn_rate_deg_per_min(+=right)"))*units.Degree)
		for _, c := range []struct {
			formula, principle string
			got                units.Length
		}{
			{"Zc=2.62*V/100*sinL_arcmin", "first_principles_coriolis", s.Coriolis},
			{"Zr=0.146*(V/100)^2*sinC*tanL", "first_principles_rhumb", s.Rhumb},
			{"Zw=-5.25*V/100*Cdot", "first_principles_turn", s.Turn},
			{"Z_total_arcmin", "", s.Total()},
		} {
			assert.InDelta(t, r.Float(c.formula), c.got.NM(), 0.0001, "%s: %s", r, c.formula)
			if c.principle != "" {
				want := r.Float(c.principle)
				assert.InDelta(t, want, c.got.NM(), 0.005*math.Abs(want)+1e-9, "%s: %s", r, c.principle)
			}
		}
	}
}

// In the northern hemisphere bodies to the right of the track read too low
// (navigation mailing list 2021), so the correction there is to add.
func TestCorrectionOfAnAltitude(t *testing.T) {
	s := BubbleShift(300*units.Knot, 50*units.Degree, 0, 0)
	assert.InDelta(t, 6.02, s.AltitudeCorrection(90*units.Degree, 0).Minutes(), 0.01, "to the right")
	assert.InDelta(t, -6.02, s.AltitudeCorrection(270*units.Degree, 0).Minutes(), 0.01, "to the left")
	assert.InDelta(t, 0, s.AltitudeCorrection(180*units.Degree, 0).Minutes(), 1e-9, "astern")
}

func TestReduceAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) units.Angle {
			return units.Angle(rapid.Float64Range(low, high).Draw(t, name)) * units.Degree
		}
		at := units.Position{Lat: draw("lat", -90, 90), Lon: draw("lon", -540, 540)}
		gha, dec := draw("gha", 0, 360), draw("dec", -90, 90)
		alt, az := Reduce(at, gha, dec)
		require.True(t, alt >= -math.Pi/2 && alt <= math.Pi/2 && az >= 0 && az < 2*math.Pi)
		backGHA, backDec := Toward(at, alt, az)
		require.InDelta(t, dec.Degrees(), backDec.Degrees(), 1e-7)
		apart := between(gha.Degrees(), backGHA.Degrees()) * math.Cos(dec.Radians())
		require.Less(t, apart, 1e-7)
	})
}

// The corners of the sphere: geometry, no source needed.
func TestReduceAtTheCorners(t *testing.T) {
	deg := units.Degree
	for _, c := range []struct{ lat, lon, gha, dec, alt, az float64 }{
		{90, 0, 30, 40, 40, 210},   // at the north pole altitude is declination
		{-90, 0, 30, 40, -40, 330}, // at the south pole minus it
		{0, 0, 0, 0, 90, 0},        // the zenith
		{0, 0, 180, 0, -90, 0},     // the nadir
		{0, 0, 90, 0, 0, 270},      // setting due west
		{0, 0, 270, 0, 0, 90},      // rising due east
		{50, 20, 123, 90, 50, 0},   // the pole stands at the latitude
		{-45, 180, 180, -45, 90, 0},
	} {
		alt, az := Reduce(units.At(c.lat, c.lon), units.Angle(c.gha)*deg, units.Angle(c.dec)*deg)
		assert.InDelta(t, c.alt, alt.Degrees(), 1e-12, "%v", c)
		if math.Abs(c.alt) != 90 {
			assert.Less(t, between(c.az, az.Degrees()), 1e-12, "%v", c)
		}
		assert.False(t, math.IsNaN(az.Degrees()))
	}
}

func TestParallaxInAltitude(t *testing.T) {
	deg := units.Degree
	assert.InDelta(t, 0, ParallaxInAltitude(deg, 90*deg).Degrees(), 1e-12, "none overhead")
	// From the surface the horizon of the centre stands a horizontal parallax lower, by the tangent.
	assert.InDelta(t, math.Atan(math.Sin(math.Pi/180)), ParallaxInAltitude(deg, 0).Radians(), 1e-15)
	// For a small parallax it is HP cos H (reference: the Sun's 0.15' cos H).
	assert.InDelta(t, 8.794*math.Cos(0.5), ParallaxInAltitude(8.794/3600*deg, 0.5).Degrees()*3600, 0.001)
}

var sinkAngle units.Angle

func TestNothingAllocates(t *testing.T) {
	at := units.At(-47, 178.5)
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		alt, az := Reduce(at, 1, -0.5)
		sinkAngle = Lifted(alt, 0.5) + BubbleShift(100, at.Lat, az, 0).AltitudeCorrection(az, 1)
	}))
}

func BenchmarkReduce(b *testing.B) {
	b.ReportAllocs()
	at := units.At(-47, 178.5)
	for i := 0; b.Loop(); i++ {
		sinkAngle, _ = Reduce(at, units.Angle(i&7), -0.5)
	}
}
