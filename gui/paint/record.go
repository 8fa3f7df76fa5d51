package paint

import (
	"fmt"
	"image"
	"image/color"
	"strings"
)

// Call is one recorded drawing call. Path and Clip are copies.
type Call struct {
	Name string // fill, stroke, text, turned, shade, image, clip, unclip
	Path Path
	Pen  Pen
	Text string
	Type Type
	At   Point  // of a text, and the corner of a shade, image or clip
	Map  Affine // of turned text
	Rect Rect
	Col  color.NRGBA
	Foot color.NRGBA // of a shade
}

// Record keeps every call, for tests.
type Record struct {
	Calls []Call
	depth int
}

// Fill keeps the call.
func (r *Record) Fill(p *Path, c color.NRGBA) {
	r.Calls = append(r.Calls, Call{Name: "fill", Path: p.clone(), Col: c})
}

// Stroke keeps the call.
func (r *Record) Stroke(p *Path, pen Pen, c color.NRGBA) {
	r.Calls = append(r.Calls, Call{Name: "stroke", Path: p.clone(), Pen: pen, Col: c})
}

// Text keeps the call.
func (r *Record) Text(x, y float64, s string, t Type, c color.NRGBA) {
	r.Calls = append(r.Calls, Call{Name: "text", Text: s, Type: t, At: Pt(x, y), Col: c})
}

// Turned keeps the call.
func (r *Record) Turned(m Affine, s string, t Type, c color.NRGBA) {
	r.Calls = append(r.Calls, Call{Name: "turned", Text: s, Type: t, At: m.At(Pt(0, 0)), Map: m, Col: c})
}

// Shade keeps the call.
func (r *Record) Shade(q Rect, top, foot color.NRGBA) {
	r.Calls = append(r.Calls, Call{Name: "shade", Rect: q, At: Pt(q.X, q.Y), Col: top, Foot: foot})
}

// Image keeps the place, not the pixels.
func (r *Record) Image(q Rect, _ *image.RGBA) {
	r.Calls = append(r.Calls, Call{Name: "image", Rect: q, At: Pt(q.X, q.Y)})
}

// PushClip keeps the call.
func (r *Record) PushClip(q Rect) {
	r.depth++
	r.Calls = append(r.Calls, Call{Name: "clip", Rect: q, At: Pt(q.X, q.Y)})
}

// PopClip keeps the call.
func (r *Record) PopClip() {
	r.depth--
	r.Calls = append(r.Calls, Call{Name: "unclip"})
}

// Open is the number of clips not yet undone.
func (r *Record) Open() int { return r.depth }

// Texts are the recorded texts, in order.
func (r *Record) Texts() []Call {
	var out []Call
	for _, c := range r.Calls {
		if c.Name == "text" || c.Name == "turned" {
			out = append(out, c)
		}
	}
	return out
}

// String is a transcript, a line for each call, figures to a tenth.
func (r *Record) String() string {
	var b strings.Builder
	for _, c := range r.Calls {
		fmt.Fprintf(&b, "%s", c.Name)
		switch c.Name {
		case "fill", "stroke":
			q := c.Path.Bounds()
			fmt.Fprintf(&b, " %s %.1f,%.1f %.1fx%.1f", hex(c.Col), q.X, q.Y, q.W, q.H)
		case "text", "turned":
			fmt.Fprintf(&b, " %s %.1f,%.1f %.1f %q", hex(c.Col), c.At.X, c.At.Y, c.Type.Size, c.Text)
		case "shade", "image", "clip":
			fmt.Fprintf(&b, " %.1f,%.1f %.1fx%.1f", c.Rect.X, c.Rect.Y, c.Rect.W, c.Rect.H)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func (p *Path) clone() Path {
	return Path{Ops: append([]Op(nil), p.Ops...), Pts: append([]Point(nil), p.Pts...)}
}
