package charttable

import (
	"strings"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/counter"
	"stillair/integrator/units"
)

// What the dials show, spelled out in words for those who listen. Figures of
// counters are those the drums have passed, so that ear and eye agree.

// spokenArc says a reading: "south 47 degrees 28.5 minutes".
func spokenArc(r counter.Reading) string {
	degrees := strings.Fields(strings.TrimLeft(r.Arc(), "NSEW "))
	return look.Textf(look.SpokenArc, spokenSide(r.Letter), plain(degrees[0]), plain(degrees[1]))
}

// plain drops the noughts before a figure: "013.2" is "13.2", "00" is "0".
func plain(figures string) string {
	s := strings.TrimLeft(figures, "0")
	if s == "" || s[0] == '.' {
		return "0" + s
	}
	return s
}

// spokenSide is the word for a letter drum; without one a counter counts east.
func spokenSide(letter byte) string {
	switch letter {
	case 'N':
		return look.Text(look.SpokenNorth)
	case 'S':
		return look.Text(look.SpokenSouth)
	case 'W':
		return look.Text(look.SpokenWest)
	}
	return look.Text(look.SpokenEast)
}

func spokenPosition(c aboard.Counters) string {
	return look.Textf(look.SpokenAir, spokenArc(c.Latitude), spokenArc(c.Longitude))
}

// spokenFigure says a figure with its sign in a word.
func spokenFigure(x float64, decimals int) string {
	s := units.Figure(x, decimals)
	if after, found := strings.CutPrefix(s, "-"); found {
		return look.Textf(look.SpokenMinus, after)
	}
	return s
}

func spokenMiles(r counter.Reading) string {
	miles := 0.0
	for i := r.N - 1; i >= 0; i-- {
		miles = miles*10 + float64(r.Digit(i))
	}
	return look.Textf(look.SpokenAirLog, units.Figure(miles/10, 1))
}

// spokenDirection says a direction in whole degrees, 0 to 359.
func spokenDirection(a units.Angle) string { return plain(units.Degrees3(a)) }

func spokenWind(w units.Wind) string {
	if w.Speed == 0 {
		return look.Text(look.SpokenStill)
	}
	return look.Textf(look.SpokenWind, spokenDirection(w.From), spokenFigure(w.Speed.Knots(), 0))
}

func spokenVariation(v units.Variation, follows bool) string {
	d, side := v.Degrees(), look.SpokenEast
	if d < 0 {
		d, side = -d, look.SpokenWest
	}
	words := look.Textf(look.SpokenVariation, units.Figure(d, 1), look.Text(side))
	if follows {
		words += ", " + look.Text(look.FollowsField)
	}
	return words
}
