package chain

import (
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// What stands on error plates. A difference printed is that of the values
// printed; where they print alike there is no plate.

// wrong is the error plate of a link. A shaft that turns right again keeps the
// plate of what it has summed.
func (s *Story) wrong(of picture.Link, stands picture.Standing) (none [2]string) {
	if stands == picture.Agrees && (!winds(of) || s.sum(of).share() <= 1) {
		return none
	}
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkPitot:
		return s.lowHigh(s.pressure(), s.pa(w.Pitot), s.pa(r.Pitot))
	case picture.LinkStatic:
		return s.lowHigh(s.pressure(), s.pa(w.Static), s.pa(r.Static))
	case picture.LinkCapsules:
		p := s.pressure()
		return s.lowHigh(p, s.impact(), p.as(s.pa(r.Pitot))-p.as(s.pa(r.Static)))
	case picture.LinkAirLog:
		return plate(s.speed(), s.v(w.TAS), s.v(r.TAS), look.OffSlow, look.OffFast)
	case picture.LinkCounter:
		return plate(s.length(), s.l(w.AirMiles), s.l(r.AirMiles), look.OffShort, look.OffLong)
	case picture.LinkDrive:
		return s.wrongDrive()
	case picture.LinkNorthDisc:
		return s.tooFar(w.North, r.North, look.North, look.South)
	case picture.LinkEastDisc:
		return s.tooFar(w.East, r.East, look.East, look.West)
	}
	return s.wrongAngle(of, stands)
}

// winds tells whether a link is a shaft whose turns are told as a sum.
func winds(of picture.Link) bool {
	return of == picture.LinkDrive || of == picture.LinkNorthDisc || of == picture.LinkEastDisc
}

func (s *Story) wrongAngle(of picture.Link, stands picture.Standing) (none [2]string) {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkDeviation:
		if stands == picture.Broken { // the card itself is wrong, not the needle
			return right(units.Deviation(0).Tenths(), units.Deviation(turnOf(units.Angle(r.Compass), units.Angle(w.Compass))).Tenths())
		}
		return lessMore(units.Angle(w.Compass), units.Angle(r.Compass), units.MagneticText)
	case picture.LinkCompass:
		return lessMore(units.Angle(w.Compass), units.Angle(r.Compass), units.CompassText)
	case picture.LinkVariation:
		return right(variationText(w.Setter), variationText(r.Setter))
	case picture.LinkRepeater, picture.LinkResolver:
		return lessMore(units.Angle(w.Heading), units.Angle(r.Heading), units.TrueText)
	case picture.LinkSecant:
		return right(ratioText(w.Secant), ratioText(r.Secant))
	case picture.LinkGroundSecant:
		return right(ratioText(w.GroundSecant), ratioText(r.GroundSecant))
	case picture.LinkWind:
		return right(s.windText(w.Wind), s.windText(r.Wind))
	case picture.LinkLatitude:
		return wrongPlace(w.Air.Lat, r.Air.Lat, units.LatitudeText, look.ChainNorth, look.ChainSouth)
	case picture.LinkLongitude:
		return wrongPlace(w.Air.Lon, r.Air.Lon, units.LongitudeText, look.ChainEast, look.ChainWest)
	case picture.LinkGround:
		return s.out(units.Position(w.Ground), units.Position(r.Ground))
	case picture.LinkMarker:
		return s.out(units.Position(w.Marker), units.Position(r.Marker))
	}
	return none
}

// plate has a word for less and one for more, and the right value under it.
func plate(m measure, a, b float64, less, more look.Key) (none [2]string) {
	d := m.as(m.as(a) - m.as(b))
	switch {
	case d == 0:
		return none
	case d < 0:
		return [2]string{look.Textf(less, m.with(-d)), look.Textf(look.OffRight, m.text(b))}
	}
	return [2]string{look.Textf(more, m.with(d)), look.Textf(look.OffRight, m.text(b))}
}

func (s *Story) lowHigh(m measure, a, b float64) [2]string {
	return plate(m, a, b, look.OffLow, look.OffHigh)
}

// wrongDrive holds the distance wound on against the air log counter, as a
// navigator would; only where that is wrong too, against the truth.
func (s *Story) wrongDrive() [2]string {
	w := &s.Now
	if s.sum(picture.LinkCounter).share() > 1 {
		return plate(s.length(), s.l(w.Wound), s.l(s.Truth.Wound), look.OffShort, look.OffLong)
	}
	p := plate(s.length(), s.l(w.Wound), s.l(w.AirMiles), look.OffShort, look.OffLong)
	if p[0] != "" {
		p[1] = look.Textf(look.OffAirLog, s.length().text(s.l(w.AirMiles)))
	}
	return p
}

// tooFar says to which side a shaft has turned too far.
func (s *Story) tooFar(a, b units.Length, plus, minus look.Key) (none [2]string) {
	m := s.length()
	d := m.as(m.as(s.l(a)) - m.as(s.l(b)))
	side := plus
	if d < 0 {
		d, side = -d, minus
	}
	if d == 0 {
		return none
	}
	return [2]string{look.Textf(look.OffTooFar, m.text(d), look.Text(side)),
		look.Textf(look.OffRight, s.toward(b, look.Text(plus), look.Text(minus)))}
}

// lessMore compares two directions, as printed in whole degrees.
func lessMore(a, b units.Angle, text func(units.Angle) string) (none [2]string) {
	d := units.WrapHalfDegrees(round(units.Wrap(a).Degrees(), 0) - round(units.Wrap(b).Degrees(), 0))
	switch {
	case d == 0:
		return none
	case d < 0:
		return [2]string{look.Textf(look.OffLess, units.Figure(-d, 0), text(b))}
	}
	return [2]string{look.Textf(look.OffMore, units.Figure(d, 0), text(b))}
}

// right gives what ought to stand there.
func right(a, b string) (none [2]string) {
	if a == b {
		return none
	}
	return [2]string{look.Textf(look.OffRight, b)}
}

// wrongPlace says by how many minutes a counter stands too far, and where it
// ought to stand.
func wrongPlace(a, b units.Angle, text func(units.Angle) string, plus, minus look.Key) (none [2]string) {
	d := round(units.WrapHalfDegrees((round(a.Minutes(), 1)-round(b.Minutes(), 1))/60)*60, 1)
	side := plus
	if d < 0 {
		d, side = -d, minus
	}
	if d == 0 {
		return none
	}
	return [2]string{look.Textf(look.OffMinutes, units.Figure(d, 1), look.Text(side)), look.Textf(look.OffRight, text(b))}
}

// out is how far a position lies from the true one, both as printed.
func (s *Story) out(a, b units.Position) (none [2]string) {
	nm := apart(a.Printed(), b.Printed())
	x := s.l(units.Length(nm) * units.NM)
	if s.length().as(x) == 0 {
		return none
	}
	return [2]string{look.Textf(look.OffOut, s.length().with(x)), look.Textf(look.OffRight, b.String())}
}
