package picture

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// draft draws in units of the design.
type draft struct {
	*Brush
	o     paint.Point // where the corner of the picture lies
	f     float64     // pixels to a unit
	small bool        // captions go
	l     *seen
	strip *strip
}

func (d *draft) at(x, y float64) paint.Point {
	return paint.Pt(d.o.X+(x-linkX)*d.f, d.o.Y+(y-linkY)*d.f)
}

func (d *draft) rect(r paint.Rect) paint.Rect {
	p := d.at(r.X, r.Y)
	return paint.R(p.X, p.Y, r.W*d.f, r.H*d.f)
}

// box draws a rectangle; sw is its outline.
func (d *draft) box(x, y, w, h, rad float64, fill, outline colour, sw float64) {
	d.Brush.rect(d.rect(paint.R(x, y, w, h)), rad*d.f, fill, outline, sw*d.f)
}

func (d *draft) round(x, y, r float64, fill, outline colour, sw float64) {
	p := d.at(x, y)
	d.disc(p.X, p.Y, r*d.f, fill, outline, sw*d.f)
}

// shapeOf draws a polygon through pairs of coordinates.
func (d *draft) shapeOf(fill, outline colour, sw float64, xy ...float64) {
	d.path.Reset()
	for i := 0; i < len(xy); i += 2 {
		p := d.at(xy[i], xy[i+1])
		if i == 0 {
			d.path.MoveTo(p.X, p.Y)
		} else {
			d.path.LineTo(p.X, p.Y)
		}
	}
	d.path.Close()
	d.shape(fill, outline, sw*d.f)
}

// run draws a line through pairs of coordinates, with round ends.
func (d *draft) run(sw float64, c colour, xy ...float64) {
	d.path.Reset()
	for i := 0; i < len(xy); i += 2 {
		p := d.at(xy[i], xy[i+1])
		if i == 0 {
			d.path.MoveTo(p.X, p.Y)
		} else {
			d.path.LineTo(p.X, p.Y)
		}
	}
	d.Stroke(&d.path, paint.Pen{Width: sw * d.f, Cap: paint.Round}, c)
}

// Sizes of type in the design; none is drawn below the least, in units of the
// toolkit.
const (
	linkLeast   = 13.6
	linkMost    = 22.5 // of larger type there is room for no more
	linkHead    = 18.0
	linkName    = 17.0
	linkCaption = 16.0
	linkValue   = 25.0
)

// letter is the size of type in pixels.
func (d *draft) letter(size float64) float64 {
	px := math.Max(size*d.f, math.Min(size, linkLeast)*d.K.Device)
	if d.K.Larger {
		return math.Max(px, math.Min(1.25*size, linkMost)*d.f)
	}
	return px
}

// text writes at a place of the design.
func (d *draft) text(x, y float64, s string, face look.Face, size float64, a paint.Anchor, c colour) {
	if s == "" {
		return
	}
	p := d.at(x, y)
	d.write(p.X, p.Y, s, face, d.letter(size), a, c)
}

// caption is text that goes at the small size.
func (d *draft) caption(x, y float64, s string, a paint.Anchor) {
	if !d.small {
		d.text(x, y, s, look.Regular, linkCaption, a, d.C.Ink2)
	}
}

func (d *draft) head(x, y float64, k look.Key) {
	d.text(x, y, look.Text(k), look.Semibold, linkHead, paint.Middle, d.C.Ink)
}

func (d *draft) name(x, y float64, s string, a paint.Anchor) {
	d.text(x, y, s, look.Semibold, linkName, a, d.C.Ink)
}

// fit writes text into a width, smaller or cut if it must be.
func (d *draft) fit(x, y, width float64, s string, face look.Face, size float64, a paint.Anchor, c colour) {
	px, room := d.letter(size), width*d.f
	least := math.Max(0.82*px, math.Min(px, 11.5*d.K.Device))
	font := face.Font()
	if w := font.Width(s, px); w > room {
		px = math.Max(least, px*room/w)
	}
	if font.Width(s, px) > room {
		letters := []rune(s)
		for len(letters) > 1 && font.Width(string(letters)+"\u2026", px) > room {
			letters = letters[:len(letters)-1]
		}
		s = string(letters) + "\u2026"
	}
	p := d.at(x, y)
	d.write(p.X, p.Y, s, face, px, a, c)
}

// figures writes a value with all its digits in cells of one width, so that it
// stands still while it changes, and gives its width in units of the design.
func (d *draft) figures(x, y float64, s string, px float64, c colour, write bool) float64 {
	font := look.Engraved.Font()
	cell, at := font.Width("0", px), d.at(x, y)
	sum := 0.0
	for _, r := range s {
		w := font.Width(string(r), px)
		if r >= '0' && r <= '9' {
			w = cell
		}
		if write && r != ' ' {
			d.write(at.X+sum+w/2, at.Y, string(r), look.Engraved, px, paint.Middle, c)
		}
		sum += w
	}
	return sum / d.f
}

// plate is a value on slate, its unit beside it, and under it the caption or
// what the truth says of it.
func (d *draft) plate(of Link, cx, y, w float64, lines int) {
	s := &d.l.Links[of]
	d.box(cx-w/2, y, w, 44, look.PlateRadius, d.C.Slate, d.heldEdge(s), 2)
	d.value(cx, y+31, w, s.Value, s.Unit, linkValue)
	d.verdict(s, cx-w/2, y+50, w, lines)
}

func (d *draft) heldEdge(s *LinkState) colour {
	if s.Held {
		return d.C.BrassHi
	}
	return none
}

// value writes figures with their unit about a middle, smaller if they must be.
func (d *draft) value(cx, y, room float64, value, unit string, size float64) {
	px, uw, small := d.letter(size), 0.0, d.letter(linkCaption)
	vw := d.figures(0, 0, value, px, none, false)
	if unit != "" {
		uw = look.Regular.Font().Width(unit, small)/d.f + 7
	}
	if over := vw + uw; over > room-10 {
		px *= (room - 10 - uw) / vw
		vw = room - 10 - uw
	}
	d.figures(cx-(vw+uw)/2, y, value, px, d.C.OnSlate, true)
	d.text(cx-(vw+uw)/2+vw+7, y-1, unit, look.Regular, linkCaption, paint.Start, d.C.OnSlate)
}

// verdict stands under a plate: captions, a tick, or what is wrong.
func (d *draft) verdict(s *LinkState, x, y, w float64, lines int) {
	switch {
	case s.Wrong[0] != "":
		d.errorPlate(x, y, w, s.Wrong, lines)
	case s.Stands == Agrees:
		d.agrees(x+w/2, y+22)
	case s.Held:
		d.fit(x+w/2, y+16, w, s.Note[0], look.Regular, linkCaption, paint.Middle, d.C.Ink2)
	default:
		d.caption(x+w/2, y+16, s.Note[0], paint.Middle)
		if lines > 1 {
			d.caption(x+w/2, y+36, s.Note[1], paint.Middle)
		}
	}
}

// agrees is a tick with its word about a middle.
func (d *draft) agrees(cx, y float64) {
	word := look.Text(look.LinkAgrees)
	w := look.Regular.Font().Width(word, d.letter(linkName)) / d.f
	x := cx - (w+20)/2
	d.tick(x+6, y-6)
	d.text(x+20, y, word, look.Regular, linkName, paint.Start, d.C.Ink2)
}

func (d *draft) tick(x, y float64) {
	d.run(2.2, d.C.Ink2, x-6, y, x-2, y+5, x+6, y-6)
}

// errorPlate says how wrong a value is: in one line, with room for a second what
// would be right; in large type the first line alone, folded if it must be.
func (d *draft) errorPlate(x, y, w float64, words [2]string, lines int) {
	size := d.letter(linkName) / d.f
	tall, second := 32.0, look.Regular
	if d.small {
		words[1], second, tall = "", look.Bold, math.Max(36, 1.5*size)
		if lines > 1 && look.Bold.Font().Width(words[0], d.letter(linkName)) > (w-10)*d.f {
			words = folded(words[0])
		}
	}
	if lines < 2 {
		words[1] = ""
	}
	if words[1] != "" {
		tall = math.Max(54, 2.45*size)
	}
	d.box(x, y, w, tall, look.PlateRadius, d.C.VermFill, d.C.Verm, 2)
	if words[1] == "" {
		d.fit(x+w/2, y+tall/2+0.35*size, w-10, words[0], look.Bold, linkName, paint.Middle, d.onWrong())
		return
	}
	ink := d.C.Ink
	if d.small {
		ink = d.onWrong()
	}
	d.fit(x+w/2, y+tall*0.41, w-10, words[0], look.Bold, linkName, paint.Middle, d.onWrong())
	d.fit(x+w/2, y+tall*0.82, w-10, words[1], second, linkCaption, paint.Middle, ink)
}

// folded breaks words in two lines, as even as may be.
func folded(s string) (lines [2]string) {
	best := -1
	for i, r := range s {
		if r == ' ' && (best < 0 || max(i, len(s)-i) < max(best, len(s)-best)) {
			best = i
		}
	}
	if best < 0 {
		return [2]string{s}
	}
	return [2]string{s[:best], s[best+1:]}
}

// onWrong is the ink on an error plate: by night that of all text.
func (d *draft) onWrong() colour {
	if d.C.Variant == look.Paper {
		return d.C.Verm
	}
	return d.C.Ink
}
