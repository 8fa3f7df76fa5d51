package editor

import (
	"io"
	"strconv"

	"fyne.io/fyne/v2"

	"stillair/gui/drafting"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

func itoa(n int) string { return strconv.Itoa(n) }

// Spaces, units.
const (
	gap      = 6
	within   = 12
	headline = 30
	stripH   = 76
)

// places are where the parts of the view stand, units.
type places struct {
	strip, list, words kit.Box
	ops, foot          float32 // of the rows of keys
}

func (v *View) placesOf(w, h float32) (p places) {
	z := v.screen.Size(1)
	p.foot = h - kit.Target - gap
	words := float32(2.75 * z.Text(look.TextSmall))
	p.words = kit.Box{X: within, Y: p.foot - words - 2, W: w - 2*within, H: words}
	y := float32(headline + kit.Target + gap)
	if v.tab == drafting.EventsTab && v.picking == nil {
		p.strip = kit.Box{X: within - 4, Y: y, W: w - 2*within + 8, H: stripH}
		y += stripH + 2
	}
	end := p.words.Y - 4
	p.ops = end - kit.Target
	if v.tab != drafting.SettingsTab || v.picking != nil {
		end = p.ops - 2
	}
	p.list = kit.Box{X: within - 4, Y: y, W: w - 2*within + 8, H: end - y}
	return p
}

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	w := size.Width
	p := v.placesOf(w, size.Height)
	kit.Box{W: w, H: size.Height}.Put(v.pane)
	p.list.Put(v.list)
	if v.strip.Visible() {
		p.strip.Put(v.strip)
	}
	row(headline, w, v.tabs...)
	var ops []*kit.Key
	for _, r := range []role{addKey, add2Key, add3Key, removeKey, backKey} {
		if v.keys[r].Visible() {
			ops = append(ops, v.keys[r])
		}
	}
	row(p.ops, w, ops...)
	row(p.foot, w, v.keys[undoKey], v.keys[redoKey], v.keys[saveKey], v.keys[flyKey])
}

// row lays keys out in a row, each as wide as it needs and more.
func row(y, w float32, keys ...*kit.Key) {
	total := float32(0)
	for _, k := range keys {
		total += k.Needs()
	}
	room := w - 2*within + 8 - float32(len(keys)-1)*2
	x := float32(within - 4)
	for _, k := range keys {
		width := k.Needs() + (room-total)/float32(len(keys))
		if total > room {
			width = k.Needs() * room / total
		}
		kit.Box{X: x, Y: y, W: width, H: kit.Target}.Put(k)
		x += width + 2
	}
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(380, 480) }

// paneKey is what the words of the view depend on.
type paneKey struct {
	made int
	p    *look.Palette
}

// pane is the paper of the view with what is written on it.
type pane struct {
	kit.Painted
	view *View
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(380, 480), p.paint)
	return p
}

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, u := p.view, z.Device
	kit.Paper(d, w, h, z, p.Palette())
	c := p.Palette()
	name := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	y := headline*u/2 + 0.4*name.Size
	if v.draft == nil {
		return
	}
	title := v.called()
	if v.path == "" || v.draft.Changed() {
		title = look.Textf(look.EditorUnsaved, title)
	}
	if v.picking != nil {
		title = v.picking.title
	}
	d.Text(within*u, y, name.Shorten(title, w-2*within*u), name, c.Ink)
	l := v.placesOf(float32(w/u), float32(h/u))
	words, bad := v.words()
	ink := c.Ink2
	r := rect(l.words, u)
	if bad {
		var path paint.Path
		d.Fill(path.RoundRect(r.Inset(-3*u), 4*u), c.VermFill)
		ink = c.Ink
		d.Fill(path.Reset().Rect(paint.R(r.X-3*u, r.Y-3*u, 3*u, r.H+6*u)), c.Verm)
	}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	x := r.X
	if bad {
		x += 6 * u
	}
	lines := small.Wrap(words, r.Right()-x)
	if len(lines) > 2 {
		lines = []string{lines[0], small.Shorten(lines[1]+" "+lines[2], r.Right()-x)}
	}
	for i, line := range lines {
		d.Text(x, r.Y+(1.0+1.28*float64(i))*small.Size, line, small, ink)
	}
}

// rect is a box in device pixels.
func rect(b kit.Box, u float64) paint.Rect {
	return paint.R(float64(b.X)*u, float64(b.Y)*u, float64(b.W)*u, float64(b.H)*u)
}

// pagePixels is the size of the letters' page, of which all else hangs.
const pagePixels = 2

// writePage writes all rows of a draft on one page.
func writePage(out io.Writer, f paint.Format, title string, tabs [][]drafting.Row) error {
	const width, pitch, size = 520.0 * pagePixels, 22.0 * pagePixels, 14.0 * pagePixels
	n := 0
	for _, rows := range tabs {
		n += len(rows) + 2
	}
	height := float64(n+3) * pitch
	return paint.Export(out, f, int(width), int(height), title, func(s paint.Surface) {
		c := look.Of(look.Paper)
		b := picture.NewBrush(s, c, look.Size{Device: pagePixels})
		b.Fill(new(paint.Path).Rect(paint.R(0, 0, width, height)), c.Card)
		head := paint.Type{Font: look.Bold.Font(), Size: 1.3 * size}
		b.Text(pitch, 1.6*pitch, head.Shorten(title, width-2*pitch), head, c.Ink)
		y := 2.2 * pitch
		for i, rows := range tabs {
			y += 1.5 * pitch
			name := paint.Type{Font: look.Semibold.Font(), Size: 1.1 * size}
			b.Text(pitch, y, look.Text(tabWords[i]), name, c.BrassText)
			for _, r := range rows {
				y += pitch
				left := paint.Type{Font: look.Regular.Font(), Size: size}
				right := paint.Type{Font: look.Semibold.Font(), Size: size, Anchor: paint.End}
				b.Text(1.5*pitch, y, r.Label, left, c.Ink2)
				b.Text(width-pitch, y, right.Shorten(r.Value, 0.6*width), right, c.Ink)
			}
		}
	})
}
