package geodesy

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

var sink float64

func BenchmarkRhumbInverse(b *testing.B) {
	lines := someLines(7, 1024)
	for i := 0; b.Loop(); i++ {
		l := &lines[i%1024]
		_, s := RhumbInverseDegrees(l[0], l[1], l[2], l[3])
		sink += s
	}
}

func BenchmarkRhumbDirect(b *testing.B) {
	lines := someLines(7, 1024)
	for i := 0; b.Loop(); i++ {
		l := &lines[i%1024]
		_, lon, _ := RhumbDirectDegrees(l[0]/2, l[1], l[3], 1e6)
		sink += lon
	}
}

func BenchmarkGeodesicInverse(b *testing.B) {
	lines := someLines(7, 1024)
	for i := 0; b.Loop(); i++ {
		l := &lines[i%1024]
		_, _, s := GeodesicInverseDegrees(l[0], l[1], l[2], l[3])
		sink += s
	}
}

func BenchmarkGeodesicDirect(b *testing.B) {
	lines := someLines(7, 1024)
	for i := 0; b.Loop(); i++ {
		l := &lines[i%1024]
		_, lon, _ := GeodesicDirectDegrees(l[0], l[1], l[3], 1e6)
		sink += lon
	}
}

func BenchmarkMercatorForward(b *testing.B) {
	sheet := NewMercator(units.At(-48, 179), -48*units.Degree, 1e6)
	p := units.At(-47, -179)
	for b.Loop() {
		x, _ := sheet.Forward(p)
		sink += x.Metres()
	}
}

func TestNothingAllocates(t *testing.T) {
	a, b := units.At(-47, 178), units.At(-44, -177)
	sheet := NewMercator(a, a.Lat, 1e6)
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		course, s := RhumbInverse(a, b)
		p, _ := RhumbDirect(a, course, s)
		z, _, s := GeodesicInverse(a, p)
		p, _ = GeodesicDirect(a, z, s)
		x, y := sheet.Forward(p)
		p = sheet.Inverse(x, y)
		sink += p.Lat.Degrees() + MeridianArc(p.Lat).Metres()
	}))
}
