package export

import (
	"math"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// actionFacts are what an action set, and the words for it.
func actionFacts(a *aboard.Action) ([]Fact, string) {
	fact := func(name string, rest ...Fact) []Fact { return append([]Fact{{"action", name}}, rest...) }
	switch a.Kind {
	case aboard.SetVariation:
		return fact("set_variation", Fact{"variation_deg", figure(a.Variation.Degrees())}), look.Textf(look.MarkVariation, a.Variation.Tenths())
	case aboard.FollowField:
		return fact("follow_field"), look.Text(look.MarkField)
	case aboard.SetWind:
		return fact("set_wind", Fact{"wind_from_deg_true", figure(units.Wrap(a.Wind.From).Degrees())}, Fact{"wind_kt", figure(a.Wind.Speed.Knots())},
			Fact{"wind_m_s", figure(a.Wind.Speed.MetresPerSecond())}), look.Textf(look.MarkWind, a.Wind.String())
	case aboard.SetCounters:
		return fact("set_counters", Fact{"set_lat_deg", degrees(a.Position.Lat)}, Fact{"set_lon_deg", longitude(a.Position.Lon)}), look.Text(look.MarkCounters)
	case aboard.SlewLatitude:
		return fact("slew_latitude", Fact{"slew_min", figure(a.Slew.Minutes())}), look.Text(look.MarkSlewLatitude)
	case aboard.SlewLongitude:
		return fact("slew_longitude", Fact{"slew_min", figure(a.Slew.Minutes())}), look.Text(look.MarkSlewLongitude)
	case aboard.SetLongitudeLever:
		side := look.Text(look.West)
		if a.East {
			side = look.Text(look.East)
		}
		return fact("throw_lever", Fact{"lever", side}), look.Textf(look.MarkLever, side)
	case aboard.AlternateStatic:
		words := look.Text(look.MarkStaticNormal)
		if a.On {
			words = look.Text(look.MarkStaticAlternate)
		}
		return fact("alternate_static", Fact{"on", a.On}), words
	case aboard.TakeAid:
		return readingFacts(&a.Reading), a.Reading.String()
	}
	return fact("resynchronise"), look.Text(look.MarkOther)
}

// readingFacts are what was read through an aid; of a reading of the crew, which is
// the truth but for a stated error, the error alone.
func readingFacts(r *aboard.Reading) []Fact {
	facts := []Fact{{"action", "take"}, {"aid", r.Aid.String()}}
	if r.Source != "" {
		facts = append(facts, Fact{"of", r.Source})
	}
	if r.Missing != aboard.Had {
		return append(facts, Fact{"taken", false})
	}
	switch r.Aid {
	case aboard.PulseReceiver:
		facts = append(facts, Fact{"time_difference_us", figure(r.Delay)})
	case aboard.Sextant:
		facts = append(facts, Fact{"observed_altitude_deg", figure(r.Observed.Degrees())})
	case aboard.Pinpoint:
	default:
		facts = append(facts, Fact{"reading_deg", figure(r.Angle.Degrees())})
	}
	if t := &r.Timing; t.Gives() { // with the drift, of something on the sea
		facts = append(facts, Fact{"timed_s", figure(t.Took.Seconds())}, Fact{"by_pressure_altitude_ft", figure(t.Height.Feet())},
			Fact{"groundspeed_kt", figure(t.Groundspeed.Knots())})
	}
	return facts
}

// figure drops what turning units into one another has left in the last places.
func figure(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// places of a coordinate, of a degree.
const places = 1e7

func degrees(a units.Angle) float64 { return math.Round(a.Degrees()*places) / places }

// longitude is one in [-180, 180).
func longitude(a units.Angle) float64 { return degrees(units.WrapHalf(a)) }
