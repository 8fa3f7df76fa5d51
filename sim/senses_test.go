package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/heading"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim/sensor"
)

// Imperfect senses in flight. Expected values are closed forms: the deviation
// formula by hand, the wander of a gyro, the pressures of the standard
// atmosphere (checked by itself against published tables).

const degree = units.Degree

// spoilt is an engine with something wrong from the start.
func spoilt(t *testing.T, p *Plan, senses sensor.Imperfection, chain heading.Imperfection) *Engine {
	e := engine(t, p)
	e.state.Senses.Wrong, e.state.Mechanism.Wrong.Heading = senses, chain
	return e
}

// The pilot flies what the repeater says: deviation, hang-off, a wrong setter
// bend the true track and the repeater reads as ordered. As planned the true
// heading is held and the repeater is wrong.
func TestHeadingFaultsMisleadThePilot(t *testing.T) {
	// 15 E everywhere. On 90 T the compass is to read 75 C: dev = 3 sin 75.
	dev := 3 * math.Sin(75*math.Pi/180)
	for name, c := range map[string]struct {
		senses sensor.Imperfection
		chain  heading.Imperfection
		flown  float64
	}{
		"deviation":  {sensor.Imperfection{Compass: sensor.Compass{B: 3 * degree}}, heading.Imperfection{}, 90 + dev},
		"hang-off":   {sensor.Imperfection{Gyro: sensor.Gyro{Residual: 2 * degree}}, heading.Imperfection{}, 88},
		"mis-set":    {sensor.Imperfection{}, heading.Imperfection{MisSet: 5 * degree}, 85},
		"wrong sign": {sensor.Imperfection{}, heading.Imperfection{WrongSign: true}, 120},
	} {
		for _, pilot := range []Pilot{Steady, ByInstruments, AsPlanned} {
			for _, rate := range []float64{0, 3} {
				p := plan(0, 0, 90, 200, 5*time.Minute)
				p.Pilot, p.Legs[0].TurnRate, p.Aircraft.Heading = pilot, rate, units.TrueHeading(60*degree)
				e := spoilt(t, p, c.senses, c.chain)
				e.Advance(untilTheEnd)
				s := e.Snapshot()
				if pilot == AsPlanned {
					assert.InDelta(t, 90, s.Truth.Heading.Degrees(), 1e-9, name)
					assert.Greater(t, math.Abs(s.Shown.Heading.Degrees()-90), 1.9, name)
					continue
				}
				assert.InDelta(t, 90, s.Shown.Heading.Degrees(), 1e-9, "%s, pilot %d", name, pilot)
				assert.InDelta(t, c.flown, s.Truth.Heading.Degrees(), 1e-9, "%s, pilot %d", name, pilot)
			}
		}
	}
}

// What is wrong with the repeater at the resolver does not mislead the pilot,
// who has his own on the same transmission.
func TestRepeaterAtTheResolver(t *testing.T) {
	p := plan(0, 0, 90, 200, 5*time.Minute)
	p.Pilot = Steady
	for name, w := range map[string]heading.Imperfection{"lost": {Lost: 3 * degree}, "lag": {Lag: 10}} {
		q := *p
		q.Aircraft.Heading, q.Legs[0].TurnRate = units.TrueHeading(80*degree), 3
		e := spoilt(t, &q, sensor.Imperfection{}, w)
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		assert.InDelta(t, 90, s.Truth.Heading.Degrees(), 1e-9, name)
		assert.InDelta(t, 90+w.Lost.Degrees(), s.Shown.Heading.Degrees(), 1e-9, name)
	}
}

// Steps lost stay until the crew brings the repeater into step.
func TestResynchronise(t *testing.T) {
	e := spoilt(t, plan(0, 0, 90, 200, 5*time.Minute), sensor.Imperfection{}, heading.Imperfection{Lost: 3 * degree})
	e.Advance(160)
	e.state.Mechanism.Wrong.Heading = heading.Imperfection{}
	e.Advance(160)
	assert.InDelta(t, 93, e.View().Heading.Degrees(), 1e-9)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.Resynchronise}))
	assert.InDelta(t, 90, e.View().Heading.Degrees(), 1e-9)
}

// A leg by magnetic or compass heading is flown by what the compass shows.
func TestCompassLegsWithDeviation(t *testing.T) {
	for _, steer := range []Steer{HeadingMagnetic, HeadingCompass} {
		for pilot, reads := range map[Pilot]float64{Steady: 100, ByInstruments: 100, AsPlanned: 98} {
			p := plan(10, 20, 0, 200, 5*time.Minute)
			p.Pilot, p.Legs[0].Steer, p.Legs[0].Direction = pilot, steer, 100*degree
			e := spoilt(t, p, sensor.Imperfection{Compass: sensor.Compass{A: 2 * degree}}, heading.Imperfection{})
			e.Advance(untilTheEnd)
			s := e.Snapshot()
			assert.InDelta(t, reads, s.Sensed.Heading.Degrees(), 1e-9)
			assert.InDelta(t, reads, e.View().Compass.Degrees(), 1e-9)
			assert.InDelta(t, reads+2+15, s.Truth.Heading.Degrees(), 1e-9, "15 E and 2 of deviation")
		}
	}
}

// A free gyro leads the steady pilot about while the compass tells: in an hour
// at 50 S, the earth's turning and 200 kt to the east.
func TestFreeGyroInFlight(t *testing.T) {
	p := plan(-50, 0, 90, 200, time.Hour)
	p.Pilot = Steady
	e := spoilt(t, p, sensor.Imperfection{Gyro: sensor.Gyro{Free: true, EarthRate: true}}, heading.Imperfection{})
	e.Advance(untilTheEnd)
	s := e.Snapshot()
	assert.InDelta(t, 90, s.Shown.Heading.Degrees(), 1e-3, "a tick late")
	// + 15.041067 sin 50 deg/h in the south: the reading rises, he turns left.
	// He drifts north by 200 x 11.5/2 x pi/180 = 20 NM on the way.
	assert.InDelta(t, 90-15.041067*math.Sin((50-20.0/60/3)*math.Pi/180), s.Truth.Heading.Degrees(), 0.005)
	assert.InDelta(t, s.Truth.Heading.Degrees()-15, e.View().Compass.Degrees(), 1e-9)
}

// By instruments the dial reads what was ordered: with a position error of
// 4 percent of qc the true qc is 1/0.96 of it, and the height is flown high.
func TestPositionErrorByInstruments(t *testing.T) {
	p := plan(0, 0, 90, 150, 30*time.Minute)
	p.Pilot, p.Aircraft.Speed.Kind = ByInstruments, HoldCAS
	height := 8000 * units.Foot
	p.Aircraft.PressureAltitude, p.Legs[0].Altitude, p.Legs[0].Climb = 7000*units.Foot, &height, 1000*units.Speed(units.Foot)/60
	e := spoilt(t, p, sensor.Imperfection{Static: sensor.Static{PositionError: 0.04}}, heading.Imperfection{})
	e.Advance(untilTheEnd)
	s, v := e.Snapshot(), e.View()
	assert.InDelta(t, 150, v.IAS.Knots(), 1e-4)
	assert.InDelta(t, 8000, v.PressureAltitude.Feet(), 1e-3)
	qc := isa.ImpactPressure(150*units.Knot) / 0.96
	assert.InDelta(t, isa.CAS(qc).Knots(), isa.CASFromTAS(s.Truth.TAS, s.Truth.Height, isa.Temperature(s.Truth.Height)).Knots(), 1e-3)
	want := isa.PressureAltitude(isa.Pressure(height) - 0.04*qc)
	assert.InDelta(t, want.Feet(), s.Truth.Height.Feet(), 0.1)
	assert.InDelta(t, 0, float64(v.VerticalSpeed), 1e-3)
}

// A blocked static line in a climb: altimeter and vertical speed stand, the
// pilot does not; the alternate source shows the way back.
func TestStaticBlockedInAClimb(t *testing.T) {
	p := plan(0, 0, 90, 150, 30*time.Minute)
	height := 6000 * units.Foot
	p.Aircraft.PressureAltitude, p.Legs[0].Altitude, p.Legs[0].Climb = 5000*units.Foot, &height, 500*units.Speed(units.Foot)/60
	p.Pilot = Steady
	e := spoilt(t, p, sensor.Imperfection{Static: sensor.Static{Trapped: true}}, heading.Imperfection{})
	e.Advance(TicksOf(time.Minute))
	v := e.View()
	assert.InDelta(t, 5000, v.PressureAltitude.Feet(), 1e-6)
	assert.InDelta(t, 5500, e.Snapshot().Truth.Height.Feet(), 1e-6)
	assert.InDelta(t, 0, float64(v.VerticalSpeed), 1e-6)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.AlternateStatic, On: true}))
	e.Advance(TicksOf(30 * time.Second))
	assert.InDelta(t, 5800, e.View().PressureAltitude.Feet(), 60)
	assert.Greater(t, e.View().PressureAltitude.Feet(), 5750.0)
}

// What is mended leaves no trace: the streams are those of a flight without the
// faults, and a minute later so is all that the senses hand on.
func TestMendedSensesLeaveNoTrace(t *testing.T) {
	a, b := engine(t, busy()), engine(t, busy())
	b.Advance(160)
	b.state.Senses.Wrong = sensor.Imperfection{
		Pitot: sensor.Pitot{Leak: 0.2, RamBlocked: true, Decay: 4}, LineLag: 2,
		Static:  sensor.Static{Leak: 0.3, CabinOverQc: -0.1, Settle: 3},
		Compass: sensor.Compass{B: 3 * degree}, Gyro: sensor.Gyro{Slaving: 0.01, EarthRate: true, DeadBand: 0.01},
	}
	b.Advance(200)
	require.NotEqual(t, engineAt(t, 360).Sensed, b.state.Sensed)
	b.state.Senses.Wrong = sensor.Imperfection{}
	a.Advance(3000)
	b.Advance(3000 - 360)
	assert.Equal(t, a.state.Chance, b.state.Chance)
	in, want := b.state.Sensed, engineAt(t, 3000).Sensed
	assert.InDelta(t, float64(want.Air.Static), float64(in.Air.Static), 1e-6)
	assert.InDelta(t, float64(want.Air.Pitot), float64(in.Air.Pitot), 1e-6)
}

func engineAt(t *testing.T, tick int64) State {
	e := engine(t, busy())
	e.Advance(tick)
	return e.State()
}

// A step with everything wrong takes no memory.
func TestSpoiltStepTakesNoMemory(t *testing.T) {
	e := spoilt(t, busy(), sensor.Imperfection{
		Pitot:   sensor.Pitot{Leak: 0.1, Surge: sensor.Surge{Amplitude: 0.3, Period: 8}},
		Static:  sensor.Static{PositionError: 0.02, Leak: 0.1, CabinOverQc: -0.1, Settle: 3},
		Compass: sensor.Compass{B: degree}, LineLag: 0.3,
		Thermometer: sensor.Thermometer{Error: 2, Recovery: 0.8},
		Gyro:        sensor.Gyro{Slaving: 0.0006, DeadBand: 0.01, EarthRate: true, Transport: true, Drag: 0.001},
	}, heading.Imperfection{Step: 0.01, Lag: 0.3, Lost: 0.1})
	s := e.State()
	e.course.boundary(&s, nil)
	assert.Zero(t, testing.AllocsPerRun(200, func() { e.course.fly(&s) }))
}

// A frozen dial is chased in vain, to the ends of what the aircraft can do.
func TestFrozenDialsAreChasedToTheEnd(t *testing.T) {
	for order, ends := range map[float64][2]float64{160: {450, 40000}, 140: {40, -1000}} {
		p := plan(0, 0, 90, 150, 2*time.Hour)
		p.Pilot = ByInstruments
		p.Aircraft.Speed.Kind, p.Aircraft.PressureAltitude = HoldCAS, 5000*units.Foot
		height := 5000*units.Foot + units.Length(order-150)*100*units.Foot
		p.Legs[0].Speed, p.Legs[0].Altitude, p.Legs[0].Climb = &SpeedOrder{HoldCAS, units.Speed(order) * units.Knot}, &height, 15
		e := spoilt(t, p, sensor.Imperfection{Pitot: sensor.Pitot{Trapped: true}, Static: sensor.Static{Trapped: true}}, heading.Imperfection{})
		e.Advance(untilTheEnd)
		s := e.Snapshot()
		assert.InDelta(t, 150, e.View().IAS.Knots(), 1e-6, "frozen")
		assert.InDelta(t, 5000, e.View().PressureAltitude.Feet(), 1e-6)
		assert.InDelta(t, ends[1], s.Truth.Height.Feet(), 1e-6)
		assert.InDelta(t, ends[0], isa.CASFromTAS(s.Truth.TAS, s.Truth.Height, isa.Temperature(s.Truth.Height)).Knots(), 1e-6)
	}
}
