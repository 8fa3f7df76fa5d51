package charttable

import (
	"image/color"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// cover is the key that sets the counters, under its hatched cover. With the
// mouse or a finger: touch it, then hold it. With the keyboard: Enter, let go,
// then hold Enter.
type cover struct {
	kit.Control
	panel  *counterPanel
	guard  guard
	reason string // why the counters cannot be set now, "" if they can
	anim   *fyne.Animation
}

func newCover(p *counterPanel) *cover {
	c := &cover{panel: p}
	c.Begin(c, p.table.screen, fyne.NewSize(200, coverTall), c.paint, c.rested, c.Spoken)
	return c
}

// coverTall is its height: a target with a strip above for the lid that is up.
const coverTall = kit.Target + 8

func (c *cover) now() time.Time { return c.panel.table.air.clock() }

// forbid says why the counters cannot be set; "" allows it. A cover that is up
// falls when there is a reason.
func (c *cover) forbid(reason string) {
	if c.reason == reason {
		return
	}
	c.reason = reason
	if reason != "" {
		c.shut()
	}
	c.Repaint()
}

// touch is a hand or Enter coming down.
func (c *cover) touch() {
	if c.reason != "" {
		c.Tell(c.Spoken())
		return
	}
	c.Hush()
	c.guard.touch(c.now())
	c.run()
	c.Repaint()
}

func (c *cover) letGo() {
	c.guard.letGo()
	c.Repaint()
}

// shut lets the cover fall.
func (c *cover) shut() {
	c.guard.shut()
	c.stop()
	c.Repaint()
}

// run keeps time while the cover is up.
func (c *cover) run() {
	if c.anim == nil {
		c.anim = fyne.NewAnimation(time.Hour, func(float32) { c.step() })
		c.anim.Curve = fyne.AnimationLinear
		c.anim.Start()
	}
}

func (c *cover) stop() {
	if c.anim != nil {
		c.anim.Stop()
		c.anim = nil
	}
}

// step brings the guard up to the clock, once a frame while the cover is up.
func (c *cover) step() {
	now := c.now()
	if c.guard.at(now) {
		c.panel.set()
	}
	if !c.guard.open() {
		c.shut()
		return
	}
	width := float64(c.Size().Width)
	c.Update(coverKey{int(c.guard.held(now) * 90), int(c.guard.left(now) * width / 2), c.Palette()})
}

type coverKey struct {
	held, left int
	p          *look.Palette
}

func (c *cover) paint(d *paint.Raster, w, h float64, z look.Size) {
	p, u := c.Palette(), partOf(z)
	b := picture.NewBrush(d, p, z)
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), p.Card)
	body := paint.R(0, 0, w, h).Inset(4 * u)
	switch {
	case c.reason != "":
		c.paintLid(b, body, z, look.Text(look.CoverLift), p.Ink2)
	case !c.guard.open():
		c.paintLid(b, body, z, look.Text(look.CoverLift), p.Ink)
	default:
		c.paintKey(b, body, z)
	}
	c.Ring(d, w, h, z)
}

// paintLid draws the cover down, its words on a plate, for hatching is no ground
// for letters. A cover that must not be lifted has no brass.
func (c *cover) paintLid(b *picture.Brush, body paint.Rect, z look.Size, words string, ink color.NRGBA) {
	var p paint.Path
	if c.reason == "" {
		picture.Cover(b, body)
	} else {
		b.Fill(p.RoundRect(body, look.PlateRadius*z.Symbol()), b.C.Low)
		b.Stroke(&p, paint.Pen{Width: z.Hair()}, b.C.Line)
	}
	text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody), Anchor: paint.Middle}
	m, width := body.Centre(), text.Font.Width(words, text.Size)
	plate := paint.R(m.X-width/2-14*partOf(z), m.Y-0.95*text.Size, width+28*partOf(z), 1.9*text.Size)
	b.Fill(p.Reset().RoundRect(plate, look.SmallRadius*z.Symbol()), b.C.Card)
	b.Stroke(&p, paint.Pen{Width: z.Hair()}, b.C.Line)
	b.Text(m.X, m.Y+0.35*text.Size, words, text, ink)
}

// paintKey draws the cover up, seen on its edge, and the key under it.
func (c *cover) paintKey(b *picture.Brush, body paint.Rect, z look.Size) {
	u, now := partOf(z), c.now()
	lid := paint.R(body.X, body.Y, body.W, 7*u)
	picture.Cover(b, lid)
	key := paint.R(body.X+6*u, body.Y+9*u, body.W-12*u, body.H-13*u)
	var p paint.Path
	b.Fill(p.RoundRect(key, look.PlateRadius*z.Symbol()), b.C.BrassHi)
	b.Stroke(&p, paint.Pen{Width: 1.5 * u}, b.C.BrassLo)
	left := paint.R(body.X+6*u, body.Bottom()-2.5*u, (body.W-12*u)*c.guard.left(now), 2.5*u)
	b.Fill(p.Reset().Rect(left), b.C.BrassLo)
	m := key.Centre()
	r := math.Min(0.36*key.H, 15*u)
	words, hold := look.Text(look.CoverSet), look.Text(look.CoverHold)
	text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	width := max(text.Font.Width(words, text.Size), small.Font.Width(hold, small.Size))
	x := m.X - (width+2*r+12*u)/2
	picture.HoldRing(b, x+r, m.Y, r, c.guard.held(now))
	x += 2*r + 12*u
	b.Text(x, m.Y-0.12*text.Size, words, text, b.C.OnBrass)
	b.Text(x, m.Y+1.02*small.Size, hold, small, b.C.OnBrass)
}

// Spoken is what the key is called, and why it cannot be used.
func (c *cover) Spoken() string {
	switch {
	case c.reason != "":
		return look.Text(look.CoverLift) + ": " + c.reason
	case c.guard.open():
		return look.Text(look.CoverSet) + ". " + look.Text(look.CoverHold)
	}
	return look.Text(look.CoverHint)
}

// MouseDown lifts the cover, or begins to press.
func (c *cover) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		c.touch()
	}
}

// MouseUp lets go.
func (c *cover) MouseUp(*desktop.MouseEvent) { c.letGo() }

// rested is what a pointer is told; nothing while the cover is up.
func (c *cover) rested() string {
	if c.guard.open() {
		return ""
	}
	return c.Spoken()
}

// MouseOut lets go: who slips off the key has not held it.
func (c *cover) MouseOut() {
	c.letGo()
	c.Control.MouseOut()
}

// Tapped does nothing: a touch has been dealt with as it came down and went up.
// It is here so that the toolkit sends both to the same widget.
func (c *cover) Tapped(*fyne.PointEvent) {}

// Cursor is part of the toolkit's contract.
func (c *cover) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusLost lets go.
func (c *cover) FocusLost() {
	c.letGo()
	c.Control.FocusLost()
}

// KeyDown is Enter or the space bar going down; a keyboard that repeats a key
// held down does not repeat this.
func (c *cover) KeyDown(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		c.touch()
	}
}

// KeyUp is the key going up.
func (c *cover) KeyUp(e *fyne.KeyEvent) {
	if kit.Presses(e) {
		c.letGo()
	}
}

// TypedKey leaves Enter to KeyDown, for this one is repeated.
func (c *cover) TypedKey(e *fyne.KeyEvent) {
	if !kit.Presses(e) {
		c.panel.passOn(e)
	}
}
