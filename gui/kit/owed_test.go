package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// A picture that was asked for and drawn is asked for once; one that does not come is
// asked for again, and in the end no more.
func TestWhatIsNotDrawnIsAskedForAgain(t *testing.T) {
	test.NewTempApp(t)
	s := &Screen{Palette: look.Of(look.Paper), W: 800, H: 600}
	drawn := 0
	p := NewPanel(s, func(*paint.Raster, float64, float64, look.Size) { drawn++ })
	w := test.NewTempWindow(t, p)
	w.Resize(fyne.NewSize(200, 100))
	w.Canvas().Capture()
	before := drawn
	p.Repaint()
	p.Repaint()
	assert.Len(t, s.owed, 1, "once, however often")
	w.Canvas().Capture()
	assert.Equal(t, before+1, drawn)
	s.Again()
	assert.Empty(t, s.owed, "it came")
	p.Repaint()
	for i := range owedFrames {
		assert.Len(t, s.owed, 1, "frame %d", i)
		s.Again()
	}
	assert.Empty(t, s.owed, "it is hidden, or gone")
	p.Repaint()
	assert.Len(t, s.owed, 1, "asked for anew")
}
