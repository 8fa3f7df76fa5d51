package chain

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// words are the texts of one link.
type words struct{ title, what, walk look.Key }

var linkWords = [picture.LinkCount]words{
	picture.LinkPitot:        {look.TitlePitot, look.WhatPitot, look.WalkPitot},
	picture.LinkStatic:       {look.TitleStatic, look.WhatStatic, look.WalkStatic},
	picture.LinkCapsules:     {look.TitleCapsules, look.WhatCapsules, look.WalkCapsules},
	picture.LinkAirLog:       {look.TitleAirLog, look.WhatAirLog, look.WalkAirLog},
	picture.LinkCounter:      {look.TitleCounter, look.WhatCounter, look.WalkCounter},
	picture.LinkDrive:        {look.TitleDrive, look.WhatDrive, look.WalkDrive},
	picture.LinkCompass:      {look.TitleCompass, look.WhatCompass, look.WalkCompass},
	picture.LinkDeviation:    {look.TitleDeviation, look.WhatDeviation, look.WalkDeviation},
	picture.LinkVariation:    {look.TitleVariation, look.WhatVariation, look.WalkVariation},
	picture.LinkRepeater:     {look.TitleRepeater, look.WhatRepeater, look.WalkRepeater},
	picture.LinkResolver:     {look.TitleResolver, look.WhatResolver, look.WalkResolver},
	picture.LinkNorthDisc:    {look.TitleNorthDisc, look.WhatNorthDisc, look.WalkNorthDisc},
	picture.LinkEastDisc:     {look.TitleEastDisc, look.WhatEastDisc, look.WalkEastDisc},
	picture.LinkLatitude:     {look.TitleLatitude, look.WhatLatitude, look.WalkLatitude},
	picture.LinkSecant:       {look.TitleSecant, look.WhatSecant, look.WalkSecant},
	picture.LinkLongitude:    {look.TitleLongitude, look.WhatLongitude, look.WalkLongitude},
	picture.LinkClock:        {look.TitleClock, look.WhatClock, look.WalkClock},
	picture.LinkWind:         {look.TitleWind, look.WhatWind, look.WalkWind},
	picture.LinkAdders:       {look.TitleAdders, look.WhatAdders, look.WalkAdders},
	picture.LinkGroundSecant: {look.TitleGroundSecant, look.WhatGroundSecant, look.WalkGroundSecant},
	picture.LinkGround:       {look.TitleGround, look.WhatGround, look.WalkGround},
	picture.LinkMarker:       {look.TitleMarker, look.WhatMarker, look.WalkMarker},
}

// WalkText is what a lecturer would say at a link, with the numbers of the
// moment.
func (s *Story) WalkText(of picture.Link) string {
	if of >= picture.LinkCount {
		return ""
	}
	return look.Textf(linkWords[of].walk, s.walkNumbers(of)...)
}

func (s *Story) walkNumbers(of picture.Link) []any {
	w := &s.Now
	one := []any{s.tell(of, w)}
	switch of {
	case picture.LinkDrive:
		return []any{s.lengthText(w.Wound), s.lengthText(w.AirMiles)}
	case picture.LinkDeviation:
		return []any{units.Deviation(0).String()}
	case picture.LinkNorthDisc, picture.LinkEastDisc:
		return []any{s.speedText(w.Drive), s.tell(of, w)}
	case picture.LinkSecant:
		return []any{units.Figure(math.Abs(w.Gear.Degrees()), 1), units.Figure(w.Secant, 3)}
	case picture.LinkLongitude:
		pole := look.ChainNorth
		if w.Air.Lat < 0 {
			pole = look.ChainSouth
		}
		east, minutes := math.Abs(knots(w.EastRate)), math.Abs(minutesAnHour(w.Longitude).Knots())
		if law := east * round(w.Secant, 3); math.Abs(law-minutes) < 0.5 { // as its card works it
			minutes = law
		}
		return []any{units.Figure(east, 1), units.Figure(minutes, 1), look.Text(pole)}
	case picture.LinkClock:
		return []any{units.Figure(w.WindRun/60, 1)}
	case picture.LinkGroundSecant:
		return []any{units.Figure(w.GroundSecant, 3)}
	case picture.LinkGround:
		return []any{w.Ground.String(), s.lengthText(units.Length(math.Hypot(w.WindNorth.NM(), w.WindEast.NM())) * units.NM)}
	}
	return one
}

// Spoken is a link in one line for those who hear it: "true airspeed 178.0
// knots, agrees".
func (s *Story) Spoken(of picture.Link) string {
	if of >= picture.LinkCount {
		return ""
	}
	line := look.Textf(look.SayLink, title(of), s.spell(of))
	v := s.Judge()[of]
	switch {
	case v.Stands == picture.Broken:
		return look.Textf(look.SayBroken, line, v.Flag)
	case v.Stands == picture.Carries && v.Wrong[0] != "":
		return look.Textf(look.SayCarries, line, v.Wrong[0])
	case v.Stands == picture.Carries:
		return look.Textf(look.SayOn, line)
	case v.Stands == picture.Agrees:
		return look.Textf(look.SayAgrees, line)
	}
	return line
}

// spell is the value of a link with its unit in full.
func (s *Story) spell(of picture.Link) string {
	w := &s.Now
	value, _ := s.plate(of)
	switch of {
	case picture.LinkPitot, picture.LinkStatic, picture.LinkCapsules:
		return look.Textf(s.inFull(look.SayPressure, look.SayPressureSI), value)
	case picture.LinkAirLog:
		return look.Textf(s.inFull(look.SaySpeed, look.SaySpeedSI), value)
	case picture.LinkCounter:
		return look.Textf(s.inFull(look.SayLength, look.SayLengthSI), s.length().text(s.l(w.AirMiles)))
	case picture.LinkDrive:
		return look.Textf(s.inFull(look.SayLength, look.SayLengthSI), value)
	case picture.LinkNorthDisc:
		return look.Textf(s.inFull(look.SayLength, look.SayLengthSI), s.length().text(s.l(max(w.North, -w.North)))) + " " + side(w.North >= 0, look.ChainNorth, look.ChainSouth)
	case picture.LinkEastDisc:
		return look.Textf(s.inFull(look.SayLength, look.SayLengthSI), s.length().text(s.l(max(w.East, -w.East)))) + " " + side(w.East >= 0, look.ChainEast, look.ChainWest)
	case picture.LinkCompass:
		return look.Textf(look.SayCompass, units.Degrees3(units.Angle(w.Compass)))
	case picture.LinkVariation:
		degrees := brief(math.Abs(w.Setter.Degrees()))
		return look.Textf(look.SayVariation, degrees, side(w.Setter >= 0, look.ChainEast, look.ChainWest))
	case picture.LinkRepeater, picture.LinkResolver:
		return look.Textf(look.SayTrue, units.Degrees3(units.Angle(w.Heading)))
	case picture.LinkWind:
		speed := s.speed().text(s.v(w.Wind.Speed))
		return look.Textf(look.SayWind, units.Degrees3(w.Wind.From), look.Textf(s.inFull(look.SaySpeed, look.SaySpeedSI), speed))
	case picture.LinkAdders:
		v := units.Speed(math.Hypot(float64(w.GroundNorth), float64(w.GroundEast)))
		return look.Textf(s.inFull(look.SaySpeed, look.SaySpeedSI), s.speed().text(s.v(v)))
	case picture.LinkClock:
		return look.Textf(look.SayMinutes, units.Figure(w.WindRun/60, 1))
	case picture.LinkDeviation:
		return look.Textf(look.SayCard, value)
	}
	return s.tell(of, w)
}

func side(plus bool, a, b look.Key) string {
	if plus {
		return look.Text(a)
	}
	return look.Text(b)
}

func (s *Story) inFull(trade, si look.Key) look.Key {
	if s.SI {
		return si
	}
	return trade
}
