package lessonview

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/sim"
)

// The panel, units; textPitch is from line to line, of the size of the text.
const (
	pad       = 16
	gap       = 8
	textPitch = 1.36
	block     = 14 // between the parts of the sheet; shrinks with the text
	pinRow    = 40
)

// Width is how wide the panel stands in a window, units: 592 at 1080 lines, 412 at
// 720; in narrower windows it gives way for the chart, down to what its keys need.
func Width(w, h float32) float32 {
	f := min(w/1920, h/1080)
	if w < narrow {
		return kit.Whole(max(leastPanel, 412-0.3*(narrow-w)))
	}
	return kit.Whole(max(412, 592*f))
}

// Windows below narrow are smaller than any that the look was made for, units.
const (
	narrow     = 1280
	leastPanel = 364
)

// sizes are those of the text in the sheet, units.
type sizes struct{ title, text, head, small, block float64 }

// shrink are the steps in which text gives way where there is too little room;
// below leastText none of it goes.
var shrink = []float64{1, 0.94, 0.88, 0.82, 0.76}

const leastText = 13.5

// sizes are the sizes of a step of shrinking.
func (v *View) sizes(k float64) sizes {
	f := v.screen.Size(1).Part
	if v.screen.LargerText {
		k *= 1.25
	}
	return sizes{
		title: max(21, 27*f), text: max(leastText, k*max(16.5, 19*f)),
		head: max(leastText, k*max(15, 17*f)), small: max(leastText, k*max(14.5, 16*f)), block: k * block,
	}
}

// page is where the parts of the sheet stand, in units from its upper left corner.
type page struct {
	sizes
	w          float64
	paragraphs [][]string
	does       []string // lines of what is to be done
	do         paint.Rect
	doing      bool
	live       bool
	hint       paint.Rect
	question   []string
	asked      float64 // upper edge of the question
	choices    []paint.Rect
	verdict    []string // what is said of the choice
	judged     float64  // its upper edge
	pins       float64  // upper edge of the list of pins
	height     float64
}

// page lays the sheet out for a width and, if it can, within a height.
func (v *View) page(w, h float64) (p page) {
	for _, k := range shrink {
		if p = v.compose(w, v.sizes(k)); p.height <= h {
			break
		}
	}
	return p
}

func (v *View) compose(w float64, z sizes) page {
	s := v.course.Step()
	p := page{sizes: z, w: w, pins: -1}
	text := paint.Type{Font: look.Regular.Font(), Size: z.text}
	y := 2.0
	for _, para := range strings.Split(v.telling(), "\n") {
		lines := text.Wrap(para, w)
		p.paragraphs = append(p.paragraphs, lines)
		y += float64(len(lines))*textPitch*z.text + 0.45*z.text
	}
	y += z.block - 0.45*z.text
	if n := len(v.course.Answers()); n > 0 && !v.short() {
		p.pins = y
		y += float64(n)*pinRow + z.block
	}
	if p.doing = v.doing() != ""; p.doing {
		inset := 18.0
		bold := paint.Type{Font: look.Semibold.Font(), Size: z.text}
		p.does = bold.Wrap(v.doing(), w-2*inset)
		tall := 12 + 1.4*z.head + float64(len(p.does))*textPitch*z.text + 8
		if p.live = s.Until.Kind != sim.NoGoal; p.live {
			tall += 1.9 * z.text
		}
		p.do = paint.R(0, y, w, tall)
		y += tall + z.block
	}
	if v.hinting() {
		tall := hintHeight(s.Hint, w, z.small)
		p.hint = paint.R(-3, y-3, w+6, tall+6)
		y += tall + z.block
	}
	p.ask(v, &y)
	p.height = math.Ceil(y)
	return p
}

// ask lays question, choices and what is said of the choice.
func (p *page) ask(v *View, y *float64) {
	words := v.words()
	if words == nil {
		return
	}
	if q := v.course.Step().Question; q != nil && !v.naming() {
		p.asked = *y
		p.question = paint.Type{Font: look.Semibold.Font(), Size: p.text}.Wrap(q.Text, p.w)
		*y += 1.5*p.head + float64(len(p.question))*textPitch*p.text + 4
	}
	columns := len(words)
	if columns == 4 {
		columns = 2
	}
	const between = 4
	wide := (p.w + 6 - between*float64(columns-1)) / float64(columns)
	tall := 0.0
	for _, a := range words {
		tall = max(tall, choiceHeight(a, wide-6, p.small)+6)
	}
	for i := range words {
		p.choices = append(p.choices, paint.R(-3+float64(i%columns)*(wide+between), *y-3+float64(i/columns)*(tall+between-2), wide, tall))
	}
	*y += float64((len(words)+columns-1)/columns)*(tall+between-2) + 2
	p.judged = *y
	p.verdict = paint.Type{Font: look.Regular.Font(), Size: p.small}.Wrap(v.verdictRoom(), p.w-34)
	*y += float64(len(p.verdict))*textPitch*p.small + 2
	if v.verdict() == "" {
		p.verdict = nil
	} else {
		p.verdict = paint.Type{Font: look.Regular.Font(), Size: p.small}.Wrap(v.verdict(), p.w-34)
	}
}

// telling is what the step says; once the truth has been shown, what the pins were
// measured from.
func (v *View) telling() string {
	if v.course.Truth().Known {
		if len(v.course.Answers()) == 0 {
			return look.Text(look.LessonNoPins)
		}
		return look.Text(look.LessonPinsOff)
	}
	return v.course.Step().Text
}

// shortPanel is the height below which the list of pins stands under the panel, units.
const shortPanel = 480

// short says whether the list of pins stands under the panel.
func (v *View) short() bool { return v.content.Size().Height < shortPanel }

// doing is what the learner must do, "" if nothing.
func (v *View) doing() string {
	s := v.course.Step()
	switch {
	case v.WantsPins() && s.Do == "" && v.short():
		return "" // their list says it
	case v.WantsPins() && s.Do == "":
		return look.Text(look.LessonPins)
	case v.course.Truth().Known:
		return ""
	}
	return s.Do
}

// verdict is what is said of the choice made, "" before one is.
func (v *View) verdict() string {
	s := v.course.Step()
	switch {
	case v.naming() && v.course.Named() == "", !v.naming() && v.course.Answered() < 0:
		return ""
	case v.naming() && v.course.Named() == s.Until.Word, !v.naming() && v.course.Right():
		return v.verdictRoom()
	}
	return look.Text(look.LessonWrong)
}

// verdictRoom is the longest that may be said, for which room is kept.
func (v *View) verdictRoom() string {
	if s := v.course.Step(); v.naming() {
		if e := faultOf(s.Until.Word); e != "" {
			return look.Textf(look.LessonRight, e)
		}
		return look.Text(look.LessonWrong)
	}
	return look.Textf(look.LessonRight, v.course.Step().Question.Why)
}

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.paper)
	head := float32(v.headHeight(float64(size.Width)))
	foot := size.Height - pad + 3 - kit.Target
	v.layKeys(size.Width, foot)
	kit.Box{X: pad - 5, Y: head, W: size.Width - 2*pad + 10, H: foot - gap - head}.Put(v.scroll)
}

// layKeys puts the keys at the foot: the main one has what the others leave.
func (v *View) layKeys(w, y float32) {
	row, main := []*kit.Key{v.back, v.repeat}, v.next
	if v.WantsPins() {
		row, main = []*kit.Key{v.back, v.next}, v.reveal
	}
	x := float32(pad - 3)
	for _, k := range row {
		wide := max(k.MinSize().Width, k.Needs())
		kit.Box{X: x, Y: y, W: wide, H: kit.Target}.Put(k)
		x += wide + 2
	}
	kit.Box{X: x, Y: y, W: w - pad + 3 - x, H: kit.Target}.Put(main)
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 300) }

// insides lays what scrolls.
type insides View

// room is what the sheet has, units.
func (v *View) room() (w, h float64) {
	size := v.scroll.Size()
	return float64(size.Width) - 10, float64(size.Height)
}

// Layout is part of the toolkit's contract.
func (in *insides) Layout([]fyne.CanvasObject, fyne.Size) {
	v := (*View)(in)
	w, h := v.room()
	if w < 100 {
		return
	}
	p := v.page(w, h)
	kit.Box{W: float32(w) + 10, H: float32(max(h, p.height))}.Put(v.sheet)
	put := func(r paint.Rect, o fyne.CanvasObject) {
		kit.Box{X: float32(r.X) + 5, Y: float32(r.Y), W: float32(r.W), H: float32(r.H)}.Put(o)
	}
	put(p.hint, v.hint)
	v.hint.size = p.small
	for i, r := range p.choices {
		put(r, v.choices[i])
		v.choices[i].sized(p.small)
	}
}

// MinSize is part of the toolkit's contract.
func (in *insides) MinSize([]fyne.CanvasObject) fyne.Size {
	v := (*View)(in)
	w, h := v.room()
	if w < 100 {
		return fyne.NewSize(100, 100)
	}
	return fyne.NewSize(100, float32(v.page(w, h).height))
}
