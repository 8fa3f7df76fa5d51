package plotting

import (
	"maps"
	"slices"

	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Drawn is a thing that somebody drew on the chart: a pencil line, or a place marked with
// a pin.
type Drawn struct {
	ID       int
	Line     airplot.PencilLine // a mark has both ends alike
	Mark     string             // the letter of a pin; "" for a line
	PerMM    units.Length       // of the earth to a millimetre of the chart it was drawn on
	Measured string             // course and length, or nothing
	Means    Name               // the zero value: nobody has said
	Words    string             // what is written beside it
}

// MostLines is how many lines a chart takes.
const MostLines = 60

// Pencil keeps what was drawn by hand, and what was before.
type Pencil struct {
	now  pencilWork
	past []pencilWork
	next int
}

// pencilWork is never changed, only replaced.
type pencilWork struct {
	lines []Drawn
	marks map[string]Name
}

// Lines are the pencil lines, oldest first.
func (p *Pencil) Lines() []Drawn { return p.now.lines }

// change keeps what was and puts something in its place.
func (p *Pencil) change(to pencilWork) {
	const most = 200
	if p.past = append(p.past, p.now); len(p.past) > most {
		p.past = p.past[1:]
	}
	p.now = to
}

// Draw adds a line; false if the chart takes no more.
func (p *Pencil) Draw(l airplot.PencilLine, perMM units.Length, measured string) bool {
	if len(p.now.lines) >= MostLines {
		return false
	}
	p.next++
	line := Drawn{ID: p.next, Line: l, PerMM: perMM, Measured: measured, Words: measured}
	p.change(pencilWork{append(slices.Clone(p.now.lines), line), p.now.marks})
	return true
}

// At is the line that lies exactly so, 0 if there is none.
func (p *Pencil) At(l airplot.PencilLine) (id int) {
	for _, d := range p.now.lines {
		if d.Line == l {
			return d.ID
		}
	}
	return 0
}

// RubOut takes a line away.
func (p *Pencil) RubOut(id int) {
	if i := p.index(id); i >= 0 {
		p.change(pencilWork{slices.Delete(slices.Clone(p.now.lines), i, i+1), p.now.marks})
	}
}

// Call says what a line means; words stand beside it from then on, those measured
// where it means nothing.
func (p *Pencil) Call(id int, means Name, words string) {
	i := p.index(id)
	if i < 0 {
		return
	}
	lines := slices.Clone(p.now.lines)
	lines[i].Means, lines[i].Words = means, words
	if means.What == NoWork {
		lines[i].Words = lines[i].Measured
	}
	p.change(pencilWork{lines, p.now.marks})
}

// CallMark says what a pin means.
func (p *Pencil) CallMark(letter string, means Name) {
	marks := maps.Clone(p.now.marks)
	if marks == nil {
		marks = map[string]Name{}
	}
	marks[letter] = means
	p.change(pencilWork{p.now.lines, marks})
}

// MarkMeans is what a pin means.
func (p *Pencil) MarkMeans(letter string) Name { return p.now.marks[letter] }

// CanUndo says whether there is anything to take back.
func (p *Pencil) CanUndo() bool { return len(p.past) > 0 }

// Undo takes the last change back and says whether there was one.
func (p *Pencil) Undo() bool {
	n := len(p.past)
	if n == 0 {
		return false
	}
	p.now, p.past = p.past[n-1], p.past[:n-1]
	return true
}

func (p *Pencil) index(id int) int {
	return slices.IndexFunc(p.now.lines, func(d Drawn) bool { return d.ID == id })
}
