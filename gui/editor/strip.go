package editor

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/drafting"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// strip is the time of the draft with its actions and faults, which are dragged to other
// times.
type strip struct {
	kit.Control
	view *View
	held string        // the table in the hand, "" for none
	at   time.Duration // where the hand is
}

func newStrip(v *View) *strip {
	s := &strip{view: v}
	s.Begin(s, v.screen, fyne.NewSize(200, stripH), s.paint, func() string { return look.Text(look.EditorStrip) }, func() string { return look.Text(look.EditorStrip) })
	return s
}

// Ends of the line, units from the sides; and how near a sign is taken hold of.
const (
	lineEnd   = 22
	signReach = 20
	lineAt    = 29 // its height, units
)

// aside is how far the sign of an event stands under the line: actions stand over it.
func aside(e *drafting.Event) float64 {
	switch e.Kind {
	case drafting.FaultEvent:
		return 13
	case drafting.MomentEvent:
		return 0
	}
	return -13
}

// length is the time that the line stands for.
func (s *strip) length() time.Duration {
	long := max(drafting.Length(s.view.draft.Plan()), time.Minute)
	for _, e := range drafting.Events(s.view.draft) {
		long = max(long, e.At)
	}
	return long
}

// x is where a time stands, units.
func (s *strip) x(at time.Duration) float32 {
	return lineEnd + (s.Size().Width-2*lineEnd)*float32(at)/float32(s.length())
}

// time is the time at a place.
func (s *strip) time(x float32) time.Duration {
	share := (x - lineEnd) / max(1, s.Size().Width-2*lineEnd)
	return time.Duration(float64(max(0, min(1, share))) * float64(s.length())).Round(30 * time.Second)
}

func (s *strip) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, c, u := s.view, s.Palette(), z.Device
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Card)
	if v.draft == nil || v.draft.Plan() == nil {
		return
	}
	b := picture.NewBrush(d, c, z)
	start := v.draft.Plan().Start
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	y := lineAt * u
	x0, x1 := lineEnd*u, w-lineEnd*u
	d.Stroke(path.Reset().Segment(paint.Pt(x0, y), paint.Pt(x1, y)), paint.Pen{Width: 2 * u}, c.Ink2)
	left, right := units.TimeText(start), units.TimeText(start.Add(s.length()))
	foot := h - 6*u
	d.Text(2*u, foot, left, small, c.Ink2)
	end := small
	end.Anchor = paint.End
	d.Text(w-2*u, foot, right, end, c.Ink2)
	for _, e := range drafting.Events(v.draft) {
		at := e.At
		if e.Item == s.held {
			at = s.at
		}
		p := paint.Pt(float64(s.x(at))*u, y+aside(&e)*u)
		switch e.Kind {
		case drafting.FaultEvent:
			until := s.length()
			if e.For > 0 {
				until = min(until, at+e.For)
			}
			d.Stroke(path.Reset().Segment(p, paint.Pt(float64(s.x(until))*u, p.Y)), paint.Pen{Width: 4 * u}, c.Verm)
			b.FaultDiamond(p, 0.85*u)
		case drafting.MomentEvent:
			d.Fill(path.Reset().Rect(paint.R(p.X-5*u, p.Y-6*u, 10*u, 12*u)), c.Card)
			d.Stroke(&path, paint.Pen{Width: 2 * u}, c.BrassLo)
		default:
			d.Fill(path.Reset().Circle(p.X, p.Y, 7*u), c.Card)
			d.Stroke(&path, paint.Pen{Width: 2.4 * u}, c.Ink)
		}
		if e.Item == v.open || e.Item == s.held {
			d.Stroke(path.Reset().Circle(p.X, p.Y, 12*u), paint.Pen{Width: 2.4 * u}, c.BrassLo)
			words := paint.Type{Font: look.Bold.Font(), Size: small.Size, Anchor: paint.Middle}
			text := units.TimeText(start.Add(at))
			half := words.Font.Width(text, words.Size) / 2
			side := small.Font.Width(left, small.Size) + half + 10*u
			d.Text(math.Max(side, math.Min(w-side, p.X)), foot, text, words, c.Ink)
		}
	}
	s.Ring(d, w, h, z)
}

// nearest is the event at a place, "" if there is none.
func (s *strip) nearest(at fyne.Position) string {
	best, reach := "", float32(signReach)
	for _, e := range drafting.Events(s.view.draft) {
		off := float32(math.Hypot(float64(s.x(e.At)-at.X), lineAt+aside(&e)-float64(at.Y)))
		if off <= reach {
			best, reach = e.Item, off
		}
	}
	return best
}

// Tapped opens an event; part of the toolkit's contract.
func (s *strip) Tapped(e *fyne.PointEvent) {
	if s.view.draft == nil {
		return
	}
	if item := s.nearest(e.Position); item != "" {
		s.view.choose(item)
	}
}

// Dragged is part of the toolkit's contract.
func (s *strip) Dragged(e *fyne.DragEvent) {
	if s.view.draft == nil {
		return
	}
	if s.held == "" {
		if s.held = s.nearest(e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY)); s.held == "" {
			return
		}
	}
	s.at = s.time(e.Position.X)
	s.Repaint()
}

// DragEnd is part of the toolkit's contract.
func (s *strip) DragEnd() {
	item := s.held
	if item == "" {
		return
	}
	s.held = ""
	item, err := drafting.MoveEvent(s.view.draft, item, s.at)
	s.view.open = item
	s.view.tell(err)
	s.view.changed()
	s.view.reveal(item)
	s.view.apply()
}

// step moves the event that is open.
func (s *strip) step(by time.Duration) {
	for _, e := range drafting.Events(s.view.draft) {
		if e.Item == s.view.open {
			item, err := drafting.MoveEvent(s.view.draft, e.Item, e.At+by)
			s.view.open = item
			s.view.tell(err)
			s.view.changed()
			return
		}
	}
}

// TypedKey moves the event that is open; part of the toolkit's contract.
func (s *strip) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyLeft:
		s.step(-time.Minute)
	case fyne.KeyRight:
		s.step(time.Minute)
	default:
		s.PassOn(k)
	}
}
