package linkage

import (
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim/fault"
)

// The card, units.
const (
	cardPad  = 16.0
	cardGap  = 6.0
	cardWide = 520.0 // at 1080 lines
	cardEdge = 8.0   // from the edge of the view
)

// lay writes the card and puts it where it hides least of its link.
func (c *card) lay() {
	size := c.view.content.Size()
	if c.mode == shut || size.Width == 0 {
		return
	}
	z := c.view.screen.Size(1)
	w := min(max(400, cardWide*z.Part), float64(size.Width)-2*cardEdge)
	c.write(w - 2*cardPad)
	rows := 0.0
	if c.mode == opened {
		rows = float64(c.hands.rows()) * (kit.Target + cardGap)
	}
	h := min(c.tall()+rows+kit.Target+3*cardPad, float64(size.Height)-2*cardEdge)
	at := c.place(w, h, size)
	kit.Box{X: float32(at.X), Y: float32(at.Y), W: float32(w), H: float32(h)}.Put(c.paper)
	inner := paint.R(at.X+cardPad, at.Y+cardPad, w-2*cardPad, h-2*cardPad)
	c.layKeys(inner)
	c.hands.lay(inner, c.mode == opened)
	c.paper.Repaint()
}

// layKeys puts the keys along the foot of the card.
func (c *card) layKeys(in paint.Rect) {
	word := look.CardLaw
	if c.mode == opened {
		word = look.CardBreak
	}
	c.more.Set(look.Text(word), kit.NoSign, false)
	kit.Show(c.mode != opened || c.view.BreakHere != nil && len(c.view.story.Card(c.link).Faults) > 0, c.more)
	y, x := in.Bottom()-kit.Target, in.X
	put := func(k *kit.Key, at float64) {
		kit.Box{X: float32(at), Y: float32(y), W: k.Needs(), H: kit.Target}.Put(k)
	}
	for _, k := range []*kit.Key{c.back, c.next, c.more} {
		put(k, x)
		x += float64(k.Needs()) + cardGap
	}
	put(c.close, in.Right()-float64(c.close.Needs()))
	first, last := "", ""
	if c.at == 0 {
		first = look.Text(look.CardFirst)
	}
	if c.at >= len(c.stops())-1 {
		last = look.Text(look.CardLast)
	}
	c.back.Forbid(first)
	c.next.Forbid(last)
}

// place is the corner of the view, or the middle of its upper or lower edge, in
// which the card hides least of what it tells of and of what stands before and
// after that.
func (c *card) place(w, h float64, size fyne.Size) paint.Point {
	right, foot := float64(size.Width)-w-cardEdge, float64(size.Height)-h-cardEdge
	middle := (float64(size.Width) - w) / 2
	best, least := paint.Point{}, 0.0
	for i, p := range []paint.Point{
		{X: right, Y: foot}, {X: cardEdge, Y: foot}, {X: right, Y: cardEdge}, {X: cardEdge, Y: cardEdge},
		{X: middle, Y: foot}, {X: middle, Y: cardEdge},
	} {
		hidden := c.hidden(paint.R(p.X, p.Y, w, h))
		if i == 0 || hidden < least {
			best, least = p, hidden
		}
	}
	return best
}

// hidden weighs what a card at r would lie over, in square units.
func (c *card) hidden(r paint.Rect) (sum float64) {
	for i, l := range c.stops() {
		s := c.view.spots[l]
		if !s.Visible() {
			continue
		}
		at, size := s.Position(), s.Size()
		o := r.Intersect(paint.R(float64(at.X), float64(at.Y), float64(size.Width), float64(size.Height)))
		switch area := o.W * o.H; {
		case l == c.link:
			sum += 100 * area
		case i == c.at-1 || i == c.at+1:
			sum += 10 * area
		default:
			sum += area
		}
	}
	return sum
}

// faultNames are the titles of faults, in one line.
func faultNames(ids []string) string {
	var names []string
	for _, id := range ids {
		if e, ok := fault.Lookup(id); ok {
			names = append(names, e.Title)
		}
	}
	return strings.Join(names, "; ")
}
