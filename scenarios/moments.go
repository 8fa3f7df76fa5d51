package scenarios

import "stillair/sim"

// Bounds of the named moments: a digit key for each, and a name that fits on a
// small flag's slip.
const (
	maxMoments = 9
	maxName    = 60 // characters
)

// moments reads the named times of the flight, in order of time, so that the
// digit of a moment is its place in the file.
func (l *loader) moments(t *table) {
	var before *table
	for i, n := range t.entries("moment") {
		m := l.newTable(n, entry("moment", i+1), "at", "name")
		if i == maxMoments {
			l.add(n.line, m.path, "", "too many: must be %d at most, one for each digit", maxMoments)
			return
		}
		m.require("at", `flight time of the moment, such as "40m"`)
		m.require("name", "a few words")
		at, ok := m.duration("at", true)
		if last := len(l.plan.Moments) - 1; ok && last >= 0 && at <= l.plan.Moments[last].At {
			m.bad("at", "must be later than the moment before it, in line %d", before.line("at"))
		}
		name, _ := m.lineOf("name", maxName)
		if ok {
			before = m
			l.plan.Moments = append(l.plan.Moments, sim.Moment{At: at, Name: name})
		}
	}
}
