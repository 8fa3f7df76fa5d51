package airplot

import (
	"errors"
	"math"
	"time"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Errors of wind finding.
var (
	ErrNoTime       = errors.New("the time must be above 0")
	ErrTooFewDrifts = errors.New("drift must be read on two headings at least")
	ErrDrift        = errors.New("a true airspeed must be above 0 and a drift below 90 degrees")
)

// WindFound is the air plot's wind: the rhumb line from the air position to the
// fix is what the wind has done since the plot was begun.
func WindFound(air units.AirPosition, fix units.GroundPosition, sinceReset time.Duration) (units.Wind, error) {
	if sinceReset <= 0 {
		return units.Wind{}, ErrNoTime
	}
	course, distance := geodesy.RhumbInverse(units.Position(air), units.Position(fix))
	if distance == 0 {
		return units.Wind{}, nil
	}
	return units.Wind{From: units.Wrap(course + math.Pi),
		Speed: units.Speed(distance.Metres() / sinceReset.Seconds())}, nil
}

// WindFromTrack is the wind from heading and airspeed, drift and groundspeed.
func WindFromTrack(heading units.TrueHeading, tas units.Speed, drift units.Angle, groundspeed units.Speed) units.Wind {
	w := toward(units.Angle(heading)+drift, float64(groundspeed)).minus(toward(units.Angle(heading), float64(tas)))
	return units.WindOf(units.Speed(w.north), units.Speed(w.east))
}

// Drift is a drift reading on a heading.
type Drift struct {
	Heading units.TrueHeading
	TAS     units.Speed
	Drift   units.Angle // right +
}

// read is the drift that a wind, toward w in m/s, gives on the heading.
func (d Drift) read(w vector) units.Angle {
	h := toward(units.Angle(d.Heading), float64(d.TAS))
	ground := vector{h.north + w.north, h.east + w.east}
	return units.Angle(math.Atan2(h.cross(ground), h.dot(ground)))
}

// track is the unit vector along the track made.
func (d Drift) track() vector { return toward(units.Angle(d.Heading)+d.Drift, 1) }

// WindFromDrifts is the wind from drift on two or more headings: least squares
// of the drift angles, from the crossing of the wind lines
// wE cos T - wN sin T = TAS sin d. The other result is the root mean square of
// what is left of the drifts. The error is a *ParallelError where the tracks
// cut badly.
func WindFromDrifts(readings []Drift) (units.Wind, units.Angle, error) {
	w, err := driftLines(readings)
	if err != nil {
		return units.Wind{}, 0, err
	}
	for range 50 {
		step := driftStep(readings, w)
		w = vector{w.north + step.north, w.east + step.east}
		if step.size() < 1e-9 {
			break
		}
	}
	left := 0.0
	for _, d := range readings {
		left += squared(float64(units.WrapHalf(d.Drift - d.read(w))))
	}
	if math.IsNaN(left) {
		return units.Wind{}, 0, ErrDrift
	}
	rms := units.Angle(math.Sqrt(left / float64(len(readings))))
	return units.WindOf(units.Speed(w.north), units.Speed(w.east)), rms, nil
}

func squared(x float64) float64 { return x * x }

// driftLines is the linear form: where the wind lines cross, weighted by the
// groundspeeds.
func driftLines(readings []Drift) (vector, error) {
	if len(readings) < 2 {
		return vector{}, ErrTooFewDrifts
	}
	var s system
	for _, d := range readings {
		if !(d.TAS > 0 && math.Abs(float64(d.Drift)) < math.Pi/2) {
			return vector{}, ErrDrift
		}
		t := d.track()
		s.gradients = append(s.gradients, vector{-t.east, t.north})
		s.departures = append(s.departures, float64(d.TAS)*math.Sin(float64(d.Drift)))
	}
	if cut := s.cut(); cut < LeastCut {
		return vector{}, &ParallelError{cut}
	}
	return s.step(0), nil
}

// driftStep is the Gauss-Newton step of the drift angles: a wind across the
// track turns it by its part across over the groundspeed.
func driftStep(readings []Drift, w vector) vector {
	var s system
	for _, d := range readings {
		h := toward(units.Angle(d.Heading), float64(d.TAS))
		g := vector{h.north + w.north, h.east + w.east}
		k := 1 / g.dot(g)
		s.gradients = append(s.gradients, vector{-g.east * k, g.north * k})
		s.departures = append(s.departures, float64(units.WrapHalf(d.Drift-d.read(w))))
	}
	return s.step(0)
}

// GroundspeedByTiming is the groundspeed from the time that an object takes
// between two sighting angles from the vertical, ahead +.
func GroundspeedByTiming(height units.Length, first, second units.Angle, elapsed time.Duration) (units.Speed, error) {
	if elapsed <= 0 {
		return 0, ErrNoTime
	}
	run := height.Metres() * (math.Tan(float64(first)) - math.Tan(float64(second)))
	return units.Speed(run / elapsed.Seconds()), nil
}

// DriftByTiming is the drift from the times that an object takes from the
// relative bearing 045 to 090 and on to 135 (to port: 315, 270, 225):
// tan d = (t1 - t2)/(t1 + t2), the sign reversed to port. Neither height nor
// speed is needed.
func DriftByTiming(toBeam, fromBeam time.Duration, port bool) (units.Angle, error) {
	t1, t2 := toBeam.Seconds(), fromBeam.Seconds()
	if t1 <= 0 || t2 <= 0 {
		return 0, ErrNoTime
	}
	d := math.Atan2(t1-t2, t1+t2)
	if port {
		d = -d
	}
	return units.Angle(d), nil
}
