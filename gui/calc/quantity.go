package calc

import (
	"errors"

	"stillair/gui/look"
	"stillair/integrator/units"
)

// Quantity is one of the six of a wind triangle.
type Quantity uint8

// The quantities, in the order in which they are shown.
const (
	Heading Quantity = iota
	TAS
	WindFrom
	WindSpeed
	Track
	Groundspeed
)

// Quantities is their number; Settles of them settle the figure.
const (
	Quantities = 6
	Settles    = 4
)

var names = [Quantities]look.Key{look.CalcHeading, look.CalcTAS, look.CalcWindFrom, look.CalcWindSpeed, look.CalcTrack, look.CalcGroundspeed}

// Name is what the quantity is called.
func (q Quantity) Name() string { return look.Text(names[q]) }

// IsDirection says whether it is a direction; else it is a speed.
func (q Quantity) IsDirection() bool { return q == Heading || q == WindFrom || q == Track }

// limits are the least and the greatest value that may be given: winds as a flight
// may have them, speeds to the end of the computer's ring.
var limits = [Quantities][2]float64{
	Heading: {0, 360}, TAS: {1, 600}, WindFrom: {0, 360}, WindSpeed: {0, 250}, Track: {0, 360}, Groundspeed: {0, 850},
}

// within says whether a value lies within the limits, or so little outside.
func (q Quantity) within(v, slack float64) bool {
	return v >= limits[q][0]-slack && v <= limits[q][1]+slack
}

// format writes a value as the trade does: 050T, 178 kt.
func (q Quantity) format(v float64) string {
	if q.IsDirection() {
		return units.TrueText(units.Angle(v) * units.Degree)
	}
	return units.SpeedText(units.Speed(v) * units.Knot)
}

// parse reads a value: a number, with T or kt after it or not.
func (q Quantity) parse(text string) (float64, error) {
	unit, wrong := "KT", look.CalcNotSpeed
	if q.IsDirection() {
		unit, wrong = "T", look.CalcNotDirection
	}
	v, ok := plainNumber(text, unit)
	if !ok {
		return 0, errors.New(look.Textf(wrong, text))
	}
	return v, q.check(v)
}

// check tells in words what is wrong with a value.
func (q Quantity) check(v float64) error {
	if q.within(v, 0) {
		return nil
	}
	return errors.New(look.Textf(look.CalcOutside, q.Name(), units.Figure(limits[q][0], 0), units.Figure(limits[q][1], 0)))
}
