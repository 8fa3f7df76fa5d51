package chain

import (
	"math"
	"strings"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// The laws of the links with the numbers of the moment. Each step is worked from
// the figures printed before it, with enough of them that the last step gives
// what stands on the plate. Where the link does something else than its law, a
// last line says what.

// law are the lines of one link.
func (s *Story) law(of picture.Link) []string {
	switch of {
	case picture.LinkPitot:
		return s.lawPitot()
	case picture.LinkStatic:
		return s.lawStatic()
	case picture.LinkCapsules:
		return s.lawCapsules()
	case picture.LinkAirLog:
		return s.lawAirLog()
	case picture.LinkCounter:
		return s.lawCounter()
	case picture.LinkDrive:
		return s.lawDrive()
	case picture.LinkCompass, picture.LinkDeviation:
		return s.lawCompass()
	case picture.LinkVariation:
		return s.lawVariation()
	case picture.LinkRepeater:
		return s.lawRepeater()
	case picture.LinkResolver:
		return s.lawResolver()
	}
	return s.lawOfDegrees(of)
}

func (s *Story) lawPitot() []string {
	p := s.pressure()
	return []string{look.Textf(look.LawPitot, p.text(s.pa(s.Now.Static)), p.text(s.impact()), p.with(s.pa(s.Now.Pitot)))}
}

func (s *Story) lawCapsules() []string {
	p := s.pressure()
	return []string{look.Textf(look.LawCapsules, p.text(s.pa(s.Now.Pitot)), p.text(s.pa(s.Now.Static)), p.with(s.impact()))}
}

// tropopause is the pressure up to which the height has this closed form
// (standard atmosphere, ICAO Doc 7488/3: 226.32 hPa at 11 km).
const tropopause = 22632.04 * units.Pascal

// lawStatic is the pressure altitude of the standard atmosphere below the
// tropopause: 145442.16 (1 - (p / 1013.25)^0.1902631) ft, 44330.77 in metres
// (ICAO Doc 7488/3, physics of this project 1.1).
func (s *Story) lawStatic() []string {
	p := s.Now.Static
	if p < tropopause {
		return []string{look.Textf(look.LawStaticHigh, s.pressureText(p))}
	}
	fine := measure{2, "hPa"}
	hpa := fine.as(p.Hectopascals())
	base, unit := 145442.0, "ft"
	if s.SI {
		base, unit = 44330.8, "m"
	}
	height := base * (1 - math.Pow(hpa/1013.25, 0.190263))
	return []string{look.Textf(look.LawStatic, brief(base), fine.text(hpa), units.Figure(height, 0)+" "+unit)}
}

// speedOfSound is what a step sqrt(T) is multiplied with: sqrt(1.4 x 287.05287),
// in m/s and in kt (ICAO Doc 7488/3).
func (s *Story) speedOfSound() float64 {
	if s.SI {
		return 20.0468
	}
	return 38.9678
}

// lawAirLog works the airspeed from the pressures at the capsules and the
// temperature at the density cam (NASA RP-1046).
func (s *Story) lawAirLog() []string {
	w := &s.Now
	extra := finer((w.Pitot - w.Static).Hectopascals())
	fine, digits := measure{2 + extra, "hPa"}, 5+extra
	p := fine.as(w.Static.Hectopascals())
	qc := fine.as(fine.as(w.Pitot.Hectopascals()) - p)
	if qc <= 0 {
		return s.shaft([]string{look.Textf(look.LawAirStill, s.pressure().with(s.impact()))}, 0)
	}
	ratio := round(qc/p, digits)
	m := round(math.Sqrt(5*(math.Pow(1+ratio, 2.0/7)-1)), 5)
	k, t := s.speedOfSound(), round(w.Temperature.Kelvins(), 2)
	a := round(k*math.Sqrt(t), 2)
	tas := s.speed().as(m * a)
	if shown := s.speed().as(s.v(w.TAS)); math.Abs(tas-shown) < 0.15 { // the last digit is that of the plate
		tas = shown
	}
	return s.shaft([]string{
		look.Textf(look.LawRatio, fine.text(qc), fine.text(p), units.Figure(ratio, digits)),
		look.Textf(look.LawMach, units.Figure(ratio, digits), units.Figure(m, 5)),
		look.Textf(look.LawSound, units.Figure(k, 4), units.Figure(t, 2), units.Figure(a, 2), s.speed().unit),
		look.Textf(look.LawTAS, units.Figure(m, 5), units.Figure(a, 2), s.speed().with(tas)),
	}, tas)
}

// finer is how many more decimals a small impact pressure needs, so that the
// speed comes out to its tenth: it goes with the root.
func finer(qc float64) int {
	switch {
	case qc < 0.5:
		return 4
	case qc < 12:
		return 2
	}
	return 0
}

// shaft adds at which speed the shaft of the air log turns, where that is not
// what its law says.
func (s *Story) shaft(lines []string, law float64) []string {
	if math.Abs(law-s.v(s.Now.TAS)) > 0.15 {
		lines = append(lines, look.Textf(look.LawShaft, s.speedText(s.Now.TAS)))
	}
	return lines
}

func (s *Story) lawCounter() []string {
	v, l := s.speed(), s.length()
	miles := l.as(s.l(s.Now.AirMiles))
	if s.SI {
		return []string{
			look.Textf(look.LawMinuteSI, v.text(s.v(s.Now.TAS)), units.Figure(v.as(s.v(s.Now.TAS))*60/1000, 2)),
			look.Textf(look.LawCounted, l.with(miles)),
		}
	}
	return []string{
		look.Textf(look.LawMinute, v.text(s.v(s.Now.TAS)), units.Figure(v.as(s.v(s.Now.TAS))/60, 2)),
		look.Textf(look.LawTurns, l.text(miles), units.Figure(miles*10, 0)),
	}
}

func (s *Story) lawDrive() []string {
	v, w := s.speed(), &s.Now
	lines := []string{look.Textf(look.LawDrive, v.with(s.v(w.TAS)), v.with(s.v(w.Drive)))}
	if in := v.as(s.v(w.TAS)); in > 0 {
		lines = append(lines, look.Textf(look.LawDriveRatio, v.text(s.v(w.Drive)), v.text(in), units.Figure(v.as(s.v(w.Drive))/in, 3)))
	}
	return append(lines, look.Textf(look.LawWound, s.lengthText(w.Wound), s.lengthText(w.AirMiles)))
}

// direction writes a direction in three figures and, where it is not whole, with
// hundredths as far as needed: cos 048, cos 047.96.
func direction(degrees float64) string {
	x := round(units.WrapDegrees(degrees), 2)
	if x >= 360 {
		x = 0
	}
	text := units.Figure(x, 2)
	for len(text) < 6 {
		text = "0" + text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// directionTenth writes a direction in three figures and a tenth, if it has one.
func directionTenth(degrees float64) string {
	x := math.Mod(round(units.WrapDegrees(degrees), 1), 360)
	text := units.Figure(x, 1)
	for len(text) < 5 {
		text = "0" + text
	}
	return strings.TrimSuffix(text, ".0")
}

func (s *Story) lawCompass() []string {
	c := directionTenth(units.Angle(s.Now.Compass).Degrees())
	return []string{look.Textf(look.LawDeviation, c, c)}
}

func (s *Story) lawVariation() []string {
	w := &s.Now
	m := round(units.Angle(w.Compass).Degrees(), 1)
	v := round(w.Setter.Degrees(), 1)
	return []string{look.Textf(look.LawVariation, directionTenth(m), variationText(w.Setter), directionTenth(m+v))}
}

func (s *Story) lawRepeater() []string {
	w := &s.Now
	sent := units.WrapDegrees(round(units.Angle(w.Compass).Degrees(), 1) + round(w.Setter.Degrees(), 1))
	shown := round(w.Heading.Degrees(), 1)
	behind := round(units.WrapHalfDegrees(shown-sent), 1)
	return []string{look.Textf(look.LawRepeater, directionTenth(shown), directionTenth(sent), units.Figure(behind, 1))}
}

func (s *Story) lawResolver() []string {
	w := &s.Now
	h := round(w.Heading.Degrees(), 2)
	sin, cos := math.Sincos(h * math.Pi / 180)
	lines := []string{
		look.Textf(look.LawCos, direction(h), units.Figure(cos, 4)),
		look.Textf(look.LawSin, direction(h), units.Figure(sin, 4)),
	}
	if math.Hypot(w.BallNorth-cos, w.BallEast-sin) > 0.002 {
		lines = append(lines, look.Textf(look.LawBalls, units.Figure(w.BallNorth, 4), units.Figure(w.BallEast, 4)))
	}
	return lines
}
