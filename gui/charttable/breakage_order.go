package charttable

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"time"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// How a ramp and an intermittent fault come on when they are ordered here.
const (
	rampFor = 10 * time.Minute
	onFor   = 20 * time.Second
	offFor  = 40 * time.Second
	soon    = 5 * time.Minute
)

// nextTiming goes round: at once, on my signal, at a place, at a time that is
// asked for.
func (b *breakage) nextTiming() {
	b.timing = (b.timing + 1) % 4
	b.order.Trigger = fault.Trigger{}
	switch b.timing {
	case atTime:
		b.due = b.table.moment.View.Tick + sim.TicksOf(soon)
		b.table.screen.AfterLetter(b.askTime)()
	case atSignal:
		b.order.Trigger = fault.Trigger{Kind: fault.BySignal, Signal: 1}
	case atPlace:
		b.beginPlace()
	}
	b.show()
}

// askTime has the time of the onset typed; without an answer it is in five minutes.
func (b *breakage) askTime() {
	t := b.table
	kit.Ask(t.canvas(), t.screen, look.Text(look.BreakAsk), look.Text(look.BreakAskHint), t.clockAt(b.due).Format("1504"),
		func(text string) error {
			tick, ok := t.tickOfClock(text)
			if !ok {
				return errors.New(look.Text(look.BreakAskWrong))
			}
			b.due = tick
			b.show()
			return nil
		})
}

// clockAt is the time of the clock at a tick.
func (t *Table) clockAt(tick int64) time.Time { return t.plan.Start.UTC().Add(sim.TimeOf(tick)) }

// tickOfClock is the tick at which the clock next shows a time such as 1042 or
// 1042Z.
func (t *Table) tickOfClock(text string) (int64, bool) {
	at, err := time.Parse("1504", strings.TrimSuffix(strings.ToUpper(strings.TrimSpace(text)), "Z"))
	if err != nil {
		return 0, false
	}
	now := t.clockAt(t.moment.View.Tick)
	ahead := time.Duration(at.Hour()*60+at.Minute())*time.Minute - now.Sub(now.Truncate(24*time.Hour))
	if ahead < 0 {
		ahead += 24 * time.Hour
	}
	return t.moment.View.Tick + sim.TicksOf(ahead), true
}

// tapped takes a place on the chart while one is asked for.
func (b *breakage) tapped(at units.Position) bool {
	if !b.on || b.entry == nil || b.timing != atPlace {
		return false
	}
	b.order.Trigger.Place, b.placed = at, -1
	b.show()
	return true
}

// nextShape goes round the ways in which the fault may come on.
func (b *breakage) nextShape() {
	at := 0
	for i, s := range b.entry.Shapes {
		if s == b.order.Shape {
			at = i
		}
	}
	b.order.Shape = b.entry.Shapes[(at+1)%len(b.entry.Shapes)]
	if b.order.Shape == fault.Ramp && !b.entry.CanRamp() {
		b.nextShape()
		return
	}
	b.foresee()
	b.show()
}

// press breaks the link.
func (b *breakage) press() {
	o := b.order
	o.At = b.table.moment.View.Tick
	if b.timing == atTime {
		o.At = max(o.At, b.due)
	}
	b.shape(&o)
	o.Params = append([]float64(nil), o.Params...)
	b.table.helm.Break(o)
	b.table.ToggleBreakage() // the dials are what is to be watched
}

// shape gives the order the times of its shape.
func (b *breakage) shape(o *fault.Order) {
	switch o.Shape {
	case fault.Ramp:
		o.RampTicks = sim.TicksOf(rampFor)
	case fault.Intermittent:
		o.On, o.Off = sim.TicksOf(onFor), sim.TicksOf(offFor)
	}
}

// timingWords say when it is to come.
func (b *breakage) timingWords() string {
	switch b.timing {
	case atTime:
		return look.Textf(look.BreakSoon, units.TimeText(b.table.clockAt(b.due)))
	case atSignal:
		return look.Text(look.BreakSignal)
	case atPlace:
		return look.Textf(look.BreakPlace, b.milesText(), b.placeText())
	}
	return look.Text(look.BreakNow)
}

// shapeWords say how it comes on.
func (b *breakage) shapeWords() string {
	switch b.order.Shape {
	case fault.Ramp:
		return look.Text(look.BreakRamp)
	case fault.Intermittent:
		return look.Text(look.BreakIntermittent)
	}
	return look.Text(look.BreakStep)
}

// paramRow is one figure of a fault: less, the value, more.
type paramRow struct {
	of          *breakage
	at          int
	minus, plus *kit.Key
	value       *kit.Key
}

func newParamRow(b *breakage, at int) *paramRow {
	p := &paramRow{of: b, at: at}
	screen := b.table.screen
	p.minus = kit.NewKey(screen, "", kit.MinusSign, kit.Target, func() { p.turn(-1) })
	p.plus = kit.NewKey(screen, "", kit.PlusSign, kit.Target, func() { p.turn(1) })
	p.value = kit.NewKey(screen, "", kit.NoSign, 104, screen.AfterLetter(p.ask))
	return p
}

// param is the parameter, nil if the fault has not so many.
func (p *paramRow) param() *fault.Param {
	if e := p.of.entry; e != nil && p.at < len(e.Params) {
		return &e.Params[p.at]
	}
	return nil
}

// turn goes a twentieth of the range, or a choice, up or down.
func (p *paramRow) turn(by float64) {
	q := p.param()
	v := p.of.order.Params[p.at]
	if q.Type == fault.Choice || q.Type == fault.Bool { // round and round
		n := q.Max - q.Min + 1
		p.set(q.Min + math.Mod(v-q.Min+by+n, n))
		return
	}
	if q.Type == fault.Number {
		step := picture.NiceStep((q.Max - q.Min) / 20)
		v = float64(int64((v+by*step)/step+0.5*sign(v+by*step))) * step
	} else {
		v += by
	}
	p.set(max(q.Min, min(q.Max, v)))
}

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}

func (p *paramRow) set(v float64) {
	p.of.order.Params[p.at] = v
	p.of.foresee()
	p.of.show()
}

// ask has the value typed.
func (p *paramRow) ask() {
	q := p.param()
	if q == nil || q.Type != fault.Number && q.Type != fault.Integer {
		return
	}
	t := p.of.table
	kit.Ask(t.canvas(), t.screen, paramName(q), look.Textf(look.BreakRange, q.Range()), q.Format(p.of.order.Params[p.at]),
		func(text string) error {
			v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
			if err != nil {
				return errors.New(look.Text(look.BreakNumber))
			}
			if err := q.Check(v); err != nil {
				return err
			}
			p.set(v)
			return nil
		})
}

// paramName is the parameter's name without its unit, in words.
func paramName(q *fault.Param) string {
	name := q.Name
	for _, unit := range []string{"_deg_min", "_deg_h", "_deg_s", "_deg", "_nm", "_kt", "_min", "_mm", "_s", "_k"} {
		if cut, ok := strings.CutSuffix(name, unit); ok {
			name = cut
			break
		}
	}
	return strings.ReplaceAll(name, "_", " ")
}

// paramValue is the value with its unit.
func paramValue(q *fault.Param, v float64) string {
	text := strings.Trim(q.Format(v), `"`)
	if q.Unit != "" {
		text += " " + q.Unit
	}
	return text
}
