package lessonview

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// lights are the rings round what a step speaks of. They are no widgets: a touch
// goes through them.
type lights struct {
	view    *View
	content *fyne.Container
	rings   [maxLights]ring
	names   []string
}

// Shape says how a part is lit.
type Shape uint8

// The shapes.
const (
	Unseen Shape = iota
	Card         // a card: the number stands at its upper right
	Mark         // a mark on the chart: a circle
	Link         // a link of the mechanism with its name
	Disc         // a round link
)

// maxLights is how many parts a step lights at most.
const maxLights = 6

// ring is one of them: slate, brass outside it, and a number on brass.
type ring struct {
	slate, brass *canvas.Rectangle
	number       *numberDisc
	at           kit.Box
}

// numberDisc is a number on brass.
type numberDisc struct {
	kit.Painted
	number int
}

// The rings, units: width of slate and brass, how far the brass lies outside, and
// the size of the disc.
const (
	slateRing = 4
	brassRing = 2
	ringApart = 7
	discSize  = 28
)

func newLights(v *View) *lights {
	l := &lights{view: v, content: container.NewWithoutLayout()}
	for i := range l.rings {
		r := &l.rings[i]
		r.slate, r.brass = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
		r.slate.StrokeWidth, r.brass.StrokeWidth = slateRing, brassRing
		r.number = &numberDisc{number: i + 1}
		r.number.Extend(r.number, v.screen, fyne.NewSize(discSize, discSize), r.number.paint)
		l.content.Add(r.slate)
		l.content.Add(r.brass)
		l.content.Add(r.number)
	}
	l.recolour()
	l.show(nil)
	return l
}

func (n *numberDisc) paint(d *paint.Raster, w, h float64, z look.Size) {
	im := d.Pixels()
	clear(im.Pix) // what lies under it shows round the disc
	badge(d, w/2, h/2, w/2-2*z.Device, strconv.Itoa(n.number), n.Palette())
}

func (l *lights) recolour() {
	for i := range l.rings {
		r := &l.rings[i]
		r.slate.StrokeColor, r.brass.StrokeColor = l.view.screen.Palette.SlateHi, l.view.screen.Palette.Brass
		r.slate.Refresh()
		r.brass.Refresh()
		r.number.Repaint()
	}
}

// show lights the parts with these names.
func (l *lights) show(names []string) {
	l.names = names
	l.follow()
}

// follow puts the rings where the parts are now.
func (l *lights) follow() {
	shown := l.content.Visible() && l.view.Where != nil
	for i := range l.rings {
		r := &l.rings[i]
		at, shape := kit.Box{}, Unseen
		if shown && i < len(l.names) {
			at, shape = l.view.Where(l.names[i])
		}
		seen := shape != Unseen
		kit.Show(seen, r.slate, r.brass)
		kit.Show(seen && len(l.names) > 1, r.number)
		if seen && at != r.at {
			r.put(at, shape)
		}
	}
}

// put lays a ring round a place.
func (r *ring) put(at kit.Box, shape Shape) {
	r.at = at
	around := func(by float32) kit.Box {
		return kit.Box{X: at.X - by, Y: at.Y - by, W: at.W + 2*by, H: at.H + 2*by}
	}
	circle := shape == Mark || shape == Disc
	corner := func(b kit.Box) float32 {
		if circle {
			return min(b.W, b.H) / 2
		}
		return look.CardRadius + 2
	}
	in, out := around(0), around(ringApart)
	if shape == Link { // its name stands at the edge
		in, out = around(3), around(6)
	}
	r.slate.CornerRadius, r.brass.CornerRadius = corner(in), corner(out)
	in.Put(r.slate)
	out.Put(r.brass)
	disc := kit.Box{X: at.X + at.W - discSize/2 - 4, Y: at.Y - discSize/2 + 4, W: discSize, H: discSize}
	switch { // the words beside a mark mostly stand above it or at its right
	case circle: // the number on the ring, half way between left and foot
		const slant = 0.354 // half of sin 45
		disc.X, disc.Y = at.X+(0.5-slant)*at.W-discSize/2-3, at.Y+(0.5+slant)*at.H-discSize/2+3
	case shape == Link:
		disc.X, disc.Y = at.X-discSize+6, at.Y+at.H-6
	}
	disc.Put(r.number)
}
