package kit

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wound stands in for the clock: what is to be done later is kept, with how
// long it has to wait.
type wound struct {
	do    func()
	after time.Duration
}

// wind has the test do by hand what the clock would do.
func wind(t *testing.T) *wound {
	w, real := &wound{}, later
	t.Cleanup(func() { later = real })
	later = func(_ *Screen, d time.Duration, do func()) func() {
		w.do, w.after = do, d
		return func() { w.do = nil }
	}
	return w
}

func TestKeyRepeatsWhileItIsHeld(t *testing.T) {
	k, _ := bench(t)
	clock, pressed := wind(t), 0
	k.Press, k.Repeats = func() { pressed++ }, true
	k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary})
	assert.Zero(t, pressed)
	k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	assert.Equal(t, 1, pressed, "at once")
	assert.Equal(t, repeatAfter, clock.after)
	for range 3 {
		require.NotNil(t, clock.do)
		clock.do()
		assert.Equal(t, repeatEvery, clock.after)
	}
	assert.Equal(t, 4, pressed)
	k.MouseUp(nil)
	assert.Nil(t, clock.do, "no more when the hand is gone")
	test.Tap(k)
	assert.Equal(t, 4, pressed, "the tap that follows is the same press")
	k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	k.MouseOut()
	assert.Nil(t, clock.do, "nor when it has slipped off")
	k.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	k.Forbid("the flight has ended")
	clock.do()
	assert.Equal(t, 6, pressed, "nor when it may not be pressed any more")
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
