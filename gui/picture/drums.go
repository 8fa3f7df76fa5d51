package picture

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/counter"
)

// Row says which signs are engraved between the drums of a counter.
type Row uint8

// The rows of drums.
const (
	LatitudeRow  Row = iota // S 47 deg 28.5'
	LongitudeRow            // W 179 deg 13.2'
	MilesRow                // 241.3
	ClockRow                // 10:51:20
)

// Condition is the state of a reading, shown on its housing.
type Condition uint8

// The conditions.
const (
	Live   Condition = iota
	Stale            // hatched: the value is held
	Failed           // dashed ring: it failed, and that is revealed
)

// Counter is one row of drums.
type Counter struct {
	Reading   counter.Reading
	Row       Row
	Condition Condition
	// Fast is true from a time rate of x30 on: the lowest drum then shows no
	// digit but a grey band, as a drum does that runs too fast to be read.
	Fast bool
}

// Proportions of a drum of height h.
const (
	drumWidth  = 0.62
	drumGap    = 0.03
	drumMargin = 0.12
	digitSize  = 0.74
	digitDown  = 0.36 // of the digit size: from the middle to the baseline
	digitPitch = 0.92
	shadeBand  = 0.26
	shadeDepth = 0.42
	signSize   = 0.70
	fastBand   = 0.40 // opacity of the band of a fast drum, about
)

// sign is an engraved sign: its text, the width of its cell and the height of
// its baseline, in drum heights.
type sign struct {
	text        string
	width, down float64
}

var (
	degreeSign = sign{"°", 0.26, 0.74}
	pointSign  = sign{".", 0.20, 0.80}
	minuteSign = sign{"′", 0.24, 0.78}
	colonSign  = sign{":", 0.26, 0.78}
)

// after gives the sign that follows drum i (0 lowest).
func (r Row) after(i int) (sign, bool) {
	switch {
	case r == ClockRow:
		return colonSign, i == 4 || i == 2
	case i == 1:
		return pointSign, true
	case r == MilesRow:
		return sign{}, false
	case i == 3:
		return degreeSign, true
	}
	return minuteSign, i == 0
}

// digits is how many digits the drum i goes through before 0 comes again: the
// tens of minutes and seconds have six; the hours end at 23 and the degrees of
// a counter that runs through the whole circle at 359.
func (c Counter) digits(i int) int {
	top := int(c.Reading.Drums[counter.MaxDrums-1])
	switch {
	case c.Row == ClockRow && (i == 1 || i == 3), i == 2 && (c.Row == LatitudeRow || c.Row == LongitudeRow):
		return 6
	case c.Row == ClockRow && i == 4 && top == 2:
		return 4
	case c.Row == ClockRow && i == 5:
		return 3
	case c.Row == LongitudeRow && c.Reading.Letter == 0 && i == 4 && top == 3:
		return 6
	case c.Row == LongitudeRow && c.Reading.Letter == 0 && i == 5:
		return 4
	}
	return 10
}

// position is where drum i stands. The hours end at 23 and the degrees of a
// counter through the whole circle at 359: there the top drum goes over to 0
// together with the one below, which the reading, being a number, cannot say.
func (c Counter) position(i int) float64 {
	v, last := c.Reading.Drums[i], 0.0
	switch {
	case c.Row == ClockRow && i == 5 && v == 2:
		last = 3
	case c.Row == LongitudeRow && c.Reading.Letter == 0 && i == 5 && v == 3:
		last = 5
	default:
		return v
	}
	return v + max(0, c.Reading.Drums[i-1]-last)
}

// cell is a drum or a sign and its place from the left, in pixels.
type cell struct {
	x, w float64
	drum int // index of the drum; letterCell and signCell otherwise
	sign sign
}

const (
	letterCell = -1
	signCell   = -2
)

// cells lays the row out for drums of height h; width is that of the housing.
func (c Counter) cells(h float64) (cells []cell, width float64) {
	w, gap, pad := h*drumWidth, math.Max(2, h*drumGap), h*drumMargin
	x := pad
	cells = make([]cell, 0, 2*counter.MaxDrums)
	add := func(k int, width float64, s sign) {
		cells = append(cells, cell{x, width, k, s})
		x += width
	}
	if c.Reading.Letter != 0 {
		add(letterCell, w, sign{})
		x += gap
	}
	for i := c.Reading.N - 1; i >= 0; i-- {
		add(i, w, sign{})
		x += gap
		if s, ok := c.Row.after(i); ok {
			add(signCell, h*s.width, s)
		}
	}
	return cells, x - gap + pad
}

// CounterSize is the size of the housing for drums of height h.
func CounterSize(c Counter, h float64) (width, height float64) {
	_, width = c.cells(h)
	return width, h + 2*h*drumMargin
}

// DrumCounter draws the counter with the corner of its housing at (x, y) and
// drums of height h, and gives the housing.
func DrumCounter(b *Brush, x, y, h float64, c Counter) paint.Rect {
	cells, width := c.cells(h)
	x, y = math.Round(x), math.Round(y)
	pad := h * drumMargin
	house := paint.R(x, y, width, h+2*pad)
	hair := b.K.Hair()
	b.rect(house.Inset(hair/2), look.PlateRadius*b.K.Symbol(), b.C.Slate, b.C.Housing, hair)
	for _, k := range cells {
		face := paint.R(x+k.x, y+pad, k.w, h).Snap()
		switch {
		case k.drum == signCell:
			b.write(x+k.x+k.w/2-math.Max(2, h*drumGap)/2, y+pad+h*k.sign.down, k.sign.text, look.Engraved, h*signSize, paint.Middle, b.C.OnSlate)
		case k.drum == letterCell:
			b.letterDrum(face, c)
		case k.drum == 0 && c.Fast:
			b.fastDrum(face)
		default:
			b.digitDrum(face, k.drum, c)
		}
	}
	b.condition(house, c.Condition, h)
	return house
}

// digitDrum draws the drum's digit and those above and below it that show.
func (b *Brush) digitDrum(face paint.Rect, i int, c Counter) {
	v := c.position(i)
	low, ink := i == 0, b.C.DrumInk
	if low {
		ink = b.C.OnBrass
	}
	b.drumFace(face, low)
	whole := math.Floor(v)
	n := c.digits(i)
	b.PushClip(face)
	for k := -1; k <= 1; k++ {
		d := ((int(whole)+k)%n + n) % n
		b.onDrum(face, strconv.Itoa(d), float64(k)-(v-whole), ink)
	}
	b.PopClip()
	b.drumShade(face)
}

// onDrum writes a character so many pitches below the middle of the drum.
func (b *Brush) onDrum(face paint.Rect, s string, pitches float64, ink colour) {
	h := face.H
	if math.Abs(pitches)*digitPitch > 0.5+digitSize*0.4 {
		return // out of sight: a figure is no taller than 0.8 of its size
	}
	y := face.Y + h/2 + h*digitSize*digitDown + pitches*h*digitPitch
	b.write(face.X+face.W/2, y, s, look.Engraved, h*digitSize, paint.Middle, ink)
}

// letterDrum has two letters; the other one comes from below.
func (b *Brush) letterDrum(face paint.Rect, c Counter) {
	r := c.Reading
	b.drumFace(face, false)
	b.PushClip(face)
	b.onDrum(face, string(rune(r.Letter)), -r.LetterTurn, b.C.DrumInk)
	if r.LetterTurn > 0 {
		b.onDrum(face, string(rune(otherLetter(r.Letter))), 1-r.LetterTurn, b.C.DrumInk)
	}
	b.PopClip()
	b.drumShade(face)
}

func otherLetter(l byte) byte {
	switch l {
	case 'N':
		return 'S'
	case 'S':
		return 'N'
	case 'E':
		return 'W'
	}
	return 'E'
}

// fastDrum is the lowest drum when it runs too fast to be read: its digits
// smear into one band, fainter at the sides where few of them have ink.
func (b *Brush) fastDrum(face paint.Rect) {
	b.drumFace(face, true)
	m := face.Centre().X
	for _, part := range [2]struct{ width, depth float64 }{{0.44, fastBand * 0.3}, {0.34, fastBand * 0.8}} {
		w := part.width * face.H
		b.path.Reset().Rect(paint.R(m-w/2, face.Y, w, face.H).Snap())
		b.Fill(&b.path, paint.Alpha(b.C.OnBrass, part.depth))
	}
	b.drumShade(face)
}

func (b *Brush) drumFace(face paint.Rect, low bool) {
	c := b.C.Drum
	if low {
		c = b.C.BrassHi
	}
	b.rect(face, look.DrumRadius*b.K.Symbol(), c, none, 0)
}

func (b *Brush) drumShade(face paint.Rect) {
	band := face.H * shadeBand
	dark, clear := paint.Alpha(b.C.Shade, shadeDepth), paint.Alpha(b.C.Shade, 0)
	b.Shade(paint.R(face.X, face.Y, face.W, band), dark, clear)
	b.Shade(paint.R(face.X, face.Bottom()-band, face.W, band), clear, dark)
}

// condition marks the housing.
func (b *Brush) condition(house paint.Rect, c Condition, h float64) {
	switch c {
	case Stale:
		b.hatch(house.Inset(0.08*h), 0.2*h, 0.04*h, b.C.Ink2)
	case Failed:
		b.path.Reset().RoundRect(house.Inset(-0.08*h), 0.16*h)
		b.Stroke(&b.path, paint.Pen{Width: 0.06 * h, Dash: []float64{0.2 * h, 0.12 * h}}, b.C.Verm)
	}
}
