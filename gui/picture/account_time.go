package picture

import (
	"math"
	"time"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// timePlot is the plot of the error against time.
type timePlot struct {
	*Brush
	a         *Account
	box       paint.Rect
	last, top float64 // of the scales: minutes, NM
}

func (p *timePlot) x(minute float64) float64 { return p.box.X + minute/p.last*p.box.W }
func (p *timePlot) y(nm float64) float64     { return p.box.Bottom() - nm/p.top*p.box.H }

// accountTime draws the error against time with what happened to it.
func (b *Brush) accountTime(r paint.Rect, a *Account) {
	in := b.card(r, look.Text(look.AccountTime), look.Text(look.AccountTimeUnit))
	size := b.K.Text(15)
	p := &timePlot{Brush: b, a: a, last: 1, top: 0.1}
	for _, line := range [][]AccountPoint{a.AsFlown, a.If} {
		for _, q := range line {
			p.last, p.top = math.Max(p.last, q.Minute), math.Max(p.top, q.NM)
		}
	}
	step := NiceStep(p.top / 4)
	p.top = step * math.Ceil(p.top/step*1.04)
	p.box = paint.R(in.X+2.6*size, in.Y+2.4*size, in.W-2.6*size-7.2*size, in.H-4.6*size)
	p.axes(step, size)
	room := NewRoom(in)
	room.Take(paint.R(in.X, p.box.Bottom(), in.W, in.Bottom()-p.box.Bottom()))
	p.curve(a.If, stroke{colour: b.C.Ink2, width: 2.2 * b.K.Symbol(), dash: []float64{8, 5}}, room)
	p.curve(a.AsFlown, stroke{colour: b.C.Verm, width: 3.2 * b.K.Symbol()}, room)
	p.ends(room, size)
	p.events(room, size)
}

func (p *timePlot) axes(step, size float64) {
	k := p.K.Symbol()
	for v := 0.0; v <= p.top+step/2; v += step {
		c, w := p.C.Low, 1.5
		if v == 0 {
			c, w = p.C.Ink2, 1.6
		}
		p.line(paint.Pt(p.box.X, p.y(v)), paint.Pt(p.box.Right(), p.y(v)), w*k, c)
		p.write(p.box.X-0.6*size, p.y(v)+0.35*size, units.Figure(v, decimals(step)), look.Engraved, p.K.Figure(15), paint.End, p.C.Ink2)
	}
	each := clockStep(p.last * 4.5 * size / p.box.W)
	first := p.a.Start.Truncate(time.Duration(each) * time.Minute)
	for t := first; ; t = t.Add(time.Duration(each) * time.Minute) {
		m := t.Sub(p.a.Start).Minutes()
		if m > p.last {
			break
		}
		if m >= 0 {
			x, y := p.x(m), p.box.Bottom()
			p.line(paint.Pt(x, y), paint.Pt(x, y+6*k), 1.4*k, p.C.Ink2)
			p.write(x, y+6*k+1.2*size, units.TimeText(t), look.Engraved, p.K.Figure(15), paint.Middle, p.C.Ink2)
		}
	}
	x := p.x(p.a.Minute)
	p.line(paint.Pt(x, p.box.Y), paint.Pt(x, p.box.Bottom()), 1.4*k, p.C.Brass)
}

// clockStep is a step of the clock, minutes, not below v.
func clockStep(v float64) float64 {
	for _, m := range []float64{1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720} {
		if m >= v {
			return m
		}
	}
	return 1440
}

// curve draws an error against time; where the counters were set it jumps.
func (p *timePlot) curve(line []AccountPoint, s stroke, room *Room) {
	var run []paint.Point
	flush := func() {
		if len(run) > 1 {
			thinned := thin(run, 0.5)
			p.course(thinned, s, 0)
			room.TakeLine(thinned)
		}
		run = run[:0]
	}
	for _, q := range line {
		at := paint.Pt(p.x(q.Minute), p.y(q.NM))
		if q.Jump && len(run) > 0 {
			p.dashed(run[len(run)-1], at, 0.6*s.width, s.colour, 4, 4)
			flush()
		}
		run = append(run, at)
	}
	flush()
}

// ends says what the curves come to.
func (p *timePlot) ends(room *Room, size float64) {
	type end struct {
		y     float64
		words [2]string
		c     colour
	}
	var all []end
	add := func(line []AccountPoint, words look.Key, c colour) {
		if len(line) > 0 {
			q := line[len(line)-1]
			all = append(all, end{p.y(q.NM) + 0.35*size, [2]string{units.DistanceText(units.Length(q.NM) * units.NM), look.Text(words)}, c})
		}
	}
	add(p.a.AsFlown, look.AccountFlown, p.C.Verm)
	add(p.a.If, look.AccountIf, p.C.Ink2)
	if len(all) == 2 { // apart, whichever is the higher
		hi, lo := &all[0], &all[1]
		if hi.y > lo.y {
			hi, lo = lo, hi
		}
		if d := 2.6*size - (lo.y - hi.y); d > 0 {
			hi.y -= d / 2
			lo.y += d / 2
		}
	}
	for _, e := range all {
		x := p.box.Right() + 0.6*size
		p.write(x, e.y, e.words[0], look.Bold, size, paint.Start, e.c)
		p.write(x, e.y+1.15*size, e.words[1], look.Regular, p.K.Text(14.5), paint.Start, e.c)
		room.Take(paint.R(x, e.y-size, 6*size, 2.4*size))
	}
}

// events marks what happened, each where the error stood; words where there is
// room.
func (p *timePlot) events(room *Room, size float64) {
	k := p.K.Symbol()
	for _, e := range p.a.Events {
		at := paint.Pt(p.x(e.Minute), p.y(p.errorAt(e.Minute)))
		switch e.Kind {
		case AccountReset:
			p.CountersBox(at, 0.8*k)
		case AccountBreak:
			p.FaultDiamond(at, 0.85*k)
		case AccountMend:
			p.disc(at.X, at.Y, 8*k, p.C.Card, p.C.Ink, 2*k)
			p.line(at.Add(-6*k, 6*k), at.Add(6*k, -6*k), 2*k, p.C.Ink)
		case AccountSetting:
			p.disc(at.X, at.Y, 5*k, p.C.BrassHi, p.C.BrassLo, 1.4*k)
		}
		room.Take(paint.R(at.X-10*k, at.Y-10*k, 20*k, 20*k))
		room.marks = append(room.marks, at)
	}
	for _, e := range p.a.Events {
		at := paint.Pt(p.x(e.Minute), p.y(p.errorAt(e.Minute)))
		p.label(room, label{at: at, clear: 11 * k, first: above, far: true, keen: true,
			lines: []words{{e.Words, look.Regular, p.K.Text(15), p.C.Ink}}}, p.C.Card)
	}
}

// errorAt is the error as flown at a minute; at a jump the one before it.
func (p *timePlot) errorAt(minute float64) float64 {
	line := p.a.AsFlown
	for i := 1; i < len(line); i++ {
		a, z := line[i-1], line[i]
		if minute <= z.Minute {
			if z.Minute == a.Minute || z.Jump {
				return a.NM
			}
			t := math.Max(0, (minute-a.Minute)/(z.Minute-a.Minute))
			return a.NM + t*(z.NM-a.NM)
		}
	}
	if n := len(line); n > 0 {
		return line[n-1].NM
	}
	return 0
}

// accountWords writes what is to be taken away, as much as there is room for.
func (b *Brush) accountWords(r paint.Rect, a *Account) {
	in := b.card(r, look.Text(look.AccountWords), "")
	k := b.K.Symbol()
	head := paint.Type{Font: look.Bold.Font(), Size: b.K.Text(17)}
	body := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(15.5)}
	x := in.X + 16*k*2 + 14*k
	y := in.Y + 0.4*head.Size
	for i, l := range a.Lessons {
		heads, lines := head.Wrap(l.Head, in.Right()-x), body.Wrap(l.Body, in.Right()-x)
		tall := 1.25*head.Size*float64(len(heads)) + 1.32*body.Size*float64(len(lines)) + 0.7*head.Size
		if y+tall-0.7*head.Size > in.Bottom() {
			return
		}
		b.disc(in.X+15*k, y+0.75*head.Size, 15*k, b.C.BrassHi, b.C.BrassLo, 1.6*k)
		b.write(in.X+15*k, y+0.75*head.Size+6*k, units.Figure(float64(i+1), 0), look.Engraved, 17*k, paint.Middle, b.C.OnBrass)
		for _, line := range heads {
			y += 1.25 * head.Size
			b.Text(x, y-0.2*head.Size, line, head, b.C.Ink)
		}
		for _, line := range lines {
			y += 1.32 * body.Size
			b.Text(x, y-0.1*body.Size, line, body, b.C.Ink)
		}
		y += 0.7 * head.Size
	}
}
