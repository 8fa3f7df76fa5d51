package charttable

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/look"
)

// placeEntry is where a position to set the counters to is typed. A position
// that can be read is the target at once; what cannot be read is told when the
// hand is done with it, not in the middle of a figure.
type placeEntry struct {
	widget.Entry
	panel *counterPanel
	quiet bool // the text is changed by the program
}

func newPlaceEntry(p *counterPanel) *placeEntry {
	e := &placeEntry{panel: p}
	e.ExtendBaseWidget(e)
	e.SetPlaceHolder(look.Text(look.PlaceHolder))
	e.OnChanged = e.changed
	e.OnSubmitted = func(string) { e.done() }
	return e
}

// reset empties the entry without choosing anything.
func (e *placeEntry) reset() {
	e.quiet = true
	e.SetText("")
	e.quiet = false
}

func (e *placeEntry) changed(text string) {
	if e.quiet {
		return
	}
	if at, err := parsePlace(text); err == nil {
		to := Fixed(typedName, at)
		e.panel.choose(&to, "")
		return
	}
	e.panel.choose(nil, "")
}

// typedName is the name of the place that was typed; no offered place has it.
const typedName = ""

// done says what is wrong with the text, or goes on to the cover.
func (e *placeEntry) done() {
	if e.Text == "" {
		return
	}
	if _, err := parsePlace(e.Text); err != nil {
		e.panel.choose(nil, err.Error())
		return
	}
	if c := e.panel.table.canvas(); c != nil {
		c.Focus(e.panel.cover)
	}
}

// FocusLost says what is wrong when the hand goes elsewhere.
func (e *placeEntry) FocusLost() {
	e.Entry.FocusLost()
	if e.panel.open && e.Text != "" {
		if _, err := parsePlace(e.Text); err != nil {
			e.panel.choose(nil, err.Error())
		}
	}
}

// TypedKey is part of the toolkit's contract.
func (e *placeEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.panel.passOn(k)
		return
	}
	e.Entry.TypedKey(k)
}
