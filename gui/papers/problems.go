package papers

import (
	"fmt"
	"hash/fnv"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim"
)

// The numbers of pupils that there may be problems for.
const (
	PupilsDefault = 2
	pupilsMost    = 200
)

// CheckCount says what is wrong with a number of pupils.
func CheckCount(n int) error {
	if n < 1 || n > pupilsMost {
		return fmt.Errorf("count = %d: must be 1 to %d", n, pupilsMost)
	}
	return nil
}

// slip is what one pupil gets.
type slip struct {
	pupil    int
	line     string
	problems []problem
}

// SlipsPage is a sheet with the slips of two pupils, to be cut in the middle.
type SlipsPage struct{ Slips []slip }

// KeyPage is a sheet of the answer key.
type KeyPage struct {
	Line, Note string
	Form       form
	Rows       [][]string
	Number, Of int
}

// Problems are a slip of five problems for each pupil, all with other numbers,
// and the key. The same seed gives the same slips, whatever the number of pupils.
func Problems(p *sim.Plan, on Paper, count int, seed uint64) ([]Page, error) {
	line := join(p.Title, look.Textf(look.PaperSet, setMark(seed)))
	var pages []Page
	var rows [][]string
	for i := 1; i <= count; i++ {
		all, err := problems(p, seed, i)
		if err != nil {
			return nil, err
		}
		one := slip{i, line, all}
		if i%2 == 1 {
			pages = append(pages, SlipsPage{})
		}
		last := pages[len(pages)-1].(SlipsPage)
		last.Slips = append(last.Slips, one)
		pages[len(pages)-1] = last
		rows = append(rows, keyRow(one))
	}
	return append(pages, keyPages(join(line, look.Textf(look.PaperSeed, seed)), on, rows)...), nil
}

// setMark is what slips and key of one set have in common. The seed itself
// stands on the key alone, for who has it can print the key.
func setMark(seed uint64) string {
	h := fnv.New64a()
	fmt.Fprint(h, seed)
	return fmt.Sprintf("%04X", h.Sum64()&0xffff)
}

// The layout of a slip, mm.
const (
	slipGap   = 6.0 // from the cut to what is printed
	slipTop   = 27.0
	slipFoot  = 13.5
	slipInner = 3.0
	badge     = 2.9 // radius of a problem's number
)

func (s SlipsPage) draw(d *draft) {
	half := d.paper.W / 2
	if len(s.Slips) > 1 {
		d.Stroke(d.path.Reset().Segment(paint.Pt(half, margin), paint.Pt(half, d.bottom())), paint.Pen{Width: thin, Dash: []float64{2, 2}}, d.c.Ink2)
	}
	for i, one := range s.Slips {
		x := margin
		if i == 1 {
			x = half + slipGap
		}
		d.slip(x, half-margin-slipGap, one)
	}
}

// slip draws what one pupil gets, w mm wide.
func (d *draft) slip(x, w float64, s slip) {
	d.brush.Still(paint.Pt(x+4.9, headBase-1.8), 2.8)
	d.write(x+12.5, headBase, look.Textf(look.PaperPupil, s.pupil), look.Engraved, title, paint.Start, d.c.Ink)
	d.write(x, headBase+6, s.line, look.Regular, fit(s.line, look.Regular, note, w-62), paint.Start, d.c.Ink2)
	d.write(x+w-58, headBase+6, look.Text(look.PaperName), look.Regular, note, paint.Start, d.c.Ink2)
	d.line(x+w-48, headBase+6.4, x+w, headBase+6.4, hair, d.c.Ink2)
	height := (d.paper.H - margin - slipFoot - slipTop) / float64(len(s.problems))
	for i := range s.problems {
		d.problem(paint.R(x, slipTop+float64(i)*height, w, height-2), i+1, &s.problems[i])
	}
	lines := wrap(look.Text(look.CautionLong), look.Semibold, small, w)
	for i, words := range lines {
		d.write(x, d.bottom()-0.6-float64(len(lines)-1-i)*footLine, words, look.Semibold, small, paint.Start, d.c.Ink)
	}
}

// problem draws one problem in its box: number, what is given, what is asked, and
// lines for the answers; the right of the box is left for the work.
func (d *draft) problem(r paint.Rect, number int, p *problem) {
	d.box(r, line, d.c.Ink)
	at := paint.Pt(r.X+slipInner+badge, r.Y+slipInner+badge)
	d.Fill(d.path.Reset().Circle(at.X, at.Y, badge), d.c.Slate)
	d.write(at.X, at.Y+1.2, strconv.Itoa(number), look.Engraved, strong, paint.Middle, d.c.OnSlate)
	left := at.X + badge + 2
	d.write(left, r.Y+5.4, look.Text(p.title), look.Semibold, body, paint.Start, d.c.Ink)
	y := r.Y + 10
	for _, f := range p.given {
		name := f.words()
		d.write(left, y, name, look.Regular, note, paint.Start, d.c.Ink2)
		d.write(left+34, y, f.value, look.Semibold, note, paint.Start, d.c.Ink)
		y += 3.9
	}
	right := r.Right() - 44
	y = r.Y + 5.4
	y = d.paragraph(right, y, 42, look.Text(p.ask), look.Regular, note, d.c.Ink) + 3.6
	for _, a := range p.answers {
		words := look.Text(a.name)
		d.write(right, y, words, look.Regular, small, paint.Start, d.c.Ink2)
		d.line(right+look.Regular.Font().Width(words, small)+1.5, y+0.4, r.Right()-2, y+0.4, hair, d.c.Ink2)
		y += 6.4
	}
}

// words are the name of a figure.
func (f *fact) words() string {
	if f.about == "" {
		return look.Text(f.name)
	}
	return look.Textf(f.name, f.about)
}

// keyForm has a column for each answer and, where it differs, its tolerance.
var keyForm = form{rowH: 5.6, size: 2.9, cols: []column{
	{"", look.PaperPupilColumn, "", 14, false, false},
	{look.PaperTriangleKey, look.PaperHeadingWord, look.PaperWithin2, 22, false, false},
	{look.PaperTriangleKey, look.PaperGroundspeed, look.PaperWithin3, 24, false, false},
	{look.PaperAirspeedKey, look.PaperTrueAirspeed, look.PaperWithinTAS, 28, false, false},
	{look.PaperReckoningKey, look.PaperDRPosition, look.PaperWithin1, 46, false, false},
	{look.PaperFixKey, look.PaperFixWord, "", 46, false, false},
	{look.PaperFixKey, look.PaperTolerance, look.PaperUnitNM, 20, false, false},
	{look.PaperWindKey, look.PaperWindVelocity, look.PaperUnitWind, 26, false, false},
	{look.PaperWindKey, look.PaperTolerance, look.PaperUnitWindOff, 0, false, false},
}}

// keyRow are the answers of a slip.
func keyRow(s slip) []string {
	row := []string{strconv.Itoa(s.pupil)}
	for i, p := range s.problems {
		for _, a := range p.answers {
			row = append(row, a.value)
			if i >= 3 { // the tolerances of the first three stand over their columns
				row = append(row, a.tolerance)
			}
		}
	}
	return row
}

func keyPages(line string, on Paper, rows [][]string) (out []Page) {
	page := KeyPage{Line: line, Note: look.Text(look.PaperKeyNote), Form: keyForm.stretched(on.W - 2*margin)}
	n := page.Form.rowsIn(on.H - margin - 7.5 - planTail - logTop)
	page.Of = (len(rows) + n - 1) / n
	for i := range page.Of {
		page.Number, page.Rows = i, rows[i*n:min((i+1)*n, len(rows))]
		out = append(out, page)
	}
	return out
}

func (k KeyPage) draw(d *draft) {
	d.head(look.Text(look.PaperKeyTitle), k.Line, join(look.Text(look.PaperKeyLine2), sheetOf(k.Number, k.Of)))
	y := d.form(margin, logTop, k.Form, len(k.Rows), k.Rows)
	d.foot()
	d.paragraph(margin, y+4, d.paper.W-2*margin, k.Note, look.Regular, small, d.c.Ink2)
}
