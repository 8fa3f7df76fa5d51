package kit

import (
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Hints is a slip of paper that lies over the window and says what the control
// under the pointer, or with the focus, is and why it cannot be used. It takes
// no events itself.
type Hints struct {
	Painted
	lines  []string
	owner  fyne.CanvasObject
	unwait func() // stops the waiting for a pointer to rest
}

// hintAfter is how long a pointer rests before the slip comes.
const hintAfter = 500 * time.Millisecond

// hintFor is how long a slip stays that nobody asked for.
const hintFor = 6 * time.Second

// hintWidth is the widest line of the slip, units.
const hintWidth = 330

// NewHints makes the slip of a window; put it above all else.
func NewHints(screen *Screen) *Hints {
	h := &Hints{}
	h.Extend(h, screen, fyne.NewSize(1, 1), h.paint)
	h.Hide()
	return h
}

// Rest shows words about a control when the pointer has rested on it.
func (h *Hints) Rest(owner fyne.CanvasObject, words string) {
	if h == nil || words == "" {
		return
	}
	h.stop()
	h.owner = owner
	h.unwait = h.screen.After(hintAfter, func() {
		if h.owner == owner {
			h.Tell(owner, words)
			h.unwait = h.screen.After(hintFor, func() { h.Leave(owner) })
		}
	})
}

// Tell shows words about a control at once.
func (h *Hints) Tell(owner fyne.CanvasObject, words string) {
	if h == nil || words == "" {
		return
	}
	h.stop()
	h.owner = owner
	text := h.font(1)
	h.lines = text.Wrap(words, hintWidth)
	h.place(text)
	h.Show()
	h.Repaint()
}

// Leave takes the slip away if it still speaks of this control.
func (h *Hints) Leave(owner fyne.CanvasObject) {
	if h == nil || h.owner != owner {
		return
	}
	h.stop()
	h.owner = nil
	h.Hide()
}

// Clear takes the slip away, whatever it speaks of.
func (h *Hints) Clear() {
	if h != nil {
		h.Leave(h.owner)
	}
}

func (h *Hints) stop() {
	if h.unwait != nil {
		h.unwait()
	}
}

func (h *Hints) font(device float64) paint.Type {
	return paint.Type{Font: look.Regular.Font(), Size: h.screen.Size(device).Text(look.TextSmall)}
}

// place puts the slip under its owner, or above where there is no room.
func (h *Hints) place(text paint.Type) {
	width := 0.0
	for _, l := range h.lines {
		width = max(width, text.Font.Width(l, text.Size))
	}
	w, tall := float32(width)+24, float32(float64(len(h.lines))*1.35*text.Size)+16
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(h.owner)
	size := h.owner.Size()
	x := at.X + size.Width/2 - w/2
	y := at.Y + size.Height + 4
	if y+tall > h.screen.H {
		y = at.Y - tall - 4
	}
	x, y = max(4, min(x, h.screen.W-w-4)), max(4, y)
	h.Move(fyne.NewPos(float32(int(x)), float32(int(y))))
	h.Resize(fyne.NewSize(float32(int(w)), float32(int(tall))))
}

func (h *Hints) paint(d *paint.Raster, w, tall float64, z look.Size) {
	c := h.Palette()
	d.Fill(new(paint.Path).Rect(paint.R(0, 0, w, tall)), c.Slate)
	d.Stroke(new(paint.Path).Rect(paint.R(0.5, 0.5, w-1, tall-1)), paint.Pen{Width: z.Hair()}, c.SlateHi)
	text := h.font(z.Device)
	for i, l := range h.lines {
		d.Text(12*z.Device, 8*z.Device+(float64(i)*1.35+1)*text.Size, l, text, c.OnSlate)
	}
}
