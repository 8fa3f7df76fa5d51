package scenarios

import (
	"math"
	"sort"

	"stillair/integrator/units"
	"stillair/sim"
)

// air reads the weather.
func (l *loader) air(t *table) {
	air := &l.plan.Air
	air.QNH = standardQNH * units.Hectopascal
	a := t.table("air", "isa_deviation_c", "qnh_hpa", "wind", "cloud")
	if a == nil {
		return
	}
	air.ISADeviation, _ = a.number("isa_deviation_c", -maxISADeviation, maxISADeviation, "C")
	if q, ok := a.number("qnh_hpa", minQNH, maxQNH, "hPa"); ok {
		air.QNH = units.Pressure(q) * units.Hectopascal
	}
	var winds []windLine
	for i, n := range a.entries("wind") {
		w := l.newTable(n, entry("air.wind", i+1), "from_deg_true", "speed_kt", "base_ft", "from", "until")
		winds = append(winds, windLine{w, w.windEntry(), i + 1})
		air.Winds = append(air.Winds, winds[i].WindEntry)
	}
	l.checkWinds(winds)
	for i, n := range a.entries("cloud") {
		from, until := l.newTable(n, entry("air.cloud", i+1), "from", "until").stretch()
		l.plan.Undercast = append(l.plan.Undercast, sim.Span{From: from, To: until})
	}
}

type windLine struct {
	*table
	sim.WindEntry
	number int
}

func (t *table) windEntry() sim.WindEntry {
	w := sim.WindEntry{Wind: t.wind()}
	if ft, ok := t.number("base_ft", minHeightFt, maxHeightFt, "ft"); ok {
		h := units.Length(ft) * units.Foot
		w.Base = &h
	}
	w.From, w.Until = t.stretch()
	return w
}

// stretch is a stretch of flight time; until is 0 to the end, or where it is bad.
func (t *table) stretch() (from, until int64) {
	from, _ = t.duration("from", true)
	until, ok := t.duration("until", false)
	if ok && until <= from {
		t.bad("until", "must be later than from")
		return from, 0
	}
	return from, until
}

func (w *windLine) end() int64 {
	if w.Until == 0 {
		return math.MaxInt64
	}
	return w.Until
}

// checkWinds refuses winds that claim the same height at the same time, and
// winds with a height beside winds for all heights. Of each wind the first
// clash is reported.
func (l *loader) checkWinds(winds []windLine) {
	sort.SliceStable(winds, func(i, j int) bool { return winds[i].From < winds[j].From })
	for i := range winds {
		for j := i - 1; j >= 0; j-- {
			if clash := winds[i].clash(&winds[j]); clash {
				break
			}
		}
	}
}

// clash reports what is wrong between w and an earlier one.
func (w *windLine) clash(old *windLine) bool {
	if old.end() <= w.From {
		return false
	}
	other := entry("air.wind", old.number)
	switch {
	case (w.Base == nil) != (old.Base == nil):
		w.add(w.node.line, w.path, "", "a wind for all heights and one with base_ft at the same time (%s, line %d): give every wind of that time its base_ft",
			other, old.node.line)
	case w.Base == nil:
		w.add(w.node.line, w.path, "", "two winds at the same time (%s, line %d): give each a base_ft, or from and until", other, old.node.line)
	case *w.Base == *old.Base:
		w.bad("base_ft", "two winds for the same height and time (%s, line %d)", other, old.node.line)
	default:
		return false
	}
	return true
}
