package charttable

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/counter"
)

// slewer is one counter with its knob. The knob is turned by dragging it round,
// with the wheel or with the arrow keys; six keys under it do the same.
type slewer struct {
	kit.Control
	panel   *counterPanel
	axis    axis
	keys    []*kit.Key
	knob    ringPlace
	last    float64 // where the hand held the rim last, degrees
	gripped bool
	part    float64 // tenths turned by the rim and not yet whole
}

// degreesPerTenth is how far the knob turns for a tenth of a minute: once round
// for ten minutes.
const degreesPerTenth = 3.6

// steps are the tenths of a minute of the six keys, from left to right: west
// and south left, east and north right.
var steps = [6]int{-100, -10, -1, 1, 10, 100}

func newSlewer(p *counterPanel, x axis) *slewer {
	s := &slewer{panel: p, axis: x}
	hint := look.Text(look.SlewHint)
	s.Begin(s, p.table.screen, fyne.NewSize(200, kit.Target), s.paint,
		func() string { return hint }, func() string { return s.Spoken() + ".\n" + hint })
	letters := [2]look.Key{look.South, look.North}
	if x == longitude {
		letters = [2]look.Key{look.West, look.East}
	}
	for i, n := range steps {
		word := []string{"10′ ", "1′ ", "0.1′ ", "0.1′ ", "1′ ", "10′ "}[i] + look.Text(letters[i/3])
		key := kit.NewKey(p.table.screen, word, kit.NoSign, kit.Target, func() { s.turn(n) })
		key.Repeats = true
		s.keys = append(s.keys, key)
	}
	return s
}

// turn turns the knob by so many tenths, unless it cannot be turned now.
func (s *slewer) turn(tenths int) {
	if reason := s.panel.idle(); reason != "" {
		s.Tell(reason)
		return
	}
	s.panel.table.air.turn(s.axis, tenths)
}

func (s *slewer) counter() picture.Counter {
	now := s.panel.shown
	if s.axis == latitude {
		return picture.Counter{Reading: now.Latitude, Row: picture.LatitudeRow, Fast: s.panel.fast}
	}
	return picture.Counter{Reading: now.Longitude, Row: picture.LongitudeRow, Fast: s.panel.fast}
}

func (s *slewer) title() look.Key {
	if s.axis == latitude {
		return look.Latitude
	}
	return look.Longitude
}

// knobAngle is how far the knob stands round: with the drums, clockwise for
// north and east.
func (s *slewer) knobAngle() float64 {
	m := s.panel.table.moment.View.Air.Lat.Minutes()
	if s.axis == longitude {
		m = s.panel.table.moment.View.Air.Lon.Minutes()
	}
	return math.Mod(m*10+float64(s.panel.table.air.pending(s.axis)), 360/degreesPerTenth) * degreesPerTenth
}

func (s *slewer) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := s.Palette(), z.Device
	b := picture.NewBrush(d, p, z)
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	r := h/2 - 4*u
	s.knob = ringPlace{r + 6*u, h / 2, r, u}
	picture.MilledKnob(b, s.knob.x, s.knob.y, r, s.knobAngle())
	c, drum := s.counter(), s.drum()*u
	width, tall := picture.CounterSize(c, drum)
	text, x := s.nameType(z), w-slewEdge*u-width
	if s.nameAbove() {
		picture.DrumCounter(b, x, h-tall, drum, c)
		d.Text(x, 0.95*text.Size, look.Text(s.title()), text, p.Ink)
	} else {
		picture.DrumCounter(b, x, (h-tall)/2, drum, c)
		if s.axis == latitude || !s.panel.hasLever() {
			d.Text(h+slewGap*u, h/2+0.35*text.Size, look.Text(s.title()), text, p.Ink)
		}
	}
	s.Ring(d, w, h, z)
}

// slewEdge is what lies right of the drums, slewGap what lies left and right of
// the name, units.
const slewEdge, slewGap = 6, 6

func (s *slewer) nameType(z look.Size) paint.Type {
	return paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
}

// nameAbove says whether the name stands above the drums, which may then be
// larger: in tall rows, unless the lever needs the room beside them.
func (s *slewer) nameAbove() bool {
	return s.Size().Height >= 86*s.panel.scale() && !s.panel.hasLever()
}

// drum is the height of the drums, units: alike for both counters, and so that
// the name, or the lever, has room between knob and drums.
func (s *slewer) drum() float64 {
	h, text := float64(s.Size().Height), s.nameType(s.panel.table.screen.Size(1))
	between, tall := max(kit.Target, text.Font.Width(look.Text(look.Longitude), text.Size))+2*slewGap, h-4
	if s.nameAbove() {
		between, tall = 2*slewGap, h-1.3*text.Size
	}
	most := float64(s.Size().Width) - h - between - slewEdge
	drum := tall / 1.24
	for range 3 { // gaps between small drums have a least width
		drum = min(drum, drum*most/longitudeWidth(drum))
	}
	return drum
}

// longitudeWidth is the width of the longitude counter for drums of height h.
func longitudeWidth(h float64) float64 {
	w, _ := picture.CounterSize(picture.Counter{Reading: counter.Hemisphere(0), Row: picture.LongitudeRow}, h)
	return w
}

// drumsLeft is where the drums begin, units, for what stands beside them.
func (s *slewer) drumsLeft() float32 {
	return float32(float64(s.Size().Width) - slewEdge - longitudeWidth(s.drum()))
}

// Dragged turns the knob as the hand goes round its middle.
func (s *slewer) Dragged(e *fyne.DragEvent) {
	at := s.angle(e.Position.X, e.Position.Y)
	if !s.gripped {
		s.gripped = true
		s.Hush()
		s.last = s.angle(e.Position.X-e.Dragged.DX, e.Position.Y-e.Dragged.DY)
		s.part = 0
	}
	s.part += math.Remainder(at-s.last, 360) / degreesPerTenth
	s.last = at
	whole := math.Trunc(s.part)
	s.part -= whole
	if whole != 0 {
		s.turn(int(whole))
	}
}

// angle is the direction of a place from the middle of the knob, degrees.
func (s *slewer) angle(x, y float32) float64 {
	p := s.knob.point(float64(x), float64(y))
	return math.Atan2(p.X-s.knob.x, s.knob.y-p.Y) * 180 / math.Pi
}

// DragEnd hands over what was turned.
func (s *slewer) DragEnd() {
	s.gripped = false
	s.panel.table.air.release(s.axis)
}

// Scrolled turns the knob by a tenth, whatever the wheel says of its speed.
func (s *slewer) Scrolled(e *fyne.ScrollEvent) {
	s.turn(int(math.Copysign(1, float64(e.Scrolled.DY))))
}

// Spoken is what the counter shows.
func (s *slewer) Spoken() string {
	return look.Text(s.title()) + ": " + spokenArc(s.counter().Reading)
}

// Cursor is part of the toolkit's contract.
func (s *slewer) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey turns the knob: left and right a tenth, up and down a minute, page
// up and page down ten.
func (s *slewer) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		s.turn(-1)
	case fyne.KeyRight:
		s.turn(1)
	case fyne.KeyUp:
		s.turn(10)
	case fyne.KeyDown:
		s.turn(-10)
	case fyne.KeyPageUp:
		s.turn(100)
	case fyne.KeyPageDown:
		s.turn(-100)
	default:
		s.panel.passOn(e)
	}
}
