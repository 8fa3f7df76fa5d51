package charttable

import (
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
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
	list, n := b.pending(), b.liveRoom()
	if b.from >= len(list) { // those that were listed here are over
		b.from = 0
	}
	if n < len(list) { // where the other pages have Back
		box{in.x + in.w - 84 - 8 - 84, in.y + breakPad, 84, kit.Target}.put(b.more)
		show(true, b.more)
	}
	for i := 0; i < n && b.from+i < len(list); i++ {
		b.liveRow(i, &list[b.from+i])
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

// liveRoom is how many of the faults that are ordered have room at once.
func (b *breakage) liveRoom() int {
	rows := float32((len(b.links) + 1) / 2)
	left := b.place.h - breakHead - breakLine - rows*breakRow - breakPad
	return max(1, min(int(left/breakRow), mostLive))
}

// liveRow shows a fault that is ordered.
func (b *breakage) liveRow(i int, f *sim.FaultStatus) {
	c, word := b.live[i], look.MendWord
	e, _ := fault.Lookup(f.Order.ID)
	c.words, c.stands, c.under = e.Title, f.Stands, look.Text(look.BreakInForce)
	if f.Stands == sim.FaultPlanned {
		c.under = look.Textf(look.BreakSoon, units.TimeText(b.table.clockAt(f.Onset)))
	} else if f.Stands != sim.FaultInForce {
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

// layFault lays the third page: one fault, its figures, when and how; or what it
// looks like.
func (b *breakage) layFault(in box) {
	y := in.y + in.h - breakPad - kit.Target
	half := (in.w - breakGap) / 2
	box{in.x, y, half, kit.Target}.put(b.main)
	box{in.x + half + breakGap, y, half, kit.Target}.put(b.face)
	b.face.Set(b.face.Word, kit.NoSign, b.alike)
	show(true, b.main, b.face)
	if b.alike {
		return
	}
	y -= breakRow
	box{in.x, y, half, kit.Target}.put(b.when)
	box{in.x + half + breakGap, y, half, kit.Target}.put(b.how)
	when := b.timingWords()
	if b.timing == atPlace {
		when = look.Text(look.BreakPlaceKey)
	}
	b.when.Set(when, kit.NoSign, false)
	b.how.Set(b.shapeWords(), kit.NoSign, false)
	show(true, b.when, b.how)
	if b.timing == atPlace {
		y -= breakRow
		b.layPlace(in, y)
	}
	for i := len(b.entry.Params) - 1; i >= 0; i-- {
		y -= breakRow
		b.layParam(i, in, y)
	}
}

func (b *breakage) layParam(i int, in box, y float32) {
	p, q := b.params[i], &b.entry.Params[i]
	right := in.x + in.w
	box{right - kit.Target, y, kit.Target, kit.Target}.put(p.plus)
	box{right - kit.Target - 4 - 104, y, 104, kit.Target}.put(p.value)
	box{right - 2*kit.Target - 8 - 104, y, kit.Target, kit.Target}.put(p.minus)
	p.value.Set(paramValue(q, b.order.Params[i]), kit.NoSign, false)
	show(true, p.minus, p.value, p.plus)
}

// title is what the page is about.
func (b *breakage) title() string {
	switch {
	case b.link == "":
		return look.Text(look.BreakTitle)
	case b.entry != nil:
		return look.Capital(b.entry.Title)
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
	if b.link != "" || b.more.Visible() {
		keys *= 2
	}
	title := paint.Type{Font: look.Bold.Font(), Size: min(size, 24*u)}
	if b.entry != nil { // a fault has a longer name than a link
		title.Size = z.Text(look.TextBody)
	}
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
