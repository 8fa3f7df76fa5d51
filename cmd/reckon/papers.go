package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"stillair/gui/papers"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// papersCmd is `reckon papers`.
type papersCmd struct {
	Kind   string `arg:"" name:"KIND" help:"${enum}." enum:"sheet,stars,log,log-short,plan,readings,problems,deviation,landfall,rule"`
	Flight string `arg:"" name:"FLIGHT" help:"A shipped flight or a file; - is standard input."`
	Out    string `help:"The file to write; must end in .pdf." required:"" placeholder:"FILE"`
	Size   string `help:"Paper, on its side: A4 or Letter." default:"A4" placeholder:"NAME"`

	Latitude *float64 `help:"Of a sheet, its star curves and its rule: the latitude on which it is true, 0 to 70 (56)." placeholder:"DEG"`
	Centre   string   `help:"Of a sheet and its star curves: its middle, as \"47 30.0 S 179 W\"; absent: the flight's, on as many sheets as it takes." placeholder:"POSITION"`
	Plain    bool     `help:"Of a sheet: without coasts."`

	At   *time.Duration `help:"Of stars: the flight time; absent: each ten minutes of the first hour with stars." placeholder:"DURATION"`
	Pair string         `help:"Of stars: two of them, as \"Antares, Fomalhaut\"; absent: the best pair." placeholder:"NAMES"`

	Filled bool `help:"Of a log: with what was shown aboard."`

	Every *time.Duration `help:"Of readings: the time between two (1m)." placeholder:"DURATION"`

	Count *int    `help:"Of problems: how many pupils (2)." placeholder:"N"`
	Seed  *uint64 `help:"Of problems: what the numbers are drawn from; absent: the seed of the flight." placeholder:"S"`

	Place string `help:"Of a landfall: the place; absent: the one the flight is bound for." placeholder:"NAME"`
}

// Help is shown by --help.
func (papersCmd) Help() string {
	return `Nothing that is printed tells the truth of the flight.

    sheet      plotting sheet 1:1,000,000, true on a latitude, with roses and coasts
    stars      curves of equal altitude of two stars, to be laid on the sheet
    log        navigation log form; log-short has fewer columns; --filled: as flown
    plan       flight plan, worked with the forecast wind
    readings   minute by minute what every dial showed, and what the aids said
    problems   five problems for each pupil, all with other numbers, and the key
    deviation  deviation card of the compass, its curve, and a form for a swing
    landfall   chart of one port with rings of distance and a rose of bearings
    rule       rules, protractor, wind-triangle grid and height discs to cut out

For example: reckon papers sheet weather-triangle --latitude 47 --out sheet.pdf`
}

// option is an option that only some kinds have.
type option struct {
	flag  string
	given bool
	kinds string
}

// Run prints.
func (c papersCmd) Run(s streams) error {
	on, err := c.check()
	if err != nil {
		return usageError{err}
	}
	plan, _, err := open(c.Flight, s)
	if err != nil {
		return err
	}
	pages, err := c.pages(plan, on)
	if err != nil {
		var usage usageError
		if errors.As(err, &usage) {
			return err
		}
		return fmt.Errorf("%s: %w", c.Flight, err)
	}
	return toFile(c.Out, func(w io.Writer) error { return papers.Write(w, on, c.Kind+": "+plan.Title, pages) })
}

// check says what is wrong with the call.
func (c papersCmd) check() (papers.Paper, error) {
	if !strings.EqualFold(filepath.Ext(c.Out), ".pdf") {
		return papers.Paper{}, fmt.Errorf("--out = %s: must end in .pdf", c.Out)
	}
	for _, o := range []option{
		{"latitude", c.Latitude != nil, "sheet stars rule"},
		{"centre", c.Centre != "", "sheet stars"},
		{"plain", c.Plain, "sheet"},
		{"at", c.At != nil, "stars"},
		{"pair", c.Pair != "", "stars"},
		{"filled", c.Filled, "log log-short"},
		{"every", c.Every != nil, "readings"},
		{"count", c.Count != nil, "problems"},
		{"seed", c.Seed != nil, "problems"},
		{"place", c.Place != "", "landfall"},
	} {
		if o.given && !hasWord(o.kinds, c.Kind) {
			return papers.Paper{}, fmt.Errorf("--%s is of %s, not of %s", o.flag, strings.ReplaceAll(o.kinds, " ", " and "), c.Kind)
		}
	}
	if l := c.Latitude; l != nil && !(*l >= 0 && *l <= 70) {
		return papers.Paper{}, fmt.Errorf("--latitude = %g: must be 0 to 70", *l)
	}
	if err := papers.CheckEvery(c.every()); err != nil {
		return papers.Paper{}, fmt.Errorf("--%w", err)
	}
	if err := papers.CheckCount(c.count()); err != nil {
		return papers.Paper{}, fmt.Errorf("--%w", err)
	}
	if _, err := c.centre(); err != nil {
		return papers.Paper{}, err
	}
	if _, err := c.pair(); err != nil {
		return papers.Paper{}, err
	}
	on, err := papers.PaperOf(c.Size)
	if err != nil {
		return on, fmt.Errorf("--%w", err)
	}
	return on, nil
}

// latitude is that on which the sheet is true.
func (c papersCmd) latitude() units.Angle {
	if c.Latitude == nil {
		return papers.StandardLatitude
	}
	return units.Angle(*c.Latitude) * units.Degree
}

// every is the time between two readings.
func (c papersCmd) every() time.Duration {
	if c.Every == nil {
		return papers.EveryDefault
	}
	return *c.Every
}

// count is the number of pupils.
func (c papersCmd) count() int {
	if c.Count == nil {
		return papers.PupilsDefault
	}
	return *c.Count
}

// seed is what the numbers of the problems are drawn from.
func (c papersCmd) seed(p *sim.Plan) uint64 {
	if c.Seed == nil {
		return p.Seed
	}
	return *c.Seed
}

func hasWord(list, word string) bool {
	for _, w := range strings.Fields(list) {
		if w == word {
			return true
		}
	}
	return false
}

// farthestCentre is the latitude beyond which a sheet has no middle.
const farthestCentre = 75 * units.Degree

// centre is the middle asked for; nil if none is.
func (c papersCmd) centre() (*units.Position, error) {
	if c.Centre == "" {
		return nil, nil
	}
	p, err := units.ParsePosition(c.Centre)
	if err != nil {
		return nil, fmt.Errorf("--centre = %s: %w", c.Centre, err)
	}
	if p.Lat > farthestCentre || p.Lat < -farthestCentre {
		return nil, fmt.Errorf("--centre = %s: latitude must be 75 S to 75 N", c.Centre)
	}
	return &p, nil
}

// pages makes the paper asked for.
func (c papersCmd) pages(plan *sim.Plan, on papers.Paper) ([]papers.Page, error) {
	switch c.Kind {
	case "sheet":
		return c.sheets(plan, on)
	case "stars":
		return c.stars(plan, on)
	case "log", "log-short":
		return papers.Log(plan, on, papers.LogOrder{Short: c.Kind == "log-short", Filled: c.Filled})
	case "readings":
		return papers.Readings(plan, on, c.every())
	case "problems":
		return papers.Problems(plan, on, c.count(), c.seed(plan))
	case "deviation":
		return papers.Deviation(plan), nil
	case "landfall":
		pages, err := papers.Landfall(plan, c.Place)
		if err != nil && c.Place != "" {
			err = usageError{fmt.Errorf("--%w", err)}
		}
		return pages, err
	case "rule":
		return papers.Rule(plan, c.latitude()), nil
	case "plan":
		return papers.Plan(plan, on)
	}
	return nil, fmt.Errorf("there is no paper %s", c.Kind)
}

// sheet is the order of a plotting sheet.
func (c papersCmd) sheet() papers.SheetOrder {
	order := papers.SheetOrder{Latitude: c.latitude(), Plain: c.Plain}
	order.Centre, _ = c.centre() // checked before
	return order
}

func (c papersCmd) sheets(plan *sim.Plan, on papers.Paper) ([]papers.Page, error) {
	return papers.Sheets(plan, on, c.sheet())
}

// pair are the stars asked for; none if none are.
func (c papersCmd) pair() (pair [2]sky.Body, err error) {
	if c.Pair == "" {
		return pair, nil
	}
	names := strings.Split(c.Pair, ",")
	if len(names) != len(pair) {
		return pair, fmt.Errorf("--pair = %s: must be two stars with a comma between them", c.Pair)
	}
	for i, name := range names {
		b, err := sky.Lookup(strings.TrimSpace(name))
		if err != nil {
			return pair, fmt.Errorf("--pair = %s: %w", c.Pair, err)
		}
		if !b.IsStar() || b == pair[0] {
			return pair, fmt.Errorf("--pair = %s: must be two stars, not %v", c.Pair, b)
		}
		pair[i] = b
	}
	return pair, nil
}

func (c papersCmd) stars(plan *sim.Plan, on papers.Paper) ([]papers.Page, error) {
	order := papers.StarsOrder{SheetOrder: c.sheet(), At: c.At}
	order.Pair, _ = c.pair() // checked before
	return papers.Stars(plan, on, order)
}
