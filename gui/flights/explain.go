package flights

import (
	"errors"
	"regexp"
	"strconv"
	"strings"

	"stillair/gui/look"
	"stillair/scenarios"
)

// Wrong is one thing to put right, for people.
type Wrong struct {
	Line  int    // from 1; 0 if the text is not at fault
	Text  string // of the line as written, without what leads it; "" if unknown
	What  string // what is wrong
	Legal string // the legal range, or the nearest names, or what to write; may be ""
}

// Explain says everything that is wrong with a flight in plain words, and how
// many problems there are in all: beyond those listed the rest are only counted.
func Explain(err error) (list []Wrong, total int) {
	var lines []string
	var refused *Refused
	if errors.As(err, &refused) {
		lines = refused.Lines
	}
	var all *scenarios.Errors
	if !errors.As(err, &all) {
		return []Wrong{{What: err.Error()}}, 1
	}
	for _, p := range all.Problems {
		w := explain(p)
		if p.Line <= len(lines) {
			w.Text = strings.TrimSpace(lines[p.Line-1])
		}
		list = append(list, w)
	}
	return list, len(list) + all.More
}

// explain turns a problem into sentences.
func explain(p scenarios.Problem) Wrong {
	w := Wrong{Line: p.Line}
	if p.Value != "" {
		w.Text = p.Key[strings.LastIndexByte(p.Key, '.')+1:] + " = " + p.Value
	}
	where := Where(p.Key)
	msg, hint, _ := strings.Cut(p.Msg, "; ")
	switch {
	case strings.HasPrefix(msg, "must be "):
		legal, kind := cutKind(plainKinds.Replace(strings.TrimPrefix(msg, "must be ")))
		w.What = where + ": " + verdict(p.Value, legal, kind)
		w.Legal = look.Textf(look.WrongLegal, legal)
	case strings.HasPrefix(msg, "is required: "):
		w.What = look.Textf(look.WrongMissing, where)
		w.Legal = look.Textf(look.WrongNeeded, strings.TrimPrefix(p.Msg, "is required: "))
		return w
	case msg == "unknown key" || msg == "unknown table":
		w.What = look.Textf(look.WrongUnknown, p.Key[strings.LastIndexByte(p.Key, '.')+1:])
	default:
		reason, more, _ := strings.Cut(msg, ": ")
		w.What, w.Legal = sentence(reason), sentence(more)
		switch {
		case reason == "not TOML":
			w.What = look.Text(look.WrongSyntax)
		case where != "":
			w.What = where + ": " + reason + "."
		}
	}
	if hint != "" {
		w.Legal = strings.TrimSpace(w.Legal + " " + sentence(hint))
	}
	return w
}

// plainKinds are kinds of values for those who do not program.
var plainKinds = strings.NewReplacer("a string", "text in quotes", "an array", "a list in [ ]")

// cutKind takes ", not a string" off what would be legal.
func cutKind(legal string) (rest, kind string) {
	if at := strings.LastIndex(legal, ", not "); at >= 0 {
		return legal[:at], legal[at+len(", not "):]
	}
	return legal, ""
}

// bounds are the ends of a range at the head of what would be legal.
var bounds = regexp.MustCompile(`^(-?[0-9.]+) to (-?[0-9.]+)\b`)

// verdict says why the value will not do.
func verdict(value, legal, kind string) string {
	x, err := strconv.ParseFloat(value, 64)
	m := bounds.FindStringSubmatch(legal)
	switch {
	case kind != "":
		return look.Textf(look.WrongKind, kind)
	case value == "":
		return look.Text(look.WrongNothing)
	case err != nil || m == nil:
		return look.Textf(look.WrongValue, value)
	}
	if low, _ := strconv.ParseFloat(m[1], 64); x < low {
		return look.Textf(look.WrongLow, value)
	}
	if high, _ := strconv.ParseFloat(m[2], 64); x > high {
		return look.Textf(look.WrongHigh, value)
	}
	return look.Textf(look.WrongValue, value)
}

// sentence begins with a capital, if it begins with a small letter, and ends
// with a stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	if s[0] >= 'a' && s[0] <= 'z' && !strings.Contains(strings.SplitN(s, " ", 2)[0], "_") {
		s = strings.ToUpper(s[:1]) + s[1:]
	}
	if !strings.ContainsAny(s[len(s)-1:], ".?!") {
		s += "."
	}
	return s
}

// tables are the parts of a flight by their names in a file.
var tables = map[string]look.Key{
	"aircraft": look.PartAircraft, "leg": look.PartLeg, "field": look.PartField, "air": look.PartAir,
	"air.wind": look.PartWind, "mechanism": look.PartMechanism, "setting": look.PartSetting,
	"crew": look.PartCrew, "fault": look.PartFault, "lesson": look.PartLesson, "moment": look.PartMoment,
}

// named are keys whose plain name is not the words they are made of.
var named = map[string]look.Key{
	"cas_kt": look.NameCAS, "tas_kt": look.NameTAS, "heading_true_deg": look.NameTrueHeading,
	"heading_magnetic_deg": look.NameMagneticHeading, "heading_compass_deg": look.NameCompassHeading,
	"track_true_deg": look.NameTrack, "from_deg_true": look.NameFrom, "wind_from_deg_true": look.NameFrom,
	"wind_kt": look.NameWindSpeed, "to": look.NameTo, "climb_ft_min": look.NameClimb, "turn_rate_deg_s": look.NameTurn,
	"qnh_hpa": look.NameQNH, "isa_deviation_c": look.NameISA,
}

// unit ends the name of a key.
var unit = regexp.MustCompile(`_(ft|kt|deg|nm|c|s|deg_min|deg_s|deg_h|deg_true)$`)

// Where names a key of a flight in words: leg[2].cas_kt is "Leg 2, calibrated
// airspeed".
func Where(key string) string {
	if key == "" {
		return ""
	}
	var words []string
	path := ""
	for part := range strings.SplitSeq(key, ".") {
		name, number, _ := strings.Cut(strings.TrimSuffix(part, "]"), "[")
		if name == "" { // the dots of a key cut short
			continue
		}
		path = strings.TrimPrefix(path+"."+name, ".")
		if k, ok := tables[path]; ok {
			words = append(words, strings.TrimSpace(look.Text(k)+" "+number))
			if path == "air.wind" {
				words = words[1:] // a wind speaks for itself
			}
			continue
		}
		words = append(words, plainName(name))
	}
	return sentenceStart(strings.Join(words, ", "))
}

func plainName(key string) string {
	if k, ok := named[key]; ok {
		return look.Text(k)
	}
	return strings.ReplaceAll(unit.ReplaceAllString(key, ""), "_", " ")
}

func sentenceStart(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return strings.ToUpper(s[:1]) + s[1:]
	}
	return s
}
