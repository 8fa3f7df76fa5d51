package papers

import (
	"time"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// LogOrder is what is wanted of a log form.
type LogOrder struct {
	Short  bool // the short form
	Filled bool // with what was shown aboard
}

// LogPage is one sheet of a navigation log.
type LogPage struct {
	Title, Line string
	Head        []blank
	Form        form
	Rows        [][]string // filled in
	Short       bool
	Number, Of  int
}

// Every filled log has a line so often at least.
const logEvery = 10 * time.Minute

// logForm is the long form: groups over columns.
var logForm = form{rowH: 6.7, size: 2.9, cols: []column{
	{"", look.PaperTime, "", 10.4, false, false},
	{look.PaperHeadingGroup, look.PaperCompass, look.PaperUnitC, 9.3, false, false},
	{look.PaperHeadingGroup, look.PaperDeviation, "", 9.6, false, false},
	{look.PaperHeadingGroup, look.PaperVar, "", 10.6, false, false},
	{look.PaperHeadingGroup, look.PaperTrue, look.PaperUnitT, 9.3, false, false},
	{look.PaperSpeedGroup, look.PaperCAS, look.PaperUnitKt, 8.8, false, false},
	{look.PaperSpeedGroup, look.PaperHeight, look.PaperUnitFt, 10.9, false, false},
	{look.PaperSpeedGroup, look.PaperTemp, look.PaperUnitCelsius, 9.1, false, false},
	{look.PaperSpeedGroup, look.PaperTAS, look.PaperUnitKt, 8.7, false, false},
	{look.PaperAirGroup, look.PaperRun, look.PaperUnitMin, 8.6, false, false},
	{look.PaperAirGroup, look.PaperAirLog, look.PaperUnitNM, 11.6, false, false},
	{look.PaperAirGroup, look.PaperAirPosition, look.PaperLatitude, 18.6, true, false},
	{look.PaperAirGroup, "", look.PaperLongitude, 20.3, true, true},
	{look.PaperWindGroup, look.PaperWind, look.PaperUnitWind, 12.6, false, false},
	{look.PaperWindGroup, look.PaperDrift, "", 8.8, false, false},
	{look.PaperWindGroup, look.PaperTrack, look.PaperUnitT, 9.6, false, false},
	{look.PaperWindGroup, look.PaperGS, look.PaperUnitKt, 8.7, false, false},
	{look.PaperGroundGroup, look.PaperGroundPosition, look.PaperLatitude, 18.6, true, false},
	{look.PaperGroundGroup, "", look.PaperLongitude, 20.3, true, true},
	{"", look.PaperSights, "", 0, true, false},
}}

// shortColumns are those of the long form that the short one has, with wider
// rows for an unpractised hand.
var shortColumns = []int{0, 4, 8, 9, 10, 11, 12, 13, 17, 18, 19}

func shortForm() form {
	f := form{rowH: 8.6, size: 3.3}
	for _, i := range shortColumns {
		c := logForm.cols[i]
		c.w *= 1.3
		if i == 4 || i == 8 {
			c.group = look.PaperFlownGroup
		}
		if i == 13 {
			c.group = ""
		}
		f.cols = append(f.cols, c)
	}
	return f
}

// Log is the log form of a flight: its head filled in with what the crew are
// told, its lines empty unless they are asked for.
func Log(p *sim.Plan, on Paper, o LogOrder) ([]Page, error) {
	page := LogPage{Title: p.Title, Line: flightLine(p), Head: logHead(p, o.Short), Form: logForm, Short: o.Short}
	if o.Short {
		page.Form = shortForm()
	}
	page.Form = page.Form.stretched(on.W - 2*margin)
	var rows [][]string
	if o.Filled {
		var err error
		if rows, err = logRows(p, o.Short); err != nil {
			return nil, err
		}
	}
	n := page.rows(on)
	page.Of = max(1, (len(rows)+n-1)/n)
	var pages []Page
	for i := range page.Of {
		page.Number = i
		page.Rows = rows[min(i*n, len(rows)):min((i+1)*n, len(rows))]
		pages = append(pages, page)
	}
	return pages, nil
}

// flightLine names flight and day.
func flightLine(p *sim.Plan) string { return join(p.Title, units.DateText(p.Start)) }

// logHead is what stands above the form.
func logHead(p *sim.Plan, short bool) []blank {
	counters := p.Aircraft.Position
	if p.Setting.Counters != nil {
		counters = *p.Setting.Counters
	}
	set := look.Text(look.PaperByField)
	if v := p.Setting.Variation; v != nil {
		set = v.Tenths()
	}
	from, to := ends(p)
	boxes := []blank{
		{look.PaperNavigator, "", 40}, {look.PaperAircraft, "", 28}, {look.PaperFrom, from, 31}, {look.PaperDestination, to, 31},
		{look.PaperCountersAt, counters.String(), 50}, {look.PaperSetAt, units.TimeText(p.Start), 18},
		{look.PaperVariationIs, set, 22}, {look.PaperWindIs, p.Setting.Wind.String(), 22}, {look.PaperAltimeter, "", 30},
	}
	if short {
		boxes = append(boxes[:1], boxes[2:8]...)
	}
	return boxes
}

// nearby is how far off a place may be from which a flight is said to begin.
const nearby = 0.25 * units.Degree

// ends are the names of where the flight begins and is bound for, "" where they
// have none.
func ends(p *sim.Plan) (from, to string) {
	if w, err := scenarios.Waters(p.Waters); err == nil {
		best := nearby
		for _, place := range w.Places {
			off := units.Angle(max(abs64(place.At.Lat-p.Aircraft.Position.Lat), abs64(units.WrapHalf(place.At.Lon-p.Aircraft.Position.Lon))))
			if place.Kind == scenarios.Port && off < best {
				from, best = place.Name, off
			}
		}
	}
	for i := range p.Legs {
		if p.Legs[i].Steer == sim.ToPlace {
			to = p.Legs[i].Place
		}
	}
	return from, to
}

func abs64(a units.Angle) units.Angle { return max(a, -a) }

// logRows are the lines of a filled log.
func logRows(p *sim.Plan, short bool) ([][]string, error) {
	all, err := flown(p, logEvery, func(e *aboard.Entry) bool { return e.Event != aboard.Sample })
	if err != nil {
		return nil, err
	}
	card := CompassCard(p)
	reset := time.Duration(0)
	var rows [][]string
	for i := range all {
		m := &all[i]
		if set := m.entry; set != nil && set.Action.Kind == aboard.SetCounters {
			reset = set.Elapsed
		}
		row := logRow(p, m, card, m.view.Elapsed-reset)
		if short {
			var cut []string
			for _, j := range shortColumns {
				cut = append(cut, row[j])
			}
			row = cut
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// logRow is one line: what the dials showed, and drift, track and groundspeed
// worked from heading, true airspeed and the wind set. A line for a new leg has
// the heading ordered, and what is steered for it by the card.
func logRow(p *sim.Plan, m *moment, card airplot.Coefficients, run time.Duration) []string {
	v := m.view
	heading, compass, words := v.Heading, v.Compass, ""
	variation, wind := v.VariationSet, v.WindSet
	air, ground := drumsOf(v.AirCounters), drumsOf(v.GroundCounters)
	if e := m.entry; e != nil {
		heading, words = e.Heading, Remark(p, e)
		variation, wind = e.Variation, e.Wind
		switch e.Event {
		case aboard.LegBegun:
			compass = card.Steer(e.Magnetic)
		case aboard.CountersSet: // the line tells what they were set to
			air, ground = positionOf(units.Position(e.Air)), positionOf(units.Position(e.Ground))
		}
	}
	track, gs := airplot.TrackMade(heading, v.TAS, wind)
	return []string{
		clock4(v.Clock), units.Degrees3(units.Angle(compass)), card.Deviation(compass).Tenths(), variation.Tenths(), units.Degrees3(units.Angle(heading)),
		units.Figure(v.IAS.Knots(), 0), units.Figure(v.PressureAltitude.Feet(), 0), units.Figure(v.AirTemperature.Celsius(), 0), units.Figure(v.TAS.Knots(), 0),
		units.Figure(run.Minutes(), 0), units.Figure(v.AirLog.NM(), 1), air[0], air[1],
		wind.String(), aboard.DriftText(units.WrapHalf(track-units.Angle(heading)), 0), units.Degrees3(track), units.Figure(gs.Knots(), 0),
		ground[0], ground[1], words,
	}
}

// clock4 is a time in four figures, without the Z that its column has not room
// for: the head says it.
func clock4(t time.Time) string { return units.TimeText(t)[:4] }

// The layout of a log sheet, mm.
const (
	logTop      = 20.5
	blankHeight = 10.0
	noteHeight  = 29.0 // the boxes under the form
	logTail     = 5.0  // the rule of the log under them
)

// rows is how many lines there are on a sheet.
func (l *LogPage) rows(on Paper) int {
	return l.Form.rowsIn(on.H - margin - 7.5 - logTail - noteHeight - 2.5 - logTop - blankHeight - 3)
}

func (l LogPage) draw(d *draft) {
	width := d.paper.W - 2*margin
	d.head(look.Text(look.PaperLogTitle), l.Line, join(look.Text(look.PaperLogUnits), sheetOf(l.Number, l.Of)))
	d.blanks(margin, logTop, width, blankHeight, l.Head)
	y := d.form(margin, logTop+blankHeight+3, l.Form, l.rows(d.paper), l.Rows)
	free := d.foot()
	d.ruledBoxes(margin, y+2.5, width, free-logTail-y-2.5, []ruled{
		{look.PaperFixBox, []look.Key{look.PaperFixLines, look.PaperFixPosition, look.PaperFixOff, look.PaperFixBy}},
		{look.PaperWindBox, []look.Key{look.PaperWindAir, look.PaperWindTo, look.PaperWindIn, look.PaperWindFound}},
		{look.PaperResetBox, []look.Key{look.PaperResetVariation, look.PaperResetWind, look.PaperResetCounters, look.PaperResetAt}},
		{look.PaperDoubtBox, []look.Key{look.PaperDoubtWhat, look.PaperDoubtCheck, look.PaperDoubtLink, look.PaperDoubtDone}},
	})
	d.write(margin, free-1.2, look.Text(look.PaperLogRule), look.Regular, small, 0, d.c.Ink2)
}
