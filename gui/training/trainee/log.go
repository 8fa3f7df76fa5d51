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

// logColumn is one column: its head, its share of the width, and what stands in it.
type logColumn struct {
	head  look.Key
	share float64
	short bool // of the short form too
	text  func(v *View, l *score.Line) string
}

var logColumns = []logColumn{
	{look.LogTime, 1.05, true, func(v *View, l *score.Line) string { return v.clockText(l.Elapsed) }},
	{look.LogHeading, 0.95, true, func(_ *View, l *score.Line) string { return l.Heading.String() }},
	{look.LogVariation, 0.85, true, func(_ *View, l *score.Line) string { return l.Variation.String() }},
	{look.LogMagnetic, 0.95, false, func(_ *View, l *score.Line) string { return l.Magnetic.String() }},
	{look.LogIAS, 0.7, true, func(_ *View, l *score.Line) string { return units.Figure(l.IAS.Knots(), 0) }},
	{look.LogHeight, 0.95, true, func(_ *View, l *score.Line) string { return units.Figure(l.Height.Feet(), 0) }},
	{look.LogTemperature, 0.75, false, func(_ *View, l *score.Line) string { return units.Figure(l.OAT.Celsius(), 0) }},
	{look.LogTAS, 0.75, true, func(_ *View, l *score.Line) string { return units.Figure(l.TAS.Knots(), 0) }},
	{look.LogWind, 1.1, true, func(_ *View, l *score.Line) string { return l.Wind.String() }},
	{look.LogMiles, 1.0, true, func(_ *View, l *score.Line) string { return units.Figure(l.AirMiles.NM(), 1) }},
	{look.LogPosition, 2.9, true, func(_ *View, l *score.Line) string { return units.Position(l.Ground).String() }},
	{look.LogRemarks, 3.2, true, func(_ *View, l *score.Line) string { return l.Remark }},
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
			d.Text(x, y+float64(i+1)*pitch, text.Shorten(col.text(v, &lines[i]), col.share-0.5*size), text, c.Ink)
		}
		x += col.share
	}
	if len(v.book.Lines) == 0 {
		d.Text(inset, y+1.2*pitch, text.Shorten(look.Text(look.TraineeNoLines), w-2*inset), text, c.Ink2)
	}
}

// columns are those there is room for, with their widths, and the size of their text.
func (l *logPane) columns(room float64, z look.Size) ([]logColumn, float64) {
	size := min(z.Text(look.TextSmall), 15*z.Part+2*z.Device)
	size = max(size, 12.5*z.Device)
	sum := 0.0
	for _, c := range logColumns {
		sum += c.share
	}
	short := room < 3.4*size*sum
	var all []logColumn
	sum = 0
	for _, c := range logColumns {
		if c.short || !short {
			all = append(all, c)
			sum += c.share
		}
	}
	for i := range all {
		all[i].share *= room / sum
	}
	return all, size
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
