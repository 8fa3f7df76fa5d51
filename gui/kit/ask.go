package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/look"
)

// askWidth is the width of the card, units.
const askWidth = 420

// Ask opens a small card in which a value is typed. take reads it and acts; an
// error it returns is shown under the value and the card stays. Esc closes.
func Ask(c fyne.Canvas, screen *Screen, title, hint, now string, take func(string) error) {
	AskChecked(c, screen, title, hint, now, nil, take)
}

// AskChecked is Ask with a check of what stands in the box, whose error is shown as one
// types; nil: there is none.
func AskChecked(c fyne.Canvas, screen *Screen, title, hint, now string, check, take func(string) error) {
	name := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	help := widget.NewLabel(hint)
	wrong := widget.NewLabel("")
	wrong.Importance = widget.DangerImportance
	wrong.Wrapping = fyne.TextWrapWord
	entry := newTyped(now)
	var card *widget.PopUp
	shut := func() { card.Hide() }
	tall := float32(0)
	fit := func() { // it grows with what is told, and does not jump back
		tall = max(tall, card.MinSize().Height)
		card.Resize(fyne.NewSize(askWidth, tall))
	}
	submit := func() {
		if err := take(entry.Text); err != nil {
			wrong.SetText(err.Error())
			fit()
			return
		}
		shut()
	}
	entry.OnSubmitted = func(string) { submit() }
	entry.escape = shut
	if check != nil {
		entry.OnChanged = func(text string) {
			words := ""
			if err := check(text); err != nil {
				words = err.Error()
			}
			wrong.SetText(words)
			fit()
		}
	}
	set := NewKey(screen, look.Text(look.Set), NoSign, 120, submit)
	set.Main = true
	cancel := NewKey(screen, look.Text(look.Cancel), NoSign, 120, shut)
	box := container.NewVBox(name, help, entry, wrong, container.NewGridWithColumns(2, cancel, set))
	card = widget.NewModalPopUp(container.NewPadded(box), c)
	tall = card.MinSize().Height + 24
	fit()
	card.Show()
	c.Focus(entry)
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// typed is an entry that knows Esc.
type typed struct {
	widget.Entry
	escape func()
}

func newTyped(text string) *typed {
	e := &typed{}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	return e
}

// TypedKey is part of the toolkit's contract.
func (e *typed) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && e.escape != nil {
		e.escape()
		return
	}
	e.Entry.TypedKey(k)
}
