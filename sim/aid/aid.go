package aid

import (
	"math"

	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim/sky"
)

// The drift sight: the standard deviations of its own error, and of that of its timing
// wires, of one.
const (
	driftIndex  = 0.3 * units.Degree
	timingIndex = 0.01
)

// Drift is what the drift sight shows: the sea running by under it.
func Drift(w *World, s *aboard.Scene) {
	s.Along = units.WrapHalf(w.Track-w.Heading) + units.Angle(w.fixed("drift sight"))*driftIndex
	s.Rate = float64(w.Groundspeed) / math.Max(100, float64(w.Height)) * (1 + timingIndex*w.fixed("drift sight timing"))
}

// The loop: a residual quadrantal error, an error of mounting, what wavers each
// second, and how far it hears.
const (
	loopQuadrant = 0.8 * units.Degree
	loopIndex    = 0.6 * units.Degree
	loopWaver    = 0.25 * units.Degree
	LoopRange    = 250 * units.NM
	skyWaveFrom  = 100 * units.NM
)

// Loop is what the loop hears of a station. At night, where the sky wave comes in, the
// null wavers and blurs (from memory).
func Loop(w *World, station units.Position, s *aboard.Scene) {
	az, _, d := geodesy.GeodesicInverse(w.At, station)
	if d > LoopRange {
		s.Missing = aboard.TooFar
		return
	}
	r, waver, far := az-w.Heading, loopWaver, float64(d/LoopRange)
	s.Floor = 0.02 + 0.10*far*far
	if s.Night && d > skyWaveFrom {
		waver *= 8
		s.Floor *= 2
	}
	s.Null = units.Wrap(r + loopQuadrant*units.Angle(math.Sin(2*r.Radians())) +
		units.Angle(w.fixed("loop"))*loopIndex + units.Angle(w.flicker("loop", 16))*waver)
}

// The pulse receiver: its own error and how far the chain is heard. About 400 miles
// and better than about 6 there: common practice, no source.
const (
	pulseIndex = 0.3 // us
	pulseWaver = 0.4 // us, each ten minutes
	PulseRange = 450 * units.NM
)

// Pulse is what the pulse receiver shows of a pair of stations.
func Pulse(w *World, master, secondary units.Position, s *aboard.Scene) {
	dm := geodesy.Distance(w.At, master)
	ds := geodesy.Distance(w.At, secondary)
	if max(dm, ds) > PulseRange {
		s.Missing = aboard.TooFar
		return
	}
	s.Delay = airplot.ChainPair(master, secondary).At(w.At).Microseconds() +
		w.fixed("pulse receiver")*pulseIndex + w.flicker("pulse receiver", 600*16)*pulseWaver
	s.Noise = 0.02 + 0.06*float64(max(dm, ds)/PulseRange)
}

// The sextant: its index error, and how the bubble swings.
const (
	sextantIndex = 0.8 * units.ArcMinute
	slowSwing    = 7 * units.ArcMinute
	fastSwing    = 4 * units.ArcMinute
	tremble      = 1.5 * units.ArcMinute
)

// Bodies lower or higher than these are not taken with the sextant.
const (
	lowestBody  = 10 * units.Degree
	highestBody = 80 * units.Degree
)

// Sextant is what stands in the sextant that is pointed at a body.
func Sextant(w *World, over *sky.Sky, b sky.Body, s *aboard.Scene) {
	h, az := over.Seen(b, w.At, sight.ThinAir(w.Pressure, w.Temperature))
	if s.Missing = seen(w, over, b, h); s.Missing != aboard.Had {
		return
	}
	m := sky.Motion{Latitude: w.At.Lat, Track: w.Track, Groundspeed: w.Groundspeed, TurnPerSecond: units.Angle(w.TurnRate)}
	t := float64(w.Tick) / 16
	swing := func(name string, period float64) units.Angle {
		return units.Angle(math.Sin(2*math.Pi*t/period + w.phase(name)))
	}
	s.Altitude = h + m.Misread(az) + units.Angle(w.fixed("sextant"))*sextantIndex
	s.Wander = slowSwing*swing("slow", 47) + fastSwing*swing("fast", 13) + tremble*units.Angle(w.flicker("tremble", 4))
	s.Aside = slowSwing*swing("aside slow", 39) + fastSwing*swing("aside fast", 11) + tremble*units.Angle(w.flicker("aside tremble", 4))
}

// seen says whether a body that stands so high can be taken.
func seen(w *World, over *sky.Sky, b sky.Body, h units.Angle) aboard.Missing {
	switch {
	case h < lowestBody || h > highestBody:
		return aboard.TooLow
	case b.IsStar() && over.Light(w.At) < sky.NauticalTwilight:
		return aboard.TooLight
	}
	return aboard.Had
}

// checkIndex is the standard deviation of the error of the heading check's mounting.
const checkIndex = 0.3 * units.Degree

// HeadingCheck is what stands under the lubber when a body is sighted truly over a
// ring that is set to its azimuth.
func HeadingCheck(w *World, over *sky.Sky, b sky.Body, s *aboard.Scene) {
	h, _ := over.Seen(b, w.At, sight.ThinAir(w.Pressure, w.Temperature))
	if s.Missing = seen(w, over, b, h); s.Missing == aboard.Had {
		s.Heading = units.Wrap(w.Heading + units.Angle(w.fixed("heading check"))*checkIndex)
	}
}

// clearDay is how far one sees at most, and under is how near a place must be to be
// taken as a pinpoint: an angle down that can be told by eye (common practice, no
// source).
const (
	clearDay = 40 * units.NM
	nearby   = 4 * units.NM
)

// InSight says whether a place is in sight: above the horizon of the height, on a
// clear day, 1.17 root of the feet (from memory).
func InSight(w *World, place units.Position) bool {
	d := geodesy.Distance(w.At, place)
	return d < clearDay && d.NM() < 1.17*math.Sqrt(math.Max(0, w.Height.Feet()))
}

// Pinpoint is a place under the wing.
func Pinpoint(w *World, place units.Position, s *aboard.Scene) {
	if d := geodesy.Distance(w.At, place); d > nearby || !InSight(w, place) {
		s.Missing = aboard.OutOfSight
	}
}
