package trainee

import (
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// bar is the row at the top: the flight, what the trainee may do, the clock.
type bar struct {
	view                      *View
	pane                      *pane
	clock                     *pane
	report, hand, write, task *kit.Key
	play, slower, faster      *kit.Key
	trainer                   *kit.Key // asks for the trainer's seat
}

// pane is a painted part without a hand on it.
type pane struct{ kit.Painted }

func newPane(screen *kit.Screen, paint func(d *paint.Raster, w, h float64, z look.Size)) *pane {
	p := &pane{}
	p.Extend(p, screen, fyne.NewSize(60, 40), paint)
	return p
}

func newBar(v *View) *bar {
	b := &bar{view: v}
	b.pane = newPane(v.screen, b.paint)
	b.clock = newPane(v.screen, b.paintClock)
	key := func(word look.Key, press func()) *kit.Key {
		return kit.NewKey(v.screen, look.Text(word), kit.NoSign, kit.Target, press)
	}
	b.report = key(look.TraineeReport, func() { v.toggle(&v.report.page) })
	b.hand = key(look.TraineeHand, func() { v.toggle(&v.hand.page) })
	b.write = key(look.TraineeWrite, v.askLine)
	b.task = key(look.TraineeTask, func() { v.toggle(&v.task.page) })
	b.report.Main = true
	b.write.Hint, b.hand.Hint = look.Text(look.TraineeWriteHint), look.Text(look.TraineeHandHint)
	b.play = key(look.Play, func() {
		if v.now.Playing {
			v.deeds.Pause()
		} else {
			v.deeds.Play()
		}
	})
	b.trainer = key(look.SeatTrainer, v.deeds.Trainer)
	b.trainer.Hint = look.Text(look.SeatTrainerHint)
	b.slower = kit.NewSignKey(v.screen, kit.MinusSign, look.TraineeSlower, func() { v.deeds.Rate(-1) })
	b.faster = kit.NewSignKey(v.screen, kit.PlusSign, look.TraineeFaster, func() { v.deeds.Rate(1) })
	return b
}

func (b *bar) keys() []*kit.Key {
	all := []*kit.Key{b.task, b.write, b.hand, b.report}
	if b.view.deeds.Trainer != nil {
		all = append([]*kit.Key{b.trainer}, all...)
	}
	if b.view.brief.Alone {
		all = append(all, b.slower, b.faster, b.play)
	}
	return all
}

// barKey is what the bar's words depend on.
type barKey struct {
	over bool
	rate float64
	p    *look.Palette
}

func (b *bar) apply() {
	v, now := b.view, b.view.now
	b.pane.Update(barKey{now.Over, now.Rate, v.screen.Palette})
	b.clock.Update(clockKey{now.View.Tick, v.screen.Palette})
	word, sign := look.Play, kit.PlaySign
	if now.Playing {
		word, sign = look.Pause, kit.PauseSign
	}
	b.play.Set(look.Text(word), sign, false)
	for _, k := range []*kit.Key{b.report, b.hand, b.write, b.play} {
		v.forbidOver(k)
	}
	b.report.Set(b.report.Word, kit.NoSign, v.report.on)
	b.hand.Set(b.hand.Word, kit.NoSign, v.hand.on || v.byHand() != nil)
	b.task.Set(b.task.Word, kit.NoSign, v.task.on)
}

type clockKey struct {
	tick int64
	p    *look.Palette
}

// lay puts the bar across the window and gives its height.
func (b *bar) lay(size fyne.Size, f, edge float32) float32 {
	h := max(64, look.TopBar*f)
	kit.Box{W: size.Width, H: h}.Put(b.pane)
	clock := max(196, 270*f)
	x := size.Width - edge - clock
	kit.Box{X: x, Y: 4, W: clock, H: h - 8}.Put(b.clock)
	x -= 12
	keys := b.keys()
	for i := len(keys) - 1; i >= 0; i-- {
		w := keys[i].Needs()
		if keys[i] == b.play {
			w = max(w, 104)
		}
		if keys[i] == b.trainer { // room for either word
			w = b.trainerWidth()
		}
		x -= w
		kit.Box{X: x, Y: (h - kit.Target) / 2, W: w, H: kit.Target}.Put(keys[i])
		x -= 6
	}
	return h
}

// trainerWidth is what either word of the trainer's key needs.
func (b *bar) trainerWidth() float32 {
	again := kit.NewKey(b.view.screen, look.Text(look.SeatPressAgain), kit.NoSign, kit.Target, nil)
	return max(again.Needs(), kit.NewKey(b.view.screen, look.Text(look.SeatTrainer), kit.NoSign, kit.Target, nil).Needs())
}

// paint writes the mark, the flight and a warning.
func (b *bar) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := b.view.screen.Palette, z.Device
	var p paint.Path
	d.Fill(p.Rect(paint.R(0, 0, w, h)), c.Card)
	d.Fill(p.Reset().Rect(paint.R(0, h-z.Hair(), w, z.Hair())), c.Line)
	x := max(12*u, z.Px(look.Edge))
	picture.NewBrush(d, c, z).Still(paint.Pt(x+26*u, h/2), 15*u)
	left := x + 64*u
	room := float64(b.keys()[0].Position().X)*u - left - 12*u
	title := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel)}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	d.Text(left, h/2-0.2*title.Size, title.Shorten(look.Textf(look.TraineeTitle, b.view.brief.Title), room), title, c.Ink)
	words := look.Text(look.TraineeWarning)
	if b.view.now.Over {
		words = look.Text(look.FlightEnded)
	} else if b.view.brief.Alone {
		words = look.Textf(look.TraineeRate, rateText(b.view.now.Rate)) + ", " + words
	}
	d.Text(left, h/2+1.15*small.Size, small.Shorten(words, room), small, c.Ink2)
}

func rateText(rate float64) string { return strconv.FormatFloat(rate, 'g', -1, 64) }

func (b *bar) paintClock(d *paint.Raster, w, h float64, z look.Size) {
	c, u := b.view.screen.Palette, z.Device
	var p paint.Path
	d.Fill(p.Rect(paint.R(0, 0, w, h)), c.Card)
	now := b.view.now.View.Clock
	seconds := now.Sub(now.Truncate(24 * time.Hour)).Seconds()
	row := picture.Counter{Reading: counter.Clock(seconds), Row: picture.ClockRow, Fast: b.view.fast()}
	date := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall), Anchor: paint.End}
	wide, tall := picture.CounterSize(row, 100)
	room := w - date.Font.Width("30 Aug", date.Size) - 34*u
	drum := math.Min(100*room/wide, 100*(h-4*u)/tall)
	cw, ch := picture.CounterSize(row, drum)
	left := w - cw - 22*u
	picture.DrumCounter(picture.NewBrush(d, c, z), left, (h-ch)/2, drum, row)
	zulu := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel), Anchor: paint.End}
	d.Text(w, h/2+0.36*zulu.Size, look.Text(look.Zulu), zulu, c.Ink)
	text := units.DateText(now)
	cut := len(text) - len("1957")
	d.Text(left-8*u, h/2-0.15*date.Size, text[:cut-1], date, c.Ink)
	date.Font = look.Regular.Font()
	d.Text(left-8*u, h/2+1.1*date.Size, text[cut:], date, c.Ink2)
}

// fast says whether the lowest drum runs too fast to be read.
func (v *View) fast() bool { return v.now.Playing && v.now.Rate >= 30 }
