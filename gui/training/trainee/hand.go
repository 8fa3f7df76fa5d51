package trainee

import (
	"errors"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/training/score"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// handCard is the manual air plot: from a place, by heading, true airspeed and wind as the
// trainee has them. Begun anew at a turn, it goes on from where it has come to.
type handCard struct {
	page
	from, heading, speed, wind *kit.Key
	plot, done                 *kit.Key

	set   score.Hand // what the keys show
	typed bool       // the place was typed, or is to stay
}

func newHandCard(v *View) *handCard {
	h := &handCard{}
	h.page = newPage(v, h.paint)
	h.page.show, h.page.fill = h.arrange, h.fillIn
	h.shut.Press = func() { h.open(false); v.bar.apply() }
	key := func(press func()) *kit.Key {
		k := kit.NewKey(v.screen, "", kit.NoSign, kit.Target, press)
		k.Under, k.Plain = " ", true
		return k
	}
	h.from, h.heading, h.speed, h.wind = key(h.askFrom), key(h.askHeading), key(h.askSpeed), key(h.askWind)
	h.plot = kit.NewKey(v.screen, look.Text(look.ByHandPlot), kit.NoSign, kit.Target, h.begin)
	h.done = kit.NewKey(v.screen, look.Text(look.ByHandDone), kit.NoSign, kit.Target, h.end)
	h.plot.Main = true
	return h
}

// byHand is the manual air plot in use, nil if there is none.
func (v *View) byHand() *score.Hand { return v.book.ByHand(v.now.View.Elapsed) }

func (h *handCard) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{h.paper, h.shut, h.from, h.heading, h.speed, h.wind, h.plot, h.done}
}

// fillIn: the DR position if there is one, else the ground position shown; the heading by
// the standby compass and the variation set, for it hangs on no repeater.
func (h *handCard) fillIn() {
	now := &h.view.now.View
	h.typed = false
	h.set = score.Hand{From: units.Position(now.Ground), TAS: now.TAS, Wind: now.WindSet}
	h.set.Heading = units.TrueHeading(units.Wrap(units.Angle(now.Compass) + units.Angle(now.VariationSet)))
	if b := h.view.byHand(); b != nil {
		h.set.From, h.set.TAS, h.set.Wind = b.Position(now.Elapsed), b.TAS, b.Wind
	}
}

// apply brings a DR position that runs on up to date.
func (h *handCard) apply() {
	b := h.view.byHand()
	reason := ""
	if b == nil {
		reason = look.Text(look.ByHandNone)
	}
	h.done.Forbid(reason)
	h.view.forbidOver(h.plot)
	if h.on && b != nil {
		h.paper.Repaint()
	}
}

func (h *handCard) begin() {
	v := h.view
	h.set.At, h.set.Done = v.now.View.Elapsed, false
	if !h.typed { // where it has come to while the card was open
		typed := h.set
		h.fillIn()
		typed.From = h.set.From
		h.set = typed
	}
	v.book.Plot(h.set)
	h.open(false)
	v.See(v.now)
}

func (h *handCard) end() {
	v := h.view
	v.book.Plot(score.Hand{At: v.now.View.Elapsed, Done: true})
	h.open(false)
	v.See(v.now)
}

func (h *handCard) arrange() {
	if !h.frame(h.objects()) {
		return
	}
	in := h.inner()
	y := h.place.Y + head + 0.17*in.H
	for _, row := range []struct {
		k    *kit.Key
		name look.Key
		text string
	}{
		{h.from, look.ByHandFrom, h.set.From.String()}, {h.heading, look.ByHandHeading, h.set.Heading.String()},
		{h.speed, look.ByHandSpeed, units.SpeedText(h.set.TAS)}, {h.wind, look.ByHandWind, h.set.Wind.String()},
	} {
		row.k.Word, row.k.Under = row.text, look.Text(row.name)
		kit.Box{X: in.X, Y: y, W: in.W, H: kit.Target}.Put(row.k)
		row.k.Repaint()
		y += step
	}
	half, foot := (in.W-4)/2, in.Y+in.H-kit.Target
	kit.Box{X: in.X, Y: foot, W: half, H: kit.Target}.Put(h.plot)
	kit.Box{X: in.X + half + 4, Y: foot, W: half, H: kit.Target}.Put(h.done)
	kit.Show(true, h.objects()...)
}

func (h *handCard) paint(d *paint.Raster, w, _ float64, z look.Size) {
	u := z.Device
	h.title(d, w, z, look.Text(look.TraineeHand))
	h.words(d, w, head*u, z, look.TextSmall, look.Text(look.ByHandWhat))
	y := float64(h.wind.Position().Y-h.place.Y+step)*u + 6*u
	track, speed := airplot.TrackMade(h.set.Heading, h.set.TAS, h.set.Wind)
	y = h.words(d, w, y, z, look.TextBody, look.Textf(look.ByHandMade, units.TrueText(track), units.SpeedText(speed)))
	if b := h.view.byHand(); b != nil {
		now := h.view.now.View.Elapsed
		h.words(d, w, y, z, look.TextBody, look.Textf(look.ByHandNow, h.view.clockText(now), b.Position(now)))
	}
}

// ask has a value typed.
func (h *handCard) ask(title, form look.Key, now string, take func(string) error) {
	kit.Ask(h.view.canvas(), h.view.screen, look.Text(title), look.Text(form), now, func(text string) error {
		err := take(strings.TrimSpace(text))
		if err == nil {
			h.arrange()
		}
		return err
	})
}

func (h *handCard) askFrom() {
	h.ask(look.ByHandFrom, look.ByHandFromForm, h.set.From.String(), func(text string) (err error) {
		p, err := units.ParsePosition(text)
		if err == nil {
			h.set.From, h.typed = p, true
		}
		return err
	})
}

func (h *handCard) askHeading() {
	h.ask(look.ByHandHeading, look.ByHandHeadingForm, units.Degrees3(units.Angle(h.set.Heading)), func(text string) error {
		x, err := strconv.ParseFloat(strings.TrimSuffix(strings.ToUpper(text), "T"), 64)
		if err != nil || !(x >= 0 && x <= 360) {
			return errors.New(look.Text(look.ByHandHeadingForm))
		}
		h.set.Heading = units.TrueHeading(units.Wrap(units.Angle(x) * units.Degree))
		return nil
	})
}

func (h *handCard) askSpeed() {
	h.ask(look.ByHandSpeed, look.ByHandSpeedForm, units.Figure(h.set.TAS.Knots(), 0), func(text string) error {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil || !(x >= 0 && x <= 600) {
			return errors.New(look.Text(look.ByHandSpeedForm))
		}
		h.set.TAS = units.Speed(x) * units.Knot
		return nil
	})
}

func (h *handCard) askWind() {
	h.ask(look.ByHandWind, look.TraineeWindForm, h.set.Wind.String(), func(text string) error {
		w, err := units.ParseWind(text)
		if err == nil {
			h.set.Wind = w
		}
		return err
	})
}
