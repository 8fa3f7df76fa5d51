package picture

import (
	"math"
	"strconv"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// DriftGear is how many degrees the ring of the drift sight turns while its
// wires turn one: the scale is drawn so much wider than life.
const DriftGear = 3

// DriftSight is what is seen in the drift sight.
type DriftSight struct {
	Wires   float64  // how far the wires are turned, degrees, right positive
	Streaks []Streak // of the sea; StreaksAt makes them
	Drift   float64  // along which they run, degrees, right positive
	Night   bool     // a flame float, in the place of the first streak, and no others
	Nothing bool     // over cloud
	Across  float64  // how far from the middle the two timing wires lie, parts of the view; 0: none
	Timing  bool     // something is being timed: the wire at which it ends is lit
}

// Streak is a wave's streak as it lies while the drift is nil: X and Y are its
// foremost end, parts of the view, Y down; the streak reaches Length up from
// there. It moves down, for the aircraft flies up.
type Streak struct {
	X, Y, Length float64
	Bright       bool
}

// The field of streaks.
const (
	streakCount    = 46
	streakLeast    = 0.10
	streakMost     = 0.32
	streakPeriod   = 2 + streakMost // from entering at the top to having left
	floatWithin    = 0.42           // how far off the middle a float passes
	brightFrom     = 0.6
	floatWake      = 0.8
	driftScale     = 20   // degrees to each side
	driftLetterAt  = 75.0 // on the ring, of L and R
	driftFreeMarks = 90   // below which the ring itself carries no marks
)

// StreaksAt is the field of streaks of a seed after it has run so many radii of
// the view. Each streak enters at the top, leaves at the foot and enters again in
// another place, so that the field goes on for ever without a jump. All that is
// given lies within -1 to 1; a streak that has not come in has no length.
func StreaksAt(run float64, seed int) []Streak {
	all := make([]Streak, streakCount)
	for k := range all {
		all[k] = streakAt(finite(run), k, seed)
	}
	return all
}

func streakAt(run float64, k, seed int) Streak {
	own := hashOf(int64(k), int64(seed))
	// The lanes lie side by side and the streaks in them a golden section of the
	// way apart: strewn, but with no heap and no hole.
	at := run/streakPeriod + float64(k)*(math.Phi-1) + share(own)/streakCount
	lap := math.Floor(at)
	h := hashOf(int64(lap), int64(own>>1))
	lane := math.Mod(float64(k)+3*share(h), streakCount) / streakCount
	s := Streak{X: 2*lane - 1, Bright: share(h>>20) > brightFrom}
	if k == 0 {
		s.X = floatWithin * (2*share(h>>40) - 1)
	}
	foot := -1 + (at-lap)*streakPeriod
	top := math.Max(-1, foot-streakLeast-(streakMost-streakLeast)*share(h>>40))
	s.Y = math.Min(1, foot)
	s.Length = math.Max(0, s.Y-top)
	return s
}

// DrawDriftSight draws the drift sight: the sea running by under five wires, to
// be laid along it by the ring.
func DrawDriftSight(b *Brush, x, y, r float64, d DriftSight) {
	d.Wires, d.Drift = finite(d.Wires), finite(d.Drift)
	e := b.lookInto(x, y, r, b.darkSight())
	switch {
	case d.Nothing:
		e.overcast()
	case d.Night:
		e.flame(d)
	default:
		e.streaks(d)
	}
	e.driftWires(d.Wires)
	e.timingWires(d)
	e.ring()
	e.driftScale()
	turn := d.Wires * DriftGear
	e.marksWhere(24, 24, turn, func(deg float64) bool { return deg >= driftFreeMarks && deg <= 360-driftFreeMarks })
	e.index(turn)
	e.knob(180 + turn)
}

// turned is the point of the surface at a place of the view turned by deg.
func (e eye) turned(x, y, deg float64) paint.Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return e.At(x*c-y*s, x*s+y*c)
}

// streaks draws the dim ones and then the bright ones.
func (e eye) streaks(d DriftSight) {
	for _, bright := range []bool{false, true} {
		width, c := 2.0, paint.Mix(e.s.faint, e.s.second, 0.30)
		if bright {
			width, c = 2.6, e.s.second
		}
		for k, s := range d.Streaks {
			if s.Bright == bright && s.Length > 0 && k > 0 {
				e.streak(s, d.Drift, width, c)
			}
		}
	}
	if len(d.Streaks) > 0 {
		e.foam(d.Streaks[0], d.Drift)
	}
}

func (e eye) streak(s Streak, drift, width float64, c colour) {
	a, z, ok := e.within(e.turned(s.X, s.Y, drift), e.turned(s.X, s.Y-s.Length, drift), width*e.w)
	if ok {
		e.roundLine(width*e.w, c, a, z)
	}
}

// foam draws the foremost patch of foam, which the eye can follow from wire to wire.
func (e eye) foam(s Streak, drift float64) {
	if s.Length <= 0 {
		return
	}
	e.streak(s, drift, 3.4, e.s.strong)
	if foot := e.turned(s.X, s.Y, drift); math.Hypot(s.X, s.Y) < 1 {
		e.disc(foot.X, foot.Y, 4.5*e.w, e.s.strong, none, 0)
	}
}

// flame draws a float burning on the water and its wake.
func (e eye) flame(d DriftSight) {
	at := Streak{X: 0.30, Y: 0.12, Length: streakLeast}
	if len(d.Streaks) > 0 {
		at = d.Streaks[0]
	}
	foot, end := e.turned(at.X, at.Y, d.Drift), e.turned(at.X, at.Y-floatWake, d.Drift)
	// The wake is gone before the float enters again elsewhere.
	there := math.Max(0, math.Min(1, at.Length/streakLeast))
	e.wire(foot, end, 2, paint.Alpha(e.s.flame, there), 3*e.w, 7*e.w)
	if math.Hypot(at.X, at.Y) < 1 {
		e.disc(foot.X, foot.Y, 10*e.w, paint.Alpha(e.s.flame, 0.22), none, 0)
		e.disc(foot.X, foot.Y, 5.5*e.w, e.s.flame, e.C.Brass, 1.5*e.w)
	}
}

// overcast fills the view with the tops of clouds, from the top down.
func (e eye) overcast() {
	const rows, columns = 7, 6
	for row := range rows {
		for col := range columns {
			h := hashOf(int64(col), int64(row))
			x := -1 + 2*(float64(col)+0.5*float64(row%2)+0.4*share(h))/columns
			y := -0.95 + 2.0*(float64(row)+0.4*share(h>>20))/rows
			radius := 0.24 + 0.10*share(h>>40)
			// No more may hang over the edge than the ring covers.
			if over := (math.Hypot(x, y) + radius) * eyeView; over > 0.98 {
				x, y = x*(0.98/eyeView-radius)/math.Hypot(x, y), y*(0.98/eyeView-radius)/math.Hypot(x, y)
			}
			p := e.At(x, y)
			e.disc(p.X, p.Y, radius*e.View(), paint.Mix(e.s.ground, e.s.faint, 0.55), e.s.faint, 1.2*e.w)
		}
	}
}

// driftWires draws the five wires and the dashed one across them.
func (e eye) driftWires(deg float64) {
	for _, k := range []float64{-0.5, -0.25, 0, 0.25, 0.5} {
		width := 1.5
		if k == 0 {
			width = 2.6
		}
		e.wire(e.turned(k, -1, deg), e.turned(k, 1, deg), width, e.s.strong)
	}
	e.wire(e.turned(-1, 0, deg), e.turned(1, 0, deg), 1.2, e.s.strong, 5*e.w, 5*e.w)
}

// timingWires draws the two wires across the others between which something is timed; the
// one that is waited for is broad.
func (e eye) timingWires(d DriftSight) {
	if d.Across <= 0 || d.Across >= 1 {
		return
	}
	reach := math.Sqrt(1 - d.Across*d.Across)
	for _, y := range []float64{-d.Across, d.Across} {
		width, c := 1.5, e.s.strong
		if (y > 0) == d.Timing {
			width, c = 3.2, e.s.flame
		}
		e.wire(e.turned(-reach, y, d.Wires), e.turned(reach, y, d.Wires), width, c)
	}
}

// driftScale draws the fixed scale, 20 L to 20 R, and its letters.
func (e eye) driftScale() {
	for d := -driftScale; d <= driftScale; d++ {
		length, width := 0.045, 1.1
		switch {
		case d%10 == 0:
			length, width = 0.10, 2
		case d%5 == 0:
			length, width = 0.075, 2
		}
		deg := float64(d) * DriftGear
		e.tick(e.X, e.Y, e.R*1.02, e.R*(1.02+length), deg, width*e.w, e.C.Ink)
		if d%10 == 0 {
			e.outside(1.21, 1.12, deg, strconv.Itoa(max(d, -d)), 0.094, e.C.Ink2)
		}
	}
	e.arc(e.X, e.Y, e.R*1.02, -driftScale*DriftGear, driftScale*DriftGear, 1.6*e.w, e.C.Ink)
	e.outside(1.2, 1.05, -driftLetterAt, look.Text(look.EyepieceLeft), 0.106, e.C.Ink)
	e.outside(1.2, 1.05, driftLetterAt, look.Text(look.EyepieceRight), 0.106, e.C.Ink)
}
