package film

import (
	"image/color"
	"math"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// cardOf is an instrument on its card: what the picture hangs on, and the picture,
// which is drawn from what the key says and no more, so that a card is the same
// whenever it was drawn.
type cardOf struct {
	key   func(m *Moment) any
	paint func(p *pane, m *Moment)
}

var cards = map[kind]cardOf{
	clockKind:     {clockKey, paintClock},
	airKind:       {func(m *Moment) any { return positionKey(&m.View.AirCounters, m.Fast) }, paintAir},
	groundKind:    {func(m *Moment) any { return positionKey(&m.View.GroundCounters, m.Fast) }, paintGround},
	airLogKind:    {func(m *Moment) any { return rounded(m.View.AirLogCounter, m.Fast) }, paintAirLog},
	headingKind:   {func(m *Moment) any { return quarter(m.View.Heading.Degrees()) }, paintHeading},
	speedKind:     {func(m *Moment) any { return quarter(m.View.TAS.Knots()) }, paintSpeed},
	windKind:      {func(m *Moment) any { return m.View.WindSet }, paintWind},
	variationKind: {func(m *Moment) any { return tenth(m.View.VariationSet.Degrees()) }, paintVariation},
	captionKind:   {func(m *Moment) any { return m.Caption }, paintCaption},
}

// row is a row of drums as it is drawn: a hundredth of a digit is half a pixel of
// the largest.
type row struct {
	reading counter.Reading
	fast    bool
}

func rounded(r counter.Reading, fast bool) row {
	for i := range r.Drums {
		r.Drums[i] = math.Floor(r.Drums[i]*200) / 200
	}
	r.LetterTurn = math.Floor(r.LetterTurn*200) / 200
	if fast {
		r.Drums[0] = 0
	}
	return row{r, fast}
}

func (r row) counter(k picture.Row) picture.Counter {
	return picture.Counter{Reading: r.reading, Row: k, Fast: r.fast}
}

// quarter is a figure to a quarter of its unit.
func quarter(x float64) float64 { return math.Round(4*x) / 4 }

func tenth(x float64) float64 { return math.Round(10*x) / 10 }

func (p *pane) card() { card(p.brush, p.w, p.h, p.size, p.palette) }

// pad is how far what is written stands from the edge of a card.
func (p *pane) pad() float64 { return p.size.Px(16) }

// title writes the name of a card and gives the room under it.
func (p *pane) title(words string) paint.Rect {
	size := p.size.Text(look.TextLabel)
	t := paint.Type{Font: look.Semibold.Font(), Size: size}
	t.Size *= math.Min(1, (p.w-1.5*p.pad())/t.Font.Width(words, size))
	p.brush.Text(p.pad(), p.titleLine(), words, t, p.palette.Ink)
	top := p.titleLine() + size*0.45
	return paint.R(p.size.Px(10), top, p.w-2*p.size.Px(10), p.h-top-p.size.Px(10))
}

// titleLine is where the name of a card stands.
func (p *pane) titleLine() float64 { return p.size.Px(10) + p.size.Text(look.TextLabel)*0.85 }

// beside writes what stands at the right of the name, and says whether there is
// room for it.
func (p *pane) beside(title, words string, face look.Face, size float64, ink color.NRGBA) bool {
	name := look.Semibold.Font().Width(title, p.size.Text(look.TextLabel))
	t := paint.Type{Font: face.Font(), Size: p.size.Text(size), Anchor: paint.End}
	if name+t.Font.Width(words, t.Size)+2.5*p.pad() > p.w {
		return false
	}
	p.brush.Text(p.w-p.pad(), p.titleLine(), words, t, ink)
	return true
}

// clockShown is what the clock shows.
type clockShown struct {
	row
	day string
}

func clockKey(m *Moment) any {
	now := m.View.Clock
	r := rounded(counter.Clock(now.Sub(now.Truncate(24*time.Hour)).Seconds()), m.Fast)
	return clockShown{r, units.DateText(now)}
}

// paintClock draws the drums of the clock, the letter of its zone and the date, on
// the ground of the frame: at the right, in a tall frame at the left.
func paintClock(p *pane, m *Moment) {
	k, c, z := clockKey(m).(clockShown), p.palette, p.size
	p.brush.Fill(new(paint.Path).Rect(paint.R(0, 0, p.w, p.h)), c.Ground)
	counter := k.counter(picture.ClockRow)
	drum := p.h / 1.24
	w, _ := picture.CounterSize(counter, drum)
	cut := strings.LastIndexByte(k.day, ' ')
	day, year := k.day[:cut], k.day[cut+1:]
	zulu := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLarge)}
	date := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	const apart = 9
	beside := zulu.Font.Width(look.Text(look.Zulu), zulu.Size) + math.Max(date.Font.Width(day, date.Size), date.Font.Width(year, date.Size)) + z.Px(2*apart)
	for w+beside > p.w-1 { // the housing stands on a whole pixel
		drum -= 0.5
		w, _ = picture.CounterSize(counter, drum)
	}
	x := 0.0
	if p.studio.Size.shape() != tall {
		x = math.Floor(p.w - w - beside)
	}
	house := picture.DrumCounter(p.brush, x, (p.h-1.24*drum)/2, drum, counter)
	x, mid := house.Right()+z.Px(apart), house.Y+house.H/2
	p.brush.Text(x, mid+0.36*zulu.Size, look.Text(look.Zulu), zulu, c.Ink)
	x += zulu.Font.Width(look.Text(look.Zulu), zulu.Size) + z.Px(apart)
	p.brush.Text(x, mid-0.18*date.Size, day, date, c.Ink)
	date.Font = look.Regular.Font()
	p.brush.Text(x, mid+1.02*date.Size, year, date, c.Ink2)
}

// positionShown is what the two counters of a position show.
type positionShown struct{ lat, lon row }

func positionKey(c *aboard.Counters, fast bool) any {
	return positionShown{rounded(c.Latitude, fast), rounded(c.Longitude, fast)}
}

func paintAir(p *pane, m *Moment) {
	p.position(look.AirPositionTitle, look.AirPositionHint, positionKey(&m.View.AirCounters, m.Fast).(positionShown))
}

func paintGround(p *pane, m *Moment) {
	p.position(look.FactGround, look.FilmGroundHint, positionKey(&m.View.GroundCounters, m.Fast).(positionShown))
}

// position draws latitude and longitude, one over the other.
func (p *pane) position(title, hint look.Key, k positionShown) {
	p.card()
	room := p.title(look.Text(title))
	p.beside(look.Text(title), look.Text(hint), look.Regular, look.TextSmall, p.palette.Ink2)
	rows := down(room, p.size.Px(8), 0, 0)
	name := paint.Type{Font: look.Regular.Font(), Size: p.size.Text(look.TextBody)}
	lat, lon := k.lat.counter(picture.LatitudeRow), k.lon.counter(picture.LongitudeRow)
	const try = 100.0
	wide, _ := picture.CounterSize(lon, try)
	words := name.Font.Width(look.Text(look.Longitude), name.Size) + p.size.Px(12)
	inner := room.W - 2*(p.pad()-p.size.Px(10))
	drum := math.Min(rows[0].H/1.24, try*(inner-words)/wide)
	for i, c := range []picture.Counter{lat, lon} {
		w, tall := picture.CounterSize(c, drum)
		x := room.Right() - (p.pad() - p.size.Px(10)) - w
		y := rows[i].Y + (rows[i].H-tall)/2
		picture.DrumCounter(p.brush, x, y, drum, c)
		word := look.Text([2]look.Key{look.Latitude, look.Longitude}[i])
		p.brush.Text(p.pad(), rows[i].Y+rows[i].H/2+0.35*name.Size, word, name, p.palette.Ink)
	}
}

func paintAirLog(p *pane, m *Moment) {
	p.card()
	row := rounded(m.View.AirLogCounter, m.Fast).counter(picture.MilesRow)
	size := p.size.Text(look.TextLabel)
	name := paint.Type{Font: look.Semibold.Font(), Size: size}
	mid := p.h/2 + 0.35*size
	p.brush.Text(p.pad(), mid, look.Text(look.AirLogCounter), name, p.palette.Ink)
	unit := paint.Type{Font: look.Regular.Font(), Size: size, Anchor: paint.End}
	p.brush.Text(p.w-p.pad(), mid, look.Text(look.NauticalMiles), unit, p.palette.Ink2)
	x := p.w - p.pad() - unit.Font.Width(look.Text(look.NauticalMiles), size) - p.size.Px(8)
	drum := (p.h - 1.4*p.pad()) / 1.24
	w, h := picture.CounterSize(row, drum)
	picture.DrumCounter(p.brush, x-w, (p.h-h)/2, drum, row)
	told := paint.Type{Font: look.Regular.Font(), Size: p.size.Text(look.TextSmall), Anchor: paint.End}
	left := p.pad() + name.Font.Width(look.Text(look.AirLogCounter), size) + p.size.Px(14)
	if text := look.Text(look.AirLogHint); left+told.Font.Width(text, told.Size) < x-w-p.size.Px(12) {
		p.brush.Text(x-w-p.size.Px(12), mid, text, told, p.palette.Ink2)
	}
}

// dial draws a dial as large as it goes into the card of a name.
func (p *pane) dial(title look.Key, box picture.Box, draw func(b *picture.Brush, x, y, r float64)) {
	p.card()
	x, y, r := picture.FitDial(p.title(look.Text(title)), p.size, box)
	draw(p.brush, x, y, r)
}

func paintHeading(p *pane, m *Moment) {
	h := units.TrueHeading(units.Angle(quarter(m.View.Heading.Degrees())) * units.Degree)
	p.dial(look.TrueHeading, picture.HeadingCardBox, func(b *picture.Brush, x, y, r float64) { picture.HeadingCard(b, x, y, r, h) })
}

func paintSpeed(p *pane, m *Moment) {
	v := units.Speed(quarter(m.View.TAS.Knots())) * units.Knot
	p.dial(look.TrueAirspeed, picture.AirspeedFanBox, func(b *picture.Brush, x, y, r float64) {
		picture.AirspeedFan(b, x, y, r, picture.TASFan(v))
	})
}

// paintWind writes the wind at the right of the name, or under the dial where the
// card is narrow.
func paintWind(p *pane, m *Moment) {
	p.card()
	wind, title := m.View.WindSet, look.Text(look.WindSetTitle)
	room := p.title(title)
	if !p.beside(title, wind.String(), look.Bold, look.TextLabel, p.palette.Wind) {
		t := paint.Type{Font: look.Bold.Font(), Size: p.size.Text(look.TextLabel), Anchor: paint.Middle}
		p.brush.Text(p.w/2, room.Bottom()-0.1*t.Size, wind.String(), t, p.palette.Wind)
		room.H -= 1.1 * t.Size
	}
	x, y, r := picture.FitDial(room, p.size, picture.WindSetterBox)
	picture.WindSetter(p.brush, x, y, r, wind)
}

func paintVariation(p *pane, m *Moment) {
	v := units.Variation(tenth(m.View.VariationSet.Degrees())) * units.Variation(units.Degree)
	p.dial(look.VariationSet, picture.VariationSetterBox, func(b *picture.Brush, x, y, r float64) { picture.VariationSetter(b, x, y, r, v) })
}

// paintCaption writes what the film says at this time, as large as two lines go, in
// a tall frame three.
func paintCaption(p *pane, m *Moment) {
	c, z := p.palette, p.size
	p.brush.Fill(new(paint.Path).Rect(paint.R(0, 0, p.w, p.h)), c.Ground)
	if m.Caption == "" {
		return
	}
	p.card()
	bar := paint.R(z.Px(16), z.Px(16), z.Px(5), p.h-z.Px(32)).Snap()
	p.brush.Fill(new(paint.Path).Rect(bar), c.Brass)
	p.brush.Stroke(new(paint.Path).Rect(bar), paint.Pen{Width: z.Hair()}, c.BrassLo)
	x := bar.Right() + z.Px(16)
	t := paint.Type{Font: look.Semibold.Font(), Size: z.Px(27)}
	lines := t.Wrap(m.Caption, p.w-x-z.Px(16))
	for float64(len(lines))*1.25*t.Size > p.h-z.Px(16) && t.Size > z.Px(13) {
		t.Size -= z.Px(0.5)
		lines = t.Wrap(m.Caption, p.w-x-z.Px(16))
	}
	y := p.h/2 - 0.625*t.Size*float64(len(lines)) + 0.96*t.Size
	for i, line := range lines {
		p.brush.Text(x, y+float64(i)*1.25*t.Size, line, t, c.Ink)
	}
}
