package aboard

import (
	"math"
	"strings"
	"time"

	"stillair/integrator/units"
)

// Aid is a navigator's aid that is looked through or listened to.
type Aid uint8

// The aids.
const (
	NoAid         Aid = iota
	DriftSight        // the sea runs by under its wires
	Sextant           // a body in a bubble
	Loop              // a bearing of a beacon, by the weakest signal
	PulseReceiver     // the difference in time of two stations of the pulse chain
	HeadingCheck      // a body sighted over a ring
	Pinpoint          // an island or a light in sight under the wing
	aidCount
)

var aidNames = [aidCount]string{
	DriftSight: "drift", Sextant: "sextant", Loop: "loop", PulseReceiver: "pulse", HeadingCheck: "heading", Pinpoint: "pinpoint",
}

// String is the aid as a flight and a record name it.
func (a Aid) String() string {
	if a < aidCount {
		return aidNames[a]
	}
	return ""
}

// AidNames are the names of all aids.
func AidNames() []string { return aidNames[1:] }

// Aim is an aid and what it is pointed at: a body, a station, a place; nothing for the
// drift sight.
type Aim struct {
	Aid    Aid
	Source string
}

// String writes the aim as a flight does: loop Cape Linnet.
func (a Aim) String() string { return strings.TrimSpace(a.Aid.String() + " " + a.Source) }

// ParseAim reads it; ok is false if there is no such aid. Whether there is such a
// source it does not know.
func ParseAim(text string) (a Aim, ok bool) {
	word, source, _ := strings.Cut(strings.TrimSpace(text), " ")
	for i := DriftSight; i < aidCount; i++ {
		if strings.EqualFold(word, aidNames[i]) {
			return Aim{i, strings.TrimSpace(source)}, true
		}
	}
	return a, false
}

// Missing says why an aid has nothing to show.
type Missing uint8

// The reasons.
const (
	Had          Missing = iota // it has
	TooFar                      // beyond the range of the station
	TooLow                      // the body is too low, or too high, for a sight
	TooLight                    // no stars by day
	OutOfSight                  // the place is not in sight
	NotThere                    // there is no such body, station or place
	OnlyOneThere                // a pulse chain needs two stations
	OutOfOrder                  // the aid itself has failed
	OverCloud                   // a closed layer of cloud lies below
)

// Offer is an aim and whether it can be had now. Altitude (of a body), azimuth and
// distance (of a place) are those of the ground position shown.
type Offer struct {
	Aim
	Missing           Missing
	Altitude, Azimuth units.Angle
	Distance          units.Length
}

// Scene is what is to be seen or heard through an aid at a moment; the fields that the
// aid has are set. Angles are the truth with the errors of the aid: what the hand
// makes of it is the reading.
type Scene struct {
	Aim
	Tick    int64
	Missing Missing
	Night   bool

	Along units.Angle // drift sight: the way the sea runs, off the nose, right +
	Rate  float64     // and how fast, heights a second, as the timing wires have it

	Null  units.Angle // loop: relative bearing of the weakest signal
	Floor float64     // the signal there, of one

	Delay float64 // pulse receiver: us from the master's pulse to the secondary's
	Noise float64 // of the traces, of one pulse

	Altitude      units.Angle // sextant: of the body over the bubble's horizon at rest
	Wander, Aside units.Angle // of the bubble, up and to the right +

	Heading units.Angle // heading check: under the lubber when the body is sighted truly
	Azimuth units.Angle // of the body by the almanac, from the ground position shown
}

// Signal is how strong the loop hears at a relative bearing, of one.
func (s *Scene) Signal(at units.Angle) float64 {
	return s.Floor + (1-s.Floor)*math.Abs(math.Sin((at-s.Null).Radians()))
}

// Reading is what a hand has read through an aid.
type Reading struct {
	Aim
	Angle  units.Angle   // drift, altitude as read, relative bearing, true heading
	Delay  float64       // pulse receiver, us
	Before time.Duration // so long before it was entered it was good: half of a sight
	ByCrew bool          // the crew read it truly but for Error; Angle, Delay and Timing.Took are not given
	Timing Timing        // drift sight: of something on the sea, from wire to wire
	Error  float64       // stated: degrees, minutes of a sight, us, NM of a pinpoint to the north

	// What it is of, filled in when it is entered: the station or place, the place in
	// whose zenith the body stands, the master of a pair.
	At, Master units.Position
	Observed   units.Angle // altitude with refraction and the bubble's tilt taken off
	Azimuth    units.Angle // of a body, from the ground position shown
	Missing    Missing     // it could not be taken
}
