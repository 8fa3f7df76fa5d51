package geomag

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

func mustNew(t testing.TB, year float64) *Model {
	m, err := New(year)
	require.NoError(t, err)
	return m
}

func TestYearsOutsideAreRefused(t *testing.T) {
	for _, year := range []float64{1899.999, 2030.001, math.NaN(), math.Inf(1), 0} {
		_, err := New(year)
		assert.ErrorContains(t, err, "want 1900 to 2030", "%v", year)
	}
	for _, year := range []float64{1900, 2030} {
		assert.Equal(t, year, mustNew(t, year).Year())
	}
}

// The days of 1957 by hand: noon of 2 July is the middle of a common year.
func TestDecimalYear(t *testing.T) {
	for _, c := range []struct {
		at   time.Time
		want float64
	}{
		{time.Date(1957, 1, 1, 0, 0, 0, 0, time.UTC), 1957},
		{time.Date(1957, 7, 2, 12, 0, 0, 0, time.UTC), 1957.5},
		{time.Date(1960, 7, 2, 0, 0, 0, 0, time.UTC), 1960.5}, // leap: 183 of 366 days
		{time.Date(1957, 12, 31, 0, 0, 0, 0, time.UTC), 1957 + 364.0/365},
		{time.Date(1958, 1, 1, 11, 0, 0, 0, time.FixedZone("", 12*3600)), 1957 + 364.0/365 + 23.0/24/365},
	} {
		assert.InDelta(t, c.want, DecimalYear(c.at), 1e-11)
	}
}

// At an epoch the coefficients are those of the file; half way between, the
// mean of both; after 2025, along the yearly change. The figures are read from
// igrf14coeffs.txt by eye: g10 of 1900, 1905 and 1955.
func TestCoefficientsInTime(t *testing.T) {
	g10 := func(year float64) float64 { return mustNew(t, year).c[index(1, 0)].g }
	assert.Equal(t, -31543.0, g10(1900))
	assert.Equal(t, -31464.0, g10(1905))
	assert.Equal(t, -31503.5, g10(1902.5))
	assert.Equal(t, -30500.0, g10(1955))
	assert.InDelta(t, g10(2025)+2*(g10(2026)-g10(2025)), g10(2027), 1e-9)
	before, after := g10(math.Nextafter(2025, 0)), g10(math.Nextafter(2025, 3000))
	assert.InDelta(t, before, after, 1e-9, "no step at the last epoch")
}

func TestCoefficientFileIsWhole(t *testing.T) {
	tab, err := loadIGRF()
	require.NoError(t, err)
	require.Len(t, tab.epochs, 26)
	for i, year := range tab.epochs {
		assert.Equal(t, 1900+5*float64(i), year)
	}
	for i, c := range tab.at {
		full := 0
		for _, p := range c {
			if p.g != 0 {
				full++
			}
		}
		// Degree 10 (65 pairs) before 2000, degree 13 (104) after; a figure of
		// exactly nought is rare.
		assert.Greater(t, full, 55, "epoch %v", tab.epochs[i])
	}
}

func TestBadCoefficientFiles(t *testing.T) {
	const head = "g/h n m 1900.0 1905.0 1905-10\n"
	for text, want := range map[string]string{
		"":                        "no line of epochs",
		"g 1 0 1 2 3":             "line 1: a coefficient before the line of epochs",
		"g/h n m 1900":            "line 1: 4 columns, want at least 5",
		"g/h n m x 1":             `line 1: epoch "x": want a year`,
		head + "g 1 0 1 2":        "line 2: 5 columns, want 6",
		head + "g 14 0 1 2 3":     "line 2: degree 14 order 0: want 1 to 13",
		head + "g 2 3 1 2 3":      "line 2: degree 2 order 3",
		head + "g 1 0 1 2 x":      `line 2: coefficient "x": want a number`,
		head + "# c\nk 1 0 1 2 3": `line 3: coefficient letter "k"`,
	} {
		_, err := parseTable(text)
		assert.ErrorContains(t, err, want, "%q", text)
	}
}

// A dipole along the axis, worked by hand: X = 30000 cos, Z = 60000 sin of the
// geocentric latitude at r = a; the height makes r equal a.
func TestAxialDipole(t *testing.T) {
	var m Model
	m.c[index(1, 0)].g = -30000
	f := m.At(units.At(0, 77), units.Length(refRadius-semiMajor))
	assert.InDelta(t, 30000, f.X, 1e-9)
	assert.InDelta(t, 0, f.Y, 1e-9)
	assert.InDelta(t, 0, f.Z, 1e-9)
	polar := semiMajor * (1 - flattening)
	f = m.At(units.At(90, 77), units.Length(refRadius-polar))
	assert.InDelta(t, 60000, f.Z, 1e-7)
	assert.InDelta(t, 0, f.H, 1e-7)
}

// At a geographic pole the field is one vector: its horizontal part, told on
// any meridian, is the same arrow; and nothing steps on the way to the pole.
func TestGeographicPoles(t *testing.T) {
	m := mustNew(t, 1957.6)
	for _, lat := range []float64{90, -90} {
		ref := m.At(units.At(lat, 0), 3000)
		require.Greater(t, ref.H, 1000.0)
		for lon := -180.0; lon <= 180; lon += 15 {
			f := m.At(units.At(lat, lon), 3000)
			// North on the meridian lon is turned against north on 0 by -lon at
			// the north pole, by +lon at the south pole.
			s, c := math.Sincos(-lon * math.Pi / 180 * lat / 90)
			assert.InDelta(t, ref.X, f.X*c-f.Y*s, 1e-7, "%v %v", lat, lon)
			assert.InDelta(t, ref.Y, f.X*s+f.Y*c, 1e-7, "%v %v", lat, lon)
			assert.InDelta(t, ref.Z, f.Z, 1e-7)
			near := m.At(units.At(lat*(1-1e-9), lon), 3000)
			assert.InDelta(t, f.X, near.X, 0.001)
			assert.InDelta(t, f.Y, near.Y, 0.001)
		}
	}
}

func TestLongitudesOfAnySize(t *testing.T) {
	m := mustNew(t, 1957.6)
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")
		a, b := m.At(units.At(lat, lon), 2000), m.At(units.At(lat, lon+720), 2000)
		if math.Abs(a.X-b.X) > 1e-8 || math.Abs(a.Y-b.Y) > 1e-8 || math.Abs(a.Z-b.Z) > 1e-8 {
			t.Fatalf("%+v, two turns on %+v", a, b)
		}
		if math.Abs(math.Hypot(math.Hypot(a.X, a.Y), a.Z)-a.F) > 1e-8 {
			t.Fatalf("F %v", a.F)
		}
	})
}

func TestNaNGivesNaN(t *testing.T) {
	f := mustNew(t, 1957.6).At(units.At(math.NaN(), 0), 0)
	assert.True(t, math.IsNaN(float64(f.D)))
}

// The seas of the Tern Islands: 22 to 25 E in 1957 where the islands lie, by
// the design of that world; 1.5 degrees more is allowed at the far corners.
func TestTernIslands(t *testing.T) {
	m := mustNew(t, DecimalYear(time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC)))
	d := func(lat, lon float64) float64 { return m.At(units.At(lat, lon), 0).D.Degrees() }
	for _, at := range [][2]float64{{-46, 178}, {-47.2, 178.5}, {-48, 180}, {-48, 182}} {
		v := d(at[0], at[1])
		t.Logf("%v: %.2f E", at, v)
		assert.InDelta(t, 23.5, v, 1.5, "%v", at)
	}
}

func TestNoAllocation(t *testing.T) {
	m := mustNew(t, 1957.6)
	var p Patch
	var sum float64
	step := 0.0
	n := testing.AllocsPerRun(200, func() {
		step += 0.05
		at := units.At(-47, 178+step)
		sum += m.At(at, 3000).F + p.Variation(m, at, 3000).Degrees()
	})
	assert.Zero(t, n)
	assert.False(t, math.IsNaN(sum))
}
