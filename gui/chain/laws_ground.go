package chain

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// lawOfDegrees are the laws from the discs to the longitude drums.
func (s *Story) lawOfDegrees(of picture.Link) []string {
	w := &s.Now
	switch of {
	case picture.LinkNorthDisc:
		return s.lawDisc(look.LawNorthDisc, math.Cos, w.NorthRate, s.sided(w.North, look.Text(look.North), look.Text(look.South)))
	case picture.LinkEastDisc:
		return s.lawDisc(look.LawEastDisc, math.Sin, w.EastRate, s.sided(w.East, look.Text(look.East), look.Text(look.West)))
	case picture.LinkLatitude:
		return s.lawLatitude()
	case picture.LinkSecant:
		return append([]string{lawGear(w.Gear, w.Secant)}, s.lawLongitude(w.EastRate, w.Secant)...)
	case picture.LinkLongitude:
		return append(s.lawLongitude(w.EastRate, w.Secant), s.strayLongitude()...)
	}
	return s.lawOfGround(of)
}

// lawDisc splits the speed by the cosine or the sine of the heading.
func (s *Story) lawDisc(key look.Key, of func(float64) float64, rate units.Speed, sum string) []string {
	w, v := &s.Now, s.speed()
	h := round(w.Heading.Degrees(), 2)
	in := v.as(s.v(w.Drive))
	law := v.as(in * of(h*math.Pi/180))
	lines := []string{look.Textf(key, v.text(in), v.unit, direction(h), v.with(law))}
	if math.Abs(law-s.v(rate)) > 0.15 {
		lines = append(lines, look.Textf(look.LawTurnsAt, s.speedText(rate)))
	}
	return append(lines, look.Textf(look.LawSince, sum))
}

// knots is a speed as printed in knots: miles, and so minutes of latitude, an
// hour. Angles keep their unit in SI, so this does too.
func knots(v units.Speed) float64 { return round(v.Knots(), 1) }

// inKnots is the step from m/s to knots, where speeds are in m/s.
func (s *Story) inKnots(v units.Speed) []string {
	if !s.SI {
		return nil
	}
	ms := round(v.MetresPerSecond(), 2)
	return []string{look.Textf(look.LawKnots, units.Figure(ms, 2), units.Figure(ms*1.94384, 1))}
}

func (s *Story) lawLatitude() []string {
	w := &s.Now
	n := knots(w.NorthRate)
	lines := append(s.inKnots(w.NorthRate), look.Textf(look.LawLatitude, units.Figure(n, 1), units.Figure(n, 1)))
	if rate := minutesAnHour(w.Latitude); math.Abs(rate.Knots()-n) > 0.15 {
		lines = append(lines, look.Textf(look.LawCounterTurns, units.Figure(rate.Knots(), 1)))
	}
	return append(lines, look.Textf(look.LawStands, units.LatitudeText(w.Air.Lat)))
}

// lawGear is the ratio of a secant gear at the latitude it stands at.
func lawGear(lat units.Angle, ratio float64) string {
	if ratio == 0 {
		return look.Text(look.LawGearOut)
	}
	degrees, decimals := math.Abs(lat.Degrees()), 2
	for _, steep := range []float64{60, 80, 87} { // the nearer the pole, the finer the angle must be told
		if degrees > steep {
			decimals++
		}
	}
	return look.Textf(look.LawGear, units.Figure(degrees, decimals), units.Figure(ratio, 3))
}

func (s *Story) lawLongitude(east units.Speed, ratio float64) []string {
	e, k := knots(east), round(ratio, 3)
	return append(s.inKnots(east), look.Textf(look.LawLongitude, units.Figure(e, 1), units.Figure(k, 3), units.Figure(e*k, 1)))
}

// strayLongitude says how the counter turns where that is not by its law.
func (s *Story) strayLongitude() []string {
	w := &s.Now
	rate, law := minutesAnHour(w.Longitude).Knots(), knots(w.EastRate)*round(w.Secant, 3)
	stands := look.Textf(look.LawStands, units.LongitudeText(w.Air.Lon))
	if math.Abs(rate-law) > 0.5 {
		return []string{look.Textf(look.LawCounterTurns, units.Figure(rate, 1)), stands}
	}
	return []string{stands}
}

// lawOfGround are the laws of the wind and of the ground position.
func (s *Story) lawOfGround(of picture.Link) []string {
	w := &s.Now
	switch of {
	case picture.LinkClock:
		run := round(w.WindRun, 0)
		return []string{
			look.Textf(look.LawClockRate, units.Figure(w.Clock, 4)),
			look.Textf(look.LawClock, units.Figure(run, 0), units.Figure(run/60, 1)),
		}
	case picture.LinkWind:
		return s.lawWind()
	case picture.LinkAdders:
		return s.lawAdders()
	case picture.LinkGroundSecant:
		return []string{lawGear(w.GroundGear, w.GroundSecant)}
	case picture.LinkGround:
		return append(s.lawLongitude(w.GroundEast, w.GroundSecant),
			look.Textf(look.LawWindRun, s.sided(w.WindNorth, look.Text(look.North), look.Text(look.South)),
				s.sided(w.WindEast, look.Text(look.East), look.Text(look.West))),
			look.Textf(look.LawStands, w.Ground.String()))
	case picture.LinkMarker:
		gap := s.l(units.Length(apart(units.Position(w.Marker).Printed(), units.Position(w.Ground).Printed())) * units.NM)
		return []string{look.Textf(look.LawStands, w.Marker.String()), look.Textf(look.LawMarker, s.length().with(gap))}
	}
	return nil
}

// lawWind splits the wind; it is told by where it comes from, so both parts have
// a minus.
func (s *Story) lawWind() []string {
	v := s.speed()
	from, speed := round(s.Now.Wind.From.Degrees(), 2), v.as(s.v(s.Now.Wind.Speed))
	sin, cos := math.Sincos(from * math.Pi / 180)
	return []string{
		look.Textf(look.LawWindNorth, brief(speed), direction(from), v.with(-speed*cos)),
		look.Textf(look.LawWindEast, brief(speed), direction(from), v.with(-speed*sin)),
	}
}

// lawAdders adds the printed parts, and gives the groundspeed that they make.
func (s *Story) lawAdders() []string {
	v, w := s.speed(), &s.Now
	wn, we := w.Wind.Velocity()
	north, windNorth := v.as(s.v(w.NorthRate)), v.as(w.Clock*s.v(wn))
	east, windEast := v.as(s.v(w.EastRate)), v.as(w.Clock*s.v(we))
	n, e := v.as(north+windNorth), v.as(east+windEast)
	return []string{
		look.Textf(look.LawAddNorth, v.text(north), v.text(windNorth), v.with(n)),
		look.Textf(look.LawAddEast, v.text(east), v.text(windEast), v.with(e)),
		look.Textf(look.LawGroundspeed, v.text(math.Abs(n)), v.text(math.Abs(e)), v.with(math.Hypot(n, e))),
	}
}
