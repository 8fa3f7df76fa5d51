package plotting

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Work is what a line or a mark made by hand can stand for.
type Work uint8

// The kinds: four of lines, three of marks.
const (
	NoWork    Work = iota
	LineTaken      // the position line of a reading, where it was taken
	LineMoved      // the same, run on to the time of the fix
	WindDrawn      // from the air position to the fix, or to the ground position
	AirDrawn       // the air run since the counters were set
	RunDrawn       // the ground run since then
	FixMarked
	GroundMarked
	AirMarked
)

// Name is what somebody says a line or a mark is. It tells by which readings and until
// when the program has to work the same.
type Name struct {
	What    Work
	reading entry
	used    string // readings of the fix, as one value, so that names can be compared
	when    time.Duration
}

// usedNow are the readings that are used, as a name keeps them.
func (b *Book) usedNow() string {
	var all []string
	for i := range b.sheet.Readings {
		if b.sheet.Used[i] {
			all = append(all, keyOf(&b.sheet.Readings[i]))
		}
	}
	return strings.Join(all, "\n")
}

// keyOf is a reading in a name.
func keyOf(t *airplot.Taken) string {
	e := entryOf(t)
	return e.at.String() + " " + e.aim.String()
}

// until is the time to which runs are drawn: that of the fix, or now.
func (b *Book) until(v *aboard.View) time.Duration {
	if len(b.sheet.Moved) > 0 && !b.resetSince(v) {
		return b.sheet.At
	}
	return v.Elapsed
}

// leastRun is the shortest time over which a run is worth drawing.
const leastRun = time.Minute

// LineNames are what a line drawn now may be, the likely ones first.
func (b *Book) LineNames(v *aboard.View) (all []Name) {
	used, until := b.usedNow(), b.until(v)
	for i := len(b.sheet.Moved) - 1; i >= 0; i-- {
		m := &b.sheet.Moved[i]
		e := entryOf(&b.sheet.Readings[m.Reading])
		if b.sheet.Readings[m.Reading].Entry.Action.Reading.Aid == aboard.Pinpoint {
			continue // a place, no line
		}
		if m.Line.Run.Distance.NM() >= 0.05 {
			all = append(all, Name{What: LineMoved, reading: e, when: b.sheet.At})
		}
		all = append(all, Name{What: LineTaken, reading: e})
	}
	if until-setBefore(v, until) < leastRun {
		return all
	}
	return append(all,
		Name{What: WindDrawn, used: used, when: until},
		Name{What: RunDrawn, when: until}, Name{What: AirDrawn, when: until})
}

// MarkNames are what a mark made now may be.
func (b *Book) MarkNames(v *aboard.View) (all []Name) {
	until := b.until(v)
	if len(b.sheet.Fixes) == 1 {
		all = append(all, Name{What: FixMarked, used: b.usedNow(), when: b.sheet.At})
	}
	return append(all, Name{What: GroundMarked, when: until}, Name{What: AirMarked, when: until})
}

// NameText says what a thing is in two lines: 0942Z Gannet Rock; moved to 1030Z.
func (b *Book) NameText(v *aboard.View, n Name) (words, under string) {
	clock := func(at time.Duration) string { return units.TimeText(v.Clock.Add(at - v.Elapsed)) }
	span := func(what look.Key) (string, string) {
		return look.Text(what), look.Textf(look.PlotWindSince, clock(setBefore(v, n.when)), clock(n.when))
	}
	switch n.What {
	case LineTaken, LineMoved:
		words, under = clock(n.reading.at)+" "+n.reading.aim.Source, look.Text(look.PlotAsTaken)
		if n.What == LineMoved {
			under = look.Textf(look.PlotMoved, look.Textf(look.HandTo, clock(n.when)))
		}
		return words, under
	case WindDrawn:
		return span(look.HandWind)
	case AirDrawn:
		return span(look.HandAirRun)
	case RunDrawn:
		return span(look.HandDRTrack)
	case FixMarked:
		return look.Text(look.Fix), clock(n.when)
	case GroundMarked:
		return look.Text(look.HandDR), clock(n.when)
	case AirMarked:
		return look.Text(look.HandAir), clock(n.when)
	}
	return look.Text(look.HandNothing), ""
}

// Label is what is written beside a line that means something, in the trade's form: time
// and source of a position line, the wind, course and length of a run.
func (b *Book) Label(v *aboard.View, n Name, d *Drawn) string {
	words, _ := b.NameText(v, n)
	course, _ := d.Line.Measure()
	switch n.What {
	case LineTaken, LineMoved:
		return words + "  " + units.TrueText(course)
	case WindDrawn:
		if w, err := airplot.WindFound(units.AirPosition(d.Line.From), units.GroundPosition(d.Line.To), n.when-setBefore(v, n.when)); err == nil {
			return whole(w).String()
		}
	case AirDrawn, RunDrawn:
		return look.Lower(words) + "  " + d.Measured
	}
	return d.Measured
}

func setBefore(v *aboard.View, when time.Duration) time.Duration {
	return airplot.Traces(v.Marks).SetBefore(when)
}

// own is the program's working of the same thing.
type own struct {
	line  *airplot.Line
	run   *airplot.PencilLine
	place *units.Position
	wind  units.Wind
	since time.Duration // of the wind
	near  units.Position
	cut   units.Angle // of a fix
	when  time.Duration
}

// ownOf works what a name stands for; ok is false if the plot does not have it any more.
func (b *Book) ownOf(v *aboard.View, n Name) (o own, ok bool) {
	o.when = n.when
	switch n.What {
	case LineTaken, LineMoved:
		return b.ownLine(v, n)
	case WindDrawn:
		return b.ownWind(v, n)
	case AirDrawn, RunDrawn:
		return b.ownRun(v, n)
	case FixMarked:
		return b.ownFix(v, n)
	case GroundMarked:
		p := units.Position(airplot.Traces(v.Marks).GroundAt(n.when))
		o.place = &p
	case AirMarked:
		p := units.Position(airplot.Traces(v.Marks).AirAt(n.when))
		o.place = &p
	}
	return o, o.place != nil && n.when <= v.Elapsed
}

func (b *Book) ownLine(v *aboard.View, n Name) (o own, ok bool) {
	for i := range b.sheet.Readings {
		t := &b.sheet.Readings[i]
		lines := t.Lines(v.Clock.Add(-v.Elapsed))
		if entryOf(t) != n.reading || len(lines) != 1 || n.when > v.Elapsed {
			continue
		}
		o.line, o.near, o.when = &lines[0], units.Position(t.Ground), t.When
		if n.What == LineMoved {
			marks := airplot.Traces(v.Marks)
			o.line.Run, o.near, o.when = marks.GroundRun(t.When, n.when), units.Position(marks.GroundAt(n.when)), n.when
		}
		return o, true
	}
	return o, false
}

// sheetOf works the plot of the readings that a name keeps; ok is false if one of them
// has been taken back.
func (b *Book) sheetOf(v *aboard.View, n Name) (s *airplot.Sheet, ok bool) {
	want := strings.Split(n.used, "\n")
	if n.used == "" {
		want = nil
	}
	used := make([]bool, len(b.sheet.Readings))
	for i := range used {
		if k := slices.Index(want, keyOf(&b.sheet.Readings[i])); k >= 0 {
			used[i], want = true, slices.Delete(want, k, k+1)
		}
	}
	s = airplot.Work(v, used)
	if b.nearer == n.used {
		s.TakeNearer(v)
	}
	return s, len(want) == 0
}

func (b *Book) ownFix(v *aboard.View, n Name) (o own, ok bool) {
	s, ok := b.sheetOf(v, n)
	if !ok || len(s.Fixes) != 1 {
		return o, false
	}
	return own{place: &s.Fixes[0].Position, cut: s.Fixes[0].Cut, when: s.At}, true
}

// ownRun is the run since the counters were set.
func (b *Book) ownRun(v *aboard.View, n Name) (o own, ok bool) {
	if n.when > v.Elapsed {
		return o, false
	}
	marks := airplot.Traces(v.Marks)
	begun := setBefore(v, n.when) + 1 // a moment after it: where they were set to
	line := airplot.PencilLine{From: units.Position(marks.GroundAt(begun)), To: units.Position(marks.GroundAt(n.when))}
	if n.What == AirDrawn {
		line = airplot.PencilLine{From: units.Position(marks.AirAt(begun)), To: units.Position(marks.AirAt(n.when))}
	}
	return own{run: &line, when: n.when}, true
}

// ownWind is the wind of the fix, or without one the wind as it was set, on the average.
func (b *Book) ownWind(v *aboard.View, n Name) (o own, ok bool) {
	s, ok := b.sheetOf(v, n)
	if !ok || n.when > v.Elapsed {
		return o, false
	}
	marks := airplot.Traces(v.Marks)
	o.when, o.since = n.when, n.when-setBefore(v, n.when)
	air, ground := marks.AirAt(n.when), marks.GroundAt(n.when)
	if s.Since > 0 && s.At == n.when {
		ground = units.GroundPosition(s.Fixes[0].Position)
	}
	w, err := airplot.WindFound(air, ground, o.since)
	o.wind = w
	o.run = &airplot.PencilLine{From: units.Position(air), To: units.Position(ground)}
	return o, err == nil
}

// handFix is where the lines that stand for position lines of one time cross; of fewer
// than two there is none.
func (b *Book) handFix(v *aboard.View, all []Drawn) (at units.Position, n Name, ok bool) {
	var lines []airplot.PencilLine
	var when time.Duration
	for i := range all {
		m := all[i].Means
		if m.What != LineTaken && m.What != LineMoved {
			continue
		}
		o, known := b.ownLine(v, m)
		switch {
		case !known || o.when < when:
			continue
		case o.when > when:
			lines, when = nil, o.when
		}
		lines = append(lines, all[i].Line)
	}
	if len(lines) < 2 {
		return at, n, false
	}
	at, err := airplot.HandFix(units.Position(airplot.Traces(v.Marks).GroundAt(when)), lines)
	return at, Name{What: FixMarked, used: b.usedNow(), when: when}, err == nil
}

// coarsest is the largest piece of the earth to a millimetre that any of the lines was
// drawn with.
func coarsest(all []Drawn) units.Length {
	if len(all) == 0 {
		return 0
	}
	return slices.MaxFunc(all, func(a, z Drawn) int { return cmp.Compare(a.PerMM, z.PerMM) }).PerMM
}
