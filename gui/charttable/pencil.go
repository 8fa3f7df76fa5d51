package charttable

import (
	"io"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/airplot"
)

// drawn are the pencil lines as they are drawn.
func (s *tools) drawn() (all []picture.Pencil) {
	for _, d := range s.pencil.Lines() {
		all = append(all, picture.Pencil{
			A: d.Line.From, B: d.Line.To, Words: d.Words, Meant: d.Means.What != plotting.NoWork, Chosen: d.ID == s.chosen,
		})
	}
	return all
}

// onPaper are the pencil lines as they are saved: none is chosen.
func (s *tools) onPaper() []picture.Pencil {
	all := s.drawn()
	for i := range all {
		all[i].Chosen = false
	}
	return all
}

// changed paints the chart after something was done with the pencil.
func (s *tools) changed() {
	s.made++
	s.shown = nil
	s.table.chart.Repaint()
	s.table.tellDrawn()
}

// WhenDrawn has something done after each change of what is drawn by hand, and after the
// rule was laid.
func (t *Table) WhenDrawn(do func()) { t.drew = do }

func (t *Table) tellDrawn() {
	if t.drew != nil {
		t.drew()
	}
}

func (s *tools) rubOut(id int) {
	s.pencil.RubOut(id)
	s.changed()
}

// Drawn is all that was drawn by hand, lines first, then pins, and a number that is
// another one after each change.
func (t *Table) Drawn() (all []plotting.Drawn, made int) {
	s := t.tools
	all = append(all, s.pencil.Lines()...)
	for i := range t.pins.all {
		p := &t.pins.all[i]
		letter := string(p.letter)
		line := airplot.PencilLine{From: p.at, To: p.at}
		all = append(all, plotting.Drawn{Line: line, Mark: letter, PerMM: s.perMillimetre(line), Means: s.pencil.MarkMeans(letter)})
	}
	return all, s.made + t.pins.made
}

// CallDrawn says what something drawn by hand is, with the words for beside a line.
func (t *Table) CallDrawn(d plotting.Drawn, n plotting.Name, words string) {
	if d.Mark != "" {
		t.tools.pencil.CallMark(d.Mark, n)
	} else {
		t.tools.pencil.Call(d.ID, n, words)
	}
	t.tools.changed()
}

// RubOut takes something drawn by hand away.
func (t *Table) RubOut(d plotting.Drawn) {
	if d.Mark == "" {
		t.tools.rubOut(d.ID)
		return
	}
	t.pins.remove(d.Mark[0])
	t.tools.changed()
}

// UndoPencil takes back the last thing done with the pencil; CanUndoPencil says whether
// there is one.
func (t *Table) UndoPencil() {
	if t.tools.pencil.Undo() {
		t.tools.changed()
	}
}

// CanUndoPencil says whether there is anything to take back.
func (t *Table) CanUndoPencil() bool { return t.tools.pencil.CanUndo() }

// ChooseDrawn has the chart show which line is meant; 0: none.
func (t *Table) ChooseDrawn(id int) {
	if t.tools.chosen != id {
		t.tools.chosen = id
		t.chart.Repaint()
	}
}

// ShowChecked shows on the chart how far apart things drawn by hand and worked ones lie.
func (t *Table) ShowChecked(all []plotting.Checked) {
	t.tools.shown = all
	t.chart.Repaint()
}

// LayRule lays the rule on the chart, or takes it off.
func (t *Table) LayRule() { t.layTool(rule) }

// RuleLaid says whether it lies there.
func (t *Table) RuleLaid() bool { return t.tools.laid[rule] }

// KeepPage asks where to and writes a page that a stage has drawn, as a PDF.
func (t *Table) KeepPage(name string, draw func(io.Writer, paint.Format) error) {
	file := fileName(t.plan.Title) + "-" + fileName(name) + ".pdf"
	t.askWhere(look.SwingSave, look.ThePage, file, []string{".pdf"}, func(name string) { t.save(draw, name) })
}
