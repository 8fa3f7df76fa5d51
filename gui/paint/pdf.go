package paint

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"time"

	"github.com/go-pdf/fpdf"
)

// PDF gathers drawings as pages of one PDF file. Text is real text in the
// embedded faces, so that it can be searched and copied.
type PDF struct {
	doc   *fpdf.Fpdf
	k     float64 // points per pixel
	w, h  float64
	fonts map[string]bool
	clips int
	count int
}

// NewPDF begins a document whose pages are w by h pixels, shown widthPt
// points (1/72 inch) wide.
func NewPDF(w, h, widthPt float64, title string) *PDF {
	k := widthPt / w
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: w * k, Ht: h * k}})
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetTitle(title, true)
	doc.SetProducer("stillair", true)
	// The same drawing gives the same file, whenever it is made.
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetCatalogSort(true)
	p := &PDF{doc: doc, k: k, w: w, h: h, fonts: map[string]bool{}}
	p.Page()
	return p
}

// Page begins a new page.
func (p *PDF) Page() {
	for p.clips > 0 {
		p.PopClip()
	}
	p.doc.AddPage()
	p.doc.SetLineJoinStyle("round")
}

// WriteTo writes the whole file.
func (p *PDF) WriteTo(w io.Writer) (int64, error) {
	for p.clips > 0 {
		p.PopClip()
	}
	var b bytes.Buffer
	if err := p.doc.Output(&b); err != nil {
		return 0, fmt.Errorf("pdf: %w", err)
	}
	return b.WriteTo(w)
}

// path hands the steps over; quadratic pieces are raised to cubic ones.
func (p *PDF) path(q *Path) {
	var at Point
	i := 0
	for _, op := range q.Ops {
		pt := func(j int) Point { return Point{q.Pts[i+j].X * p.k, q.Pts[i+j].Y * p.k} }
		switch op {
		case Move:
			at = pt(0)
			p.doc.MoveTo(at.X, at.Y)
		case Line:
			at = pt(0)
			p.doc.LineTo(at.X, at.Y)
		case Quad:
			a, b := pt(0), pt(1)
			p.doc.CurveBezierCubicTo(at.X+(a.X-at.X)*2/3, at.Y+(a.Y-at.Y)*2/3, b.X+(a.X-b.X)*2/3, b.Y+(a.Y-b.Y)*2/3, b.X, b.Y)
			at = b
		case Cubic:
			a, b, c := pt(0), pt(1), pt(2)
			p.doc.CurveBezierCubicTo(a.X, a.Y, b.X, b.Y, c.X, c.Y)
			at = c
		case Close:
			p.doc.ClosePath()
		}
		i += op.points()
	}
}

func (p *PDF) alpha(c color.NRGBA) { p.doc.SetAlpha(float64(c.A)/255, "Normal") }

// Fill fills the path.
func (p *PDF) Fill(q *Path, c color.NRGBA) {
	if !Visible(c) || len(q.Ops) == 0 {
		return
	}
	p.alpha(c)
	p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
	p.path(q)
	p.doc.DrawPath("f")
}

// Stroke draws along the path.
func (p *PDF) Stroke(q *Path, pen Pen, c color.NRGBA) {
	if !Visible(c) || len(q.Ops) == 0 || pen.Width <= 0 {
		return
	}
	p.pen(pen, c)
	p.path(q)
	p.doc.DrawPath("S")
}

func (p *PDF) pen(pen Pen, c color.NRGBA) {
	p.alpha(c)
	p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
	p.doc.SetLineWidth(pen.Width * p.k)
	p.doc.SetLineCapStyle([]string{"butt", "round"}[pen.Cap])
	p.doc.SetLineJoinStyle("round")
	dash := make([]float64, len(pen.Dash))
	for i, d := range pen.Dash {
		dash[i] = d * p.k
	}
	p.doc.SetDashPattern(dash, 0)
}

// face selects the font at its size; the first use embeds it.
func (p *PDF) face(t Type) {
	if !p.fonts[t.Font.Name] {
		p.fonts[t.Font.Name] = true
		p.doc.AddUTF8FontFromBytes(t.Font.Name, "", t.Font.TTF)
	}
	p.doc.SetFont(t.Font.Name, "", t.Size*p.k)
}

// Text writes upright text.
func (p *PDF) Text(x, y float64, s string, t Type, c color.NRGBA) {
	if s == "" || !Visible(c) {
		return
	}
	p.face(t)
	// The file's reader does not kern, so the anchor counts by its widths.
	at := x*p.k - p.doc.GetStringWidth(s)*float64(t.Anchor)/2
	// Both colours are set, since a clip that ended has changed the page's fill
	// colour back without the library's knowledge.
	p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	if t.HaloWidth > 0 && Visible(t.Halo) {
		p.pen(Pen{Width: t.HaloWidth, Cap: Round}, t.Halo)
		p.doc.SetTextRenderingMode(1)
		p.doc.Text(at, y*p.k, s)
		p.doc.SetTextRenderingMode(0)
	}
	p.alpha(c)
	p.doc.Text(at, y*p.k, s)
}

// Turned writes text under a map.
func (p *PDF) Turned(m Affine, s string, t Type, c color.NRGBA) {
	p.doc.TransformBegin()
	// The page's y runs upwards: the map is turned over on both sides.
	h := p.h * p.k
	e, f := m.E*p.k, m.F*p.k
	p.doc.Transform(fpdf.TransformMatrix{A: m.A, B: -m.B, C: -m.C, D: m.D, E: e + m.C*h, F: h - f - m.D*h})
	p.Text(0, 0, s, t, c)
	p.doc.TransformEnd()
}

// shadeSteps is the number of bands a gradient is printed with: the format
// knows no gradient of opacity that this library could write.
const shadeSteps = 24

// Shade prints the gradient as bands.
func (p *PDF) Shade(r Rect, top, foot color.NRGBA) {
	var q Path
	step := r.H / shadeSteps
	for i := range shadeSteps {
		q.Reset().Rect(Rect{r.X, r.Y + float64(i)*step, r.W, step})
		p.Fill(&q, Mix(top, foot, (float64(i)+0.5)/shadeSteps))
	}
}

// Image embeds the picture.
func (p *PDF) Image(r Rect, im *image.RGBA) {
	var b bytes.Buffer
	if err := png.Encode(&b, im); err != nil {
		p.doc.SetError(err)
		return
	}
	p.count++
	name := fmt.Sprintf("image%d", p.count)
	opt := fpdf.ImageOptions{ImageType: "PNG"}
	p.doc.SetAlpha(1, "Normal")
	p.doc.RegisterImageOptionsReader(name, opt, &b)
	p.doc.ImageOptions(name, r.X*p.k, r.Y*p.k, r.W*p.k, r.H*p.k, false, opt, 0, "")
}

// PushClip begins a clip.
func (p *PDF) PushClip(r Rect) {
	p.clips++
	p.doc.ClipRect(r.X*p.k, r.Y*p.k, r.W*p.k, r.H*p.k, false)
}

// PopClip ends it.
func (p *PDF) PopClip() {
	if p.clips > 0 {
		p.clips--
		p.doc.ClipEnd()
	}
}
