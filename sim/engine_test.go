package sim

import (
	"fmt"
	"testing"
	"time"

	"stillair/integrator/units"
)

func TestTrial(t *testing.T) {
	v := units.Variation(15 * units.Degree)
	p := &Plan{Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Pilot: AsPlanned,
		Aircraft: Aircraft{Position: units.At(50, 0), Heading: units.TrueHeading(45 * units.Degree), Speed: SpeedOrder{HoldTAS, 250 * units.Knot}},
		Legs:     []Leg{{Direction: 45 * units.Degree, Ticks: TicksOf(10 * time.Hour), TurnRate: 3}}, Field: &v}
	e, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	t0 := time.Now()
	e.Advance(1 << 40)
	fmt.Println(time.Since(t0))
	s := e.Snapshot()
	fmt.Printf("%.13f %.13f %d %x\n", s.Truth.Position.Lat.Degrees(), s.Truth.Position.Lon.Degrees(), s.Tick, e.Hash())
	fmt.Printf("%+v\n", s)
}
