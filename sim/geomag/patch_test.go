package geomag

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

// patchTolerance is the stated error of the interpolated components: a bound
// by curvature. The sharpest part of the field (degree 13) has a wavelength of
// 2 pi 6371/13.5 km, about 470 km in angle-length; over a cell of 11 km the
// chord of a term of 1000 nT misses by 1000 (11/470)^2/8 = 0.07 nT.
const patchTolerance = 0.1 // nT

// randomPlace is uniform on the sphere, from the ground to 12 km.
func randomPlace(r *rand.Rand) (units.Position, units.Length) {
	lat := math.Asin(2*r.Float64()-1) * 180 / math.Pi
	return units.At(lat, 360*r.Float64()-180), units.Length(12000 * r.Float64())
}

// patchError is the error of components, nT, and of D, degrees, with the H it
// was made in.
func patchError(p *Patch, m *Model, at units.Position, height units.Length) (nT, degrees, h float64) {
	f := m.At(at, height)
	x, y := p.Horizontal(m, at, height)
	off := units.WrapHalf(units.Angle(p.Variation(m, at, height) - f.D))
	return math.Hypot(x-f.X, y-f.Y), math.Abs(off.Degrees()), f.H
}

// Interpolated against evaluated, 60000 places over the whole earth and three
// dates: components within 0.1 nT, D within 0.0002 degrees where H is above
// 10000 nT, within 0.001 where it is above 2000 nT.
func TestPatchErrorOverTheEarth(t *testing.T) {
	r := rand.New(rand.NewPCG(1957, 8))
	var worstNT, worst10000, worst2000 float64
	for _, year := range []float64{1900, 1957.6, 2025} {
		m, p := mustNew(t, year), Patch{}
		for range 20000 {
			at, height := randomPlace(r)
			nT, degrees, h := patchError(&p, m, at, height)
			worstNT = math.Max(worstNT, nT)
			if h > 10000 {
				worst10000 = math.Max(worst10000, degrees)
			}
			if h > 2000 {
				worst2000 = math.Max(worst2000, degrees)
			}
		}
	}
	t.Logf("worst: %.3f nT; D %.5f degrees above 10000 nT, %.5f above 2000 nT", worstNT, worst10000, worst2000)
	assert.Less(t, worstNT, patchTolerance)
	assert.Less(t, worst10000, 0.0002)
	assert.Less(t, worst2000, 0.001)
}

// Within about 2 degrees of the two magnetic poles of 1957.6 (places found by
// scanning H): components as everywhere; D within 0.1 nT/H, that is 0.06
// degrees at H = 100 nT; below 100 nT no needle points anywhere and D is not
// judged. The same at the geographic poles, where the frame turns fastest.
func TestPatchErrorNearThePoles(t *testing.T) {
	r := rand.New(rand.NewPCG(1957, 9))
	m, p := mustNew(t, 1957.6), Patch{}
	for name, pole := range map[string][2]float64{
		"north magnetic": {75.25, -101.25}, "south magnetic": {-66.95, 140.75},
		"north": {90, 0}, "south": {-90, 0},
	} {
		var worstNT, worst, least float64 = 0, 0, 1e9
		for range 5000 {
			lat := pole[0] + 4*r.Float64() - 2
			lon := pole[1] + 12*r.Float64() - 6
			if math.Abs(pole[0]) == 90 {
				lat, lon = math.Copysign(90-2*r.Float64(), pole[0]), 360*r.Float64()-180
			}
			nT, degrees, h := patchError(&p, m, units.At(lat, lon), units.Length(12000*r.Float64()))
			worstNT, least = math.Max(worstNT, nT), math.Min(least, h)
			if h > 100 {
				worst = math.Max(worst, degrees*h*math.Pi/180)
			}
		}
		t.Logf("%s: worst %.4f nT; D %.4f nT/H; least H %.0f nT", name, worstNT, worst, least)
		assert.Less(t, worstNT, patchTolerance, name)
		assert.Less(t, worst, patchTolerance, name)
	}
}

// The answer belongs to the place: whatever was asked before, it is the same to
// the last bit as that of an empty patch.
func TestPatchHasNoHistory(t *testing.T) {
	m := mustNew(t, 1957.6)
	rapid.Check(t, func(t *rapid.T) {
		var p Patch
		steps := rapid.IntRange(1, 30).Draw(t, "steps")
		lat, lon := rapid.Float64Range(-89, 89).Draw(t, "lat"), rapid.Float64Range(-181, 181).Draw(t, "lon")
		for range steps {
			lat += rapid.Float64Range(-0.2, 0.2).Draw(t, "dlat")
			lon += rapid.Float64Range(-0.2, 0.2).Draw(t, "dlon")
			h := units.Length(rapid.Float64Range(-300, 4000).Draw(t, "h"))
			at := units.At(lat, lon)
			var fresh Patch
			if got, want := p.Variation(m, at, h), fresh.Variation(m, at, h); got != want {
				t.Fatalf("at %v, %v m: %v, fresh %v", at, h, got, want)
			}
			if p != fresh {
				t.Fatalf("patch %+v, fresh %+v", p, fresh)
			}
		}
	})
}

// Across the borders of cells, the date line and the layers of height nothing
// steps: two places a thousandth of a millimetre apart differ by no more than
// the slope of the field (below 1 nT/km) and rounding.
func TestPatchIsContinuous(t *testing.T) {
	m := mustNew(t, 1957.6)
	const tiny = 1e-11 // degrees
	for i := -100; i <= 100; i++ {
		grid := float64(i) * CellDegrees
		for name, pair := range map[string][2]units.Position{
			"latitude":   {units.At(-47+grid-tiny, 179.93), units.At(-47+grid+tiny, 179.93)},
			"longitude":  {units.At(-47.03, 180+grid-tiny), units.At(-47.03, 180+grid+tiny)},
			"date line":  {units.At(grid-0.03, 180-tiny), units.At(grid-0.03, -180+tiny)},
			"other turn": {units.At(grid-0.03, 540-tiny), units.At(grid-0.03, 180+tiny)},
		} {
			var p, q Patch
			x1, y1 := p.Horizontal(m, pair[0], 1500)
			x2, y2 := q.Horizontal(m, pair[1], 1500)
			require.InDelta(t, x1, x2, 1e-7, "%s %v", name, grid)
			require.InDelta(t, y1, y2, 1e-7, "%s %v", name, grid)
		}
	}
	for km := -11; km <= 102; km++ {
		var p, q Patch
		h := units.Length(km) * units.Kilometre
		x1, y1 := p.Horizontal(m, units.At(-47.03, 178.37), h-1e-6)
		x2, y2 := q.Horizontal(m, units.At(-47.03, 178.37), h+1e-6)
		require.InDelta(t, x1, x2, 1e-7, "%v km", km)
		require.InDelta(t, y1, y2, 1e-7, "%v km", km)
	}
}

// At a corner of the grid the patch is the field itself.
func TestPatchIsExactAtCorners(t *testing.T) {
	m, p := mustNew(t, 1957.6), Patch{}
	for _, at := range [][2]float64{{-47, 178}, {0, 0}, {90, 0}, {-90, 45}, {60, -180}} {
		f := m.At(units.At(at[0], at[1]), 3000)
		x, y := p.Horizontal(m, units.At(at[0], at[1]), 3000)
		assert.InDelta(t, f.X, x, 1e-7, "%v", at)
		assert.InDelta(t, f.Y, y, 1e-7, "%v", at)
	}
}

// The patch is refilled when the cell or the model changes, and only then.
func TestPatchRefills(t *testing.T) {
	m, later := mustNew(t, 1957.6), mustNew(t, 1958.6)
	var p Patch
	p.Variation(m, units.At(-47.05, 178.05), 500)
	marked := p
	marked.North[0]++ // a mark that a refill wipes out
	p = marked
	p.Variation(m, units.At(-47.01, 178.09), 900)
	assert.Equal(t, marked, p, "same cell")
	p.Variation(m, units.At(-47.01, 178.11), 900)
	assert.NotEqual(t, marked, p, "next cell")
	before := p.Variation(m, units.At(-47.01, 178.11), 900)
	assert.NotEqual(t, before, p.Variation(later, units.At(-47.01, 178.11), 900), "another year")
}

func TestPatchOfNoNumber(t *testing.T) {
	m, p := mustNew(t, 1957.6), Patch{}
	for _, at := range [][3]float64{
		{math.NaN(), 0, 0}, {0, math.NaN(), 0}, {0, 0, math.NaN()}, {0, math.Inf(1), 0},
	} {
		v := p.Variation(m, units.At(at[0], at[1]), units.Length(at[2]))
		assert.True(t, math.IsNaN(float64(v)), "%v", at)
	}
	assert.Equal(t, Patch{}, p)
}

// A patch lives in the state of the engine, which is copied by assignment.
func TestPatchIsAPlainValue(t *testing.T) {
	var walk func(reflect.Type)
	walk = func(ty reflect.Type) {
		switch ty.Kind() {
		case reflect.Struct:
			for f := range ty.NumField() {
				walk(ty.Field(f).Type)
			}
		case reflect.Array:
			walk(ty.Elem())
		case reflect.Float64, reflect.Int32:
		default:
			t.Errorf("%v", ty)
		}
	}
	walk(reflect.TypeFor[Patch]())
}
