package drafting

import (
	"errors"
	"strings"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
	"stillair/sim"
)

// steerWords name the ways to order a leg, in the order of sim.Steer.
var steerWords = []look.Key{look.DraftTrue, look.DraftMagnetic, look.DraftCompass, look.DraftTrack, look.DraftTo}

// letters say from which north a direction counts.
var letters = []string{"T", "M", "C", "T", ""}

// route are the rows of start and legs.
func (s *sheet) route() {
	s.title(look.DraftStart)
	s.position(look.DraftPlace, "aircraft.position", "")
	s.startTime()
	p := s.draft.Plan()
	if p == nil {
		s.legKeys()
		return
	}
	if name := placeName(p, p.Aircraft.Position); name != "" {
		s.rows[1].Value = name // it is written as a position
	}
	s.title(look.DraftLegs)
	planned := atlas.Planned(p)
	for i := range p.Legs {
		label, value := look.Textf(look.DraftLegUnheld, i+1), ""
		if i < len(planned) {
			label, value = legWords(p, i, &planned[i])
		}
		if s.head(leg(i+1), label, value) {
			s.leg(p, i, planned)
		}
	}
}

// legKeys are the legs of a draft that cannot be flown: their keys, to be mended.
func (s *sheet) legKeys() {
	for n := 1; n <= s.draft.Count("leg"); n++ {
		if !s.head(leg(n), look.Textf(look.DraftLegUnheld, n), "") {
			continue
		}
		for i, k := range steerKeys[:len(steerKeys)-1] {
			if s.draft.Has(leg(n) + "." + k) {
				s.direction(steerWords[i], leg(n)+"."+k, letters[i])
			}
		}
		if s.draft.Has(leg(n) + ".duration") {
			s.duration(look.DraftDuration, leg(n)+".duration", "")
		}
		if s.draft.Has(leg(n) + ".distance_nm") {
			s.number(look.DraftMiles, leg(n)+".distance_nm", "NM", "")
		}
		if s.draft.Has(leg(n) + ".to") {
			s.text(look.DraftPlaceTo, leg(n)+".to", "", look.Text(look.DraftPositionHint))
		}
		s.orders(leg(n) + ".")
	}
}

// orders are the rows of a leg's speed, height and turn.
func (s *sheet) orders(path string) {
	before := look.Text(look.DraftAsBefore)
	s.speed(path, before)
	s.number(look.DraftHeight, path+"pressure_altitude_ft", "ft", before)
	s.number(look.DraftClimb, path+"climb_ft_min", "ft/min", look.Text(look.DraftClimbUsual))
	s.number(look.DraftTurn, path+"turn_rate_deg_s", "\u00b0/s", look.Text(look.DraftTurnUsual))
}

// legWords are what the head of a leg says: its letter and time, track and distance.
func legWords(p *sim.Plan, i int, l *atlas.PlannedLeg) (label, value string) {
	track, far := geodesy.RhumbInverse(l.From, l.To)
	to := l.Letter
	if p.Legs[i].Steer == sim.ToPlace {
		to += " " + p.Legs[i].Place
	}
	label = look.Textf(look.DraftLeg, i+1, to)
	value = units.TimeText(p.Start.Add(l.Ends)) + "  " + units.TrueText(track) + "  " + units.DistanceText(far)
	return label, value
}

// startTime is the row of date and time of the start.
func (s *sheet) startTime() {
	const form = "2006-01-02 1504Z"
	s.row(look.DraftStartTime, "start", "", "", look.Text(look.DraftStartHint), func(text string) (edit.Value, error) {
		for _, f := range []string{form, "2 Jan 2006 1504Z", time.RFC3339} {
			if t, err := time.Parse(f, text); err == nil {
				return edit.Time(t), nil
			}
		}
		return edit.Value{}, errors.New(look.Textf(look.DraftNoTime, text))
	})
	if p := s.draft.Plan(); p != nil {
		r := &s.rows[len(s.rows)-1]
		r.Now = p.Start.Format(form)
		r.Value = units.DateText(p.Start) + "  " + units.TimeText(p.Start)
	}
}

// leg are the rows of one leg.
func (s *sheet) leg(p *sim.Plan, i int, planned []atlas.PlannedLeg) {
	l, path := &p.Legs[i], leg(i+1)+"."
	s.steering(p, i, planned)
	if l.Steer == sim.ToPlace {
		s.row(look.DraftPlaceTo, path+"to", "", "", look.Text(look.DraftPositionHint), func(text string) (edit.Value, error) {
			if w, err := scenarios.Waters(p.Waters); err == nil {
				if place, ok := w.Place(text); ok {
					return edit.Text(place.Name), nil
				}
			}
			at, err := s.readPosition(text)
			return edit.Position(at), err
		})
	} else {
		s.direction(steerWords[l.Steer], path+steerKeys[l.Steer], letters[l.Steer])
		s.ending(p, i, planned)
	}
	s.orders(path)
}

// speed are the rows of a speed, which is true or calibrated.
func (s *sheet) speed(path, absent string) {
	for i, k := range []string{"tas_kt", "cas_kt"} {
		word, other := look.DraftTAS, "cas_kt"
		if i == 1 {
			word, other = look.DraftCAS, "tas_kt"
		}
		without := absent
		if s.draft.Has(path + other) {
			without = look.Text(look.DraftOtherSpeed)
		}
		s.number(word, path+k, "kt", without)
		r := &s.rows[len(s.rows)-1]
		if s.draft.Has(path+k) && absent == "" {
			continue
		}
		set := r.take
		r.take = func(text string) ([]edit.Change, error) {
			if text == "" {
				if absent == "" {
					return nil, nil
				}
				return set(text)
			}
			if s.draft.Has(path + other) {
				changes, err := set(text)
				return append([]edit.Change{edit.Drop(path + other)}, changes...), err
			}
			return set(text)
		}
	}
}

// steering is the row of the way in which a leg is ordered; another way leads to the same
// turning point.
func (s *sheet) steering(p *sim.Plan, i int, planned []atlas.PlannedLeg) {
	now := p.Legs[i].Steer
	var picks []Pick
	for k, w := range steerWords {
		picks = append(picks, Pick{Word: look.Text(w), Value: steerKeys[k], Now: sim.Steer(k) == now})
	}
	s.picks(look.Text(look.DraftSteered), look.Text(steerWords[now]), picks, func(key string) ([]edit.Change, error) {
		if i >= len(planned) {
			return nil, errors.New(look.Text(look.DraftUnheld))
		}
		to := planned[i].To
		l := p.Legs[i]
		for k := range steerKeys {
			if steerKeys[k] == key {
				l.Steer = sim.Steer(k)
			}
		}
		if l.Steer == sim.ToPlace {
			l.Place, l.Ticks, l.Distance = to.String(), 0, 0
			if place, ok := Reach(p, to, 60*units.NM); ok {
				l.Place = place.Name
			}
			return orders(s.draft, i+1, &l), nil
		}
		aimed, err := aim(with(p, i, l), i, to)
		if err != nil {
			return nil, err
		}
		return orders(s.draft, i+1, &aimed), nil
	})
}

// ending are the rows of what ends a leg: time or air miles, and how much.
func (s *sheet) ending(p *sim.Plan, i int, planned []atlas.PlannedLeg) {
	l, path := p.Legs[i], leg(i+1)+"."
	byTime := l.Distance == 0
	picks := []Pick{{Word: look.Text(look.DraftByTime), Value: "duration", Now: byTime},
		{Word: look.Text(look.DraftByMiles), Value: "distance_nm", Now: !byTime}}
	value := picks[0].Word
	if !byTime {
		value = picks[1].Word
	}
	s.picks(look.Text(look.DraftEnds), value, picks, func(key string) ([]edit.Change, error) {
		if i >= len(planned) {
			return nil, errors.New(look.Text(look.DraftUnheld))
		}
		leg := l
		leg.Ticks, leg.Distance = sim.TicksOf(planned[i].Ends-planned[i].Begins), 0
		if key == "distance_nm" {
			_, leg.Distance = geodesy.RhumbInverse(planned[i].AirFrom, planned[i].AirTo)
			leg.Ticks = 0
		}
		return orders(s.draft, i+1, &leg), nil
	})
	if byTime {
		s.duration(look.DraftDuration, path+"duration", "")
		return
	}
	s.number(look.DraftMiles, path+"distance_nm", "NM", "")
}

// placeName is the place of the waters at a position, "" if there is none.
func placeName(p *sim.Plan, at units.Position) string {
	if place, ok := Reach(p, at, 0.1*units.NM); ok {
		return strings.TrimSpace(place.Name)
	}
	return ""
}
