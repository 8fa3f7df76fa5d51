// Package navlog is the navigation log in the window: kept by the program, or by hand, in
// which case the program looks it over when it is asked to.
package navlog

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/gui/papers"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/sim"
)

// column is a column of the log: its heads, its width, whether the short form has it, and
// how far off what is written by hand may be, in the last figure asked for: 0 for words.
type column struct {
	group, head, unit look.Key
	weight            float64
	short             bool
	within            float64
}

var columns = []column{
	{"", look.PaperTime, look.PaperUnitZ, 5, true, 1},
	{look.PaperHeadingGroup, look.PaperCompass, look.PaperUnitC, 4.4, false, 1},
	{look.PaperHeadingGroup, look.PaperDeviation, "", 4.8, false, 0.5},
	{look.PaperHeadingGroup, look.PaperVar, "", 5.2, false, 0.5},
	{look.PaperHeadingGroup, look.PaperTrue, look.PaperUnitT, 4.4, true, 1},
	{look.PaperSpeedGroup, look.PaperCAS, look.PaperUnitKt, 4.2, false, 2},
	{look.PaperSpeedGroup, look.PaperHeight, look.PaperUnitFt, 5.4, false, 100},
	{look.PaperSpeedGroup, look.PaperTemp, look.PaperUnitCelsius, 4.6, false, 1},
	{look.PaperSpeedGroup, look.PaperTAS, look.PaperUnitKt, 4.2, true, 2},
	{look.PaperAirGroup, look.PaperRun, look.PaperUnitMin, 4.2, true, 1},
	{look.PaperAirGroup, look.PaperAirLog, look.PaperUnitNM, 5.6, true, 0.5},
	{look.PaperAirGroup, look.PaperLatitude, "", 7.4, true, 0.5},
	{look.PaperAirGroup, look.PaperLongitude, "", 8.2, true, 0.5},
	{look.PaperWindGroup, look.PaperWind, look.PaperUnitWind, 6, true, 0},
	{look.PaperWindGroup, look.PaperDrift, "", 4.2, false, 1},
	{look.PaperWindGroup, look.PaperTrack, look.PaperUnitT, 4.6, false, 2},
	{look.PaperWindGroup, look.PaperGS, look.PaperUnitKt, 4.2, false, 3},
	{look.PaperGroundGroup, look.PaperLatitude, "", 7.4, true, 0.5},
	{look.PaperGroundGroup, look.PaperLongitude, "", 8.2, true, 0.5},
	{"", look.PaperSights, "", 22, true, 0},
}

// place is a cell: the time of its line in the log, how many lines of that time stand
// before it, and its column.
type place struct {
	at         time.Duration
	nth, which int
}

// Book is the log of a flight.
type Book struct {
	plan  *sim.Plan
	Short bool // the short form
	Hand  bool // it is kept by hand
	Check bool // what is written by hand is looked over
	words map[place]string
}

// NewBook opens the log of a flight.
func NewBook(p *sim.Plan) *Book { return &Book{plan: p, words: map[place]string{}} }

// shown are the columns of the form in use.
func (b *Book) shown() (all []int) {
	for i, c := range columns {
		if !b.Short || c.short {
			all = append(all, i)
		}
	}
	return all
}

// Columns are the heads of the form in use.
func (b *Book) Columns() (all []picture.LogColumn) {
	word := func(k look.Key) string {
		if k == "" {
			return ""
		}
		return look.Text(k)
	}
	for _, i := range b.shown() {
		c := &columns[i]
		all = append(all, picture.LogColumn{
			Group: word(c.group), Head: word(c.head), Unit: word(c.unit), Weight: c.weight, Left: i == len(columns)-1,
		})
	}
	return all
}

// line is what the program writes of a line of the log.
func (b *Book) line(v *aboard.View, e *aboard.Entry) []string {
	card := papers.CompassCard(b.plan)
	compass := card.Steer(e.Magnetic)
	track, gs := airplot.TrackMade(e.Heading, e.TAS, e.Wind)
	run := e.Elapsed - airplot.Traces(v.Marks).SetBy(e.Elapsed)
	figure := func(x float64) string { return units.Figure(x, 0) }
	air, ground := units.Position(e.Air), units.Position(e.Ground)
	return []string{
		units.TimeText(b.plan.Start.Add(e.Elapsed))[:4], units.Degrees3(units.Angle(compass)), card.Deviation(compass).Tenths(),
		e.Variation.Tenths(), units.Degrees3(units.Angle(e.Heading)), figure(e.IAS.Knots()), figure(e.Height.Feet()),
		figure(e.OAT.Celsius()), figure(e.TAS.Knots()), figure(run.Minutes()), units.Figure(e.AirMiles.NM(), 1),
		units.LatitudeText(air.Lat), units.LongitudeText(air.Lon), e.Wind.String(),
		aboard.DriftText(units.WrapHalf(track-units.Angle(e.Heading)), 1), units.Degrees3(track), figure(gs.Knots()),
		units.LatitudeText(ground.Lat), units.LongitudeText(ground.Lon), papers.Remark(b.plan, e),
	}
}

// places gives each line of the log its place.
func places(log []aboard.Entry) []place {
	all := make([]place, len(log))
	for i := range log {
		all[i].at = log[i].Elapsed
		if i > 0 && log[i-1].Elapsed == log[i].Elapsed {
			all[i].nth = all[i-1].nth + 1
		}
	}
	return all
}

// Rows are the lines of the log so far.
func (b *Book) Rows(v *aboard.View) [][]picture.LogCell {
	at := places(v.Log)
	rows := make([][]picture.LogCell, len(v.Log))
	for k := range v.Log {
		line := b.line(v, &v.Log[k])
		for _, i := range b.shown() {
			cell := picture.LogCell{Word: line[i]}
			if b.Hand && i > 0 { // the time is the clock's
				p := at[k]
				p.which = i
				cell = picture.LogCell{Word: b.words[p], Hand: true}
				if b.Check && cell.Word != "" && !agrees(cell.Word, line[i], columns[i].within) {
					cell.Check = look.Textf(look.LogShould, cell.Word, line[i])
				}
			}
			rows[k] = append(rows[k], cell)
		}
	}
	return rows
}

// Write writes in a cell by hand; column is one of those shown.
func (b *Book) Write(v *aboard.View, row, column int, words string) {
	if p, ok := b.at(v, row, column); ok {
		b.words[p] = strings.TrimSpace(words)
	}
}

// Word is what stands in a cell by hand, and what the cell is.
func (b *Book) Word(v *aboard.View, row, column int) (word, name string, ok bool) {
	p, ok := b.at(v, row, column)
	if !ok {
		return "", "", false
	}
	c := &columns[p.which]
	name = look.Text(c.head)
	if c.group != "" {
		name = look.Text(c.group) + ", " + name
	}
	return b.words[p], units.TimeText(b.plan.Start.Add(p.at)) + ": " + name, true
}

// at is the place of a cell that can be written in.
func (b *Book) at(v *aboard.View, row, column int) (place, bool) {
	all := b.shown()
	if !b.Hand || row < 0 || row >= len(v.Log) || column < 1 || column >= len(all) {
		return place{}, false
	}
	p := places(v.Log)[row]
	p.which = all[column]
	return p, true
}

// Kept is how many cells that can be written in there are, and how many have been filled
// in rightly.
func (b *Book) Kept(v *aboard.View) (right, all int) {
	at := places(v.Log)
	for k := range v.Log {
		line := b.line(v, &v.Log[k])
		for _, i := range b.shown() {
			if i == 0 || i == len(columns)-1 {
				continue
			}
			all++
			p := at[k]
			p.which = i
			if w := b.words[p]; w != "" && agrees(w, line[i], columns[i].within) {
				right++
			}
		}
	}
	return right, all
}

// CSV writes the log as it stands.
func (b *Book) CSV(out io.Writer, v *aboard.View) error {
	w := csv.NewWriter(out)
	var head []string
	for _, c := range b.Columns() {
		head = append(head, strings.TrimSpace(c.Head+" "+c.Unit))
	}
	_ = w.Write(head) // Flush tells
	for _, row := range b.Rows(v) {
		var words []string
		for _, c := range row {
			words = append(words, c.Word)
		}
		_ = w.Write(words)
	}
	w.Flush()
	return w.Error()
}

// agrees says whether what is written by hand is what it should be: words alike but for
// spaces and capitals, figures within so much of the last part.
func agrees(hand, should string, within float64) bool {
	squeeze := func(s string) string { return strings.ToUpper(strings.Join(strings.Fields(s), "")) }
	if squeeze(hand) == squeeze(should) {
		return true
	}
	if within == 0 {
		return false
	}
	a, okA := valueOf(hand)
	z, okZ := valueOf(should)
	return okA && okZ && math.Abs(a-z) <= within+1e-9
}

// valueOf is a figure, degrees and minutes as minutes, with its letter as a sign.
func valueOf(s string) (v float64, ok bool) {
	sign := 1.0
	for _, f := range strings.Fields(strings.ToUpper(s)) {
		if letter := f[len(f)-1]; letter >= 'A' && letter <= 'Z' {
			if strings.ContainsRune("SWL", rune(letter)) {
				sign = -1
			}
			if f = f[:len(f)-1]; f == "" {
				continue
			}
		}
		x, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return 0, false
		}
		if ok {
			v = v*60 + x
		} else {
			v = x
		}
		ok = true
	}
	return sign * v, ok
}
