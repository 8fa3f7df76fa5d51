package chain

import (
	"fmt"
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/ground"
	"stillair/integrator/units"
)

// Card is what is told of one link.
type Card struct {
	Title, What string
	Law         []string // with the numbers of the moment put in, step by step
	Error       string   // against the truth; "" while that is hidden or agrees
	Faults      []string // ids of what may be wrong here
}

// Card tells of a link.
func (s *Story) Card(of picture.Link) Card {
	c := Card{
		Title: look.Text(titles[of]), What: look.Text(whats[of]),
		Law: s.law(of), Faults: faultsOf(of),
	}
	if of == picture.LinkAdders && s.Mechanism.Ground == ground.Plotted {
		c.What = look.Text(look.ChainPlotted)
	}
	if s.Truth != nil {
		if w := s.wrong(of); w[0] != "" {
			c.Error = w[0]
			if w[1] != "" {
				c.Error += ", " + w[1]
			}
		}
	}
	return c
}

// The numbers of a law are those that are printed, so that whoever works it out
// on paper comes to the same.

func hpa(p units.Pressure) float64 { return tenths(p.Hectopascals()) }

func kt(v units.Speed) float64 { return tenths(v.Knots()) }

func whole(a units.Angle) float64 { return math.Mod(math.Round(units.Wrap(a).Degrees()), 360) }

func f(x float64, decimals int) string { return units.Figure(x, decimals) }

// plus writes a number that is added, with its sign.
func plus(x float64) string {
	if x < 0 {
		return "- " + f(-x, 1)
	}
	return "+ " + f(x, 1)
}

func (s *Story) law(of picture.Link) []string {
	switch of {
	case picture.LinkPitot, picture.LinkStatic, picture.LinkCapsules, picture.LinkAirLog, picture.LinkCounter, picture.LinkDrive:
		return s.airLaw(of)
	case picture.LinkCompass, picture.LinkDeviation, picture.LinkVariation, picture.LinkRepeater:
		return s.headingLaw(of)
	case picture.LinkClock, picture.LinkWind, picture.LinkAdders, picture.LinkGroundSecant, picture.LinkGround, picture.LinkMarker:
		return s.groundLaw(of)
	}
	return s.splitLaw(of)
}

func (s *Story) airLaw(of picture.Link) []string {
	w := &s.Now
	p, total := hpa(w.Static), hpa(w.Pitot)
	switch of {
	case picture.LinkPitot:
		return []string{fmt.Sprintf("p + qc = %s + %s = %s hPa", f(p, 1), f(total-p, 1), f(total, 1))}
	case picture.LinkStatic:
		h := math.Round(s.View.PressureAltitude.Metres())
		at := 1013.25 * math.Pow(1-0.0065*h/288.15, 5.25588)
		return []string{
			fmt.Sprintf("h = %s ft = %s m", f(s.View.PressureAltitude.Feet(), 0), f(h, 0)),
			fmt.Sprintf("p = 1013.25 (1 - 0.0065 x %s / 288.15)^5.25588 = %s hPa", f(h, 0), f(at, 1)),
		}
	case picture.LinkCapsules:
		return []string{fmt.Sprintf("qc = %s - %s = %s hPa", f(total, 1), f(p, 1), f(total-p, 1))}
	case picture.LinkAirLog:
		return speedLaw(total-p, p, w.Temperature)
	case picture.LinkCounter:
		v := kt(w.TAS)
		return []string{fmt.Sprintf("%s kt / 60 = %s NM a minute", f(v, 1), f(v/60, 2)), look.Textf(look.LawSoFar, f(w.AirMiles.NM(), 1))}
	}
	v := kt(w.Drive)
	return []string{
		look.Textf(look.LawBefore, f(w.TAS.Knots(), 1), f(v, 1)),
		fmt.Sprintf("%s kt x 10 / 60 = %s %s", f(v, 1), f(v*10/60, 1), look.Text(look.LawTurns)),
		look.Textf(look.LawSoFar, f(w.Wound.NM(), 1)),
	}
}

// speedLaw is the law of the air log, from pressures in hPa as printed.
func speedLaw(qc, p float64, t units.Temperature) []string {
	kelvins := math.Round(t.Kelvins()*100) / 100
	ratio := math.Round(qc/p*1e5) / 1e5
	mach := math.Round(math.Sqrt(5*(math.Pow(1+ratio, 2.0/7)-1))*1e4) / 1e4
	sound := tenths(38.968 * math.Sqrt(kelvins))
	return []string{
		fmt.Sprintf("qc / p = %s / %s = %s", f(qc, 1), f(p, 1), f(ratio, 5)),
		fmt.Sprintf("M = sqrt(5 ((1 + %s)^(2/7) - 1)) = %s", f(ratio, 5), f(mach, 4)),
		fmt.Sprintf("a = 38.968 sqrt(%s) = %s kt", f(kelvins, 2), f(sound, 1)),
		fmt.Sprintf("TAS = %s x %s = %s kt", f(mach, 4), f(sound, 1), f(mach*sound, 1)),
	}
}

func (s *Story) headingLaw(of picture.Link) []string {
	w := &s.Now
	compass := units.Angle(w.Compass)
	switch of {
	case picture.LinkCompass:
		return []string{look.Textf(look.LawCompass, units.CompassText(compass))}
	case picture.LinkDeviation:
		return []string{fmt.Sprintf("%s + 0 = %s", units.CompassText(compass), units.MagneticText(compass))}
	case picture.LinkVariation:
		sign, size := "+", w.Setter
		if size < 0 {
			sign, size = "-", -size
		}
		return []string{fmt.Sprintf("%s %s %s = %s", units.MagneticText(compass), sign,
			f(units.Angle(size).Degrees(), 1), units.TrueText(compass+units.Angle(w.Setter)))}
	}
	return []string{look.Textf(look.LawRepeater, w.Sent, w.Heading)}
}

func (s *Story) splitLaw(of picture.Link) []string {
	w := &s.Now
	h := whole(units.Angle(w.Heading))
	rad := h * math.Pi / 180
	three := func(x float64) float64 { return math.Round(x*1000) / 1000 }
	v := kt(w.Drive)
	switch of {
	case picture.LinkResolver:
		return []string{
			fmt.Sprintf("%s: cos %s = %s", look.Text(look.NoteNorth), pad3(h), f(math.Cos(rad), 3)),
			fmt.Sprintf("%s: sin %s = %s", look.Text(look.NoteEast), pad3(h), f(math.Sin(rad), 3)),
		}
	case picture.LinkNorthDisc:
		b := three(w.BallNorth)
		return []string{fmt.Sprintf("%s kt x %s = %s kt", f(v, 1), f(b, 3), f(v*b, 1)), look.Textf(look.LawSinceReset, s.plateText(of))}
	case picture.LinkEastDisc:
		b := three(w.BallEast)
		return []string{fmt.Sprintf("%s kt x %s = %s kt", f(v, 1), f(b, 3), f(v*b, 1)), look.Textf(look.LawSinceReset, s.plateText(of))}
	case picture.LinkLatitude:
		return []string{look.Textf(look.LawLatitude, f(kt(w.NorthRate), 1))}
	case picture.LinkSecant:
		return []string{secantLaw(w.Gear, w.Secant)}
	case picture.LinkLongitude:
		e, k := kt(w.EastRate), three(w.Secant)
		return []string{fmt.Sprintf("%s kt x %s = %s %s", f(e, 1), f(k, 3), f(e*k, 1), look.Text(look.LawMinutes))}
	}
	return nil
}

func (s *Story) plateText(of picture.Link) string {
	value, unit := (&Story{View: s.View, Now: s.Now}).value(of)
	if unit == "" {
		unit = "NM"
	}
	return value + " " + unit
}

func secantLaw(at units.Angle, ratio float64) string {
	d := tenths(math.Abs(at.Degrees()))
	if ratio == 0 {
		return look.Text(look.LawDroppedOut)
	}
	return fmt.Sprintf("1 / cos %s = %s", f(d, 1), f(1/math.Cos(d*math.Pi/180), 3))
}

func pad3(deg float64) string { return units.Degrees3(units.Angle(deg) * units.Degree) }

func (s *Story) groundLaw(of picture.Link) []string {
	w := &s.Now
	n, e := w.Wind.Velocity()
	from, speed := whole(w.Wind.From), math.Round(w.Wind.Speed.Knots())
	three := math.Round(w.GroundSecant*1000) / 1000
	gn, ge := kt(w.GroundNorth), kt(w.GroundEast)
	switch of {
	case picture.LinkClock:
		return []string{look.Textf(look.LawClock, f(w.WindRun/60, 1))}
	case picture.LinkWind:
		rad := from * math.Pi / 180
		return []string{
			fmt.Sprintf("%s: -%s cos %s = %s kt", look.Text(look.NoteNorth), f(speed, 0), pad3(from), f(-speed*math.Cos(rad), 1)),
			fmt.Sprintf("%s: -%s sin %s = %s kt", look.Text(look.NoteEast), f(speed, 0), pad3(from), f(-speed*math.Sin(rad), 1)),
		}
	case picture.LinkAdders:
		an, ae := kt(w.NorthRate), kt(w.EastRate)
		return []string{
			fmt.Sprintf("%s: %s %s = %s kt", look.Text(look.NoteNorth), f(an, 1), plus(kt(n)), f(an+kt(n), 1)),
			fmt.Sprintf("%s: %s %s = %s kt", look.Text(look.NoteEast), f(ae, 1), plus(kt(e)), f(ae+kt(e), 1)),
		}
	case picture.LinkGroundSecant:
		return []string{secantLaw(w.GroundGear, w.GroundSecant)}
	case picture.LinkGround:
		return []string{
			look.Textf(look.LawLatitude, f(gn, 1)),
			fmt.Sprintf("%s kt x %s = %s %s", f(ge, 1), f(three, 3), f(ge*three, 1), look.Text(look.LawMinutes)),
		}
	}
	return []string{
		fmt.Sprintf("sqrt(%s^2 + %s^2) = %s kt", f(gn, 1), f(ge, 1), f(math.Hypot(gn, ge), 1)),
		look.Textf(look.LawTrack, units.TrueText(units.Angle(math.Atan2(ge, gn)))),
	}
}
