package chain

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// WalkText is what a lecturer says at a link.
func (s *Story) WalkText(of picture.Link) string {
	w := &s.Now
	switch k := says[of]; of {
	case picture.LinkCapsules:
		return look.Textf(k, f((w.Pitot-w.Static).Hectopascals(), 1))
	case picture.LinkAirLog:
		return look.Textf(k, f(w.TAS.Knots(), 1))
	case picture.LinkCounter:
		return look.Textf(k, f(w.AirMiles.NM(), 1))
	case picture.LinkVariation:
		return look.Textf(k, variationText(w.Setter))
	case picture.LinkRepeater, picture.LinkResolver:
		return look.Textf(k, w.Heading)
	case picture.LinkNorthDisc:
		return look.Textf(k, f(math.Abs(w.NorthRate.Knots()), 0), side2(float64(w.NorthRate), look.NoteNorth, look.NoteSouth))
	case picture.LinkEastDisc:
		return look.Textf(k, f(math.Abs(w.EastRate.Knots()), 0), side2(float64(w.EastRate), look.NoteEast, look.NoteWest))
	case picture.LinkSecant:
		return look.Textf(k, f(math.Abs(w.Gear.Degrees()), 0), f(w.Secant, 2))
	case picture.LinkWind:
		return look.Textf(k, w.Wind)
	default:
		return look.Text(k)
	}
}

func side2(v float64, onward, back look.Key) string {
	if v < 0 {
		return look.Text(back)
	}
	return look.Text(onward)
}

// Spoken is the link in one line: its name, its value, how it stands.
func (s *Story) Spoken(of picture.Link) string {
	words := look.Text(titles[of])
	if value := s.spokenValue(of); value != "" {
		words += ": " + value
	}
	if s.Truth == nil {
		return words
	}
	v := s.Judge()[of]
	switch {
	case v.Stands == picture.Broken:
		words += ". " + v.Flag
	case v.Wrong[0] != "":
		words += ". " + v.Wrong[0]
	case v.Stands == picture.Carries:
		words += ". " + look.Text(look.SpokenCarries)
	default:
		words += ", " + look.Text(look.LinkAgrees)
	}
	return words
}

func (s *Story) spokenValue(of picture.Link) string {
	switch of {
	case picture.LinkLatitude:
		return units.LatitudeText(s.Now.Air.Lat)
	case picture.LinkLongitude:
		return units.LongitudeText(s.Now.Air.Lon)
	case picture.LinkGround:
		return units.Position(s.Now.Ground).String()
	case picture.LinkMarker:
		return units.Position(s.Now.Marker).String()
	case picture.LinkClock:
		return units.ClockText(s.View.Clock)
	}
	value, unit := s.value(of)
	if unit != "" {
		value += " " + unit
	}
	return value
}

// Step is a stop on the way of an error.
type Step struct {
	Link  picture.Link
	Words string
}

// Follow is the way of the error, from each link that is broken along what it
// spoils to the counters and the marker; none while the truth is hidden or all
// is right.
func (s *Story) Follow() (steps []Step) {
	if s.Truth == nil {
		return nil
	}
	all := s.Judge()
	for _, l := range Walk() {
		v := &all[l]
		switch {
		case v.Stands == picture.Broken && v.Wrong[0] != "":
			steps = append(steps, Step{l, look.Textf(look.FollowBroken, v.Flag, v.Wrong[0])})
		case v.Stands == picture.Broken:
			steps = append(steps, Step{l, look.Textf(look.FollowStill, v.Flag)})
		case v.Stands == picture.Carries && v.Wrong[0] != "":
			steps = append(steps, Step{l, look.Textf(look.FollowCarries, v.Wrong[0])})
		case v.Stands == picture.Carries:
			steps = append(steps, Step{l, s.passes(l)})
		case v.Wrong[0] != "":
			steps = append(steps, Step{l, look.Textf(look.FollowStands, v.Wrong[0])})
		}
	}
	return steps
}

// passes says what a link passes on that carries an error, and what would be right.
func (s *Story) passes(of picture.Link) string {
	w, t := &s.Now, s.Truth
	kts := func(now, right units.Speed) string {
		return look.Textf(look.FollowPasses, f(now.Knots(), 1)+" kt", f(right.Knots(), 1)+" kt")
	}
	hour := func(now, right float64) string { // rad/s in minutes an hour
		arc := func(v float64) string { return f(units.Angle(v).Minutes()*3600, 1) + "\u2032" }
		return look.Textf(look.FollowHour, arc(now), arc(right))
	}
	switch of {
	case picture.LinkAirLog, picture.LinkCounter:
		return kts(w.TAS, t.TAS)
	case picture.LinkDrive:
		return kts(w.Drive, t.Drive)
	case picture.LinkVariation:
		return look.Textf(look.FollowPasses, w.Sent, t.Sent)
	case picture.LinkRepeater, picture.LinkResolver:
		return look.Textf(look.FollowPasses, w.Heading, t.Heading)
	case picture.LinkNorthDisc:
		return kts(w.NorthRate, t.NorthRate)
	case picture.LinkEastDisc:
		return kts(w.EastRate, t.EastRate)
	case picture.LinkLatitude:
		return hour(w.Latitude, t.Latitude)
	case picture.LinkSecant, picture.LinkLongitude:
		return hour(w.Longitude, t.Longitude)
	case picture.LinkAdders:
		return kts(units.Speed(math.Hypot(float64(w.GroundNorth), float64(w.GroundEast))),
			units.Speed(math.Hypot(float64(t.GroundNorth), float64(t.GroundEast))))
	}
	return look.Text(look.FollowOn)
}
