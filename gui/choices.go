package gui

import (
	"stillair/gui/kit"
	"stillair/gui/look"
)

// The names under which the choices of the user are kept.
const (
	keepLight  = "light"
	keepLarger = "larger_text"
	keepStill  = "reduced_motion"
)

// recallChoices takes up what was chosen the last time.
func (w *Window) recallChoices() {
	kept := w.app.Preferences()
	w.screen.Palette = look.Of(look.Paper)
	for _, v := range []look.Variant{look.Night, look.Lamp} {
		if kept.String(keepLight) == v.String() {
			w.screen.Palette = look.Of(v)
		}
	}
	w.screen.LargerText = kept.Bool(keepLarger)
	w.screen.ReducedMotion = kept.Bool(keepStill)
}

// choose changes what the user has asked for, keeps it and shows it.
func (w *Window) choose(change func(*kit.Screen)) {
	change(&w.screen)
	kept := w.app.Preferences()
	kept.SetString(keepLight, w.screen.Palette.Variant.String())
	kept.SetBool(keepLarger, w.screen.LargerText)
	kept.SetBool(keepStill, w.screen.ReducedMotion)
	w.repaint()
}

// nextLight goes from paper to night, to the lamp and back.
func (w *Window) nextLight() {
	w.choose(func(s *kit.Screen) {
		s.Palette = look.Of(s.Palette.Variant.Next())
		w.app.Settings().SetTheme(themeOf(s.Palette))
	})
}
