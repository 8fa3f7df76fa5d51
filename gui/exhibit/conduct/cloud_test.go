package conduct

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/tongue"
	"stillair/gui/helm"
	"stillair/integrator/units"
)

// at is a moment with the marker and the aircraft at places.
func at(marker, truth units.Position) *helm.Moment {
	m := &helm.Moment{Revealed: &helm.Revealed{}}
	m.View.Marker = units.GroundPosition(marker)
	m.Revealed.Now.Truth.Position = truth
	return m
}

func TestLandInCloud(t *testing.T) {
	s := machine(t, twoFaults)
	en := tongue.English()
	s.Touch(Anywhere)
	s.Touch(LandKey)
	require.Equal(t, Cloud, s.Stage())
	f := s.crew.begun[len(s.crew.begun)-1]
	assert.Zero(t, f.Set.Speed, "no wind is set")
	assert.GreaterOrEqual(t, f.Order.Wind.Speed.Knots(), 12.0)
	// Port Aldous to Skerrow: 16.0 minutes of latitude, 98.7 of longitude (waters file) are
	// 68.9 NM on a plane chart; at 180 kt that is 1378 s, to be over in 67.5 s.
	assert.InDelta(t, 1378/67.5, f.Rate, 0.15)
	assert.InDelta(t, 103, f.Order.Heading.Degrees(), 1)
	assert.Contains(t, s.Sentence(en), "Fly to Skerrow")
	s.pass(7 * time.Second)
	assert.Contains(t, s.Sentence(en), "A ship calls")
	s.Touch(WindMore)
	last := len(s.crew.steered) - 1
	assert.Equal(t, f.Order.Wind, s.crew.steered[last].Wind, "the wind that blows stays")
	assert.InDelta(t, 5, s.crew.set[last].Speed.Knots(), 1e-9)
	s.Touch(BreakKey)
	s.Touch(InsideKey)
	assert.Empty(t, s.crew.broken, "nothing breaks in cloud")
	assert.False(t, s.Inside())
	assert.Equal(t, 83*time.Second, s.Rest())
	s.pass(82 * time.Second)
	assert.Equal(t, Cloud, s.Stage(), "no touch is needed for so long")
	s.pass(time.Second)
	assert.Equal(t, Parting, s.Stage(), "ninety seconds")
	s.pass(2 * time.Second)
	assert.Equal(t, Parting, s.Stage(), "no truth yet")
	place := s.x.Landing.At
	off := place
	off.Lat += 12.5 * units.ArcMinute
	s.See(at(place, off))
	s.pass(time.Second)
	require.Equal(t, Result, s.Stage())
	r := s.Outcome()
	assert.InDelta(t, 12.5, r.Miles, 1e-6)
	assert.True(t, r.First && r.Reached && !r.NewBest)
	assert.Contains(t, s.Sentence(en), "That is all you missed by")
	s.Touch(LandKey)
	s.See(at(off, place))
	s.pass(time.Second)
	assert.Equal(t, Cloud, s.Stage())
	s.See(at(place, off))
	s.pass(time.Second)
	require.Equal(t, Parting, s.Stage(), "the marker says that it is there")
	near := place
	near.Lat -= 3 * units.ArcMinute
	s.See(at(off, near))
	s.pass(3 * time.Second)
	r = s.Outcome()
	assert.True(t, r.NewBest && !r.First && !r.Reached)
	assert.InDelta(t, 3, r.Best, 1e-6)
	assert.Contains(t, s.Sentence(en), "Try again?")
	s.pass(91 * time.Second)
	assert.Equal(t, Attract, s.Stage())
}

// TestClueIsTrue: the direction named is within an eighth of half of the true one, the
// strength the right third, over many draws and both languages.
func TestClueIsTrue(t *testing.T) {
	s := machine(t, twoFaults)
	en := tongue.English()
	seen := map[string]bool{}
	for range 400 {
		s.Touch(AgainKey)
		s.Touch(Anywhere)
		s.Touch(LandKey)
		s.pass(7 * time.Second)
		wind := s.crew.begun[len(s.crew.begun)-1].Order.Wind
		clue := s.Sentence(en)
		for i, w := range tongue.Compass {
			if strings.Contains(clue, "the "+en.Text(w)+".") {
				off := math.Abs(units.WrapHalfDegrees(wind.From.Degrees() - float64(45*i)))
				assert.LessOrEqual(t, off, 22.5+1e-9)
				seen[string(w)] = true
			}
		}
		kt := wind.Speed.Knots()
		assert.Equal(t, kt < 19-1e-9, strings.Contains(clue, "Light"), "%v kt", kt)
		assert.Equal(t, kt >= 31-1e-9, strings.Contains(clue, "Strong"), "%v kt", kt)
		s.sleep()
	}
	assert.Len(t, seen, 8)
}
