package navigator

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
)

// TestAMistimedWindIsNotSet: what was timed for a third of its run gives a groundspeed three
// times too great and a wind beyond the setter; that is said, and not set. The one timed
// rightly after it is.
func TestAMistimedWindIsNotSet(t *testing.T) {
	s := seated(t, "weather-triangle", time.Hour)
	timed := func(took time.Duration) {
		s.crew.Do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
			Aim: aboard.Aim{Aid: aboard.DriftSight}, Timing: aboard.Timing{On: true, Took: took}}})
		s.pull()
	}
	timed(6 * time.Second)
	w, ok := s.book.Wind()
	require.True(t, ok)
	require.Greater(t, w.Speed, plotting.MostWind)
	assert.Equal(t, look.Text(look.PlotWindTooStrong), s.keys[windKey].Reason)
	_, ok = s.book.SetWind(&s.moment.View)
	assert.False(t, ok)
	s.fly(time.Minute)
	timed(18 * time.Second)
	assert.Empty(t, s.keys[windKey].Reason)
	test.Tap(s.keys[windKey])
	s.pull()
	assert.Equal(t, s.card.Wind, s.moment.View.WindSet.String())
}
