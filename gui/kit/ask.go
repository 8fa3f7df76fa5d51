package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/look"
)

// Ask opens a small card in which a value is typed. take reads it and acts; an
// error it returns is shown under the value and the card stays. Esc closes.
func Ask(c fyne.Canvas, screen *Screen, title, hint, now string, take func(string) error) {
	name := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	help := widget.NewLabel(hint)
	wrong := widget.NewLabel("")
	wrong.Importance = widget.DangerImportance
	wrong.Wrapping = fyne.TextWrapWord
	entry := newTyped(now)
	var card *widget.PopUp
	shut := func() { card.Hide() }
	submit := func() {
		if err := take(entry.Text); err != nil {
			wrong.SetText(err.Error())
			return
		}
		shut()
	}
	entry.OnSubmitted = func(string) { submit() }
	entry.escape = shut
	set := NewKey(screen, look.Text(look.Set), NoSign, 120, submit)
	set.Main = true
	cancel := NewKey(screen, look.Text(look.Cancel), NoSign, 120, shut)
	box := container.NewVBox(name, help, entry, wrong, container.NewGridWithColumns(2, cancel, set))
	card = widget.NewModalPopUp(container.NewPadded(box), c)
	card.Resize(fyne.NewSize(420, card.MinSize().Height+24))
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
