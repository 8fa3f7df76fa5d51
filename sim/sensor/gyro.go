package sensor

import (
	"math"

	"stillair/integrator/units"
)

// Master is the master gyro. It follows a turn at once and keeps its direction
// in space; slaving leads it to the magnetic element.
//
//	Zero    reading less true heading, what a gyro left alone keeps
//	dZero/dt = drift - w (sin lat - sin nut) - (V_E/R) tan lat       wander
//
// with w = 15.041067 deg/h, V_E the ground speed towards the east and R the
// sphere on which a minute is a nautical mile (mechanism note 5.3, navigation
// note 6.2). An ideal gyro is led at once, so that it reads what the element
// reads.
type Master struct {
	Zero units.Angle
	// Dragged is how far turns have dragged it, DragRate how fast it comes back.
	Dragged  units.Angle
	DragRate float64
}

const (
	earthRate   = 15.041067 * DegreePerHour
	earthRadius = 1852 * 10800 / math.Pi // m
	poleward    = 89.9 * units.Degree    // tan lat grows no further
)

func (s *State) headingIdeal() bool {
	return s.Wrong.Compass == (Compass{}) && s.Wrong.Gyro == (Gyro{}) && s.Master.Dragged == 0
}

// real says whether the gyro has a heading of its own to remember.
func (g *Gyro) real() bool { return g.Free || g.Slaving > 0 || g.DeadBand > 0 }

// runMaster gives the reading of the master.
func (s *State) runMaster(w *World, dt float64) units.CompassHeading {
	g, m := &s.Wrong.Gyro, &s.Master
	led := units.Angle(s.Compass) + g.Residual
	if g.real() {
		m.Zero = units.WrapHalf(m.Zero + units.Angle(0.5*(g.wander(&s.Last)+g.wander(w))*dt))
		if !g.Free {
			m.Zero -= g.lead(units.WrapHalf(m.Zero+units.Angle(w.Heading)-led), weakness(w.Force), dt)
		}
		led = units.Angle(w.Heading) + m.Zero
	} else {
		m.Zero = units.WrapHalf(led - units.Angle(w.Heading))
	}
	m.drag(g, w.Turned, dt)
	return units.CompassHeading(units.Wrap(led + m.Dragged))
}

// wander is the rate of a gyro left alone, rad/s.
func (g *Gyro) wander(w *World) float64 {
	rate := g.Drift
	if g.EarthRate {
		rate -= earthRate * math.Sin(float64(w.Latitude))
	}
	if g.LatitudeNut != 0 {
		rate += earthRate * math.Sin(float64(g.LatitudeNut))
	}
	if g.Transport {
		lat := max(-poleward, min(poleward, w.Latitude))
		east := float64(w.TAS)*math.Sin(float64(w.Heading)) + float64(w.WindEast)
		rate -= east / earthRadius * math.Tan(float64(lat))
	}
	return rate
}

// lead is how far a gyro that is off by so much is led back: to the edge of the
// dead band, as fast as the slaving goes.
func (g *Gyro) lead(off units.Angle, weak, dt float64) units.Angle {
	excess := math.Abs(float64(off)) - float64(g.DeadBand)*weak
	if excess <= 0 {
		return 0
	}
	if g.Slaving > 0 {
		excess = math.Min(excess, g.Slaving/weak*dt)
	}
	return units.Angle(math.Copysign(excess, float64(off)))
}

// drag lets the tilted element drag the gyro in a turn, and the gyro come back
// after it. Slow turns have little bank, and no drag.
func (m *Master) drag(g *Gyro, turned units.Angle, dt float64) {
	if dt == 0 {
		return
	}
	if g.Drag != 0 && !g.Free && math.Abs(float64(turned)) > g.CutOut*dt {
		m.DragRate = math.Abs(g.Drag)
		m.Dragged += units.Angle(g.Drag * dt)
		return
	}
	back := math.Min(math.Abs(float64(m.Dragged)), m.DragRate*dt)
	m.Dragged -= units.Angle(math.Copysign(back, float64(m.Dragged)))
	if math.Abs(float64(m.Dragged)) < 1e-13 { // rad: what rounding leaves
		m.Dragged = 0
	}
}

// OverPole turns the gyro's zero about with the meridian.
func (s *State) OverPole() {
	s.Master.Zero = units.WrapHalf(s.Master.Zero + math.Pi)
	s.Last.Heading = units.TrueHeading(units.Wrap(units.Angle(s.Last.Heading) + math.Pi))
}

// MasterOffset is how much the master reads above the true heading when it
// reads so much, v being the variation.
func (s *State) MasterOffset(reads units.Angle, v units.Variation) units.Angle {
	g, m := &s.Wrong.Gyro, &s.Master
	switch {
	case s.headingIdeal():
		return -units.Angle(v)
	case g.real():
		return m.Zero + m.Dragged
	}
	off := g.Residual + m.Dragged
	return off + s.CompassOffset(reads-off, v)
}
