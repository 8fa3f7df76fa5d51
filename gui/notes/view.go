package notes

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// Part is one part of a page: a word in the margin and what it is about.
type Part struct {
	Label, Words string
	Strong       bool // what to say comes before what to know
}

// Page is what stands in the notes at a moment.
type Page struct {
	Title string // of the flight
	Count string // step 3 of 8
	Head  string
	Parts []Part
	Next  string
	Clock string // of the flight, and whether it runs
}

// about is what the page belongs to.
func (p *Page) about() string {
	words := p.Title
	for _, s := range []string{p.Count, p.Clock} {
		if s != "" {
			words += "; " + s
		}
	}
	return words
}

// View is the lecturer's window inside.
type View struct {
	hour   Hour
	clock  func() time.Time
	screen *kit.Screen
	page   Page
	made   int

	content *fyne.Container
	pane    *pane
	keys    []*kit.Key // less, more, again; back, on
}

// Deeds are what the keys do beside the view's own.
type Deeds struct {
	Back, On func()
	Planned  func(time.Duration) // keeps what is planned
}

// New makes the notes; the hour begins now.
func New(planned time.Duration, screen *kit.Screen, do Deeds, clock func() time.Time) *View {
	v := &View{hour: Hour{Began: clock(), Planned: planned}, clock: clock, screen: screen}
	longer := func(steps int) func() {
		return func() {
			v.hour.Longer(steps)
			do.Planned(v.hour.Planned)
			v.changed()
		}
	}
	key := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
		k.Hint = look.Text(hint)
		return k
	}
	v.keys = []*kit.Key{
		key(look.NotesShorter, look.NotesShorterHint, longer(-1)), key(look.NotesLonger, look.NotesLongerHint, longer(1)),
		key(look.NotesAgain, look.NotesAgainHint, func() { v.hour.Began = v.clock(); v.changed() }),
		key(look.NotesBack, look.NotesBackHint, do.Back), key(look.NotesOn, look.NotesOnHint, do.On),
	}
	v.keys[4].Main = true
	v.pane = newPane(v)
	v.content = container.New(v, v.pane)
	for _, k := range v.keys {
		v.content.Add(k)
	}
	return v
}

// Content is the view for a window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Show brings the page up to what is shown, and the hour up to the clock.
func (v *View) Show(p Page) {
	v.page = p
	v.pane.Update(v.key())
}

func (v *View) changed() {
	v.made++
	v.pane.Update(v.key())
}

// paneKey is what the picture depends on.
type paneKey struct {
	words, left, gone string
	share             int // thousandths
	made              int
	p                 *look.Palette
}

func (v *View) key() paneKey {
	now := v.clock()
	left, gone := v.hour.text(now)
	k := paneKey{left: left, gone: gone, share: int(1000 * v.hour.Share(now)), made: v.made, p: v.screen.Palette}
	for _, s := range []string{v.page.about(), v.page.Head, v.page.Next} {
		k.words += s + "\n"
	}
	for _, s := range v.page.Parts {
		k.words += s.Label + "\t" + s.Words + "\n"
	}
	return k
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.changed()
	for _, o := range v.content.Objects {
		o.Refresh()
	}
}

const (
	edge = 20
	row  = kit.Target
	band = 122 // the hour
)

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 420) }

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if size.Width != v.screen.W || size.Height != v.screen.H {
		v.screen.W, v.screen.H = size.Width, size.Height
		v.made++
	}
	kit.Box{W: size.Width, H: size.Height}.Put(v.pane)
	x := size.Width - edge
	for _, k := range []*kit.Key{v.keys[2], v.keys[1], v.keys[0]} {
		w := max(kit.Target, k.Needs())
		x -= w
		kit.Box{X: x, Y: edge, W: w, H: row}.Put(k)
		x -= 8
	}
	half := (size.Width - 2*edge - 8) / 3
	kit.Box{X: edge, Y: size.Height - edge - row, W: half, H: row}.Put(v.keys[3])
	kit.Box{X: edge + half + 8, Y: size.Height - edge - row, W: 2 * half, H: row}.Put(v.keys[4])
	v.pane.Update(v.key())
}

// Named are the parts a probe may want to find.
func (v *View) Named() map[string]fyne.CanvasObject {
	return map[string]fyne.CanvasObject{
		"notes": v.pane, "notes-shorter": v.keys[0], "notes-longer": v.keys[1], "notes-again": v.keys[2], "notes-back": v.keys[3], "notes-on": v.keys[4],
	}
}

// pane is the picture of the notes.
type pane struct {
	kit.Painted
	view *View
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(480, 420), p.paint)
	return p
}

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, c, u := p.view, p.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card) // what the keys stand on
	v.paintHour(d, w, z)
	top, foot := band*u, h-(2*edge+row)*u
	var card paint.Path
	d.Fill(card.RoundRect(paint.R(edge*u, top, w-2*edge*u, foot-top), look.CardRadius*u), c.Ground)
	d.Stroke(&card, paint.Pen{Width: z.Hair()}, c.Line)
	in := paint.R(2*edge*u, top+edge*u, w-4*edge*u, foot-top-2*edge*u)
	for _, k := range []float64{2.6, 2.2, 1.9, 1.7, 1.5, 1.3, 1.15, 1} {
		l := lines{d: nil, p: &v.page, in: in, c: c, size: k * z.Text(look.TextBody)}
		if k > 1 && l.draw() > in.H {
			continue
		}
		l.d = d
		d.PushClip(in)
		l.draw()
		d.PopClip()
		return
	}
}

// paintHour paints what is left of the hour, and a bar of it.
func (v *View) paintHour(d *paint.Raster, w float64, z look.Size) {
	c, u, now := v.screen.Palette, z.Device, v.clock()
	left, gone := v.hour.text(now)
	big := paint.Type{Font: look.Semibold.Font(), Size: 30 * u}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	ink := c.Ink
	if _, _, over := v.hour.Left(now); over {
		ink = c.Verm
	}
	d.Text(edge*u, (edge+26)*u, left, big, ink)
	d.Text(edge*u, (edge+50)*u, gone, small, c.Ink2)
	bar := paint.R(edge*u, (edge+row+14)*u, w-2*edge*u, 8*u)
	var path paint.Path
	d.Fill(path.RoundRect(bar, bar.H/2), c.Low)
	d.Fill(path.Reset().RoundRect(paint.R(bar.X, bar.Y, bar.W*v.hour.Share(now), bar.H), bar.H/2), c.Brass)
}
