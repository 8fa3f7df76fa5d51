package sim

import (
	"math"
	"testing"
	"time"
)

// BenchmarkStep flies steady legs and turns in an earth's field with wind.
func BenchmarkStep(b *testing.B) {
	e, err := New(busy())
	if err != nil {
		b.Fatal(err)
	}
	first := e.State()
	s := first
	b.ReportAllocs()
	for b.Loop() {
		e.course.boundary(&s, nil)
		e.course.fly(&s)
		if s.Over {
			s = first
		}
	}
}

// floorCalls are the calls to the mathematics library that one ideal step at a
// constant true airspeed must make, in order, and how often.
//
//	sincos  truth heading, ground mid-latitude, air mid-latitude, resolver  4
//	cos     secant gears of the air and the ground train                     2
//	sqrt    radii of curvature 2, speed of sound 2, Mach 1, impact pressure 1  6
//	pow     pressure from height 1; 2/7 power of the air log by log1p, expm1  2
//	1/x     radii 4, longitude 2, secants 2, Mach 2                         10
const floorNote = "4 sincos, 2 cos, 6 sqrt, 1 pow, 1 log1p+expm1, 10 divisions"

var sink float64

// serial runs the calls of the floor, each waiting for the last.
func serial(x float64) float64 {
	for range 4 {
		s, c := math.Sincos(x)
		x = s*0.5 + c*0.1
	}
	for range 2 {
		x = math.Cos(x)
	}
	for range 6 {
		x = math.Sqrt(x + 1)
	}
	x = math.Pow(x*0.5, 5.2559)
	x = math.Expm1(2.0 / 7 * math.Log1p(x))
	for range 10 {
		x = 1 / (x + 1)
	}
	return x
}

// BenchmarkStepFloor measures the serial sum of those calls and, in the same
// run, the whole step, and reports their ratio.
func BenchmarkStepFloor(b *testing.B) {
	e, err := New(busy())
	if err != nil {
		b.Fatal(err)
	}
	first := e.State()
	s := first
	var floor, step time.Duration
	const n = 2000
	x := 0.3
	for b.Loop() {
		t0 := time.Now()
		for range n {
			x = serial(x)
		}
		t1 := time.Now()
		for range n {
			e.course.boundary(&s, nil)
			e.course.fly(&s)
			if s.Over {
				s = first
			}
		}
		floor, step = floor+t1.Sub(t0), step+time.Since(t1)
	}
	sink = x
	b.Logf("floor: %s", floorNote)
	b.ReportMetric(float64(floor.Nanoseconds())/float64(b.N*n), "floor-ns/step")
	b.ReportMetric(float64(step.Nanoseconds())/float64(b.N*n), "step-ns/step")
	b.ReportMetric(float64(step)/float64(floor), "step/floor")
}

// BenchmarkTenHours flies 2500 NM with recorder and keyframes.
func BenchmarkTenHours(b *testing.B) {
	for b.Loop() {
		e, err := New(plan(50, 0, 45, 250, 10*time.Hour))
		if err != nil {
			b.Fatal(err)
		}
		e.Advance(1 << 30)
	}
}

// BenchmarkWorks reads what the links pass on, and what they would in order.
func BenchmarkWorks(b *testing.B) {
	e, err := New(busy())
	if err != nil {
		b.Fatal(err)
	}
	e.Advance(5000)
	b.ReportAllocs()
	for b.Loop() {
		e.Works()
		e.TrueWorks()
	}
}
