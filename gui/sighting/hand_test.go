package sighting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

const deg = units.Degree

// scenes are what there is to be seen through each aid.
var scenes = map[aboard.Aid]aboard.Scene{
	aboard.DriftSight:    {Along: 6.04 * deg, Rate: 0.04},
	aboard.Loop:          {Null: 143.8 * deg, Floor: 0.05},
	aboard.PulseReceiver: {Delay: 1828.52},
	aboard.HeadingCheck:  {Heading: 128.44 * deg},
	aboard.Sextant:       {Altitude: 43*deg + 35.6*units.ArcMinute},
}

// handAt puts a hand to an aid before its scene.
func handAt(t *testing.T, a aboard.Aid) (Hand, aboard.Scene) {
	t.Helper()
	s := scenes[a]
	s.Aim = aboard.Aim{Aid: a, Source: "Sun"}
	h := New(s.Aim)
	require.NotNil(t, h)
	h.See(&s, &aboard.View{})
	return h, s
}

// TestTheReadingIsWhereTheControlStands: turned until it fits, by fine steps, it is what
// was to be seen, to a step.
func TestTheReadingIsWhereTheControlStands(t *testing.T) {
	off := map[aboard.Aid]func(r *aboard.Reading, s *aboard.Scene) float64{
		aboard.DriftSight:    func(r *aboard.Reading, s *aboard.Scene) float64 { return (s.Along - r.Angle).Degrees() },
		aboard.Loop:          func(r *aboard.Reading, s *aboard.Scene) float64 { return units.WrapHalf(s.Null - r.Angle).Degrees() },
		aboard.PulseReceiver: func(r *aboard.Reading, s *aboard.Scene) float64 { return s.Delay - r.Delay },
		aboard.HeadingCheck:  func(r *aboard.Reading, s *aboard.Scene) float64 { return units.WrapHalf(s.Heading - r.Angle).Degrees() },
	}
	step := map[aboard.Aid]float64{aboard.DriftSight: driftStep, aboard.Loop: loopStep, aboard.PulseReceiver: pulseStep, aboard.HeadingCheck: checkStep}
	for a, of := range off {
		h, s := handAt(t, a)
		assert.Empty(t, h.Wanting())
		for range 2000 {
			r := h.Reading()
			if d := of(&r, &s); math.Abs(d) > 0.6*step[a] {
				h.Turn(math.Copysign(1, d))
			}
		}
		r := h.Reading()
		assert.LessOrEqual(t, math.Abs(of(&r, &s)), step[a], "%v", a)
		assert.Equal(t, a, r.Aid)
		assert.NotEmpty(t, h.Value())
	}
}

// TestTheSenseOfTheLoop: pressed, it tells at which end of the null the station lies, and
// that end is read.
func TestTheSenseOfTheLoop(t *testing.T) {
	h, s := handAt(t, aboard.Loop)
	l := h.(*loop)
	l.bearing = s.Null.Degrees() + 180
	r := h.Reading()
	assert.InDelta(t, 180, math.Abs(units.WrapHalf(r.Angle-s.Null).Degrees()), loopStep)
	h.Press(senseControl)
	r = h.Reading()
	assert.InDelta(t, 0, units.WrapHalf(r.Angle-s.Null).Degrees(), loopStep)
}

// TestTheMeanOfTwoMinutes: of where the wheel stood, by time; the clock put back begins
// them anew.
func TestTheMeanOfTwoMinutes(t *testing.T) {
	h, s := handAt(t, aboard.Sextant)
	x := h.(*sextant)
	assert.NotEmpty(t, h.Wanting())
	x.set = s.Altitude.Minutes()
	h.See(&s, &aboard.View{})
	for tick := int64(1); tick <= sightTicks; tick++ {
		s.Tick = tick
		x.set = s.Altitude.Minutes() + 3
		if tick > sightTicks/2 {
			x.set = s.Altitude.Minutes() - 1
		}
		h.See(&s, &aboard.View{})
	}
	assert.Empty(t, h.Wanting())
	r := h.Reading()
	assert.InDelta(t, s.Altitude.Minutes()+1, r.Angle.Minutes(), 0.06)
	assert.Equal(t, 60.0, r.Before.Seconds())
	s.Tick = 5
	h.See(&s, &aboard.View{})
	assert.NotEmpty(t, h.Wanting())
}

// TestNothingToBeSeen: says why, and does not break.
func TestNothingToBeSeen(t *testing.T) {
	for a := range scenes {
		s := aboard.Scene{Aim: aboard.Aim{Aid: a}, Missing: aboard.OutOfOrder}
		h := New(s.Aim)
		h.See(&s, &aboard.View{})
		assert.NotEmpty(t, h.Wanting())
		assert.NotEmpty(t, h.Told())
		h.Turn(3)
		h.Drag(10, 0.1)
	}
	assert.Nil(t, New(aboard.Aim{Aid: aboard.Pinpoint}))
	assert.Empty(t, MissingText(aboard.Had))
}

// TestTheCrewsHand: the same at the same tick, small, and another one at another.
func TestTheCrewsHand(t *testing.T) {
	a := aboard.Aim{Aid: aboard.Loop, Source: "Cape Linnet"}
	sum := 0.0
	for tick := range int64(400) {
		r := ByCrew(a, tick)
		require.Equal(t, r, ByCrew(a, tick))
		require.LessOrEqual(t, math.Abs(r.Error), 2.5*crewErrors[aboard.Loop])
		sum += r.Error * r.Error
	}
	assert.InDelta(t, crewErrors[aboard.Loop], math.Sqrt(sum/400), 0.15)
}
