package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// Every row of units.csv: figures confirmed with GNU Units 2.22 or as the row
// says. Tolerance: that of the row, or the last printed digit where it is exact.
func TestConversionFigures(t *testing.T) {
	const mph = float64(units.StatuteMile) / 3600
	got := map[string]float64{
		"international nautical mile, m":              units.NM.Metres(),
		"international nautical mile, ft":             units.NM.Feet(),
		"UK (Admiralty) nautical mile, ft":            units.AdmiraltyNM.Feet(),
		"UK (Admiralty) nautical mile, m":             units.AdmiraltyNM.Metres(),
		"US nautical mile before 1954-07-01, m":       units.USNMBefore1954.Metres(),
		"US nautical mile before 1954-07-01, ft (US)": units.USNMBefore1954.Metres() * 39.37 / 12, // survey foot 1200/3937 m
		"knot, mph (statute)":                         float64(units.Knot) / mph,
		"inch of mercury, conventional 0 C, Pa":       units.InchOfMercury.Pascals(),
		"millimetre of mercury, conventional, Pa":     units.MillimetreHg.Pascals(),
		"standard atmosphere, inHg":                   isa.SeaLevelPressure.InchesOfMercury(),
		"inch of water 4 C conventional, Pa":          units.InchOfWater.Pascals(),
		"degree R per K, ":                            float64(units.Kelvin / units.DegreeRankine),
		"speed of sound, ISA sea level, kt":           isa.SpeedOfSoundAtSeaLevel.Knots(),
	}
	tolerance := map[string]float64{
		"exact": 1e-12, "exact from 6080 ft": 1e-12, "1e-8": 1e-8, "1e-10": 1e-10, "1e-5": 1e-5,
		"5e-6": 5e-6, "5e-4": 5e-4, "0.005 ft": 0.005, "0.0005 m": 0.0005,
	}
	for _, r := range rows.Read(t, "testdata/units.csv") {
		name := r.Text("quantity") + ", " + r.Text("unit")
		require.Contains(t, got, name, "%s", r)
		require.Contains(t, tolerance, r.Text("tolerance"), "%s", r)
		assert.InDelta(t, r.Float("value"), got[name], tolerance[r.Text("tolerance")], "%s: %s", r, name)
	}
}

// A quantity entered with a constant leaves by its method unchanged, to a last
// bit or two; where it is held below the smallest normal float64, to the spacing
// there (4.9e-324) over the smallest constant (2.9e-4).
func TestEnterAndLeave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		for name, back := range map[string]float64{
			"degrees":  (units.Angle(x) * units.Degree).Degrees(),
			"minutes":  (units.Angle(x) * units.ArcMinute).Minutes(),
			"radians":  (units.Angle(x) * units.Radian).Radians(),
			"NM":       (units.Length(x) * units.NM).NM(),
			"feet":     (units.Length(x) * units.Foot).Feet(),
			"km":       (units.Length(x) * units.Kilometre).Kilometres(),
			"knots":    (units.Speed(x) * units.Knot).Knots(),
			"m/s":      (units.Speed(x) * units.MetrePerSecond).MetresPerSecond(),
			"hPa":      (units.Pressure(x) * units.Hectopascal).Hectopascals(),
			"inHg":     (units.Pressure(x) * units.InchOfMercury).InchesOfMercury(),
			"variance": units.Variation(units.Angle(x) * units.Degree).Degrees(),
			"deviance": units.Deviation(units.Angle(x) * units.Degree).Degrees(),
		} {
			if math.Abs(back-x) > 1e-15*4*math.Abs(x)+1e-319 {
				t.Fatalf("%s: %v came back as %v", name, x, back)
			}
		}
		if back := units.Celsius(x).Celsius(); math.Abs(back-x) > 1e-9 {
			t.Fatalf("Celsius: %v came back as %v", x, back)
		}
	})
}

// 'Variation east, magnetic least' (common practice, no source).
func TestHeadings(t *testing.T) {
	east := units.Variation(24 * units.Degree)
	dev := units.Deviation(-2 * units.Degree)
	m := units.TrueHeading(10 * units.Degree).Magnetic(east)
	assert.InDelta(t, 346, m.Degrees(), 1e-12)
	c := m.Compass(dev)
	assert.InDelta(t, 348, c.Degrees(), 1e-12)
	assert.InDelta(t, 346, c.Magnetic(dev).Degrees(), 1e-12)
	assert.InDelta(t, 10, m.True(east).Degrees(), 1e-12)
}

func TestWindComponents(t *testing.T) {
	for _, c := range []struct{ from, north, east float64 }{
		{0, -20, 0}, {90, 0, -20}, {180, 20, 0}, {270, 0, 20},
	} {
		w := units.Wind{From: units.Angle(c.from) * units.Degree, Speed: 20}
		n, e := w.Velocity()
		assert.InDelta(t, c.north, float64(n), 1e-14, "from %v", c.from)
		assert.InDelta(t, c.east, float64(e), 1e-14, "from %v", c.from)
		back := units.WindOf(units.Speed(c.north), units.Speed(c.east))
		assert.InDelta(t, c.from, back.From.Degrees(), 1e-12)
		assert.InDelta(t, 20, float64(back.Speed), 1e-14)
	}
	assert.Equal(t, units.Wind{}, units.WindOf(0, 0))
	assert.Equal(t, units.Wind{}, units.WindOf(units.Speed(negZero), units.Speed(negZero)))
}

func TestWindRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(-130, 130).Draw(t, "north")
		e := rapid.Float64Range(-130, 130).Draw(t, "east")
		bn, be := units.WindOf(units.Speed(n), units.Speed(e)).Velocity()
		if math.Hypot(float64(bn)-n, float64(be)-e) > 1e-12 {
			t.Fatalf("(%v, %v) came back as (%v, %v)", n, e, bn, be)
		}
	})
}
