package charttable

import (
	"strings"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
)

// What the panel of the counters needs at the least, units: it must go into the
// column of a window 720 units high.
const (
	panelPad    = 12
	panelTitle  = 30
	panelEntry  = 46
	panelWords  = 38 // two lines
	panelGaps   = 7
	panelLeast  = panelTitle + 2*(kit.Target+4+kit.Target) + panelEntry + kit.Target + panelWords + coverTall + panelGaps*6
	tallestKnob = 100
	widestGap   = 22
)

// lay puts the panel over a place and everything on it.
func (p *counterPanel) lay(at box) {
	p.at = at
	if at.w == 0 {
		return
	}
	at.put(p.panel)
	x, w := at.x+panelPad, at.w-2*panelPad
	spare := max(0, at.h-panelLeast)
	row := min(kit.Target+spare*0.25, tallestKnob)
	gap := min(6+(spare-2*(row-kit.Target))/panelGaps, widestGap)
	y := at.y + panelTitle
	for i, s := range p.slews {
		box{x, y, w, row}.put(s)
		if axis(i) == longitude {
			p.layLever(s, box{x, y, w, row})
		}
		y += row + 4
		across(box{x, y, w, kit.Target}, s.keys)
		y += kit.Target + gap
	}
	p.setTo = y
	if gap > 18 { // there is room for the words "Set to"
		y += 26
	}
	box{x, y, w, panelEntry}.put(p.entry)
	y += panelEntry + gap
	var picks []*kit.Key
	for i, k := range p.picks {
		if i < len(p.picksOffered()) {
			picks = append(picks, k)
		}
	}
	across(box{x, y, w, kit.Target}, picks)
	p.words = y + kit.Target + gap*0.6
	foot := at.y + at.h - panelPad + 2 - coverTall
	shut := p.close.MinSize().Width
	box{x, foot, w - shut - 6, coverTall}.put(p.cover)
	box{x + w - shut, foot + 4, shut, kit.Target}.put(p.close)
}

// layLever puts the lever between knob and drums.
func (p *counterPanel) layLever(s *slewer, row box) {
	left := row.x + row.h + 6
	right := row.x + s.drumsLeft() - 4
	box{left, row.y, max(kit.Target, right-left), row.h}.put(p.lever)
}

// across puts keys side by side over the whole width.
func across(at box, keys []*kit.Key) {
	const gap = 6
	w := (at.w - gap*float32(len(keys)-1)) / float32(len(keys))
	for i, k := range keys {
		box{at.x + float32(i)*(w+gap), at.y, w, at.h}.put(k)
	}
}

// paintPanel writes the title, what setting will do, and what is wrong with what
// is typed.
func (p *counterPanel) paintPanel(d *paint.Raster, w, h float64, z look.Size) {
	c, u := p.Palette(), z.Device
	title := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel)}
	d.Text(panelPad*u, 21*u, look.Text(look.CountersTitle), title, c.Ink)
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	if hint := look.Text(look.SlewAtOnce); title.Font.Width(look.Text(look.CountersTitle), title.Size)+small.Font.Width(hint, small.Size)+40*u < w {
		d.Text(w-panelPad*u, 21*u, hint, small, c.Ink2)
	}
	if float64(p.setTo) > 0 && float64(p.entry.Position().Y-p.setTo) > 20 {
		body := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
		d.Text(panelPad*u, float64(p.setTo-p.at.y)*u+0.95*body.Size, look.Text(look.SetToTitle), body, c.Ink)
	}
	text, ink := p.sentence(), c.Ink2
	switch {
	case p.target == nil && p.problem != "":
		text, ink = p.problem, c.Verm
	case p.target != nil:
		ink = c.Ink
	}
	small.Anchor = paint.Start
	y := float64(p.words-p.at.y)*u + small.Size
	for i, line := range fold(text, small, w-2*panelPad*u) {
		d.Text(panelPad*u, y+float64(i)*1.3*small.Size, line, small, ink)
	}
}

// fold breaks words into lines no wider than width, two at most; what does not
// go into them is cut off with dots.
func fold(words string, t paint.Type, width float64) []string {
	lines := []string{""}
	for _, w := range strings.Fields(words) {
		last := &lines[len(lines)-1]
		switch longer := strings.TrimSpace(*last + " " + w); {
		case t.Font.Width(longer, t.Size) <= width:
			*last = longer
		case len(lines) == 2:
			*last += " ..."
			return lines
		default:
			lines = append(lines, w)
		}
	}
	return lines
}
