package score

import (
	"image/color"
	"io"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// DrawMarks draws the total and a bar for each criterion, with why, in a room; it gives
// the height it took.
func DrawMarks(b *picture.Brush, r paint.Rect, t *Told) float64 {
	u := b.K.Device
	big := paint.Type{Font: look.Engraved.Font(), Size: b.K.Text(look.TextReading)}
	body := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextBody)}
	bold := paint.Type{Font: look.Semibold.Font(), Size: body.Size}
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	y := r.Y + big.Size
	b.Text(r.X, y, t.Got, big, b.C.Ink)
	b.Text(r.X+big.Font.Width(t.Got, big.Size)+6*u, y, look.Textf(look.MarkOf, "", t.Of), body, b.C.Ink2)
	y += 0.4 * body.Size
	var p paint.Path
	for _, row := range t.Rows {
		y += 1.5 * body.Size
		b.Text(r.X, y, row.Name, bold, b.C.Ink)
		end := bold
		end.Anchor = paint.End
		b.Text(r.Right(), y, row.Marks, end, b.C.Ink)
		bar := paint.R(r.X+0.36*r.W, y-0.62*body.Size, 0.40*r.W, 0.6*body.Size)
		b.Fill(p.Reset().RoundRect(bar, 0.3*body.Size), b.C.Low)
		if row.Share > 0 {
			full := bar
			full.W = max(bar.H, bar.W*row.Share)
			b.Fill(p.Reset().RoundRect(full, 0.3*body.Size), b.C.Brass)
		}
		b.Stroke(p.Reset().RoundRect(bar, 0.3*body.Size), paint.Pen{Width: b.K.Hair()}, b.C.BrassLo)
		y = writeLines(b, r, y, row.Why, small)
	}
	return y - r.Y + 0.6*body.Size
}

// writeLines writes words under a line and gives the new line.
func writeLines(b *picture.Brush, r paint.Rect, y float64, words string, t paint.Type) float64 {
	for _, line := range t.Wrap(words, r.W) {
		y += 1.3 * t.Size
		b.Text(r.X, y, line, t, b.C.Ink2)
	}
	return y
}

// passage is a heading and what stands under it.
type passage struct {
	head  string
	lines []string
}

func (t *Told) passages() []passage {
	all := []passage{{look.Text(look.ScoreFaults), t.Found}, {look.Text(look.ScoreReports), orNothing(t.Reports)}}
	if t.Finds != "" {
		all = append(all, passage{look.Text(look.ScoreToFind), []string{t.Finds}})
	}
	if t.Sealed != "" {
		all = append(all, passage{"", []string{t.Sealed}})
	}
	if len(t.Notes) > 0 {
		all = append(all, passage{look.Text(look.ScoreNotes), t.Notes})
	}
	return all
}

func (t *Told) criteria() passage { return passage{look.Text(look.CriteriaTitle), t.Criteria} }

func orNothing(lines []string) []string {
	if len(lines) == 0 {
		return []string{look.Capital(look.Text(look.ScoreNone))}
	}
	return lines
}

// DrawFindings writes faults, reports and the rest in a room, as far as there is room, and
// gives the height it took.
func DrawFindings(b *picture.Brush, r paint.Rect, t *Told) float64 {
	body := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	y := r.Y
	for _, p := range append(t.passages(), t.criteria()) {
		if y+3*body.Size > r.Bottom() {
			break
		}
		if len(p.lines) == 0 {
			continue
		}
		if p.head != "" {
			y += 1.5 * body.Size
			b.Text(r.X, y, p.head, body, b.C.Ink)
		}
		for _, line := range p.lines {
			if n := float64(len(small.Wrap(line, r.W))); y+1.3*n*small.Size > r.Bottom() {
				break
			}
			y = writeLines(b, r, y, line, small) + 0.2*small.Size
		}
	}
	return y - r.Y
}

// The page: A4 upright at 150 to the inch.
const (
	pageWidth  = 1240
	pageHeight = 1754
	pagePoints = 595.28
	pageMargin = 100
)

// WritePDF writes the sheet on a page.
func WritePDF(out io.Writer, t *Told) error {
	d := paint.NewPDF(pageWidth, pageHeight, pagePoints, t.Title)
	drawPage(d, t)
	_, err := d.WriteTo(out)
	return err
}

func drawPage(d paint.Surface, t *Told) {
	z := look.SizeOf(1920, 1080, 1.5)
	z.Part = 1.5
	b := picture.NewBrush(d, look.Of(look.Paper), z)
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, pageWidth, pageHeight)), color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF})
	room := paint.R(pageMargin, pageMargin, pageWidth-2*pageMargin, pageHeight-2*pageMargin)
	title := paint.Type{Font: look.Bold.Font(), Size: 42}
	small := paint.Type{Font: look.Regular.Font(), Size: 24}
	d.Text(room.X, room.Y+30, title.Shorten(t.Title, room.W), title, b.C.Ink)
	d.Text(room.X, room.Y+72, t.When, small, b.C.Ink2)
	marks := paint.R(room.X, room.Y+100, room.W, 600)
	y := marks.Y + DrawMarks(b, marks, t)
	foot := drawFoot(b, room, t)
	found := *t
	found.Criteria = nil // they stand at the foot
	DrawFindings(b, paint.R(room.X, y+20, room.W, foot-y-40), &found)
}

// drawFoot writes how it is marked and the cautions at the foot of the page, and gives
// where they begin.
func drawFoot(b *picture.Brush, room paint.Rect, t *Told) float64 {
	head := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	caution := look.Text(look.CautionLong)
	tall := 2.8 * head.Size
	for _, line := range append(slices.Clone(t.Criteria), caution) {
		tall += (1.3*float64(len(small.Wrap(line, room.W))) + 0.2) * small.Size
	}
	top := room.Bottom() - tall
	var path paint.Path
	b.Stroke(path.MoveTo(room.X, top).LineTo(room.Right(), top), paint.Pen{Width: b.K.Hair()}, b.C.Ink2)
	y := top + 1.5*head.Size
	b.Text(room.X, y, look.Text(look.CriteriaTitle), head, b.C.Ink)
	for _, line := range t.Criteria {
		y = writeLines(b, room, y, line, small) + 0.2*small.Size
	}
	writeLines(b, room, y+0.8*head.Size, caution, small)
	return top
}

// DrawMarksShort draws total and bars without the reasons, spread over a room.
func DrawMarksShort(b *picture.Brush, r paint.Rect, t *Told) {
	u := b.K.Device
	big := paint.Type{Font: look.Engraved.Font(), Size: b.K.Text(look.TextReading)}
	body := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	end := body
	end.Anchor = paint.End
	y := r.Y + 0.9*big.Size
	b.Text(r.X, y, t.Got, big, b.C.Ink)
	b.Text(r.X+big.Font.Width(t.Got, big.Size)+6*u, y, look.Textf(look.MarkOf, "", t.Of), body, b.C.Ink2)
	pitch := min(2*body.Size, (r.Bottom()-y-0.4*body.Size)/float64(len(t.Rows)))
	var p paint.Path
	for _, row := range t.Rows {
		y += pitch
		b.Text(r.X, y, row.Name, body, b.C.Ink)
		b.Text(r.Right(), y, row.Marks, end, b.C.Ink)
		bar := paint.R(r.X+0.42*r.W, y-0.62*body.Size, 0.34*r.W, 0.6*body.Size)
		b.Fill(p.Reset().RoundRect(bar, 0.3*body.Size), b.C.Low)
		if full := bar; row.Share > 0 {
			full.W = max(bar.H, bar.W*row.Share)
			b.Fill(p.Reset().RoundRect(full, 0.3*body.Size), b.C.Brass)
		}
		b.Stroke(p.Reset().RoundRect(bar, 0.3*body.Size), paint.Pen{Width: b.K.Hair()}, b.C.BrassLo)
	}
}
