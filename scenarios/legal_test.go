package scenarios

import (
	"math"
	"time"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
	"stillair/sim"
)

// assertLegal checks every field of an accepted plan against the ranges of the
// flight schema, without the loader's help.
func assertLegal(t assert.TestingT, p *sim.Plan) {
	within := func(what string, x, lo, hi float64) {
		const slack = 1e-9 // of going through radians and metres
		if !(x >= lo-slack && x <= hi+slack) {
			assert.Fail(t, "out of range", "%s = %v, legal %v to %v", what, x, lo, hi)
		}
	}
	circle := func(what string, a units.Angle) {
		if !(a >= 0 && a < 2*math.Pi) {
			assert.Fail(t, "not in a circle", "%s = %v", what, a)
		}
	}
	place := func(what string, p units.Position) {
		within(what, p.Lat.Degrees(), -90, 90)
		within(what, p.Lon.Degrees(), -180, 180)
	}
	wind := func(what string, w units.Wind) {
		circle(what, w.From)
		within(what, w.Speed.Knots(), 0, 250)
	}
	const day = 24 * 3600 * sim.TicksPerSecond
	assert.NotEmpty(t, p.Title)
	assert.Equal(t, time.UTC, p.Start.Location())
	within("year", float64(p.Start.Year()), 1900, 2030)
	assert.LessOrEqual(t, p.Seed, uint64(math.MaxInt64))
	assert.LessOrEqual(t, p.Pilot, sim.AsPlanned)
	place("start", p.Aircraft.Position)
	circle("heading", units.Angle(p.Aircraft.Heading))
	within("height", p.Aircraft.PressureAltitude.Feet(), -1000, 40000)
	within("speed", p.Aircraft.Speed.Speed.Knots(), 40, 450)
	assert.True(t, len(p.Legs) >= 1 && len(p.Legs) <= 2000)
	for _, l := range p.Legs {
		circle("direction", l.Direction)
		ends := 0
		for _, e := range []bool{l.Steer == sim.ToPlace, l.Ticks > 0, l.Distance > 0} {
			if e {
				ends++
			}
		}
		assert.Equal(t, 1, ends, "a leg ends in one way")
		within("leg", float64(l.Ticks), 0, 2*day)
		within("climb", l.Climb.MetresPerSecond()/0.3048*60, 50, 6000)
		within("turn", l.TurnRate, 0, 30)
		place("target", l.Target)
		if l.Speed != nil {
			within("leg speed", l.Speed.Speed.Knots(), 40, 450)
		}
		if l.Altitude != nil {
			within("leg height", l.Altitude.Feet(), -1000, 40000)
		}
	}
	within("isa", p.Air.ISADeviation, -60, 60)
	within("qnh", p.Air.QNH.Hectopascals(), 850, 1085)
	for _, w := range p.Air.Winds {
		wind("air", w.Wind)
		assert.True(t, w.From >= 0 && (w.Until == 0 || w.Until > w.From))
	}
	wind("setting", p.Setting.Wind)
	if v := p.Setting.Variation; v != nil {
		within("variation", v.Degrees(), -180, 180)
	}
	last := int64(0)
	for _, c := range p.Crew {
		assert.True(t, c.Tick >= last && c.Tick <= 2*day, "by time")
		assert.NotZero(t, c.Action.Kind)
		wind("crew", c.Action.Wind)
		place("crew", c.Action.Position)
		last = c.Tick
	}
	assert.LessOrEqual(t, len(p.Moments), 9)
	moment := int64(-1)
	for _, m := range p.Moments {
		assert.True(t, m.At > moment && m.At <= 2*day, "by time")
		assert.NotEmpty(t, m.Name)
		assert.LessOrEqual(t, len([]rune(m.Name)), 60)
		moment = m.At
	}
	for _, o := range p.Faults {
		assert.NoError(t, o.Check())
		assert.True(t, o.At >= 0 && o.At <= 2*day && o.For >= 0)
	}
}
