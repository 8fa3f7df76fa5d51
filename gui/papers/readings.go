package papers

import (
	"fmt"
	"time"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// The times between two readings that can be asked for.
const (
	EveryDefault = time.Minute
	everyLeast   = 10 * time.Second
	everyMost    = time.Hour
)

// CheckEvery says what is wrong with a time between two readings.
func CheckEvery(d time.Duration) error {
	if d < everyLeast || d > everyMost {
		return fmt.Errorf("every = %v: must be %v to %v", d, everyLeast, everyMost)
	}
	return nil
}

// ReadingsPage is one sheet of readings.
type ReadingsPage struct {
	Line, Note string
	Form       form
	Rows       [][]string
	Number, Of int
}

var readingsForm = form{rowH: 4.9, size: 2.7, cols: []column{
	{"", look.PaperTime, look.PaperUnitZ, 12.6, false, false},
	{look.PaperHeadingGroup, look.PaperCompass, look.PaperUnitC, 9, false, false},
	{look.PaperHeadingGroup, look.PaperVar, look.PaperSetWord, 10.4, false, false},
	{look.PaperHeadingGroup, look.PaperTrue, look.PaperUnitT, 9, false, false},
	{look.PaperSpeedGroup, look.PaperCAS, look.PaperUnitKt, 8.6, false, false},
	{look.PaperSpeedGroup, look.PaperHeight, look.PaperUnitFt, 11.4, false, false},
	{look.PaperSpeedGroup, look.PaperClimb, look.PaperUnitFtMin, 11, false, false},
	{look.PaperSpeedGroup, look.PaperTemp, look.PaperUnitCelsius, 8.6, false, false},
	{look.PaperSpeedGroup, look.PaperTAS, look.PaperUnitKt, 8.6, false, false},
	{look.PaperDrumsGroup, look.PaperAirLog, look.PaperUnitNM, 11.6, false, false},
	{look.PaperDrumsGroup, look.PaperAirDrums, look.PaperLatitude, 17.6, true, false},
	{look.PaperDrumsGroup, "", look.PaperLongitude, 18.8, true, true},
	{look.PaperGroundGroup, look.PaperWind, look.PaperSetWord, 12.2, false, false},
	{look.PaperGroundGroup, look.PaperGroundDrums, look.PaperLatitude, 17.6, true, false},
	{look.PaperGroundGroup, "", look.PaperLongitude, 18.8, true, true},
	{look.PaperGroundGroup, look.PaperMarker, look.PaperLatitude, 17.6, true, false},
	{look.PaperGroundGroup, "", look.PaperLongitude, 18.8, true, true},
	{"", look.PaperDone, "", 0, true, false},
}}

// Readings are what every dial of a flight showed, so often, so that a class can
// plot from one flight; and what the aids said where the flight has the crew take
// a reading.
func Readings(p *sim.Plan, on Paper, every time.Duration) ([]Page, error) {
	all, err := flown(p, every, func(e *aboard.Entry) bool { return e.Event != aboard.Sample })
	if err != nil {
		return nil, err
	}
	var rows [][]string
	for i := range all {
		rows = append(rows, dialRow(p, &all[i]))
	}
	page := ReadingsPage{Line: flightLine(p), Note: look.Text(look.PaperReadingsNote), Form: readingsForm.stretched(on.W - 2*margin)}
	n := page.rows(on)
	page.Of = (len(rows) + n - 1) / n
	var pages []Page
	for i := range page.Of {
		page.Number, page.Rows = i, rows[i*n:min((i+1)*n, len(rows))]
		pages = append(pages, page)
	}
	return pages, nil
}

// dialRow is what the dials and drums showed.
func dialRow(p *sim.Plan, m *moment) []string {
	v := &m.view
	words := ""
	if m.entry != nil {
		words = Remark(p, m.entry)
	}
	air, ground := drumsOf(v.AirCounters), drumsOf(v.GroundCounters)
	marker := positionOf(units.Position(v.Marker))
	climb := units.Figure(v.VerticalSpeed.MetresPerSecond()*60/units.Foot.Metres()/10, 0)
	if climb != "0" {
		climb += "0"
	}
	return []string{
		clockSeconds(v.Clock), units.Degrees3(units.Angle(v.Compass)), v.VariationSet.Tenths(), units.Degrees3(units.Angle(v.Heading)),
		units.Figure(v.IAS.Knots(), 0), units.Figure(v.PressureAltitude.Feet(), 0), climb,
		units.Figure(v.AirTemperature.Celsius(), 0), units.Figure(v.TAS.Knots(), 0),
		miles(v), air[0], air[1], v.WindSet.String(), ground[0], ground[1], marker[0], marker[1], words,
	}
}

// miles is the air log counter as its drums are read off.
func miles(v *aboard.View) string {
	text := drums(v.AirLogCounter)
	out := ""
	for i := range text { // the drums that stand on nought before the figures are not read
		if c := text[i]; c != ' ' && !(out == "" && c == '0' && i+1 < len(text) && text[i+1] != '.') {
			out += string(c)
		}
	}
	return out
}

// clockSeconds is a time in four figures, with seconds if there are any.
func clockSeconds(t time.Time) string {
	text := units.ClockText(t)
	if text[6:] == "00" {
		return clock4(t)
	}
	return text[:2] + text[3:]
}

// readingsTail is what stands under the readings, mm.
const readingsTail = 6.5

func (l *ReadingsPage) rows(on Paper) int {
	return l.Form.rowsIn(on.H - margin - 7.5 - readingsTail - logTop)
}

func (l ReadingsPage) draw(d *draft) {
	d.head(look.Text(look.PaperReadingsTitle), l.Line, join(look.Text(look.PaperLogUnits), sheetOf(l.Number, l.Of)))
	y := d.form(margin, logTop, l.Form, len(l.Rows), l.Rows)
	d.foot()
	d.paragraph(margin, y+4, d.paper.W-2*margin, l.Note, look.Regular, small, d.c.Ink2)
}
