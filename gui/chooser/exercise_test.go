package chooser

import (
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// The exercises stand together, the easiest first, below the other flights; each says its
// grade, and neither card nor list of the flight tells what goes wrong.
func TestTheExercisesByGrade(t *testing.T) {
	s := newStage(t, fyne.NewSize(1366, 768))
	require.Len(t, s.exercises, 6)
	for i, e := range s.exercises {
		assert.Equal(t, i+1, e.level)
		assert.True(t, strings.HasPrefix(e.summary, "Exercise "+strconv.Itoa(e.level)+": "), e.summary)
		require.NotNil(t, e.flight, "opened")
		for _, f := range e.flight.Plan.Faults {
			assert.NotContains(t, e.summary+e.title, f.ID)
		}
		assert.Equal(t, look.ChooserTrainer, schoolWord(e.flight))
		assert.Greater(t, e.card.Position().Y, s.shipped[len(s.shipped)-1].card.Position().Y)
	}
	for _, e := range s.shipped {
		assert.Zero(t, e.level, e.name)
	}
}
