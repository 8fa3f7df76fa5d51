package drafting

import (
	"errors"
	"strconv"

	"stillair/gui/look"
	"stillair/scenarios/edit"
	"stillair/sim/fault"
)

// settings are the rows of what is set and how the instrument is built.
func (s *sheet) settings() {
	s.title(look.DraftFlight)
	s.text(look.DraftTitle, "title", "", look.Text(look.DraftTitleHint))
	s.text(look.DraftSummary, "summary", look.Text(look.DraftNone), look.Text(look.DraftSummaryHint))
	s.choice(look.DraftPilot, "pilot", word{"steady", look.DraftSteady}, word{"by-instruments", look.DraftByDials}, word{"as-planned", look.DraftAsPlanned})
	s.waters()
	s.title(look.DraftStart)
	s.direction(look.DraftHeadingStart, "aircraft.heading_true_deg", "T")
	s.number(look.DraftHeight, "aircraft.pressure_altitude_ft", "ft", "")
	s.speed("aircraft.", "")
	s.title(look.DraftSet)
	s.variation(look.DraftVariation, "setting.variation_deg", look.Text(look.DraftToField))
	s.wind(look.DraftWindSet, "setting.wind_from_deg_true", "setting.wind_kt", look.Text(look.DraftCalm))
	s.position(look.DraftCounters, "setting.counters", look.Text(look.DraftAsStart))
	s.title(look.DraftWorld)
	s.fieldRow()
	s.title(look.DraftInstrument)
	s.choice(look.DraftClass, "mechanism.class", word{"ideal", look.DraftIdeal}, word{"service", look.DraftService})
	s.choice(look.DraftGround, "mechanism.ground", word{"running", look.DraftRunning}, word{"plotted", look.DraftPlotted})
	s.choice(look.DraftLongitude, "mechanism.counters", word{"auto", look.DraftAuto}, word{"east360", look.DraftEast360}, word{"lever", look.DraftLever})
	for _, v := range fault.Service() {
		if len(v.Choices) == 0 && s.draft.Has("mechanism."+v.Name) {
			s.numberAs(plainName(v.Name, v.Unit), "mechanism."+v.Name, v.Unit, look.Text(look.DraftOfClass))
		}
	}
	s.row(look.DraftSeed, "seed", "", "", look.Text(look.DraftSeedHint), readWhole)
}

// numberAs is number with a label that stands in no catalogue.
func (s *sheet) numberAs(label, path, unit, absent string) {
	s.number(look.DraftNone, path, unit, absent)
	s.rows[len(s.rows)-1].Label = label
}

func readWhole(text string) (edit.Value, error) {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return edit.Value{}, errors.New(look.Textf(look.DraftNoWhole, text))
	}
	return edit.Whole(n), nil
}

// variation is a row for a variation or the word for following the field.
func (s *sheet) variation(label look.Key, path, absent string) {
	s.number(label, path, "\u00b0", absent)
	r := &s.rows[len(s.rows)-1]
	if r.Now == "true-to-field" {
		r.Now, r.Value = "", absent
	}
	r.Hint = look.Textf(look.DraftVariationHint, r.Hint)
}

// fieldRow is the row of a uniform variation in place of the earth's field; without one
// its table goes.
func (s *sheet) fieldRow() {
	s.number(look.DraftField, "field.variation_deg", "\u00b0", look.Text(look.DraftEarth))
	r := &s.rows[len(s.rows)-1]
	set := r.take
	r.take = func(text string) ([]edit.Change, error) {
		if text == "" {
			return []edit.Change{edit.Drop("field.variation_deg"), edit.Drop("field")}, nil
		}
		return set(text)
	}
}

// waters is the row of the geography.
func (s *sheet) waters() {
	const tern = "tern-islands"
	now, has := s.plain("waters")
	picks := []Pick{{Word: look.Text(look.DraftTern), Value: tern, Now: now == tern}, {Word: look.Text(look.DraftNoWaters), Now: !has}}
	value := picks[1].Word
	if has {
		value = picks[0].Word
	}
	s.picks(look.Text(look.DraftWaters), value, picks, func(text string) ([]edit.Change, error) {
		if text == "" {
			return []edit.Change{edit.Drop("waters")}, nil
		}
		return []edit.Change{edit.Set("waters", edit.Text(text))}, nil
	})
}
