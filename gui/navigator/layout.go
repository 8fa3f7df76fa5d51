package navigator

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/sighting"
	"stillair/integrator/aboard"
)

// places are where the parts of the view stand, units.
type places struct {
	shelf, lines, fix kit.Box // the cards of the plot
	list, text        kit.Box // within the cards
	foot              float32 // of the keys
	eye               kit.Box // of an open aid
	plate             kit.Box
}

// Spaces, units.
const (
	gap      = 8
	within   = 12 // of a card
	headline = 30 // of a card
)

// Sizes of text on the plate of an open aid.
const (
	valueSize = 28
	underSize = 19
)

// placesOf lays the view out in a room of w by h.
func (v *View) placesOf(w, h float32) (p places) {
	z := v.screen.Size(1)
	keyH := float32(kit.Target)
	p.shelf = kit.Box{W: w, H: headline + 2*keyH + within + 4}
	fix := max(206, min(0.40*h, 13*float32(z.Text(16))+keyH+2*within))
	p.fix = kit.Box{Y: h - fix, W: w, H: fix}
	p.lines = kit.Box{Y: p.shelf.H + gap, W: w, H: h - fix - p.shelf.H - 2*gap}
	p.list = kit.Box{X: within - 4, Y: p.lines.Y + headline, W: w - 2*within + 8, H: p.lines.H - headline - 6}
	p.foot = h - keyH - within/2
	p.text = kit.Box{X: within, Y: p.fix.Y + headline, W: w - 2*within, H: p.foot - p.fix.Y - headline - 4}
	plate := float32(2*z.Text(valueSize)+1.4*z.Text(underSize)) + 6
	top := float32(headline + 2)
	p.plate = kit.Box{X: within, Y: h - 2*keyH - within - plate, W: w - 2*within, H: plate}
	p.eye = kit.Box{X: within, Y: top, W: w - 2*within, H: p.plate.Y - top - 4}
	return p
}

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	w := size.Width
	p := v.placesOf(w, size.Height)
	kit.Box{W: w, H: size.Height}.Put(v.pane)
	p.eye.Put(v.eye)
	p.list.Put(v.list)
	third := (w - 2*within + gap) / 3
	for i, k := range v.shelf {
		kit.Box{X: within + float32(i%3)*third, Y: headline + float32(i/3)*(kit.Target+2), W: third - gap, H: kit.Target}.Put(k)
	}
	half := (w - 2*within + gap) / 2
	for i, k := range v.picks {
		kit.Box{X: within + float32(i%2)*half, Y: headline + 30 + float32(i/2)*(kit.Target+4), W: half - gap, H: kit.Target}.Put(k)
	}
	row(p.foot, w, v.keysOf(windKey, resetKey, undoKey, moreKey)...)
	if v.page != noPage {
		v.layPage(&p, size)
		return
	}
	lower := []*kit.Key{v.keys[otherKey], v.keys[crewKey], v.keys[closeKey]}
	switch {
	case v.hand == nil && v.picking != aboard.NoAid:
		lower = lower[2:]
	case len(v.had(v.picking)) < 2: // nothing else to point it at
		lower = lower[1:]
	}
	row(p.foot, w, lower...)
	upper := []*kit.Key{v.keys[readKey]}
	for i := range v.controls() {
		upper = append(upper, v.keys[secondKey+role(i)])
	}
	if v.byNeedle() { // no bearing is read; the aircraft is turned
		upper = []*kit.Key{v.keys[leftKey], v.keys[rightKey], v.keys[thirdKey]}
	}
	row(p.foot-kit.Target-2, w, upper...)
	kit.Box{X: w - within - needleWide, Y: 4, W: needleWide, H: headline - 8}.Put(v.needle)
}

// row lays keys out in a row, each as wide as it needs and more.
func row(y, w float32, keys ...*kit.Key) {
	total := float32(0)
	for _, k := range keys {
		total += k.Needs()
	}
	spare := (w - 2*within - float32(len(keys)-1)*gap/2 - total) / float32(len(keys))
	x := float32(within)
	for _, k := range keys {
		width := k.Needs() + spare
		kit.Box{X: x, Y: y, W: width, H: kit.Target}.Put(k)
		x += width + gap/2
	}
}

// controls is how many further controls the open aid has.
func (v *View) controls() int {
	if v.hand == nil {
		return 0
	}
	return len(v.hand.Controls())
}

// show shows what belongs to what is open.
func (v *View) show() {
	open, picking := v.hand != nil, v.picking != aboard.NoAid
	busy := picking || v.page != noPage
	for _, k := range v.shelf {
		kit.Show(!busy, k)
	}
	for i, k := range v.picks {
		kit.Show(picking && !open && i < len(v.had(v.picking)), k)
	}
	kit.Show(!busy, v.list, v.keys[windKey], v.keys[resetKey], v.keys[undoKey], v.keys[moreKey])
	kit.Show(busy, v.keys[closeKey])
	kit.Show(open, v.eye, v.keys[crewKey])
	kit.Show(open && len(v.had(v.picking)) > 1, v.keys[otherKey])
	byNeedle := v.byNeedle()
	kit.Show(open && !byNeedle, v.keys[readKey])
	kit.Show(byNeedle, v.keys[leftKey], v.keys[rightKey])
	kit.Show(v.controls() > 0 && !byNeedle, v.keys[secondKey])
	kit.Show(v.controls() > 1, v.keys[thirdKey])
	kit.Show(!busy && v.homing.Aid != aboard.NoAid, v.needle)
	v.showPage()
	v.made++
	v.content.Refresh()
	v.See(v.moment)
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(380, 480) }

// paneKey is what the words of the view depend on.
type paneKey struct {
	made           int
	wind           string
	p              *look.Palette
	told           string
	picking        aboard.Aid
	page           page
	bar            bool
	signal, lowest int // hundredths of the bar
}

// barKey is a signal bar to what can be seen of it.
func barKey(h sighting.Hand) (signal, lowest int, ok bool) {
	s, l, ok := h.Bar()
	hundredths := func(v float64) int {
		if math.IsNaN(v) {
			return -1
		}
		return int(math.Round(200 * v))
	}
	return hundredths(s), hundredths(l), ok
}

func (v *View) paneKey() paneKey {
	k := paneKey{made: v.made, wind: v.moment.View.WindSet.String(), p: v.screen.Palette, picking: v.picking, page: v.page}
	if v.hand != nil {
		k.told = v.pace() + v.hand.Value() + v.hand.Under() + v.told()
		k.signal, k.lowest, k.bar = barKey(v.hand)
	}
	return k
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
	l := v.placesOf(float32(w/u), float32(h/u))
	b := picture.NewBrush(d, p.Palette(), z)
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Palette().Ground)
	switch {
	case v.hand != nil:
		p.open(b, &l, w, h)
	case v.picking != aboard.NoAid:
		p.card(b, paint.R(0, 0, w, h), plottingName(v.picking), "")
		p.small(b, paint.R(within*u, headline*u, w-2*within*u, 24*u), look.Text(look.AidPick))
	case v.page != noPage:
		p.paintPage(b, w, h)
	default:
		p.plot(b, &l)
	}
}

// plot writes the three cards.
func (p *pane) plot(b *picture.Brush, l *places) {
	v := p.view
	p.card(b, rect(l.shelf, b), look.Text(look.PlotAids), "")
	if v.homing.Aid != aboard.NoAid {
		p.homing(b, rect(l.shelf, b))
	}
	use := ""
	if len(v.rows) > 0 {
		use = look.Text(look.PlotUse)
	}
	p.card(b, rect(l.lines, b), look.Text(look.PlotLines), use)
	p.card(b, rect(l.fix, b), look.Text(look.PlotFix), v.card.When)
	c := v.card
	c.WindNow = look.Textf(look.PlotWindNow, v.moment.View.WindSet)
	picture.DrawFix(b, rect(l.text, b), &c)
}

// open writes what belongs to an open aid.
func (p *pane) open(b *picture.Brush, l *places, w, h float64) {
	v, u := p.view, b.K.Device
	name := plottingName(v.aim.Aid)
	if v.aim.Source != "" {
		name = look.Textf(look.AidPointed, name, v.aim.Source)
	}
	p.card(b, paint.R(0, 0, w, h), name, v.pace())
	var path paint.Path
	b.Stroke(path.RoundRect(paint.R(0, 0, w, h).Inset(u), look.CardRadius*u), paint.Pen{Width: 2 * u}, b.C.BrassLo)
	p.plate(b, rect(l.plate, b))
}

// pace is what is said of the clock while an aid is open.
func (v *View) pace() string {
	switch {
	case v.moment.Stands && !v.moment.Over:
		return look.Text(look.AidStands)
	case v.rate > 0:
		return look.Text(look.AidSlow)
	}
	return ""
}

// plate writes the value, what stands under it and what is to be done.
func (p *pane) plate(b *picture.Brush, r paint.Rect) {
	h, u := p.view.hand, b.K.Device
	words := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(16)}
	value := paint.Type{Font: look.Engraved.Font(), Size: b.K.Text(valueSize), Anchor: paint.Middle}
	under := paint.Type{Font: look.Engraved.Font(), Size: b.K.Text(underSize), Anchor: paint.Middle}
	tall := 2.0 * value.Size
	wide := max(0.36*r.W, value.Font.Width(h.Value(), value.Size)+1.2*value.Size)
	plate := paint.R(r.X, r.Y+0.5*(r.H-tall), wide, tall)
	signal, lowest, hears := h.Bar()
	if h.Under() != "" {
		plate.H += 1.4 * under.Size
	}
	barTall := 12 * u
	if hears {
		plate.Y -= 0.8 * barTall // plate and bar stand in the middle together
		picture.DrawSignalBar(b, paint.R(plate.X, plate.Bottom()+0.8*barTall, plate.W, barTall), signal, lowest)
	} else {
		plate.Y = r.Y + 0.5*(r.H-plate.H)
	}
	var path paint.Path
	b.Fill(path.RoundRect(plate, look.PlateRadius*u), b.C.Slate)
	b.Text(plate.X+plate.W/2, plate.Y+tall/2+0.36*value.Size, h.Value(), value, b.C.OnSlate)
	b.Text(plate.X+plate.W/2, plate.Bottom()-0.55*under.Size, h.Under(), under, b.C.OnSlate)
	x := plate.Right() + 12*u
	lines := words.Wrap(p.view.told(), r.Right()-x)
	y := r.Y + r.H/2 - 0.65*words.Size*float64(len(lines)-1) + 0.35*words.Size
	for _, line := range lines {
		b.Text(x, y, line, words, b.C.Ink2)
		y += 1.3 * words.Size
	}
}

// homing writes beside the small needle on what it homes.
func (p *pane) homing(b *picture.Brush, r paint.Rect) {
	u := b.K.Device
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(15), Anchor: paint.End}
	right := r.Right() - (within+needleWide+8)*u
	name := look.Semibold.Font().Width(look.Text(look.PlotAids), b.K.Text(17))
	words := look.Textf(look.HomingOn, p.view.homing.Source)
	b.Text(right, r.Y+headline*u/2+0.42*b.K.Text(17), t.Shorten(words, right-r.X-within*u-name-10*u), t, b.C.Ink2)
}

// card draws a card with its name and a remark at the right.
func (p *pane) card(b *picture.Brush, r paint.Rect, name, remark string) {
	u := b.K.Device
	var path paint.Path
	b.Fill(path.RoundRect(r.Inset(0.5), look.CardRadius*u), b.C.Card)
	b.Stroke(&path, paint.Pen{Width: b.K.Hair()}, b.C.Line)
	t := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(17)}
	y := r.Y + headline*u/2 + 0.42*t.Size
	b.Text(r.X+within*u, y, name, t, b.C.Ink)
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(15), Anchor: paint.End}
	room := r.W - 2*within*u - t.Font.Width(name, t.Size) - 12*u
	b.Text(r.Right()-within*u, y, small.Shorten(remark, room), small, b.C.Ink2)
}

// small writes a line of small text.
func (p *pane) small(b *picture.Brush, r paint.Rect, words string) {
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(15)}
	b.Text(r.X, r.Y+0.5*r.H+0.35*t.Size, t.Shorten(words, r.W), t, b.C.Ink2)
}

// rect is a box in the pixels of a brush.
func rect(x kit.Box, b *picture.Brush) paint.Rect {
	u := b.K.Device
	return paint.R(float64(x.X)*u, float64(x.Y)*u, float64(x.W)*u, float64(x.H)*u)
}
