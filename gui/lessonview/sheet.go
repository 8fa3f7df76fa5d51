package lessonview

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// faultOf is what tells a fault from what looks like it, "" if that is not told.
func faultOf(id string) string {
	if e, ok := fault.Lookup(id); ok {
		return e.Text().Sees
	}
	return ""
}

// The head of the panel at 1080 lines: the number of the step, the bars, the title.
const (
	headStep = 17
	barTall  = 8
)

// headHeight is how high it is, units.
func (v *View) headHeight(w float64) float64 {
	z := v.sizes(1)
	return pad + 1.5*z.head + barTall + 10 + float64(len(v.titleLines(w)))*1.2*z.title + 8
}

func (v *View) titleLines(w float64) []string {
	return paint.Type{Font: look.Bold.Font(), Size: v.sizes(1).title}.Wrap(v.title(), w-2*pad)
}

// paintHead draws number of the step, what the clock does, bars and title.
func (v *View) paintHead(d *paint.Raster, w, _ float64, z look.Size) {
	c, u, s := v.screen.Palette, z.Device, v.sizes(1)
	left, right := pad*u, w-pad*u
	y := (pad - 2 + s.head) * u
	head := paint.Type{Font: look.Bold.Font(), Size: s.head * u}
	words := look.Textf(look.LessonStep, v.course.At()+1, len(v.course.Steps()))
	d.Text(left, y, words, head, c.BrassText)
	note := paint.Type{Font: look.Regular.Font(), Size: s.small * u * 0.95, Anchor: paint.End}
	d.Text(right, y, v.note(), note, c.Ink2)
	y += 0.5 * s.head * u
	v.paintBars(d, paint.R(left, y, right-left, barTall*u), u)
	y += (barTall + 10) * u
	title := paint.Type{Font: look.Bold.Font(), Size: s.title * u}
	for _, line := range v.titleLines(w / u) {
		y += s.title * u
		d.Text(left, y, line, title, c.Ink)
		y += 0.2 * s.title * u
	}
}

// paintBars draws a bar for each step: those behind, the one in hand, those to come.
func (v *View) paintBars(d *paint.Raster, r paint.Rect, u float64) {
	c, n := v.screen.Palette, len(v.course.Steps())
	between := min(8*u, 0.2*r.W/float64(n))
	wide := (r.W - between*float64(n-1)) / float64(n)
	for i := range n {
		fill, edge := c.Low, c.Line
		switch {
		case i < v.course.At():
			fill, edge = c.Brass, c.BrassLo
		case i == v.course.At():
			fill, edge = c.BrassHi, c.BrassLo
		}
		var p paint.Path
		p.RoundRect(paint.R(r.X+float64(i)*(wide+between), r.Y, wide, r.H), r.H/2)
		d.Fill(&p, fill)
		d.Stroke(&p, paint.Pen{Width: 1.2 * u}, edge)
	}
}

// sheet is what the step says and asks, under the head.
type sheet struct {
	kit.Painted
	view *View
}

func newSheet(v *View) *sheet {
	s := &sheet{view: v}
	s.Extend(s, v.screen, fyne.NewSize(100, 100), s.paint)
	return s
}

func (s *sheet) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, c, u := s.view, s.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	room, high := v.room()
	b := brush{d, c, u, 5 * u, v.page(room, high)}
	text := b.of(look.Regular, b.text)
	y := 2 * u
	for _, lines := range b.paragraphs {
		y = b.lines(0, y, lines, text, c.Ink) + 0.45*text.Size
	}
	if b.doing {
		b.paintDo(v)
	}
	if b.pins >= 0 {
		b.paintPins(v)
	}
	if b.question != nil {
		head := b.of(look.Bold, b.head)
		y := b.asked*u + head.Size
		d.Text(b.x, y, look.Text(look.LessonQuestion), head, c.BrassText)
		b.lines(0, b.asked*u+1.5*head.Size, b.question, b.of(look.Semibold, b.text), c.Ink)
	}
	b.paintVerdict(v)
}

// brush draws the parts of a page; x is its left edge, device pixels.
type brush struct {
	d *paint.Raster
	c *look.Palette
	u float64
	x float64
	page
}

func (b *brush) of(f look.Face, size float64) paint.Type {
	return paint.Type{Font: f.Font(), Size: size * b.u}
}

// lines writes lines from an upper edge on and gives the lower one.
func (b *brush) lines(x, y float64, lines []string, t paint.Type, ink color.NRGBA) float64 {
	for _, line := range lines {
		b.d.Text(b.x+x, y+1.02*t.Size, line, t, ink)
		y += textPitch * t.Size
	}
	return y
}

// rect is a place of the page in device pixels.
func (b *brush) rect(r paint.Rect) paint.Rect {
	return paint.R(b.x+r.X*b.u, r.Y*b.u, r.W*b.u, r.H*b.u)
}

// paintDo draws what is to be done, and how far it is.
func (b *brush) paintDo(v *View) {
	c, u, box := b.c, b.u, b.rect(b.do)
	var p paint.Path
	p.RoundRect(box.Inset(u), look.CardRadius*u)
	b.d.Fill(&p, c.Ground)
	b.d.Stroke(&p, paint.Pen{Width: 2 * u}, c.BrassLo)
	b.d.Fill(p.Reset().RoundRect(paint.R(box.X, box.Y, 7*u, box.H), 3*u), c.Brass)
	head := b.of(look.Bold, b.head)
	y := box.Y + 10*u
	word := look.LessonDo
	if v.WantsPins() {
		word = look.LessonPinsDo
	}
	b.d.Text(box.X+18*u, y+head.Size, look.Text(word), head, c.BrassText)
	y = b.lines(18*u, y+1.4*head.Size, b.does, b.of(look.Semibold, b.text), c.Ink)
	if b.live {
		b.paintLive(v, paint.R(box.X+18*u, y+0.25*b.text*u, box.W-36*u, 1.5*b.text*u))
	}
}

// paintLive draws the reading as it stands, a bar with the mark at which it is done,
// and whether it is.
func (b *brush) paintLive(v *View, r paint.Rect) {
	c, u, l := b.c, b.u, v.course.Live()
	small, y := b.of(look.Regular, b.small), r.Y+r.H/2+0.35*b.small*b.u
	x := r.X
	if l.Reading != "" {
		now := look.Text(look.LessonNow)
		b.d.Text(x, y, now, small, c.Ink2)
		x += small.Font.Width(now, small.Size) + 8*u
		reading := b.of(look.Engraved, 1.15*b.text)
		b.d.Text(x, r.Y+r.H/2+0.36*reading.Size, l.Reading, reading, c.Ink)
		x += reading.Font.Width(l.Reading, reading.Size) + 14*u
	}
	word := look.Text(look.LessonNotYet)
	if l.Done {
		word = look.Text(look.LessonDone)
	}
	tick := 22 * u
	wide := small.Font.Width(word, small.Size)
	if l.Done {
		wide += tick
	}
	end := r.Right() - wide
	if l.Done {
		Tick(b.d, end+7*u, r.Y+r.H/2, 16*u, c.Ink)
		b.d.Text(end+tick, y, word, b.of(look.Semibold, b.small), c.Ink)
	} else {
		b.d.Text(end, y, word, small, c.Ink2)
	}
	if graded(v.course.Step().Until.Kind) && end-x > 60*u {
		b.paintGauge(paint.R(x, r.Y+r.H/2-4*u, end-x-16*u, 8*u), l.Share)
	}
}

// graded says whether a goal has a way to it that a bar can show.
func graded(k sim.GoalKind) bool {
	switch k {
	case sim.VariationGoal, sim.WindGoal, sim.TimeGoal, sim.HandHeadingGoal, sim.HandLatitudeGoal, sim.HandSpeedGoal:
		return true
	}
	return false
}

// paintGauge draws a bar filled to a share, with the stop mark at its end.
func (b *brush) paintGauge(r paint.Rect, share float64) {
	c, u := b.c, b.u
	var p paint.Path
	p.RoundRect(r, r.H/2)
	b.d.Fill(&p, c.Low)
	b.d.Stroke(&p, paint.Pen{Width: u}, c.Line)
	if share > 0.02 {
		b.d.Fill(p.Reset().RoundRect(paint.R(r.X, r.Y, max(r.H, r.W*share), r.H), r.H/2), c.BrassHi)
		b.d.Stroke(&p, paint.Pen{Width: u}, c.BrassLo)
	}
	b.d.Fill(p.Reset().Rect(paint.R(r.Right()-1.5*u, r.Y-6*u, 3*u, r.H+12*u)), c.Ink)
}

// Tick draws a tick round (x, y), size high.
func Tick(d *paint.Raster, x, y, size float64, ink color.NRGBA) {
	var p paint.Path
	p.MoveTo(x-0.45*size, y).LineTo(x-0.1*size, y+0.35*size).LineTo(x+0.5*size, y-0.4*size)
	d.Stroke(&p, paint.Pen{Width: max(1.6, 0.15*size), Cap: paint.Round}, ink)
}

// paintVerdict writes what is said of the choice.
func (b *brush) paintVerdict(v *View) {
	if b.verdict == nil {
		return
	}
	t := b.of(look.Regular, b.small)
	y := b.judged * b.u
	if v.verdict() == v.verdictRoom() {
		Tick(b.d, b.x+12*b.u, y+0.62*t.Size, 17*b.u, b.c.Ink)
	} else {
		b.d.Stroke(new(paint.Path).Segment(paint.Pt(b.x+5*b.u, y+0.68*t.Size), paint.Pt(b.x+20*b.u, y+0.68*t.Size)), paint.Pen{Width: 2.4 * b.u, Cap: paint.Round}, b.c.Ink2)
	}
	b.lines(32*b.u, y, b.verdict, t, b.c.Ink)
}

// paintPins lists the pins by miles, each with a bar.
func (b *brush) paintPins(v *View) {
	all := v.course.Answers()
	most := all[len(all)-1].Miles
	name, miles := b.of(look.Regular, b.small), b.of(look.Engraved, 1.2*b.text)
	miles.Anchor = paint.End
	for i, o := range all {
		r := b.rect(paint.R(0, b.pins+float64(i)*pinRow, b.w, pinRow-4))
		var p paint.Path
		p.RoundRect(r, look.CardRadius*b.u)
		fill, edge, width := b.c.Card, b.c.Line, b.u
		if i == 0 {
			fill, edge, width = b.c.Ground, b.c.BrassLo, 2*b.u
		}
		b.d.Fill(&p, fill)
		b.d.Stroke(&p, paint.Pen{Width: width}, edge)
		badge(b.d, r.X+20*b.u, r.Y+r.H/2, 12*b.u, o.Letter, b.c)
		words := units.DistanceText(o.Miles)
		end := r.Right() - 12*b.u - miles.Font.Width(words, miles.Size)
		b.d.Text(r.Right()-12*b.u, r.Y+r.H/2+0.36*miles.Size, words, miles, b.c.Ink)
		x, room := r.X+42*b.u, end-r.X-54*b.u
		b.d.Text(x, r.Y+0.42*r.H, name.Shorten(o.Name, room), name, b.c.Ink)
		share := 0.0
		if most > 0 {
			share = float64(o.Miles / most)
		}
		b.d.Fill(p.Reset().Rect(paint.R(x, r.Y+0.62*r.H, max(2*b.u, room*share), 7*b.u)), b.c.Verm)
	}
}

// badge is a letter or number on brass.
func badge(d *paint.Raster, x, y, r float64, words string, c *look.Palette) {
	var p paint.Path
	p.Circle(x, y, r)
	d.Fill(&p, c.BrassHi)
	d.Stroke(&p, paint.Pen{Width: max(1, 0.13*r)}, c.BrassLo)
	t := paint.Type{Font: look.Engraved.Font(), Size: 1.25 * r, Anchor: paint.Middle}
	d.Text(x, y+0.36*t.Size, words, t, c.OnBrass)
}
