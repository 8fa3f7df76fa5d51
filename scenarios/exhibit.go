package scenarios

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// Bounds of an exhibit file.
const (
	maxExhibitFaults   = 6
	maxExhibitLanguage = 6
	minIdle, maxIdle   = 20 * time.Second, 30 * time.Minute
	minLand, maxLand   = 30 * time.Second, 5 * time.Minute
	minExhibitKt       = 90 // below it the wind is stronger than the aircraft
	maxExhibitKt       = 300
	maxExhibitWindKt   = 80
	minKeeper          = 3 // keys of the keeper's sequence
	maxKeeper          = 8
)

// Exhibit is how a machine stands among visitors.
type Exhibit struct {
	File  string
	Title string

	Languages []string // codes; the first is the one it wakes up in
	Texts     string   // folder of further language files, as written; "" for none

	Idle          time.Duration // without a touch, until the attract loop comes back
	Low           bool          // all that is touched lies in the lowest two fifths of the screen
	Captions      bool          // the attract loop has words too
	ReducedMotion bool
	Larger        bool   // text, at the start of a visit
	Cursor        bool   // the pointer shows
	Night         bool   // the lighter light else
	Keeper        string // keys: the first is held, the others are pressed meanwhile
	Shift         int    // pixels by which the picture wanders
	ShiftEvery    time.Duration
	Rate          float64 // seconds of flight in a second

	Flight  ExhibitFlight
	Faults  []fault.Order
	Landing *Landing // nil: there is none
	Hours   *Hours   // nil: always open
}

// ExhibitFlight is how a visitor's flight begins.
type ExhibitFlight struct {
	Waters  string
	Place   string
	From    units.Position
	Start   time.Time
	Heading units.TrueHeading
	TAS     units.Speed
	Wind    units.Wind
	Height  units.Length
}

// Landing is the flight in cloud to a place.
type Landing struct {
	Place string
	At    units.Position
	Time  time.Duration // until the cloud parts
}

// Hours are the opening hours of a week, by time.Weekday, in minutes from midnight.
type Hours [7]Opening

// Opening is from when to when; both 0: closed all day.
type Opening struct{ From, Until int }

// OpenAt says whether a time of the wall clock lies within the hours.
func (h *Hours) OpenAt(t time.Time) bool {
	if h == nil {
		return true
	}
	minute := t.Hour()*60 + t.Minute()
	o := h[t.Weekday()]
	return minute >= o.From && minute < o.Until
}

// ExhibitRules are what an exhibit file is read against.
type ExhibitRules struct {
	// Languages gives the codes of the languages that there are with a folder of
	// further ones, and what is wrong with the files in it.
	Languages func(folder string) (codes []string, wrong error)
	// Told are the ids of the faults that all of some languages have a sentence for.
	Told func(folder string, codes []string) []string
}

// LoadExhibit reads an exhibit file. The error, if the text was read, is an *Errors.
func LoadExhibit(name string, r io.Reader, rules ExhibitRules) (*Exhibit, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	ps := &problems{file: name}
	if len(data) > maxFile {
		ps.add(1, "", "", "larger than 4 MB: no exhibit needs that")
		return nil, ps.err()
	}
	tree := readTree(ps, data)
	l := &loader{problems: ps, broken: tree.broken, plan: &sim.Plan{}}
	x := &exhibitLoader{loader: l, rules: rules, x: &Exhibit{File: name}}
	x.file(tree.root)
	if err := ps.err(); err != nil {
		return nil, err
	}
	return x.x, nil
}

type exhibitLoader struct {
	*loader
	rules ExhibitRules
	x     *Exhibit
}

func (e *exhibitLoader) file(root *node) {
	if !e.schema(&table{e.loader, root, ""}) {
		return
	}
	t := e.newTable(root, "", "schema", "title", "languages", "texts", "idle", "low", "captions", "reduced_motion",
		"larger_text", "cursor", "light", "keeper", "shift_px", "shift_every", "rate", "flight", "fault", "landing", "hours")
	x := e.x
	x.Title, _ = t.oneLine("title")
	e.languages(t)
	x.Idle = t.spanOr("idle", 90*time.Second, minIdle, maxIdle)
	x.Low, x.Captions, x.ReducedMotion = t.flag("low", false), t.flag("captions", false), t.flag("reduced_motion", false)
	x.Larger, x.Cursor = t.flag("larger_text", false), t.flag("cursor", false)
	x.Night = t.word("light", "paper", "night") == 1
	e.keeper(t)
	x.Shift = int(t.wholeOr("shift_px", 4, 0, 16))
	x.ShiftEvery = t.spanOr("shift_every", time.Minute, 5*time.Second, time.Hour)
	x.Rate = t.numberOr("rate", 24, 1, 240, "seconds of flight in a second")
	e.flight(t)
	e.faults(t)
	e.landing(t)
	e.hours(t)
}

func (e *exhibitLoader) languages(t *table) {
	if t.has("texts") {
		e.x.Texts, _ = t.oneLine("texts")
	}
	codes, wrong := e.rules.Languages(e.x.Texts)
	if wrong != nil {
		t.bad("texts", "%v", wrong)
	}
	e.x.Languages = []string{"en", "de"}
	if t.has("languages") {
		e.x.Languages = t.listOf("languages", "codes of languages, in quotes", 1, maxExhibitLanguage, func(code string) string {
			if slices.Contains(codes, code) {
				return ""
			}
			return "no such language: there are " + strings.Join(codes, ", ")
		})
	}
}

// keeper reads the held sequence: letters and figures, none of them twice.
func (e *exhibitLoader) keeper(t *table) {
	e.x.Keeper = "KEY"
	if !t.has("keeper") {
		return
	}
	s, ok := t.text("keeper")
	if !ok {
		return
	}
	s = strings.ToUpper(s)
	good := len(s) >= minKeeper && len(s) <= maxKeeper
	for i, c := range s {
		good = good && (c >= 'A' && c <= 'Z' || c >= '0' && c <= '9') && !strings.ContainsRune(s[:i], c)
	}
	if !good {
		t.bad("keeper", "must be %d to %d different letters or figures, such as \"KEY\"", minKeeper, maxKeeper)
		return
	}
	e.x.Keeper = s
}

// flight reads how a visitor's flight begins; what is not said is that of the
// shipped exhibit.
func (e *exhibitLoader) flight(t *table) {
	f := &e.x.Flight
	*f = ExhibitFlight{
		Waters: "tern-islands", Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Heading: units.TrueHeading(62 * units.Degree),
		TAS: 180 * units.Knot, Wind: units.Wind{From: 310 * units.Degree, Speed: 34 * units.Knot}, Height: 8000 * units.Foot,
	}
	n := t.table("flight", "waters", "from", "start", "heading_true_deg", "tas_kt", "wind_from_deg_true", "wind_kt", "pressure_altitude_ft")
	if n == nil {
		n = &table{e.loader, &node{line: t.node.line, values: map[string]*node{}}, "flight"}
	}
	if i := n.word("waters", watersNames()...); i >= 0 {
		f.Waters = watersNames()[i]
	}
	e.waters, _ = Waters(f.Waters)
	if n.has("from") {
		if p, ok := n.namedPlace("from"); ok {
			f.Place, f.From = p.Name, p.At
		}
	} else if p, ok := e.waters.Place("Port Aldous"); ok {
		f.Place, f.From = p.Name, p.At
	} else {
		n.require("from", "a place of "+f.Waters)
	}
	if n.has("start") {
		e.start(n)
		f.Start = e.plan.Start
	}
	if d, ok := n.direction("heading_true_deg"); ok {
		f.Heading = units.TrueHeading(d)
	}
	f.TAS = units.Speed(n.numberOr("tas_kt", f.TAS.Knots(), minExhibitKt, maxExhibitKt, "kt")) * units.Knot
	if d, ok := n.direction("wind_from_deg_true"); ok {
		f.Wind.From = d
	}
	f.Wind.Speed = units.Speed(n.numberOr("wind_kt", f.Wind.Speed.Knots(), 0, maxExhibitWindKt, "kt")) * units.Knot
	f.Height = units.Length(n.numberOr("pressure_altitude_ft", 8000, 500, 25000, "ft")) * units.Foot
}

// namedPlace gives a place of the waters.
func (t *table) namedPlace(key string) (p Place, ok bool) {
	s, ok := t.text(key)
	if !ok {
		return p, false
	}
	if p, ok = t.waters.Place(s); !ok {
		t.bad(key, "no such place in %s%s", t.waters.Name, t.meant(s, t.waters.placeNames(), "places"))
	}
	return p, ok
}

// faults reads what may break.
func (e *exhibitLoader) faults(t *table) {
	told := e.rules.Told(e.x.Texts, e.x.Languages)
	if !t.has("fault") {
		entry, _ := fault.Lookup("drive-slip")
		e.x.Faults = []fault.Order{{ID: entry.ID, Params: []float64{0.2}}}
		return
	}
	entries := t.entries("fault")
	if len(entries) > maxExhibitFaults {
		t.bad("fault", "at most %d [[fault]]", maxExhibitFaults)
	}
	for i, n := range entries {
		path := entry("fault", i+1)
		f := e.faultEntry(n, path)
		if f == nil {
			continue
		}
		known := []string{"id"}
		for _, p := range f.Params {
			known = append(known, p.Name)
		}
		o := e.newTable(n, path, known...)
		if !slices.Contains(told, f.ID) {
			o.bad("id", "has no sentence in every language of the exhibit; those with one: %s", strings.Join(told, ", "))
			continue
		}
		order := fault.Order{ID: f.ID, Params: o.params(f)}
		o.bothTrains(f, order.Params)
		if err := order.Check(); err != nil {
			o.bad("id", "%v", err)
		}
		e.x.Faults = append(e.x.Faults, order)
	}
}

// bothTrains has a fault of the trains act on both of them unless the file says
// otherwise: the marker, which visitors look at, hangs on those of the ground.
func (t *table) bothTrains(e *fault.Entry, params []float64) {
	i, ok := e.Param("train")
	if !ok || t.has("train") {
		return
	}
	if both := slices.Index(e.Params[i].Choices, "both"); both >= 0 {
		params[i] = float64(both)
	}
}

// landing reads the flight in cloud; [landing] with off = true has none.
func (e *exhibitLoader) landing(t *table) {
	l := &Landing{Place: "Skerrow", Time: 90 * time.Second}
	n := t.table("landing", "at", "time", "off")
	if n != nil && n.flag("off", false) {
		return
	}
	p, ok := e.waters.Place(l.Place)
	if n != nil && n.has("at") {
		p, ok = n.namedPlace("at")
	}
	if n != nil {
		l.Time = n.spanOr("time", l.Time, minLand, maxLand)
	}
	if !ok {
		return // told, or waters without it: there is nothing to land at
	}
	l.Place, l.At = p.Name, p.At
	if nm := apartNM(e.x.Flight.From, p.At); e.x.Flight.Place != "" && n != nil && n.has("at") && (nm < 20 || nm > 400) {
		n.bad("at", "is %.0f NM from where the flight begins: must be 20 to 400 NM", nm)
	}
	e.x.Landing = l
}

func apartNM(a, b units.Position) float64 {
	n, east := apart(a, b)
	return math.Hypot(n, east)
}

var dayKeys = [7]string{"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"}

// hours reads the opening hours; a day that is not named is closed.
func (e *exhibitLoader) hours(t *table) {
	n := t.table("hours", dayKeys[:]...)
	if n == nil {
		return
	}
	h := &Hours{}
	for day, key := range dayKeys {
		if s, ok := n.text(key); ok {
			o, good := openingOf(s)
			if !good {
				n.bad(key, "must be from 00:00 to 24:00, the end after the beginning, such as \"10:00-18:00\"")
			}
			h[day] = o
		}
	}
	if *h == (Hours{}) {
		e.add(n.node.line, "hours", "", "names no day on which it is open: it would stay dark for ever")
	}
	e.x.Hours = h
}

func openingOf(s string) (o Opening, ok bool) {
	from, until, found := strings.Cut(s, "-")
	a, okA := minuteOf(from)
	b, okB := minuteOf(until)
	return Opening{a, b}, found && okA && okB && a < b
}

// minuteOf reads 09:30, and 24:00.
func minuteOf(s string) (int, bool) {
	s = strings.TrimSpace(s)
	if len(s) != 5 || s[2] != ':' {
		return 0, false
	}
	for _, i := range []int{0, 1, 3, 4} {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
	}
	h, m := int(s[0]-'0')*10+int(s[1]-'0'), int(s[3]-'0')*10+int(s[4]-'0')
	return h*60 + m, m < 60 && h*60+m <= 24*60
}

// flag, numberOr, wholeOr and spanOr give what stands there, or else something else.
func (t *table) flag(key string, otherwise bool) bool {
	if v, ok := t.truth(key); ok {
		return v
	}
	return otherwise
}

func (t *table) numberOr(key string, otherwise, lo, hi float64, unit string) float64 {
	if v, ok := t.number(key, lo, hi, unit); ok {
		return v
	}
	return otherwise
}

func (t *table) wholeOr(key string, otherwise, lo, hi float64) float64 {
	v, ok := t.get(key, "a whole number, "+span(lo, hi, ""), wholeKind)
	if ok && t.within(key, v.num, lo, hi, "") {
		return v.num
	}
	return otherwise
}

func (t *table) spanOr(key string, otherwise, least, most time.Duration) time.Duration {
	if d, ok := t.span(key, shortSpan(otherwise), least, most); ok {
		return d
	}
	return otherwise
}
