package charttable

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/atlas"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// readPlate is one of the two readings: the ink of its curve, its name, and what was
// read, which is typed or changed by keys and wheel.
type readPlate struct {
	kit.Control
	curves *curves
	index  int
	minus  *kit.Key
	plus   *kit.Key
}

func newReadPlate(c *curves, i int) *readPlate {
	p := &readPlate{curves: c, index: i}
	screen := c.table.screen
	hint := look.Text(look.ReadHow)
	p.Begin(p, screen, fyne.NewSize(160, kit.Target), p.paint,
		func() string { return hint }, func() string { return p.Spoken() + ".\n" + hint })
	p.minus = kit.NewSignKey(screen, kit.MinusSign, look.ReadHow, func() { p.turn(-1) })
	p.plus = kit.NewSignKey(screen, kit.PlusSign, look.ReadHow, func() { p.turn(1) })
	p.minus.Repeats, p.plus.Repeats = true, true
	return p
}

// tenthOf rounds to what is printed.
func tenthOf(v float64) float64 { return math.Round(v*10) / 10 }

// text is a reading as it is written.
func (c *curves) text(r overlay.Read) string {
	switch {
	case !r.Known:
		return look.Text(look.ReadNone)
	case c.kind == pulseLattice:
		return atlas.DelayText(r.Value)
	}
	return atlas.AltitudeText(r.Value, false)
}

// limits are what can be read: altitudes in minutes, or what the pair gives in us.
func (c *curves) limits(i int) (low, high float64) {
	if c.kind != pulseLattice {
		return 5 * 60, 88 * 60
	}
	a, b := overlay.LatticeOrder{Master: c.chain[0].At, A: c.chain[1].At, B: c.chain[2].At}.Pairs()[i].Range()
	return a.Microseconds(), b.Microseconds()
}

// turn changes the reading by so many tenths; one that is not there yet begins with
// what would be read at the ground position shown.
func (p *readPlate) turn(tenths int) {
	c := p.curves
	if c.name(p.index) == "" {
		return
	}
	r := c.reads()[p.index]
	if !r.Known {
		r = overlay.ReadAt(tenthOf(c.expected(p.index)))
	} else {
		r.Value = tenthOf(r.Value + float64(tenths)/10)
	}
	low, high := c.limits(p.index)
	r.Value = math.Max(low, math.Min(high, r.Value))
	c.setRead(p.index, r)
}

// expected is what would be read at the ground position shown.
func (c *curves) expected(i int) float64 {
	at := units.Position(c.table.moment.View.Ground)
	if c.kind != pulseLattice {
		return c.known().Altitude(c.pair[i], at)
	}
	return overlay.LatticeOrder{Master: c.chain[0].At, A: c.chain[1].At, B: c.chain[2].At}.Pairs()[i].At(at).Microseconds()
}

// parse reads what is typed; nothing takes the reading away.
func (c *curves) parse(i int, typed string) (overlay.Read, error) {
	fields := strings.Fields(strings.NewReplacer("°", " ", "′", " ", "'", " ", ",", ".").Replace(typed))
	if len(fields) == 0 {
		return overlay.Read{}, nil
	}
	low, high := c.limits(i)
	v, err := 0.0, error(nil)
	wrong := errors.New(look.Text(look.AltitudeWrong))
	switch {
	case c.kind == pulseLattice:
		wrong = errors.New(look.Textf(look.DelayWrong, units.Figure(low, 1), units.Figure(high, 1)))
		v, err = strconv.ParseFloat(strings.Join(fields, ""), 64)
	case len(fields) > 2:
		return overlay.Read{}, wrong
	default:
		v, err = minutesOf(fields)
	}
	if err != nil || !(v >= low && v <= high) {
		return overlay.Read{}, wrong
	}
	return overlay.ReadAt(tenthOf(v)), nil
}

// minutesOf reads degrees and minutes of arc.
func minutesOf(fields []string) (float64, error) {
	d, err := strconv.ParseFloat(fields[0], 64)
	if err != nil || len(fields) == 1 {
		return d * 60, err
	}
	m, err := strconv.ParseFloat(fields[1], 64)
	if err == nil && (d != math.Trunc(d) || !(m >= 0 && m < 60)) {
		err = errors.New(fields[1])
	}
	return d*60 + m, err
}

// ask opens the card on which the reading is typed.
func (p *readPlate) ask() {
	c := p.curves
	name := c.name(p.index)
	if name == "" {
		return
	}
	title, hint := look.Textf(look.AskAltitude, name), look.Text(look.AltitudeHint)
	if c.kind == pulseLattice {
		title, hint = look.Textf(look.AskDelay, name), look.Text(look.DelayHint)
	}
	now := ""
	if r := c.reads()[p.index]; r.Known {
		now = strings.TrimSpace(strings.NewReplacer("°", " ", "′", "").Replace(c.text(r)))
	}
	kit.Ask(c.table.canvas(), c.table.screen, title, hint, now, func(typed string) error {
		r, err := c.parse(p.index, typed)
		if err == nil {
			c.setRead(p.index, r)
		}
		return err
	})
}

// plateKey is what the plate shows.
type plateKey struct {
	name, text string
	known      bool
	p          *look.Palette
	larger     bool
}

func (p *readPlate) show() {
	c := p.curves
	r := c.reads()[p.index]
	p.Update(plateKey{c.name(p.index), c.text(r), r.Known, p.Palette(), c.table.screen.LargerText})
}

func (p *readPlate) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := p.Palette(), z.Device
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	b := picture.NewBrush(d, c, z)
	name := p.curves.name(p.index)
	value := paint.R(w-4*u-0.46*w, 6*u, 0.46*w, h-12*u)
	left, room := 4*u, value.X-10*u
	b.InkSample(p.index, paint.Pt(left, h/2), paint.Pt(room, h/2))
	if name != "" {
		small := paint.Type{Font: look.Engraved.Font(), Size: z.Figure(14.5)}
		b.InkPlate(p.index, paint.Pt((left+room)/2, h/2), small.Shorten(name, room-left-26*u))
	}
	p.paintValue(d, value, z)
	p.Ring(d, w, h, z)
}

// paintValue writes what was read on a slate plate.
func (p *readPlate) paintValue(d *paint.Raster, q paint.Rect, z look.Size) {
	c, r := p.Palette(), p.curves.reads()[p.index]
	var path paint.Path
	path.RoundRect(q, look.PlateRadius*z.Device)
	if !r.Known {
		d.Fill(&path, c.Low)
		d.Stroke(&path, paint.Pen{Width: 1.5 * z.Device, Dash: []float64{5 * z.Device, 4 * z.Device}}, c.Ink2)
		text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody), Anchor: paint.Middle}
		d.Text(q.Centre().X, q.Centre().Y+0.35*text.Size, p.curves.text(r), text, c.Ink2)
		return
	}
	d.Fill(&path, c.Slate)
	d.Stroke(&path, paint.Pen{Width: 1.5 * z.Device}, c.Housing)
	text := paint.Type{Font: look.Engraved.Font(), Size: min(0.6*q.H, max(22*z.Device, z.Px(look.TextHeading))), Anchor: paint.Middle}
	words := p.curves.text(r)
	if wide := text.Font.Width(words, text.Size); wide > q.W-10*z.Device {
		text.Size *= (q.W - 10*z.Device) / wide
	}
	d.Text(q.Centre().X, q.Centre().Y+0.35*text.Size, words, text, c.OnSlate)
}

// Spoken is what the plate says.
func (p *readPlate) Spoken() string {
	return look.Textf(look.ReadSpoken, p.curves.name(p.index), p.curves.text(p.curves.reads()[p.index]))
}

// Tapped opens the card on which it is typed.
func (p *readPlate) Tapped(*fyne.PointEvent) { p.ask() }

// Cursor is part of the toolkit's contract.
func (p *readPlate) Cursor() desktop.Cursor { return desktop.PointerCursor }

// Scrolled changes it by a tenth.
func (p *readPlate) Scrolled(e *fyne.ScrollEvent) {
	p.turn(int(math.Copysign(1, float64(e.Scrolled.DY))))
}

// coarse is by how many tenths Page Up and Page Down change it: ten minutes, or ten
// microseconds.
const coarse = 100

// TypedKey changes the reading, or opens the card.
func (p *readPlate) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp:
		p.turn(1)
	case fyne.KeyDown:
		p.turn(-1)
	case fyne.KeyPageUp:
		p.turn(coarse)
	case fyne.KeyPageDown:
		p.turn(-coarse)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.ask()
	default:
		p.PassOn(e)
	}
}
