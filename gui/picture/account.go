package picture

import (
	"math"
	"time"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Family is a group of links with one colour.
type Family uint8

// The families.
const (
	EarthFamily Family = iota // the earth's shape, the method
	AirFamily
	DriveFamily
	HeadingFamily
	TrainFamily
	WindFamily
	CrewFamily
)

// tone is the colour of a family.
func (b *Brush) tone(f Family) colour {
	return [...]colour{b.C.Ink2, b.C.Air, b.C.SlateHi, b.C.Brass, b.C.Rod, b.C.Wind, b.C.Pos}[f]
}

// AccountPart is the part of one link in the error.
type AccountPart struct {
	Name, Note  string
	Family      Family
	North, East float64 // NM
	// Printed are north, east and along the line in tenths: the columns add up.
	Printed [3]int
	Right   bool // held right: pulled out of the chain
}

// AccountPoint is the error at a moment.
type AccountPoint struct {
	Minute, NM float64
	Jump       bool // it came here by a jump: the counters were set
}

// AccountEvent is something that happened to the error.
type AccountEvent struct {
	Minute float64
	Kind   AccountKind
	Words  string
}

// AccountKind is the kind of such an event.
type AccountKind uint8

// The kinds.
const (
	AccountReset AccountKind = iota
	AccountBreak
	AccountMend
	AccountSetting
)

// Lesson is a sentence that the figures support, and what follows from it.
type Lesson struct{ Head, Body string }

// Account is what is shown of the account of an error: values in, pictures out.
type Account struct {
	Start   time.Time
	When    string         // the moment, as 1122Z
	Minute  float64        // the same, since the start
	True    units.Position // where the aircraft was
	Shown   units.Position // where the instrument showed it
	Heading units.TrueHeading

	Parts       []AccountPart // in chain order
	North, East float64       // NM, of all that are not held right
	Sum         [3]int        // as printed

	Plot    Plot    // of the whole flight, with the truth
	Ground  *Ground // under it
	Near    *Ground // under the large-scale chart
	AsFlown []AccountPoint
	If      []AccountPoint // with some held right; none: nil
	Events  []AccountEvent
	Lessons []Lesson
	OnPaper bool // nothing can be touched
}

// NM is how far the end of the chain lies from the truth.
func (a *Account) NM() float64 { return math.Hypot(a.North, a.East) }

// pulled says whether a link is held right.
func (a *Account) pulled() bool {
	for i := range a.Parts {
		if a.Parts[i].Right {
			return true
		}
	}
	return false
}

// aside is the place so many miles north and east of one, by the measure of the
// account: minutes of latitude, and of longitude at the true latitude.
func (a *Account) aside(north, east float64) units.Position {
	return units.Position{
		Lat: a.True.Lat + units.Angle(north)*units.ArcMinute,
		Lon: units.WrapHalf(a.True.Lon + units.Angle(east/math.Cos(a.True.Lat.Radians()))*units.ArcMinute),
	}
}

// totalWords are the miles of the whole and their direction: 15.7 NM 114T.
func (a *Account) totalWords() string {
	miles := units.Figure(float64(a.Sum[2])/10, 1) + " NM"
	if a.Sum[2] == 0 {
		return miles
	}
	return miles + " " + units.TrueText(units.Angle(math.Atan2(a.East, a.North)))
}

// AccountCards is where the cards lie; those that do not show are empty.
type AccountCards struct{ Inset, Table, Chart, Time, Words paint.Rect }

// AccountPages is how many pages the account needs in a window of this size.
func AccountPages(z look.Size) int {
	if z.Small() {
		return 2
	}
	return 1
}

// AccountLayout lays the cards of a page out in a box.
func AccountLayout(z look.Size, box paint.Rect, page int) (c AccountCards) {
	gap := math.Max(8*z.Device, z.Px(look.GapColumn))
	across := func(y, h float64, shares ...float64) []paint.Rect {
		room, x := box.W-gap*float64(len(shares)-1), box.X
		var out []paint.Rect
		for _, s := range shares {
			out = append(out, paint.R(math.Round(x), y, math.Round(room*s), h))
			x += room*s + gap
		}
		return out
	}
	upper := func(r []paint.Rect) { c.Inset, c.Table = r[0], r[1] }
	lower := func(r []paint.Rect) { c.Chart, c.Time, c.Words = r[0], r[1], r[2] }
	switch {
	case AccountPages(z) == 1:
		half := math.Round((box.H - gap) / 2)
		upper(across(box.Y, half, 0.43, 0.57))
		lower(across(box.Y+half+gap, box.H-half-gap, 0.31, 0.35, 0.34))
	case page == 0:
		upper(across(box.Y, box.H, 0.46, 0.54))
	default:
		lower(across(box.Y, box.H, 0.3, 0.35, 0.35))
	}
	return c
}

// DrawAccount draws the cards of a page.
func DrawAccount(b *Brush, c AccountCards, a *Account) {
	if c.Inset.W > 0 {
		b.accountInset(c.Inset, a)
		b.accountTable(c.Table, a)
	}
	if c.Chart.W > 0 {
		b.accountChart(c.Chart, a)
		b.accountTime(c.Time, a)
		b.accountWords(c.Words, a)
	}
}

// card draws a paper card with its title, and gives the room under it.
func (b *Brush) card(r paint.Rect, title, right string) paint.Rect {
	b.rect(r.Inset(0.5), look.CardRadius*b.K.Device, b.C.Card, b.C.Line, b.K.Hair())
	size, pad := b.K.Text(20), 16*b.K.Symbol()
	y := r.Y + pad + 0.8*size
	b.write(r.X+pad, y, title, look.Semibold, size, paint.Start, b.C.Ink2)
	if small := b.K.Text(15.5); right != "" && look.Semibold.Font().Width(title, size)+look.Regular.Font().Width(right, small)+3*pad < r.W {
		b.write(r.Right()-pad, y, right, look.Regular, small, paint.End, b.C.Ink2)
	}
	return b.cardRoom(r)
}

// cardRoom is the room of a card under its title.
func (b *Brush) cardRoom(r paint.Rect) paint.Rect {
	pad := 16 * b.K.Symbol()
	top := pad + 1.25*b.K.Text(20)
	return paint.R(r.X+pad, r.Y+top, r.W-2*pad, r.H-top-pad*0.75)
}

// chartCard draws a card that is a chart, and gives the box of the chart.
func (b *Brush) chartCard(r paint.Rect) paint.Rect {
	b.rect(r.Inset(0.5), look.CardRadius*b.K.Device, b.C.Card, b.C.Line, b.K.Hair())
	return r.Inset(8*b.K.Symbol() + FrameWidth(b.K))
}

// accountChart is the flight as a whole.
func (b *Brush) accountChart(r paint.Rect, a *Account) {
	box := b.chartCard(r)
	v := Fit(box, 34*b.K.Symbol(), a.Plot.Positions()...)
	room := DrawGround(b, v, a.Ground)
	p := a.Plot
	p.Held = nil
	DrawPlot(b, v, &p, room)
}
