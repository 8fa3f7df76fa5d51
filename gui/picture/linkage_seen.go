package picture

import (
	"math"
	"time"

	"stillair/gui/paint"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// seen is what can be seen of a Linkage: places rounded to half a pixel, so that
// a part is the same picture as long as its key is the same, and the words that
// are not rounded.
type seen struct {
	Linkage
	compass, heading, temperature string
	strip                         stripSeen
	curve                         [37]float64 // of the compass, if that may be seen
}

// take takes a moment in, to be drawn at f pixels to a unit.
func (n *seen) take(l *Linkage, f float64) {
	n.Linkage = *l
	h := &n.Hands
	n.compass, n.heading = units.CompassText(units.Angle(h.Compass)), h.Heading.String()
	n.temperature = minusSign(units.Figure(h.Temperature.Celsius(), 1)) + " C"
	n.Turns.round(2*turnPitch*f, n.Fast)
	fine := math.Max(1, f)
	if h.TrueCurve != nil {
		for i, v := range h.TrueCurve {
			n.curve[i] = down(v, 100*fine)
		}
		h.TrueCurve = &n.curve
	}
	h.Impact = down(h.Impact, 20*fine)
	h.Temperature = units.Temperature(down(float64(h.Temperature), 4*fine))
	h.Compass = units.MagneticHeading(degrees(units.Angle(h.Compass), 2*fine))
	h.Heading = units.TrueHeading(degrees(units.Angle(h.Heading), 4*fine))
	h.Setter = units.Variation(math.Round(float64(h.Setter)/float64(units.Degree)*10) / 10 * float64(units.Degree))
	h.BallNorth, h.BallEast = down(h.BallNorth, 120*fine), down(h.BallEast, 120*fine)
	h.Gear, h.GroundGear = degrees(h.Gear, 3*fine), degrees(h.GroundGear, 3*fine)
	h.Clock = h.Clock.Truncate(time.Duration(5/fine) * time.Second)
	for _, r := range []*counter.Reading{
		&h.AirLog, &h.AirCounters.Latitude, &h.AirCounters.Longitude, &h.GroundCounts.Latitude, &h.GroundCounts.Longitude,
	} {
		roundDrums(r, 100*fine, n.Fast)
	}
}

// round leaves the part of a turn that shows: none of what turns too fast.
func (t *Turns) round(steps float64, fast bool) {
	for _, v := range []*float64{
		&t.AirLog, &t.Drive, &t.North, &t.East, &t.Longitude, &t.Heading, &t.WindNorth, &t.WindEast,
		&t.GroundNorth, &t.GroundEast, &t.GroundLongitude, &t.Wind,
	} {
		if fast {
			*v = 0
		}
		*v = down(*v-math.Floor(*v), steps)
	}
}

func roundDrums(r *counter.Reading, steps float64, fast bool) {
	for i := range r.Drums {
		r.Drums[i] = down(r.Drums[i], steps)
	}
	if fast {
		r.Drums[0] = 0
	}
	r.LetterTurn = down(r.LetterTurn, steps)
}

// down rounds to a step below.
func down(v, steps float64) float64 { return math.Floor(v*steps) / steps }

func degrees(a units.Angle, steps float64) units.Angle {
	return units.Angle(down(a.Degrees(), steps)) * units.Degree
}

// minusSign gives a negative figure the sign of print.
func minusSign(figure string) string {
	if figure != "" && figure[0] == '-' {
		return "\u2212" + figure[1:]
	}
	return figure
}

// partKey gathers what a part depends on.
type partKey struct{ sum uint64 }

const keySeed = 14695981039346656037

// keyOf works a part's key out in k.
func (p *part) keyOf(l *seen, k *partKey) uint64 {
	k.sum = keySeed
	if p.key != nil {
		p.key(l, k)
	}
	return k.sum
}

func (k *partKey) put(all ...float64) {
	for _, v := range all {
		k.mix(math.Float64bits(v))
	}
}

func (k *partKey) points(all ...paint.Point) {
	for _, p := range all {
		k.put(p.X, p.Y)
	}
}

func (k *partKey) mix(v uint64) { k.sum = (k.sum ^ v) * 1099511628211 }

func (k *partKey) words(all ...string) {
	for _, s := range all {
		for i := range len(s) {
			k.mix(uint64(s[i]))
		}
		k.mix(1 << 20)
	}
}

// said takes in all that is written at a link.
func (k *partKey) said(l *seen, of Link) {
	s := &l.Links[of]
	k.words(s.Value, s.Unit, s.Note[0], s.Note[1], s.Wrong[0], s.Wrong[1])
}

// counter takes in where drums stand.
func (k *partKey) counter(c *counter.Reading) {
	k.put(c.Drums[:]...)
	k.put(c.LetterTurn)
	k.mix(uint64(c.Letter))
}
