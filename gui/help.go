package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// help is the sheet with all that the keyboard does, the choices of the user
// and the cautions. Its rows are the deeds themselves.
type help struct {
	kit.Painted
	window  *Window
	deeds   []kit.Deed
	larger  *kit.Key
	still   *kit.Key
	shut    *kit.Key
	content *fyne.Container
}

func newHelp(w *Window) *help {
	h := &help{window: w}
	h.Extend(h, &w.screen, fyne.NewSize(400, 300), h.paint)
	h.larger = kit.NewKey(&w.screen, look.Text(look.LargerText), kit.NoSign, 190, func() {
		w.choose(func(s *kit.Screen) { s.LargerText = !s.LargerText })
	})
	h.still = kit.NewKey(&w.screen, look.Text(look.ReducedMotion), kit.NoSign, 190, func() {
		w.choose(func(s *kit.Screen) { s.ReducedMotion = !s.ReducedMotion })
	})
	h.shut = kit.NewKey(&w.screen, look.Text(look.CloseWord), kit.NoSign, 190, func() { w.bring(tableFront) })
	h.shut.Main = true
	h.content = container.New(helpLayout{h}, h, h.larger, h.still, h.shut)
	return h
}

// show brings the sheet up to what the keys do now.
func (h *help) show(deeds []kit.Deed) {
	h.deeds = deeds
	h.mark()
}

// mark shows which choices are made.
func (h *help) mark() {
	s := &h.window.screen
	h.larger.Set(h.larger.Word, kit.NoSign, s.LargerText)
	h.still.Set(h.still.Word, kit.NoSign, s.ReducedMotion)
	h.content.Refresh()
	h.Repaint()
}

// The third column holds choices and cautions; the other two the keys.
func (h *help) column(w float32) (x, width float32) {
	return w * 0.69, w*0.31 - 28
}

// helpLayout puts the sheet's keys on it.
type helpLayout struct{ *help }

// Layout is part of the toolkit's contract.
func (h helpLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	h.help.Move(fyne.NewPos(0, 0))
	h.help.Resize(size)
	x, width := h.column(size.Width)
	x, width = float32(int(x)), float32(int(width))
	y := float32(76)
	for _, k := range []*kit.Key{h.larger, h.still} {
		k.Move(fyne.NewPos(x, y))
		k.Resize(fyne.NewSize(width, kit.Target))
		y += kit.Target + 8
	}
	h.shut.Move(fyne.NewPos(x, size.Height-kit.Target-28))
	h.shut.Resize(fyne.NewSize(width, kit.Target))
}

// MinSize is part of the toolkit's contract.
func (h helpLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

func (h *help) paint(d *paint.Raster, w, tall float64, z look.Size) {
	c, u := h.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, tall)), c.Ground)
	var p paint.Path
	p.RoundRect(paint.R(12*u, 12*u, w-24*u, tall-24*u), look.CardRadius*u)
	d.Fill(&p, c.Card)
	d.Stroke(&p, paint.Pen{Width: z.Hair()}, c.Line)
	title := paint.Type{Font: look.Bold.Font(), Size: z.Text(look.TextLarge)}
	d.Text(36*u, 52*u, look.Text(look.HelpKeys), title, c.Ink)
	h.paintKeys(d, w, tall, z)
	x, width := h.column(float32(w / u))
	left, room := float64(x)*u, float64(width)*u
	d.Text(left, 52*u, look.Text(look.HelpChoices), title, c.Ink)
	y := (76 + 2*(kit.Target+8) + 40) * u
	d.Text(left, y, look.Text(look.HelpCautions), title, c.Ink)
	body := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	for i, line := range body.Wrap(look.Text(look.CautionLong), room) {
		d.Text(left, y+(float64(i)*1.4+1.9)*body.Size, line, body, c.Ink)
	}
}

// paintKeys writes the deeds in two columns: a plate with the key, and what it
// does.
func (h *help) paintKeys(d *paint.Raster, w, tall float64, z look.Size) {
	c, u := h.Palette(), z.Device
	rows := (len(h.deeds) + 1) / 2
	if rows == 0 {
		return
	}
	pitch := min((tall-120*u)/float64(rows), 44*u)
	key := paint.Type{Font: look.Semibold.Font(), Size: min(z.Text(look.TextSmall), 0.52*pitch), Anchor: paint.Middle}
	text := paint.Type{Font: look.Regular.Font(), Size: min(z.Text(look.TextBody), 0.58*pitch)}
	for i, deed := range h.deeds {
		x, y := 36*u+float64(i/rows)*w*0.325, 76*u+float64(i%rows)*pitch
		plate := paint.R(x, y+0.1*pitch, 96*u, 0.8*pitch)
		d.Fill(new(paint.Path).RoundRect(plate, 4*u), c.Slate)
		d.Text(plate.Centre().X, plate.Centre().Y+0.35*key.Size, deed.Label, key, c.OnSlate)
		d.Text(x+110*u, y+pitch/2+0.35*text.Size, look.Text(deed.Does), text, c.Ink)
	}
}
