package aid

import (
	"math"

	"stillair/integrator/geodesy"
	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// DriftScene is what the drift sight shows: the sea running by under it.
type DriftScene struct {
	Along units.Angle // the way the streaks run, off the nose, to the right +: the drift and the sight's own error
	Rate  float64     // how fast they run, heights a second: groundspeed over height
}

// driftIndex is the standard deviation of the sight's own error.
const driftIndex = 0.3 * units.Degree

// Drift is what the drift sight shows.
func Drift(w *World) DriftScene {
	d := units.WrapHalf(w.Track - w.Heading)
	h := math.Max(100, float64(w.Height))
	return DriftScene{Along: d + units.Angle(w.fixed("drift sight"))*driftIndex, Rate: float64(w.Groundspeed) / h}
}

// LoopScene is what the loop hears of a station.
type LoopScene struct {
	Null  units.Angle // relative bearing of the weakest signal, that end of the two which is the station's
	Floor float64     // the signal there, of one: noise
}

// The loop: a residual quadrantal error, an error of mounting, what wavers each
// second, and how far it hears.
const (
	loopQuadrant = 0.8 * units.Degree
	loopIndex    = 0.6 * units.Degree
	loopWaver    = 0.25 * units.Degree
	LoopRange    = 250 * units.NM
)

// Loop is what the loop hears of a station; ok is false beyond its range. At night
// beyond 100 NM the sky wave makes the null waver and blur (from memory).
func Loop(w *World, station units.Position, night bool) (s LoopScene, ok bool) {
	az, _, d := geodesy.GeodesicInverse(w.At, station)
	if d > LoopRange {
		return s, false
	}
	r := az - w.Heading
	waver := loopWaver
	far := float64(d / LoopRange)
	s.Floor = 0.02 + 0.10*far*far
	if night && d > 100*units.NM {
		waver = 8 * waver
		s.Floor *= 2
	}
	s.Null = r + loopQuadrant*units.Angle(math.Sin(2*r.Radians())) +
		units.Angle(w.fixed("loop"))*loopIndex + units.Angle(w.flicker("loop", 16))*waver
	return s, true
}

// Signal is how strong the loop hears at a relative bearing: none at the null but
// for the floor.
func (s LoopScene) Signal(at units.Angle) float64 {
	return s.Floor + (1-s.Floor)*math.Abs(math.Sin((at-s.Null).Radians()))
}

// PulseScene is what the pulse receiver shows of a pair of stations.
type PulseScene struct {
	Delay float64 // us from the master's pulse to the secondary's
	Noise float64 // of the traces, of the height of a pulse at 100 NM
}

// The pulse chain: the delay at which a secondary answers beyond what the waves need,
// the speed of the waves in air, the receiver's own error and how far it is heard.
// About 400 miles and better than about 6 there: common practice, no source.
const (
	PulseDelay = 1000.0              // us
	WaveSpeed  = 299.792458 / 1.0003 // m/us; the index from memory
	pulseIndex = 0.3                 // us
	pulseWaver = 0.4                 // us, each ten minutes
	PulseRange = 450 * units.NM
)

// Pulse is what the pulse receiver shows; ok is false beyond its range.
func Pulse(w *World, master, secondary units.Position) (s PulseScene, ok bool) {
	_, _, dm := geodesy.GeodesicInverse(w.At, master)
	_, _, ds := geodesy.GeodesicInverse(w.At, secondary)
	if max(dm, ds) > PulseRange {
		return s, false
	}
	_, _, base := geodesy.GeodesicInverse(master, secondary)
	s.Delay = PulseDelay + float64(base+ds-dm)/WaveSpeed +
		w.fixed("pulse receiver")*pulseIndex + w.flicker("pulse receiver", 600*16)*pulseWaver
	s.Noise = 0.02 + 0.06*float64(max(dm, ds)/PulseRange)
	return s, true
}

// SextantScene is what stands in the bubble sextant: where the body is, seen from the
// middle of the bubble's field, and where the bubble has wandered to.
type SextantScene struct {
	Altitude units.Angle // of the body over what the bubble takes for the horizon, without the bubble's wander
	Wander   units.Angle // of the bubble, up +
	Aside    units.Angle // of the bubble, to the right +
}

// The sextant: its index error, and how the bubble swings.
const (
	sextantIndex = 0.8 * units.ArcMinute
	slowSwing    = 7 * units.ArcMinute
	fastSwing    = 4 * units.ArcMinute
	tremble      = 1.5 * units.ArcMinute
	gravity      = 9.80665
)

// Body is a body in the sky, seen from the middle of the earth, with its parallax at
// the horizon.
type Body struct {
	GHA, Declination units.Angle
	Parallax         units.Angle
}

// Sextant is what stands in the sextant pointed at a body.
func Sextant(w *World, b Body, p units.Pressure, t units.Temperature) SextantScene {
	h, az := sight.Reduce(w.At, b.GHA, b.Declination)
	h -= sight.ParallaxInAltitude(b.Parallax, h)
	shift := sight.BubbleShift(w.Groundspeed, w.At.Lat, w.Track, 0)
	right := math.Sin((az - w.Track).Radians())
	lean := units.Angle(right * math.Atan(float64(w.TAS)*w.TurnRate/gravity)) // in a turn; what is small in its law is not small here
	s := w.seconds()
	swing := func(name string, period float64) units.Angle {
		return units.Angle(math.Sin(2*math.Pi*s/period + w.phase(name)))
	}
	return SextantScene{
		Altitude: sight.Lifted(h, sight.ThinAir(p, t)) - shift.AltitudeCorrection(az, w.Track) + lean +
			units.Angle(w.fixed("sextant"))*sextantIndex,
		Wander: slowSwing*swing("slow", 47) + fastSwing*swing("fast", 13) + tremble*units.Angle(w.flicker("tremble", 4)),
		Aside:  slowSwing*swing("aside slow", 39) + fastSwing*swing("aside fast", 11) + tremble*units.Angle(w.flicker("aside tremble", 4)),
	}
}

// checkIndex is the standard deviation of the error of the heading check's mounting.
const checkIndex = 0.3 * units.Degree

// HeadingCheck is the true heading under the lubber when the ring stands for the
// azimuth of a body that is sighted truly.
func HeadingCheck(w *World) units.Angle {
	return units.Wrap(w.Heading + units.Angle(w.fixed("heading check"))*checkIndex)
}

// Sight range of an island or a light, from a height: the horizon, and no more than
// on a clear day (common practice, no source).
const clearDay = 40 * units.NM

// InSight says whether a place is in sight.
func InSight(w *World, place units.Position) bool {
	_, _, d := geodesy.GeodesicInverse(w.At, place)
	return d < clearDay && d.NM() < 1.17*math.Sqrt(math.Max(0, w.Height.Feet()))
}
