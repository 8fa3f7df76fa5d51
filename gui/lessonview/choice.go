package lessonview

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim"
	"stillair/sim/fault"
)

// words are the answers to choose from, or the faults to be named; nil if the step
// has none.
func (v *View) words() (all []string) {
	s := v.course.Step()
	if s.Until.Kind == sim.FaultGoal {
		for _, id := range s.Until.Among {
			title := id
			if e, ok := fault.Lookup(id); ok {
				title = look.Capital(e.Title)
			}
			all = append(all, title)
		}
		return all
	}
	if s.Question != nil {
		return s.Question.Answers
	}
	return nil
}

// chosen says whether a choice is the one taken last.
func (v *View) chosen(i int) bool {
	s := v.course.Step()
	if s.Until.Kind == sim.FaultGoal {
		return v.course.Named() == s.Until.Among[i]
	}
	return v.course.Answered() == i
}

// take takes a choice.
func (v *View) take(i int) {
	if s := v.course.Step(); s.Until.Kind == sim.FaultGoal {
		v.course.Name(s.Until.Among[i])
	} else {
		v.course.Answer(i)
	}
	v.show()
}

// naming says whether the choices are faults to be named.
func (v *View) naming() bool { return v.course.Step().Until.Kind == sim.FaultGoal }

// choice is one answer: its words may have several lines.
type choice struct {
	kit.Control
	view   *View
	number int
	words  string
	chosen bool
	size   float64 // of its text, units
}

func newChoice(v *View, i int) *choice {
	c := &choice{view: v, number: i}
	c.Begin(c, v.screen, fyne.NewSize(60, kit.Target), c.paint, nil, func() string { return c.words })
	return c
}

// set changes what it says and whether it is taken.
func (c *choice) set(words string, chosen bool) {
	if c.words != words || c.chosen != chosen {
		c.words, c.chosen = words, chosen
		c.Repaint()
	}
}

// sized gives its text a size, units.
func (c *choice) sized(size float64) {
	if c.size != size {
		c.size = size
		c.Repaint()
	}
}

// choiceAside is the room left and right of the words, units.
const choiceAside = 9

func (c *choice) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := c.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	body := paint.R(0, 0, w, h).Inset(3 * u)
	fill, edge, ink := p.Card, p.SlateHi, p.Ink
	switch {
	case c.chosen:
		fill, edge, ink = p.Slate, p.Slate, p.OnSlate
	case c.Hover:
		fill = p.Low
	}
	var path paint.Path
	path.RoundRect(body, look.CardRadius*u)
	d.Fill(&path, fill)
	d.Stroke(&path, paint.Pen{Width: 1.5 * u}, edge)
	if c.chosen {
		path.Reset().RoundRect(paint.R(body.X+12*u, body.Bottom()-6*u, body.W-24*u, 3*u), 1.5*u)
		d.Fill(&path, p.BrassHi)
	}
	c.Ring(d, w, h, z)
	t := paint.Type{Font: look.Semibold.Font(), Size: c.size * u, Anchor: paint.Middle}
	lines := t.Wrap(c.words, w-2*choiceAside*u)
	pitch := choicePitch * t.Size
	y := h/2 - pitch*float64(len(lines)-1)/2 + 0.35*t.Size
	for i, line := range lines {
		d.Text(w/2, y+float64(i)*pitch, line, t, ink)
	}
}

// choicePitch is from line to line, of the size of the text.
const choicePitch = 1.15

// choiceHeight is how high a choice must be for its words, units.
func choiceHeight(words string, width, size float64) float64 {
	t := paint.Type{Font: look.Semibold.Font(), Size: size}
	lines := float64(len(t.Wrap(words, width-2*choiceAside)))
	return max(kit.Target, lines*choicePitch*size+22)
}

// Spoken is what the choice is called.
func (c *choice) Spoken() string { return c.words }

// Tapped takes the choice.
func (c *choice) Tapped(*fyne.PointEvent) { c.view.take(c.number) }

// TypedKey takes it with Enter or the space bar.
func (c *choice) TypedKey(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		c.view.take(c.number)
		return
	}
	c.PassOn(e)
}

// Cursor is part of the toolkit's contract.
func (c *choice) Cursor() desktop.Cursor { return desktop.PointerCursor }

// hintBox is the box of the hint: until its time only the box is there; a touch
// opens it.
type hintBox struct {
	kit.Control
	view *View
	due  bool
	size float64
}

// hintKey is what it shows.
type hintKey struct {
	step int
	due  bool
	p    *look.Palette
}

func newHintBox(v *View) *hintBox {
	b := &hintBox{view: v}
	b.Begin(b, v.screen, fyne.NewSize(60, kit.Target), b.paint, nil, b.Spoken)
	return b
}

// hintAside is the room for the sign, units.
const hintAside = 52

func (b *hintBox) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := b.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	body := paint.R(0, 0, w, h).Inset(3 * u)
	var path paint.Path
	path.RoundRect(body, look.CardRadius*u)
	edge := p.Line
	if b.Hover && !b.due {
		edge = p.SlateHi
	}
	d.Stroke(&path, paint.Pen{Width: 1.2 * u}, edge)
	b.Ring(d, w, h, z)
	x := 30 * u
	d.Stroke(path.Reset().Circle(x, h/2, 12*u), paint.Pen{Width: 1.6 * u}, p.SlateHi)
	d.Text(x, h/2+6*u, "?", paint.Type{Font: look.Semibold.Font(), Size: 17 * u, Anchor: paint.Middle}, p.Ink)
	s := b.view.course.Step()
	t := paint.Type{Font: look.Regular.Font(), Size: b.size * u}
	words, ink := s.Hint, p.Ink
	if !b.due {
		words, ink = look.Textf(look.LessonHintAfter, int(s.HintAfter.Seconds())), p.Ink2
	}
	lines := t.Wrap(words, w-(hintAside+12)*u)
	pitch := textPitch * t.Size
	y := h/2 - pitch*float64(len(lines)-1)/2 + 0.35*t.Size
	for i, line := range lines {
		d.Text(hintAside*u, y+float64(i)*pitch, line, t, ink)
	}
}

// hintHeight is how high the box must be, units: the hint itself has room from the
// start, so that nothing moves when it comes.
func hintHeight(words string, width, size float64) float64 {
	t := paint.Type{Font: look.Regular.Font(), Size: size}
	return max(46, float64(len(t.Wrap(words, width-hintAside-12)))*textPitch*size+20)
}

// Spoken is the hint, or when it comes.
func (b *hintBox) Spoken() string {
	s := b.view.course.Step()
	if b.due {
		return s.Hint
	}
	return look.Textf(look.LessonHintAfter, int(s.HintAfter.Seconds()))
}

// Tapped opens the hint before its time.
func (b *hintBox) Tapped(*fyne.PointEvent) {
	b.view.course.Hint()
	b.Hush()
	b.view.show()
}

// TypedKey opens it with Enter or the space bar.
func (b *hintBox) TypedKey(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		b.Tapped(nil)
		return
	}
	b.PassOn(e)
}
