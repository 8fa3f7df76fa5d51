package trainee

import (
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/training/score"
	"stillair/integrator/units"
)

// logPane is the log: what the trainee wrote, the newest line last. Where there is little
// room it has a short form.
type logPane struct {
	kit.Painted
	view *View
}

func newLogPane(v *View) *logPane {
	l := &logPane{view: v}
	l.Extend(l, v.screen, fyne.NewSize(300, 120), l.paint)
	return l
}

type logKey struct {
	changes, minute int
	p               *look.Palette
}

func (l *logPane) apply() {
	l.Update(logKey{l.view.book.Changes, int(l.view.now.View.Elapsed.Minutes()), l.Palette()})
}

// height is that of the pane in a column of some height.
func (l *logPane) height(column float32) float32 { return max(168, 0.27*column) }

// logColumn is one column: its head, the widest that stands in it, and what does.
type logColumn struct {
	head   look.Key
	widest string
	form   int // of the forms up to this one
	text   func(v *View, l *score.Line) string
	width  float64
}

// The forms of the log: whole, short, and where there is the least room.
const (
	whole = iota
	short
	least
)

var logColumns = []logColumn{
	{look.LogTime, "0000Z", least, func(v *View, l *score.Line) string { return v.clockText(l.Elapsed) }, 0},
	{look.LogHeading, "000T", least, func(_ *View, l *score.Line) string { return l.Heading.String() }, 0},
	{look.LogVariation, "00 W", short, func(_ *View, l *score.Line) string { return l.Variation.String() }, 0},
	{look.LogMagnetic, "000M", whole, func(_ *View, l *score.Line) string { return l.Magnetic.String() }, 0},
	{look.LogIAS, "000", short, func(_ *View, l *score.Line) string { return units.Figure(l.IAS.Knots(), 0) }, 0},
	{look.LogHeight, "00000", least, func(_ *View, l *score.Line) string { return units.Figure(l.Height.Feet(), 0) }, 0},
	{look.LogTemperature, "-00", whole, func(_ *View, l *score.Line) string { return units.Figure(l.OAT.Celsius(), 0) }, 0},
	{look.LogTAS, "000", least, func(_ *View, l *score.Line) string { return units.Figure(l.TAS.Knots(), 0) }, 0},
	{look.LogWind, "000/00", least, func(_ *View, l *score.Line) string { return l.Wind.String() }, 0},
	{look.LogMiles, "0000.0", least, func(_ *View, l *score.Line) string { return units.Figure(l.AirMiles.NM(), 1) }, 0},
	{look.LogPosition, "00 00.0 S 000 00.0 W", least, func(_ *View, l *score.Line) string { return units.Position(l.Ground).String() }, 0},
	{look.LogRemarks, "", least, func(_ *View, l *score.Line) string { return l.Remark }, 0},
}

func (l *logPane) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, c, u := l.view, l.Palette(), z.Device
	kit.Paper(d, w, h, z, c)
	inset := max(z.Px(14), 9*u)
	bold := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	name := look.Text(look.TraineeLog)
	d.Text(inset, 1.35*bold.Size, name, bold, c.Ink)
	after := inset + bold.Font.Width(name, bold.Size) + 14*u
	d.Text(after, 1.35*bold.Size, small.Shorten(v.logState(), w-after-inset), small, c.Ink2)
	columns, size := l.columns(w-2*inset, z)
	y := 1.7*bold.Size + 1.15*size
	text := paint.Type{Font: look.Regular.Font(), Size: size}
	pitch := 1.5 * size
	rows := int((h - y - 0.6*size) / pitch)
	lines := v.book.Lines[max(0, len(v.book.Lines)-rows):]
	x := inset
	var p paint.Path
	d.Fill(p.Rect(paint.R(inset, y+0.35*size, w-2*inset, z.Hair())), c.Line)
	for _, col := range columns {
		d.Text(x, y, look.Text(col.head), text, c.Ink2)
		for i := range lines {
			d.Text(x, y+float64(i+1)*pitch, text.Shorten(col.text(v, &lines[i]), col.width-0.3*size), text, c.Ink)
		}
		x += col.width
	}
	if len(v.book.Lines) == 0 {
		d.Text(inset, y+1.2*pitch, text.Shorten(look.Text(look.TraineeNoLines), w-2*inset), text, c.Ink2)
	}
}

// leastRemarks is the least room for remarks, in letters; with less a shorter form is used.
const leastRemarks = 14

// columns are those there is room for, with their widths, and the size of their text. What
// the others leave is for the remarks.
func (l *logPane) columns(room float64, z look.Size) ([]logColumn, float64) {
	size := max(min(z.Text(look.TextSmall), 14*z.Part), 12.5*z.Device)
	font := look.Regular.Font()
	all := func(form int) (list []logColumn, left float64) {
		left = room
		for _, c := range logColumns {
			if c.form < form {
				continue
			}
			c.width = max(font.Width(c.widest, size), font.Width(look.Text(c.head), size)) + 0.75*size
			left -= c.width
			list = append(list, c)
		}
		last := &list[len(list)-1]
		left += last.width
		last.width = left
		return list, left
	}
	for form := whole; ; form++ {
		if list, left := all(form); form == least || left >= leastRemarks*0.5*size {
			return list, size
		}
	}
}

// logState says how often a line is wanted and when the last one was written.
func (v *View) logState() string {
	words := look.Textf(look.TraineeLogEvery, units.Figure(v.brief.LogEvery.Minutes(), 0))
	if n := len(v.book.Lines); n > 0 {
		words += "; " + look.Textf(look.TraineeLogLast, v.clockText(v.book.Lines[n-1].Elapsed))
	}
	return words
}

// askLine writes a line of the log with a remark. The dials are those of the moment at
// which the key was pressed.
func (v *View) askLine() {
	seen := v.now.View
	kit.Ask(v.canvas(), v.screen, look.Text(look.TraineeWrite), look.Text(look.TraineeRemark), "", func(text string) error {
		v.book.Write(&seen, strings.TrimSpace(text))
		v.See(v.now)
		return nil
	})
}
