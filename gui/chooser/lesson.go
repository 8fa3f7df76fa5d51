package chooser

import (
	"strconv"
	"strings"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// lessonTall is the height of the card of a lesson, pixels at 1080 lines.
const lessonTall = 96

// lessonHeight is the height of the card of a lesson, units: two lines of name.
func lessonHeight(z look.Size) float32 {
	return float32(max(z.Px(lessonTall), 2.4*z.Text(look.TextBody)+1.5*z.Text(look.TextSmall)+18))
}

// paintLesson draws a lesson: its number on brass, or a tick on slate once it has
// been seen; its name, and how far it has been taken.
func (k *card) paintLesson(d *paint.Raster, body paint.Rect, z look.Size) {
	c, e, u := k.Palette(), k.entry, z.Device
	step, seen := 0, false
	if k.chooser.Progress != nil {
		step, seen = k.chooser.Progress(e.name)
	}
	r := max(14*u, z.Px(18))
	x, y := body.X+r+max(9*u, z.Px(14)), body.Y+body.H/2
	var p paint.Path
	p.Circle(x, y, r)
	if seen {
		d.Fill(&p, c.Slate)
		p.Reset().MoveTo(x-0.42*r, y+0.02*r).LineTo(x-0.1*r, y+0.34*r).LineTo(x+0.46*r, y-0.34*r)
		d.Stroke(&p, paint.Pen{Width: 0.16 * r, Cap: paint.Round}, c.OnSlate)
	} else {
		d.Fill(&p, c.BrassHi)
		d.Stroke(&p, paint.Pen{Width: max(1, 1.5*u)}, c.BrassLo)
		t := typeOf(look.Engraved, z, look.TextLabel)
		t.Anchor = paint.Middle
		d.Text(x, y+0.36*t.Size, strconv.Itoa(e.number), t, c.OnBrass)
	}
	k.paintLessonWords(d, body, x+r+max(8*u, z.Px(12)), step, seen, z)
}

// paintLessonWords writes name, in two lines at most, and how far it was taken.
func (k *card) paintLessonWords(d *paint.Raster, body paint.Rect, x float64, step int, seen bool, z look.Size) {
	c, e := k.Palette(), k.entry
	name, small := typeOf(look.Semibold, z, look.TextBody), typeOf(look.Regular, z, look.TextSmall)
	width := body.Right() - x - max(8*z.Device, z.Px(10))
	lines := fold(lessonName(e.title), name, width, 2)
	tall := float64(len(lines))*1.2*name.Size + 1.35*small.Size
	y := body.Y + (body.H-tall)/2
	for _, line := range lines {
		d.Text(x, y+0.95*name.Size, line, name, c.Ink)
		y += 1.2 * name.Size
	}
	far := look.Textf(look.ChooserLessonSteps, e.steps)
	switch {
	case seen:
		far = look.Text(look.ChooserLessonSeen)
	case step > 0:
		far = look.Textf(look.ChooserLessonAt, step+1, e.steps)
	}
	d.Text(x, y+1.0*small.Size, far, small, c.Ink2)
	if k.chosen() {
		k.paintBar(d, body, x, z)
	}
}

// lessonName is a title without the number that the card shows anyhow.
func lessonName(title string) string {
	if _, rest, ok := strings.Cut(title, ": "); ok {
		return rest
	}
	return title
}

// ChooseNext chooses the lesson after the one with this name, if there is one.
func (c *Chooser) ChooseNext(name string) {
	for i, e := range c.lessons[:max(0, len(c.lessons)-1)] {
		if e.name == name {
			c.goTo(c.lessons[i+1].number - 1) // they stand first
		}
	}
}
