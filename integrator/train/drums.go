package train

import "math"

// Drum is one of the drums of a position counter that take a carry; 0 is none.
type Drum uint8

// The drums that take a carry.
const (
	Minutes Drum = iota + 1
	TensOfMinutes
	Degrees
)

// minutes is what one digit of the drum counts.
func (d Drum) minutes() float64 { return [...]float64{1, 1, 10, 60}[min(d, Degrees)] }

// Carry is a drum that fails to move at its next carries, so many times. The
// zero value is a drum that moves.
type Carry struct {
	Drum  Drum
	Count int
}

// Drums is what a counter remembers of what is wrong with it: the carries
// missed, and the mis-setting that has been made.
type Drums struct {
	Missed int
	MisSet float64 // minutes
}

// sameTenth is how far, in minutes, a counter may stand below a carry and show
// it made; the drums are read as generously.
const sameTenth = 1e-10

// miss gives by how many minutes a counter falls short that ran from a to b:
// one digit of the drum that did not move, for each carry missed. Carries are
// those of the reading, which is counted from 0 to either side.
func (d *Drums) miss(a, b float64, c Carry) float64 {
	if c.Drum == 0 {
		d.Missed = 0
		return 0
	}
	left := c.Count - d.Missed
	if left <= 0 || a*b < 0 {
		return 0
	}
	unit := c.Drum.minutes()
	carries := math.Floor((math.Abs(b)+sameTenth)/unit) - math.Floor((math.Abs(a)+sameTenth)/unit)
	if carries == 0 {
		return 0
	}
	n := int(min(math.Abs(carries), float64(left)))
	d.Missed += n
	return -math.Copysign(float64(n)*unit, carries*(a+b))
}

// misSet turns the counters by what is set wrong: once, when it appears. Taken
// back, it leaves the counter where it stands.
func (s *State) misSet(w *Imperfection) {
	if s.LatDrums.MisSet != w.LatMisSet || s.LonDrums.MisSet != w.LonMisSet {
		s.Knob(s.LatDrums.mistake(w.LatMisSet), s.LonDrums.mistake(w.LonMisSet))
	}
}

func (d *Drums) mistake(x float64) float64 {
	was := d.MisSet
	d.MisSet = x
	if math.Abs(x) <= math.Abs(was) && x*was >= 0 {
		return 0
	}
	return x - was
}
