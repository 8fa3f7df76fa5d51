package geomag

import (
	"testing"

	"stillair/integrator/units"
)

var (
	sinkField Field
	sinkV     units.Variation
)

func BenchmarkAt(b *testing.B) {
	m := mustNew(b, 1957.6)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkField = m.At(units.At(-47, float64(i&127)), 3000)
	}
}

// BenchmarkPatchHit stays in one cell, as nearly every tick does.
func BenchmarkPatchHit(b *testing.B) {
	m, p := mustNew(b, 1957.6), Patch{}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkV = p.Variation(m, units.At(-47.05, 178.02+float64(i&63)*1e-3), 3000)
	}
}

// BenchmarkPatchMiss changes the cell at every call.
func BenchmarkPatchMiss(b *testing.B) {
	m, p := mustNew(b, 1957.6), Patch{}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkV = p.Variation(m, units.At(-47.05, float64(i&127)), 3000)
	}
}

func BenchmarkNew(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		mustNew(b, 1957.6)
	}
}
