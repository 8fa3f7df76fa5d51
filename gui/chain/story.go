// Package chain is what the Linkage knows of the mechanism: the values of its
// links, their laws with the numbers of the moment, how each stands to the
// truth, and what a lecturer says of it. It draws nothing.
//
// Notation: now is what a link passes on, true what it would pass on if it and
// all before it were in order and every setting right (sim.Works, twice). Errors
// are now minus true.
package chain

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// Story is one moment of the mechanism.
type Story struct {
	View      *aboard.View
	Now       sim.Works
	Truth     *sim.Works        // nil: hidden
	Faults    []sim.FaultStatus // nil: hidden
	Mechanism integrator.Config
	Held      sim.Hands
	Fast      bool // what turns too fast to be seen is drawn steady
	SI        bool // values in SI units
}

// Walk are all links in a lecturer's order.
func Walk() []picture.Link {
	all := make([]picture.Link, picture.LinkCount)
	for i := range all {
		all[i] = picture.Link(i)
	}
	return all
}

// A turn of a shaft is a tenth of a mile, of a shaft of headings 10 degrees, of
// the shaft to the longitude drums a tenth of a minute, of the shaft from the
// clock a minute. It is a choice of the picture.
const (
	turnsPerNM     = 10.0
	degreesPerTurn = 10.0
	turnsPerMinute = 10.0 // of arc
	secondsPerTurn = 60.0
)

// mostImpact is the impact pressure at which the capsules are drawn full.
const mostImpact = 80.0 // hPa

// Picture fills in what the picture shows; chart, stripes and the link that is
// lit are left as they are.
func (s *Story) Picture(l *picture.Linkage) {
	w, v := &s.Now, s.View
	l.Fast = s.Fast
	l.Turns = picture.Turns{
		AirLog: w.AirMiles.NM() * turnsPerNM, Drive: w.Wound.NM() * turnsPerNM,
		North: w.North.NM() * turnsPerNM, East: w.East.NM() * turnsPerNM,
		Longitude: w.Air.Lon.Minutes() * turnsPerMinute, Heading: units.Angle(w.Heading).Degrees() / degreesPerTurn,
		WindNorth: w.WindNorth.NM() * turnsPerNM, WindEast: w.WindEast.NM() * turnsPerNM,
		GroundNorth: w.NorthSum.NM() * turnsPerNM, GroundEast: w.EastSum.NM() * turnsPerNM,
		GroundLongitude: w.Ground.Lon.Minutes() * turnsPerMinute, Wind: w.WindRun / secondsPerTurn,
	}
	curve := l.Hands.TrueCurve
	l.Hands = picture.Hands{
		Impact: (w.Pitot - w.Static).Hectopascals() / mostImpact, Temperature: w.Temperature,
		Compass: w.Compass, TrueCurve: curve, Setter: w.Setter, Sent: w.Sent, Heading: w.Heading,
		BallNorth: w.BallNorth, BallEast: w.BallEast, Gear: w.Gear, GroundGear: w.GroundGear,
		Clock: v.Clock, Wind: w.Wind, AirLog: v.AirLogCounter, AirCounters: v.AirCounters, GroundCounts: v.GroundCounters,
	}
	verdicts := s.Judge()
	for i := range l.Links {
		of := picture.Link(i)
		value, unit := s.value(of)
		l.Links[i] = picture.LinkState{
			Value: value, Unit: unit, Note: s.note(of), Held: s.held(of),
			Stands: verdicts[i].Stands, Flag: verdicts[i].Flag, Wrong: verdicts[i].Wrong,
		}
	}
}

// held says whether a hand is on the input of a link.
func (s *Story) held(of picture.Link) bool {
	h := &s.Held
	switch of {
	case picture.LinkRepeater, picture.LinkResolver:
		return h.Holds(sim.HandHeading)
	case picture.LinkAirLog:
		return h.Holds(sim.HandSpeed)
	case picture.LinkSecant:
		return h.Holds(sim.HandLatitude)
	case picture.LinkWind:
		return h.Holds(sim.HandWind)
	}
	return false
}

// value is what stands on the plate of a link, and its unit. In SI units
// pressures are in pascals, speeds in metres a second, lengths in kilometres;
// directions stay in degrees.
func (s *Story) value(of picture.Link) (value, unit string) {
	w := &s.Now
	switch of {
	case picture.LinkPitot:
		return s.pressure(w.Pitot)
	case picture.LinkStatic:
		return s.pressure(w.Static)
	case picture.LinkCapsules:
		return s.pressure(w.Pitot - w.Static)
	case picture.LinkAirLog:
		return s.speed(w.TAS)
	case picture.LinkCounter:
		return s.length(w.AirMiles)
	case picture.LinkDrive:
		return s.length(w.Wound)
	case picture.LinkCompass:
		return units.CompassText(units.Angle(w.Compass)), ""
	case picture.LinkDeviation:
		return "0", ""
	case picture.LinkVariation:
		return variationText(w.Setter), ""
	case picture.LinkRepeater, picture.LinkResolver:
		return w.Heading.String(), ""
	case picture.LinkNorthDisc:
		return s.way(w.North, look.North, look.South)
	case picture.LinkEastDisc:
		return s.way(w.East, look.East, look.West)
	case picture.LinkSecant:
		return "x " + units.Figure(w.Secant, 3), ""
	case picture.LinkGroundSecant:
		return "x " + units.Figure(w.GroundSecant, 3), ""
	case picture.LinkWind:
		return w.Wind.String(), ""
	}
	return "", ""
}

func (s *Story) pressure(p units.Pressure) (value, unit string) {
	if s.SI {
		return units.Figure(p.Pascals(), 0), "Pa"
	}
	return units.Figure(p.Hectopascals(), 1), "hPa"
}

func (s *Story) speed(v units.Speed) (value, unit string) {
	if s.SI {
		return units.Figure(v.MetresPerSecond(), 1), "m/s"
	}
	return units.Figure(v.Knots(), 1), look.Text(look.Knots)
}

func (s *Story) length(l units.Length) (value, unit string) {
	if s.SI {
		return units.Figure(l.Kilometres(), 1), "km"
	}
	return units.Figure(l.NM(), 1), "NM"
}

// way is a length with the letter of its direction.
func (s *Story) way(l units.Length, onward, back look.Key) (value, unit string) {
	letter := onward
	if l < 0 {
		letter = back
	}
	value, _ = s.length(units.Length(math.Abs(float64(l))))
	return value + " " + look.Text(letter), ""
}

// variationText is in whole degrees if it is that, else in tenths.
func variationText(v units.Variation) string {
	if d := units.Angle(v).Degrees(); math.Abs(d-math.Round(d)) < 0.05 {
		return v.String()
	}
	return v.Tenths()
}

// note is the caption of a link.
func (s *Story) note(of picture.Link) (lines [2]string) {
	switch of {
	case picture.LinkPitot:
		return [2]string{look.Text(look.NotePitot), look.Text(look.NotePitot2)}
	case picture.LinkStatic:
		return [2]string{look.Text(look.NoteStatic), look.Text(look.NoteStatic2)}
	case picture.LinkCapsules:
		return [2]string{look.Text(look.NoteImpact), look.Text(look.NoteImpact2)}
	case picture.LinkNorthDisc:
		return ballNote(s.Now.BallNorth, look.NoteNorth, look.NoteSouth, look.NoteCentre, look.NoteOff, look.NoteRim)
	case picture.LinkEastDisc:
		return ballNote(s.Now.BallEast, look.NoteEast, look.NoteWest, look.NoteAtCentre, look.NoteOffCentre, look.NoteAtRim) // there is less room
	case picture.LinkCounter:
		return [2]string{look.Text(look.NoteCounter), look.Text(look.NoteCounter2)}
	case picture.LinkVariation:
		if s.View.FollowsField {
			return [2]string{look.Text(look.FollowsField)}
		}
	}
	if k, ok := notes[of]; ok {
		lines[0] = look.Text(k)
	}
	return lines
}

var notes = map[picture.Link]look.Key{
	picture.LinkAirLog: look.NoteTAS, picture.LinkDrive: look.NoteWound, picture.LinkCompass: look.NoteCompass,
	picture.LinkDeviation: look.NoteSwing, picture.LinkVariation: look.NoteChart, picture.LinkRepeater: look.NoteHeading,
	picture.LinkWind: look.NoteWind, picture.LinkMarker: look.NoteMarker,
}

// ballNote says where the ball of a disc stands.
func ballNote(share float64, onward, back, centre, off, rim look.Key) [2]string {
	way := look.Text(onward)
	if share < 0 {
		way = look.Text(back)
	}
	switch {
	case math.Abs(share) < 0.06:
		return [2]string{look.Text(centre), look.Textf(look.NoteHardly, way)}
	case math.Abs(share) > 0.97:
		return [2]string{look.Text(rim), look.Textf(look.NoteAll, way)}
	}
	return [2]string{look.Text(off), way}
}
