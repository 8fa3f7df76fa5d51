package aboard

import (
	"math"
	"time"

	"stillair/integrator/units"
)

// TimingWire is how far ahead of the vertical, and how far astern, the two timing wires
// of the drift sight lie (a choice of this instrument).
const TimingWire = 20 * units.Degree

// TimingSpan is how many heights the sea runs from the one wire to the other.
var TimingSpan = 2 * math.Tan(float64(TimingWire))

// Timing is something on the sea that was timed in the drift sight: so long it took from
// the wire ahead to the wire astern. With the height it gives the groundspeed.
type Timing struct {
	On    bool          // it was timed
	Took  time.Duration // counts of a tick
	Error float64       // stated, of the crew's hand, s

	// What it is worked with and what it gives, filled in when it is entered.
	Height      units.Length // pressure altitude, as the altimeter showed it
	Groundspeed units.Speed  // 0: it gives none
}

// Gives says whether it gives a groundspeed.
func (t *Timing) Gives() bool { return t.On && t.Groundspeed > 0 }

// GroundspeedText writes it: 182 kt, "" where it gives none.
func (t *Timing) GroundspeedText() string {
	if !t.Gives() {
		return ""
	}
	return units.SpeedText(t.Groundspeed)
}
