package scenarios

import (
	"fmt"
	"io"
	"sort"
	"time"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
	"stillair/sim/spread"
)

// Limits of a file and of a flight.
const (
	maxFile    = 4 << 20 // bytes
	maxEntries = 2000    // legs; and no more of any other [[...]]
	maxFlight  = 48 * time.Hour
	maxNesting = 16
	maxLine    = 200 // characters of a title or summary
)

// schema is the version of the flight schema that this program reads.
const schema = 1

// Ranges. Those of the design's flight schema are quoted there; climb rate,
// turn rate and QNH are chosen here: a slow glide to a hard climb of a
// propeller aircraft, half the rate of a brisk fighter turn and more, and a
// little beyond the lowest and highest sea level pressures on record (about
// 870 and 1084 hPa, from memory).
const (
	minSpeedKt, maxSpeedKt   = 40, 450
	minHeightFt, maxHeightFt = -1000, 40000
	minClimb, maxClimb       = 50, 6000
	maxTurnRate              = 30
	minQNH, maxQNH           = 850, 1085
	maxWindKt                = 250
	maxISADeviation          = 60
	defaultClimb             = 500
	defaultTurnRate          = 3
	standardQNH              = 1013.25
)

// Source is the text a plan was compiled from, for records and papers.
type Source struct {
	Name    string
	Text    []byte
	Summary string // what the flight shows, in a sentence; "" if the file has none
	// Spread is how widely errors are drawn if it is flown many times; nil if the
	// file does not say.
	Spread *spread.Law
}

// Load reads a flight. The name stands in errors. The error, if the text was
// read, is an *Errors: everything that is wrong with it.
func Load(name string, r io.Reader) (*sim.Plan, *Source, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	ps := &problems{file: name}
	if len(data) > maxFile {
		ps.add(1, "", "", "larger than 4 MB: no flight needs that")
		return nil, nil, ps.err()
	}
	tree := readTree(ps, data)
	l := &loader{problems: ps, broken: tree.broken, plan: &sim.Plan{}}
	l.flight(tree.root)
	if err := ps.err(); err != nil {
		return nil, nil, err
	}
	return l.plan, &Source{name, data, l.summary, l.law}, nil
}

// loader compiles a tree into a plan.
type loader struct {
	*problems
	broken  bool // by a syntax error: what is missing may be there
	plan    *sim.Plan
	summary string
	law     *spread.Law
	waters  *WatersData
	legs    []legLines
}

// legLines are the tables that the legs came from, for the checks that need
// all of them; lost is a leg whose end could not be read.
type legLines struct {
	*table
	lost bool
}

// flight compiles the whole file, the parts in the order they depend on.
func (l *loader) flight(root *node) {
	if !l.schema(&table{l, root, ""}) {
		return
	}
	t := l.newTable(root, "", "schema", "title", "summary", "start", "seed", "waters", "pilot", "aircraft",
		"leg", "field", "air", "mechanism", "setting", "crew", "fault", "lesson", "moment", "spread", "aids", "exercise")
	l.head(t)
	var start *table
	if t.require("aircraft", "[aircraft] gives the state at the start") {
		if start = t.table("aircraft", aircraftKeys...); start != nil {
			l.aircraft(start)
		}
	}
	l.allLegs(t)
	l.field(t)
	l.air(t)
	l.mechanism(t)
	l.setting(t)
	l.aids(t)
	l.crew(t)
	l.faults(t)
	l.lessons(t)
	l.moments(t)
	l.spread(t)
	l.checkSpeeds(start)
	l.checkLength()
	l.exercise(t)
}

// schema checks the version; a file of another one is not looked at further.
func (l *loader) schema(t *table) bool {
	if !t.require("schema", fmt.Sprintf("schema = %d", schema)) {
		return true
	}
	v, ok := t.get("schema", "a whole number", wholeKind)
	if ok && v.whole != schema {
		t.bad("schema", "this file wants schema %d, this program reads %d", v.whole, schema)
		return false
	}
	return true
}

// head reads the keys before the first table.
func (l *loader) head(t *table) {
	p := l.plan
	t.require("title", "a line that names the flight")
	p.Title, _ = t.oneLine("title")
	l.summary, _ = t.oneLine("summary")
	t.require("start", "the time of the start, UTC, such as 1957-08-14T09:30:00Z")
	l.start(t)
	t.require("seed", "a whole number, 0 or above, for what is drawn by chance")
	if v, ok := t.get("seed", "a whole number, 0 or above", wholeKind); ok {
		if v.whole < 0 {
			t.bad("seed", "must be 0 or above")
		}
		p.Seed = uint64(v.whole)
	}
	if name, ok := t.text("waters"); ok {
		p.Waters = name
		var err error
		if l.waters, err = Waters(name); err != nil {
			t.bad("waters", "no such waters%s", t.meant(name, watersNames(), "known"))
		}
		p.Stations = stationsOf(l.waters)
	}
	if i := t.word("pilot", "steady", "by-instruments", "as-planned"); i >= 0 {
		p.Pilot = sim.Pilot(i)
	}
}

// First and last start: the span of the field model.
var (
	firstStart = time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)
	lastStart  = time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC)
)

func (l *loader) start(t *table) {
	if v := t.node.values["start"]; v != nil && v.kind == localTimeKind {
		t.bad("start", "must say its offset from UTC, such as 1957-08-14T09:30:00Z: without it the sky and the log would be guesswork")
		return
	}
	v, ok := t.get("start", "a time, such as 1957-08-14T09:30:00Z (no quotes)", timeKind)
	if !ok {
		return
	}
	l.plan.Start = v.time.UTC()
	if l.plan.Start.Before(firstStart) || l.plan.Start.After(lastStart) {
		t.bad("start", "must be 1900-01-01T00:00:00Z to 2030-01-01T00:00:00Z")
	}
}

var aircraftKeys = []string{"position", "heading_true_deg", "pressure_altitude_ft", "cas_kt", "tas_kt"}

func (l *loader) aircraft(t *table) {
	a := &l.plan.Aircraft
	t.require("position", `where the flight starts, such as "47 10.0 S 178 30.0 E"`)
	a.Position, _ = t.position("position")
	t.require("heading_true_deg", "0 to 360")
	h, _ := t.direction("heading_true_deg")
	a.Heading = units.TrueHeading(h)
	t.require("pressure_altitude_ft", span(minHeightFt, maxHeightFt, "ft"))
	ft, _ := t.number("pressure_altitude_ft", minHeightFt, maxHeightFt, "ft")
	a.PressureAltitude = units.Length(ft) * units.Foot
	if s := t.speed(); s != nil {
		a.Speed = *s
	} else if !t.has("cas_kt") && !t.has("tas_kt") {
		t.onlyOne(", "+span(minSpeedKt, maxSpeedKt, "kt"), "cas_kt", "tas_kt")
	}
}

// speed reads cas_kt or tas_kt; nil if neither is there or it is bad.
func (t *table) speed() *sim.SpeedOrder {
	if t.has("cas_kt") && t.has("tas_kt") {
		t.bad("tas_kt", "only one of cas_kt or tas_kt, and cas_kt is given in line %d", t.line("cas_kt"))
	}
	if kt, ok := t.number("cas_kt", minSpeedKt, maxSpeedKt, "kt"); ok {
		return &sim.SpeedOrder{Kind: sim.HoldCAS, Speed: units.Speed(kt) * units.Knot}
	}
	if kt, ok := t.number("tas_kt", minSpeedKt, maxSpeedKt, "kt"); ok {
		return &sim.SpeedOrder{Kind: sim.HoldTAS, Speed: units.Speed(kt) * units.Knot}
	}
	return nil
}

func (l *loader) field(t *table) {
	f := t.table("field", "variation_deg")
	if f == nil || !f.require("variation_deg", "one uniform variation, -180 to 180; without [field] the flight has the earth's own") {
		return
	}
	if v, ok := f.angle("variation_deg", -180, 180); ok {
		u := units.Variation(v)
		l.plan.Field = &u
	}
}

// mechanism reads how the instrument was built; its single values are those
// of the service table.
func (l *loader) mechanism(t *table) {
	known := []string{"class", "ground", "counters"}
	for _, s := range fault.Service() {
		known = append(known, s.Name)
	}
	m := t.table("mechanism", known...)
	if m == nil {
		return
	}
	c := &l.plan.Mechanism
	c.Class = []integrator.Class{integrator.Ideal, integrator.Ideal, integrator.Service}[1+m.word("class", "ideal", "service")]
	c.Ground = []ground.Design{ground.Running, ground.Running, ground.Plotted}[1+m.word("ground", "running", "plotted")]
	if i := m.word("counters", "auto", "east360", "lever"); i >= 0 {
		c.Longitude = []integrator.LongitudeDesign{
			integrator.HemisphereAuto, integrator.East360, integrator.HemisphereLever}[i]
	}
	for _, s := range fault.Service() {
		m.serviceValue(c, s)
	}
}

func (t *table) serviceValue(c *integrator.Config, s fault.ServiceValue) {
	if len(s.Choices) > 0 {
		if i := t.word(s.Name, s.Choices...); i >= 0 {
			c.TemperatureSource = s.Choices[i]
		}
		return
	}
	x, ok := t.number(s.Name, s.Min, s.Max, s.Unit)
	if !ok {
		return
	}
	if c.Values == nil {
		c.Values = map[string]float64{}
	}
	c.Values[s.Name] = x
}

// setting reads what the crew has set at the start.
func (l *loader) setting(t *table) {
	s := t.table("setting", "variation_deg", "wind_from_deg_true", "wind_kt", "counters")
	if s == nil {
		return
	}
	if v, ok := s.variation("variation_deg"); ok {
		l.plan.Setting.Variation = v
	}
	if s.has("wind_from_deg_true") != s.has("wind_kt") {
		have, lacks := "wind_from_deg_true", "wind_kt"
		if s.has(lacks) {
			have, lacks = lacks, have
		}
		s.bad(have, "is only half a wind: %s is missing", lacks)
	}
	from, _ := s.direction("wind_from_deg_true")
	kt, _ := s.number("wind_kt", 0, maxWindKt, "kt")
	l.plan.Setting.Wind = units.Wind{From: from, Speed: units.Speed(kt) * units.Knot}
	if v := s.node.values["counters"]; v != nil && v.text != "as-start" {
		if p, ok := s.position("counters"); ok {
			l.plan.Setting.Counters = &p
		}
	}
}

// variation reads a figure, or "true-to-field" (nil).
func (t *table) variation(key string) (*units.Variation, bool) {
	if v := t.node.values[key]; v != nil && v.kind == stringKind {
		if v.text != "true-to-field" {
			t.bad(key, `must be -180 to 180 or "true-to-field"`)
		}
		return nil, v.text == "true-to-field"
	}
	v, ok := t.angle(key, -180, 180)
	u := units.Variation(v)
	return &u, ok
}

func (l *loader) crew(t *table) {
	for i, n := range t.entries("crew") {
		c := l.newTable(n, entry("crew", i+1), append([]string{"at", "error", "timed", "timing_error_s"}, actionKeys...)...)
		c.require("at", `flight time of the action, such as "40m"`)
		at, _ := c.duration("at", true)
		for _, key := range []string{"error", "timed", "timing_error_s"} {
			if c.has(key) && !c.has("take") {
				c.bad(key, "belongs to take")
			}
		}
		l.plan.Crew = append(l.plan.Crew, sim.Command{Tick: at, Action: c.action()})
	}
	sort.SliceStable(l.plan.Crew, func(i, j int) bool { return l.plan.Crew[i].Tick < l.plan.Crew[j].Tick })
}

var actionKeys = []string{"set_variation_deg", "set_wind", "set_counters", "alternate_static", "resynchronise", "throw_lever", "take"}

// action reads the one action of a [[crew]] entry; were there several, all are
// checked.
func (c *table) action() (a aboard.Action) {
	c.onlyOne(" (one action for each [[crew]])", actionKeys...)
	for _, key := range actionKeys {
		if c.has(key) {
			a = c.actionOf(key)
		}
	}
	return a
}

func (c *table) actionOf(key string) (a aboard.Action) {
	switch key {
	case "set_variation_deg":
		a.Kind = aboard.FollowField
		if v, _ := c.variation(key); v != nil {
			a.Kind, a.Variation = aboard.SetVariation, *v
		}
	case "set_wind":
		a.Kind = aboard.SetWind
		if w := c.table(key, "from_deg_true", "speed_kt"); w != nil {
			a.Wind = w.wind()
		}
	case "set_counters":
		a.Kind = aboard.SetCounters
		a.Position, _ = c.position(key)
	case "alternate_static":
		a.Kind = aboard.AlternateStatic
		a.On, _ = c.truth(key)
	case "resynchronise":
		a.Kind = aboard.Resynchronise
		if does, ok := c.truth(key); ok && !does {
			c.bad(key, "must be true: the crew does it or there is no such entry")
		}
	case "throw_lever":
		a.Kind = aboard.SetLongitudeLever
		a.East = c.word(key, "E", "W") == 0
		if c.plan.Mechanism.Longitude != integrator.HemisphereLever {
			c.bad(key, `there is no lever: only mechanism.counters = "lever" has one`)
		}
	case "take":
		a.Kind = aboard.TakeAid
		a.Reading = c.reading(key)
	}
	return a
}

// wind reads a wind that has to be whole.
func (t *table) wind() units.Wind {
	t.require("from_deg_true", "where the wind comes from, 0 to 360")
	t.require("speed_kt", span(0, maxWindKt, "kt"))
	from, _ := t.direction("from_deg_true")
	kt, _ := t.number("speed_kt", 0, maxWindKt, "kt")
	return units.Wind{From: from, Speed: units.Speed(kt) * units.Knot}
}
