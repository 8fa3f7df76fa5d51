package chain

import (
	"fmt"
	"math"
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/sim"
)

// notes are the captions that do not change.
var notes = map[picture.Link][2]look.Key{
	picture.LinkPitot:    {look.ChainPitot, look.ChainPitotHow},
	picture.LinkStatic:   {look.ChainStatic, look.ChainStaticHow},
	picture.LinkCapsules: {look.ChainImpact, look.ChainImpactHow},
	picture.LinkAirLog:   {look.ChainTAS},
	picture.LinkCounter:  {look.ChainTapped, look.ChainTappedHow},
	picture.LinkDrive:    {look.ChainWound},
	picture.LinkCompass:  {look.ChainCompass},
	picture.LinkDeviation: {
		look.ChainSwing},
	picture.LinkRepeater: {look.ChainTrue},
	picture.LinkMarker:   {look.ChainMarker},
}

// note is the caption of a link, in two lines of at most 24 characters.
func (s *Story) note(of picture.Link) [2]string {
	switch of {
	case picture.LinkVariation:
		if s.follows() {
			return [2]string{look.Text(look.ChainField)}
		}
		return [2]string{look.Text(look.ChainChart)}
	case picture.LinkNorthDisc:
		return ballNote(s.Now.BallNorth, look.ChainNorth, look.ChainSouth)
	case picture.LinkEastDisc:
		return narrow(s.Now.BallEast, look.ChainEast, look.ChainWest)
	case picture.LinkCounter:
		if note := s.speedTimesTime(); note[0] != "" {
			return note
		}
	case picture.LinkWind:
		return [2]string{look.Textf(look.ChainWind, s.speed().unit)}
	}
	keys, ok := notes[of]
	if !ok {
		return [2]string{}
	}
	first := look.Text(keys[0])
	if keys[1] == "" {
		return [2]string{first}
	}
	return [2]string{first, look.Text(keys[1])}
}

// speedTimesTime is the sum by which the crew check the air log counter, worked
// from what is printed. It stands there only while it is true: where the speed has
// been one and the same from the start. Its last digit may be one out.
func (s *Story) speedTimesTime() (none [2]string) {
	if s.View == nil || s.SI || !s.oneSpeed() {
		return none
	}
	v, miles := s.speed().as(s.v(s.Now.TAS)), s.length().as(s.l(s.Now.AirMiles))
	whole := s.View.Elapsed.Truncate(time.Second)
	if v == 0 || math.Abs(v*whole.Hours()-miles) > 0.15 {
		return none
	}
	clock := fmt.Sprintf("%d:%02d:%02d", int(whole.Hours()), int(whole.Minutes())%60, int(whole.Seconds())%60)
	return [2]string{look.Textf(look.ChainTimes, s.speed().text(v), clock), look.Textf(look.ChainMiles, s.length().with(miles))}
}

// oneSpeed tells from the log whether the air log has shown this speed all along.
func (s *Story) oneSpeed() bool {
	for i := range s.View.Log {
		if math.Abs((s.View.Log[i].TAS - s.Now.TAS).Knots()) > 0.15 {
			return false
		}
	}
	return true
}

// The thresholds of a ball: within 6 parts in 100 of the middle hardly anything
// is passed on, beyond 97 hardly anything is lost.
const nearCentre, nearRim = 0.06, 0.97

// ballNote says where a ball lies and what comes of it.
func ballNote(share float64, plus, minus look.Key) [2]string {
	to := look.Text(minus)
	if share >= 0 {
		to = look.Text(plus)
	}
	switch size := math.Abs(share); {
	case size < nearCentre:
		return [2]string{look.Text(look.ChainBallCentre), look.Textf(look.ChainHardly, to)}
	case size > nearRim:
		return [2]string{look.Text(look.ChainBallRim), look.Textf(look.ChainAll, to)}
	}
	return [2]string{look.Text(look.ChainBallOff), to}
}

// narrow says so where there is little room.
func narrow(share float64, plus, minus look.Key) [2]string {
	note := ballNote(share, plus, minus)
	switch size := math.Abs(share); {
	case size < nearCentre:
		return [2]string{look.Text(look.ChainCentre), look.Text(look.ChainHardlyAny)}
	case size > nearRim:
		note[0] = look.Text(look.ChainRim)
	default:
		note[0] = look.Text(look.ChainOff)
	}
	return note
}

// hands of the engine, by the link at whose input they hold.
var handAt = map[picture.Link]sim.HandInput{
	picture.LinkRepeater: sim.HandHeading, picture.LinkAirLog: sim.HandSpeed,
	picture.LinkSecant: sim.HandLatitude, picture.LinkWind: sim.HandWind,
}

func (s *Story) held(of picture.Link) bool {
	input, ok := handAt[of]
	return ok && s.Held.Holds(input)
}
