package chain

import (
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// Picture fills in values, captions, turns, hands and standings of the picture
// of the mechanism. It leaves the strip of chart, how far the stripes have run
// and which link is lit or chosen.
func (s *Story) Picture(l *picture.Linkage) {
	s.turns(&l.Turns)
	s.hands(&l.Hands)
	l.Fast = s.Fast
	verdicts := s.Judge()
	for i := range l.Links {
		of := picture.Link(i)
		link := &l.Links[i]
		value, unit := s.plate(of)
		*link = picture.LinkState{
			Value: value, Unit: unit, Note: s.note(of), Held: s.held(of),
			Stands: verdicts[i].Stands, Flag: verdicts[i].Flag, Wrong: verdicts[i].Wrong,
		}
	}
}

// plate is the value on the plate of a link and its unit; "" without a plate.
func (s *Story) plate(of picture.Link) (value, unit string) {
	w := &s.Now
	switch of {
	case picture.LinkPitot:
		return s.pressure().text(s.pa(w.Pitot)), s.pressure().unit
	case picture.LinkStatic:
		return s.pressure().text(s.pa(w.Static)), s.pressure().unit
	case picture.LinkCapsules:
		return s.pressure().text(s.impact()), s.pressure().unit
	case picture.LinkAirLog:
		return s.speed().text(s.v(w.TAS)), s.speed().unit
	case picture.LinkDrive:
		return s.length().text(s.l(w.Wound)), s.length().unit
	case picture.LinkNorthDisc:
		return s.toward(w.North, "N", "S"), s.lengthOnly()
	case picture.LinkEastDisc:
		return s.toward(w.East, "E", "W"), s.lengthOnly()
	}
	return s.angles(of), ""
}

// lengthOnly is the unit of northing and easting: the trade's goes without.
func (s *Story) lengthOnly() string {
	if s.SI {
		return s.length().unit
	}
	return ""
}

// impact is the difference of the printed pressures, as the two plates say it.
func (s *Story) impact() float64 {
	p := s.pressure()
	return p.as(p.as(s.pa(s.Now.Pitot)) - p.as(s.pa(s.Now.Static)))
}

// angles are the plates of headings, gears and wind.
func (s *Story) angles(of picture.Link) string {
	w := &s.Now
	switch of {
	case picture.LinkCompass:
		return units.CompassText(units.Angle(w.Compass))
	case picture.LinkDeviation:
		return units.Deviation(0).String()
	case picture.LinkVariation:
		return variationText(w.Setter)
	case picture.LinkRepeater, picture.LinkResolver:
		return w.Heading.String()
	case picture.LinkSecant:
		return ratioText(w.Secant)
	case picture.LinkGroundSecant:
		return ratioText(w.GroundSecant)
	case picture.LinkWind:
		return s.windText(w.Wind)
	}
	return ""
}

// ratioText is the ratio of a secant gear.
func ratioText(x float64) string { return look.Textf(look.ChainRatio, units.Figure(x, 3)) }

// turns are those of the shafts: a turn of a shaft of distance is a tenth of a
// mile, of one of longitude a tenth of a minute, of one of heading ten degrees,
// of the one from the clock a minute.
func (s *Story) turns(t *picture.Turns) {
	w := &s.Now
	tenths := func(l units.Length) float64 { return 10 * l.NM() }
	*t = picture.Turns{
		AirLog: tenths(w.AirMiles), Drive: tenths(w.Wound), North: tenths(w.North), East: tenths(w.East),
		Longitude: 10 * w.Air.Lon.Minutes(), Heading: w.Heading.Degrees() / 10,
		WindNorth: tenths(w.WindNorth), WindEast: tenths(w.WindEast),
		GroundNorth: tenths(w.NorthSum), GroundEast: tenths(w.EastSum),
		GroundLongitude: 10 * w.Ground.Lon.Minutes(), Wind: w.WindRun / 60,
	}
}

// fullImpact is the impact pressure at which the capsules are drawn full: that
// of some 220 kt calibrated. A choice of this project.
const fullImpact = 80 * units.Hectopascal

func (s *Story) hands(h *picture.Hands) {
	w := &s.Now
	*h = picture.Hands{
		Impact:      max(0, min(1, float64(impact(w.Pitot, w.Static)/fullImpact))),
		Temperature: w.Temperature, Compass: w.Compass, Setter: w.Setter, Sent: w.Sent, Heading: w.Heading,
		BallNorth: max(-1, min(1, w.BallNorth)), BallEast: max(-1, min(1, w.BallEast)),
		Gear: w.Gear, GroundGear: w.GroundGear, Wind: w.Wind, TrueCurve: s.trueCurve(),
	}
	if v := s.View; v != nil {
		h.Clock, h.AirLog = v.Clock, v.AirLogCounter
		h.AirCounters, h.GroundCounts = v.AirCounters, v.GroundCounters
	}
}
