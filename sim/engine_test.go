package sim

import (
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
)

// plan is a flight on one heading as planned, under a uniform variation.
func plan(lat, lon, heading, kt float64, d time.Duration) *Plan {
	v := units.Variation(15 * units.Degree)
	return &Plan{
		Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Pilot: AsPlanned, Field: &v,
		Aircraft: Aircraft{
			Position: units.At(lat, lon), Heading: units.TrueHeading(units.Angle(heading) * units.Degree),
			Speed: SpeedOrder{HoldTAS, units.Speed(kt) * units.Knot},
		},
		Legs: []Leg{{Direction: units.Angle(heading) * units.Degree, Ticks: TicksOf(d), TurnRate: 3, Climb: 500 * units.Speed(units.Foot) / 60}},
	}
}

func engine(t require.TestingT, p *Plan) *Engine {
	e, err := New(p)
	require.NoError(t, err)
	return e
}

func wind(from, kt float64) units.Wind {
	return units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(kt) * units.Knot}
}

// busy is a flight in which everything moves.
func busy() *Plan {
	p := plan(-47, 179.5, 40, 180, 10*time.Minute)
	p.Pilot, p.Field = Steady, nil
	p.Air.Winds = []WindEntry{{Wind: wind(308, 33)}}
	p.Setting.Wind = wind(295, 27)
	height, fast := 9000*units.Foot, SpeedOrder{HoldCAS, 170 * units.Knot}
	p.Legs = append(p.Legs,
		Leg{Direction: 200 * units.Degree, Ticks: TicksOf(8 * time.Minute), TurnRate: 3, Altitude: &height, Climb: 500 * units.Speed(units.Foot) / 60, Speed: &fast},
		Leg{Steer: TrackTrue, Direction: 90 * units.Degree, Distance: 30 * units.NM, TurnRate: 3},
		Leg{Steer: ToPlace, Place: "home", Target: units.At(-47, 179.5), TurnRate: 3})
	p.Crew = []Command{
		{Tick: TicksOf(5 * time.Minute), Action: aboard.Action{Kind: aboard.SetWind, Wind: wind(307, 32)}},
		{Tick: TicksOf(7 * time.Minute), Action: aboard.Action{Kind: aboard.SetCounters, Position: units.At(-46.7, 179.9)}},
		{Tick: TicksOf(9 * time.Minute), Action: aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(22 * units.Degree)}},
	}
	return p
}

// State is plain: copying it keeps it.
func TestStateIsPlain(t *testing.T) {
	var walk func(path string, x reflect.Type)
	walk = func(path string, x reflect.Type) {
		switch x.Kind() {
		case reflect.Struct:
			for i := range x.NumField() {
				walk(path+"."+x.Field(i).Name, x.Field(i).Type)
			}
		case reflect.Array:
			walk(path+"[]", x.Elem())
		case reflect.Pointer, reflect.Map, reflect.Slice, reflect.Func, reflect.Interface, reflect.Chan, reflect.String, reflect.UnsafePointer:
			t.Errorf("%s is a %s", path, x.Kind())
		}
	}
	walk("State", reflect.TypeFor[State]())
}

// Every field counts in the hash, those inside other packages too.
func TestHashSeesEveryField(t *testing.T) {
	e := engine(t, busy())
	e.Advance(1000)
	s := e.State()
	want, seen := s.Hash(), 0
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
			return
		case reflect.Array:
			for i := range v.Len() {
				walk(path, v.Index(i))
			}
			return
		}
		v = reflect.NewAt(v.Type(), unsafe.Pointer(v.UnsafeAddr())).Elem() // settable, though unexported
		old := reflect.ValueOf(v.Interface())
		switch v.Kind() {
		case reflect.Float64:
			v.SetFloat(math.Mod(v.Float(), 1e6) + 1) // infinity becomes NaN: another float
		case reflect.Bool:
			v.SetBool(!v.Bool())
		case reflect.Uint8, reflect.Uint64, reflect.Uint32:
			v.SetUint(v.Uint() + 1)
		default:
			v.SetInt(v.Int() + 1)
		}
		seen++
		assert.NotEqual(t, want, s.Hash(), path)
		v.Set(old)
	}
	walk("State", reflect.ValueOf(&s).Elem())
	assert.Greater(t, seen, 60)
	assert.Equal(t, want, s.Hash())
}

func TestSameHashWhateverThePace(t *testing.T) {
	last := TicksOf(25 * time.Minute)
	plain := engine(t, busy())
	plain.Advance(last)
	want := plain.Hash()

	steps := engine(t, busy())
	for range last {
		steps.Advance(1)
	}
	assert.Equal(t, want, steps.Hash(), "single steps")

	chunks, r := engine(t, busy()), rand.New(rand.NewPCG(1, 2))
	for chunks.Tick() < last {
		chunks.Advance(min(1+r.Int64N(400), last-chunks.Tick()))
	}
	assert.Equal(t, want, chunks.Hash(), "chunks")

	back := engine(t, busy())
	for _, tick := range []int64{last, 0, 5000, 1, last - 1, 960, 961, 959, last} {
		back.GoTo(tick)
		assert.Equal(t, tick, back.Tick())
	}
	assert.Equal(t, want, back.Hash(), "back and forth")

	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := engine(t, busy())
	one.Advance(last)
	assert.Equal(t, want, one.Hash(), "one processor")
}

// What the crew do in flight is the same as the same command in the plan, also
// after going back and doing it again.
func TestDoIsACommand(t *testing.T) {
	at, last := int64(3001), int64(9000)
	act := aboard.Action{Kind: aboard.SetWind, Wind: wind(250, 40)}
	planned := busy()
	planned.Crew = append(planned.Crew, Command{Tick: at, Action: act})
	want := engine(t, planned)
	want.Advance(last)

	e := engine(t, busy())
	e.Advance(at)
	require.NoError(t, e.Do(act))
	assert.Equal(t, act.Wind, e.View().WindSet, "it shows at once")
	e.Advance(last - at)
	assert.Equal(t, want.Hash(), e.Hash())

	other := aboard.Action{Kind: aboard.SetVariation, Variation: 0.3}
	e.GoTo(at + 2000)
	require.NoError(t, e.Do(other))
	e.GoTo(at)
	require.NoError(t, e.Do(act)) // the first one at this tick, and what came later, are gone
	e.GoTo(last)
	assert.Equal(t, want.Hash(), e.Hash())
	assert.Error(t, e.Do(aboard.Action{}))
}

func TestNoAllocationInAStep(t *testing.T) {
	e := engine(t, busy())
	s := e.State()
	assert.Zero(t, testing.AllocsPerRun(2000, func() {
		e.course.boundary(&s, nil)
		e.course.fly(&s)
	}))
}

// A wrong variation under the steady pilot: the repeater reads as ordered, the
// aircraft goes astray by the error, and the instrument does not know it.
func TestWrongVariationBendsTheTrueTrack(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	p.Pilot = Steady
	set := units.Variation(20 * units.Degree) // 15 is true
	p.Setting.Variation = &set
	p.Aircraft.Heading = units.TrueHeading(85 * units.Degree)
	e := engine(t, p)
	e.Advance(1 << 30)
	s := e.Snapshot()
	assert.InDelta(t, 90, s.Shown.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 85, s.Truth.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 70, s.Sensed.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 0, s.Shown.North.NM(), 1e-9)
	assert.InDelta(t, 200, s.Shown.East.NM(), 1e-9)
	// The true track is the rhumb line of 085: north by 200 sin 5 in WGS-84 miles.
	assert.InDelta(t, 200*math.Sin(5*math.Pi/180)*1852/6335439.327*180/math.Pi, s.Truth.Position.Lat.Degrees(), 2e-5)
}

// As planned the same setting bends what is shown and not the track.
func TestAsPlannedIsolatesTheInstrument(t *testing.T) {
	p := plan(0, 0, 90, 200, time.Hour)
	set := units.Variation(20 * units.Degree)
	p.Setting.Variation = &set
	e := engine(t, p)
	e.Advance(1 << 30)
	s := e.Snapshot()
	assert.InDelta(t, 90, s.Truth.Heading.Degrees(), 1e-12)
	assert.InDelta(t, 95, s.Shown.Heading.Degrees(), 1e-9)
	assert.InDelta(t, 200*math.Cos(95*math.Pi/180), s.Shown.North.NM(), 1e-9)
	assert.InDelta(t, 0, s.Truth.Position.Lat.Degrees(), 1e-12)
}

func TestSettingTheCounters(t *testing.T) {
	p := plan(-47, 179.9, 90, 180, time.Hour)
	p.Air.Winds = []WindEntry{{Wind: wind(0, 30)}}
	p.Crew = []Command{{Tick: TicksOf(30 * time.Minute), Action: aboard.Action{Kind: aboard.SetCounters, Position: units.At(-47.5, -179)}}}
	e := engine(t, p)
	e.Advance(TicksOf(30*time.Minute) + 1)
	s := e.Snapshot()
	assert.InDelta(t, 90, s.Shown.AirMiles.NM(), 0.01, "the air log counter is not touched")
	assert.InDelta(t, 0, s.Shown.East.NM(), 0.01)
	assert.InDelta(t, -47.5, units.Position(s.Shown.Air).Lat.Degrees(), 1e-3)
	assert.InDelta(t, s.Truth.Position.Lat.Degrees(), s.Truth.Air.Lat.Degrees(), 1e-3, "true air starts at the true place")
	e.Advance(1 << 30)
	assert.InDelta(t, 90, e.Snapshot().Shown.East.NM(), 1e-6)
}

func TestLegsEnd(t *testing.T) {
	p := plan(50, 0, 90, 120, time.Hour)
	p.Legs = []Leg{{Direction: 90 * units.Degree, Distance: 60 * units.NM, TurnRate: 3}}
	e := engine(t, p)
	e.Advance(1 << 30)
	assert.Equal(t, TicksOf(30*time.Minute), e.Tick(), "60 air miles at 120 kt, and no tick more")

	p.Legs = []Leg{{Steer: ToPlace, Target: units.At(50.5, 0.8), TurnRate: 3}}
	p.Air.Winds = []WindEntry{{Wind: wind(200, 25)}}
	e = engine(t, p)
	e.Advance(1 << 30)
	assert.Less(t, OffsetOf(e.Snapshot().Truth.Position, units.At(50.5, 0.8)).NM(), 0.3, "as planned a place is reached")

	p.Legs = []Leg{{Steer: TrackTrue, Direction: 30 * units.Degree, Ticks: TicksOf(time.Hour), TurnRate: 0}}
	e = engine(t, p)
	e.Advance(100)
	assert.InDelta(t, 30, e.Snapshot().Truth.Track.Degrees(), 1e-9)
}

// A turn of 180 goes right, at the rate ordered, in the time that takes.
func TestTurns(t *testing.T) {
	p := plan(0, 0, 0, 200, time.Minute)
	p.Legs = append(p.Legs, Leg{Direction: 180 * units.Degree, Ticks: TicksOf(2 * time.Minute), TurnRate: 3})
	e := engine(t, p)
	e.Advance(TicksOf(90 * time.Second))
	assert.InDelta(t, 90, e.Snapshot().Truth.Heading.Degrees(), 1e-9)
	e.Advance(TicksOf(30 * time.Second))
	assert.InDelta(t, 180, e.Snapshot().Truth.Heading.Degrees(), 1e-9)
	// The circle of a rate-three turn at 200 kt: 2 V/w = 2.122 NM to the east.
	assert.InDelta(t, 2*200.0/3600/(3*math.Pi/180), e.Snapshot().Shown.East.NM(), 1e-6)
}

func TestPlottedAndRunning(t *testing.T) {
	p := plan(50, 0, 90, 200, 4*time.Hour)
	p.Air.Winds = []WindEntry{{Wind: wind(180, 40)}}
	p.Setting.Wind = wind(180, 40)
	run := engine(t, p)
	run.Advance(1 << 30)
	plotted := *p
	plotted.Mechanism.Ground = ground.Plotted
	plot := engine(t, &plotted)
	plot.Advance(1 << 30)
	a, b := run.Snapshot(), plot.Snapshot()
	east := (units.Position(b.Shown.Ground).Lon - units.Position(a.Shown.Ground).Lon).Minutes() * math.Cos(float64(units.Position(a.Shown.Ground).Lat))
	// mech_ground.csv, air-plot-method-2: 22.033 NM west after four hours.
	assert.InDelta(t, -22.033, east, 0.001)
}

func TestRecorder(t *testing.T) {
	e := engine(t, busy())
	e.Advance(TicksOf(6 * time.Minute))
	marks := e.View().Marks
	kept := append([]aboard.Mark(nil), marks...)
	for i, m := range marks[1:] {
		assert.LessOrEqual(t, m.Elapsed-marks[i].Elapsed, 10*time.Second)
	}
	assert.Equal(t, len(marks), len(e.TrueTrack()))
	e.GoTo(1000)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: wind(1, 1)}))
	e.GoTo(9000)
	assert.Equal(t, kept, marks, "a list handed out never changes")
}

func TestRefusals(t *testing.T) {
	p := plan(0, 0, 0, 200, time.Minute)
	p.Mechanism.TemperatureSource = "the moon"
	_, err := New(p)
	require.ErrorIs(t, err, ErrNotFlown)
	assert.True(t, strings.Contains(err.Error(), "mechanism"))
}

// In still air air and ground position agree; with the wind set right they part
// by wind x time; everything stays finite, also at the edges.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan(rapid.Float64Range(-75, 75).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"),
			rapid.Float64Range(0, 359).Draw(t, "heading"), rapid.Float64Range(100, 400).Draw(t, "tas"), 20*time.Minute)
		w := wind(rapid.Float64Range(0, 359).Draw(t, "from"), rapid.Float64Range(0, 90).Draw(t, "kt"))
		p.Air.Winds, p.Setting.Wind = []WindEntry{{Wind: w}}, w
		e := engine(t, p)
		e.Advance(1 << 30)
		s := e.Snapshot()
		north, _ := w.Velocity()
		got := (units.Position(s.Shown.Ground).Lat - units.Position(s.Shown.Air).Lat).Minutes()
		require.InDelta(t, north.Knots()/3, got, 1e-9, "displacement is wind x time")
		require.Less(t, s.Error.Ground.NM(), 2.5, "only the earth model is left: half a percent of the run")
		if w.Speed == 0 {
			require.Equal(t, units.Position(s.Shown.Air), units.Position(s.Shown.Ground))
		}
	})
	for _, lat := range []float64{-90, -89.999, 0, 89.99, 90} {
		p := plan(lat, 180, 10, 450, time.Hour)
		p.Aircraft.PressureAltitude = 40000 * units.Foot
		p.Air.Winds = []WindEntry{{Wind: wind(123, 250)}}
		e := engine(t, p)
		e.Advance(1 << 30)
		s := e.Snapshot()
		for _, x := range []float64{float64(s.Truth.Position.Lat), float64(s.Truth.Position.Lon), s.Error.Air.NM(), s.Error.Ground.NM()} {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "from %v", lat)
		}
	}
}
