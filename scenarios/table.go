package scenarios

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// table reads one table of a file: each getter checks type and range and
// reports what is wrong. A getter's second result is false if the key is
// absent or bad; has tells which.
type table struct {
	*loader
	node *node
	path string
}

// newTable starts on a table and reports its unknown keys.
func (l *loader) newTable(n *node, path string, known ...string) *table {
	t := &table{l, n, path}
	names := map[string]bool{}
	for _, k := range known {
		names[k] = true
	}
	for _, k := range n.keys {
		if !names[k] {
			t.unknown(k, known)
		}
	}
	return t
}

func (t *table) unknown(key string, known []string) {
	what := "key"
	v := t.node.values[key]
	if v.kind == tableKind || v.made == byDouble {
		what = "table"
	}
	t.bad(key, "unknown %s%s", what, t.meant(key, known, "known here"))
}

// meant offers the nearest of the names, or else all of them.
func (ps *problems) meant(word string, names []string, all string) string {
	if ps.full() {
		return ""
	}
	if near := fault.NearestOf(word, names); len(near) > 0 {
		return "; did you mean " + orList(near) + "?"
	}
	if len(names) == 0 {
		return ""
	}
	if len(names) > 40 {
		return ""
	}
	return "; " + all + ": " + strings.Join(names, ", ")
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

func (t *table) has(key string) bool { return t.node.values[key] != nil }

func (t *table) key(key string) string { return join(t.path, key) }

// line is that of a key, or of the table if the key is absent.
func (t *table) line(key string) int {
	if v := t.node.values[key]; v != nil {
		return v.line
	}
	return t.node.line
}

// bad reports a key with its value.
func (t *table) bad(key, format string, args ...any) {
	value := ""
	if v := t.node.values[key]; v != nil {
		value = v.shown()
	}
	t.add(t.line(key), t.key(key), value, format, args...)
}

// require reports a key that is missing, with what it should hold.
func (t *table) require(key, what string) bool {
	if t.has(key) {
		return true
	}
	t.missing(t.node.line, t.key(key), what)
	return false
}

// missing reports what is not there, unless a syntax error may have hidden it.
func (l *loader) missing(line int, key, what string) {
	if !l.broken {
		l.add(line, key, "", "is required: %s", what)
	}
}

// get gives the value if it is of one of the kinds.
func (t *table) get(key, want string, kinds ...kind) (*node, bool) {
	v := t.node.values[key]
	if v == nil || v.kind == badKind {
		return nil, false
	}
	for _, k := range kinds {
		if v.kind == k {
			return v, true
		}
	}
	t.bad(key, "must be %s, not %v", want, v.kind)
	return nil, false
}

// number gives a figure within lo..hi (both legal); unit is for the reader.
func (t *table) number(key string, lo, hi float64, unit string) (float64, bool) {
	v, ok := t.get(key, "a number, "+span(lo, hi, unit), wholeKind, numberKind)
	if !ok {
		return 0, false
	}
	if !t.within(key, v.num, lo, hi, unit) {
		return 0, false
	}
	return v.num, true
}

func (t *table) within(key string, x, lo, hi float64, unit string) bool {
	if x >= lo && x <= hi { // false for NaN
		return true
	}
	t.bad(key, "must be %s", span(lo, hi, unit))
	return false
}

func span(lo, hi float64, unit string) string {
	s := figure(lo) + " to " + figure(hi)
	if unit != "" {
		s += " " + unit
	}
	return s
}

func figure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// angle gives an angle from a figure in degrees.
func (t *table) angle(key string, lo, hi float64) (units.Angle, bool) {
	d, ok := t.number(key, lo, hi, "")
	return units.Angle(d) * units.Degree, ok
}

// direction gives a heading, track or wind direction; 360 is 0.
func (t *table) direction(key string) (units.Angle, bool) {
	d, ok := t.number(key, 0, 360, "")
	return units.Angle(units.WrapDegrees(d)) * units.Degree, ok
}

// text gives a string that is not empty.
func (t *table) text(key string) (string, bool) {
	v, ok := t.get(key, "a string", stringKind)
	if !ok {
		return "", false
	}
	if strings.TrimSpace(v.text) == "" {
		t.bad(key, "must not be empty")
		return "", false
	}
	return v.text, true
}

// oneLine gives a string that fits on a line.
func (t *table) oneLine(key string) (string, bool) { return t.lineOf(key, maxLine) }

// lineOf gives a string that fits on a line of so many characters.
func (t *table) lineOf(key string, longest int) (string, bool) {
	s, ok := t.text(key)
	if ok && (utf8.RuneCountInString(s) > longest || strings.ContainsFunc(s, unicode.IsControl)) {
		t.bad(key, "must be one line of at most %d characters", longest)
		return "", false
	}
	return s, ok
}

// word gives the index of a string among the words allowed, -1 if absent or bad.
func (t *table) word(key string, words ...string) int {
	v, ok := t.get(key, "a string", stringKind)
	if !ok {
		return -1
	}
	for i, w := range words {
		if v.text == w {
			return i
		}
	}
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	hint := ""
	if near := fault.NearestOf(v.text, words); len(near) > 0 {
		hint = "; did you mean " + strconv.Quote(near[0]) + "?"
	}
	t.bad(key, "must be %s%s", orList(quoted), hint)
	return -1
}

func (t *table) truth(key string) (value, ok bool) {
	v, ok := t.get(key, "true or false", boolKind)
	if !ok {
		return false, false
	}
	return v.flag, true
}

// duration gives a time in Go's syntax, above 0 (or from 0 on) up to 48 h,
// rounded up to ticks.
func (t *table) duration(key string, zero bool) (int64, bool) {
	d, ok := t.span(key, "1h30m", fromNought(zero), maxFlight)
	return sim.TicksOf(d), ok
}

// fromNought is the least of times that may be 0 or not: a nanosecond stands for
// anything above it.
func fromNought(zero bool) time.Duration {
	if zero {
		return 0
	}
	return 1
}

// span gives a time in Go's syntax, to the nanosecond, from least to most; like is
// an example of one.
func (t *table) span(key, like string, least, most time.Duration) (time.Duration, bool) {
	v, ok := t.get(key, `a duration in quotes, such as "`+like+`"`, stringKind)
	if !ok {
		return 0, false
	}
	d, err := time.ParseDuration(v.text)
	switch {
	case err != nil:
		t.bad(key, `must be a duration as Go writes it, such as "%s", "90s" or "0s"`, like)
	case d >= least && d <= most:
		return d, true
	case least == 1:
		t.bad(key, "must be above 0, up to %s", shortSpan(most))
	default:
		t.bad(key, "must be %s to %s", shortSpan(least), shortSpan(most))
	}
	return 0, false
}

// shortSpan writes a time without the noughts at its end: 48h, 1m30s, 0s.
func shortSpan(d time.Duration) string {
	s := d.String()
	for _, end := range []string{"m0s", "h0m"} {
		if strings.HasSuffix(s, end) {
			s = s[:len(s)-2]
		}
	}
	return s
}

// position gives a position written as text or as [latitude, longitude].
func (t *table) position(key string) (units.Position, bool) {
	v, ok := t.get(key, `a position, "47 10.0 S 178 30.0 E" or [-47.1667, 178.5]`, stringKind, arrayKind)
	if !ok {
		return units.Position{}, false
	}
	var p units.Position
	var why string
	if v.kind == stringKind {
		p, why = positionOfText(v.text)
	} else {
		p, why = positionOfPair(v.items)
	}
	if why != "" {
		t.bad(key, "%s", why)
	}
	return p, why == ""
}

// entries gives the tables of [[key]], at most 2000 of them.
func (t *table) entries(key string) []*node {
	v := t.node.values[key]
	if v == nil || v.kind == badKind {
		return nil
	}
	if v.kind == tableKind && v.made != byValue {
		t.bad(key, "must be written [[%s]], once for each", t.key(key))
		return nil
	}
	if v.kind != arrayKind {
		t.bad(key, "must be tables [[%s]], not %v", t.key(key), v.kind)
		return nil
	}
	for i, it := range v.items {
		if it.kind != tableKind {
			t.add(it.line, entry(t.key(key), i+1), it.shown(), "must be a table, not %v", it.kind)
			return nil
		}
	}
	if len(v.items) > maxEntries {
		t.add(v.items[maxEntries].line, entry(t.key(key), maxEntries+1), "",
			"too many: must be %d at most, these are %d", maxEntries, len(v.items))
		return v.items[:maxEntries]
	}
	return v.items
}

// table gives [key], or nil.
func (t *table) table(key string, known ...string) *table {
	v := t.node.values[key]
	if v == nil || v.kind == badKind {
		return nil
	}
	if v.made == byDouble {
		t.bad(key, "must be written [%s], once", t.key(key))
		return nil
	}
	if v.kind != tableKind {
		t.bad(key, "must be a table, not %v", v.kind)
		return nil
	}
	return t.newTable(v, t.key(key), known...)
}

// onlyOne reports all but exactly one of the keys being there, and gives that
// one, or "".
func (t *table) onlyOne(what string, keys ...string) string {
	var have []string
	for _, k := range keys {
		if t.has(k) {
			have = append(have, k)
		}
	}
	switch len(have) {
	case 1:
		return have[0]
	case 0:
		if !t.broken {
			t.add(t.node.line, t.here(), "", "one of %s is required%s", orList(keys), what)
		}
	default:
		for _, k := range have[1:] {
			t.bad(k, "only one of %s%s, and %s is given in line %d", orList(keys), what, have[0], t.line(have[0]))
		}
	}
	return ""
}

// here names the table itself.
func (t *table) here() string {
	if t.path == "" {
		return "the file"
	}
	return t.path
}
