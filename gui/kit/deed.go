package kit

import (
	"fyne.io/fyne/v2"

	"stillair/gui/look"
)

// Deed is something a key of the keyboard does. The help sheet lists the deeds
// as they are, so that no key does what is not told there.
type Deed struct {
	Keys  []fyne.KeyName // any of them does it
	Ctrl  bool           // with the control key held
	Label string         // how the keys are written: "Space", "1 to 9"
	Does  look.Key
	Do    func(fyne.KeyName)
}

// On makes a deed of one key.
func On(key fyne.KeyName, label string, does look.Key, do func()) Deed {
	return Deed{Keys: []fyne.KeyName{key}, Label: label, Does: does, Do: func(fyne.KeyName) { do() }}
}

// Also adds a key to a deed.
func (d Deed) Also(keys ...fyne.KeyName) Deed {
	d.Keys = append(d.Keys[:len(d.Keys):len(d.Keys)], keys...)
	return d
}

// Perform does what the key stands for and says whether it stands for anything.
func Perform(deeds []Deed, key fyne.KeyName, ctrl bool) bool {
	for _, d := range deeds {
		if d.Ctrl != ctrl {
			continue
		}
		for _, k := range d.Keys {
			if k == key {
				d.Do(key)
				return true
			}
		}
	}
	return false
}
