package linkage

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/chain"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// mode says what the card is about.
type mode uint8

const (
	shut mode = iota
	walking
	following
	opened
)

// card tells of one link: what a lecturer says of it on the walk, where the
// error goes, or its law with the numbers of this moment.
type card struct {
	view  *View
	mode  mode
	at    int          // of the walk, or of the steps of the error
	link  picture.Link // it tells of
	paper *kit.Panel
	back  *kit.Key
	next  *kit.Key
	more  *kit.Key // opens the law, or the faults
	close *kit.Key
	hands *hands

	lines []line
	told  time.Time // when the lines were last written
}

// line is a line of the card.
type line struct {
	words string
	face  look.Face
	size  float64 // at 1080 lines
	ink   func(*look.Palette) color.NRGBA
	gap   float64 // above it, of its size
}

func newCard(v *View) *card {
	c := &card{view: v}
	c.paper = kit.NewPanel(v.screen, c.paint)
	c.back = kit.NewKey(v.screen, look.Text(look.CardBack), kit.NoSign, kit.Target, func() { c.step(-1) })
	c.next = kit.NewKey(v.screen, look.Text(look.CardNext), kit.NoSign, kit.Target, func() { c.step(1) })
	c.more = kit.NewKey(v.screen, "", kit.NoSign, kit.Target, c.goOn)
	c.close = kit.NewKey(v.screen, look.Text(look.CloseWord), kit.NoSign, kit.Target, func() { v.Shut() })
	c.hands = newHands(v)
	kit.Show(false, c.objects()...)
	return c
}

func (c *card) objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{c.paper, c.back, c.next, c.more, c.close}, c.hands.objects()...)
}

// stops are the links that the card goes along.
func (c *card) stops() []picture.Link {
	if c.mode != following {
		return chain.Walk()
	}
	var all []picture.Link
	for _, s := range c.view.story.Follow() {
		all = append(all, s.Link)
	}
	return all
}

// turn has the card tell of a stop.
func (c *card) turn(m mode, at int) {
	c.mode, c.at = m, at
	v := c.view
	v.shown.Lit, v.shown.Chosen, c.link = picture.NoLink, picture.NoLink, picture.NoLink
	if stops := c.stops(); m != shut && at < len(stops) {
		c.link = stops[at]
	}
	switch m {
	case walking, following:
		v.shown.Lit = c.link
	case opened:
		v.shown.Chosen = c.link
		c.hands.turn(c.link)
	}
	c.told = time.Time{}
	kit.Show(m != shut, c.paper, c.back, c.next, c.more, c.close)
	v.Apply(v.moment)
}

// step goes along the stops; the walk begins if nothing is told.
func (c *card) step(by int) {
	if c.mode == shut {
		c.turn(walking, 0)
		return
	}
	n := len(c.stops())
	if n == 0 {
		c.turn(shut, 0)
		return
	}
	c.turn(c.mode, max(0, min(n-1, c.at+by)))
}

// goOn opens the law of the link that the walk stands at; from the law it goes to
// the card on which the link is broken.
func (c *card) goOn() {
	if c.mode != opened {
		c.view.Open(c.link)
		return
	}
	if f := c.view.story.Card(c.link).Faults; len(f) > 0 && c.view.BreakHere != nil {
		c.view.BreakHere(f)
	}
}

// tellEvery is how often the numbers on the card change while the clock runs:
// they are to be read.
const tellEvery = 250 * time.Millisecond

// apply brings the card up to the moment.
func (c *card) apply() {
	if c.mode == shut {
		kit.Show(false, c.objects()...)
		return
	}
	now := c.view.clock()
	if c.view.moment.Playing && now.Sub(c.told) < tellEvery {
		return
	}
	c.told = now
	if c.mode == following { // the error may have changed its way
		if stops := c.stops(); len(stops) == 0 {
			c.view.Shut()
			return
		} else if c.at >= len(stops) || stops[c.at] != c.link {
			c.at = min(c.at, len(stops)-1)
			c.link = stops[c.at]
			c.view.shown.Lit = c.link
		}
	}
	c.lay()
}

// write makes the lines of the card, no wider than width units.
func (c *card) write(width float64) {
	c.lines = c.lines[:0]
	switch story := &c.view.story; c.mode {
	case walking:
		c.add(width, story.Card(c.link).Title, title)
		c.add(width, story.WalkText(c.link), said)
		c.add(width, story.Spoken(c.link), aside)
	case following:
		steps := story.Follow()
		c.add(width, look.Textf(look.FollowTitle, c.at+1, len(steps)), aside)
		c.add(width, story.Card(c.link).Title, title)
		c.add(width, steps[c.at].Words, said)
	case opened:
		c.writeLaw(width, story.Card(c.link))
	}
}

func (c *card) writeLaw(width float64, about chain.Card) {
	c.add(width, about.Title, title)
	c.add(width, about.What, plain)
	for _, l := range about.Law {
		c.add(width, l, law)
	}
	if about.Error != "" {
		c.add(width, about.Error, wrong)
	}
	if names := faultNames(about.Faults); names != "" {
		c.add(width, look.Textf(look.CardFaults, names), aside)
	}
}

// The kinds of line.
var (
	title = line{face: look.Bold, size: look.TextLarge, ink: func(p *look.Palette) color.NRGBA { return p.Ink }}
	said  = line{face: look.Regular, size: look.TextLabel, ink: title.ink, gap: 0.5}
	plain = line{face: look.Regular, size: look.TextBody, ink: title.ink, gap: 0.35}
	law   = line{face: look.Regular, size: look.TextBody, ink: func(p *look.Palette) color.NRGBA { return p.BrassText }, gap: 0.35}
	aside = line{face: look.Regular, size: look.TextSmall, ink: func(p *look.Palette) color.NRGBA { return p.Ink2 }, gap: 0.5}
	wrong = line{face: look.Semibold, size: look.TextBody, ink: func(p *look.Palette) color.NRGBA { return p.Verm }, gap: 0.5}
)

// add breaks words into lines of a kind.
func (c *card) add(width float64, words string, kind line) {
	size := c.view.screen.Size(1).Text(kind.size)
	face := paint.Type{Font: kind.face.Font(), Size: size}
	for i, w := range face.Wrap(words, width) {
		l := kind
		l.words = w
		if i > 0 {
			l.gap = 0
		}
		c.lines = append(c.lines, l)
	}
}

// pitch is from line to line, of the size.
const pitch = 1.32

// tall is the height of the lines, units.
func (c *card) tall() float64 {
	z, sum := c.view.screen.Size(1), 0.0
	for _, l := range c.lines {
		sum += z.Text(l.size) * (pitch + l.gap)
	}
	return sum
}

func (c *card) paint(d *paint.Raster, _, _ float64, z look.Size) {
	p, y := c.view.screen.Palette, cardPad*z.Device
	for _, l := range c.lines {
		size := z.Text(l.size)
		y += size * (pitch + l.gap)
		d.Text(cardPad*z.Device, y-0.3*size, l.words, paint.Type{Font: l.face.Font(), Size: size}, l.ink(p))
	}
	c.hands.paint(d, z)
}
