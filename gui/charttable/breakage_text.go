package charttable

import (
	"image/color"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim/fault"
)

// passage is a piece of what the third page tells: it stands whole or not at all.
type passage struct {
	tall float64
	draw func(y float64)
	here bool // belongs to the keys below it: not told on the other face
}

// page is the paper of the third page while it is painted.
type page struct {
	*breakage
	d    *paint.Raster
	w    float64
	z    look.Size
	left float64
	room float64
}

func (b *breakage) page(d *paint.Raster, w float64, z look.Size) *page {
	u := z.Device
	return &page{b, d, w, z, breakPad * u, w - 2*breakPad*u}
}

// turnFace turns the page to what the fault looks like, and back.
func (b *breakage) turnFace() {
	b.alike = !b.alike
	b.show()
}

// text is a passage of running words.
func (p *page) text(words string, t paint.Type, ink color.NRGBA) passage {
	lines := wrapped(words, t, p.room)
	return passage{tall: (1.3*float64(len(lines)) + 0.35) * t.Size, draw: func(y float64) {
		for i, line := range lines {
			p.d.Text(p.left, y+1.3*float64(i+1)*t.Size-0.3*t.Size, line, t, ink)
		}
	}}
}

// passages are all that is told of the fault, in order.
func (p *page) passages() []passage {
	c, small, text := p.paper.Palette(), noteType(p.z), p.entry.Text()
	all := []passage{
		p.text(text.Breaks, small, c.Ink),
		p.text(look.Textf(look.BreakSees, text.Sees), small, c.Ink),
	}
	if p.outlook != nil {
		all = append(all, p.forecast())
	}
	if p.timing == atPlace {
		place := p.text(p.timingWords(), small, c.Ink)
		place.here = true
		all = append(all, place)
	}
	return append(all, p.text(look.Textf(look.BreakRemedy, text.Remedy), small, c.Ink2))
}

// fit parts passages into those that have room above foot and those that have not.
func fit(all []passage, y, foot float64) (fits, over []passage) {
	for _, q := range all {
		if y+q.tall > foot {
			if !q.here {
				over = append(over, q)
			}
			continue
		}
		y += q.tall
		fits = append(fits, q)
	}
	return fits, over
}

func drawAll(all []passage, y float64) {
	for _, q := range all {
		q.draw(y)
		y += q.tall
	}
}

// paintFault writes what is told of the fault, as much as there is room for over
// its figures; what there is no room for stands on the other face, under what the
// fault looks like.
func (b *breakage) paintFault(d *paint.Raster, w float64, z look.Size) {
	p, u := b.page(d, w, z), z.Device
	top := float64(breakHead) * u
	fits, over := fit(p.passages(), top, float64(b.textFoot())*u-6*u)
	if !b.alike {
		drawAll(fits, top)
		p.figures()
		return
	}
	foot := float64(b.main.Position().Y-b.place.y)*u - 6*u
	first, _ := fit(append(p.looksLike(), over...), top, foot)
	drawAll(first, top)
}

// textFoot is where the room for text ends over the figures, units from the top of
// the card.
func (b *breakage) textFoot() float32 {
	rows := 2 + len(b.entry.Params)
	if b.timing == atPlace {
		rows++
	}
	return b.place.h - breakPad + breakGap - float32(rows)*breakRow
}

// looksLike is what the fault may be taken for, each with the check that tells.
func (p *page) looksLike() []passage {
	c, small := p.paper.Palette(), noteType(p.z)
	bold := paint.Type{Font: look.Semibold.Font(), Size: small.Size}
	all := []passage{p.text(look.Text(look.BreakAlikeHead), small, c.Ink2)}
	for _, a := range p.entry.Text().Alike {
		e, ok := fault.Lookup(a.ID)
		if !ok {
			continue
		}
		name, check := p.text(look.Capital(e.Title), bold, c.Ink), p.text(a.Check, small, c.Ink)
		all = append(all, passage{tall: name.tall + check.tall - 0.2*small.Size, draw: func(y float64) {
			name.draw(y)
			check.draw(y + name.tall - 0.3*small.Size)
		}})
	}
	return all
}

// figures writes the names of the figures beside their keys.
func (p *page) figures() {
	c, u, small := p.paper.Palette(), p.z.Device, noteType(p.z)
	for i := range p.entry.Params {
		q, k := &p.entry.Params[i], p.params[i].minus
		mid := float64(k.Position().Y-p.place.y)*u + kit.Target*u/2
		p.d.Text(p.left, mid-0.15*small.Size, paramName(q), small, c.Ink)
		p.d.Text(p.left, mid+1.15*small.Size, q.Range(), small, c.Ink2)
	}
}
