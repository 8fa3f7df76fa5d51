package papers

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/geomag"
)

// colour shortens what many signatures need.
type colour = color.NRGBA

// The trade's standard plotting sheet: 1:1,000,000 at 56 degrees (common
// practice, no source).
const (
	StandardLatitude = 56 * units.Degree
	StandardScale    = 1_000_000
)

// SheetOrder is what is wanted of a plotting sheet.
type SheetOrder struct {
	Latitude units.Angle     // standard latitude, N or S: the sheet is true there
	Centre   *units.Position // nil: the middle of the flight
	Plain    bool            // no coasts
}

// Sheet is a plotting sheet.
type Sheet struct {
	Title       string
	Centre      units.Position
	Latitude    units.Angle // standard latitude
	Denominator float64
	Waters      picture.Waters     // coasts and places; empty on a plain sheet
	Keep        [][]units.Position // lines that roses keep off
	Required    []units.Position   // the way by the plan
	// Variation is that of a place on a chart of the year; nil: the roses are
	// true only.
	Variation func(units.Position) units.Variation
	Year      int // of the variation; 0: of no year
	Number    int // of Of sheets, from 0
	Of        int
	Next      []neighbour
}

// Sheets are the plotting sheets of a flight: one, if the flight fits on it, or
// as many as it takes, with an index before them if they are many; one about the
// centre if that is given.
func Sheets(p *sim.Plan, on Paper, o SheetOrder) (pages []Page, err error) {
	all, err := sheets(p, on, o)
	if err != nil {
		return nil, err
	}
	if len(all) >= indexFrom {
		pages = append(pages, IndexPage{Sheets: all, Of: on})
	}
	for _, s := range all {
		pages = append(pages, s)
	}
	return pages, nil
}

// sheets are the sheets alone.
func sheets(p *sim.Plan, on Paper, o SheetOrder) ([]Sheet, error) {
	s, err := sheetFor(p, o)
	if err != nil {
		return nil, err
	}
	centres := []units.Position{s.Centre}
	if o.Centre == nil {
		if centres, err = s.tile(on); err != nil {
			return nil, err
		}
	}
	all := make([]Sheet, len(centres))
	for i, c := range centres {
		s.Centre, s.Number, s.Of = c, i, len(centres)
		all[i] = s
	}
	for i := range all {
		all[i].Next = neighbours(all, on, i)
	}
	return all, nil
}

func sheetFor(p *sim.Plan, o SheetOrder) (Sheet, error) {
	w, err := atlas.Of(p)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Title: p.Title, Latitude: o.Latitude, Denominator: StandardScale, Keep: w.Keep, Required: w.Points}
	if w.Title != "" {
		s.Title = w.Title
	}
	if !o.Plain {
		s.Waters = w
	}
	s.Variation, s.Year = variationOf(p)
	if o.Centre != nil {
		s.Centre = *o.Centre
	}
	return s, nil
}

// variationOf is what a chart of the flight's year prints, in whole degrees.
func variationOf(p *sim.Plan) (func(units.Position) units.Variation, int) {
	whole := func(deg float64) units.Variation {
		return units.Variation(math.Round(deg)) * units.Variation(units.Degree)
	}
	if p.Field != nil {
		v := whole(p.Field.Degrees())
		return func(units.Position) units.Variation { return v }, 0
	}
	model, err := geomag.New(geomag.DecimalYear(p.Start))
	if err != nil {
		return nil, 0 // no chart of that year: the roses are true only
	}
	return func(at units.Position) units.Variation { return whole(model.At(at, 0).D.Degrees()) }, p.Start.UTC().Year()
}

// The frame of a sheet in the paper, mm.
const (
	frameSide = 24.0
	frameTop  = 23.0
	frameFoot = 39.0 // from the lower edge of the paper
	tileLap   = 20.0 // by which two sheets of a flight overlap
	tileEdge  = 10.0 // the flight stays so far inside
)

func frameOf(on Paper) paint.Rect {
	return paint.R(frameSide, frameTop, on.W-2*frameSide, on.H-frameTop-frameFoot)
}

// mostSheets is the number of sheets that a flight may be spread over.
const mostSheets = 200

// tile finds the centres of the sheets on which a flight fits.
func (s *Sheet) tile(on Paper) ([]units.Position, error) {
	box := frameOf(on)
	ref := s.Keep[0][0]
	c := newChart(box, ref, s.Latitude, s.Denominator)
	pts := dense(c, s.Keep)
	lo, hi := pts[0], pts[0]
	for _, p := range pts {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	if span := max(hi.X-lo.X, hi.Y-lo.Y); !(span < mostSheets*(box.H-2*tileEdge-tileLap)) {
		return nil, s.tooMany()
	}
	across := func(span, frame float64) (n int, step float64) {
		fits := frame - 2*tileEdge
		if span <= fits {
			return 1, 0
		}
		n = 1 + int(math.Ceil((span-fits)/(fits-tileLap)))
		return n, (span - fits) / float64(n-1)
	}
	nx, dx := across(hi.X-lo.X, box.W)
	ny, dy := across(hi.Y-lo.Y, box.H)
	mid := paint.Pt((lo.X+hi.X)/2, (lo.Y+hi.Y)/2)
	var out []units.Position
	for j := range ny {
		for i := range nx {
			m := mid.Add((float64(i)-float64(nx-1)/2)*dx, (float64(j)-float64(ny-1)/2)*dy)
			frame := paint.R(m.X-box.W/2, m.Y-box.H/2, box.W, box.H).Inset(tileEdge - 1)
			for _, p := range pts {
				if frame.Contains(p) {
					out = append(out, c.position(m))
					break
				}
			}
		}
	}
	if len(out) > mostSheets {
		return nil, s.tooMany()
	}
	return out, nil
}

func (s *Sheet) tooMany() error {
	return fmt.Errorf("the flight does not fit on %d sheets true on %s; give a centre, or a greater latitude", mostSheets, latitudeWords(s.Latitude.Degrees()))
}

// mostPoints bounds the points of one leg on a sheet: 40 m of paper.
const mostPoints = 20000

// dense are points no farther than 2 mm apart along the lines.
func dense(c chart, lines [][]units.Position) (out []paint.Point) {
	round := 360 * mm(c.merc.Degree())
	for _, l := range lines {
		for i, p := range l {
			q := c.at(p)
			if i == 0 {
				out = append(out, q)
				continue
			}
			last := out[len(out)-1]
			q.X += round * math.Round((last.X-q.X)/round)
			n := math.Ceil(last.Dist(q) / 2)
			if !(n < mostPoints) { // toward a pole the sheet has no end
				return append(out, paint.Pt(math.Inf(1), math.Inf(1)))
			}
			for k := 1.0; k <= n; k++ {
				out = append(out, paint.Pt(last.X+(q.X-last.X)*k/n, last.Y+(q.Y-last.Y)*k/n))
			}
		}
	}
	return out
}

// chart is the piece of the earth in its frame.
func (s *Sheet) chart(on Paper) chart {
	return newChart(frameOf(on), s.Centre, s.Latitude, s.Denominator)
}

func (s Sheet) draw(d *draft) {
	c := s.chart(d.paper)
	d.head(look.Textf(look.PaperSheetTitle, s.Title), s.scaleText(), join(look.Text(look.PaperMercator), sheetOf(s.Number, s.Of)))
	rings := d.coasts(c, s.Waters.Coasts)
	d.graticule(c)
	d.gridLabels(c)
	r := &room{box: c.box.Inset(0.8)}
	d.neighbours(c, s.Next, r)
	d.names(c, &s.Waters, rings, r)
	for _, at := range roseSpots(c, obstaclesOf(rings, r, dense(c, s.Keep)), 2) {
		one := rose{at: at, year: s.Year}
		if s.Variation != nil {
			v := s.Variation(c.position(at))
			one.variation = &v
		}
		d.rose(one)
	}
	d.foot()
	d.checkBar(c.box.X, c.box.Bottom()+10.2, s.barText())
	d.key(c.box.Right()-keyWidth+2, c.box.Bottom()+8.6)
}

// obstaclesOf are what roses keep off.
func obstaclesOf(rings [][]paint.Point, r *room, track []paint.Point) obstacles {
	o := obstacles{track: track}
	for _, ring := range rings {
		o.land = append(o.land, ring...)
	}
	for _, q := range r.taken {
		for x := 0.0; x <= 1; x += 0.25 {
			o.words = append(o.words, paint.Pt(q.X+x*q.W, q.Centre().Y))
		}
	}
	return o
}

// scaleText is "1:1,000,000 at 56 S".
func (s *Sheet) scaleText() string {
	lat := math.Copysign(math.Abs(s.Latitude.Degrees()), s.Centre.Lat.Degrees())
	return look.Textf(look.PaperScaleAt, grouped(int(math.Round(s.Denominator))), latitudeWords(lat))
}

// latitudeWords writes a standard latitude: "56 S", "47.5 S", "0".
func latitudeWords(deg float64) string {
	text := units.Figure(math.Abs(deg), 1)
	text = strings.TrimSuffix(text, ".0")
	switch {
	case text == "0":
		return text
	case deg < 0:
		return text + " S"
	}
	return text + " N"
}

// grouped writes a whole number with commas.
func grouped(n int) string {
	text := units.Figure(float64(n), 0)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// barText says what the bar stands for where the sheet is true.
func (s *Sheet) barText() string {
	km := s.Denominator * 0.1 / 1000
	return look.Textf(look.PaperBarMeans, latitudeWords(math.Copysign(s.Latitude.Degrees(), s.Centre.Lat.Degrees())),
		units.Figure(km, 0), units.Figure(km/1.852, 1))
}

// join puts words together that are there.
func join(words ...string) string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}
