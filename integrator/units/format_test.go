package units_test

import (
	"math"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// The expected texts are the trade's way of writing (trade practice, from
// memory; common practice, no source).

func deg(d float64) units.Angle { return units.Angle(d) * units.Degree }

func TestDirections(t *testing.T) {
	for d, want := range map[float64]string{
		0: "000", negZero: "000", 7: "007", 45.4: "045", 268: "268", 359.4: "359", 359.5: "000",
		359.9999: "000", 360: "000", -1: "359", -0.4: "000", 0.5: "001", 720: "000", 1080.7: "001",
		nan: units.Blank, inf: units.Blank,
	} {
		assert.Equal(t, want, units.Degrees3(deg(d)), "%v", d)
	}
	assert.Equal(t, "268T", units.TrueHeading(deg(268)).String())
	assert.Equal(t, "280M", units.MagneticHeading(deg(280)).String())
	assert.Equal(t, "245C", units.CompassHeading(deg(245)).String())
	assert.Equal(t, "330R", units.RelativeText(deg(-30)))
	assert.Equal(t, "005M", units.MagneticText(deg(5)))
	assert.Equal(t, "095C", units.CompassText(deg(95)))
}

func TestWinds(t *testing.T) {
	for _, c := range []struct {
		from, knots float64
		want        string
	}{
		{295, 27, "295/27"}, {300, 5, "300/05"}, {270, 105, "270/105"}, {359.6, 20, "000/20"},
		{0, 0, "000/00"}, {7, 9.5, "007/10"}, {7, 99.5, "007/100"}, {90, nan, "090/---"},
		{nan, 20, "---/20"}, {90, -3, "090/---"}, {90, -0.2, "090/00"},
	} {
		w := units.Wind{From: deg(c.from), Speed: units.Speed(c.knots) * units.Knot}
		assert.Equal(t, c.want, w.String())
	}
}

func TestVariations(t *testing.T) {
	for _, c := range []struct {
		degrees       float64
		whole, tenths string
	}{
		{24, "24 E", "24.0 E"}, {23.5, "24 E", "23.5 E"}, {-3.04, "3 W", "3.0 W"},
		{0.04, "0", "0.0"}, {-0.04, "0", "0.0"}, {-0.3, "0", "0.3 W"}, {0, "0", "0.0"},
		{-180, "180 W", "180.0 W"}, {nan, "---", "---"},
	} {
		v := units.Variation(deg(c.degrees))
		assert.Equal(t, c.whole, v.String())
		assert.Equal(t, c.tenths, v.Tenths())
		assert.Equal(t, c.whole, units.Deviation(v).String())
		assert.Equal(t, c.tenths, units.Deviation(v).Tenths())
	}
}

func TestTimes(t *testing.T) {
	at := time.Date(1957, 8, 14, 10, 12, 40, 999e6, time.UTC)
	assert.Equal(t, "1012Z", units.TimeText(at))
	assert.Equal(t, "10:12:40", units.ClockText(at))
	assert.Equal(t, "14 Aug 1957", units.DateText(at))
	east := time.FixedZone("", 12*3600) // the same moment told in local time
	assert.Equal(t, "1012Z", units.TimeText(at.In(east)))
	assert.Equal(t, "14 Aug 1957", units.DateText(at.In(time.FixedZone("", 14*3600))))
	assert.Equal(t, "0005Z", units.TimeText(time.Date(1958, 1, 2, 0, 5, 59, 0, time.UTC)))
	assert.Equal(t, "2 Jan 1958", units.DateText(time.Date(1958, 1, 2, 0, 5, 59, 0, time.UTC)))
}

func TestQuantities(t *testing.T) {
	assert.Equal(t, "12.3 NM", units.DistanceText(12.34*units.NM))
	assert.Equal(t, "0.0 NM", units.DistanceText(-0.04*units.NM))
	assert.Equal(t, "-0.1 NM", units.DistanceText(-0.05*units.NM))
	assert.Equal(t, "165 kt", units.SpeedText(164.5*units.Knot))
	assert.Equal(t, "8000 ft", units.HeightText(8000*units.Foot))
	assert.Equal(t, "-500 ft", units.HeightText(-500.4*units.Foot))
	assert.Equal(t, "-1 C", units.TemperatureText(units.Celsius(-1.2)))
	assert.Equal(t, "0 C", units.TemperatureText(units.Celsius(-0.4)))
	assert.Equal(t, "--- C", units.TemperatureText(units.Temperature(nan)))
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{negZero, 0, "0"}, {-0.049, 1, "0.0"}, {0.25, 1, "0.3"}, {-0.25, 1, "-0.3"}, {9.96, 1, "10.0"},
		{2.5, 0, "3"}, {1234.5678, 3, "1234.568"}, {0.005, 2, "0.01"}, {0.0004, 3, "0.000"},
		{nan, 1, "---"}, {-inf, 0, "---"}, {1e300, 1, "---"},
	} {
		assert.Equal(t, c.want, units.Figure(c.x, c.decimals), "%v", c.x)
	}
}

func TestPositions(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		want     string
	}{
		{-(46 + 53.0/60), 178 + 24.8/60, "46 53.0 S 178 24.8 E"},
		{46 + 59.94/60, -(7 + 59.96/60), "46 59.9 N 008 00.0 W"}, // no 60.0
		{-(46 + 59.95/60), 179 + 59.95/60, "47 00.0 S 180 00.0 E"},
		{0, 0, "00 00.0 N 000 00.0 E"},
		{negZero, negZero, "00 00.0 N 000 00.0 E"},
		{-0.0001, -0.0001, "00 00.0 N 000 00.0 E"}, // nought minutes have no S, no W
		{-0.001, -0.001, "00 00.1 S 000 00.1 W"},
		{90, 180, "90 00.0 N 180 00.0 E"},
		{-90, -180, "90 00.0 S 180 00.0 E"},
		{-47, -179.99999, "47 00.0 S 180 00.0 E"},
		{-47, 180.5, "47 00.0 S 179 30.0 W"}, // of any size
		{-47, -541, "47 00.0 S 179 00.0 E"},
		{nan, inf, "--- ---"},
	} {
		p := units.At(c.lat, c.lon)
		assert.Equal(t, c.want, p.String())
		assert.Equal(t, c.want, units.AirPosition(p).String())
		assert.Equal(t, c.want, units.GroundPosition(p).String())
	}
}

func TestGraticuleLabels(t *testing.T) {
	for d, want := range map[float64]string{-47: "47 00 S", 5.5: "05 30 N", 0: "0", 89.9999: "90 00 N", nan: "---"} {
		assert.Equal(t, want, units.LatitudeLabel(deg(d)))
	}
	for d, want := range map[float64]string{
		179.5: "179 30 E", -179.5: "179 30 W", 180: "180", -180: "180", 540: "180", 180.25: "179 45 W",
		0: "0", 360: "0", -7: "007 00 W", 179.999999: "180", nan: "---",
	} {
		assert.Equal(t, want, units.LongitudeLabel(deg(d)))
	}
}

// No value, whatever it is, prints a text outside the trade's forms.
func TestFormsNeverBreak(t *testing.T) {
	position := regexp.MustCompile(`^\d\d [0-5]\d\.\d [NS] (0\d\d|1[0-7]\d) [0-5]\d\.\d [EW]$|^\d\d [0-5]\d\.\d [NS] 180 00\.0 E$`)
	wind := regexp.MustCompile(`^([0-2]\d\d|3[0-5]\d)/\d{2,3}$`)
	figure := regexp.MustCompile(`^(-?\d+\.\d)$`)
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-1000, 1000).Draw(t, "lon")
		if s := units.At(lat, lon).String(); !position.MatchString(s) {
			t.Fatalf("position %q", s)
		}
		w := units.Wind{From: deg(lon), Speed: units.Speed(lat+90) * units.Knot}
		if s := w.String(); !wind.MatchString(s) {
			t.Fatalf("wind %q", s)
		}
		if s := units.Figure(lon, 1); !figure.MatchString(s) || s == "-0.0" {
			t.Fatalf("figure %q", s)
		}
	})
}

// Altitudes as the trade writes them (from memory; common practice, no source): a
// carry runs through, and below the horizon there is a sign, even of minutes alone.
func TestAltitudes(t *testing.T) {
	at := func(d, m float64) units.Angle { return deg(d) + units.Angle(m)*units.ArcMinute }
	for _, c := range []struct {
		a                  units.Angle
		text, plate, whole string
	}{
		{at(43, 35.6), "43 35.6", "43°35.6′", "43°36′"},
		{at(5, 0), "05 00.0", "05°00.0′", "05°00′"},
		{at(42, 59.96), "43 00.0", "43°00.0′", "43°00′"},
		{at(42, 59.5), "42 59.5", "42°59.5′", "43°00′"},
		{at(90, 0), "90 00.0", "90°00.0′", "90°00′"},
		{at(0, 0), "00 00.0", "00°00.0′", "00°00′"},
		{at(0, -0.04), "00 00.0", "00°00.0′", "00°00′"},
		{at(0, -5), "-00 05.0", "-00°05.0′", "-00°05′"},
		{at(-1, -59.96), "-02 00.0", "-02°00.0′", "-02°00′"},
		{units.Angle(math.NaN()), units.Blank, units.Blank, units.Blank},
	} {
		assert.Equal(t, c.text, units.AltitudeText(c.a))
		assert.Equal(t, c.plate, units.AltitudePlate(c.a, 1))
		assert.Equal(t, c.whole, units.AltitudePlate(c.a, 0))
	}
}
