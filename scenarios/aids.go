package scenarios

import (
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// stationKinds are the kinds of place that send.
var stationKinds = map[PlaceKind]sim.StationKind{Beacon: sim.BeaconStation, Chain: sim.ChainStation}

// inSight are the kinds of place that can be told from the air.
var inSight = map[PlaceKind]bool{Cape: true, Rock: true, Island: true, Light: true, Beacon: true, Chain: true, Port: true, Airfield: true}

// stationsOf are the places of waters that an aid can be pointed at.
func stationsOf(w *WatersData) (all []sim.Station) {
	if w == nil {
		return nil
	}
	for _, p := range w.Places {
		if inSight[p.Kind] {
			all = append(all, sim.Station{Name: p.Name, Kind: stationKinds[p.Kind], At: p.At})
		}
	}
	return all
}

// readingErrors are the greatest errors that may be stated for each aid, with their
// units.
var readingErrors = map[aboard.Aid]struct {
	most float64
	unit string
}{
	aboard.DriftSight: {30, "degrees"}, aboard.Loop: {30, "degrees"}, aboard.HeadingCheck: {30, "degrees"},
	aboard.Sextant: {120, "minutes of arc"}, aboard.PulseReceiver: {100, "microseconds"}, aboard.Pinpoint: {20, "NM"},
}

// reading is what the crew take by the clock: truly, but for the error that is stated.
func (c *table) reading(key string) (r aboard.Reading) {
	text, ok := c.oneLine(key)
	if !ok {
		return r
	}
	r.ByCrew = true
	r.Aim, ok = aboard.ParseAim(text)
	if !ok {
		c.bad(key, `must be an aid and what it is pointed at, such as "loop Cape Linnet" or "sextant Sun"; the aids are %s`, orList(aboard.AidNames()))
		return r
	}
	c.source(key, &r.Aim)
	if e := readingErrors[r.Aid]; c.has("error") {
		r.Error, _ = c.number("error", -e.most, e.most, e.unit)
	}
	c.timing(&r)
	return r
}

// mostTimingError is the greatest error of a time that may be stated, s.
const mostTimingError = 60

// timing is what belongs to a drift alone: whether something on the sea is timed, too.
func (c *table) timing(r *aboard.Reading) {
	for _, key := range []string{"timed", "timing_error_s"} {
		if c.has(key) && r.Aid != aboard.DriftSight {
			c.bad(key, "belongs to take = \"drift\"")
			return
		}
	}
	if c.has("timed") {
		r.Timing.On, _ = c.truth("timed")
	}
	if !c.has("timing_error_s") {
		return
	}
	if !r.Timing.On {
		c.bad("timing_error_s", "belongs to timed = true")
	}
	r.Timing.Error, _ = c.number("timing_error_s", -mostTimingError, mostTimingError, "seconds")
}

// source looks up what an aid is pointed at and writes its name as it is known.
func (c *table) source(key string, a *aboard.Aim) {
	switch a.Aid {
	case aboard.DriftSight:
		if a.Source != "" {
			c.bad(key, "the drift sight is pointed at nothing: write drift")
		}
	case aboard.Sextant, aboard.HeadingCheck:
		b, err := sky.Lookup(a.Source)
		if err != nil {
			c.bad(key, "no such body: the Sun, the Moon, Polaris and the 57 stars of navigation are known")
			return
		}
		a.Source = b.String()
	default:
		c.station(key, a)
	}
}

func (c *table) station(key string, a *aboard.Aim) {
	kind, what := sim.Landmark, "place"
	switch a.Aid {
	case aboard.Loop:
		kind, what = sim.BeaconStation, "beacon"
	case aboard.PulseReceiver:
		kind, what = sim.ChainStation, "chain station"
	}
	var names []string
	first := true
	for _, s := range stationsOf(c.waters) {
		if kind != sim.Landmark && s.Kind != kind {
			continue
		}
		if kind == sim.ChainStation && first { // the master has no delay of its own
			first = false
			continue
		}
		if s.Name == a.Source {
			return
		}
		names = append(names, s.Name)
	}
	c.bad(key, "no such %s in these waters%s", what, c.meant(a.Source, names, "there"))
}

// The greatest errors that an aid may have itself.
const (
	mostAidDegrees = 30
	mostAidMinutes = 120
	mostAidPulse   = 100 // us
	mostAidPercent = 30
)

// aids reads what is wrong with the aids.
func (l *loader) aids(t *table) {
	a := t.table("aids", "out_of_order", "drift_error_deg", "sextant_error_min", "loop_error_deg", "heading_error_deg", "pulse_error_us", "timing_error_percent")
	if a == nil {
		return
	}
	p := &l.plan.Aids
	p.OutOfOrder = a.failed("out_of_order")
	degrees := func(key string) units.Angle {
		x, _ := a.number(key, -mostAidDegrees, mostAidDegrees, "degrees")
		return units.Angle(x) * units.Degree
	}
	p.Drift, p.Loop, p.Heading = degrees("drift_error_deg"), degrees("loop_error_deg"), degrees("heading_error_deg")
	minutes, _ := a.number("sextant_error_min", -mostAidMinutes, mostAidMinutes, "minutes of arc")
	p.Sextant = units.Angle(minutes) * units.ArcMinute
	percent, _ := a.number("timing_error_percent", -mostAidPercent, mostAidPercent, "percent")
	p.Timing = percent / 100
	p.Pulse, _ = a.number("pulse_error_us", -mostAidPulse, mostAidPulse, "microseconds")
}

// failed are the aids that are out of order.
func (t *table) failed(key string) (all []aboard.Aid) {
	n, ok := t.get(key, "a list of aids", arrayKind)
	if !ok {
		return nil
	}
	for _, item := range n.items {
		aim, known := aboard.ParseAim(item.text)
		if item.kind != stringKind || !known || aim.Source != "" {
			t.bad(key, "must be a list of aids: %s", orList(aboard.AidNames()))
			return nil
		}
		all = append(all, aim.Aid)
	}
	return all
}
