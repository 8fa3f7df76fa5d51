package drafting

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
)

// Tab is a part of a flight.
type Tab uint8

// The tabs.
const (
	RouteTab Tab = iota
	WeatherTab
	SettingsTab
	EventsTab
	Tabs
)

// Row is a line of a tab.
type Row struct {
	Label string
	Value string
	Kind  RowKind
	Faint bool   // the file does not say: what holds then
	Item  string // HeadRow: the table, as leg[2]
	Hint  string // what may be typed
	Now   string // what stands in the box
	Picks []Pick // what there is to choose from; nil: it is typed
	take  func(string) ([]edit.Change, error)
}

// RowKind says what a row is.
type RowKind uint8

// The kinds of row.
const (
	ValueRow RowKind = iota // touched to be typed, or to be chosen from Picks
	HeadRow                 // a leg, a wind, an action, a fault: touched to be opened
	TitleRow                // a heading
)

// Pick is something to choose.
type Pick struct {
	Word  string // what it says
	Value string // what Take is given
	Now   bool   // it holds now
	Title bool   // a heading, not to be chosen
}

// Take sets a row to what was typed or picked. The error is what the loader says, or why
// it could not be read.
func (r *Row) Take(d *edit.Draft, text string) error {
	return r.with(text, d.Do)
}

// Check says what Take would say, and changes nothing.
func (r *Row) Check(d *edit.Draft, text string) error {
	return r.with(text, func(changes ...edit.Change) error { return d.Copy().Do(changes...) })
}

// with does what was typed or picked.
func (r *Row) with(text string, do func(...edit.Change) error) error {
	text = strings.TrimSpace(text)
	if r.same(text) {
		return nil
	}
	changes, err := r.take(text)
	if err != nil {
		return err
	}
	return Told(do(changes...))
}

// same says whether that is what holds now, so that the file keeps how it is written.
func (r *Row) same(text string) bool {
	for _, p := range r.Picks {
		if p.Now {
			return p.Value == text
		}
	}
	return r.Picks == nil && text == r.Now
}

// Told is an error of the loader without the name of the file, for the draft has but one:
// "line 12, leg[1].heading_true_deg = 400: must be 0 to 360".
func Told(err error) error {
	var errs *scenarios.Errors
	if !errors.As(err, &errs) {
		return err
	}
	return errors.New(strings.Join(Problems(errs), "\n"))
}

// Problems are what the loader says, in its words, a line each.
func Problems(err error) []string {
	var errs *scenarios.Errors
	if !errors.As(err, &errs) {
		if err == nil {
			return nil
		}
		return []string{err.Error()}
	}
	var out []string
	for _, p := range errs.Problems {
		line := look.Textf(look.DraftLine, p.Line)
		p.File = ""
		_, rest, _ := strings.Cut(p.Error(), ": ")
		out = append(out, line+": "+rest)
	}
	if errs.More > 0 {
		out = append(out, look.Textf(look.DraftMore, errs.More))
	}
	return out
}

// Rows are the lines of a tab; open is the table whose lines show, "" for none.
func Rows(d *edit.Draft, tab Tab, open string) []Row {
	s := &sheet{draft: d, open: open}
	switch tab {
	case RouteTab:
		s.route()
	case WeatherTab:
		s.weather()
	case SettingsTab:
		s.settings()
	case EventsTab:
		s.events()
	}
	return s.rows
}

// sheet gathers rows.
type sheet struct {
	draft *edit.Draft
	open  string
	rows  []Row
}

func (s *sheet) add(r Row) { s.rows = append(s.rows, r) }

func (s *sheet) title(k look.Key) { s.add(Row{Label: look.Text(k), Kind: TitleRow}) }

// head begins a table; true if its lines are to follow.
func (s *sheet) head(item, label, value string) bool {
	s.add(Row{Label: label, Value: value, Kind: HeadRow, Item: item})
	return item == s.open
}

// plain is a value without its quotes.
func (s *sheet) plain(path string) (string, bool) {
	v, ok := s.draft.Get(path)
	if !ok {
		return "", false
	}
	text := v.String()
	if n := len(text); n >= 2 && text[0] == text[n-1] && (text[0] == '"' || text[0] == '\'') {
		text = text[1 : n-1]
	}
	return text, true
}

// number is a row for a number; absent says what holds without one, and then nothing
// typed takes it out of the file. "" as absent: it has to be there.
func (s *sheet) number(label look.Key, path, unit, absent string) {
	s.row(label, path, unit, absent, s.draft.Range(path), func(text string) (edit.Value, error) {
		x, err := strconv.ParseFloat(strings.TrimSuffix(strings.ReplaceAll(text, ",", "."), spaced(unit)), 64)
		if err != nil {
			return edit.Value{}, errors.New(look.Textf(look.DraftNoNumber, text))
		}
		return edit.Number(x), nil
	})
}

// spaced is a unit as it stands behind a figure.
func spaced(unit string) string {
	if strings.HasPrefix(unit, "\u00b0") {
		return unit
	}
	return " " + unit
}

// direction is a row for a heading or track, shown in the trade's notation: 060T, and
// 054.8T where the file has tenths.
func (s *sheet) direction(label look.Key, path, letter string) {
	s.number(label, path, "\u00b0", "")
	r := &s.rows[len(s.rows)-1]
	if x, err := strconv.ParseFloat(r.Now, 64); err == nil {
		whole, tenths, _ := strings.Cut(strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64), ".")
		r.Value = strings.Repeat("0", max(0, 3-len(whole))) + whole
		if tenths != "" {
			r.Value += "." + tenths
		}
		r.Value += letter
	}
}

// row is a row whose text is read by a function.
func (s *sheet) row(label look.Key, path, unit, absent, hint string, read func(string) (edit.Value, error)) {
	s.rowAs(look.Text(label), path, unit, absent, hint, read)
}

func (s *sheet) rowAs(label, path, unit, absent, hint string, read func(string) (edit.Value, error)) {
	now, has := s.plain(path)
	r := Row{Label: label, Value: now, Now: now, Hint: hint}
	if unit != "" && has {
		r.Value += spaced(unit)
	}
	if !has {
		r.Value, r.Faint = absent, true
	}
	if absent != "" {
		r.Hint = strings.TrimSpace(r.Hint + "\n" + look.Textf(look.DraftNothing, absent))
	}
	r.take = func(text string) ([]edit.Change, error) {
		if text == "" && absent != "" {
			return []edit.Change{edit.Drop(path)}, nil
		}
		v, err := read(text)
		return []edit.Change{edit.Set(path, v)}, err
	}
	s.add(r)
}

// text is a row for words.
func (s *sheet) text(label look.Key, path, absent, hint string) {
	s.row(label, path, "", absent, hint, func(text string) (edit.Value, error) { return edit.Text(text), nil })
}

// duration is a row for a stretch of time.
func (s *sheet) duration(label look.Key, path, absent string) {
	s.row(label, path, "", absent, look.Text(look.DraftDurationHint), func(text string) (edit.Value, error) {
		d, err := readDuration(text)
		return edit.Duration(d), err
	})
}

// moment is a row for a time of the flight, typed as flight time or by the clock.
func (s *sheet) moment(label look.Key, path, absent string) {
	s.row(label, path, "", absent, look.Text(look.DraftMomentHint), func(text string) (edit.Value, error) {
		d, err := s.readMoment(text)
		return edit.Duration(d), err
	})
	r := &s.rows[len(s.rows)-1]
	if at, err := time.ParseDuration(r.Now); err == nil && s.draft.Plan() != nil {
		r.Value = units.TimeText(s.draft.Plan().Start.Add(at)) + ", " + r.Now
	}
}

// readDuration reads 1h30m, 90s, or a plain number of minutes.
func readDuration(text string) (time.Duration, error) {
	if m, err := strconv.ParseFloat(text, 64); err == nil && m >= 0 && m < 1e5 {
		return time.Duration(m * float64(time.Minute)).Round(time.Second), nil
	}
	d, err := time.ParseDuration(strings.ReplaceAll(text, " ", ""))
	if err != nil {
		return 0, errors.New(look.Textf(look.DraftNoDuration, text))
	}
	return d, nil
}

// readMoment reads 40m, or 1012Z: the first time after the start that the clock shows it.
func (s *sheet) readMoment(text string) (time.Duration, error) {
	if p := s.draft.Plan(); p != nil && len(text) == 5 && strings.HasSuffix(strings.ToUpper(text), "Z") {
		at, err := time.Parse("1504", text[:4])
		if err != nil {
			return 0, errors.New(look.Textf(look.DraftNoDuration, text))
		}
		y, m, d := p.Start.Date()
		clock := time.Date(y, m, d, at.Hour(), at.Minute(), 0, 0, time.UTC)
		if clock.Before(p.Start) {
			clock = clock.AddDate(0, 0, 1)
		}
		return clock.Sub(p.Start), nil
	}
	return readDuration(text)
}

// position is a row for a position, typed as such or as a place of the waters.
func (s *sheet) position(label look.Key, path, absent string) {
	s.row(label, path, "", absent, look.Text(look.DraftPositionHint), func(text string) (edit.Value, error) {
		at, err := s.readPosition(text)
		return positionLike(s.draft, path, at), err
	})
	r := &s.rows[len(s.rows)-1]
	if strings.HasPrefix(r.Now, "[") && s.draft.Plan() != nil {
		r.Now = pairText(r.Now)
		r.Value = r.Now
	}
}

// pairText is a position in the trade's notation for one that is written as a pair.
func pairText(pair string) string {
	parts := strings.Split(strings.Trim(pair, "[]"), ",")
	if len(parts) != 2 {
		return pair
	}
	lat, err1 := strconv.ParseFloat(strings.TrimSpace(parts[0]), 64)
	lon, err2 := strconv.ParseFloat(strings.TrimSpace(parts[1]), 64)
	if err1 != nil || err2 != nil {
		return pair
	}
	return units.At(lat, lon).String()
}

// readPosition reads a position or the name of a place.
func (s *sheet) readPosition(text string) (units.Position, error) {
	if p := s.draft.Plan(); p != nil {
		if w, err := scenarios.Waters(p.Waters); err == nil {
			if place, ok := w.Place(text); ok {
				return place.At, nil
			}
		}
	}
	at, err := units.ParsePosition(text)
	if err != nil {
		return at, errors.New(look.Textf(look.DraftNoPosition, text))
	}
	return at, nil
}

// wind is a row for a wind, written in two keys: from and speed are their paths.
func (s *sheet) wind(label look.Key, from, speed, absent string) {
	f, has := s.plain(from)
	k, _ := s.plain(speed)
	now := f + "/" + k
	if x, err := strconv.ParseFloat(f, 64); err == nil {
		now = units.Degrees3(units.Angle(x)*units.Degree) + "/" + k
	}
	r := Row{Label: look.Text(label), Value: now, Now: now, Hint: look.Textf(look.DraftWindHint, s.draft.Range(from), s.draft.Range(speed))}
	if !has {
		r.Value, r.Now, r.Faint = absent, "", true
	}
	if absent != "" {
		r.Hint += "\n" + look.Textf(look.DraftNothing, absent)
	}
	r.take = func(text string) ([]edit.Change, error) {
		if text == "" && absent != "" {
			return []edit.Change{edit.Drop(from), edit.Drop(speed)}, nil
		}
		left, right, ok := strings.Cut(text, "/")
		x, err1 := strconv.ParseFloat(strings.TrimSpace(left), 64)
		y, err2 := strconv.ParseFloat(strings.TrimSpace(right), 64)
		if !ok || err1 != nil || err2 != nil {
			return nil, errors.New(look.Textf(look.DraftNoWind, text))
		}
		return []edit.Change{edit.Set(from, edit.Number(x)), edit.Set(speed, edit.Number(y))}, nil
	}
	s.add(r)
}

// word is a word of the file with what it means.
type word struct {
	written string
	means   look.Key
}

// choice is a row for one of some words; the first holds where the file has none.
func (s *sheet) choice(label look.Key, path string, words ...word) {
	now, has := s.plain(path)
	r := Row{Label: look.Text(label), Faint: !has}
	for i, w := range words {
		chosen := w.written == now || !has && i == 0
		r.Picks = append(r.Picks, Pick{Word: look.Text(w.means), Value: w.written, Now: chosen})
		if chosen {
			r.Value = look.Text(w.means)
		}
	}
	r.take = func(text string) ([]edit.Change, error) { return []edit.Change{edit.Set(path, edit.Text(text))}, nil }
	s.add(r)
}

// picks is a row with choices of its own.
func (s *sheet) picks(label, value string, picks []Pick, take func(string) ([]edit.Change, error)) {
	s.add(Row{Label: label, Value: value, Picks: picks, take: take})
}
