package chooser

import (
	"fyne.io/fyne/v2"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// problem is one thing to put right: line and text as written, what is wrong,
// what would be legal.
type problem struct {
	kit.Painted
	wrong flights.Wrong
	what  []string // as many lines as it takes
	legal []string
	width float32
	size  look.Size
}

func newProblem(screen *kit.Screen, w flights.Wrong) *problem {
	p := &problem{wrong: w}
	p.Extend(p, screen, fyne.NewSize(200, 60), p.paint)
	return p
}

// Room round the text of a problem, units.
const (
	problemSide = 20
	problemTop  = 10
)

// fold breaks the words for a width and gives the height it takes, units.
func (p *problem) fold(width float32, z look.Size) float32 {
	what, legal := typeOf(look.Semibold, z, look.TextBody), typeOf(look.Regular, z, look.TextBody)
	if width != p.width || z != p.size {
		p.width, p.size = width, z
		room := float64(width) - 2*problemSide
		p.what = fold(printable(p.wrong.What, look.Semibold), what, room, 0)
		p.legal = fold(printable(p.wrong.Legal, look.Regular), legal, room, 8)
	}
	h := 2*problemTop + pitch*what.Size*float64(len(p.what)+len(p.legal))
	if p.written() {
		h += p.plate(z) + problemTop
	}
	return round(float32(h))
}

// pitch is from line to line, parts of the size of the text.
const pitch = 1.34

// written says whether there is a line to show.
func (p *problem) written() bool { return p.wrong.Line > 0 }

// plate is the height of the ground under the text as written, units.
func (p *problem) plate(z look.Size) float64 { return 1.7 * z.Text(look.TextBody) }

func (p *problem) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := p.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	var path paint.Path
	body := paint.R(0, 0, w, h).Inset(z.Hair() / 2)
	path.RoundRect(body, look.PlateRadius*u)
	d.Stroke(&path, paint.Pen{Width: z.Hair()}, c.Line)
	d.Fill(path.Reset().Rect(paint.R(0, 0, max(5*u, z.Px(6)), h)), c.Verm)
	x, y := problemSide*u, problemTop*u
	if p.written() {
		p.paintLine(d, x, y, w-problemSide*u, z)
		y += p.plate(p.size)*u + problemTop*u*0.6
	}
	what, legal := typeOf(look.Semibold, z, look.TextBody), typeOf(look.Regular, z, look.TextBody)
	for _, line := range p.what {
		d.Text(x, y+what.Size, line, what, c.Ink)
		y += pitch * what.Size
	}
	for _, line := range p.legal {
		d.Text(x, y+legal.Size, line, legal, c.Ink2)
		y += pitch * legal.Size
	}
}

// paintLine writes the number of the line and its text on a low ground.
func (p *problem) paintLine(d *paint.Raster, x, y, right float64, z look.Size) {
	c, u := p.Palette(), z.Device
	text := typeOf(look.Engraved, z, look.TextBody)
	number := look.Textf(look.RefusedLine, p.wrong.Line)
	h := p.plate(z)
	base := y + h/2 + 0.34*text.Size
	d.Text(x, base, number, text, c.Ink2)
	x += text.Font.Width(number, text.Size) + 16*u
	var path paint.Path
	d.Fill(path.RoundRect(paint.R(x, y, right-x, h), look.SmallRadius*u), c.Low)
	d.Text(x+12*u, base, text.Shorten(printable(p.wrong.Text, look.Engraved), right-x-24*u), text, c.Ink)
}

// problems lays the list out.
type problems struct{ refusal *refusal }

// Layout is part of the toolkit's contract.
func (l problems) Layout([]fyne.CanvasObject, fyne.Size) {
	y := float32(0)
	for _, p := range l.refusal.rows {
		h := p.fold(l.refusal.width, l.refusal.chooser.screen.Size(1))
		p.Move(fyne.NewPos(0, y))
		p.Resize(fyne.NewSize(l.refusal.width, h))
		y += h + problemGap
	}
}

// problemGap is between two problems, units.
const problemGap = 8

// MinSize is part of the toolkit's contract.
func (l problems) MinSize([]fyne.CanvasObject) fyne.Size {
	y := float32(0)
	for _, p := range l.refusal.rows {
		y += p.fold(l.refusal.width, l.refusal.chooser.screen.Size(1)) + problemGap
	}
	return fyne.NewSize(100, max(1, y-problemGap))
}
