package isa_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// near checks an absolute tolerance and names the row and the quantity.
func near(t *testing.T, r rows.Row, what string, want, got, tol float64) {
	t.Helper()
	assert.InDelta(t, want, got, tol, "%s: %s", r, what)
}

// nearRel checks a relative tolerance, widened by half the last printed digit.
func nearRel(t *testing.T, r rows.Row, column string, got, rel float64) {
	t.Helper()
	want := r.Float(column)
	near(t, r, column, want, got, math.Abs(want)*rel+r.HalfDigit(column))
}

func density(h units.Length) float64 { return isa.Density(isa.Pressure(h), isa.Temperature(h)) }

func soundAt(h units.Length) units.Speed { return isa.SpeedOfSound(isa.Temperature(h)) }

// Printed values: ISO 2533:1975, tables 5 to 7. Tolerances of the file: p and
// rho 1e-5 of the value, T 0.001 K, a 0.001 m/s; the geometric altitude and the
// viscosity and gravity half their last printed digit; the file states none for them.
func TestAtmosphereISO2533(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/atmosphere_iso2533_metres.csv") {
		h := units.Length(r.Float("H_geopotential_m"))
		temp := isa.Temperature(h)
		near(t, r, "T", r.Float("T_K"), temp.Kelvins(), 0.001)
		p := r.Float("p_hPa")
		near(t, r, "p", p, isa.Pressure(h).Hectopascals(), 1e-5*p)
		rho := r.Float("rho_kg_m3")
		near(t, r, "rho", rho, density(h), 1e-5*rho)
		near(t, r, "a", r.Float("a_m_s"), soundAt(h).MetresPerSecond(), 0.001)
		near(t, r, "mu", r.Float("mu_Pa_s"), isa.Viscosity(temp), 1.001*r.HalfDigit("mu_Pa_s"))
		near(t, r, "g", r.Float("g_m_s2"), gravityFromGeopotential(h), 1.001*r.HalfDigit("g_m_s2"))
		near(t, r, "Z", r.Float("h_geometric_m"), isa.Geometric(h).Metres(), r.HalfDigit("h_geometric_m"))
	}
}

// Printed values: ICAO Doc 7488/3 (1993), tables 2, 4 and 5, in feet. Rows above
// 32 km lie in layers this package does not have; there InRange must refuse.
func TestAtmosphereDoc7488(t *testing.T) {
	got := map[string]func(units.Length) float64{
		"T_K":        func(h units.Length) float64 { return isa.Temperature(h).Kelvins() },
		"p_hPa":      func(h units.Length) float64 { return isa.Pressure(h).Hectopascals() },
		"rho_kg_m3":  density,
		"delta=p/p0": func(h units.Length) float64 { return float64(isa.Pressure(h) / isa.SeaLevelPressure) },
		"a_m_s":      func(h units.Length) float64 { return soundAt(h).MetresPerSecond() },
		"g_m_s2":     gravityFromGeopotential,
	}
	for _, r := range rows.Read(t, "testdata/atmosphere_icao7488_feet.csv") {
		h := units.Length(r.Float("H_geopotential_ft")) * units.Foot
		q := r.Text("quantity")
		require.Contains(t, got, q, "%s", r)
		if h > isa.Highest {
			assert.False(t, isa.InRange(h), "%s", r)
			continue
		}
		assert.True(t, isa.InRange(h), "%s", r)
		near(t, r, q, r.Float("value"), got[q](h), statedTolerance(t, r, "value"))
	}
}

// statedTolerance reads the tolerance column: "1e-5 rel" of the value in a
// column, or a plain figure, with or without "abs".
func statedTolerance(t *testing.T, r rows.Row, column string) float64 {
	text, rel := strings.CutSuffix(r.Text("tolerance"), " rel")
	tol, err := strconv.ParseFloat(strings.TrimSuffix(text, " abs"), 64)
	require.NoError(t, err, "%s", r)
	if rel {
		tol *= math.Abs(r.Float(column))
	}
	return tol
}

// gravityFromGeopotential is g0 dH/dZ, which defines geopotential altitude,
// by a central difference over 200 m.
func gravityFromGeopotential(h units.Length) float64 {
	z := isa.Geometric(h)
	return 9.80665 * float64(isa.Geopotential(z+100)-isa.Geopotential(z-100)) / 200
}

// Printed values: NASA RP-1046 (1980), appendix A. Tolerance 2e-5 of the value.
func TestAtmosphereRP1046(t *testing.T) {
	const (
		psf     = 47.8802589803                     // Pa, units.csv
		lbFt3   = 0.45359237 / 0.028316846592       // kg/m3: exact pound, cubic foot
		mphInMS = float64(units.StatuteMile) / 3600 // m/s
	)
	got := map[string]func(units.Length) float64{
		"p_psf":      func(h units.Length) float64 { return isa.Pressure(h).Pascals() / psf },
		"p_inHg":     func(h units.Length) float64 { return isa.Pressure(h).InchesOfMercury() },
		"p_Pa":       func(h units.Length) float64 { return isa.Pressure(h).Pascals() },
		"rho_lb_ft3": func(h units.Length) float64 { return density(h) / lbFt3 },
		"rho_kg_m3":  density,
		"a_mph":      func(h units.Length) float64 { return soundAt(h).MetresPerSecond() / mphInMS },
		"a_kt":       func(h units.Length) float64 { return soundAt(h).Knots() },
	}
	unit := map[string]units.Length{"ft": units.Foot, "m": units.Metre}
	for _, r := range rows.Read(t, "testdata/atmosphere_rp1046.csv") {
		q := r.Text("quantity")
		require.Contains(t, got, q)
		require.Contains(t, unit, r.Text("H_unit"))
		h := units.Length(r.Float("H")) * unit[r.Text("H_unit")]
		want := r.Float("published_value")
		near(t, r, q, want, got[q](h), 2e-5*want)
	}
}

// Printed values: US Standard Atmosphere 1976, table I, by geometric altitude.
// Tolerance one unit in the last printed digit; five digits of pressure.
func TestAtmosphereUSSA76(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/atmosphere_ussa76_geometric.csv") {
		z := units.Length(r.Float("Z_geometric_m"))
		h := isa.Geopotential(z)
		near(t, r, "H", r.Float("H_geopotential_m"), h.Metres(), 0.006)
		assert.InDelta(t, z.Metres(), isa.Geometric(h).Metres(), 1e-8, "%s: back to Z", r)
		temp := isa.Temperature(h)
		near(t, r, "T", r.Float("T_K"), temp.Kelvins(), 0.001)
		p := r.Float("p_Pa")
		near(t, r, "p", p, isa.Pressure(h).Pascals(), fifthDigit(p))
		near(t, r, "rho", r.Float("rho_kg_m3"), density(h), 2*r.HalfDigit("rho_kg_m3"))
		near(t, r, "a", r.Float("a_m_s"), isa.SpeedOfSound(temp).MetresPerSecond(), 0.01)
		near(t, r, "mu", r.Float("mu_Pa_s"), isa.Viscosity(temp), 2*r.HalfDigit("mu_Pa_s"))
	}
}

// fifthDigit is one unit in the fifth significant digit.
func fifthDigit(x float64) float64 { return math.Pow10(int(math.Floor(math.Log10(x))) - 4) }

// Computed by two independent programs that agree to 3e-6 (see the file).
// Tolerances: p and rho 1e-5 of the value, T 0.005 K, a 0.02 kt; ratios as rho.
func TestAtmosphereFeet(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/atmosphere_feet_computed.csv") {
		h := units.Length(r.Float("H_geopotential_ft")) * units.Foot
		near(t, r, "T", r.Float("T_K"), isa.Temperature(h).Kelvins(), 0.005)
		near(t, r, "t", r.Float("T_degC"), isa.Temperature(h).Celsius(), 0.005)
		nearRel(t, r, "p_hPa", isa.Pressure(h).Hectopascals(), 1e-5)
		nearRel(t, r, "p_inHg", isa.Pressure(h).InchesOfMercury(), 1e-5)
		nearRel(t, r, "rho_kg_m3", density(h), 1e-5)
		nearRel(t, r, "delta", float64(isa.Pressure(h)/isa.SeaLevelPressure), 1e-5)
		sigma := density(h) / isa.SeaLevelDensity
		nearRel(t, r, "sigma", sigma, 1e-5)
		nearRel(t, r, "1_over_sqrt_sigma", 1/math.Sqrt(sigma), 1e-5)
		near(t, r, "a", r.Float("a_kt"), soundAt(h).Knots(), 0.02)
	}
}

// Tube lag 128 mu L V/(pi d^4 p) (computed, see the file): it tests viscosity
// and pressure together. Tolerance 1e-4 of the value.
func TestViscosityInTubeLag(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/lag_constants.csv") {
		h := units.Length(r.Float("PA_ft")) * units.Foot
		lag := func(h units.Length) float64 {
			mu, d := isa.Viscosity(isa.Temperature(h)), r.Float("bore_m")
			return 128 * mu * r.Float("tube_length_m") * r.Float("instrument_volume_m3") /
				(math.Pi * d * d * d * d * isa.Pressure(h).Pascals())
		}
		nearRel(t, r, "lambda_s", lag(h), 1e-4)
		nearRel(t, r, "ratio_to_sea_level", lag(h)/lag(0), 1e-4)
		nearRel(t, r, "altimeter_lag_ft_at_3000fpm", lag(h)*50, 1e-4)
	}
}

func TestAltitudeAndPressureAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(-5000, 40000).Draw(t, "h")
		back := isa.PressureAltitude(isa.Pressure(units.Length(h))).Metres()
		// A last bit of p is 1e-16 of a scale height of 6 to 9 km.
		if math.Abs(back-h) > 1e-10*math.Max(1, math.Abs(h)/1000) {
			t.Fatalf("%v m came back as %v m", h, back)
		}
	})
}

func TestDensityAltitudeInStandardAirIsThePressureAltitude(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := units.Length(rapid.Float64Range(-5000, 32000).Draw(t, "h"))
		back := isa.DensityAltitude(h, isa.Temperature(h))
		if math.Abs(float64(back-h)) > 1e-8 {
			t.Fatalf("%v m has density altitude %v m", float64(h), float64(back))
		}
	})
}

// Neither pressure, temperature nor density altitude may step at a border: two
// heights 0.2 mm apart differ by no more than the slope allows.
func TestLayersJoin(t *testing.T) {
	const half = units.Length(1e-4)
	for _, base := range []units.Length{11000, 20000} {
		lo, hi := base-half, base+half
		assert.InDelta(t, 0, float64(isa.Temperature(lo)-isa.Temperature(hi)), 2e-6)
		ratio := float64(isa.Pressure(lo) / isa.Pressure(hi))
		assert.InDelta(t, 1+2e-4/6341.6, ratio, 1e-12, "base %v m", float64(base))
	}
	for _, p := range []units.Pressure{22632.040095007799, 5474.8774242810459} {
		up, down := isa.PressureAltitude(p*(1-1e-12)), isa.PressureAltitude(p*(1+1e-12))
		assert.InDelta(t, 2e-12*6341.6, float64(up-down), 2e-11)
	}
}

// The policy at the ends of the range (package comment).
func TestAtmosphereEnds(t *testing.T) {
	for h, want := range map[units.Length]bool{
		-5000.001: false, -5000: true, 0: true, 32000: true, 32000.001: false,
		units.Length(math.NaN()): false, units.Length(math.Inf(1)): false,
	} {
		assert.Equal(t, want, isa.InRange(h), "%v m", float64(h))
	}
	assert.Less(t, float64(isa.Pressure(33000)), float64(isa.Pressure(32000)))
	assert.Greater(t, float64(isa.Pressure(-6000)), float64(isa.Pressure(-5000)))
	assert.True(t, math.IsInf(float64(isa.PressureAltitude(0)), 1))
	assert.True(t, math.IsInf(float64(isa.PressureAltitude(-1)), 1))
	nan := math.NaN()
	assert.True(t, math.IsNaN(float64(isa.Pressure(units.Length(nan)))))
	assert.True(t, math.IsNaN(float64(isa.Temperature(units.Length(nan)))))
	assert.True(t, math.IsNaN(float64(isa.PressureAltitude(units.Pressure(nan)))))
	assert.True(t, math.IsNaN(float64(isa.DensityAltitude(0, units.Temperature(nan)))))
}

// The derived constants follow from the defining ones of Doc 7488/3.
func TestDerivedConstants(t *testing.T) {
	assert.InDelta(t, math.Sqrt(1.4*287.05287*288.15), float64(isa.SpeedOfSoundAtSeaLevel), 1e-12)
	assert.InDelta(t, 1.225, isa.Density(101325, 288.15), 1e-7) // rho0 is exact, R rounded
	n := 9.80665 / (0.0065 * 287.05287)
	p1 := 101325 * math.Pow(216.65/288.15, n)
	p2 := p1 * math.Exp(-9.80665*9000/(287.05287*216.65))
	assert.InEpsilon(t, p1, float64(isa.Pressure(11000)), 1e-14)
	assert.InEpsilon(t, p2, float64(isa.Pressure(20000)), 1e-14)
	p3 := p2 * math.Pow(228.65/216.65, -9.80665/(0.001*287.05287))
	assert.InEpsilon(t, p3, float64(isa.Pressure(32000)), 1e-13)
}
