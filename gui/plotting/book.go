// Package plotting is the navigator's plot as the window shows it: which readings are
// used, what is written of them and of the fix, what lies on the chart, what the crew may
// do with it. It knows nothing of the toolkit, and of the truth only what is handed in.
package plotting

import (
	"math"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Book keeps which readings are used while a flight goes on.
type Book struct {
	used   map[entry]bool
	sheet  *airplot.Sheet
	last   page
	trues  Truth
	Made   int    // how often the plot was worked anew
	nearer string // the readings of whose two crossings the nearer one was taken
	latest entry
}

// entry tells a reading in the log from any other.
type entry struct {
	at  time.Duration
	aim aboard.Aim
}

func entryOf(t *airplot.Taken) entry { return entry{t.Entry.Elapsed, t.Entry.Action.Reading.Aim} }

// page is what a plot depends on.
type page struct {
	lines    int
	last     time.Duration
	changes  int
	deeds    int
	revealed bool
}

// Truth gives the true position at a time, for those who may see it; nil: nobody may.
type Truth func(time.Duration) units.Position

// Take brings the book up to a view; deeds is how often something has been done to the
// flight. It says whether the plot has changed.
func (b *Book) Take(v *aboard.View, deeds int, truth Truth) bool {
	now := page{lines: len(v.Log), changes: b.last.changes, deeds: deeds, revealed: truth != nil}
	if n := len(v.Log); n > 0 {
		now.last = v.Log[n-1].Elapsed
	}
	if b.sheet != nil && now == b.last {
		return false
	}
	b.last, b.trues = now, truth
	b.work(v)
	return true
}

func (b *Book) work(v *aboard.View) {
	readings := airplot.ReadingsOf(v)
	b.addNew(v, readings)
	used := make([]bool, len(readings))
	for i := range readings {
		used[i] = b.used[entryOf(&readings[i])]
	}
	b.sheet = airplot.Work(v, used)
	if b.nearer != "" && b.nearer == b.usedNow() {
		b.sheet.TakeNearer(v)
	}
	b.Made++
}

// Two says whether the lines cross twice, so that there is no fix before one is taken; the
// nearer place is that of the two which lies nearer to the ground position.
func (b *Book) Two() (nearer units.Position, two bool) {
	if b.sheet == nil || len(b.sheet.Fixes) < 2 {
		return nearer, false
	}
	return b.sheet.Fixes[0].Position, true
}

// TakeNearer takes the nearer crossing for the fix, as long as no other line is used.
func (b *Book) TakeNearer(v *aboard.View) {
	b.nearer = b.usedNow()
	b.last.changes++
	b.work(v)
}

// addNew uses a reading that has come, and no longer those from before the counters
// were last set.
func (b *Book) addNew(v *aboard.View, readings []airplot.Taken) {
	if b.used == nil {
		b.used = map[entry]bool{}
	}
	set := setAfter(v, readings)
	for i := range readings {
		t := &readings[i]
		e := entryOf(t)
		if _, known := b.used[e]; known {
			continue
		}
		b.used[e], b.latest = t.Entry.Action.Reading.Missing == aboard.Had, e
		for k := range readings[:i] {
			if set[k] < set[i] {
				b.used[entryOf(&readings[k])] = false
			}
		}
	}
}

// setAfter is for each reading how often the counters had been set when it was entered;
// while the clock stands only the order in the log tells.
func setAfter(v *aboard.View, readings []airplot.Taken) []int {
	counts, set := make([]int, 0, len(readings)), 0
	for i := range v.Log {
		switch v.Log[i].Event {
		case aboard.CountersSet:
			set++
		case aboard.Observed:
			counts = append(counts, set)
		}
	}
	return counts
}

// Touch uses a reading, or no longer.
func (b *Book) Touch(v *aboard.View, i int) {
	if b.sheet == nil || i < 0 || i >= len(b.sheet.Readings) || b.sheet.Readings[i].Entry.Action.Reading.Missing != aboard.Had {
		return
	}
	e := entryOf(&b.sheet.Readings[i])
	b.used[e] = !b.used[e]
	b.last.changes++
	b.work(v)
}

// Readings is how many there are.
func (b *Book) Readings() int { return len(b.sheet.Readings) }

// Aid is the aid that a reading was taken with, NoAid if there is no such reading.
func (b *Book) Aid(i int) aboard.Aid {
	if b.sheet == nil || i < 0 || i >= len(b.sheet.Readings) {
		return aboard.NoAid
	}
	return b.sheet.Readings[i].Entry.Action.Reading.Aid
}

// Wind is the wind that the plot gives, in whole degrees and knots as it is printed;
// ok is false if it gives none. Without a fix it is that of the drift sight: by drift and
// groundspeed where that was read last, else by the drifts.
func (b *Book) Wind() (w units.Wind, ok bool) {
	if b.sheet.Since > 0 {
		return whole(b.sheet.Wind), true
	}
	if all := b.bySight(); len(all) > 0 {
		return all[0].Wind, true
	}
	return w, false
}

// found is a wind found by the drift sight, as it is printed: by drift and groundspeed of a
// reading, or, timed being below 0, by drift on so many headings.
type found struct {
	units.Wind
	timed, headings int
}

// bySight are the winds of the drift readings used: first the one to go by, which is that
// of drift and groundspeed where that was read last.
func (b *Book) bySight() (all []found) {
	drifts := b.sheet.DriftsOf()
	if w, _, err := airplot.WindFromDrifts(drifts); err == nil {
		all = append(all, found{whole(w), -1, len(drifts)})
	}
	if t, ok := b.sheet.WindByTiming(); ok {
		all = append(all, found{whole(t.Wind), t.Reading, 1})
		if t.Newest && len(all) > 1 {
			all[0], all[1] = all[1], all[0]
		}
	}
	return all
}

// whole is a wind as it is printed.
func whole(w units.Wind) units.Wind {
	from := math.Round(units.Wrap(w.From).Degrees())
	return units.Wind{
		From:  units.Wrap(units.Angle(from) * units.Degree),
		Speed: units.Speed(math.Round(w.Speed.Knots())) * units.Knot,
	}
}

// MostWind is the strongest wind that the wind setter takes; a flight has no stronger one.
const MostWind = 250 * units.Knot

// SetWind is the action that sets the wind found; ok is false without one, if it is set,
// or if the setter does not go so far: one object timed for another gives such a wind.
func (b *Book) SetWind(v *aboard.View) (a aboard.Action, ok bool) {
	w, ok := b.Wind()
	if !ok || w.Speed > MostWind || v.WindSet.String() == w.String() {
		return a, false
	}
	return aboard.Action{Kind: aboard.SetWind, Wind: w}, true
}

// Reset is the action that sets the counters to the fix, brought on to now; ok is false
// without a fix, or if they have been set since.
func (b *Book) Reset(v *aboard.View) (a aboard.Action, ok bool) {
	if len(b.sheet.Fixes) != 1 || b.resetSince(v) {
		return a, false
	}
	wind, found := b.Wind()
	if !found {
		wind = v.WindSet
	}
	p, err := b.sheet.NewPosition(v, wind)
	if err != nil {
		return a, false
	}
	return aboard.Action{Kind: aboard.SetCounters, Position: p}, true
}

// resetSince says whether the counters were set after the fix.
func (b *Book) resetSince(v *aboard.View) bool {
	set := airplot.Traces(v.Marks).SetBy(v.Elapsed)
	return set > 0 && set >= b.sheet.At
}
