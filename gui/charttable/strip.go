package charttable

import (
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim"
)

// strip is the card at the foot: clock, keys, time line, time rate.
type strip struct {
	card
	table  *Table
	clock  *clock
	again  *kit.Key
	back   *kit.Key
	play   *kit.Key
	step   *kit.Key
	line   *timeLine
	spot   *canvas.Rectangle // where on the time line a hint speaks of
	rates  *rates
	slower *kit.Key
	faster *kit.Key

	moment  *helm.Moment
	past    past
	moments []namedMoment
	store   momentStore
}

func newStrip(t *Table) *strip {
	s := &strip{table: t, moment: t.helm.Moment(), store: storeOf(t.plan.Title)}
	s.moments = merged(t.plan.Moments, s.store.read())
	s.init(s, t.screen, "", s.paintStrip)
	s.clock = newClock(s)
	s.again = kit.NewSignKey(t.screen, kit.RestartSign, look.RestartHint, func() { t.helm.GoTo(0) })
	s.back = kit.NewSignKey(t.screen, kit.StepBackSign, look.StepBackHint, func() { t.helm.Step(-sim.TicksPerSecond) })
	s.play = kit.NewKey(t.screen, look.Text(look.Play), kit.PlaySign, playWidth, t.playOrPause)
	s.play.Main = true
	s.step = kit.NewSignKey(t.screen, kit.StepSign, look.StepHint, func() { t.helm.Step(1) })
	s.slower = kit.NewSignKey(t.screen, kit.MinusSign, look.SlowerHint, func() { t.helm.ChangeRate(-1) })
	s.faster = kit.NewSignKey(t.screen, kit.PlusSign, look.FasterHint, func() { t.helm.ChangeRate(1) })
	s.rates = newRates(t)
	s.line = newTimeLine(s)
	s.spot = canvas.NewRectangle(color.Transparent)
	return s
}

func (s *strip) keys() []fyne.CanvasObject {
	return []fyne.CanvasObject{s.clock, s.again, s.back, s.play, s.step, s.line, s.spot, s.slower, s.rates, s.faster}
}

// Sizes of the strip, units.
const (
	stripPad  = 12
	stripGap  = 8
	playWidth = 118
	stepWidth = 104 // with its word
	wideStrip = 1540
	rateCell  = 50
	rateValue = 88 // the one cell where there is no room for all
)

// wide says whether there is room for all rates and for the words of the marks.
func wide(b box) bool { return b.w >= wideStrip }

// lay puts the parts on the card.
func (s *strip) lay(b box) {
	foot := b.y + b.h - stripPad - kit.Target
	x := b.x + stripPad
	for _, k := range []*kit.Key{s.again, s.back, s.play, s.step} {
		w := k.MinSize().Width
		if k == s.step && wide(b) {
			w = stepWidth
		}
		box{x, foot, w, kit.Target}.put(k)
		x += w + stripGap
	}
	if wide(b) {
		s.step.Set(look.Text(look.Step), kit.StepSign, false)
	} else {
		s.step.Set("", kit.StepSign, false)
	}
	box{b.x + stripPad, b.y + 6, x - stripGap - b.x - stripPad, foot - b.y - 10}.put(s.clock)
	left := s.layRates(b, foot)
	box{x + 8, b.y + 4, left - x - 16, b.h - 8}.put(s.line)
}

// layRates puts the control for the time rate at the right and gives the left
// edge of it.
func (s *strip) layRates(b box, foot float32) float32 {
	right := b.x + b.w - stripPad
	if wide(b) {
		s.slower.Hide()
		s.faster.Hide()
		w := float32(len(helm.Rates)*rateCell + 2*troughPad)
		box{right - w, foot, w, kit.Target}.put(s.rates)
		return right - w
	}
	s.slower.Show()
	s.faster.Show()
	box{right - kit.Target, foot, kit.Target, kit.Target}.put(s.faster)
	box{right - kit.Target - stripGap - rateValue, foot, rateValue, kit.Target}.put(s.rates)
	left := right - 2*kit.Target - 2*stripGap - rateValue
	box{left, foot, kit.Target, kit.Target}.put(s.slower)
	return left
}

// apply brings the card up to a moment.
func (s *strip) apply(m *helm.Moment) {
	s.moment = m
	s.past.note(m)
	if m.Playing {
		s.play.Set(look.Text(look.Pause), kit.PauseSign, false)
	} else {
		s.play.Set(look.Text(look.Play), kit.PlaySign, false)
	}
	ended := ""
	if m.Over {
		ended = look.Text(look.FlightEnded)
	}
	s.play.Forbid(ended)
	s.step.Forbid(ended)
	s.forbidRates(m.Rate)
	s.Update(stripKey{m.Rate, s.Palette()})
	s.clock.apply(m)
	s.rates.apply(m.Rate)
	s.line.apply()
}

func (s *strip) forbidRates(rate float64) {
	reason := func(at float64, why look.Key) string {
		if rate == at {
			return look.Text(why)
		}
		return ""
	}
	s.slower.Forbid(reason(helm.Rates[0], look.SlowestRate))
	s.faster.Forbid(reason(helm.Rates[len(helm.Rates)-1], look.FastestRate))
}

type stripKey struct {
	rate float64
	p    *look.Palette
}

// paintStrip writes what stands over the rates.
func (s *strip) paintStrip(d *paint.Raster, w, _ float64, z look.Size) {
	c, u := s.Palette(), z.Device
	right := w - float64(stripPad)*u
	foot := float64(s.rates.Position().Y-s.Position().Y)*u - 12*u
	title := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	if s.slower.Visible() {
		title.Anchor = paint.Middle
		x := float64(s.rates.Position().X-s.Position().X+s.rates.Size().Width/2) * u
		d.Text(x, foot, look.Text(look.TimeRate), title, c.Ink)
		return
	}
	d.Text(right-float64(s.rates.Size().Width-troughPad)*u, foot, look.Text(look.TimeRate), title, c.Ink)
	hint := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	d.Text(right-troughPad*u, foot, rateHint(s.moment.Rate), hint, c.Ink2)
}

func rateText(rate float64) string {
	if rate < 1 {
		return "x1/" + units.Figure(1/rate, 0)
	}
	return "x" + units.Figure(rate, 0)
}

// rateHint says how long a minute of flight takes.
func rateHint(rate float64) string {
	s := 60 / rate
	if s >= 60 {
		return look.Textf(look.RateHint, fmt.Sprintf("%s min", units.Figure(s/60, 0)))
	}
	decimals := 0
	if s < 10 && s != math.Trunc(s) {
		decimals = 2
	}
	return look.Textf(look.RateHint, fmt.Sprintf("%s s", units.Figure(s, decimals)))
}
