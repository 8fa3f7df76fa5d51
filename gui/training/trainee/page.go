package trainee

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// page is a card that lies over a part of the window.
type page struct {
	view  *View
	on    bool
	place kit.Box
	paper *kit.Panel
	shut  *kit.Key
	show  func() // brings its keys up to date and lays them
	fill  func() // nil, or fills the card in as it is opened
}

func newPage(v *View, draw func(d *paint.Raster, w, h float64, z look.Size)) page {
	p := page{view: v, paper: kit.NewPanel(v.screen, draw)}
	p.shut = kit.NewKey(v.screen, look.Text(look.CloseWord), kit.NoSign, 84, nil)
	return p
}

// open opens the card or shuts it.
func (p *page) open(on bool) {
	if on && !p.on && p.fill != nil {
		p.fill()
	}
	was := p.on
	p.on = on
	p.show()
	p.view.uncover()
	if was != on && p.view.content != nil { // nothing else may ask for a frame after landing
		p.view.content.Refresh()
	}
}

func (p *page) lay(at kit.Box) {
	p.place = at
	at.Put(p.paper)
	p.show()
}

// toggle opens a card and shuts the others.
func (v *View) toggle(p *page) {
	on := !p.on
	v.shut()
	p.open(on)
	v.bar.apply()
	if on {
		p.keyboard()
	}
}

// keyboard has the keys of the keyboard go on in the card.
func (p *page) keyboard() {
	if c := p.view.canvas(); c != nil {
		c.Focus(p.shut)
	}
}

// uncover has the aids and the plot out of reach while a card lies over them.
func (v *View) uncover() {
	if v.content != nil {
		kit.Show(!v.report.on && !v.hand.on, v.navigator.Content())
	}
}

// Of a card, units.
const (
	pad  = 14
	step = kit.Target + 4
	head = pad + kit.Target + 8
)

// inner is the room within the card.
func (p *page) inner() kit.Box {
	return kit.Box{X: p.place.X + pad, Y: p.place.Y + pad, W: p.place.W - 2*pad, H: p.place.H - 2*pad}
}

// frame shows paper and the key that shuts, or nothing; it says whether there is more to
// show.
func (p *page) frame(objects []fyne.CanvasObject) bool {
	kit.Show(false, objects...)
	if !p.on || p.place.W == 0 {
		return false
	}
	in := p.inner()
	w := p.shut.Needs() + 20
	kit.Box{X: in.X + in.W - w, Y: in.Y, W: w, H: kit.Target}.Put(p.shut)
	kit.Show(true, p.paper, p.shut)
	p.paper.Repaint()
	return true
}

// title writes the card's name.
func (p *page) title(d *paint.Raster, w float64, z look.Size, words string) {
	u := z.Device
	t := paint.Type{Font: look.Bold.Font(), Size: z.Text(look.TextLarge)}
	room := w - 2*pad*u - 130*u
	lines := t.Wrap(words, room)
	y := pad*u + kit.Target*u/2 + 0.35*t.Size - float64(len(lines)-1)*0.6*t.Size
	for _, line := range lines {
		d.Text(pad*u, y, line, t, p.paper.Palette().Ink)
		y += 1.2 * t.Size
	}
}

// words writes running text from a height down, and gives where it ended.
func (p *page) words(d *paint.Raster, w, y float64, z look.Size, size float64, words string) float64 {
	t := paint.Type{Font: look.Regular.Font(), Size: z.Text(size)}
	for _, line := range t.Wrap(words, w-2*pad*z.Device) {
		y += 1.35 * t.Size
		d.Text(pad*z.Device, y, line, t, p.paper.Palette().Ink)
	}
	return y
}
