package charttable

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/sim"
)

// Deeds are what the keyboard does on this view while no control wants the key.
func (t *Table) Deeds() []kit.Deed {
	clock := []kit.Deed{
		kit.On(fyne.KeySpace, "Space", look.DoPlay, t.playOrPause),
		kit.On(fyne.KeyRight, "\u2192", look.DoStep, func() { t.helm.Step(1) }),
		kit.On(fyne.KeyLeft, "\u2190", look.DoStepBack, func() { t.helm.Step(-sim.TicksPerSecond) }),
		kit.On(fyne.KeyHome, "Home", look.DoRestart, func() { t.helm.GoTo(0) }),
		kit.On(fyne.KeyUp, "\u2191", look.DoFaster, func() { t.helm.ChangeRate(1) }),
		kit.On(fyne.KeyDown, "\u2193", look.DoSlower, func() { t.helm.ChangeRate(-1) }),
	}
	chart := []kit.Deed{
		kit.On(fyne.KeyPlus, "+", look.DoZoomIn, func() { t.chart.zoom(zoomStep) }).Also(fyne.KeyEqual),
		kit.On(fyne.KeyMinus, "\u2212", look.DoZoomOut, func() { t.chart.zoom(1 / zoomStep) }),
		kit.On(fyne.Key0, "0", look.DoFit, t.chart.fit),
		kit.On(fyne.KeyF, "F", look.DoFollow, t.chart.toggleFollow),
	}
	setters := []kit.Deed{
		kit.On(fyne.KeyW, "W", look.DoWind, t.screen.AfterLetter(t.wind.askValue)),
		kit.On(fyne.KeyM, "M", look.DoVariation, t.screen.AfterLetter(t.variation.askValue)),
		kit.On(fyne.KeyS, "S", look.DoCounters, t.AskCounters),
	}
	return slices.Concat(clock, chart, setters, t.lectureDeeds())
}

// lectureDeeds are those for an audience.
func (t *Table) lectureDeeds() []kit.Deed {
	return []kit.Deed{
		kit.On(fyne.KeyPageDown, "Page Down", look.DoNext, t.NextMoment),
		kit.On(fyne.KeyPageUp, "Page Up", look.DoPrevious, t.PreviousMoment),
		{Keys: digits, Label: "1 to 9", Does: look.DoMoment, Do: func(k fyne.KeyName) { t.GoToMoment(int(k[0] - '0')) }},
		kit.On(fyne.KeyK, "K", look.DoNameMoment, t.screen.AfterLetter(t.NameMoment)),
		kit.On(fyne.KeyC, "C", look.DoCloud, func() {
			laid, _ := t.Cloud()
			t.LayCloud(!laid)
		}),
		kit.On(fyne.KeyX, "X", look.DoBreakCloud, t.BreakCloud),
		kit.On(fyne.KeyP, "P", look.DoPins, func() { t.PinMode(!t.PinsOn()) }),
		kit.On(fyne.KeyU, "U", look.DoBreak, t.ToggleBreakage),
		kit.On(fyne.KeyJ, "J", look.DoTwin, t.ToggleTwin),
		kit.On(fyne.KeyF7, "F7", look.DoCurves, t.ToggleStarCurves),
		kit.On(fyne.KeyF8, "F8", look.DoLattice, t.ToggleLattice),
		{Keys: toolKeys, Label: "F4 F5 F6", Does: look.DoPlot, Do: func(k fyne.KeyName) { t.layTool(tool(slices.Index(toolKeys, k))) }},
		kit.On(fyne.KeyI, "I", look.DoHidePlan, func() { t.HidePlan(!t.screen.HidePlan) }),
		kit.On(fyne.KeyG, "G", look.DoSave, t.screen.AfterLetter(t.SaveChart)),
	}
}

// digits are the keys of the named moments.
var digits = []fyne.KeyName{
	fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9,
}

// toolKeys are the keys of rule, protractor and dividers.
var toolKeys = []fyne.KeyName{fyne.KeyF4, fyne.KeyF5, fyne.KeyF6}
