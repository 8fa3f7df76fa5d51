package airplot

import (
	"errors"
	"math"
	"time"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Leg is a part of the air plot flown on one heading.
type Leg struct {
	Heading units.TrueHeading
	TAS     units.Speed
	Elapsed time.Duration
}

// AirPosition plots legs from a position: a rhumb line for each. The error is
// that of a leg that would run over a pole.
func AirPosition(start units.AirPosition, legs []Leg) (units.AirPosition, error) {
	p := units.Position(start)
	for _, l := range legs {
		next, err := geodesy.RhumbDirect(p, units.Angle(l.Heading), over(l.TAS, l.Elapsed))
		if err != nil {
			return start, err
		}
		p = next
	}
	return units.AirPosition(p), nil
}

// DRPosition is the ground position deduced from an air position and the wind
// since the plot was begun: a rhumb line downwind.
func DRPosition(air units.AirPosition, wind units.Wind, sinceReset time.Duration) (units.GroundPosition, error) {
	p, err := geodesy.RhumbDirect(units.Position(air), wind.From+math.Pi, over(wind.Speed, sinceReset))
	return units.GroundPosition(p), err
}

// NewDR carries a DR position or a fix on along a track.
func NewDR(from units.GroundPosition, track units.Angle, groundspeed units.Speed, elapsed time.Duration) (units.GroundPosition, error) {
	p, err := RunOver(track, groundspeed, elapsed).Forward(units.Position(from))
	return units.GroundPosition(p), err
}

// TrackMade is the track and groundspeed made good on a heading.
func TrackMade(heading units.TrueHeading, tas units.Speed, wind units.Wind) (track units.Angle, groundspeed units.Speed) {
	north, east := wind.Velocity()
	v := toward(units.Angle(heading), float64(tas))
	v = vector{v.north + float64(north), v.east + float64(east)}
	return v.direction(), units.Speed(v.size())
}

// ErrWindTooStrong is the error where no heading makes the track good.
var ErrWindTooStrong = errors.New("the wind is too strong: no heading makes that track good")

// HeadingFor is the heading that makes a track good, and the groundspeed:
// sin(H - T) = (W/TAS) sin(D - T), GS = TAS cos(H - T) - W cos(D - T), with D
// where the wind W comes from.
func HeadingFor(track units.Angle, tas units.Speed, wind units.Wind) (units.TrueHeading, units.Speed, error) {
	sD, cD := math.Sincos(float64(wind.From - track))
	across := float64(wind.Speed) * sD
	if !(math.Abs(across) <= float64(tas)) || tas == 0 {
		return 0, 0, ErrWindTooStrong
	}
	along := math.Sqrt((float64(tas)-across)*(float64(tas)+across)) - float64(wind.Speed)*cD
	if along <= 0 {
		return 0, 0, ErrWindTooStrong
	}
	heading := track + units.Angle(math.Asin(across/float64(tas)))
	return units.TrueHeading(units.Wrap(heading)), units.Speed(along), nil
}

// Passage is the way to a destination.
type Passage struct {
	Track       units.Angle
	Distance    units.Length
	Heading     units.TrueHeading
	Groundspeed units.Speed
	Elapsed     time.Duration // to the nanosecond
}

// ToDestination works the alteration of heading: the rhumb line from a position
// to a destination, the heading for it and the time that it takes. Without a
// wind the heading is the track.
func ToDestination(from, to units.GroundPosition, tas units.Speed, wind units.Wind) (Passage, error) {
	track, distance := geodesy.RhumbInverse(units.Position(from), units.Position(to))
	heading, groundspeed, err := HeadingFor(track, tas, wind)
	if err != nil {
		return Passage{}, err
	}
	seconds := distance.Metres() / groundspeed.MetresPerSecond()
	if seconds > math.MaxInt64/1e9 {
		return Passage{}, ErrWindTooStrong // centuries
	}
	return Passage{track, distance, heading, groundspeed, time.Duration(math.Round(seconds * 1e9))}, nil
}

// ETA is the estimated time of arrival of a passage that begins at a time.
func (p Passage) ETA(begins time.Time) time.Time { return begins.Add(p.Elapsed) }

// TrackError is how a track made good differs from the required one and what
// brings the aircraft to the destination; both angles are positive for an
// aircraft off to either side, Alter is their sum, toward the required track.
type TrackError struct{ Error, Closing, Alter units.Angle }

// OneInSixty works a track error by the rule that a mile in sixty is a degree:
// it reads 4.7 % more than the tangent for small angles.
func OneInSixty(run, off, toGo units.Length) TrackError {
	return trackError(60*units.Degree*units.Angle(off/run), 60*units.Degree*units.Angle(off/toGo))
}

// ExactTrackError works it by the tangent, distances being measured along the
// required track.
func ExactTrackError(run, off, toGo units.Length) TrackError {
	arc := func(along units.Length) units.Angle {
		return units.Angle(math.Atan2(off.Metres(), along.Metres()))
	}
	return trackError(arc(run), arc(toGo))
}

func trackError(e, c units.Angle) TrackError { return TrackError{e, c, e + c} }

// Doubt is what the dead reckoning rests on, one standard deviation each; the
// wind's is that of each component.
type Doubt struct {
	Heading units.Angle
	TAS     units.Speed
	Wind    units.Speed
}

// Growth is how far the DR position may be out after some time on one heading,
// one standard deviation, if the errors stay as they are: along and across the
// heading.
func (d Doubt) Growth(tas units.Speed, elapsed time.Duration) (along, across units.Length) {
	wind := over(d.Wind, elapsed).Metres()
	return units.Length(math.Hypot(over(d.TAS, elapsed).Metres(), wind)),
		units.Length(math.Hypot(over(tas, elapsed).Metres()*d.Heading.Radians(), wind))
}

// WindGrowth is how far, one standard deviation of each component, a wind error
// of one standard deviation carries the DR position off while it changes with a
// correlation time: s sqrt(2 tau (t - tau (1 - exp(-t/tau)))).
func WindGrowth(sigma units.Speed, correlation, elapsed time.Duration) units.Length {
	tau, t := correlation.Seconds(), elapsed.Seconds()
	return units.Length(sigma.MetresPerSecond() * math.Sqrt(2*tau*(t+tau*math.Expm1(-t/tau))))
}
