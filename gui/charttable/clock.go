package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// clock is the row of drums with the time, and the date beside it. It is a
// widget of its own because it turns at every frame and the card under it not.
type clock struct {
	kit.Painted
	strip *strip
}

func newClock(s *strip) *clock {
	c := &clock{strip: s}
	c.Extend(c, s.table.screen, fyne.NewSize(200, 40), c.paint)
	return c
}

type clockKey struct {
	tick int64
	fast bool
	p    *look.Palette
}

func (c *clock) apply(m *helm.Moment) {
	c.Update(clockKey{m.View.Tick, fast(m), c.Palette()})
}

// fast says whether the lowest drum runs too fast to be read.
func fast(m *helm.Moment) bool { return m.Playing && m.Rate >= fastRate }

func (c *clock) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, m := c.Palette(), c.strip.moment
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	now := m.View.Clock
	seconds := now.Sub(now.Truncate(24 * time.Hour)).Seconds()
	row := picture.Counter{Reading: counter.Clock(seconds), Row: picture.ClockRow, Fast: fast(m)}
	drum := c.drum(row, w, h, z)
	house := picture.DrumCounter(picture.NewBrush(d, p, z), 0, math.Max(2*z.Device, (h-1.24*drum)/2), drum, row)
	zulu, date := clockFaces(z)
	mid := house.Y + house.H/2
	x := house.Right() + 10*z.Device
	d.Text(x, mid+0.36*zulu.Size, look.Text(look.Zulu), zulu, p.Ink)
	x += zulu.Font.Width(look.Text(look.Zulu), zulu.Size) + 12*z.Device
	day, year := dateLines(now)
	d.Text(x, mid-0.15*date.Size, day, date, p.Ink)
	date.Font = look.Regular.Font()
	d.Text(x, mid+1.05*date.Size, year, date, p.Ink2)
}

// drum is the height of the drums: that of the look, as far as there is room for
// them and for the letter and the date beside them.
func (c *clock) drum(row picture.Counter, w, h float64, z look.Size) float64 {
	zulu, date := clockFaces(z)
	beside := zulu.Font.Width(look.Text(look.Zulu), zulu.Size) + date.Font.Width("30 Aug", date.Size) + 30*z.Device
	wide, tall := picture.CounterSize(row, 100)
	return min(max(z.Px(40), 36*z.Device), 100*(h-4*z.Device)/tall, 100*(w-beside)/wide)
}

// clockFaces are those of the letter for the zone and of the date.
func clockFaces(z look.Size) (zulu, date paint.Type) {
	return paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLarge)},
		paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall)}
}

// dateLines are day and month, and the year.
func dateLines(t time.Time) (day, year string) {
	text := units.DateText(t)
	cut := len(text) - len("1957")
	return text[:cut-1], text[cut:]
}
