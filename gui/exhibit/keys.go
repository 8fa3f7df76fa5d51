package exhibit

import (
	"fyne.io/fyne/v2"

	"stillair/gui/exhibit/conduct"
)

// pair is a knob of the desk: two keys, one for each way. A rotary encoder that sends
// them, one key for each click, works as one does; the faster it is turned the more a
// click counts.
type pair struct {
	dial       conduct.Dial
	less, more fyne.KeyName
}

var pairs = []pair{
	{conduct.Heading, fyne.KeyLeft, fyne.KeyRight},
	{conduct.Speed, fyne.KeyDown, fyne.KeyUp},
	{conduct.WindFrom, fyne.KeyF, fyne.KeyG},
	{conduct.WindSpeed, fyne.KeyPageDown, fyne.KeyPageUp},
}

// press is a key that does one thing.
type press struct {
	key  fyne.KeyName
	does string
	do   func(*View)
}

// presses are the keys of all that is no knob: in pairs, where there are two ways.
var presses = []press{
	{fyne.KeyB, "break something", func(v *View) { v.toggle(conduct.BreakKey, !v.broken()) }},
	{fyne.KeyM, "mend it", func(v *View) { v.toggle(conduct.BreakKey, v.broken()) }},
	{fyne.KeyI, "look inside", func(v *View) { v.toggle(conduct.InsideKey, !v.machine.Inside()) }},
	{fyne.KeyO, "back to the chart", func(v *View) { v.toggle(conduct.InsideKey, v.machine.Inside()) }},
	{fyne.KeyL, "land in cloud", func(v *View) { v.machine.Touch(conduct.LandKey) }},
	{fyne.KeyR, "start again", func(v *View) { v.machine.Touch(conduct.AgainKey) }},
	{fyne.KeyN, "next language", func(v *View) { v.nextLanguage(1) }},
	{fyne.KeyP, "previous language", func(v *View) { v.nextLanguage(-1) }},
	{fyne.KeyA, "larger text", func(v *View) { v.toggle(conduct.LargerKey, !v.machine.Larger()) }},
	{fyne.KeyS, "smaller text", func(v *View) { v.toggle(conduct.LargerKey, v.machine.Larger()) }},
	{fyne.KeyReturn, "start", func(v *View) {}},
	{fyne.KeySpace, "start", func(v *View) {}},
}

// keeperPresses are those of the keeper's page.
var keeperPresses = []press{
	{fyne.Key1, "touch test", func(v *View) { v.machine.Touch(conduct.KeeperTest) }},
	{fyne.Key2, "wipe the screen", func(v *View) { v.machine.Touch(conduct.KeeperWipe) }},
	{fyne.Key3, "back to the visitors", func(v *View) { v.machine.Touch(conduct.KeeperBack) }},
	{fyne.Key4, "close the program", func(v *View) { v.machine.Touch(conduct.KeeperLeave) }},
}

// typed is a key that was pressed, or repeats.
func (v *View) typed(e *fyne.KeyEvent) {
	defer v.after()
	if v.machine.Held() {
		return
	}
	switch v.machine.Stage() {
	case conduct.Attract, conduct.Trouble:
		v.machine.Touch(conduct.Anywhere)
		return
	case conduct.Keeper:
		v.pressOf(keeperPresses, e.Name)
		return
	}
	for _, p := range pairs {
		switch e.Name {
		case p.less:
			v.machine.Turn(p.dial, -1)
		case p.more:
			v.machine.Turn(p.dial, 1)
		}
	}
	v.pressOf(presses, e.Name)
}

func (v *View) pressOf(all []press, key fyne.KeyName) {
	for _, p := range all {
		if p.key == key {
			p.do(v)
		}
	}
}

// toggle touches a key that goes two ways, if that is the way that is wanted.
func (v *View) toggle(t conduct.Target, wanted bool) {
	if wanted {
		v.machine.Touch(t)
	}
}

func (v *View) broken() bool {
	_, ok := v.machine.Broken()
	return ok
}

func (v *View) nextLanguage(by int) {
	n := len(v.names)
	v.machine.Touch(conduct.FirstLanguage + conduct.Target((v.machine.Language()+by+n)%n))
}

// held is a key that goes down or up: the keeper's sequence is made of them.
func (v *View) held(key fyne.KeyName, down bool) {
	v.machine.Key(string(key), down)
	v.after()
}
