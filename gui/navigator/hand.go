package navigator

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
)

// seeDrawn takes up what was drawn on the chart by hand since.
func (v *View) seeDrawn() {
	if v.Desk == nil {
		return
	}
	things, made := v.Desk.Drawn()
	if made != v.drawnMade || v.book.Made != v.drawnFor {
		more := len(things) > len(v.things)
		v.things, v.drawnMade, v.drawnFor = things, made, v.book.Made
		if more {
			v.chosen = len(things) - 1
		}
		v.chosen = max(0, min(v.chosen, len(things)-1))
		v.listDrawn()
	}
	v.applyHand()
	v.drawn.Update(listKey{v.made, v.firstDrawn, v.screen.Palette})
}

// listDrawn makes the rows anew.
func (v *View) listDrawn() {
	view := &v.moment.View
	checked := v.book.Check(view, v.things)
	v.drawnRows = v.drawnRows[:0]
	for i := range checked {
		c := &checked[i]
		row := picture.HandRow{What: c.What, Name: c.Name, Chosen: i == v.chosen && i < len(v.things)}
		if v.checking || c.Name == "" {
			row.Told = c.Told
		}
		if v.checking && c.Checked {
			row.Miss, row.Good = c.Miss, c.Good
			row.Verdict = look.Text(look.MyPlotBeyond)
			if c.Good {
				row.Verdict = look.Text(look.MyPlotWithin)
			}
		}
		v.drawnRows = append(v.drawnRows, row)
	}
	if v.checking {
		v.Desk.ShowChecked(checked)
	} else {
		v.Desk.ShowChecked(nil)
	}
	id := 0
	if t := v.thing(); t != nil {
		id = t.ID
	}
	v.Desk.ChooseDrawn(id)
	v.made++
}

// thing is the one that is chosen, nil if there is none.
func (v *View) thing() *plotting.Drawn {
	if v.chosen >= 0 && v.chosen < len(v.things) {
		return &v.things[v.chosen]
	}
	return nil
}

func thingText(d *plotting.Drawn) string {
	switch {
	case d == nil:
		return ""
	case d.Mark != "":
		return look.Textf(look.HandPin, d.Mark)
	}
	return d.Measured
}

// applyHand brings the keys up to what can be done.
func (v *View) applyHand() {
	why := func(forbidden bool, words look.Key) string {
		if forbidden {
			return look.Text(words)
		}
		return ""
	}
	none := v.thing() == nil
	v.keys[nameKey].Forbid(why(none, look.MyPlotNoName))
	v.keys[rubKey].Forbid(why(none, look.MyPlotNoName))
	v.keys[checkKey].Forbid(why(none, look.MyPlotEmpty))
	v.keys[unpencilKey].Forbid(why(!v.Desk.CanUndoPencil(), look.MyPlotUndoNone))
	v.keys[checkKey].Set(v.keys[checkKey].Word, kit.NoSign, v.checking)
	v.keys[ruleKey].Set(v.keys[ruleKey].Word, kit.NoSign, v.Desk.RuleLaid())
}

// check has all held against the worked plot, or no longer.
func (v *View) check() {
	v.checking = !v.checking
	v.redraw()
}

// redraw makes the rows anew and shows them.
func (v *View) redraw() {
	v.drawnMade = -1
	v.See(v.moment)
}

// nameChoices are what the chosen thing may be.
func (v *View) nameChoices() (all []choice) {
	d := v.thing()
	if d == nil {
		return nil
	}
	names := v.book.LineNames
	if d.Mark != "" {
		names = v.book.MarkNames
	}
	view := &v.moment.View
	for _, n := range append(names(view), plotting.Name{}) {
		words, under := v.book.NameText(view, n)
		all = append(all, choice{word: words, under: under, do: func() {
			label := ""
			if d.Mark == "" {
				label = v.book.Label(view, n, d)
			}
			v.Desk.CallDrawn(*d, n, label)
			v.turn(handPage)
		}})
	}
	return all
}

func (v *View) rubOut() {
	if d := v.thing(); d != nil {
		v.Desk.RubOut(*d)
		v.redraw()
	}
}

// handList is the list of what was drawn by hand.
type handList struct {
	kit.Control
	view *View
}

func newHandList(v *View) *handList {
	l := &handList{view: v}
	l.Begin(l, v.screen, fyne.NewSize(200, 60), l.paint, nil, nil)
	return l
}

func (l *handList) room() (n int, pitch float64) {
	return picture.HandRowCount(l.view.screen.Size(1), float64(l.Size().Height))
}

func (l *handList) paint(d *paint.Raster, w, h float64, z look.Size) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), l.Palette().Card)
	v, b := l.view, picture.NewBrush(d, l.Palette(), z)
	if len(v.drawnRows) == 0 {
		t := paint.Type{Font: look.Regular.Font(), Size: z.Text(16)}
		for i, line := range t.Wrap(look.Text(look.MyPlotHow), w-24*z.Device) {
			d.Text(10*z.Device, (1.5+1.3*float64(i))*t.Size, line, t, l.Palette().Ink2)
		}
	} else {
		first := max(0, min(v.firstDrawn, len(v.drawnRows)-1))
		picture.DrawHandRows(b, paint.R(0, 0, w, h), v.drawnRows[first:])
	}
	l.Ring(d, w, h, z)
}

// choose chooses a row, and brings it into sight.
func (l *handList) choose(row int) {
	v := l.view
	if row < 0 || row >= len(v.things) {
		return
	}
	v.chosen = row
	if n, _ := l.room(); row < v.firstDrawn || row >= v.firstDrawn+n {
		l.scroll(row - v.firstDrawn)
	}
	v.redraw()
	if row < len(v.drawnRows) {
		r := v.drawnRows[row]
		l.Tell(look.Textf(look.MyPlotSpeak, r.What, r.Name, r.Told))
	}
}

// Tapped is part of the toolkit's contract.
func (l *handList) Tapped(e *fyne.PointEvent) {
	_, pitch := l.room()
	l.choose(l.view.firstDrawn + int(float64(e.Position.Y)/pitch))
}

// Scrolled is part of the toolkit's contract.
func (l *handList) Scrolled(e *fyne.ScrollEvent) {
	l.scroll(-int(math.Copysign(1, float64(e.Scrolled.DY))))
}

func (l *handList) scroll(by int) {
	v := l.view
	n, _ := l.room()
	v.firstDrawn = max(0, min(len(v.drawnRows)-n, v.firstDrawn+by))
	l.Update(listKey{v.made, v.firstDrawn, v.screen.Palette})
}

// TypedKey is part of the toolkit's contract.
func (l *handList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		l.choose(l.view.chosen - 1)
	case fyne.KeyDown:
		l.choose(l.view.chosen + 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		if l.view.thing() != nil {
			l.view.turn(namePage)
		}
	case fyne.KeyDelete:
		l.view.rubOut()
	case fyne.KeyBackspace:
		l.view.Desk.UndoPencil()
		l.view.redraw()
	default:
		l.PassOn(k)
	}
}
