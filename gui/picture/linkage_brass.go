package picture

import (
	"math"

	"stillair/gui/paint"
)

// The brass: shafts, bevels, take-offs, gears, cones.

// turnPitch is how far a mark runs along a shaft in a turn.
const turnPitch = 46.0

// stripePitch is from stripe to stripe; they too run on by one in a turn.
const stripePitch = 16.0

// shaft is a length of brass from its driven end a to b; it lies level or
// upright.
type shaft struct {
	link           Link // that drives it
	ax, ay, bx, by float64
	thick          float64
	turns          func(*Turns) float64 // nil: it carries no marks
}

// room is where the shaft may paint.
func (s *shaft) room() paint.Rect {
	t := s.thick/2 + 2
	x0, x1 := math.Min(s.ax, s.bx), math.Max(s.ax, s.bx)
	y0, y1 := math.Min(s.ay, s.by), math.Max(s.ay, s.by)
	return paint.R(x0-t, y0-t, x1-x0+2*t, y1-y0+2*t)
}

// shaft adds a shaft to the scene.
func (s *LinkageScene) shaft(h shaft) {
	r := h.room()
	s.add(h.link, r.X, r.Y, r.W, r.H, func(l *seen, k *partKey) {
		if h.turns != nil {
			k.put(h.turns(&l.Turns))
		}
	}, func(d *draft) { d.shaft(&h) })
}

func (d *draft) shaft(h *shaft) {
	t, level := h.thick, h.ay == h.by
	r := paint.R(math.Min(h.ax, h.bx), h.ay-t/2, math.Abs(h.bx-h.ax), t)
	hi := paint.R(r.X, r.Y, r.W, 0.28*t)
	if !level {
		r = paint.R(h.ax-t/2, math.Min(h.ay, h.by), t, math.Abs(h.by-h.ay))
		hi = paint.R(r.X, r.Y, 0.28*t, r.H)
	}
	d.box(r.X, r.Y, r.W, r.H, 0, d.C.Brass, none, 0)
	d.box(hi.X, hi.Y, hi.W, hi.H, 0, d.C.BrassHi, none, 0)
	edge := d.C.BrassLo
	if part := d.l.striped(h.link); part > 0 {
		d.stripes(h, r, part)
		edge = d.C.Verm
		if rest, ok := d.soundPart(h, r); ok {
			d.box(r.X, r.Y, r.W, r.H, 0, none, edge, 1.5)
			d.box(rest.X, rest.Y, rest.W, rest.H, 0, d.C.Brass, none, 0)
			d.box(rest.X, rest.Y, rest.W, 0.28*rest.H, 0, d.C.BrassHi, none, 0)
			d.turnMarks(h, rest)
			r, edge = rest, d.C.BrassLo
		}
	} else if h.turns != nil && t >= 8 {
		d.turnMarks(h, r)
	}
	d.box(r.X, r.Y, r.W, r.H, 0, none, edge, 1.5)
}

// onward is the part of a turn that a shaft has made, along its way on the sheet.
func (d *draft) onward(h *shaft) float64 {
	if h.turns == nil {
		return 0
	}
	turns := h.turns(&d.l.Turns)
	if h.bx < h.ax || h.by < h.ay {
		return 1 - turns
	}
	return turns
}

// soundPart is the part of a level shaft before the gap of its broken link.
func (d *draft) soundPart(h *shaft, r paint.Rect) (paint.Rect, bool) {
	p := d.faultPlace(h.link)
	if d.l.Links[h.link].Stands != Broken || h.turns == nil || h.ay != h.by || h.bx < h.ax || p.y != h.ay || p.x < r.X || p.x > r.Right() {
		return r, false
	}
	r.W = p.x - r.X
	return r, true
}

// turnMarks are slanted bars that run along with the turns; what turns too fast
// is drawn as an even tint.
func (d *draft) turnMarks(h *shaft, r paint.Rect) {
	if d.l.Fast {
		d.box(r.X, r.Y, r.W, r.H, 0, paint.Alpha(d.C.BrassLo, 0.3), none, 0)
		return
	}
	d.slanted(r, d.onward(h)*turnPitch, turnPitch, math.Min(5, h.thick*0.36), d.C.BrassLo, h.ay == h.by)
}

// stripes say that the shaft carries an error on; they run out from its driven
// end.
func (d *draft) stripes(h *shaft, r paint.Rect, part float64) {
	from := r
	switch {
	case h.ay == h.by && h.bx >= h.ax:
		r.W *= part
	case h.ay == h.by:
		r.X, r.W = r.Right()-r.W*part, r.W*part
	case h.by >= h.ay:
		r.H *= part
	default:
		r.Y, r.H = r.Bottom()-r.H*part, r.H*part
	}
	d.PushClip(d.rect(r))
	d.slanted(from, d.onward(h)*stripePitch, stripePitch, 7, d.C.Verm, h.ay == h.by)
	d.PopClip()
}

// slanted draws bars of a width across a level or upright rectangle, a pitch
// apart, the first one shifted. Each is a shape of its own: many side by side in
// one would cost their square.
func (d *draft) slanted(r paint.Rect, shift, pitch, wide float64, c colour, level bool) {
	d.PushClip(d.rect(r))
	if level {
		t, lean := r.H, 0.7*r.H
		for x := r.X + shift - pitch; x < r.Right()+pitch; x += pitch {
			d.path.Reset()
			d.bar(x, r.Y+t, x+lean, r.Y, x+lean+wide, r.Y, x+wide, r.Y+t)
			d.Fill(&d.path, c)
		}
	} else {
		t, lean := r.W, 0.7*r.W
		for y := r.Y + shift - pitch; y < r.Bottom()+pitch; y += pitch {
			d.path.Reset()
			d.bar(r.X, y+lean, r.X+t, y, r.X+t, y+wide, r.X, y+lean+wide)
			d.Fill(&d.path, c)
		}
	}
	d.PopClip()
}

func (d *draft) bar(xy ...float64) {
	for i := 0; i < len(xy); i += 2 {
		p := d.at(xy[i], xy[i+1])
		if i == 0 {
			d.path.MoveTo(p.X, p.Y)
		} else {
			d.path.LineTo(p.X, p.Y)
		}
	}
	d.path.Close()
}

// edge is the outline of brass that a link drives.
func (d *draft) edge(of Link) colour {
	if d.l.striped(of) >= 1 {
		return d.C.Verm
	}
	return d.C.BrassLo
}

// bevel is a pair of bevel gears at a corner: one wheel on a shaft that comes
// from the side dx, the other on one that leaves towards dy.
func (d *draft) bevel(x, y, dx, dy, k float64) {
	d.shapeOf(d.C.BrassHi, d.C.BrassLo, 1.5,
		x-dx*k*1.1, y-k*1.05, x-dx*k*1.1, y+k*1.05, x+dx*k*0.1, y+k*0.35, x+dx*k*0.1, y-k*0.35)
	d.shapeOf(d.C.BrassHi, d.C.BrassLo, 1.5,
		x-k*1.05, y+dy*k*1.1, x+k*1.05, y+dy*k*1.1, x+k*0.35, y-dy*k*0.1, x-k*0.35, y-dy*k*0.1)
}

// takeOff is the wheel of a branch that leaves towards dy.
func (d *draft) takeOff(x, y, dy, k float64) {
	d.shapeOf(d.C.BrassHi, d.C.BrassLo, 1.5, x-k, y+dy*5, x+k, y+dy*5, x+k*0.55, y+dy*18, x-k*0.55, y+dy*18)
}

// gear has n teeth about a root of radius r; it is turned by deg.
func (d *draft) gear(x, y, r float64, n int, deg float64) {
	d.path.Reset()
	pitch := 360 / float64(n)
	m := d.at(x, y)
	for i := range n {
		a := pitch*float64(i) + deg
		for j, p := range []paint.Point{
			paint.Polar(m.X, m.Y, r*d.f, a-pitch*0.26), paint.Polar(m.X, m.Y, 1.1*r*d.f, a-pitch*0.15),
			paint.Polar(m.X, m.Y, 1.1*r*d.f, a+pitch*0.15), paint.Polar(m.X, m.Y, r*d.f, a+pitch*0.26),
		} {
			if i == 0 && j == 0 {
				d.path.MoveTo(p.X, p.Y)
			} else {
				d.path.LineTo(p.X, p.Y)
			}
		}
	}
	d.path.Close()
	d.shape(d.C.Brass, d.C.BrassLo, 1.5*d.f)
	d.round(x, y, 0.72*r, none, d.C.BrassLo, 1)
	for i, sw := range []float64{3, 1.5, 1.5} { // one spoke is thicker: it shows the turn
		a := deg + 120*float64(i)
		d.line(paint.Polar(m.X, m.Y, 0.22*r*d.f, a), paint.Polar(m.X, m.Y, 0.7*r*d.f, a), sw*d.f, d.C.BrassLo)
	}
	d.round(x, y, 0.16*r, d.C.Slate, d.C.BrassLo, 1.5)
}

// cone is a secant gear: steps from its small top, which is latitude 0, to its
// foot at 70 degrees, and the pinion that a latitude has slid to.
func (d *draft) cone(of Link, x, top, tall, narrow, wide float64, steps int) {
	edge := d.edge(of)
	d.shapeOf(d.C.BrassHi, edge, 1.8, x-wide, top+tall, x-narrow, top, x+narrow, top, x+wide, top+tall)
	for i := 1; i < steps; i++ {
		y := top + float64(i)*tall/float64(steps)
		w := narrow + (wide-narrow)*float64(i)/float64(steps)
		d.run(1, d.C.BrassLo, x-w, y, x+w, y)
	}
}

// coneFoot is the latitude at the foot of a secant gear, degrees.
const coneFoot = 70.0

// pinionShare is how far down its cone the pinion of a latitude stands, of one.
func pinionShare(degrees float64) float64 { return math.Min(1, math.Abs(degrees)/coneFoot) }
