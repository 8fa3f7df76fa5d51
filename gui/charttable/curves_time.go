package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// slide is how far from the clock the time of the curves may be moved.
const slide = time.Hour

// timeSlide is the time of the curves: a knob on a bar from an hour before the clock
// to an hour after it.
type timeSlide struct {
	kit.Control
	curves *curves
}

func newTimeSlide(c *curves) *timeSlide {
	s := &timeSlide{curves: c}
	s.Begin(s, c.table.screen, fyne.NewSize(200, kit.Target), s.paint, s.Spoken, s.Spoken)
	return s
}

// offset is how far from the clock the curves stand.
func (c *curves) offset() time.Duration { return c.time().Sub(c.table.moment.View.Clock) }

// slideKey is what the bar shows.
type slideKey struct {
	offset int // half minutes: less than a pixel
	clock  int64
	held   bool
	p      *look.Palette
}

func (s *timeSlide) show() {
	c := s.curves
	s.Update(slideKey{int(c.offset() / (30 * time.Second)), c.table.moment.View.Clock.Unix() / 60, !c.held.IsZero(), s.Palette()})
}

// slideEdge is where the bar begins and ends, units.
const slideEdge = 24

// slideBar is where the bar lies, in units or pixels, for a width and a scale.
func slideBar(w, u float64) (left, long float64) { return slideEdge * u, w - 2*slideEdge*u }

func (s *timeSlide) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, c, u := s.Palette(), s.curves, z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	left, long := slideBar(w, u)
	at := func(k float64) float64 { return left + long*(k+1)/2 }
	share := math.Max(-1, math.Min(1, float64(c.offset())/float64(slide)))
	y := 15 * u
	var path paint.Path
	d.Fill(path.RoundRect(paint.R(left, y-3*u, long, 6*u), 3*u), p.Slate)
	d.Fill(path.Reset().RoundRect(paint.R(left, y-3*u, at(share)-left, 6*u), 3*u), p.BrassHi)
	small := paint.Type{Font: look.Engraved.Font(), Size: z.Figure(14.5), Anchor: paint.Middle}
	clock := c.table.moment.View.Clock
	for m := -60; m <= 60; m += 10 {
		x, tall := at(float64(m)/60), 5*u
		if m%30 == 0 {
			tall = 9 * u
			d.Text(x, h-3*u, units.TimeText(clock.Add(time.Duration(m)*time.Minute)), small, p.Ink2)
		}
		d.Stroke(path.Reset().Segment(paint.Pt(x, y+11*u), paint.Pt(x, y+11*u+tall)), paint.Pen{Width: 1.4 * u}, p.Ink2)
	}
	x := at(share)
	d.Fill(path.Reset().Circle(x, y, 11*u), p.Brass)
	d.Stroke(&path, paint.Pen{Width: 2 * u}, p.BrassLo)
	d.Fill(path.Reset().Circle(x, y, 4*u), p.BrassHi)
	s.Ring(d, w, h, z)
}

// to moves the knob under the hand, to whole minutes.
func (s *timeSlide) to(x float32) {
	left, long := slideBar(float64(s.Size().Width), 1)
	if long <= 0 {
		return
	}
	share := math.Max(-1, math.Min(1, 2*(float64(x)-left)/long-1))
	at := s.curves.table.moment.View.Clock.Add(time.Duration(share * float64(slide)))
	s.Hush()
	s.curves.hold(at.Round(time.Minute))
}

// Spoken is what the bar says.
func (s *timeSlide) Spoken() string {
	return look.Textf(look.CurvesTimeHow, units.TimeText(s.curves.time()))
}

// Tapped moves the knob.
func (s *timeSlide) Tapped(e *fyne.PointEvent) { s.to(e.Position.X) }

// Dragged moves the knob.
func (s *timeSlide) Dragged(e *fyne.DragEvent) { s.to(e.Position.X) }

// DragEnd is part of the toolkit's contract.
func (s *timeSlide) DragEnd() {}

// Scrolled moves the time by a minute.
func (s *timeSlide) Scrolled(e *fyne.ScrollEvent) {
	s.minutes(int(math.Copysign(1, float64(e.Scrolled.DY))))
}

func (s *timeSlide) minutes(n int) {
	s.curves.hold(s.curves.time().Add(time.Duration(n) * time.Minute))
}

// Cursor is part of the toolkit's contract.
func (s *timeSlide) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey moves the time by a minute, or by ten.
func (s *timeSlide) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		s.minutes(-1)
	case fyne.KeyRight:
		s.minutes(1)
	case fyne.KeyPageDown:
		s.minutes(-10)
	case fyne.KeyPageUp:
		s.minutes(10)
	default:
		s.PassOn(e)
	}
}
