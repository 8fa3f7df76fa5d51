package picture

import (
	"math"
	"slices"
	"strings"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// place finds places for all words, the most wanted first. A word without a free
// place is left out: the boxes beside the figure say it too.
func (d *triangleDraft) place() {
	n := d.size
	north := look.Text(look.North)
	d.add(north, look.Engraved, n, d.C.Ink2, func(w, h float64) []paint.Rect {
		return []paint.Rect{paint.R(d.o.X-w/2, d.o.Y-1.17*d.arrow()-h, w, h)}
	})
	d.nameSides()
	if d.t.Missing != "" {
		d.along(d.w, d.g, d.t.Missing, d.C.Verm, d.o)
	}
	if r := d.driftArc(); r > 0 {
		d.add(d.t.DriftText, look.Bold, d.K.Text(look.TextSmall), d.C.Ink, func(w, h float64) (all []paint.Rect) {
			mid := d.t.Heading + d.t.drift()/2
			for _, off := range []float64{1, 1.15, 1.3, 1.45, 0.8} {
				all = append(all, d.beyond(d.o, r*off+6*d.thick, mid, w, h))
			}
			return all
		})
	}
	if d.t.HeadingText != "" {
		d.add(d.t.HeadingText, look.Engraved, d.K.Text(look.TextSmall), d.C.Air, func(w, h float64) []paint.Rect {
			in := d.headingArc() - 8*d.thick - (w+h)/2
			mid := d.t.Heading / 2
			p := paint.Polar(d.o.X, d.o.Y, in, mid)
			return []paint.Rect{paint.R(p.X-w/2, p.Y-h/2, w, h), d.beyond(d.o, d.headingArc()+6*d.thick, mid, w, h)}
		})
	}
}

// nameSides writes what each side is, on the outside of the figure if it can be.
func (d *triangleDraft) nameSides() {
	t := d.t
	middle := paint.Pt((d.o.X+d.a.X+d.g.X)/3, (d.o.Y+d.a.Y+d.g.Y)/3)
	if words := known(t.HeadingText, t.TASText); words != "" {
		d.along(d.o, d.a, look.Textf(look.CalcThroughAir, words), d.C.Air, middle)
	}
	if words := known(t.TrackText, t.GroundspeedText); words != "" {
		d.along(d.o, d.g, look.Textf(look.CalcOverGround, words), d.C.Ink, middle)
	}
	if t.WindText != "" {
		d.along(d.a, d.w, look.Textf(look.CalcWind, t.WindText), d.C.Wind, middle)
	}
}

// known joins what is known of a vector.
func known(words ...string) string {
	words = slices.DeleteFunc(words, func(s string) bool { return s == "" })
	return strings.Join(words, ", ")
}

// along writes words beside a line, on the side away from a point if there is room.
func (d *triangleDraft) along(a, z paint.Point, words string, c colour, away paint.Point) {
	d.add(words, look.Bold, d.size, c, func(w, h float64) (all []paint.Rect) {
		u := unit(a, z)
		out := paint.Pt(u.Y, -u.X)
		if m := paint.Pt((a.X+z.X)/2, (a.Y+z.Y)/2); (away.X-m.X)*out.X+(away.Y-m.Y)*out.Y > 0 {
			out = paint.Pt(-out.X, -out.Y)
		}
		for _, side := range []float64{1, -1} {
			for _, at := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 1, 0} {
				for _, off := range []float64{9, 26, 48} {
					p := paint.Pt(a.X+(z.X-a.X)*at, a.Y+(z.Y-a.Y)*at)
					far := off*d.thick + math.Abs(out.X)*w/2 + math.Abs(out.Y)*h/2
					p = p.Add(side*out.X*far, side*out.Y*far)
					all = append(all, paint.R(p.X-w/2, p.Y-h/2, w, h))
				}
			}
		}
		return all
	})
}

// beyond is a rectangle that lies just outside a circle in a direction.
func (d *triangleDraft) beyond(o paint.Point, r, deg, w, h float64) paint.Rect {
	s, c := math.Sincos(deg * math.Pi / 180)
	r += math.Abs(s)*w/2 + math.Abs(c)*h/2
	return paint.R(o.X+r*s-w/2, o.Y-r*c-h/2, w, h)
}

// add takes the first free of the places for words, if there is one.
func (d *triangleDraft) add(words string, f look.Face, size float64, c colour, places func(w, h float64) []paint.Rect) {
	w, h := f.Font().Width(words, size), size
	for _, q := range places(w, h) {
		if d.free(q, 4*d.thick) {
			d.taken = append(d.taken, q)
			d.labels = append(d.labels, triangleLabel{words, f, size, c, q})
			return
		}
	}
}

// free says whether a rectangle lies within the sheet and, with some room round it,
// on no line, knob or other word.
func (d *triangleDraft) free(q paint.Rect, room float64) bool {
	if !d.v.Box.Inset(4 * d.thick).Covers(q) {
		return false
	}
	q = q.Inset(-room)
	for _, t := range d.taken {
		if q.Overlaps(t) {
			return false
		}
	}
	for _, l := range d.lines {
		if _, _, hit := paint.ClipSegment(l[0], l[1], q); hit {
			return false
		}
	}
	return !d.onArc(q, d.headingArc(), 0, d.t.Heading) && !d.onArc(q, d.driftArc(), d.t.Heading, d.t.Heading+d.t.drift())
}

// onArc says whether an arc round the origin runs through a rectangle.
func (d *triangleDraft) onArc(q paint.Rect, r, from, to float64) bool {
	const steps = 48
	if r == 0 {
		return false
	}
	last := paint.Polar(d.o.X, d.o.Y, r, from)
	for i := 1; i <= steps; i++ {
		next := paint.Polar(d.o.X, d.o.Y, r, from+(to-from)*float64(i)/steps)
		if _, _, hit := paint.ClipSegment(last, next, q); hit {
			return true
		}
		last = next
	}
	return false
}

// letter writes all words.
func (d *triangleDraft) letter() {
	for _, l := range d.labels {
		d.haloed(l.box.X, l.box.Y+0.86*l.size, l.words, l.face, l.size, paint.Start, l.colour, d.C.Card)
	}
}
