package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// The service class on a straight hour at 200 kt, as mech_service.csv says: the
// scale is half a percent of the distance; across, deviation (1.75 and 0.9
// percent at most), dead band (0.9) and a quarter of a degree of steps.
func TestServiceClassOnAStraightHour(t *testing.T) {
	for _, heading := range []float64{0, 45, 90, 135, 200, 270, 340} {
		p := plan(0, 0, heading, 200, time.Hour)
		p.Mechanism.Class = integrator.Service
		s := flown(t, p)
		sin, cos := math.Sincos(heading * math.Pi / 180)
		along := s.Shown.North.NM()*cos + s.Shown.East.NM()*sin - 200
		cross := s.Shown.East.NM()*cos - s.Shown.North.NM()*sin
		least := -200*(1-math.Cos(2.5*math.Pi/180)) - 0.1 // a heading out by 2.5 deg, play and ripple
		assert.True(t, along > 1+least && along < 1.1, "%v: along %v", heading, along)
		assert.Less(t, math.Abs(cross), 2*(1.75+0.9+0.9)+200*0.25*math.Pi/180+0.1, "%v", heading)
		assert.Greater(t, math.Abs(cross)+math.Abs(along), 0.5, "it is not ideal")
	}
}

// Single values take the place of those of the class, and an ideal instrument
// may have one of them.
func TestSingleValues(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	p.Mechanism.Values = map[string]float64{"deviation_b_deg": 2}
	s := flown(t, p)
	e := 90 - s.Shown.Heading.Degrees() // the deviation at the reading, 75 less itself
	assert.InDelta(t, 2*math.Sin((75-e)*math.Pi/180), e, 1e-9)
	p.Mechanism.Values = map[string]float64{"no_such": 2}
	_, err := New(p)
	assert.Error(t, err)
}

// The alternate static source of a flight file: a blocked line is cured by it.
func TestAlternateStaticByTheClock(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	high := 6000 * units.Foot
	p.Legs[0].Altitude = &high
	p.Faults = []fault.Order{{ID: "static-blocked", At: 160}}
	p.Crew = []Command{{Tick: TicksOf(30 * time.Minute), Action: aboard.Action{Kind: aboard.AlternateStatic, On: true}}}
	e := engine(t, p)
	e.Advance(TicksOf(29 * time.Minute))
	assert.Less(t, math.Abs(e.View().PressureAltitude.Feet()), 100.0)
	e.Advance(TicksOf(2 * time.Minute))
	assert.InDelta(t, 6000, e.View().PressureAltitude.Feet(), 150)
}

// The clock aboard tells the time wrong by what it has gained; what was gained
// stays on it when the rate is mended.
func TestClockAboardGains(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	p.Faults = []fault.Order{{ID: "clock-rate-wrong", For: TicksOf(20 * time.Minute), Params: []float64{5000}}}
	e := engine(t, p)
	e.Advance(TicksOf(40 * time.Minute))
	assert.InDelta(t, 6, e.View().Clock.Sub(p.Start.Add(40*time.Minute)).Seconds(), 1e-6, "1200 s at 5 in a thousand")
}

// tenFaults are of every link, two of them intermittent, one a ramp.
func tenFaults() *Plan {
	p := busy()
	p.Mechanism.Class = integrator.Service
	for i, id := range []string{
		"static-leak", "water-in-pitot-line", "regulator-ripple", "drive-slip", "compass-deviation",
		"gyro-drift-unslaved", "repeater-lag", "resolver-gain-mismatch", "secant-gear-held", "chart-scale-wrong",
	} {
		e, _ := fault.Lookup(id)
		o := fault.Order{ID: id, At: int64(i), Params: e.Defaults()}
		switch id {
		case "drive-slip":
			o.Shape, o.RampTicks = fault.Ramp, 16000
		case "regulator-ripple":
			o.Shape, o.On, o.Off = fault.Intermittent, 160, 320
		}
		p.Faults = append(p.Faults, o)
	}
	return p
}

// A step with ten faults at work allocates nothing.
func TestFaultsAllocateNothing(t *testing.T) {
	e := engine(t, tenFaults())
	e.Advance(100)
	s := e.State()
	assert.Zero(t, testing.AllocsPerRun(2000, func() {
		e.course.boundary(&s, nil)
		e.course.fly(&s)
	}))
}

// BenchmarkStepWithTenFaults flies the service class with ten faults and the
// ideal class without, by turns in the same run, and reports their ratio.
func BenchmarkStepWithTenFaults(b *testing.B) {
	begin := func(p *Plan) (*Engine, State) {
		e, err := New(p)
		if err != nil {
			b.Fatal(err)
		}
		e.Advance(100)
		return e, e.State()
	}
	ideal, s0 := begin(busy())
	spoilt, s1 := begin(tenFaults())
	fly := func(e *Engine, s *State, first State) time.Duration {
		began := time.Now()
		for range 2000 {
			e.course.boundary(s, nil)
			e.course.fly(s)
			if s.Over {
				*s = first
			}
		}
		return time.Since(began)
	}
	first0, first1 := s0, s1
	var t0, t1 time.Duration
	b.ReportAllocs()
	for b.Loop() {
		t0 += fly(ideal, &s0, first0)
		t1 += fly(spoilt, &s1, first1)
	}
	b.ReportMetric(float64(t0.Nanoseconds())/float64(2000*b.N), "ideal-ns/step")
	b.ReportMetric(float64(t1.Nanoseconds())/float64(2000*b.N), "faults-ns/step")
	b.ReportMetric(float64(t1)/float64(t0), "faults/ideal")
}
