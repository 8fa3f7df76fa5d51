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
	Question{Title: title, Hint: hint, Now: now, Take: take}.Ask(c, screen)
}

// Question is what is asked on a small card.
type Question struct {
	Title, Hint, Now string
	Word             look.Key                // of the key that takes it; "": Set
	Check            func(text string) error // its error is shown as one types; nil: there is none
	Take             func(text string) error
}

// Ask opens the card.
func (q Question) Ask(c fyne.Canvas, screen *Screen) {
	if q.Word == "" {
		q.Word = look.Set
	}
	name := widget.NewLabelWithStyle(q.Title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	help := widget.NewLabel(q.Hint)
	wrong := widget.NewLabel("")
	wrong.Importance = widget.DangerImportance
	wrong.Wrapping = fyne.TextWrapWord
	entry := newTyped(q.Now)
	var card *widget.PopUp
	shut := func() { card.Hide() }
	tall := float32(0)
	fit := func() { // it grows with what is told, and does not jump back
		tall = max(tall, card.MinSize().Height)
		card.Resize(fyne.NewSize(askWidth, tall))
	}
	submit := func() {
		if err := q.Take(entry.Text); err != nil {
			wrong.SetText(err.Error())
			fit()
			return
		}
		shut()
	}
	entry.OnSubmitted = func(string) { submit() }
	entry.escape = shut
	if q.Check != nil {
		entry.OnChanged = func(text string) {
			words := ""
			if err := q.Check(text); err != nil {
				words = err.Error()
			}
			wrong.SetText(words)
			fit()
		}
	}
	set := NewKey(screen, look.Text(q.Word), NoSign, 120, submit)
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
