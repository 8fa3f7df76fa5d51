package chain

import (
	"math"
	"strings"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim/fault"
)

// flag says in plain words what is broken, with numbers where there are any: of
// the moment where the moment shows them, else of the order.
func (s *Story) flag(of picture.Link, o *fault.Order) string {
	if o == nil {
		return s.flagOfLink(of)
	}
	p, ok := places[o.ID]
	if !ok {
		return shortTitle(o)
	}
	switch o.ID {
	case "drive-slip":
		return s.slipFlag(o)
	case "tas-scale":
		return signedFlag(100*valueOf(o, "scale"), look.FlagScale, look.FlagScaleSlow)
	case "temperature-mis-set":
		return signedFlag(valueOf(o, "temperature_error_k"), look.FlagTemperature, look.FlagTemperatureLow)
	case "reset-applied-late":
		return signedFlag(valueOf(o, "late_min"), look.FlagSetLate, look.FlagSetEarly)
	case "variation-left-at-old-value":
		if v := s.variations(); v[0] == v[1] { // not yet wrong
			return look.Textf(look.FlagVariationLeft, v[0])
		}
	case "clock-rate-wrong":
		return signedFlag(valueOf(o, "rate_ppm")*3600/1e6, look.FlagClockRate, look.FlagClockSlow)
	case "wind-direction-reversed", "wind-direction-mis-set", "wind-speed-mis-set",
		"wind-changes-with-time", "wind-changes-with-place", "wind-changes-with-height":
		return s.windFlag()
	case "disc-slip":
		if of == picture.LinkEastDisc {
			return look.Textf(look.FlagEastSlip, brief(100*valueOf(o, "slip")))
		}
	}
	if args := s.numbers(o); len(args) > 0 {
		return look.Textf(p.flag, args...)
	}
	return look.Text(p.flag)
}

// valueOf is a parameter of an order, 0 without it.
func valueOf(o *fault.Order, name string) float64 {
	x, _ := param(o, name)
	return x
}

// numbers are what stands in the places of an entry's flag.
func (s *Story) numbers(o *fault.Order) []any {
	w, r := &s.Now, s.Truth
	switch o.ID {
	case "position-error":
		return []any{s.pressureText(units.Pressure(math.Abs(float64(w.Static - r.Static))))}
	case "compass-deviation":
		return []any{units.Deviation(turnOf(units.Angle(r.Compass), units.Angle(w.Compass))).Tenths()}
	case "variation-mis-set", "variation-wrong-sign", "variation-left-at-old-value":
		return s.variations()
	case "gyro-drift-unslaved":
		return []any{brief(math.Abs(turnOf(units.Angle(w.Compass), units.Angle(r.Compass)).Degrees()))}
	case "air-log-frozen":
		return []any{s.speedText(w.TAS)}
	case "repeater-stuck":
		return []any{w.Heading.String()}
	case "backlash":
		return []any{s.lengthText(units.Length(valueOf(o, "backlash_nm")) * units.NM)}
	case "marker-origin-mis-set":
		return []any{s.lengthText(units.Length(math.Hypot(valueOf(o, "north_nm"), valueOf(o, "east_nm"))) * units.NM)}
	case "low-speed-threshold":
		return []any{s.speedText(units.Speed(valueOf(o, "threshold_kt")) * units.Knot)}
	case "disc-centre-offset":
		return []any{brief(100 * math.Max(math.Abs(valueOf(o, "north_centre")), math.Abs(valueOf(o, "east_centre"))))}
	}
	return parameter(o)
}

// shown are the flags that print the size of a parameter of the order, times a
// factor: to which side it is off, the plate tells.
var shown = map[string]struct {
	name  string
	times float64
}{
	"pitot-leak": {"leak_fraction", 100}, "capsule-lag": {"lag_s", 1}, "water-head-in-pitot-line": {"head_mm", 1},
	"regulator-ripple": {"ripple", 100},
	"wrong-gear-ratio": {"ratio", 1}, "slaving-hang-off": {"residual_deg", 1}, "repeater-lost-steps": {"steps", 1},
	"repeater-lag": {"lag_s", 1}, "resolver-zero-off": {"zero_deg", 1}, "resolver-not-orthogonal": {"angle_deg", 1},
	"quadrant-error": {"quadrant", 1}, "disc-slip": {"slip", 100}, "secant-gear-held": {"held_lat_deg", 1},
	"secant-gear-at-limit": {"limit_deg", 1}, "counter-mis-set": {"offset_min", 1}, "wind-clock-late": {"late_min", 1},
	"wind-clock-not-reset": {"old_run_min", 1}, "chart-scale-wrong": {"scale_factor", 1},
	"mercator-scale-fixed": {"scale_lat_deg", 1}, "fix-time-wrong": {"clock_error_min", 1},
}

func parameter(o *fault.Order) []any {
	p, ok := shown[o.ID]
	if !ok {
		return nil
	}
	x := math.Abs(p.times * valueOf(o, p.name))
	if o.ID == "wrong-gear-ratio" || o.ID == "chart-scale-wrong" {
		return []any{units.Figure(x, 3)}
	}
	return []any{brief(x)}
}

// brief writes a number with a tenth, or without where that is nought.
func brief(x float64) string { return strings.TrimSuffix(units.Figure(x, 1), ".0") }

// signedFlag has a word for more and one for less.
func signedFlag(x float64, more, less look.Key) string {
	if x < 0 {
		return look.Textf(less, brief(-x))
	}
	return look.Textf(more, brief(x))
}

// slipFlag tells the slip of the moment; before the first turn, that of the
// order; one that comes and goes may not slip just now.
func (s *Story) slipFlag(o *fault.Order) string {
	slip := 100 * (1 - float64(s.Now.Drive/s.Now.TAS))
	switch {
	case slip >= 0.05:
		return look.Textf(look.FlagSlip, brief(slip))
	case o.Shape == fault.Step:
		return look.Textf(look.FlagSlip, brief(100*valueOf(o, "slip")))
	}
	return look.Text(look.FlagSlipAtTimes)
}

// variations are what is set and what is right.
func (s *Story) variations() []any {
	return []any{variationText(s.Now.Setter), variationText(s.Truth.Setter)}
}

// windFlag is shorter in SI units, whose speeds have tenths.
func (s *Story) windFlag() string {
	key := look.FlagWind
	if s.SI {
		key = look.FlagWindSI
	}
	return look.Textf(key, s.windText(s.Now.Wind), s.windText(s.Truth.Wind))
}

// linkFlags are those of links whose own law does not hold without a fault in
// the book.
var linkFlags = map[picture.Link]look.Key{
	picture.LinkDrive: look.FlagLawDrive, picture.LinkResolver: look.FlagLawResolver,
	picture.LinkNorthDisc: look.FlagLawNorth, picture.LinkEastDisc: look.FlagLawEast,
	picture.LinkLatitude: look.FlagLawLatitude, picture.LinkLongitude: look.FlagLawLongitude,
	picture.LinkSecant: look.FlagLawGear, picture.LinkGroundSecant: look.FlagLawGear,
	picture.LinkClock: look.FlagLawClock, picture.LinkMarker: look.FlagLawMarker,
}

func (s *Story) flagOfLink(of picture.Link) string {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkPitot:
		return look.Textf(look.FlagLawPitot, s.pressureText(units.Pressure(math.Abs(float64(w.Pitot-r.Pitot)))))
	case picture.LinkStatic:
		return look.Textf(look.FlagLawStatic, s.pressureText(units.Pressure(math.Abs(float64(w.Static-r.Static)))))
	case picture.LinkAirLog:
		return look.Textf(look.FlagLawAirLog, s.speedText(w.TAS), s.speedText(r.TAS))
	case picture.LinkCompass, picture.LinkRepeater:
		key := look.FlagLawCompass
		if of == picture.LinkRepeater {
			key = look.FlagLawRepeater
		}
		return look.Textf(key, brief(math.Abs(s.own(of).off)))
	case picture.LinkVariation:
		return look.Textf(look.FlagVariation, s.variations()...)
	case picture.LinkWind:
		return s.windFlag()
	}
	return look.Text(linkFlags[of])
}

// longestFlag is what a flag has room for.
const longestFlag = 34

// shortTitle is the title of an entry up to its first comma and to whole words
// that fit.
func shortTitle(o *fault.Order) string {
	entry, ok := fault.Lookup(o.ID)
	if !ok {
		return o.ID
	}
	title, _, _ := strings.Cut(entry.Title, ",")
	for len(title) > longestFlag {
		title = title[:strings.LastIndexByte(title, ' ')]
	}
	return strings.ToUpper(title[:1]) + title[1:]
}
