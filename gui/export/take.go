package export

import (
	"slices"
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/sim"
)

// Kind is what a thing is, as the files name it.
type Kind string

// The kinds.
const (
	AirTrack     Kind = "air_track"
	GroundTrack  Kind = "ground_track"
	TrueTrack    Kind = "true_track"
	Mark         Kind = "mark"
	Action       Kind = "action"
	PositionLine Kind = "position_line"
	Fix          Kind = "fix"
)

// Kinds are all kinds, in the order of the files.
func Kinds() []Kind {
	return []Kind{AirTrack, GroundTrack, TrueTrack, Mark, Action, PositionLine, Fix}
}

// Fact is a named value: a string, a number or true and false.
type Fact struct {
	Name  string
	Value any
}

// Thing is one thing on the chart: a line of two points at least, or a point.
type Thing struct {
	Kind     Kind
	Name     string // for the reader of a map
	From, To time.Time
	Line     []units.Position
	Point    units.Position // if there is no line
	Facts    []Fact
}

// Take is a flight as it is taken away.
type Take struct {
	Title      string
	Start, End time.Time
	Things     []Thing
}

// gatherer makes a Take.
type gatherer struct {
	take  Take
	view  aboard.View
	truth []sim.TruePoint // beside the marks; nil: hidden
}

// Gather takes from an engine what has been flown up to now. It moves the engine, and
// leaves it where it was.
func Gather(e *sim.Engine, reveal bool) Take {
	g := gatherer{view: e.View()}
	start := e.Plan().Start
	g.take = Take{Title: e.Plan().Title, Start: start, End: start.Add(sim.TimeOf(e.Tick()))}
	if reveal {
		g.truth = e.TrueTrack()
	}
	g.tracks(e)
	g.marks()
	g.actions()
	readings := airplot.ReadingsOf(&g.view)
	for i := range readings {
		g.reading(&readings[i])
	}
	g.worked(e)
	return g.take
}

func (g *gatherer) at(elapsed time.Duration) time.Time { return g.take.Start.Add(elapsed) }

func (g *gatherer) add(t Thing) { g.take.Things = append(g.take.Things, t) }

// tracks cuts the tracks where the counters were set, and ends them at the present.
func (g *gatherer) tracks(e *sim.Engine) {
	marks := append(g.view.Marks[:len(g.view.Marks):len(g.view.Marks)],
		aboard.Mark{Elapsed: g.view.Elapsed, Air: g.view.Air, Ground: g.view.Ground})
	from := 0
	for i := 1; i <= len(marks); i++ {
		if i < len(marks) && (marks[i].Event != aboard.CountersSet || marks[i].Elapsed == 0) {
			continue
		}
		g.track(AirTrack, marks[from:i], func(m *aboard.Mark) units.Position { return units.Position(m.Air) })
		g.track(GroundTrack, marks[from:i], func(m *aboard.Mark) units.Position { return units.Position(m.Ground) })
		from = i
	}
	if g.truth == nil {
		return
	}
	line := make([]units.Position, 0, len(g.truth)+1)
	for _, p := range g.truth {
		line = append(line, p.Ground)
	}
	g.line(Thing{Kind: TrueTrack, From: g.take.Start, To: g.take.End}, append(line, e.Snapshot().Truth.Position))
}

func (g *gatherer) track(k Kind, marks []aboard.Mark, place func(*aboard.Mark) units.Position) {
	line := make([]units.Position, len(marks))
	for i := range marks {
		line[i] = place(&marks[i])
	}
	g.line(Thing{Kind: k, From: g.at(marks[0].Elapsed), To: g.at(marks[len(marks)-1].Elapsed)}, line)
}

// line adds a line without points that stand where the one before them stands; one
// that never moved is none.
func (g *gatherer) line(t Thing, line []units.Position) {
	for _, p := range line {
		if n := len(t.Line); n == 0 || t.Line[n-1] != p {
			t.Line = append(t.Line, p)
		}
	}
	if len(t.Line) < 2 {
		return
	}
	t.Name = look.Text(kindWords[t.Kind])
	g.add(t)
}

var kindWords = map[Kind]look.Key{
	AirTrack: look.ExportAirTrack, GroundTrack: look.ExportGroundTrack, TrueTrack: look.ExportTrueTrack,
	Mark: look.ExportMark, Action: look.ExportAction, PositionLine: look.ExportPositionLine, Fix: look.ExportFix,
}

// eventWords are the events that are marks, as the files and their readers name
// them; the others come of what the crew did.
var eventWords = map[aboard.Event]struct {
	name  string
	words look.Key
}{
	aboard.LegBegun:    {"leg_begun", look.ExportLegBegun},
	aboard.TurnEnded:   {"turn_ended", look.ExportTurnEnded},
	aboard.FlightEnded: {"flight_ended", look.ExportFlightEnded},
}

func (g *gatherer) marks() {
	for i := range g.view.Marks {
		m := &g.view.Marks[i]
		w, ok := eventWords[m.Event]
		if !ok {
			continue
		}
		when := g.at(m.Elapsed)
		t := Thing{Kind: Mark, Name: units.TimeText(when) + " " + look.Text(w.words), From: when, To: when, Point: units.Position(m.Ground)}
		t.Facts = append([]Fact{{"event", w.name}}, g.places(m.Air, m.Ground)...)
		if g.truth != nil {
			t.Facts = append(t.Facts, trueFacts(m.Ground, g.truth[i].Ground)...)
		}
		g.add(t)
	}
}

// places are air and ground position as they were shown.
func (g *gatherer) places(air units.AirPosition, ground units.GroundPosition) []Fact {
	return []Fact{
		{"air_lat_deg", degrees(air.Lat)}, {"air_lon_deg", longitude(air.Lon)},
		{"ground_lat_deg", degrees(ground.Lat)}, {"ground_lon_deg", longitude(ground.Lon)},
	}
}

func trueFacts(shown units.GroundPosition, truth units.Position) []Fact {
	o := sim.OffsetOf(units.Position(shown), truth)
	return []Fact{
		{"true_lat_deg", degrees(truth.Lat)}, {"true_lon_deg", longitude(truth.Lon)},
		{"error_north_nm", o.North}, {"error_east_nm", o.East},
	}
}

// actions are what the crew did, by their log: each where it was done, and what
// came of it on the chart.
func (g *gatherer) actions() {
	for i := range g.view.Log {
		n := &g.view.Log[i]
		if n.Action.Kind == 0 {
			continue
		}
		when := g.at(n.Elapsed)
		facts, words := actionFacts(&n.Action)
		t := Thing{Kind: Action, Name: units.TimeText(when) + " " + words, From: when, To: when, Point: units.Position(n.Ground)}
		t.Facts = append(facts, g.places(n.Air, n.Ground)...)
		g.add(t)
		if n.Action.Kind == aboard.SetCounters {
			g.add(Thing{
				Kind: Fix, Name: units.TimeText(when) + " " + look.Text(look.ExportFix), From: when, To: when, Point: n.Action.Position,
				Facts: []Fact{{"source", "counters_set"}},
			})
		}
	}
}

// How far a position line reaches to either side, and in how many steps its
// curve is drawn.
const (
	lineHalf  = 40 * units.NM
	lineSteps = 8
)

// reading adds the position line of a reading, or the place of a pinpoint.
func (g *gatherer) reading(taken *airplot.Taken) {
	r := &taken.Entry.Action.Reading
	lines := taken.Lines(g.take.Start)
	when := g.at(taken.When)
	t := Thing{Name: units.TimeText(when) + " " + r.Source, From: when, To: when}
	facts := func(l *airplot.Line) []Fact {
		return append([]Fact{{"aid", r.Aid.String()}, {"of", r.Source}}, sigma(l, taken.Ground)...)
	}
	if r.Aid == aboard.Pinpoint && len(lines) > 0 {
		t.Kind, t.Point, t.Facts = Fix, r.At, append([]Fact{{"source", "pinpoint"}}, facts(&lines[0])...)
		g.add(t)
		return
	}
	for i := range lines {
		curve, err := lines[i].Trace(units.Position(taken.Ground), lineHalf, lineSteps)
		if err != nil {
			continue // it passes nowhere near: the action says what was read
		}
		t.Kind, t.Line, t.Facts = PositionLine, curve, facts(&lines[i])
		g.add(t)
	}
}

// worked adds the fixes that the position lines give, as the navigator works them
// when a reading has come; of a place worked again at the same time the last counts.
func (g *gatherer) worked(e *sim.Engine) {
	var book plotting.Book
	var fixes []Thing
	tick := e.Tick()
	defer e.GoTo(tick)
	for i := range g.view.Log {
		n := &g.view.Log[i]
		if n.Event != aboard.Observed {
			continue
		}
		e.GoTo(sim.TicksOf(n.Elapsed))
		v := e.View()
		if !book.Take(&v, 0, nil) {
			continue
		}
		on := book.Chart(&v)
		for j := range on.Fixes {
			at := on.Fixes[j].Time
			if j == 0 {
				fixes = slices.DeleteFunc(fixes, func(t Thing) bool { return t.From.Equal(at) })
			}
			fixes = append(fixes, fixOf(&on.Fixes[j], on.Ellipse))
		}
	}
	g.take.Things = append(g.take.Things, fixes...)
}

// fixOf is a fix of position lines, with the ellipse that belongs to it, unless the
// lines cross twice, and the wind that was found from it.
func fixOf(f *picture.Fix, e *picture.Ellipse) Thing {
	t := Thing{
		Kind: Fix, Name: units.TimeText(f.Time) + " " + look.Text(look.ExportFix), From: f.Time, To: f.Time, Point: f.At,
		Facts: []Fact{{"source", "position_lines"}, {"one_of_two", f.Which}},
	}
	if e != nil {
		t.Facts = append(t.Facts, Fact{"ellipse_95_major_nm", figure(e.Major.NM())}, Fact{"ellipse_95_minor_nm", figure(e.Minor.NM())},
			Fact{"ellipse_95_major_m", figure(e.Major.Metres())}, Fact{"ellipse_95_minor_m", figure(e.Minor.Metres())},
			Fact{"ellipse_bearing_deg", figure(e.Bearing.Degrees())})
	}
	if w := f.Found; w != nil {
		t.Facts = append(t.Facts, Fact{"wind_found_from_deg_true", figure(units.Wrap(w.From).Degrees())},
			Fact{"wind_found_kt", figure(w.Speed.Knots())}, Fact{"wind_found_m_s", figure(w.Speed.MetresPerSecond())})
	}
	return t
}

// sigma is how far off, one standard deviation, the aircraft may be from a line.
func sigma(l *airplot.Line, near units.GroundPosition) []Fact {
	s, err := l.Near(units.Position(near))
	if err != nil {
		return nil
	}
	return []Fact{{"sigma_nm", s.Sigma.NM()}, {"sigma_m", s.Sigma.Metres()}}
}
