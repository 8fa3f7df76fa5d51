package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/kit"
)

// screenOfItsOwn is the screen of a further window: in the colours of this one and as its
// user has chosen, with keys of its own.
func (w *Window) screenOfItsOwn(width, height float32, keys func(*fyne.KeyEvent)) *kit.Screen {
	s := &kit.Screen{
		Palette: w.screen.Palette, W: width, H: height, LargerText: w.screen.LargerText, ReducedMotion: w.screen.ReducedMotion,
		OnMain: w.screen.OnMain, Keys: keys,
	}
	s.Hints = kit.NewHints(s)
	return s
}

// furnish puts content and slips into a further window, as large as its screen says.
func furnish(window fyne.Window, s *kit.Screen, content fyne.CanvasObject, closed func()) {
	window.SetPadded(false)
	window.SetContent(container.NewStack(content, container.NewWithoutLayout(s.Hints)))
	window.Canvas().SetOnTypedKey(s.Keys)
	window.SetOnClosed(closed)
	window.Resize(fyne.NewSize(s.W, s.H))
}
