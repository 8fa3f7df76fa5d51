package kit

import (
	"time"

	"fyne.io/fyne/v2/driver/desktop"
)

// A key that repeats is pressed as the hand comes down on it, and again and
// again while the hand stays. On the keyboard the repeat is that of the
// keyboard itself.
const (
	repeatAfter = 300 * time.Millisecond
	repeatEvery = 90 * time.Millisecond
)

// MouseDown presses a key that repeats; others wait for the hand to go up.
func (k *Key) MouseDown(e *desktop.MouseEvent) {
	if !k.Repeats || e.Button != desktop.MouseButtonPrimary {
		return
	}
	k.down = true
	k.press()
	k.againIn(repeatAfter)
}

// MouseUp ends the repeat.
func (k *Key) MouseUp(*desktop.MouseEvent) { k.letGo() }

func (k *Key) letGo() {
	k.down = false
	if k.stop != nil {
		k.stop()
	}
}

func (k *Key) againIn(d time.Duration) {
	k.stop = k.screen.After(d, func() {
		if k.down && k.Reason == "" {
			k.press()
			k.againIn(repeatEvery)
		}
	})
}
