package navigator

import (
	"io"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
)

// page is what stands in the view in place of aids, lines and fix.
type page uint8

const (
	noPage    page = iota
	morePage       // what else there is
	handPage       // the plot by hand
	namePage       // what a thing drawn by hand is
	swingPage      // the swing of the compass
)

// Desk is the chart with what is drawn on it by hand. A view without one has no plot by
// hand.
type Desk interface {
	// Drawn is all that was drawn, and a number that is another one after each change.
	Drawn() (all []plotting.Drawn, made int)
	CallDrawn(d plotting.Drawn, n plotting.Name, words string)
	RubOut(d plotting.Drawn)
	UndoPencil()
	CanUndoPencil() bool
	ChooseDrawn(id int)
	ShowChecked(all []plotting.Checked)
	// WhenDrawn has something done after each change, and after the rule was laid.
	WhenDrawn(do func())
	LayRule()
	RuleLaid() bool
	// KeepPage asks for a file and has something written into it.
	KeepPage(name string, draw func(io.Writer, paint.Format) error)
}

// SitAt gives the view the chart with what is drawn on it by hand.
func (v *View) SitAt(d Desk) {
	v.Desk = d
	d.WhenDrawn(func() {
		if v.page == handPage && !v.seeing {
			v.See(v.moment)
		}
	})
}

// choice is a key of a page from which something is chosen.
type choice struct {
	word, under string
	do          func()
	about       look.Key // told under it where each has a row of its own
}

// turn turns to a page.
func (v *View) turn(to page) {
	if to == noPage && v.page == noPage {
		return
	}
	v.page = to
	if to != handPage && to != namePage {
		v.checking = false
		if v.Desk != nil {
			v.Desk.ShowChecked(nil)
			v.Desk.ChooseDrawn(0)
		}
	}
	v.drawnMade = -1
	v.show()
	v.focusPage()
}

// focusPage brings the keyboard to the page: to its list, or to its first key.
func (v *View) focusPage() {
	c := v.canvas()
	switch {
	case c == nil:
	case v.page == noPage:
		c.Unfocus() // so that the keys of the window are heard
	case v.page == handPage:
		c.Focus(v.drawn)
	case v.page == morePage || v.page == namePage:
		c.Focus(v.picks[0])
	case v.page == swingPage:
		c.Focus(v.keys[closeKey]) // which has no slip to show before the page is laid out
	}
}

// shutPage goes back: from the names to the list, from the rest to the plot.
func (v *View) shutPage() {
	if v.page == namePage {
		v.turn(handPage)
		return
	}
	v.turn(noPage)
}

// choices are the keys of the page.
func (v *View) choices() (all []choice) {
	switch v.page {
	case morePage:
		if v.Desk != nil {
			things, _ := v.Desk.Drawn()
			all = append(all, choice{look.Text(look.MyPlotWord), look.Textf(look.MyPlotCount, len(things), named(things)), func() { v.turn(handPage) }, look.MyPlotHint})
		}
		if at, two := v.book.Two(); two {
			all = append([]choice{{look.Text(look.PlotNearer), at.String(), v.takeNearer, look.PlotNearerHint}}, all...)
		}
		s := plotting.SwingOf(v.moment.View.Log)
		all = append(all, choice{look.Text(look.SwingWord), look.Textf(look.SwingCount, len(s.Checks)), func() { v.turn(swingPage) }, look.SwingHint})
	case namePage:
		all = v.nameChoices()
	}
	return all[:min(len(all), mostPicks)]
}

// takeNearer takes the nearer of two crossings.
func (v *View) takeNearer() {
	v.book.TakeNearer(&v.moment.View)
	v.replot()
	v.turn(noPage)
}

// named counts the things of which somebody has said what they are.
func named(all []plotting.Drawn) (n int) {
	for i := range all {
		if all[i].Means.What != plotting.NoWork {
			n++
		}
	}
	return n
}

// labelChoices writes the choices on the keys.
func (v *View) labelChoices() {
	all := v.choices()
	for i, k := range v.picks {
		if i < len(all) {
			k.Word, k.Under = all[i].word, all[i].under
			if k.Under == "" {
				k.Under = " "
			}
			k.Repaint()
		}
		kit.Show(i < len(all), k)
	}
}

// seePage brings the page up to what is seen.
func (v *View) seePage() {
	if v.seeing { // what the page shows on the chart is a change of the chart
		return
	}
	v.seeing = true
	defer func() { v.seeing = false }()
	switch v.page {
	case handPage, namePage:
		v.seeDrawn()
	case swingPage:
		s := plotting.SwingOf(v.moment.View.Log)
		why := ""
		if s.Terms == 0 {
			why = look.Text(look.SwingNoCard)
		}
		v.keys[keepKey].Forbid(why)
		if key := (swingKey{len(s.Checks), v.moment.Deeds, s.Now(&v.moment.View)}); key != v.swingShown {
			v.swingShown = key
			v.made++
		}
	case morePage:
		if things := v.countDrawn() + len(v.moment.View.Log); things != v.moreShown {
			v.moreShown = things
			v.labelChoices()
		}
	}
}

func (v *View) countDrawn() int {
	if v.Desk == nil {
		return 0
	}
	_, made := v.Desk.Drawn()
	return made
}

// swingKey is what the page of the swing depends on.
type swingKey struct {
	checks, deeds int
	now           string
}

// pageKeys are the keys of the page, in two rows.
func (v *View) pageKeys() (upper, lower []*kit.Key) {
	switch v.page {
	case handPage:
		return v.keysOf(ruleKey, nameKey, rubKey, unpencilKey), v.keysOf(checkKey, closeKey)
	case swingPage:
		if v.Desk != nil {
			return nil, v.keysOf(keepKey, closeKey)
		}
	}
	return nil, v.keysOf(closeKey)
}

func (v *View) keysOf(roles ...role) (all []*kit.Key) {
	for _, r := range roles {
		all = append(all, v.keys[r])
	}
	return all
}

// layPage lays a page out.
func (v *View) layPage(p *places, size fyne.Size) {
	upper, lower := v.pageKeys()
	row(p.foot, size.Width, lower...)
	if len(upper) > 0 {
		row(p.foot-kit.Target-2, size.Width, upper...)
	}
	w := size.Width - 2*within
	foot := p.foot - kit.Target - 8
	kit.Box{X: within - 4, Y: headline, W: w + 8, H: foot - headline}.Put(v.drawn)
	if v.page == morePage {
		for i, k := range v.picks {
			kit.Box{X: within, Y: headline + 8 + float32(i)*moreRow, W: w, H: kit.Target}.Put(k)
		}
		return
	}
	half := (w + gap) / 2
	for i, k := range v.picks {
		kit.Box{X: within + float32(i%2)*half, Y: headline + 30 + float32(i/2)*(kit.Target+4), W: half - gap, H: kit.Target}.Put(k)
	}
}

// moreRow is the height of a key with what is told under it.
const moreRow = kit.Target + 68

// showPage shows what belongs to the page.
func (v *View) showPage() {
	for _, k := range v.keysOf(ruleKey, nameKey, rubKey, unpencilKey, checkKey, keepKey) {
		kit.Show(false, k)
	}
	kit.Show(v.page == handPage, v.drawn)
	if v.page == noPage {
		return
	}
	upper, lower := v.pageKeys()
	for _, k := range append(upper, lower...) {
		kit.Show(true, k)
	}
	v.labelChoices()
}

// paintPage writes the page.
func (p *pane) paintPage(b *picture.Brush, w, h float64) {
	v, u := p.view, b.K.Device
	title, remark := look.Text(look.MoreTitle), ""
	switch v.page {
	case handPage:
		title = look.Text(look.MyPlotWord)
		if v.checking {
			remark = v.book.Granted(v.things)
		}
	case namePage:
		title = look.Text(look.MyPlotWord)
	case swingPage:
		title = look.Text(look.SwingWord)
	}
	p.card(b, paint.R(0, 0, w, h), title, remark)
	switch v.page {
	case morePage:
		for i, c := range v.choices() {
			p.about(b, paint.R((within+12)*u, (headline+8+float64(i)*moreRow+kit.Target)*u, w-2*(within+12)*u, (moreRow-kit.Target)*u), look.Text(c.about))
		}
	case namePage:
		p.small(b, paint.R(within*u, headline*u, w-2*within*u, 24*u), look.Textf(look.MyPlotAsk, thingText(v.thing())))
	case swingPage:
		p.swing(b, w, h)
	}
}

// about writes what is told under a key, smaller where there is no room for it.
func (p *pane) about(b *picture.Brush, r paint.Rect, words string) {
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextBody)}
	lines := t.Wrap(words, r.W)
	for ; 1.3*t.Size*float64(len(lines)) > r.H-0.4*t.Size && t.Size > 11*b.K.Device; lines = t.Wrap(words, r.W) {
		t.Size -= 0.5 * b.K.Device
	}
	for i, line := range lines {
		b.Text(r.X, r.Y+(1.2+1.3*float64(i))*t.Size, line, t, b.C.Ink2)
	}
}

// swing writes the swing: what it rests on, the card, and what it makes of the compass now.
func (p *pane) swing(b *picture.Brush, w, h float64) {
	v, u := p.view, b.K.Device
	s := plotting.SwingOf(v.moment.View.Log)
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(15)}
	y, room := headline*u+1.2*t.Size, w-2*within*u
	for _, line := range t.Wrap(s.Told(), room) {
		b.Text(within*u, y, line, t, b.C.Ink2)
		y += 1.3 * t.Size
	}
	if len(s.Checks) == 0 {
		return
	}
	foot := h - (kit.Target+within)*u
	now := s.Now(&v.moment.View)
	if now != "" {
		lines := t.Wrap(now, room)
		foot -= 1.3 * t.Size * float64(len(lines))
		for i, line := range lines {
			b.Text(within*u, foot+1.3*t.Size*float64(i)+0.6*t.Size, line, t, b.C.Ink)
		}
	}
	card := s.Picture()
	picture.DrawSwing(b, paint.R(within*u, y-0.4*t.Size, room, foot-y-0.2*t.Size), &card)
}

// keepSwing has the card written.
func (v *View) keepSwing() {
	s := plotting.SwingOf(v.moment.View.Log)
	if v.Desk == nil || s.Terms == 0 {
		return
	}
	title, when := v.title, v.moment.View.Clock
	v.Desk.KeepPage(look.Text(look.SwingPage), func(out io.Writer, f paint.Format) error {
		return plotting.WriteSwing(out, f, title, when, &s)
	})
}

// swingOfRow opens the swing where a row of the list is a heading check.
func (v *View) swingOfRow(row int) bool {
	if v.book.Aid(row) != aboard.HeadingCheck {
		return false
	}
	v.turn(swingPage)
	return true
}
