package sim

import (
	"sort"
	"time"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/isa"
	"stillair/integrator/units"
)

// View is what the crew can see now.
func (e *Engine) View() aboard.View {
	s, m, cfg := &e.state, &e.state.Mechanism, &e.course.plan.Mechanism
	in := s.Sensed.Air
	air, ground := m.AirPosition(), m.GroundPosition(cfg)
	north, east := m.Shafts()
	t := TimeOf(s.Tick)
	return aboard.View{
		Tick: s.Tick, Elapsed: t, Clock: e.clock(s.Tick).Add(time.Duration(s.ClockGain * float64(time.Second))),
		IAS: isa.CAS(in.Pitot - in.Static), TAS: m.TAS(),
		PressureAltitude: isa.PressureAltitude(in.Static), VerticalSpeed: s.Senses.Dial.Reads,
		AirTemperature: in.Temperature, Heading: m.Repeater, Compass: s.Senses.Compass,
		VariationSet: m.Setter(), FollowsField: s.Follow && !s.Faults.Habit.SetterLeft, WindSet: m.Ground.Setting(),
		Air: air, Ground: ground, Marker: m.Marker(cfg),
		AirCounters:    counters(m, cfg, units.Position(air)),
		GroundCounters: counters(m, cfg, units.Position(ground)),
		LeverEast:      m.LeverEast,
		AirLog:         m.AirMiles(),
		AirLogCounter:  counter.Miles(m.AirMiles().NM()),
		Northing:       north,
		Easting:        east,
		Marks:          e.marks(), Log: e.recorder.logTo(t),
	}
}

func counters(m *integrator.State, cfg *integrator.Config, p units.Position) aboard.Counters {
	return aboard.Counters{
		Latitude:  counter.Latitude(p.Lat.Minutes()),
		Longitude: m.LongitudeCounter(cfg, p.Lon.Minutes()),
	}
}

// marks are those up to now.
func (e *Engine) marks() []aboard.Mark {
	n := e.markCount()
	return e.recorder.marks[:n:n]
}

func (e *Engine) markCount() int {
	t := TimeOf(e.state.Tick)
	all := e.recorder.marks
	return sort.Search(len(all), func(i int) bool { return all[i].Elapsed > t })
}

// TrueTrack is the true track up to now, for those who may see it.
func (e *Engine) TrueTrack() []TruePoint {
	n := e.markCount()
	return e.recorder.truth[:n:n]
}
