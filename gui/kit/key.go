package kit

import (
	"image/color"

	"fyne.io/fyne/v2"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Target is the least size of anything that is pressed, in units.
const Target = 56

// Key is a push button: a word, a sign, or both.
type Key struct {
	Control
	Word   string
	Under  string // a second line: the key then opens a list, and shows an arrow
	Plain  bool   // no arrow beside the second line
	Sign   Sign
	Chosen bool   // pressed in: the state it stands for holds
	Main   bool   // the one main button of the screen
	Reason string // why it cannot be pressed now; "" if it can
	Hint   string // what it does, in words; for keys that show a sign alone
	Press  func()
	// Repeats makes the key act as the hand comes down, and on while it stays.
	Repeats bool

	down bool
	stop func() // the repeat
}

// NewKey makes a key at least as wide as asked, in units.
func NewKey(screen *Screen, word string, sign Sign, width float32, press func()) *Key {
	k := &Key{Word: word, Sign: sign, Press: press}
	k.Begin(k, screen, fyne.NewSize(width, Target), k.paint, k.hint, k.hint)
	return k
}

// NewSignKey makes a square key that shows a sign and says its words as a hint.
func NewSignKey(screen *Screen, sign Sign, hint look.Key, press func()) *Key {
	k := NewKey(screen, "", sign, Target, press)
	k.Hint = look.Text(hint)
	return k
}

// Set changes what the key says and whether it is pressed in.
func (k *Key) Set(word string, sign Sign, chosen bool) {
	if k.Word == word && k.Sign == sign && k.Chosen == chosen {
		return
	}
	k.Word, k.Sign, k.Chosen = word, sign, chosen
	k.Repaint()
}

// Forbid says why the key cannot be pressed; "" allows it.
func (k *Key) Forbid(reason string) {
	if k.Reason != reason {
		k.Reason = reason
		k.Repaint()
	}
}

// ring is the room kept round the body for the focus ring, units.
const ring = 3

func (k *Key) paint(s *paint.Raster, w, h float64, z look.Size) {
	c, scale := k.Palette(), z.Device
	s.Fill(new(paint.Path).Rect(paint.R(0, 0, w, h)), c.Card)
	var p paint.Path
	body := paint.R(0, 0, w, h).Inset(ring * scale)
	p.RoundRect(body, 8*scale)
	fill, edge, ink := c.Card, c.SlateHi, c.Ink
	switch {
	case k.Reason != "":
		edge, ink = c.Line, c.Ink2
	case k.Chosen:
		fill, edge, ink = c.Slate, c.Slate, c.OnSlate
	case k.Main:
		fill, edge, ink = c.BrassHi, c.BrassLo, c.OnBrass
	case k.Hover:
		fill = c.Low
	}
	s.Fill(&p, fill)
	s.Stroke(&p, paint.Pen{Width: 1.5 * scale}, edge)
	if k.Chosen {
		p.Reset().RoundRect(paint.R(body.X+12*scale, body.Bottom()-7*scale, body.W-24*scale, 3*scale), 1.5*scale)
		s.Fill(&p, c.BrassHi)
	}
	k.Ring(s, w, h, z)
	if k.Under != "" {
		k.lines(s, body, z, ink)
		return
	}
	k.label(s, body, z, ink)
}

// lines writes the two lines of a key that opens a list, and its arrow.
func (k *Key) lines(s *paint.Raster, body paint.Rect, z look.Size, ink color.NRGBA) {
	u := z.Device
	room := body.W - 52*u
	if k.Plain {
		room = body.W - 20*u
	}
	under := k.Palette().Ink2
	if k.Chosen || k.Main && k.Reason == "" {
		under = ink
	}
	word := paint.Type{Font: look.Semibold.Font(), Size: min(z.Text(look.TextBody), 19*u)}
	s.Text(body.X+12*u, body.Y+20*u, word.Shorten(k.Word, room), word, ink)
	small := paint.Type{Font: look.Regular.Font(), Size: min(z.Text(look.TextSmall), 17*u)}
	s.Text(body.X+12*u, body.Y+38*u, small.Shorten(k.Under, room), small, under)
	if k.Plain {
		return
	}
	var p paint.Path
	x, y := body.Right()-22*u, body.Y+body.H/2
	p.MoveTo(x-8*u, y-4*u).LineTo(x, y+4*u).LineTo(x+8*u, y-4*u)
	s.Stroke(&p, paint.Pen{Width: 2.4 * u, Cap: paint.Round}, ink)
}

func (k *Key) label(s *paint.Raster, body paint.Rect, z look.Size, ink color.NRGBA) {
	m := body.Centre()
	signSize, gap := 20*z.Device, 10*z.Device
	text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody), Anchor: paint.Middle}
	width := 0.0
	if k.Word != "" {
		width = text.Font.Width(k.Word, text.Size)
	}
	x := m.X
	if k.Sign != NoSign {
		at := m.X
		if k.Word != "" {
			at = m.X - (width+gap)/2
			x = at + signSize/2 + gap + width/2
		}
		DrawSign(s, k.Sign, at, m.Y, signSize, ink)
	}
	if k.Word != "" {
		s.Text(x, m.Y+0.35*text.Size, k.Word, text, ink)
	}
}

// Tapped is part of the toolkit's contract.
func (k *Key) Tapped(*fyne.PointEvent) {
	if !k.Repeats { // which was pressed as the hand came down
		k.press()
	}
}

func (k *Key) press() {
	if k.Reason != "" {
		k.Tell(k.Spoken())
		return
	}
	k.Hush()
	if k.Press != nil {
		k.Press()
	}
}

// Spoken is what the key is called, and why it cannot be pressed.
func (k *Key) Spoken() string {
	words := k.Hint
	if words == "" {
		words = k.Word
	}
	if k.Reason != "" {
		words += ": " + k.Reason
	}
	return words
}

// hint is what the key says of itself unasked: nothing where its word says it.
func (k *Key) hint() string {
	if k.Hint == "" && k.Reason == "" {
		return ""
	}
	return k.Spoken()
}

// MouseOut is part of the toolkit's contract.
func (k *Key) MouseOut() {
	k.letGo()
	k.Control.MouseOut()
}

// TypedKey presses the key with Enter or the space bar.
func (k *Key) TypedKey(e *fyne.KeyEvent) {
	if Presses(e) {
		k.press()
		return
	}
	k.PassOn(e)
}

// Needs is the width that the key's word and sign need, units.
func (k *Key) Needs() float32 {
	const aside = 13 // left and right of it
	word := float32(look.Semibold.Font().Width(k.Word, k.screen.Size(1).Text(look.TextBody)))
	if k.Sign != NoSign {
		word += 30
	}
	return max(Target, Whole(word)+2*aside)
}
