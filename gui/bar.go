package gui

import (
	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim"
)

// bar is the row at the top: mark and name, the flight, Reveal, light, full
// screen.
type bar struct {
	kit.Painted
	window *Window
	title  string
	date   string
	reveal *kit.Key
	light  *kit.Key
	full   *kit.Key
}

func newBar(w *Window, plan *sim.Plan) *bar {
	b := &bar{window: w, title: plan.Title, date: units.DateText(plan.Start)}
	b.Extend(b, &w.screen, fyne.NewSize(600, 64), b.paint)
	b.reveal = kit.NewKey(&w.screen, look.Text(look.Reveal), kit.RevealSign, 136, w.reveal)
	b.light = kit.NewKey(&w.screen, "", kit.NightSign, kit.Target, w.nextLight)
	b.full = kit.NewKey(&w.screen, "", kit.FullScreenSign, kit.Target, func() {
		w.window.SetFullScreen(!w.window.FullScreen())
	})
	return b
}

func (b *bar) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{b, b.reveal, b.light, b.full}
	for _, k := range b.window.table.ChartKeys() {
		all = append(all, k)
	}
	return all
}

// lay puts the bar across the window and gives its height.
func (b *bar) lay(size fyne.Size) float32 {
	f := min(size.Width/1920, size.Height/1080)
	h, edge := max(64, look.TopBar*f), max(12, look.Edge*f)
	b.Move(fyne.NewPos(0, 0))
	b.Resize(fyne.NewSize(size.Width, h))
	x := size.Width - edge
	put := func(k *kit.Key) {
		w := k.MinSize().Width
		x -= w
		k.Move(fyne.NewPos(x, (h-kit.Target)/2))
		k.Resize(fyne.NewSize(w, kit.Target))
		x -= 8
	}
	put(b.full)
	put(b.light)
	put(b.reveal)
	x -= 24
	keys := b.window.table.ChartKeys()
	for i := range keys {
		put(keys[len(keys)-1-i])
	}
	return h
}

func (b *bar) apply(m *helm.Moment) {
	if m.Revealed != nil {
		b.reveal.Set(look.Text(look.Hide), kit.RevealSign, true)
	} else {
		b.reveal.Set(look.Text(look.Reveal), kit.RevealSign, false)
	}
}

func (b *bar) recolour() {
	for _, o := range b.objects() {
		o.Refresh()
	}
}

// paint draws the mark (a still-air cross in a ring, threaded on a brass line),
// the name and the flight.
func (b *bar) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := b.Palette(), z.Device
	var p paint.Path
	d.Fill(p.Rect(paint.R(0, 0, w, h)), c.Card)
	d.Fill(p.Reset().Rect(paint.R(0, h-z.Hair(), w, z.Hair())), c.Line)
	x, y := max(12*u, z.Px(look.Edge))+26*u, h/2
	d.Stroke(p.Reset().MoveTo(x-26*u, y).LineTo(x+26*u, y), paint.Pen{Width: 4 * u}, c.BrassLo)
	d.Stroke(p.Reset().MoveTo(x-26*u, y).LineTo(x+26*u, y), paint.Pen{Width: 2 * u}, c.BrassHi)
	d.Fill(p.Reset().Circle(x, y, 15*u), c.Card)
	d.Stroke(&p, paint.Pen{Width: 2.2 * u}, c.Ink)
	d.Stroke(p.Reset().MoveTo(x-8*u, y).LineTo(x+8*u, y).MoveTo(x, y-8*u).LineTo(x, y+8*u), paint.Pen{Width: 2.4 * u}, c.Ink)
	name := paint.Type{Font: look.Engraved.Font(), Size: z.Text(look.TextHeading)}
	d.Text(x+36*u, y+0.34*name.Size, look.Text(look.Stillair), name, c.Ink)
	x += 36*u + name.Font.Width(look.Text(look.Stillair), name.Size) + 40*u
	title := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel)}
	d.Text(x, y-0.05*title.Size, b.title, title, c.Ink)
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	d.Text(x, y+1.15*small.Size, b.date+". "+look.Text(look.Caution), small, c.Ink2)
}
