package charttable

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
	"stillair/integrator/units"
	"stillair/sim"
)

// strip is the card at the foot: clock, keys, time line with the headings,
// time rate, and a sentence that says why the positions part.
type strip struct {
	card
	table  *Table
	survey helm.Survey
	start  time.Time
	play   *kit.Key
	back   *kit.Key
	step   *kit.Key
	again  *kit.Key
	slower *kit.Key
	faster *kit.Key
	line   *timeLine
	moment *helm.Moment
	clockW float32
	rateX  float32
}

func newStrip(t *Table) *strip {
	s := &strip{table: t, survey: t.survey, start: t.plan.Start, moment: t.helm.Moment()}
	s.init(s, t.screen, "", s.paintStrip)
	key := func(word look.Key, sign kit.Sign, width float32, press func()) *kit.Key {
		w := ""
		if word != "" {
			w = look.Text(word)
		}
		return kit.NewKey(t.screen, w, sign, width, press)
	}
	s.again = key("", kit.RestartSign, kit.Target, func() { t.helm.GoTo(0) })
	s.back = key("", kit.StepBackSign, kit.Target, func() { t.helm.Step(-sim.TicksPerSecond) })
	s.play = key(look.Play, kit.PlaySign, 124, t.playOrPause)
	s.play.Main = true
	s.step = key("", kit.StepSign, kit.Target, func() { t.helm.Step(1) })
	s.slower = key("", kit.MinusSign, kit.Target, func() { t.helm.ChangeRate(-1) })
	s.faster = key("", kit.PlusSign, kit.Target, func() { t.helm.ChangeRate(1) })
	s.line = newTimeLine(s)
	return s
}

func (s *strip) keys() []fyne.CanvasObject {
	return []fyne.CanvasObject{s.again, s.back, s.play, s.step, s.slower, s.faster, s.line}
}

// lay puts the keys on the card.
func (s *strip) lay(b box) {
	const pad, gap = 12, 8
	foot := b.y + b.h - pad - kit.Target
	x := b.x + pad
	for _, k := range []*kit.Key{s.again, s.back, s.play, s.step} {
		w := k.MinSize().Width
		box{x, foot, w, kit.Target}.put(k)
		x += w + gap
	}
	s.clockW = x - b.x - pad
	right := b.x + b.w - pad
	box{right - kit.Target, foot, kit.Target, kit.Target}.put(s.faster)
	s.rateX = right - 2*kit.Target - rateRoom(b)
	box{s.rateX, foot, kit.Target, kit.Target}.put(s.slower)
	box{x + 12, b.y + 30, s.rateX - x - 36, b.h - 34}.put(s.line)
}

// rateRoom is the room for the rate between its two keys.
func rateRoom(b box) float32 {
	if b.w > 1600 {
		return 150
	}
	return 92
}

// apply brings the card up to a moment.
func (s *strip) apply(m *helm.Moment) {
	s.moment = m
	if m.Playing {
		s.play.Set(look.Text(look.Pause), kit.PauseSign, false)
	} else {
		s.play.Set(look.Text(look.Play), kit.PlaySign, false)
	}
	ended := ""
	if m.Over {
		ended = look.Text(look.FlightEnded)
	}
	s.play.Forbid(ended)
	s.step.Forbid(ended)
	s.Update(stripKey{m.View.Tick, m.Rate, why(&m.View) + m.Refusal, s.Palette()})
	s.line.Update(lineKey{m.View.Tick * int64(s.line.Size().Width) / max(1, s.survey.Ticks), m.Frontier, s.Palette()})
}

type stripKey struct {
	tick  int64
	rate  float64
	words string
	p     *look.Palette
}

type lineKey struct {
	pixel, frontier int64
	p               *look.Palette
}

func (s *strip) paintStrip(d *paint.Raster, w, h float64, z look.Size) {
	c, m := s.Palette(), s.moment
	pad := 14 * z.Device
	drum := math.Min(40*z.Device, h-pad-float64(kit.Target+12+10)*z.Device)
	seconds := m.View.Clock.Sub(m.View.Clock.Truncate(24 * time.Hour)).Seconds()
	end := drawClock(d, pad, pad*0.9, drum/1.24, counter.Clock(seconds), c, z, m.Playing && m.Rate >= fastRate)
	text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	d.Text(end+10*z.Device, pad*0.9+drum*0.66, look.Text(look.Zulu)+"  "+units.DateText(m.View.Clock), text, c.Ink)
	text.Size = z.Text(look.TextSmall)
	text.Font = look.Regular.Font()
	line := why(&m.View)
	ink := c.Ink2
	if m.Refusal != "" {
		line, ink = m.Refusal, c.Verm
	}
	d.Text((float64(s.clockW)+36)*z.Device, 24*z.Device, line, text, ink)
	s.paintRate(d, z)
}

func (s *strip) paintRate(d *paint.Raster, z look.Size) {
	c, m := s.Palette(), s.moment
	left := float64(s.rateX-s.Position().X) * z.Device
	label := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	d.Text(left, 24*z.Device, look.Text(look.TimeRate), label, c.Ink)
	right := float64(s.faster.Position().X-s.Position().X+kit.Target) * z.Device
	label.Anchor = paint.End
	d.Text(right, 24*z.Device, rateHint(m.Rate), label, c.Ink2)
	value := paint.Type{Font: look.Engraved.Font(), Size: z.Text(look.TextLarge), Anchor: paint.Middle}
	y := float64(s.faster.Position().Y-s.Position().Y+kit.Target/2)*z.Device + 0.35*value.Size
	d.Text((left+right)/2, y, rateText(m.Rate), value, c.Ink)
}

func rateText(rate float64) string {
	if rate < 1 {
		return "x1/" + units.Figure(1/rate, 0)
	}
	return "x" + units.Figure(rate, 0)
}

// rateHint says how long a minute of flight takes.
func rateHint(rate float64) string {
	s := 60 / rate
	decimals := 0
	if s < 10 && s != math.Trunc(s) {
		decimals = 2
	}
	return look.Textf(look.RateHint, fmt.Sprintf("%s s", units.Figure(s, decimals)))
}

// timeLine is the flight from start to end with its headings; drag it to a time
// already flown, or beyond.
type timeLine struct {
	kit.Painted
	strip *strip
}

func newTimeLine(s *strip) *timeLine {
	l := &timeLine{strip: s}
	l.Extend(l, s.table.screen, fyne.NewSize(200, 60), l.paint)
	return l
}

const linePad = 24 // units left and right, so that times at the ends are whole

func (l *timeLine) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, s := l.Palette(), l.strip
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	pad := linePad * z.Device
	span := w - 2*pad
	at := func(tick int64) float64 { return pad + span*float64(tick)/float64(max(1, s.survey.Ticks)) }
	now := at(s.moment.View.Tick)
	bar := paint.R(pad, h*0.18, span, h*0.36)
	var p paint.Path
	d.Fill(p.Rect(bar), c.Low)
	d.Fill(p.Reset().Rect(paint.R(bar.X, bar.Y, now-bar.X, bar.H)), c.BrassHi)
	text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall)}
	for i, leg := range s.survey.Legs {
		x, end := at(leg.From), bar.Right()
		if i+1 < len(s.survey.Legs) {
			end = at(s.survey.Legs[i+1].From)
		}
		d.Stroke(p.Reset().MoveTo(x, bar.Y).LineTo(x, bar.Bottom()), paint.Pen{Width: z.Hair()}, c.BrassLo)
		name := leg.Heading.String()
		if text.Font.Width(name, text.Size)+8*z.Device < end-x {
			ink := c.Ink
			if x+20*z.Device < now {
				ink = c.OnBrass
			}
			d.Text(x+5*z.Device, bar.Y+bar.H/2+0.35*text.Size, name, text, ink)
		}
	}
	d.Stroke(p.Reset().Rect(bar), paint.Pen{Width: z.Hair()}, c.Line)
	l.paintTimes(d, h, z, bar, at)
	d.Stroke(p.Reset().MoveTo(now, bar.Y-5*z.Device).LineTo(now, bar.Bottom()+5*z.Device), paint.Pen{Width: 2.5 * z.Device}, c.Ink)
	d.Fill(p.Reset().Polygon(paint.Pt(now-6*z.Device, bar.Y-9*z.Device), paint.Pt(now+6*z.Device, bar.Y-9*z.Device), paint.Pt(now, bar.Y)), c.Ink)
}

// paintTimes writes times of the clock under the line, as many as fit.
func (l *timeLine) paintTimes(d *paint.Raster, h float64, z look.Size, bar paint.Rect, at func(int64) float64) {
	c, s := l.Palette(), l.strip
	text := paint.Type{Font: look.Engraved.Font(), Size: z.Figure(look.TextSmall), Anchor: paint.Middle}
	every := timeSpacing(s.survey.Ticks, bar.W/(70*z.Device))
	first := s.start.Truncate(every)
	for t := first; !t.After(s.start.Add(sim.TimeOf(s.survey.Ticks))); t = t.Add(every) {
		if t.Before(s.start) {
			continue
		}
		x := at(sim.TicksOf(t.Sub(s.start)))
		d.Stroke(new(paint.Path).MoveTo(x, bar.Bottom()).LineTo(x, bar.Bottom()+5*z.Device), paint.Pen{Width: z.Hair()}, c.Ink2)
		d.Text(x, bar.Bottom()+9*z.Device+0.8*text.Size, t.Format("1504"), text, c.Ink)
	}
}

// timeSpacing is a round time between marks so that at most n of them stand on
// the line.
func timeSpacing(ticks int64, n float64) time.Duration {
	total := sim.TimeOf(ticks)
	for _, d := range []time.Duration{5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 4 * time.Hour} {
		if float64(total/d) <= n {
			return d
		}
	}
	return 6 * time.Hour
}

func (l *timeLine) tickAt(x float32) int64 {
	part := float64(x-linePad) / float64(l.Size().Width-2*linePad)
	return int64(math.Max(0, math.Min(1, part)) * float64(l.strip.survey.Ticks))
}

// Tapped goes to the time pointed at.
func (l *timeLine) Tapped(e *fyne.PointEvent) { l.strip.table.helm.GoTo(l.tickAt(e.Position.X)) }

// Dragged goes along with the pointer.
func (l *timeLine) Dragged(e *fyne.DragEvent) { l.strip.table.helm.GoTo(l.tickAt(e.Position.X)) }

// DragEnd is part of the toolkit's contract.
func (l *timeLine) DragEnd() {}

// Cursor is part of the toolkit's contract.
func (l *timeLine) Cursor() desktop.Cursor { return desktop.HResizeCursor }
