package drafting

import (
	"errors"
	"math"
	"strconv"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/scenarios/edit"
	"stillair/sim"
)

func windPath(n int) string { return "air.wind[" + strconv.Itoa(n) + "]" }

// weather are the rows of air and winds.
func (s *sheet) weather() {
	s.title(look.DraftAir)
	s.number(look.DraftISA, "air.isa_deviation_c", "C", look.Text(look.DraftISAUsual))
	s.number(look.DraftQNH, "air.qnh_hpa", "hPa", look.Text(look.DraftQNHUsual))
	s.title(look.DraftWinds)
	p := s.draft.Plan()
	if s.draft.Count("air.wind") == 0 {
		s.add(Row{Label: look.Text(look.DraftCalm), Kind: TitleRow, Faint: true})
	}
	for n := 1; n <= s.draft.Count("air.wind"); n++ {
		path := windPath(n) + "."
		label, value := look.Textf(look.DraftWindNumber, n), ""
		if p != nil {
			label, value = windWords(p, &p.Air.Winds[n-1])
		}
		if !s.head(windPath(n), label, value) {
			continue
		}
		s.wind(look.DraftWind, path+"from_deg_true", path+"speed_kt", "")
		s.number(look.DraftBase, path+"base_ft", "ft", look.Text(look.DraftAllHeights))
		s.moment(look.DraftFrom, path+"from", look.Text(look.DraftFromStart))
		s.moment(look.DraftUntil, path+"until", look.Text(look.DraftToEnd))
	}
}

// windWords are the head of a wind: what blows, where and when.
func windWords(p *sim.Plan, w *sim.WindEntry) (label, value string) {
	label = w.Wind.String()
	if w.Base == nil {
		label += "  " + look.Text(look.DraftAllHeights)
	} else {
		label += "  " + units.HeightText(*w.Base)
	}
	clock := func(tick int64) string { return units.TimeText(p.Start.Add(sim.TimeOf(tick))) }
	switch {
	case w.From == 0 && w.Until == 0:
		return label, look.Text(look.DraftAlways)
	case w.Until == 0:
		return label, look.Textf(look.DraftFromTime, clock(w.From))
	}
	return label, look.Textf(look.DraftBetween, clock(w.From), clock(w.Until))
}

// Length is how long the flight is planned to last.
func Length(p *sim.Plan) time.Duration {
	if p == nil {
		return 0
	}
	planned := atlas.Planned(p)
	if len(planned) == 0 {
		return 0
	}
	return planned[len(planned)-1].Ends
}

// block are the winds, counted from 1, that blow in the same time as wind n.
func block(p *sim.Plan, n int) []int {
	var out []int
	for i, w := range p.Air.Winds {
		if w.From == p.Air.Winds[n-1].From && w.Until == p.Air.Winds[n-1].Until {
			out = append(out, i+1)
		}
	}
	return out
}

// windAt is the number in the path of a wind, 1 if it is another table's.
func windAt(d *edit.Draft, item string) int {
	for n := d.Count("air.wind"); n > 1; n-- {
		if windPath(n) == item {
			return n
		}
	}
	return 1
}

// firstWind is the wind that blows where there was none.
var firstWind = []edit.Field{{Key: "from_deg_true", Value: edit.Whole(270)}, {Key: "speed_kt", Value: edit.Whole(20)}}

// between is how far a new level lies over the highest one, feet.
const between = 5000

// AddLevel puts a wind of its own at a height above those that blow in the time of the
// wind item; a wind at all heights first gets the height at which the flight begins. It
// gives the table that is new.
func AddLevel(d *edit.Draft, item string) (changes []edit.Change, made string, err error) {
	p, err := flyable(d)
	if err != nil {
		return nil, "", err
	}
	count := len(p.Air.Winds)
	made = windPath(count + 1)
	if count == 0 {
		return []edit.Change{edit.Insert("air.wind", 1, firstWind...)}, made, nil
	}
	n := windAt(d, item)
	w := p.Air.Winds[n-1]
	top := p.Aircraft.PressureAltitude.Feet()
	if w.Base == nil {
		top = math.Round(top/1000) * 1000
		changes = append(changes, edit.Set(windPath(n)+".base_ft", edit.Number(top)))
	} else {
		top = math.Inf(-1)
		for _, i := range block(p, n) {
			top = max(top, p.Air.Winds[i-1].Base.Feet())
		}
	}
	if top += between; top > 40000 {
		return nil, "", errors.New(look.Text(look.DraftNoHigher))
	}
	fields := append(fieldsOfWind(w.Wind), edit.Field{Key: "base_ft", Value: edit.Number(math.Round(top))})
	fields = append(fields, timesOf(w.From, w.Until)...)
	return append(changes, edit.Insert("air.wind", count+1, fields...)), made, nil
}

func fieldsOfWind(w units.Wind) []edit.Field {
	return []edit.Field{{Key: "from_deg_true", Value: edit.Rounded(w.From.Degrees(), 1)}, {Key: "speed_kt", Value: edit.Rounded(w.Speed.Knots(), 1)}}
}

func timesOf(from, until int64) (out []edit.Field) {
	if from > 0 {
		out = append(out, edit.Field{Key: "from", Value: edit.Duration(sim.TimeOf(from))})
	}
	if until > 0 {
		out = append(out, edit.Field{Key: "until", Value: edit.Duration(sim.TimeOf(until))})
	}
	return out
}

// AddTime has the winds that blow in the time of the wind item blow until its middle, and
// the same again after it, to be changed. It gives the first table that is new.
func AddTime(d *edit.Draft, item string) (changes []edit.Change, made string, err error) {
	p, err := flyable(d)
	if err != nil {
		return nil, "", err
	}
	count := len(p.Air.Winds)
	if count == 0 {
		return []edit.Change{edit.Insert("air.wind", 1, firstWind...)}, windPath(1), nil
	}
	n := windAt(d, item)
	from, until := p.Air.Winds[n-1].From, p.Air.Winds[n-1].Until
	end := until
	if end == 0 {
		end = max(sim.TicksOf(Length(p)), from+sim.TicksOf(2*time.Minute))
	}
	middle := sim.TimeOf((from + end) / 2).Round(time.Minute)
	if tick := sim.TicksOf(middle); tick <= from || until > 0 && tick >= until {
		return nil, "", errors.New(look.Text(look.DraftNoShorter))
	}
	for k, i := range block(p, n) {
		w := p.Air.Winds[i-1]
		changes = append(changes, edit.Set(windPath(i)+".until", edit.Duration(middle)))
		fields := fieldsOfWind(w.Wind)
		if w.Base != nil {
			fields = append(fields, edit.Field{Key: "base_ft", Value: edit.Number(math.Round(w.Base.Feet()))})
		}
		fields = append(fields, timesOf(sim.TicksOf(middle), until)...)
		changes = append(changes, edit.Insert("air.wind", count+1+k, fields...))
	}
	return changes, windPath(count + 1), nil
}
