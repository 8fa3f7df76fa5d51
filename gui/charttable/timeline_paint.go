package charttable

import (
	"image/color"
	"strconv"
	"time"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// lineFrame is where the rows of the time line lie, device pixels: from the top
// the sentence, the marks, the flags on the bar, the bar, the times.
type lineFrame struct {
	bar             paint.Rect
	sentence, marks float64 // baseline; middle of the symbols
	total           int64
	z               look.Size
	k               float64 // size of symbols
}

// Shares of the height.
const (
	sentenceShare = 0.148
	marksShare    = 0.292
	barTop        = 0.49
	barShare      = 0.205
)

func frameOf(w, h float64, z look.Size, total int64) lineFrame {
	pad := linePad(z)
	return lineFrame{
		bar:      paint.R(pad, h*barTop, w-2*pad, h*barShare).Snap(),
		sentence: h * sentenceShare, marks: h * marksShare, total: total, z: z, k: max(0.8*z.Device, z.Part),
	}
}

// at is the place of a tick.
func (f *lineFrame) at(tick int64) float64 {
	return f.bar.X + f.bar.W*float64(tick)/float64(f.total)
}

// pitch is the least distance between symbols.
func (f *lineFrame) pitch() float64 { return 21 * f.k }

func (l *timeLine) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, s := l.Palette(), l.strip
	f := frameOf(w, h, z, s.total())
	l.hits = l.hits[:0]
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	l.paintSentence(d, w, &f)
	l.paintBar(d, &f)
	l.paintTimes(d, &f)
	b := &signBrush{picture.NewBrush(d, c, z), f.k}
	l.paintMarks(b, w, &f)
	l.paintFlags(b, &f)
	l.paintNow(d, &f)
}

func (l *timeLine) paintSentence(d *paint.Raster, w float64, f *lineFrame) {
	c := l.Palette()
	text := paint.Type{Font: look.Regular.Font(), Size: f.z.Text(look.TextSmall)}
	ink := c.Ink2
	if l.strip.moment.Refusal != "" {
		ink = c.Verm
	}
	words := fitted(l.strip.sentence(), w-f.bar.X, func(s string) float64 { return text.Font.Width(s, text.Size) })
	d.Text(f.bar.X, f.sentence, words, text, ink)
}

// paintBar draws what has been flown, what had been flown before the flight was
// taken back, and the headings.
func (l *timeLine) paintBar(d *paint.Raster, f *lineFrame) {
	c, m := l.Palette(), l.strip.moment
	var p paint.Path
	now, frontier := f.at(m.View.Tick), f.at(m.Frontier)
	d.Fill(p.Rect(f.bar), c.Low)
	if frontier > now+0.5 {
		band := paint.R(now, f.bar.Y, frontier-now, f.bar.H)
		d.Fill(p.Reset().Rect(band), paint.Mix(c.Low, c.BrassHi, 0.32))
		d.Stroke(p.Reset().Segment(paint.Pt(frontier, f.bar.Y), paint.Pt(frontier, f.bar.Bottom())), paint.Pen{Width: 2 * f.z.Device}, c.BrassLo)
	}
	d.Fill(p.Reset().Rect(paint.R(f.bar.X, f.bar.Y, now-f.bar.X, f.bar.H)), c.BrassHi)
	d.Stroke(p.Reset().Rect(f.bar), paint.Pen{Width: f.z.Hair()}, c.Line)
	l.paintLegs(d, f, now)
}

func (l *timeLine) paintLegs(d *paint.Raster, f *lineFrame, now float64) {
	c, s := l.Palette(), l.strip
	legs := s.shownLegs()
	text := paint.Type{Font: look.Semibold.Font(), Size: f.z.Text(look.TextSmall)}
	last := f.bar.X
	for i, leg := range legs {
		x, end := f.at(leg.From), f.bar.Right()
		if i+1 < len(legs) {
			end = f.at(legs[i+1].From)
		}
		if x > last+3*f.z.Device {
			d.Stroke(new(paint.Path).Segment(paint.Pt(x, f.bar.Y), paint.Pt(x, f.bar.Bottom())), paint.Pen{Width: 1.5 * f.z.Device}, c.BrassLo)
			last = x
		}
		name := leg.Heading.String()
		if text.Font.Width(name, text.Size)+10*f.z.Device < end-x {
			l.splitText(d, x+6*f.z.Device, f.bar.Y+f.bar.H/2+0.35*text.Size, name, text, now, f.bar)
		}
	}
}

// splitText writes in the ink of the part flown and in that of the other, parted
// at now.
func (l *timeLine) splitText(d *paint.Raster, x, y float64, s string, text paint.Type, now float64, bar paint.Rect) {
	c := l.Palette()
	for _, half := range []struct {
		r   paint.Rect
		ink color.NRGBA
	}{{paint.R(bar.X, bar.Y, now-bar.X, bar.H), c.OnBrass}, {paint.R(now, bar.Y, bar.Right()-now, bar.H), c.Ink}} {
		if x < half.r.Right() && x+text.Font.Width(s, text.Size) > half.r.X {
			d.PushClip(half.r)
			d.Text(x, y, s, text, half.ink)
			d.PopClip()
		}
	}
}

// timeLabel is a time under the bar, centred on x.
type timeLabel struct {
	x, w  float64
	words string
	now   bool
}

// timeFaces are those of now and of the other times.
func timeFaces(z look.Size) (now, other paint.Type) {
	now = paint.Type{Font: look.Bold.Font(), Size: z.Text(look.TextSmall), Anchor: paint.Middle}
	other = paint.Type{Font: look.Engraved.Font(), Size: z.Figure(look.TextSmall), Anchor: paint.Middle}
	return now, other
}

// timeLabels are the times that are written: first now, then the ends of the
// flight and the round ones that keep clear of it and of one another. every is
// the time between round ones.
func (l *timeLine) timeLabels(f *lineFrame, every time.Duration) (all []timeLabel) {
	s := l.strip
	bold, plain := timeFaces(f.z)
	gap := 10 * f.z.Device
	write := func(tick int64, words string, t paint.Type) {
		k := timeLabel{f.at(tick), t.Font.Width(words, t.Size), words, len(all) == 0}
		for _, o := range all {
			if max(k.x-o.x, o.x-k.x) < (k.w+o.w)/2+gap {
				return
			}
		}
		all = append(all, k)
	}
	start := s.table.plan.Start
	clock := func(tick int64) string { return start.Add(sim.TimeOf(tick)).Format("1504") }
	write(s.moment.View.Tick, units.TimeText(s.moment.View.Clock), bold)
	write(0, clock(0), plain)
	if end := s.table.survey.Ticks; !s.table.screen.HidePlan {
		write(end, clock(end), plain)
	}
	for _, tick := range roundTicks(start, f.total, every) {
		write(tick, clock(tick), plain)
	}
	return all
}

// roundTicks are the ticks of the round times of the clock within a flight.
func roundTicks(start time.Time, total int64, every time.Duration) (all []int64) {
	end := start.Add(sim.TimeOf(total))
	for t := start.Truncate(every); !t.After(end); t = t.Add(every) {
		if !t.Before(start) {
			all = append(all, sim.TicksOf(t.Sub(start)))
		}
	}
	return all
}

// paintTimes draws the scale under the bar.
func (l *timeLine) paintTimes(d *paint.Raster, f *lineFrame) {
	c, u := l.Palette(), f.z.Device
	bold, plain := timeFaces(f.z)
	every, small := timeSpacing(f.total, f.bar.W/(70*u))
	start := l.strip.table.plan.Start
	for _, tick := range roundTicks(start, f.total, small) {
		l.tick(d, f, f.at(tick), false)
	}
	for _, tick := range roundTicks(start, f.total, every) {
		l.tick(d, f, f.at(tick), true)
	}
	y := f.bar.Bottom() + 10*u + 0.85*plain.Size
	for _, k := range l.timeLabels(f, every) {
		t := plain
		if k.now {
			t = bold
		}
		d.Text(k.x, y, k.words, t, c.Ink)
	}
}

func (l *timeLine) tick(d *paint.Raster, f *lineFrame, x float64, round bool) {
	c, u := l.Palette(), f.z.Device
	length := 3.5 * u
	if round {
		length = 7.5 * u
	}
	y := f.bar.Bottom() + 1.5*u
	d.Stroke(new(paint.Path).Segment(paint.Pt(x, y), paint.Pt(x, y+length)), paint.Pen{Width: f.z.Hair()}, c.Ink2)
}

// paintMarks draws what was done and will be done, with words where there is
// room for them.
func (l *timeLine) paintMarks(b *signBrush, w float64, f *lineFrame) {
	c, s, u := l.Palette(), l.strip, f.z.Device
	half := f.pitch() / 2
	marks := spread(marksOf(&s.past, s.moment, s.table.plan, s.table.screen.HidePlan), f.at, f.pitch(), half, w-half)
	text := paint.Type{Font: look.Regular.Font(), Size: f.z.Text(look.TextSmall)}
	if s.rates.all() {
		for _, p := range captions(marks, f.pitch(), 0, w, func(s string) float64 { return text.Font.Width(s, text.Size) }) {
			ink := c.Ink
			if p.ahead {
				ink = c.Ink2
			}
			b.Text(p.x, f.marks+0.35*text.Size, p.words, text, ink)
		}
	}
	for i := range marks {
		m := &marks[i]
		foot := paint.Pt(m.x, f.marks+8*f.k)
		b.Stroke(new(paint.Path).Segment(foot, paint.Pt(m.at, f.bar.Y)), paint.Pen{Width: f.z.Hair()}, c.Ink2)
		b.mark(&m.mark, paint.Pt(m.x, f.marks))
		l.hit(paint.R(m.x-half, f.marks-half, 2*half, 2*half), u, m.tick, told(m, s.table.plan.Start))
	}
}

// told is what a placed mark says of itself and of those it stands for.
func told(m *placed, start time.Time) string {
	words := m.mark.told(start)
	for i := len(m.told) - 2; i >= 0; i-- { // the last is the mark itself
		words += "\n" + look.Textf(look.MarkBefore, m.told[i])
		if len(m.told)-i > 5 {
			break
		}
	}
	return words
}

func (l *timeLine) hit(r paint.Rect, device float64, tick int64, words string) {
	unit := func(v float64) float32 { return float32(v / device) }
	l.hits = append(l.hits, hit{unit(r.X), unit(r.Y), unit(r.W), unit(r.H), tick, words})
}

// pointerHalf is half the width of the pointer that says now, units.
const pointerHalf = 6.5

// flagPlaces are where the cloths of the flags begin that may be seen: at the
// pole, or to the left of it where the next flag is near or the edge, and clear
// of the pointer.
func (s *strip) flagPlaces(f *lineFrame) (all []float64) {
	wide, room, u := flagWide*f.k, linePad(f.z), f.z.Device
	now := f.at(s.moment.View.Tick)
	pole := func(i int) float64 { return f.at(min(s.moments[i].At, f.total)) }
	free := f.bar.X - room
	for i := range s.moments {
		if s.moments[i].At > s.moment.View.Tick && s.table.screen.HidePlan {
			break
		}
		x := pole(i)
		next := f.bar.Right() + room
		if i+1 < len(s.moments) {
			next = pole(i + 1)
		}
		right, left := clearOf(x, wide, now, (pointerHalf+1)*u), clearOf(x-wide, wide, now, (pointerHalf+1)*u)
		at := right
		if right+wide+u > next && left >= free {
			at = left
		}
		if at < free { // a crowd: on to the right, past the pointer
			at = free
			if clearOf(at, wide, now, (pointerHalf+1)*u) != at {
				at = now + (pointerHalf+1)*u
			}
		}
		all = append(all, at)
		free = at + wide + u
	}
	return all
}

// clearOf moves a cloth that begins at x to the nearer side of the pointer, if it
// would touch it.
func clearOf(x, wide, now, half float64) float64 {
	switch {
	case x+wide <= now-half || x >= now+half:
		return x
	case x+wide/2 < now:
		return now - half - wide
	}
	return now + half
}

// paintFlags draws the named moments.
func (l *timeLine) paintFlags(b *signBrush, f *lineFrame) {
	s := l.strip
	u, size := f.z.Device, f.z.Figure(0.85*look.TextSmall)
	wide, tall := flagWide*f.k, flagTall*f.k
	for i, x := range s.flagPlaces(f) {
		m := s.moments[i]
		digit := strconv.Itoa(i + 1)
		b.flag(paint.Pt(f.at(min(m.At, f.total)), f.bar.Y), x, digit, m.At > s.moment.View.Tick, size)
		when := units.TimeText(s.table.plan.Start.Add(sim.TimeOf(m.At)))
		l.hit(paint.R(x-3*u, f.bar.Y-tall-2*u, wide+6*u, tall+2*u), u, m.At, look.Textf(look.MomentTold, digit, m.Name, when))
	}
}

// paintNow draws the pointer.
func (l *timeLine) paintNow(d *paint.Raster, f *lineFrame) {
	c, u := l.Palette(), f.z.Device
	x := f.at(l.strip.moment.View.Tick)
	d.Stroke(new(paint.Path).Segment(paint.Pt(x, f.bar.Y), paint.Pt(x, f.bar.Bottom()+7*u)), paint.Pen{Width: 2.5 * u}, c.Ink)
	d.Fill(new(paint.Path).Polygon(paint.Pt(x-pointerHalf*u, f.bar.Y-9*u), paint.Pt(x+pointerHalf*u, f.bar.Y-9*u), paint.Pt(x, f.bar.Y+1*u)), c.Ink)
}
