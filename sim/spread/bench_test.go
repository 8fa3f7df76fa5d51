package spread

import (
	"fmt"
	"testing"
	"time"

	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/sim"
)

// eightHours is a flight as it is flown: the earth's own field, a wind, a pilot who
// steers by the repeater, an instrument of the service class, two long legs with a
// turn.
func eightHours() *sim.Plan {
	p := straight(60, 178, 4*time.Hour)
	p.Field, p.Pilot, p.Mechanism.Class = nil, sim.Steady, integrator.Service
	p.Aircraft.Position = units.At(-47, 178)
	p.Air.Winds = []sim.WindEntry{{Wind: units.Wind{From: 308 * units.Degree, Speed: 33 * units.Knot}}}
	p.Setting.Wind = units.Wind{From: 295 * units.Degree, Speed: 27 * units.Knot}
	p.Legs = append(p.Legs, sim.Leg{Direction: 250 * units.Degree, TurnRate: 3, Ticks: sim.TicksOf(4 * time.Hour)})
	return p
}

// BenchmarkThousandFlights flies 1000 flights of eight hours (100 with -short) on
// one and on two goroutines: -benchtime 1x.
func BenchmarkThousandFlights(b *testing.B) {
	law, n := ordinary(b), 1000
	if testing.Short() {
		n = 100
	}
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("%d", workers), func(b *testing.B) {
			flown := 0
			for b.Loop() {
				r := run(b, Job{Plan: eightHours(), Law: law, Seed: 1, Flights: n, Workers: workers})
				flown += len(r.Flights) + 2*len(law.trials())
			}
			b.ReportMetric(float64(flown)/b.Elapsed().Seconds(), "flights/s")
		})
	}
}
