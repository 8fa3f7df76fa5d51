package isa_test

import (
	"testing"

	"stillair/integrator/isa"
	"stillair/integrator/units"
)

var (
	sinkP units.Pressure
	sinkH units.Length
	sinkV units.Speed
	sinkM float64
)

func BenchmarkPressure(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkP = isa.Pressure(units.Length(i & 8191))
	}
}

func BenchmarkPressureAltitude(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkH = isa.PressureAltitude(units.Pressure(50000 + i&8191))
	}
}

func BenchmarkMach(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkM = isa.Mach(units.Pressure(1+i&8191), 70000)
	}
}

func BenchmarkImpactPressureAtMach(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sinkP = isa.ImpactPressureAtMach(float64(i&1023)/1024, 70000)
	}
}

// BenchmarkSenses is what one tick asks: truth to pressures, pressures to TAS.
func BenchmarkSenses(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		h := units.Length(i & 8191)
		p, t := isa.Pressure(h), isa.Temperature(h)
		qc := isa.ImpactPressureAtMach(100/float64(isa.SpeedOfSound(t)), p)
		sinkV = isa.TAS(isa.Mach(qc, p), t)
	}
}
