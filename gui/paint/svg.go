package paint

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"strconv"
)

// SVG gathers a drawing as Scalable Vector Graphics 1.1. Text is written as
// outlines, so that it looks alike where the faces are missing; its words are
// kept in an aria-label.
type SVG struct {
	w, h  float64
	title string
	body  bytes.Buffer
	ids   int
	clips int
	path  Path
}

// NewSVG begins a drawing of w by h user units (pixels).
func NewSVG(w, h float64, title string) *SVG { return &SVG{w: w, h: h, title: title} }

// WriteTo writes the whole file.
func (s *SVG) WriteTo(w io.Writer) (int64, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"%s\" height=\"%s\" viewBox=\"0 0 %s %s\">\n<title>%s</title>\n",
		num(s.w), num(s.h), num(s.w), num(s.h), escape(s.title))
	b.Write(s.body.Bytes())
	for range s.clips {
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.WriteTo(w)
}

// Fill adds a filled path.
func (s *SVG) Fill(p *Path, c color.NRGBA) { s.fill(p, c, "") }

func (s *SVG) fill(p *Path, c color.NRGBA, label string) {
	if !Visible(c) || len(p.Ops) == 0 {
		return
	}
	fmt.Fprintf(&s.body, "<path%s fill=\"%s\"%s d=\"", label, hex(c), opacity("fill", c))
	s.data(p)
	s.body.WriteString("\"/>\n")
}

// Stroke adds a stroked path.
func (s *SVG) Stroke(p *Path, pen Pen, c color.NRGBA) {
	if !Visible(c) || len(p.Ops) == 0 || pen.Width <= 0 {
		return
	}
	fmt.Fprintf(&s.body, "<path fill=\"none\" stroke=\"%s\"%s stroke-width=\"%s\" stroke-linejoin=\"round\"", hex(c), opacity("stroke", c), num(pen.Width))
	if pen.Cap == Round {
		s.body.WriteString(" stroke-linecap=\"round\"")
	}
	for i, d := range pen.Dash {
		s.body.WriteString([]string{" ", " stroke-dasharray=\""}[b2i(i == 0)] + num(d))
	}
	if len(pen.Dash) > 0 {
		s.body.WriteString("\"")
	}
	s.body.WriteString(" d=\"")
	s.data(p)
	s.body.WriteString("\"/>\n")
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Text adds text as outlines.
func (s *SVG) Text(x, y float64, str string, t Type, c color.NRGBA) {
	s.glyphs(textMap(x, y, str, t), str, t, c)
}

// Turned adds text under a map.
func (s *SVG) Turned(m Affine, str string, t Type, c color.NRGBA) {
	s.glyphs(turnedMap(m, str, t), str, t, c)
}

func (s *SVG) glyphs(m Affine, str string, t Type, c color.NRGBA) {
	s.path.Reset()
	t.Font.outline(&s.path, m, str)
	if t.HaloWidth > 0 {
		s.Stroke(&s.path, Pen{Width: t.HaloWidth, Cap: Round}, t.Halo)
	}
	s.fill(&s.path, c, " aria-label=\""+escape(str)+"\"")
}

// Shade adds a rectangle with a gradient.
func (s *SVG) Shade(r Rect, top, foot color.NRGBA) {
	s.ids++
	fmt.Fprintf(&s.body, "<defs><linearGradient id=\"g%d\" x1=\"0\" y1=\"0\" x2=\"0\" y2=\"1\"><stop offset=\"0\" stop-color=\"%s\" stop-opacity=\"%s\"/><stop offset=\"1\" stop-color=\"%s\" stop-opacity=\"%s\"/></linearGradient></defs>\n",
		s.ids, hex(top), num(float64(top.A)/255), hex(foot), num(float64(foot.A)/255))
	fmt.Fprintf(&s.body, "<rect %s fill=\"url(#g%d)\"/>\n", box(r), s.ids)
}

// Image embeds the picture as PNG.
func (s *SVG) Image(r Rect, im *image.RGBA) {
	var b bytes.Buffer
	if err := png.Encode(&b, im); err != nil {
		return // only an image without pixels cannot be encoded
	}
	fmt.Fprintf(&s.body, "<image %s preserveAspectRatio=\"none\" xlink:href=\"data:image/png;base64,%s\"/>\n", box(r), base64.StdEncoding.EncodeToString(b.Bytes()))
}

// PushClip opens a clipped group.
func (s *SVG) PushClip(r Rect) {
	s.ids++
	s.clips++
	fmt.Fprintf(&s.body, "<defs><clipPath id=\"g%d\"><rect %s/></clipPath></defs>\n<g clip-path=\"url(#g%d)\">\n", s.ids, box(r), s.ids)
}

// PopClip closes the group.
func (s *SVG) PopClip() {
	if s.clips == 0 {
		return
	}
	s.clips--
	s.body.WriteString("</g>\n")
}

// data writes the path's steps.
func (s *SVG) data(p *Path) {
	k := 0
	for _, op := range p.Ops {
		s.body.WriteByte("MLQCZ"[op])
		for i := range op.points() {
			q := p.Pts[k+i]
			if i > 0 {
				s.body.WriteByte(' ')
			}
			s.body.WriteString(num(q.X))
			s.body.WriteByte(' ')
			s.body.WriteString(num(q.Y))
		}
		k += op.points()
	}
}

func box(r Rect) string {
	return fmt.Sprintf("x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"", num(r.X), num(r.Y), num(r.W), num(r.H))
}

// num writes a figure with at most two decimals: a hundredth of a pixel.
func num(v float64) string {
	b := strconv.AppendFloat(nil, v, 'f', 2, 64)
	b = bytes.TrimRight(b, "0")
	b = bytes.TrimSuffix(b, []byte("."))
	if string(b) == "-0" {
		return "0"
	}
	return string(b)
}

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

func opacity(kind string, c color.NRGBA) string {
	if c.A == 255 {
		return ""
	}
	return fmt.Sprintf(" %s-opacity=\"%s\"", kind, strconv.FormatFloat(float64(c.A)/255, 'f', 3, 64))
}

func escape(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return "" // a bytes.Buffer does not fail
	}
	return b.String()
}
