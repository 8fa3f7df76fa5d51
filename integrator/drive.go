package integrator

import "stillair/integrator/train"

// DriveImperfection is what is wrong with the flexible drive and the shafts
// behind the discs; the zero value is ideal.
//
//	Slip       part of the motion that slips away, 0 to 1
//	Parted     the shaft is broken: nothing comes through
//	GearError  relative error of the gearing, ratio - 1
//	Play       NM, lost motion of the northing and of the easting shaft
//
// The distance shaft never turns back in flight, so its own play costs nothing;
// northing and easting reverse whenever the heading crosses a cardinal point.
type DriveImperfection struct {
	Slip      float64
	Parted    bool
	GearError float64
	Play      float64
}

// drive passes the miles of a step to the discs.
func drive(miles float64, w *DriveImperfection) float64 {
	if w.Parted {
		return 0
	}
	return miles * (1 - w.Slip) * (1 + w.GearError)
}

// playOf is the hidden state of the lost motion of the two shafts.
type playOf struct{ North, East train.Play }

// follow gives what the two shafts turn when the discs turn them.
func (p *playOf) follow(north, east float64, w *DriveImperfection) (n, e float64) {
	return p.North.Follow(north, w.Play), p.East.Follow(east, w.Play)
}
