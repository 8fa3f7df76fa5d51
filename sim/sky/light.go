package sky

import (
	"time"

	"stillair/integrator/units"
)

// Light is how light it is at a place, by the altitude of the Sun's centre.
type Light uint8

// From light to dark. The kinds of twilight are named for what may still be
// done in them.
const (
	Daylight Light = iota
	CivilTwilight
	NauticalTwilight
	AstronomicalTwilight
	Night
)

// The altitudes of the Sun's centre, without refraction, at which one kind of
// light gives way to the next: the upper limb on a horizon at sea level with 34'
// of refraction and 16' of semidiameter, then 6, 12 and 18 degrees below (the
// almanacs' definitions, from memory). From a height the Sun is seen longer by
// the dip of the horizon, which is not in them.
const (
	Sunrise          = -50 * units.ArcMinute
	CivilDusk        = -6 * units.Degree
	NauticalDusk     = -12 * units.Degree
	AstronomicalDusk = -18 * units.Degree
)

// String names it.
func (l Light) String() string {
	names := [...]string{"daylight", "civil twilight", "nautical twilight", "astronomical twilight", "night"}
	if int(l) < len(names) {
		return names[l]
	}
	return "no such light"
}

// Light tells how light it is at a place.
func (s *Sky) Light(at units.Position) Light {
	altitude, _ := s.Horizontal(Sun, at)
	for l, below := range [...]units.Angle{Sunrise, CivilDusk, NauticalDusk, AstronomicalDusk} {
		if altitude >= below {
			return Light(l)
		}
	}
	return Night
}

// Way is upward or downward through an altitude.
type Way bool

// The two ways.
const (
	Rising  Way = true
	Setting Way = false
)

// sunStep is how far apart the Sun is looked at. A passage that is undone within
// it, as the Sun grazes the altitude near a polar day or night, is not met.
const sunStep = 5 * time.Minute

// NextSun finds when the Sun's centre next passes an altitude at a place that
// does not move, to the second, from an instant on and before a time has passed;
// false if it does not.
func NextSun(from time.Time, within time.Duration, at units.Position, altitude units.Angle, way Way) (time.Time, bool) {
	above := func(t time.Time) bool {
		s := At(t)
		h, _ := s.Horizontal(Sun, at)
		return h >= altitude
	}
	was := above(from)
	for passed := time.Duration(0); passed < within; passed += sunStep {
		low, high := from.Add(passed), from.Add(min(passed+sunStep, within))
		is := above(high)
		if was != is && is == bool(way) {
			return halve(low, high, func(t time.Time) bool { return above(t) == is }), true
		}
		was = is
	}
	return time.Time{}, false
}

// halve finds the first instant, to half a second, at which after is true; it
// is false at low and true at high.
func halve(low, high time.Time, after func(time.Time) bool) time.Time {
	for high.Sub(low) > time.Second/2 {
		middle := low.Add(high.Sub(low) / 2)
		if after(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}
