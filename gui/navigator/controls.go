package navigator

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/gui/sighting"
	"stillair/integrator/aboard"
)

func plottingName(a aboard.Aid) string { return plotting.AidName(a) }

// eyepiece is the aid that is looked through. Its ring is turned by dragging it round,
// the wheel of the sextant by dragging up and down; the wheel of the mouse and the arrow
// keys do the same, page up and down faster.
type eyepiece struct {
	kit.Control
	view    *View
	gripped bool
	last    float64 // where the hand held the ring last, degrees
}

// eyeKey is what the picture of the aid depends on.
type eyeKey struct {
	tick int64
	made int
	p    *look.Palette
}

func newEyepiece(v *View) *eyepiece {
	e := &eyepiece{view: v}
	e.Begin(e, v.screen, fyne.NewSize(200, 200), e.paint, nil, nil)
	return e
}

// rimShare is what is left free round an eyepiece, of the lesser side of its room.
const rimShare = 0.03

// place is middle and radius of the ring in a room of w by h.
func place(w, h float64) (x, y, r float64) {
	box := picture.EyepieceBox(1)
	rim := 2 * rimShare * math.Min(w, h)
	r = math.Min((w-rim)/box.W, (h-0.3*rim)/box.H) // the box has room to spare above and below
	return w/2 - r*(box.X+box.W/2), h/2 - r*(box.Y+box.H/2), r
}

func (e *eyepiece) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := e.Palette()
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
	if e.view.hand == nil {
		return
	}
	x, y, r := place(w, h)
	e.view.hand.Draw(picture.NewBrush(d, c, z), x, y, r)
	e.Ring(d, w, h, z)
}

// turn turns the control and shows it.
func (e *eyepiece) turn(steps float64) {
	if e.view.hand != nil {
		e.view.hand.Turn(steps)
		e.turned()
	}
}

func (e *eyepiece) turned() {
	e.view.made++
	e.view.See(e.view.moment)
}

// Dragged is part of the toolkit's contract.
func (e *eyepiece) Dragged(ev *fyne.DragEvent) {
	if e.view.hand == nil {
		return
	}
	size := e.Size()
	x, y, r := place(float64(size.Width), float64(size.Height))
	at, _ := picture.RingAt(x, y, r, paint.Pt(float64(ev.Position.X), float64(ev.Position.Y)))
	if e.gripped {
		e.view.hand.Drag(math.Remainder(at-e.last, 360), -float64(ev.Dragged.DY)/r)
	}
	e.gripped, e.last = true, at
	e.turned()
}

// DragEnd is part of the toolkit's contract.
func (e *eyepiece) DragEnd() { e.gripped = false }

// Tapped is part of the toolkit's contract: the keyboard comes to the aid.
func (e *eyepiece) Tapped(*fyne.PointEvent) {
	if c := e.view.canvas(); c != nil {
		c.Focus(e)
	}
}

// wheelSteps is how many fine steps a turn of the mouse's wheel is.
var wheelSteps = map[aboard.Aid]float64{aboard.DriftSight: 5, aboard.Sextant: 1, aboard.Loop: 1, aboard.PulseReceiver: 1, aboard.HeadingCheck: 5}

// Scrolled is part of the toolkit's contract.
func (e *eyepiece) Scrolled(ev *fyne.ScrollEvent) {
	e.turn(math.Copysign(wheelSteps[e.view.aim.Aid], float64(ev.Scrolled.DY)))
}

// TypedKey is part of the toolkit's contract.
func (e *eyepiece) TypedKey(k *fyne.KeyEvent) {
	big := sighting.Coarse(e.view.aim.Aid)
	quick := big
	if e.view.aim.Aid == aboard.Sextant {
		quick = 1
	}
	switch byNeedle := e.view.byNeedle(); {
	case byNeedle && k.Name == fyne.KeyLeft:
		e.view.alter(-alterStep)
		return
	case byNeedle && k.Name == fyne.KeyRight:
		e.view.alter(alterStep)
		return
	}
	switch k.Name {
	case fyne.KeyLeft:
		e.turn(-1)
	case fyne.KeyRight:
		e.turn(1)
	case fyne.KeyUp:
		e.turn(quick)
	case fyne.KeyDown:
		e.turn(-quick)
	case fyne.KeyPageUp:
		e.turn(big)
	case fyne.KeyPageDown:
		e.turn(-big)
	case fyne.KeyReturn, fyne.KeyEnter:
		e.view.read()
	case fyne.KeyBackspace:
		e.view.press(0)
	case fyne.KeyDelete:
		e.view.press(1)
	default:
		e.PassOn(k)
	}
}

// Cursor is part of the toolkit's contract.
func (e *eyepiece) Cursor() desktop.Cursor { return desktop.PointerCursor }

// list is the list of readings.
type list struct {
	kit.Control
	view   *View
	marked int // the row that the keyboard is on
}

// listKey is what the list depends on.
type listKey struct {
	made, first int
	p           *look.Palette
}

func newList(v *View) *list {
	l := &list{view: v}
	l.Begin(l, v.screen, fyne.NewSize(200, 60), l.paint, nil, nil)
	return l
}

// room is how many rows there is room for.
func (l *list) room() int {
	n, _ := picture.ReadingRows(l.view.screen.Size(1), float64(l.Size().Height))
	return n
}

func (l *list) paint(d *paint.Raster, w, h float64, z look.Size) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), l.Palette().Card)
	v := l.view
	b := picture.NewBrush(d, l.Palette(), z)
	if len(v.rows) == 0 {
		t := paint.Type{Font: look.Regular.Font(), Size: z.Text(16)}
		for i, line := range t.Wrap(look.Text(look.PlotNothing), w-16*z.Device) {
			d.Text(4*z.Device, (1.1+1.3*float64(i))*t.Size, line, t, l.Palette().Ink2)
		}
		return
	}
	first := max(0, min(v.first, len(v.rows)-1))
	picture.DrawReadings(b, paint.R(0, 0, w, h), v.rows[first:])
	l.Ring(d, w, h, z)
}

// Tapped is part of the toolkit's contract.
func (l *list) Tapped(e *fyne.PointEvent) {
	_, pitch := picture.ReadingRows(l.view.screen.Size(1), float64(l.Size().Height))
	if row := l.view.first + int(float64(e.Position.Y)/pitch); row < len(l.view.rows) {
		l.view.touch(row)
	}
}

// Scrolled is part of the toolkit's contract.
func (l *list) Scrolled(e *fyne.ScrollEvent) {
	l.scroll(-int(math.Copysign(1, float64(e.Scrolled.DY))))
}

func (l *list) scroll(by int) {
	v := l.view
	v.first = max(0, min(len(v.rows)-l.room(), v.first+by))
	l.Update(listKey{v.made, v.first, v.screen.Palette})
}

// TypedKey is part of the toolkit's contract.
func (l *list) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		l.mark(-1)
	case fyne.KeyDown:
		l.mark(1)
	case fyne.KeySpace, fyne.KeyReturn:
		l.view.touch(l.marked)
	default:
		l.PassOn(k)
	}
}

// mark moves the keyboard to another row and says which it is.
func (l *list) mark(by int) {
	rows := l.view.rows
	if len(rows) == 0 {
		return
	}
	l.marked = max(0, min(len(rows)-1, l.marked+by))
	if l.marked < l.view.first || l.marked >= l.view.first+l.room() {
		l.scroll(l.marked - l.view.first)
	}
	r := rows[l.marked]
	l.Tell(r.Time + " " + r.Source + " " + r.Value + ", " + r.Moved)
}
