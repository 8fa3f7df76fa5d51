package kit

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestKeyRepeatsWhileItIsHeld(t *testing.T) {
	k, _ := bench(t)
	pressed := 0
	k.Press, k.Repeats = func() { pressed++ }, true
	count := func() (n int) {
		fyne.DoAndWait(func() { n = pressed })
		return n
	}
	fyne.DoAndWait(func() { k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary}) })
	assert.Zero(t, count())
	fyne.DoAndWait(func() { k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary}) })
	assert.Equal(t, 1, count(), "at once")
	require.Eventually(t, func() bool { return count() >= 3 }, 10*time.Second, 10*time.Millisecond)
	fyne.DoAndWait(func() { k.MouseUp(nil) })
	n := count()
	time.Sleep(3 * repeatEvery)
	assert.Equal(t, n, count(), "no more when the hand is gone")
	fyne.DoAndWait(func() { test.Tap(k) })
	assert.Equal(t, n, count(), "the tap that follows is the same press")
	fyne.DoAndWait(func() {
		k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
		k.MouseOut()
	})
	time.Sleep(repeatAfter + 2*repeatEvery)
	assert.Equal(t, n+1, count(), "nor when it has slipped off")
}

func TestOtherKeysWaitForTheHandToGoUp(t *testing.T) {
	k, _ := bench(t)
	pressed := 0
	k.Press = func() { pressed++ }
	k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	assert.Zero(t, pressed)
	test.Tap(k)
	assert.Equal(t, 1, pressed)
}
