package gui

import (
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// bar is the row at the top: mark and name, the flight, the chart's keys, the
// tools of a lecture, Reveal, light, help, full screen.
type bar struct {
	kit.Painted
	window  *Window
	flight  *kit.Key
	chart   []*kit.Key // of the flight in hand
	tools   *kit.Key
	reveal  *kit.Key
	light   *kit.Key
	help    *kit.Key
	full    *kit.Key
	caution float32 // where the caution may stand, units
	room    float32
}

func newBar(w *Window) *bar {
	b := &bar{window: w}
	b.Extend(b, &w.screen, fyne.NewSize(600, 64), b.paint)
	b.flight = kit.NewKey(&w.screen, "", kit.NoSign, 200, func() { w.toggle(chooserFront) })
	b.flight.Hint = look.Text(look.FlightHint)
	b.tools = kit.NewKey(&w.screen, look.Text(look.LectureTools), kit.NoSign, 96, w.toggleTools)
	b.tools.Hint = look.Text(look.LectureHint)
	b.reveal = kit.NewKey(&w.screen, look.Text(look.Reveal), kit.RevealSign, 132, w.reveal)
	b.reveal.Hint = look.Text(look.RevealHint)
	b.light = kit.NewSignKey(&w.screen, kit.NightSign, look.LightHint, w.nextLight)
	b.help = kit.NewSignKey(&w.screen, kit.HelpSign, look.Help, func() { w.toggle(helpFront) })
	b.full = kit.NewSignKey(&w.screen, kit.FullScreenSign, look.FullScreen, w.toggleFullScreen)
	return b
}

// show takes up the flight in hand.
func (b *bar) show(s *show) {
	b.chart = s.table.ChartKeys()
	b.flight.Word, _, _ = strings.Cut(s.flight.Plan.Title, ": ") // what follows has room in the list of flights
	b.flight.Under = units.DateText(s.flight.Plan.Start)
}

func (b *bar) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{b, b.flight, b.tools, b.reveal, b.light, b.help, b.full}
	for _, k := range b.chart {
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
	put := func(k *kit.Key, gap float32) {
		w := k.MinSize().Width
		x -= w
		k.Move(fyne.NewPos(x, (h-kit.Target)/2))
		k.Resize(fyne.NewSize(w, kit.Target))
		x -= gap
	}
	for _, k := range []*kit.Key{b.full, b.help, b.light} {
		put(k, 8)
	}
	put(b.reveal, 8)
	put(b.tools, max(12, 24*f))
	for i := range b.chart {
		put(b.chart[len(b.chart)-1-i], 8)
	}
	left := b.nameEnd(f, edge)
	w := min(max(190, 300*f), x-left-8)
	b.flight.Move(fyne.NewPos(left, (h-kit.Target)/2))
	b.flight.Resize(fyne.NewSize(w, kit.Target))
	b.caution = left + w + 16
	b.room = x - 8 - b.caution
	return h
}

// nameEnd is where the name ends and the flight's key begins, units.
func (b *bar) nameEnd(f, edge float32) float32 {
	size := b.window.screen.Size(1).Text(look.TextHeading)
	name := float32(look.Engraved.Font().Width(look.Text(look.Stillair), size))
	return float32(int(edge + 62 + name + max(14, 36*f)))
}

func (b *bar) apply(m *helm.Moment) {
	if m.Revealed != nil {
		b.reveal.Set(look.Text(look.Hide), kit.RevealSign, true)
	} else {
		b.reveal.Set(look.Text(look.Reveal), kit.RevealSign, false)
	}
}

func (b *bar) recolour() {
	signs := map[look.Variant]kit.Sign{look.Paper: kit.NightSign, look.Night: kit.LampSign, look.Lamp: kit.PaperSign}
	b.light.Set("", signs[b.Palette().Variant], false)
	b.help.Set("", kit.HelpSign, b.window.front == helpFront)
	b.tools.Set(b.tools.Word, kit.NoSign, b.window.table.TrayOpen())
	b.flight.Set(b.flight.Word, kit.NoSign, b.window.front == chooserFront)
	for _, o := range b.objects() {
		o.Refresh()
	}
}

// paint draws the mark (a still-air cross in a ring, threaded on a brass line),
// the name and the caution.
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
	b.paintCaution(d, y, z)
}

// paintCaution writes the caution in as few lines as there is room for.
func (b *bar) paintCaution(d *paint.Raster, y float64, z look.Size) {
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	lines := kit.Wrap(look.Text(look.Caution), func(s string) float64 { return small.Font.Width(s, small.Size) }, float64(b.room)*z.Device)
	pitch := 1.25 * small.Size
	top := y - pitch*float64(len(lines)-1)/2 + 0.35*small.Size
	for i, l := range lines {
		d.Text(float64(b.caution)*z.Device, top+float64(i)*pitch, l, small, b.Palette().Ink2)
	}
}
