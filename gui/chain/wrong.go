package chain

import (
	"math"
	"strings"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// linksOf are the links in which the faults of the catalogue sit. Those of the
// crew show where they are set.
var linksOf = map[string]picture.Link{
	"pitot-ram-blocked": picture.LinkPitot, "pitot-and-drain-blocked": picture.LinkPitot, "pitot-leak": picture.LinkPitot,
	"water-in-pitot-line": picture.LinkPitot, "water-head-in-pitot-line": picture.LinkPitot,
	"static-blocked": picture.LinkStatic, "static-leak": picture.LinkStatic, "position-error": picture.LinkStatic,
	"capsule-lag": picture.LinkCapsules, "compressibility-neglected": picture.LinkAirLog,
	"density-standard-temperature": picture.LinkAirLog, "temperature-mis-set": picture.LinkAirLog,
	"temperature-ram-rise": picture.LinkAirLog, "tas-scale": picture.LinkAirLog, "low-speed-threshold": picture.LinkAirLog,
	"regulator-ripple": picture.LinkAirLog, "air-log-frozen": picture.LinkAirLog,
	"drive-slip": picture.LinkDrive, "drive-broken": picture.LinkDrive, "wrong-gear-ratio": picture.LinkDrive,
	"backlash":          picture.LinkNorthDisc,
	"compass-deviation": picture.LinkCompass, "gyro-drift-unslaved": picture.LinkCompass,
	"slaving-hang-off": picture.LinkCompass, "turning-error": picture.LinkCompass,
	"variation-mis-set": picture.LinkVariation, "variation-wrong-sign": picture.LinkVariation,
	"variation-left-at-old-value": picture.LinkVariation,
	"repeater-lost-steps":         picture.LinkRepeater, "repeater-stuck": picture.LinkRepeater, "repeater-lag": picture.LinkRepeater,
	"resolver-zero-off": picture.LinkResolver, "resolver-gain-mismatch": picture.LinkResolver,
	"resolver-not-orthogonal": picture.LinkResolver, "quadrant-error": picture.LinkResolver, "resolver-stiction": picture.LinkResolver,
	"disc-centre-offset": picture.LinkNorthDisc, "disc-slip": picture.LinkNorthDisc,
	"secant-gear-held": picture.LinkSecant, "secant-gear-at-limit": picture.LinkSecant, "latitude-coupling": picture.LinkSecant,
	"earth-model": picture.LinkLatitude, "latitude-drum-jam": picture.LinkLatitude, "longitude-drum-jam": picture.LinkLongitude,
	"carry-failure": picture.LinkLatitude, "counter-mis-set": picture.LinkLatitude,
	"latitude-sense-reversed": picture.LinkLatitude, "longitude-sense-reversed": picture.LinkLongitude,
	"lever-late":              picture.LinkLongitude,
	"wind-direction-reversed": picture.LinkWind, "wind-direction-mis-set": picture.LinkWind, "wind-speed-mis-set": picture.LinkWind,
	"wind-clock-late": picture.LinkClock, "wind-clock-not-reset": picture.LinkClock, "clock-rate-wrong": picture.LinkClock,
	"wind-changed-without-reset": picture.LinkWind, "wind-changes-with-time": picture.LinkWind,
	"wind-changes-with-place": picture.LinkWind, "wind-changes-with-height": picture.LinkWind,
	"marker-origin-mis-set": picture.LinkMarker, "chart-scale-wrong": picture.LinkMarker, "mercator-scale-fixed": picture.LinkMarker,
	"reset-applied-late": picture.LinkGround, "fix-time-wrong": picture.LinkGround, "reset-to-wrong-fix": picture.LinkGround,
	"air-plot-method": picture.LinkGround,
}

// faultsOf are the faults that sit in a link and can be given, in the order of
// the catalogue.
func faultsOf(l picture.Link) (ids []string) {
	all := fault.Catalogue()
	for i := range all {
		if at, ok := linksOf[all[i].ID]; ok && at == l && all[i].Refusal() == "" {
			ids = append(ids, all[i].ID)
		}
	}
	return ids
}

// flags are the links that are broken and the words for it.
func (s *Story) flags() map[picture.Link]string {
	flags := map[picture.Link]string{}
	w, t := &s.Now, s.Truth
	if math.Abs(units.WrapHalf(units.Angle(w.Setter-t.Setter)).Degrees()) > setterTolerance {
		flags[picture.LinkVariation] = look.Textf(look.FlagVariation, variationText(w.Setter), variationText(t.Setter))
	}
	if windApart(w.Wind, t.Wind) > windTolerance {
		flags[picture.LinkWind] = look.Textf(look.FlagWind, w.Wind, t.Wind)
	}
	for _, l := range Walk() {
		if s.held(l) && s.moves(l).shows() && l != picture.LinkResolver {
			flags[l] = look.Text(look.FlagHeld)
		}
	}
	for i := range s.Faults {
		if f := &s.Faults[i]; f.Stands == sim.FaultInForce {
			flags[placeOf(&f.Order)] = flagOf(f, s.View.Tick)
		}
	}
	return flags
}

// placeOf is the link in which a fault sits; some may sit in either of two.
func placeOf(o *fault.Order) picture.Link {
	l := linksOf[o.ID]
	e, ok := fault.Lookup(o.ID)
	if !ok {
		return l
	}
	for i, p := range e.Params {
		if p.Type != fault.Choice || i >= len(o.Params) {
			continue
		}
		word := strings.Trim(p.Format(o.Params[i]), `"`)
		switch {
		case l == picture.LinkNorthDisc && strings.HasPrefix(word, "east"):
			return picture.LinkEastDisc
		case strings.HasPrefix(word, "ground"):
			return picture.LinkGround
		case l == picture.LinkLatitude && strings.HasPrefix(word, "lon"):
			l = picture.LinkLongitude // in the air train, unless the other is named
		}
	}
	if i, has := e.Param("north_centre"); has && o.Params[i] == 0 {
		return picture.LinkEastDisc
	}
	return l
}

// flagOf says in plain words what is broken at a tick.
func flagOf(f *sim.FaultStatus, tick int64) string {
	o := f.Order
	e, ok := fault.Lookup(o.ID)
	if !ok {
		return o.ID
	}
	if i, has := e.Param("slip"); has && o.ID == "drive-slip" && i < len(o.Params) {
		o.At = f.Onset
		amount, _ := o.Amount(tick)
		return look.Textf(look.FlagSlip, units.Figure(100*amount*o.Params[i], 0))
	}
	words, _, _ := strings.Cut(e.Title, ",")
	return strings.ToUpper(words[:1]) + words[1:]
}

// wrong says what the plate of a link says wrongly, and what would be right.
func (s *Story) wrong(of picture.Link) (words [2]string) {
	w, t := &s.Now, s.Truth
	if m := s.moves(of); m.wrong() {
		switch of {
		case picture.LinkPitot:
			return s.amiss(w.Pitot.Hectopascals(), t.Pitot.Hectopascals(), "hPa")
		case picture.LinkStatic:
			return s.amiss(w.Static.Hectopascals(), t.Static.Hectopascals(), "hPa")
		case picture.LinkCapsules:
			return s.amiss((w.Pitot - w.Static).Hectopascals(), (t.Pitot - t.Static).Hectopascals(), "hPa")
		case picture.LinkAirLog:
			return s.amiss(w.TAS.Knots(), t.TAS.Knots(), look.Text(look.Knots))
		case picture.LinkCompass, picture.LinkDeviation, picture.LinkRepeater, picture.LinkResolver:
			return s.amissHeading(of)
		case picture.LinkWind:
			return [2]string{look.Textf(look.WrongOut, units.Figure(m.by, 0)+" "+look.Text(look.Knots))}
		}
	}
	switch of {
	case picture.LinkVariation:
		return s.amissSetter()
	case picture.LinkSecant:
		return amissRatio(w.Secant, t.Secant)
	case picture.LinkGroundSecant:
		return amissRatio(w.GroundSecant, t.GroundSecant)
	}
	return s.wrongSum(of)
}

// amissRatio is the same of a secant gear, whose ratio is told to a hundredth.
func amissRatio(now, right float64) (words [2]string) {
	if math.Abs(now/right-1) > 0.01 {
		words[0] = look.Textf(look.WrongRight, "x "+units.Figure(right, 3))
	}
	return words
}

// wrongSum is the same of links that sum up.
func (s *Story) wrongSum(of picture.Link) (words [2]string) {
	m := s.stands(of)
	if !m.wrong() {
		return words
	}
	w, t := &s.Now, s.Truth
	switch of {
	case picture.LinkCounter:
		return s.short(w.AirMiles, t.AirMiles)
	case picture.LinkDrive:
		return s.short(w.Wound, t.Wound)
	case picture.LinkNorthDisc:
		return [2]string{side(w.North.NM(), t.North.NM(), look.WrongFarN, look.WrongFarS)}
	case picture.LinkEastDisc:
		return [2]string{side(w.East.NM(), t.East.NM(), look.WrongFarE, look.WrongFarW)}
	case picture.LinkLatitude:
		return [2]string{
			side(w.Air.Lat.Minutes(), t.Air.Lat.Minutes(), look.WrongTooNorth, look.WrongTooSouth),
			look.Textf(look.WrongRight, units.LatitudeText(t.Air.Lat)),
		}
	case picture.LinkLongitude:
		now := t.Air.Lon.Minutes() + units.WrapHalf(w.Air.Lon-t.Air.Lon).Minutes()
		return [2]string{
			side(now, t.Air.Lon.Minutes(), look.WrongTooEast, look.WrongTooWest),
			look.Textf(look.WrongRight, units.LongitudeText(t.Air.Lon)),
		}
	case picture.LinkMarker:
		return [2]string{look.Textf(look.WrongOut, units.Figure(m.by, 1)+" NM")}
	}
	return words
}

// tenths rounds as a plate does, so that a difference is that of what is printed.
func tenths(x float64) float64 { return math.Round(x*10) / 10 }

func (s *Story) amiss(now, right float64, unit string) [2]string {
	by, word := tenths(now)-tenths(right), look.TooHigh
	if by < 0 {
		word = look.TooLow
	}
	return [2]string{
		look.Textf(word, units.Figure(math.Abs(by), 1)+" "+unit),
		look.Textf(look.WrongRight, units.Figure(right, 1)),
	}
}

func (s *Story) short(now, right units.Length) [2]string {
	by, word := tenths(now.NM())-tenths(right.NM()), look.WrongOver
	if by < 0 {
		word = look.WrongShort
	}
	return [2]string{
		look.Textf(word, units.Figure(math.Abs(by), 1)),
		look.Textf(look.WrongRight, units.Figure(right.NM(), 1)),
	}
}

// side says by how much and to which side a value is off.
func side(now, right float64, onward, back look.Key) string {
	by, word := tenths(now)-tenths(right), onward
	if by < 0 {
		word = back
	}
	return look.Textf(word, units.Figure(math.Abs(by), 1))
}

func (s *Story) amissHeading(of picture.Link) [2]string {
	now, right, text := units.Angle(s.Now.Heading), units.Angle(s.Truth.Heading), units.TrueText
	if of == picture.LinkCompass || of == picture.LinkDeviation {
		now, right, text = units.Angle(s.Now.Compass), units.Angle(s.Truth.Compass), units.CompassText
	}
	whole := func(a units.Angle) float64 { return math.Round(units.Wrap(a).Degrees()) }
	by := math.Mod(whole(now)-whole(right)+540, 360) - 180
	word := look.WrongMuch
	if by < 0 {
		word = look.WrongLittle
	}
	return [2]string{look.Textf(word, units.Figure(math.Abs(by), 0)), look.Textf(look.WrongRight, text(right))}
}

func (s *Story) amissSetter() (words [2]string) {
	by := units.WrapHalf(units.Angle(s.Now.Setter - s.Truth.Setter)).Degrees()
	if math.Abs(by) <= setterTolerance {
		return words
	}
	word := look.WrongSetEast
	if by < 0 {
		word = look.WrongSetWest
	}
	return [2]string{look.Textf(word, units.Figure(math.Abs(by), 1)), look.Textf(look.WrongRight, variationText(s.Truth.Setter))}
}
