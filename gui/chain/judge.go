package chain

import (
	"math"

	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/sim"
)

// Verdict is how a link stands to the truth.
type Verdict struct {
	Stands picture.Standing
	Flag   string    // of a broken link, in plain words
	Wrong  [2]string // what its plate says wrongly, and what is right; "" if it agrees
}

// off is by how much what a link passes on is off, and what is still called
// right: a choice of this project, set so that the healthy imperfections of the
// service class, the lags of a turn and the mechanism's spherical earth (at most
// 0.52 in 100 of the way) stay inside.
type off struct{ by, tol float64 }

func (o off) wrong() bool { return math.Abs(o.by) > o.tol }

// shows is whether the error is to be seen at all downstream of a broken link.
func (o off) shows() bool { return math.Abs(o.by) > 0.1*o.tol }

// moves is the error of what a link passes on at this moment.
func (s *Story) moves(of picture.Link) off {
	w, t := &s.Now, s.Truth
	switch of {
	case picture.LinkPitot:
		return off{(w.Pitot - t.Pitot).Hectopascals(), 1.5}
	case picture.LinkStatic:
		return off{(w.Static - t.Static).Hectopascals(), 1.5}
	case picture.LinkCapsules:
		return off{(w.Pitot - w.Static - t.Pitot + t.Static).Hectopascals(), 1.5}
	case picture.LinkAirLog, picture.LinkCounter:
		return off{(w.TAS - t.TAS).Knots(), speedTolerance(t)}
	case picture.LinkDrive:
		return off{(w.Drive - t.Drive).Knots(), speedTolerance(t)}
	case picture.LinkCompass, picture.LinkDeviation:
		return off{units.WrapHalf(units.Angle(w.Compass - t.Compass)).Degrees(), headingTolerance}
	case picture.LinkVariation:
		return off{units.WrapHalf(units.Angle(w.Sent - t.Sent)).Degrees(), headingTolerance}
	case picture.LinkRepeater:
		return off{units.WrapHalf(units.Angle(w.Heading - t.Heading)).Degrees(), headingTolerance}
	case picture.LinkResolver:
		return off{math.Hypot(w.BallNorth-t.BallNorth, w.BallEast-t.BallEast), 0.04}
	case picture.LinkNorthDisc:
		return off{(w.NorthRate - t.NorthRate).Knots(), rateTolerance}
	case picture.LinkEastDisc:
		return off{(w.EastRate - t.EastRate).Knots(), rateTolerance}
	case picture.LinkLatitude:
		return off{units.Angle(w.Latitude-t.Latitude).Minutes() * 3600, rateTolerance}
	case picture.LinkSecant, picture.LinkLongitude:
		return off{units.Angle(w.Longitude-t.Longitude).Minutes() * 3600 / t.Secant, rateTolerance}
	}
	return s.movesOnGround(of)
}

func (s *Story) movesOnGround(of picture.Link) off {
	w, t := &s.Now, s.Truth
	switch of {
	case picture.LinkClock:
		return off{100 * (w.Clock - t.Clock), 0.2}
	case picture.LinkWind:
		return off{windApart(w.Wind, t.Wind), windTolerance}
	default: // adders, second secant gear, ground counters, marker
		n, e := (w.GroundNorth - t.GroundNorth).Knots(), (w.GroundEast - t.GroundEast).Knots()
		return off{math.Hypot(n, e), rateTolerance + windTolerance}
	}
}

const (
	headingTolerance = 1.5 // degrees
	rateTolerance    = 5.0 // kt, of a component
	windTolerance    = 3.0 // kt, of the vector
	setterTolerance  = 0.55
)

func speedTolerance(t *sim.Works) float64 { return 0.5 + 0.01*t.TAS.Knots() }

// windApart is the length of the difference of two winds, kt.
func windApart(a, b units.Wind) float64 {
	an, ae := a.Velocity()
	bn, be := b.Velocity()
	return units.Speed(math.Hypot(float64(an-bn), float64(ae-be))).Knots()
}

// stands is the error of what a link has summed up, in miles; of a link that
// sums nothing, none.
func (s *Story) stands(of picture.Link) off {
	w, t := &s.Now, s.Truth
	sum := 0.3 + 0.012*t.AirMiles.NM()
	place := 1 + s.healthy()*t.AirMiles.NM()
	apart := func(a, b units.Position) float64 {
		o := sim.OffsetOf(a, b)
		return o.NM()
	}
	switch of {
	case picture.LinkCounter:
		return off{(w.AirMiles - t.AirMiles).NM(), sum}
	case picture.LinkDrive:
		return off{(w.Wound - t.Wound).NM(), sum}
	case picture.LinkNorthDisc:
		return off{(w.North - t.North).NM(), sum}
	case picture.LinkEastDisc:
		return off{(w.East - t.East).NM(), sum}
	case picture.LinkLatitude:
		return off{(w.Air.Lat - t.Air.Lat).Minutes(), place}
	case picture.LinkLongitude:
		return off{units.WrapHalf(w.Air.Lon-t.Air.Lon).Minutes() * math.Cos(float64(t.Air.Lat)), place}
	case picture.LinkGround:
		return off{apart(units.Position(w.Ground), units.Position(t.Ground)), place}
	case picture.LinkMarker:
		return off{apart(units.Position(w.Marker), units.Position(t.Marker)), place}
	}
	return off{0, 1}
}

// healthy is the part of the way by which a sound instrument may be out: that of
// the spherical earth, and in the service class the scale of the air log and a
// degree or so of deviation.
func (s *Story) healthy() float64 {
	if s.Mechanism.Class == integrator.Ideal && len(s.Mechanism.Values) == 0 {
		return 0.008
	}
	return 0.025
}

// before are the links that a link hangs on.
var before = [picture.LinkCount][]picture.Link{
	picture.LinkCapsules:     {picture.LinkPitot, picture.LinkStatic},
	picture.LinkAirLog:       {picture.LinkCapsules},
	picture.LinkCounter:      {picture.LinkAirLog},
	picture.LinkDrive:        {picture.LinkAirLog},
	picture.LinkDeviation:    {picture.LinkCompass},
	picture.LinkVariation:    {picture.LinkDeviation},
	picture.LinkRepeater:     {picture.LinkVariation},
	picture.LinkResolver:     {picture.LinkRepeater},
	picture.LinkNorthDisc:    {picture.LinkDrive, picture.LinkResolver},
	picture.LinkEastDisc:     {picture.LinkDrive, picture.LinkResolver},
	picture.LinkLatitude:     {picture.LinkNorthDisc},
	picture.LinkSecant:       {picture.LinkLatitude, picture.LinkEastDisc},
	picture.LinkLongitude:    {picture.LinkSecant},
	picture.LinkWind:         {picture.LinkClock},
	picture.LinkAdders:       {picture.LinkNorthDisc, picture.LinkEastDisc, picture.LinkWind},
	picture.LinkGroundSecant: {picture.LinkAdders},
	picture.LinkGround:       {picture.LinkAdders, picture.LinkGroundSecant},
	picture.LinkMarker:       {picture.LinkGround},
}

// Judge judges every link. Broken is a link in which a fault is in force, whose
// setting is wrong, or that a hand holds off what is right; what hangs on it and
// moves wrongly carries the error on. A sum that stays wrong after all is mended
// is told on its plate alone: what moves rightly is sound.
func (s *Story) Judge() (all [picture.LinkCount]Verdict) {
	if s.Truth == nil {
		return all
	}
	flags := s.flags()
	for _, l := range Walk() { // every link comes after those it hangs on
		v := &all[l]
		v.Stands = picture.Agrees
		if flag, broken := flags[l]; broken {
			v.Stands, v.Flag = picture.Broken, flag
		} else if spoilt(l, &all) && s.moves(l).shows() {
			v.Stands = picture.Carries
		}
		v.Wrong = s.wrong(l)
	}
	return all
}

// spoilt says whether a link hangs on one that is broken or carries an error.
func spoilt(l picture.Link, all *[picture.LinkCount]Verdict) bool {
	for _, b := range before[l] {
		if all[b].Stands == picture.Broken || all[b].Stands == picture.Carries {
			return true
		}
	}
	return false
}
