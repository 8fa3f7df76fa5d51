package drafting

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/scenarios/edit"
	"stillair/sim/fault"
)

// Event is an action of the crew, a fault, or a named moment.
type Event struct {
	Item  string // its table, as fault[2]
	Kind  EventKind
	At    time.Duration // of the flight
	For   time.Duration // of a fault; 0: to the end
	Words string
}

// EventKind says what an event is.
type EventKind uint8

// The kinds of event, in the order of lists.
const (
	ActionEvent EventKind = iota
	FaultEvent
	MomentEvent
)

// lists are the tables of the kinds of event.
var lists = [...]string{ActionEvent: "crew", FaultEvent: "fault", MomentEvent: "moment"}

// action is something that the crew does.
type action struct {
	key   string
	means look.Key
	first edit.Value // of a new one
}

// actions are those that a flight can order.
var actions = []action{
	{"set_wind", look.DraftSetWind, edit.Inline(firstWind...)},
	{"set_variation_deg", look.DraftSetVariation, edit.Whole(20)},
	{"set_counters", look.DraftSetCounters, edit.Value{}},
	{"alternate_static", look.DraftStatic, edit.Truth(true)},
	{"resynchronise", look.DraftResync, edit.Truth(true)},
	{"throw_lever", look.DraftThrow, edit.Text("W")},
	{"take", look.DraftTake, edit.Text("drift")},
}

// Events are the actions and faults of a draft, by time.
func Events(d *edit.Draft) []Event {
	s := &sheet{draft: d}
	var out []Event
	for kind, list := range lists {
		for n := 1; n <= d.Count(list); n++ {
			e := Event{Item: list + "[" + strconv.Itoa(n) + "]", Kind: EventKind(kind)}
			at, _ := s.plain(e.Item + ".at")
			e.At, _ = time.ParseDuration(at)
			long, _ := s.plain(e.Item + ".for")
			e.For, _ = time.ParseDuration(long)
			e.Words = s.eventWords(&e)
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(a, b Event) int { return cmp.Compare(a.At, b.At) })
	return out
}

// eventWords say what an event is.
func (s *sheet) eventWords(e *Event) string {
	switch e.Kind {
	case MomentEvent:
		name, _ := s.plain(e.Item + ".name")
		return look.Textf(look.DraftMoment, name)
	case FaultEvent:
		id, _ := s.plain(e.Item + ".id")
		if entry, ok := fault.Lookup(id); ok {
			return look.Capital(entry.Title)
		}
		return id
	}
	a := s.actionOf(e.Item)
	if a == nil {
		return look.Text(look.DraftAction)
	}
	words := look.Text(a.means)
	switch now, _ := s.plain(e.Item + "." + a.key); a.key {
	case "set_wind":
		f, _ := s.plain(e.Item + ".set_wind.from_deg_true")
		k, _ := s.plain(e.Item + ".set_wind.speed_kt")
		words += " " + f + "/" + k
	case "take", "set_variation_deg":
		words += ": " + now
	}
	return words
}

// actionOf is the action of a [[crew]], nil if it has none that is known.
func (s *sheet) actionOf(item string) *action {
	for i := range actions {
		if s.draft.Has(item + "." + actions[i].key) {
			return &actions[i]
		}
	}
	return nil
}

// events are the rows of actions and faults.
func (s *sheet) events() {
	all := Events(s.draft)
	if len(all) == 0 {
		s.add(Row{Label: look.Text(look.DraftNoEvents), Kind: TitleRow, Faint: true})
	}
	for _, e := range all {
		value := edit.DurationText(e.At)
		if p := s.draft.Plan(); p != nil {
			value = units.TimeText(p.Start.Add(e.At))
		}
		switch {
		case !s.head(e.Item, e.Words, value):
		case e.Kind == FaultEvent:
			s.fault(e.Item)
		case e.Kind == MomentEvent:
			s.named(e.Item)
		default:
			s.crew(e.Item)
		}
	}
}

// crew are the rows of an action.
func (s *sheet) crew(item string) {
	s.moment(look.DraftAt, item+".at", "")
	a := s.actionOf(item)
	if a == nil {
		return
	}
	path := item + "." + a.key
	switch a.key {
	case "set_wind":
		s.wind(look.DraftWind, path+".from_deg_true", path+".speed_kt", "")
	case "set_variation_deg":
		s.crewVariation(path)
	case "set_counters":
		s.position(look.DraftPlace, path, "")
	case "alternate_static":
		s.truth(look.Text(look.DraftOpen), path)
	case "throw_lever":
		s.choice(look.DraftLeverTo, path, word{"E", look.DraftEast}, word{"W", look.DraftWest})
	case "take":
		s.text(look.DraftReading, path, "", look.Text(look.DraftReadingHint))
		s.number(look.DraftError, item+".error", "", look.Text(look.DraftNone))
	}
}

// crewVariation is a variation that is set, or the word for following the field.
func (s *sheet) crewVariation(path string) {
	field := look.Text(look.DraftToField)
	s.variation(look.DraftVariation, path, field)
	r := &s.rows[len(s.rows)-1]
	set := r.take
	r.take = func(text string) ([]edit.Change, error) {
		if text == "" {
			return []edit.Change{edit.Set(path, edit.Text("true-to-field"))}, nil
		}
		return set(text)
	}
}

// truth is a row for true or false.
func (s *sheet) truth(label, path string) {
	now, _ := s.plain(path)
	picks := []Pick{{Word: look.Text(look.DraftYes), Value: "true", Now: now == "true"}, {Word: look.Text(look.DraftNo), Value: "false", Now: now != "true"}}
	value := picks[1].Word
	if now == "true" {
		value = picks[0].Word
	}
	s.picks(label, value, picks, func(text string) ([]edit.Change, error) {
		return []edit.Change{edit.Set(path, edit.Truth(text == "true"))}, nil
	})
}

// MoveEvent has an event begin at another time of the flight, to half a minute, and gives
// its table: moments stand in order of time, so it may be another one.
func MoveEvent(d *edit.Draft, item string, at time.Duration) (moved string, err error) {
	changes, moved := moveTo(d, item, max(0, at).Round(30*time.Second))
	if err := Told(d.Do(changes...)); err != nil {
		return item, err
	}
	return moved, nil
}

// moveTo are the changes that move an event.
func moveTo(d *edit.Draft, item string, at time.Duration) (changes []edit.Change, moved string) {
	changes, moved = []edit.Change{edit.Set(item+".at", edit.Duration(at))}, item
	n, ok := strings.CutPrefix(item, "moment[")
	if !ok {
		return changes, moved
	}
	from, _ := strconv.Atoi(strings.TrimSuffix(n, "]"))
	to := 1 + before(d, item, at)
	return append(changes, edit.Move("moment", from, to)), "moment[" + strconv.Itoa(to) + "]"
}

// before is how many moments but one are before a time.
func before(d *edit.Draft, but string, at time.Duration) (n int) {
	for _, e := range Events(d) {
		if e.Kind == MomentEvent && e.Item != but && e.At < at {
			n++
		}
	}
	return n
}

// named are the rows of a moment.
func (s *sheet) named(item string) {
	s.moment(look.DraftAt, item+".at", "")
	s.rows[len(s.rows)-1].take = func(text string) ([]edit.Change, error) {
		at, err := s.readMoment(text)
		changes, _ := moveTo(s.draft, item, at)
		return changes, err
	}
	s.text(look.DraftName, item+".name", "", look.Text(look.DraftNameHint))
}

// AddMoment names a time in the middle of the flight.
func AddMoment(d *edit.Draft) (made string, err error) {
	v := middle(d)
	at, err := time.ParseDuration(strings.Trim(v.String(), `"`))
	if err != nil {
		return "", err
	}
	n := 1 + before(d, "", at)
	name := edit.Text(look.Text(look.DraftNewMoment))
	err = d.Do(edit.Insert("moment", n, edit.Field{Key: "at", Value: v}, edit.Field{Key: "name", Value: name}))
	return "moment[" + strconv.Itoa(n) + "]", Told(err)
}

// NewActions are what can be added of the crew's actions.
func NewActions(d *edit.Draft) []Pick {
	var out []Pick
	for _, a := range actions {
		out = append(out, Pick{Word: look.Text(a.means), Value: a.key})
	}
	return out
}

// AddAction puts an action of the crew in the middle of the flight.
func AddAction(d *edit.Draft, key string) (made string, err error) {
	p, err := flyable(d)
	if err != nil {
		return "", err
	}
	for _, a := range actions {
		if a.key != key {
			continue
		}
		first := a.first
		if key == "set_counters" {
			first = edit.Position(p.Aircraft.Position)
		}
		return addEvent(d, "crew", edit.Field{Key: "at", Value: middle(d)}, edit.Field{Key: key, Value: first})
	}
	return "", errors.New(key)
}

// middle is the middle of the flight, or the next time at which nothing happens yet.
func middle(d *edit.Draft) edit.Value {
	at := (Length(d.Plan()) / 2).Round(time.Minute)
	for slices.ContainsFunc(Events(d), func(e Event) bool { return e.At == at }) {
		at += 2 * time.Minute
	}
	return edit.Duration(at)
}

func addEvent(d *edit.Draft, list string, fields ...edit.Field) (string, error) {
	n := d.Count(list) + 1
	if err := d.Do(edit.Insert(list, n, fields...)); err != nil {
		return "", Told(err)
	}
	return list + "[" + strconv.Itoa(n) + "]", nil
}
