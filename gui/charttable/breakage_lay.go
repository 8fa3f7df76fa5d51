package charttable

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim"
	"stillair/sim/fault"
)

// The card, units.
const (
	breakPad  = 14
	breakGap  = 4
	breakHead = breakPad + kit.Target + 8 // title, Back and Close
	breakRow  = kit.Target + breakGap
	breakLine = 28 // the heading over the links
)

// show brings the page up to what is ordered and chosen, and lays it.
func (b *breakage) show() {
	for _, o := range b.objects() {
		show(false, o)
	}
	b.table.showColumn()
	if !b.on || b.place.w == 0 {
		return
	}
	show(true, b.paper, b.shut)
	inner := box{b.place.x + breakPad, b.place.y, b.place.w - 2*breakPad, b.place.h}
	box{inner.x + inner.w - 84, inner.y + breakPad, 84, kit.Target}.put(b.shut)
	box{inner.x + inner.w - 84 - 8 - 84, inner.y + breakPad, 84, kit.Target}.put(b.back)
	show(b.link != "", b.back)
	switch {
	case b.entry != nil:
		b.layFault(inner)
	case b.link != "":
		b.layFaults(inner)
	default:
		b.layLinks(inner)
	}
	b.paper.Repaint()
}

// layLinks lays the first page: what is ordered, and the links.
func (b *breakage) layLinks(in box) {
	y := in.y + breakHead
	rows := float32((len(b.links) + 1) / 2)
	left := in.h - breakHead - breakLine - rows*breakRow - breakPad
	for i, f := range b.pending() {
		if left < breakRow {
			break
		}
		left -= breakRow
		b.liveRow(i, &f)
		box{in.x, y, in.w - 92, kit.Target}.put(b.live[i])
		box{in.x + in.w - 84, y, 84, kit.Target}.put(b.mends[i])
		y += breakRow
	}
	y += breakLine
	half := (in.w - breakGap) / 2
	for i, k := range b.links {
		box{in.x + float32(i%2)*(half+breakGap), y + float32(i/2)*breakRow, half, kit.Target}.put(k)
		show(true, k)
	}
}

// liveRow shows a fault that is ordered.
func (b *breakage) liveRow(i int, f *sim.FaultStatus) {
	c, word := b.live[i], look.MendWord
	e, _ := fault.Lookup(f.Order.ID)
	c.words, c.stands, c.under = e.Title, f.Stands, look.Text(look.BreakInForce)
	if f.Stands != sim.FaultInForce {
		c.under = look.Text(look.BreakWaits)
		if f.Stands == sim.FaultWaiting && f.Order.Trigger.Kind == fault.BySignal {
			word = look.SignalWord
		}
	}
	b.mends[i].Set(look.Text(word), kit.NoSign, false)
	show(true, c, b.mends[i])
	c.Repaint()
}

// room is how many faults of a link have room at once.
func (b *breakage) room() int {
	n := int((b.place.h - breakHead - breakPad) / breakRow)
	if n < len(b.faults()) {
		n-- // for the key that turns the page
	}
	return max(1, min(n, mostChips))
}

// layFaults lays the second page: the faults of the link.
func (b *breakage) layFaults(in box) {
	list, n := b.faults(), b.room()
	y := in.y + breakHead
	for i := 0; i < n && b.from+i < len(list); i++ {
		e, c := list[b.from+i], b.chips[i]
		c.words, c.idle, c.reason = e.Title, true, b.reason(e)
		box{in.x, y, in.w, kit.Target}.put(c)
		show(true, c)
		c.Repaint()
		y += breakRow
	}
	if n < len(list) {
		box{in.x, in.y + in.h - breakPad - kit.Target, in.w, kit.Target}.put(b.more)
		show(true, b.more)
	}
}

// layFault lays the third page: one fault, its figures, when and how.
func (b *breakage) layFault(in box) {
	y := in.y + in.h - breakPad - kit.Target
	box{in.x, y, in.w, kit.Target}.put(b.main)
	y -= breakRow
	half := (in.w - breakGap) / 2
	box{in.x, y, half, kit.Target}.put(b.when)
	box{in.x + half + breakGap, y, half, kit.Target}.put(b.how)
	when := b.timingWords()
	if b.timing == atPlace {
		when = look.Text(look.BreakPlaceKey)
	}
	b.when.Set(when, kit.NoSign, false)
	b.how.Set(b.shapeWords(), kit.NoSign, false)
	show(true, b.main, b.when, b.how)
	for i := len(b.entry.Params) - 1; i >= 0; i-- {
		y -= breakRow
		p, q := b.params[i], &b.entry.Params[i]
		right := in.x + in.w
		box{right - kit.Target, y, kit.Target, kit.Target}.put(p.plus)
		box{right - kit.Target - 4 - 104, y, 104, kit.Target}.put(p.value)
		box{right - 2*kit.Target - 8 - 104, y, kit.Target, kit.Target}.put(p.minus)
		p.value.Set(paramValue(q, b.order.Params[i]), kit.NoSign, false)
		show(true, p.minus, p.value, p.plus)
	}
}

// title is what the page is about.
func (b *breakage) title() string {
	if b.link == "" {
		return look.Text(look.BreakTitle)
	}
	for _, l := range links {
		if l.name == b.link {
			return look.Text(l.word)
		}
	}
	return b.link
}

// lay puts the card into a place.
func (b *breakage) lay(at box) {
	b.place = at
	at.put(b.paper)
	b.show()
}

func (b *breakage) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := b.paper.Palette(), z.Device
	size := titleSize(z)
	left, room := breakPad*u, w-2*breakPad*u
	keys := 92.0
	if b.link != "" {
		keys *= 2
	}
	title := paint.Type{Font: look.Bold.Font(), Size: min(size, 24*u)}
	lines := wrapped(b.title(), title, room-keys*u)
	y := breakPad*u + kit.Target*u/2 + 0.35*title.Size - float64(len(lines)-1)*0.6*title.Size
	for _, line := range lines {
		d.Text(left, y, line, title, p.Ink)
		y += 1.2 * title.Size
	}
	small := noteType(z)
	switch {
	case b.entry != nil:
		b.paintFault(d, w, z)
	case b.link == "":
		top := float64(b.links[0].Position().Y-b.place.y)*u - 9*u
		d.Text(left, top, look.Text(look.BreakLinks), small, p.Ink2)
		b.paintTold(d, w, h, z)
	}
}

// paintTold writes why something could not be broken.
func (b *breakage) paintTold(d *paint.Raster, w, h float64, z look.Size) {
	small := noteType(z)
	y := h - breakPad*z.Device
	lines := wrapped(b.told, small, w-2*breakPad*z.Device)
	for i := range lines {
		d.Text(breakPad*z.Device, y-float64(len(lines)-1-i)*1.3*small.Size, lines[i], small, b.paper.Palette().Verm)
	}
}

// paintFault writes what breaks, what is seen and how it is told, as much as
// there is room for, and the names of the figures.
func (b *breakage) paintFault(d *paint.Raster, w float64, z look.Size) {
	p, u := b.paper.Palette(), z.Device
	small := noteType(z)
	bold := paint.Type{Font: look.Bold.Font(), Size: z.Text(look.TextBody)}
	left, room := breakPad*u, w-2*breakPad*u
	first := fyne.CanvasObject(b.when)
	if len(b.entry.Params) > 0 {
		first = b.params[0].minus
	}
	y, foot := float64(breakHead)*u, float64(first.Position().Y-b.place.y)*u-6*u
	write := func(words string, t paint.Type, ink color.NRGBA) {
		lines := wrapped(words, t, room)
		if y+float64(len(lines))*1.3*t.Size > foot {
			return
		}
		for _, line := range lines {
			y += 1.3 * t.Size
			d.Text(left, y-0.3*t.Size, line, t, ink)
		}
		y += 0.35 * t.Size
	}
	text := b.entry.Text()
	write(b.entry.Title, bold, p.Ink)
	write(text.Breaks, small, p.Ink)
	write(look.Textf(look.BreakSees, text.Sees), small, p.Ink)
	y = b.paintOutlook(d, w, y, foot, z)
	write(look.Textf(look.BreakTold, text.Told), small, p.Ink2)
	if b.timing == atPlace {
		write(b.timingWords(), small, p.Ink)
	}
	for i := range b.entry.Params {
		q, k := &b.entry.Params[i], b.params[i].minus
		mid := float64(k.Position().Y-b.place.y)*u + kit.Target*u/2
		d.Text(left, mid-0.15*small.Size, paramName(q), small, p.Ink)
		d.Text(left, mid+1.15*small.Size, q.Range(), small, p.Ink2)
	}
}
