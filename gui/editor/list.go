package editor

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/drafting"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// list is the list of rows, or of choices.
type list struct {
	kit.Control
	view   *View
	marked int // the row that the keyboard is on
	under  int // the row under the pointer, -1 for none
	pulled float32
}

// listKey is what the list depends on.
type listKey struct {
	paneKey
	first int
}

func newList(v *View) *list {
	l := &list{view: v, under: -1}
	l.Begin(l, v.screen, fyne.NewSize(200, 80), l.paint, nil, nil)
	return l
}

// pitch is the height of a row, units.
func (v *View) pitch() float32 {
	return kit.Whole(max(36, 2.1*float32(v.screen.Size(1).Text(look.TextSmall))))
}

// room is how many rows there is room for.
func (l *list) room() int { return max(1, int((l.Size().Height+1)/l.view.pitch())) }

// count is how many rows there are.
func (v *View) count() int {
	if v.picking != nil {
		return len(v.picking.picks)
	}
	return len(v.rows)
}

// shown is row i as it is to be painted.
func (v *View) shown(i int) (r drafting.Row, chosen bool) {
	if v.picking == nil {
		r = v.rows[i]
		return r, r.Kind == drafting.HeadRow && r.Item == v.open
	}
	p := v.picking.picks[i]
	r = drafting.Row{Label: p.Word, Kind: drafting.HeadRow}
	if p.Title {
		r.Kind = drafting.TitleRow
	}
	return r, p.Now
}

func (l *list) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, c := l.view, l.Palette()
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
	if v.draft == nil {
		return
	}
	u := z.Device
	pitch := float64(v.pitch()) * u
	right := w - 6*u
	n := v.count()
	if n > l.room() { // a bar that says where in the list this is
		top, tall := float64(v.first)/float64(n), math.Min(1, float64(l.room())/float64(n))
		d.Fill(path.Reset().RoundRect(paint.R(w-5*u, top*h, 4*u, tall*h), 2*u), c.SlateHi)
		right -= 6 * u
	}
	for i := v.first; i < min(n, v.first+l.room()); i++ {
		l.row(d, paint.R(0, float64(i-v.first)*pitch, right, pitch), i, z)
	}
	l.Ring(d, w, h, z)
}

// row paints one row.
func (l *list) row(d *paint.Raster, r paint.Rect, i int, z look.Size) {
	v, c, u := l.view, l.Palette(), z.Device
	row, chosen := v.shown(i)
	var path paint.Path
	touched := row.Kind != drafting.TitleRow
	switch {
	case chosen:
		d.Fill(path.RoundRect(r.Inset(u), 4*u), c.Low)
		d.Fill(path.Reset().Rect(paint.R(r.X+u, r.Y+3*u, 4*u, r.H-6*u)), c.Brass)
	case touched && i == l.under:
		d.Fill(path.RoundRect(r.Inset(u), 4*u), c.Low)
	}
	if l.Focused && i == l.marked {
		d.Stroke(path.Reset().RoundRect(r.Inset(2*u), 4*u), paint.Pen{Width: 2 * u}, c.SlateHi)
	}
	label := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	value := paint.Type{Font: look.Semibold.Font(), Size: label.Size, Anchor: paint.End}
	x, ink, vink := r.X+12*u, c.Ink, c.Ink
	switch row.Kind {
	case drafting.TitleRow:
		label.Font, ink, x = look.Bold.Font(), c.Ink2, r.X+6*u
		if row.Faint {
			label.Font = look.Regular.Font()
		}
	case drafting.HeadRow:
		label.Font = look.Semibold.Font()
	default:
		x = r.X + 22*u
		ink = c.Ink2
	}
	if row.Faint {
		value.Font, vink = look.Regular.Font(), c.Ink2
	}
	y := r.Y + r.H/2 + 0.36*label.Size
	room := r.Right() - x - 8*u
	said := value.Shorten(row.Value, 0.68*room)
	d.Text(r.Right()-6*u, y, said, value, vink)
	d.Text(x, y, label.Shorten(row.Label, room-value.Font.Width(said, value.Size)-10*u), label, ink)
	if row.Kind == drafting.ValueRow {
		d.Fill(path.Reset().Rect(paint.R(x, r.Bottom()-z.Hair(), r.Right()-x-6*u, z.Hair())), c.Line)
	}
}

// at is the row at a height, -1 if there is none.
func (l *list) at(y float32) int {
	i := l.view.first + int(y/l.view.pitch())
	if y < 0 || i >= l.view.count() || i >= l.view.first+l.room() {
		return -1
	}
	return i
}

// Tapped is part of the toolkit's contract.
func (l *list) Tapped(e *fyne.PointEvent) {
	if i := l.at(e.Position.Y); i >= 0 && l.view.draft != nil {
		l.view.touch(i)
	}
}

// MouseMoved is part of the toolkit's contract.
func (l *list) MouseMoved(e *desktop.MouseEvent) {
	if i := l.at(e.Position.Y); i != l.under {
		l.under = i
		l.Repaint()
	}
}

// MouseOut is part of the toolkit's contract.
func (l *list) MouseOut() {
	l.under = -1
	l.Control.MouseOut()
}

// Scrolled is part of the toolkit's contract.
func (l *list) Scrolled(e *fyne.ScrollEvent) {
	l.scroll(-2 * int(math.Copysign(1, float64(e.Scrolled.DY))))
}

// Dragged scrolls the list under a finger; part of the toolkit's contract.
func (l *list) Dragged(e *fyne.DragEvent) {
	l.pulled -= e.Dragged.DY
	by := int(l.pulled / l.view.pitch())
	l.pulled -= float32(by) * l.view.pitch()
	l.scroll(by)
}

// DragEnd is part of the toolkit's contract.
func (l *list) DragEnd() { l.pulled = 0 }

func (l *list) scroll(by int) {
	v := l.view
	v.first = max(0, min(v.count()-l.room(), v.first+by))
	v.paint()
}

// TypedKey is part of the toolkit's contract.
func (l *list) TypedKey(k *fyne.KeyEvent) {
	v := l.view
	switch k.Name {
	case fyne.KeyUp:
		l.mark(-1)
	case fyne.KeyDown:
		l.mark(1)
	case fyne.KeyPageUp:
		l.mark(-l.room())
	case fyne.KeyPageDown:
		l.mark(l.room())
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		v.touch(l.marked)
	case fyne.KeyDelete:
		v.remove()
	default:
		l.PassOn(k)
	}
}

// mark moves the keyboard to another row and says which it is.
func (l *list) mark(by int) {
	v := l.view
	if v.count() == 0 {
		return
	}
	l.marked = max(0, min(v.count()-1, l.marked+by))
	switch {
	case l.marked < v.first:
		v.first = l.marked
	case l.marked >= v.first+l.room():
		v.first = l.marked - l.room() + 1
	}
	l.Repaint()
	r, _ := v.shown(l.marked)
	if r.Value == "" {
		l.Tell(r.Label)
		return
	}
	l.Tell(look.Textf(look.EditorRowSpoken, r.Label, r.Value))
}

// Cursor is part of the toolkit's contract.
func (l *list) Cursor() desktop.Cursor { return desktop.PointerCursor }
