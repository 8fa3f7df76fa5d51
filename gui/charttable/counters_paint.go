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
	panelGaps   = 7
	panelLeast  = panelTitle + 2*(kit.Target+4+kit.Target) + panelEntry + kit.Target + 38 + coverTall + panelGaps*6
	tallestKnob = 104
	widestGap   = 34
)

// lay puts the panel over a place and everything on it: the knobs from above, and
// from the foot up what belongs to setting.
func (p *counterPanel) lay(at box) {
	p.at = at
	if at.w == 0 {
		return
	}
	at.put(p.panel)
	k := p.scale()
	x, w := at.x+panelPad*k, at.w-2*panelPad*k
	spare := max(0, at.h-panelLeast*k)
	row := min(kit.Target*k+spare*0.25, tallestKnob*k)
	gap := min(6*k+(spare-2*(row-kit.Target*k))/panelGaps, widestGap*k)
	p.laySlews(box{x, at.y + panelTitle*k, w, row}, gap)
	p.laySetting(box{x, at.y + at.h - (panelPad-2)*k, w, 0}, gap)
}

// scale is how much larger than in a window of 1080 lines things stand, at least
// as large.
func (p *counterPanel) scale() float32 { return float32(partOf(p.table.screen.Size(1))) }

// partOf is the number of device pixels to a unit of the panel.
func partOf(z look.Size) float64 { return max(z.Device, z.Part) }

// laySlews puts knobs, lever and keys from the top of a box down, whose height
// is that of a row of drums.
func (p *counterPanel) laySlews(at box, gap float32) {
	key := kit.Target * p.scale()
	for i, s := range p.slews {
		at.put(s)
		if axis(i) == longitude {
			p.layLever(s, at)
		}
		across(box{at.x, at.y + at.h + 4, at.w, key}, s.keys)
		at.y += at.h + 4 + key + gap
	}
	p.rule = at.y - gap
}

// laySetting puts place, offers, sentence and cover from the foot of a box up.
func (p *counterPanel) laySetting(at box, gap float32) {
	k := p.scale()
	key, shut := kit.Target*k, p.close.MinSize().Width*k
	y := at.y - coverTall*k
	box{at.x, y, at.w - shut - 6, coverTall * k}.put(p.cover)
	box{at.x + at.w - shut, y + 4*k, shut, key}.put(p.close)
	y -= p.wordsTall() + gap*0.6
	p.words = y
	y -= key + gap*0.4
	across(box{at.x, y, at.w, key}, p.picks[:min(len(p.picks), len(p.picksOffered()))])
	y -= panelEntry + gap*0.5
	box{at.x, y, at.w, panelEntry}.put(p.entry)
}

// wordsTall is the room for the sentence: two lines, units.
func (p *counterPanel) wordsTall() float32 {
	return float32(2.6 * p.table.screen.Size(1).Text(look.TextSmall))
}

// layLever puts the lever between knob and drums.
func (p *counterPanel) layLever(s *slewer, row box) {
	left := row.x + row.h + 6
	right := row.x + s.drumsLeft() - 4
	box{left, row.y, max(kit.Target, right-left), row.h}.put(p.lever)
}

// across puts keys side by side over the whole width.
func across(at box, keys []*kit.Key) {
	const gap = 4
	w := (at.w - gap*float32(len(keys)-1)) / float32(len(keys))
	for i, k := range keys {
		box{at.x + float32(i)*(w+gap), at.y, w, at.h}.put(k)
	}
}

// paintPanel writes the title, what setting will do, and what is wrong with what
// is typed.
func (p *counterPanel) paintPanel(d *paint.Raster, w, h float64, z look.Size) {
	c, u, k := p.Palette(), z.Device, partOf(z)
	title := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel)}
	d.Text(panelPad*k, 21*k, look.Text(look.CountersTitle), title, c.Ink)
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	if hint := look.Text(look.SlewAtOnce); title.Font.Width(look.Text(look.CountersTitle), title.Size)+small.Font.Width(hint, small.Size)+40*k < w {
		d.Text(w-panelPad*k, 21*k, hint, small, c.Ink2)
	}
	p.paintRule(d, w, z)
	text, ink := p.sentence(), c.Ink2
	switch {
	case p.target == nil && p.problem != "":
		text, ink = p.problem, c.Verm
	case p.wrongSense():
		text, ink = look.Text(look.LeverFirst), c.BrassText
	case p.target != nil:
		ink = c.Ink
	}
	small.Anchor = paint.Start
	y := float64(p.words-p.at.y)*u + small.Size
	for i, line := range fold(text, small, w-2*panelPad*k) {
		d.Text(panelPad*k, y+float64(i)*1.3*small.Size, line, small, ink)
	}
}

// paintRule divides what acts at once from what is guarded, where there is room.
func (p *counterPanel) paintRule(d *paint.Raster, w float64, z look.Size) {
	c, u, k := p.Palette(), z.Device, partOf(z)
	foot := float64(p.entry.Position().Y-p.at.y) * u
	room := foot - float64(p.rule-p.at.y)*u
	body := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel)}
	if room < 2.4*body.Size {
		return
	}
	d.Text(panelPad*k, foot-0.55*body.Size, look.Text(look.SetToTitle), body, c.Ink)
	y := foot - max(1.9*body.Size, room/2+0.6*body.Size)
	d.Fill(new(paint.Path).Rect(paint.R(panelPad*k, y, w-2*panelPad*k, z.Hair())), c.Line)
}

// fold breaks words into lines no wider than width, two at most: where there are
// more the second paragraph goes, then what is left over is cut off with dots.
func fold(words string, t paint.Type, width float64) []string {
	measure := func(s string) float64 { return t.Font.Width(s, t.Size) }
	lines := paint.Wrap(words, measure, width)
	if len(lines) > 2 {
		first, _, _ := strings.Cut(words, "\n")
		lines = paint.Wrap(first, measure, width)
	}
	if len(lines) > 2 {
		lines = append(lines[:1:1], lines[1]+" ...")
	}
	return lines
}
