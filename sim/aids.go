package sim

import (
	"math"
	"slices"
	"strings"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/aid"
	"stillair/sim/sky"
)

// Station is a place that an aid can be pointed at.
type Station struct {
	Name string
	Kind StationKind
	At   units.Position
}

// StationKind says what is there.
type StationKind uint8

// The kinds; every one can be seen when it is near.
const (
	Landmark StationKind = iota
	BeaconStation
	ChainStation // the first of a plan is the master
)

// station finds a station of the plan by its name.
func (p *Plan) station(name string, kind StationKind) (Station, bool) {
	for _, s := range p.Stations {
		if strings.EqualFold(s.Name, name) && (kind == Landmark || s.Kind == kind) {
			return s, true
		}
	}
	return Station{}, false
}

// master is the master of the pulse chain; ok is false where there is no chain of two.
func (p *Plan) master() (m Station, ok bool) {
	n := 0
	for _, s := range p.Stations {
		if s.Kind == ChainStation {
			if n == 0 {
				m = s
			}
			n++
		}
	}
	return m, n > 1
}

// outside is what aids see by.
func (e *Engine) outside() aid.World {
	t := e.Snapshot().Truth
	return aid.World{
		Seed: e.course.plan.Seed, Tick: e.state.Tick, At: t.Position, Heading: units.Angle(t.Heading), Track: t.Track,
		Groundspeed: t.Groundspeed, Height: t.Height, TurnRate: e.turning(),
		Pressure: isa.Pressure(t.Height), Temperature: e.course.air.Temperature(t.Height),
	}
}

// turning is the rate at which the aircraft turns, rad/s, right +.
func (e *Engine) turning() float64 {
	a := &e.state.World.Aircraft
	if !a.Turning {
		return 0
	}
	return math.Copysign(a.Orders.TurnRate, float64(units.WrapHalf(a.Orders.Heading-units.Angle(a.Heading))))
}

// now is the true time.
func (e *Engine) now() time.Time { return e.course.plan.Start.Add(TimeOf(e.state.Tick)) }

// Scene is what is to be seen through an aid now. It is for those aboard: whatever of
// the truth is in it, an eye has through the aid.
func (e *Engine) Scene(a aboard.Aim) aboard.Scene {
	w, over := e.outside(), sky.At(e.now())
	return e.scene(a, &w, &over)
}

func (e *Engine) scene(a aboard.Aim, w *aid.World, over *sky.Sky) aboard.Scene {
	s := aboard.Scene{Aim: a, Tick: e.state.Tick, Night: over.Light(w.At) >= sky.NauticalTwilight}
	e.look(w, over, &s)
	wrong := &e.course.plan.Aids
	s.Along += wrong.Drift
	s.Rate *= 1 + wrong.Timing
	s.Altitude += wrong.Sextant
	s.Null = units.Wrap(s.Null + wrong.Loop)
	s.Heading = units.Wrap(s.Heading + wrong.Heading)
	s.Delay += wrong.Pulse
	switch below := a.Aid == aboard.DriftSight || a.Aid == aboard.Pinpoint; {
	case s.Missing == aboard.NotThere:
	case slices.Contains(wrong.OutOfOrder, a.Aid):
		s.Missing = aboard.OutOfOrder
	case below && slices.ContainsFunc(e.course.plan.Undercast, func(c Span) bool { return c.Holds(e.state.Tick) }):
		s.Missing = aboard.OverCloud
	}
	return s
}

// look fills in what an aid that is in order shows.
func (e *Engine) look(w *aid.World, over *sky.Sky, s *aboard.Scene) {
	switch a := s.Aim; a.Aid {
	case aboard.DriftSight:
		aid.Drift(w, s)
	case aboard.Loop:
		if st, ok := e.course.plan.station(a.Source, BeaconStation); ok {
			aid.Loop(w, st.At, s)
			return
		}
		s.Missing = aboard.NotThere
	case aboard.PulseReceiver:
		e.pulse(w, s)
	case aboard.Pinpoint:
		if st, ok := e.course.plan.station(a.Source, Landmark); ok {
			aid.Pinpoint(w, st.At, s)
			return
		}
		s.Missing = aboard.NotThere
	case aboard.Sextant, aboard.HeadingCheck:
		e.bodyScene(w, over, s)
	default:
		s.Missing = aboard.NotThere
	}
}

func (e *Engine) pulse(w *aid.World, s *aboard.Scene) {
	m, ok := e.course.plan.master()
	st, known := e.course.plan.station(s.Source, ChainStation)
	switch {
	case !ok:
		s.Missing = aboard.OnlyOneThere
	case !known || st == m:
		s.Missing = aboard.NotThere
	default:
		aid.Pulse(w, m.At, st.At, s)
	}
}

func (e *Engine) bodyScene(w *aid.World, over *sky.Sky, s *aboard.Scene) {
	b, err := sky.Lookup(s.Source)
	if err != nil {
		s.Missing = aboard.NotThere
		return
	}
	shown := units.Position(e.View().Ground)
	_, s.Azimuth = over.Horizontal(b, shown)
	if s.Aid == aboard.Sextant {
		aid.Sextant(w, over, b, s)
	} else {
		aid.HeadingCheck(w, over, b, s)
	}
}

// Offers are the aims that there are in this flight now, those that can be had and,
// of the stations, those that cannot with the reason.
func (e *Engine) Offers() []aboard.Offer {
	w, over := e.outside(), sky.At(e.now())
	shown := units.Position(e.View().Ground)
	var all []aboard.Offer
	add := func(o aboard.Offer) {
		o.Missing = e.scene(o.Aim, &w, &over).Missing
		all = append(all, o)
	}
	add(aboard.Offer{Aim: aboard.Aim{Aid: aboard.DriftSight}})
	bodies := over.ForSights(nil, shown)
	for _, kind := range []aboard.Aid{aboard.Sextant, aboard.HeadingCheck} {
		for _, b := range bodies {
			add(aboard.Offer{Aim: aboard.Aim{Aid: kind, Source: b.Body.String()}, Altitude: b.Altitude, Azimuth: b.Azimuth})
		}
	}
	master, chain := e.course.plan.master()
	for _, s := range e.course.plan.Stations {
		azimuth, _, far := geodesy.GeodesicInverse(shown, s.At)
		place := func(kind aboard.Aid) aboard.Offer {
			return aboard.Offer{Aim: aboard.Aim{Aid: kind, Source: s.Name}, Azimuth: azimuth, Distance: far}
		}
		switch {
		case s.Kind == BeaconStation:
			add(place(aboard.Loop))
		case s.Kind == ChainStation && chain && s != master:
			add(place(aboard.PulseReceiver))
		}
		if aid.InSight(&w, s.At) {
			add(place(aboard.Pinpoint))
		}
	}
	return all
}

// entered is a reading as it stands in the log: what it is of, and what the crew take
// off an altitude by what they know of their own flight.
func (e *Engine) entered(r aboard.Reading) aboard.Reading {
	s := e.Scene(r.Aim)
	r.Missing = s.Missing
	if r.ByCrew {
		readTruly(&r, &s)
	}
	p := e.course.plan
	switch r.Aid {
	case aboard.Loop, aboard.Pinpoint:
		st, _ := p.station(r.Source, Landmark)
		r.At = st.At
		if r.Aid == aboard.Pinpoint {
			r.At = judged(st.At, e.Snapshot().Truth.Position)
		}
		if r.Aid == aboard.Pinpoint && r.ByCrew {
			r.At.Lat += units.Angle(r.Error) * units.ArcMinute
		}
	case aboard.PulseReceiver:
		st, _ := p.station(r.Source, ChainStation)
		m, _ := p.master()
		r.At, r.Master = st.At, m.At
	case aboard.Sextant, aboard.HeadingCheck:
		e.reduce(&r)
	case aboard.DriftSight:
		e.timed(&r)
	}
	return r
}

// judged is where the aircraft is from a place, by eye: to half a mile and ten degrees
// (common practice, no source).
func judged(place, truth units.Position) units.Position {
	azimuth, _, d := geodesy.GeodesicInverse(place, truth)
	tens := units.Angle(math.Round(azimuth.Degrees()/10)*10) * units.Degree
	halves := units.Length(math.Round(2*d.NM())/2) * units.NM
	p, _ := geodesy.GeodesicDirect(place, tens, halves)
	return p
}

// readTruly has the crew read what there is, but for the error that is stated.
func readTruly(r *aboard.Reading, s *aboard.Scene) {
	degrees := units.Angle(r.Error) * units.Degree
	switch r.Aid {
	case aboard.DriftSight:
		r.Angle = s.Along + degrees
		readTiming(&r.Timing, s)
	case aboard.Sextant:
		r.Angle = s.Altitude + units.Angle(r.Error)*units.ArcMinute
	case aboard.Loop:
		r.Angle = units.Wrap(s.Null + degrees)
	case aboard.PulseReceiver:
		r.Delay = s.Delay + r.Error
	case aboard.HeadingCheck:
		r.Angle = units.Wrap(s.Heading + degrees)
	}
}

// longestTiming is what a crew waits for at most, from wire to wire.
const longestTiming = 10 * time.Minute

// readTiming has the crew time something on the sea truly, but for the error that is
// stated, in whole ticks; what takes too long is not timed.
func readTiming(t *aboard.Timing, s *aboard.Scene) {
	if !t.On {
		return
	}
	took := aboard.TimingSpan/s.Rate + t.Error
	if t.On = took > 0 && took < longestTiming.Seconds(); t.On {
		t.Took = TimeOf(max(1, int64(math.Round(took*TicksPerSecond))))
	}
}

// timed works the groundspeed of a timing with the height that the altimeter shows.
func (e *Engine) timed(r *aboard.Reading) {
	t := &r.Timing
	if !t.On || r.Missing != aboard.Had {
		return
	}
	t.Height = e.View().PressureAltitude
	t.Groundspeed, _ = airplot.GroundspeedByTiming(t.Height, aboard.TimingWire, -aboard.TimingWire, t.Took)
}

// reduce works a sight with what the crew know.
func (e *Engine) reduce(r *aboard.Reading) {
	b, err := sky.Lookup(r.Source)
	if err != nil {
		return
	}
	v := e.View()
	over := sky.At(v.Clock.Add(-r.Before))
	gha, dec := over.Place(b)
	shown := units.Position(v.Ground)
	r.At = units.Position{Lat: dec, Lon: units.WrapHalf(-gha)}
	h, az := over.Horizontal(b, shown)
	r.Azimuth = az
	if r.Aid != aboard.Sextant {
		return
	}
	track, speed := shownTrack(&v)
	thin := sight.ThinAir(isa.Pressure(v.PressureAltitude), v.AirTemperature)
	r.Observed = r.Angle - units.Angle(thin)*sight.Refraction(r.Angle) + sight.ParallaxInAltitude(over.Parallax(b), h) +
		sight.BubbleShift(speed, shown.Lat, track, 0).AltitudeCorrection(az, track)
}

// shownTrack is track and groundspeed as the crew know them: heading, airspeed and the
// wind set.
func shownTrack(v *aboard.View) (units.Angle, units.Speed) {
	sin, cos := math.Sincos(float64(v.Heading))
	n, x := v.WindSet.Velocity()
	north, east := float64(v.TAS)*cos+float64(n), float64(v.TAS)*sin+float64(x)
	return units.Wrap(units.Angle(math.Atan2(east, north))), units.Speed(math.Hypot(north, east))
}
