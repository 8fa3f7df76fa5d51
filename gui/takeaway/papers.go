package takeaway

import (
	"bufio"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/atlas"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/papers"
	"stillair/integrator/units"
	"stillair/sim"
)

// Papers is the card on which the papers of a flight are ordered: what reckon papers
// prints, without a command line.
type Papers struct {
	board
	plan  *sim.Plan
	order paperOrder
	busy  bool
	turn  int
}

// paperOrder is a paper as it is ordered: numbers of what may be chosen.
type paperOrder struct {
	kind, size, latitude, form, filled, every, pupils int
}

// What may be chosen.
var (
	paperKinds = []struct {
		name string // as reckon has it, and as part of the file's name
		word look.Key
		rows []int // that belong to it, of those below
	}{
		{"sheet", look.PapersSheet, []int{latitudeRow}},
		{"stars", look.PapersStars, []int{latitudeRow}},
		{"plan", look.PapersPlan, nil},
		{"log", look.PapersLog, []int{longRow, filledRow}},
		{"readings", look.PapersReadings, []int{everyRow}},
		{"problems", look.PapersProblems, []int{pupilsRow}},
		{"deviation", look.PapersDeviation, nil},
		{"landfall", look.PapersLandfall, nil},
		{"rule", look.PapersRule, []int{latitudeRow}},
	}
	paperSizes  = []papers.Paper{papers.A4, papers.Letter}
	paperEvery  = []time.Duration{time.Minute, 5 * time.Minute, 10 * time.Minute}
	paperPupils = []int{2, 5, 10, 30}
)

// The rows of the card; those from latitudeRow on belong to some kinds only.
const (
	kindRow = iota
	paperRow
	latitudeRow
	longRow
	filledRow
	everyRow
	pupilsRow
)

// NewPapers makes the card of a flight; it is not open yet.
func NewPapers(plan *sim.Plan, screen *kit.Screen, window fyne.Window) *Papers {
	return &Papers{board: board{screen: screen, window: window, onMain: screen.Later}, plan: plan}
}

// Open shows the card.
func (p *Papers) Open() {
	if p.card != nil {
		return
	}
	p.open(look.PapersTitle, p.choices(), p.press)
	p.apply()
}

// Stop shuts the card; what comes late is not told.
func (p *Papers) Stop() {
	p.Shut()
	p.turn++
}

// choices are the rows of keys.
func (p *Papers) choices() (all []fyne.CanvasObject) {
	o := &p.order
	row := func(name look.Key, words []string, at *int) {
		all = append(all, p.row(name, words, func() int { return *at }, func(i int) { p.choose(at, i) }))
	}
	p.rows = nil
	var kinds, sizes, every, pupils []string
	for _, k := range paperKinds {
		kinds = append(kinds, look.Text(k.word))
	}
	for _, s := range paperSizes {
		sizes = append(sizes, s.Name)
	}
	for _, d := range paperEvery {
		every = append(every, lengthText(d))
	}
	for _, n := range paperPupils {
		pupils = append(pupils, strconv.Itoa(n))
	}
	latitudes := []string{}
	for _, a := range p.latitudes() {
		latitudes = append(latitudes, units.Figure(a.Degrees(), 0)+"°")
	}
	row(look.PapersKind, kinds, &o.kind)
	row(look.PapersSize, sizes, &o.size)
	row(look.PapersLatitude, latitudes, &o.latitude)
	row(look.PapersForm, keyWords(look.PapersLong, look.PapersShort), &o.form)
	row(look.PapersLines, keyWords(look.PapersEmpty, look.PapersFilled), &o.filled)
	row(look.PapersEvery, every, &o.every)
	row(look.PapersPupils, pupils, &o.pupils)
	return all
}

// choose takes up what was pressed; what came of the paper before is old news.
func (p *Papers) choose(at *int, i int) {
	*at = i
	if !p.busy {
		p.tell("", 0)
	}
	p.apply()
}

// latitudes are those on which a sheet may be true: the trade's own, and the whole
// degree nearest the middle of the flight.
func (p *Papers) latitudes() []units.Angle {
	low, high := p.plan.Aircraft.Position.Lat, p.plan.Aircraft.Position.Lat
	for _, leg := range atlas.Planned(p.plan) {
		low, high = min(low, leg.To.Lat), max(high, leg.To.Lat)
	}
	const most = 70 // as of reckon papers
	middle := units.Angle(math.Min(most, math.Round(math.Abs((low+high).Degrees()/2)))) * units.Degree
	if middle == papers.StandardLatitude {
		return []units.Angle{middle}
	}
	return []units.Angle{papers.StandardLatitude, middle}
}

// apply shows what is chosen, and the rows that belong to it.
func (p *Papers) apply() {
	if p.card == nil {
		return
	}
	for i := latitudeRow; i <= pupilsRow; i++ {
		kit.Show(has(paperKinds[p.order.kind].rows, i), p.rows[i].box)
	}
	p.settle()
}

func has(all []int, n int) bool {
	for _, i := range all {
		if i == n {
			return true
		}
	}
	return false
}

// press makes the paper.
func (p *Papers) press() {
	if p.busy {
		return
	}
	p.busy = true
	p.turn++
	turn, o, into := p.turn, p.order, p.into
	latitude := p.latitudes()[o.latitude]
	p.tell(look.Text(look.PapersBegins), 0)
	go func() {
		name, pages, err := o.make(p.plan, latitude, into)
		p.onMain(func() { p.take(turn, name, pages, err) })
	}()
}

// take tells what came of it.
func (p *Papers) take(turn int, name string, pages int, err error) {
	p.busy = false
	if turn != p.turn {
		return
	}
	if err != nil {
		p.ended(look.Textf(look.PapersFailed, brief(err)), 0)
		return
	}
	p.ended(look.Textf(look.PapersSaved, name, pages), 1)
}

// make makes a paper and gives the name of its file and the number of its pages.
func (o paperOrder) make(plan *sim.Plan, latitude units.Angle, folder string) (name string, n int, err error) {
	on := paperSizes[o.size]
	pages, err := o.pages(plan, on, latitude)
	if err != nil {
		return "", 0, err
	}
	kind := paperKinds[o.kind].name
	name = free(filepath.Join(folder, fileName(plan.Title)+"-"+kind+".pdf"))
	return name, len(pages), create(name, func(w io.Writer) error {
		return papers.Write(w, on, kind+": "+plan.Title, pages)
	})
}

func (o paperOrder) pages(plan *sim.Plan, on papers.Paper, latitude units.Angle) ([]papers.Page, error) {
	sheet := papers.SheetOrder{Latitude: latitude}
	switch paperKinds[o.kind].name {
	case "sheet":
		return papers.Sheets(plan, on, sheet)
	case "stars":
		return papers.Stars(plan, on, papers.StarsOrder{SheetOrder: sheet})
	case "plan":
		return papers.Plan(plan, on)
	case "log":
		return papers.Log(plan, on, papers.LogOrder{Short: o.form == 1, Filled: o.filled == 1})
	case "readings":
		return papers.Readings(plan, on, paperEvery[o.every])
	case "problems":
		return papers.Problems(plan, on, paperPupils[o.pupils], plan.Seed)
	case "deviation":
		return papers.Deviation(plan), nil
	case "landfall":
		return papers.Landfall(plan, "")
	}
	return papers.Rule(plan, latitude), nil
}

// create writes a file that is not there yet; half a one is taken away.
func create(name string, write func(io.Writer) error) error {
	f, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(f)
	err = errors.Join(write(out), out.Flush(), f.Close())
	if err != nil {
		_ = os.Remove(name) // what matters is told
	}
	return err
}
