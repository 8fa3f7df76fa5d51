package spread

import (
	"fmt"
	"time"
)

// Term is one kind of error that is drawn.
type Term int

// The terms, in the order of the chain, the wind first.
const (
	Wind   Term = iota // wind met from the wind expected, the same all the way
	Wander             // and another part, which changes on the way
	Compass
	Variation
	Repeater
	Resolver
	Static
	Thermometer
	AirLog
	Drive
	Start
	terms
)

// Link is a group of terms, as they are told together.
type Link int

// The links, in the order in which they are always told.
const (
	WindLink Link = iota
	HeadingLink
	AirLogLink
	DriveLink
	StartLink
	Links
)

// String is its word in files.
func (l Link) String() string { return [...]string{"wind", "heading", "air-log", "drive", "start"}[l] }

// Fact is what there is to know about a term.
type Fact struct {
	ID   string // in files
	Key  string // in [spread] of a flight: the unit ends it
	Unit string // of its sigma
	Max  float64
	Link Link
	Says string
}

// facts: the greatest sigmas are choices of this project, wide enough for what
// nobody would fly with.
var facts = [terms]Fact{
	Wind:        {"wind", "wind_kt", "kt", 60, WindLink, "wind met from the wind of the flight, each component, the same all the way"},
	Wander:      {"wander", "wander_kt", "kt", 60, WindLink, "the same, each component, changing on the way"},
	Compass:     {"compass", "compass_deg", "deg", 10, HeadingLink, "deviation not known, the same on all headings"},
	Variation:   {"variation", "variation_deg", "deg", 10, HeadingLink, "variation set against the field"},
	Repeater:    {"repeater", "repeater_deg", "deg", 10, HeadingLink, "heading transmission"},
	Resolver:    {"resolver", "resolver_deg", "deg", 10, HeadingLink, "crank of the resolver"},
	Static:      {"static", "position_error", "", 0.1, AirLogLink, "static vents, part of the impact pressure"},
	Thermometer: {"thermometer", "thermometer_c", "C", 30, AirLogLink, "air temperature"},
	AirLog:      {"air-log", "air_log_scale", "", 0.1, AirLogLink, "scale of the air log, part of the speed"},
	Drive:       {"drive", "drive_ratio", "", 0.1, DriveLink, "ratio of the drive, part of the miles"},
	Start:       {"start", "start_nm", "NM", 60, StartLink, "position set at the start, each component"},
}

// Fact gives what there is to know about a term.
func (t Term) Fact() Fact { return facts[t] }

// String is its id.
func (t Term) String() string { return facts[t].ID }

// Terms gives all of them in order.
func Terms() []Term {
	all := make([]Term, terms)
	for i := range all {
		all[i] = Term(i)
	}
	return all
}

// TermOf finds a term by its key.
func TermOf(key string) (Term, bool) {
	for t := range terms {
		if facts[t].Key == key {
			return t, true
		}
	}
	return 0, false
}

// Shortest and longest time of the wander.
const (
	MinWanderTime = time.Minute
	MaxWanderTime = 48 * time.Hour
)

// Law is the standard deviation of every term, in the unit of its Fact. The zero
// value draws nothing.
type Law struct {
	Name       string // of the preset, or "flight" for one of its own
	Sigma      [terms]float64
	WanderTime time.Duration // after which the wander keeps 1/e of what it was
}

// presets are invented: nobody measured them. The order of size of a compass
// swung and a wind found in flight is common practice, no source.
var presets = []Law{
	{"well-kept", [terms]float64{2, 3, 0.5, 0.25, 0.25, 0.15, 0.005, 1, 0.005, 0.002, 0.5}, 2 * time.Hour},
	{"ordinary", [terms]float64{3, 4, 1, 0.5, 0.5, 0.3, 0.01, 2, 0.01, 0.004, 1}, 2 * time.Hour},
	{"neglected", [terms]float64{6, 8, 2.5, 1, 1, 0.75, 0.03, 5, 0.03, 0.01, 3}, 2 * time.Hour},
}

// Default is the preset where nothing is said.
const Default = "ordinary"

// Presets are their names, the best kept first.
func Presets() []string {
	var names []string
	for _, p := range presets {
		names = append(names, p.Name)
	}
	return names
}

// Preset finds one by its name.
func Preset(name string) (Law, bool) {
	for _, p := range presets {
		if p.Name == name {
			return p, true
		}
	}
	return Law{}, false
}

// Check gives an error for a law that may not be. NaN fails.
func (l *Law) Check() error {
	for t, s := range l.Sigma {
		if f := facts[t]; !(s >= 0 && s <= f.Max) {
			return fmt.Errorf("%s = %v: must be 0 to %v %s", f.Key, s, f.Max, f.Unit)
		}
	}
	if l.Sigma[Wander] > 0 && !(l.WanderTime >= MinWanderTime && l.WanderTime <= MaxWanderTime) {
		return fmt.Errorf("wander_time = %v: must be %v to %v", l.WanderTime, MinWanderTime, MaxWanderTime)
	}
	return nil
}
