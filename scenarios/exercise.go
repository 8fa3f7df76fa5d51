package scenarios

import (
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sealed"
)

// Bounds of an exercise.
const (
	maxTask   = 420
	maxLevel  = 9
	allMarks  = 100
	maxHoldNM = 60
)

// exercise reads what is asked of a trainee, and draws the faults of a sealed flight. It
// comes last: the draw flies the flight.
func (l *loader) exercise(t *table) {
	x := t.table("exercise", "level", "task", "finds", "report_within", "hold_nm", "log_every", "marks", "sealed")
	if x == nil {
		return
	}
	e := &sim.Exercise{}
	l.plan.Exercise = e
	e.Task, _ = x.passage("task", maxTask)
	e.Finds, _ = x.passage("finds", maxTask)
	if v, ok := x.get("level", "a whole number, 1 to 9", wholeKind); ok && x.within("level", v.num, 1, maxLevel, "") {
		e.Level = int(v.whole)
	}
	e.ReportWithin, _ = x.duration("report_within", false)
	e.LogEvery, _ = x.duration("log_every", false)
	if nm, ok := x.number("hold_nm", 0.1, maxHoldNM, "NM"); ok {
		e.Hold = units.Length(nm) * units.NM
	}
	x.marks(e)
	if x.has("sealed") {
		x.seal(e)
		return
	}
	x.require("task", "what the trainee is told")
	x.require("finds", "what there is to be found, told after landing")
}

// marks reads how the hundred marks are shared out.
func (x *table) marks(e *sim.Exercise) {
	m := x.table("marks", sim.ExerciseMarks[:]...)
	if m == nil {
		return
	}
	sum := 0.0
	for i, key := range sim.ExerciseMarks {
		e.Marks[i], _ = m.number(key, 0, allMarks, "marks")
		sum += e.Marks[i]
	}
	if sum != allMarks {
		x.bad("marks", "must be %d in all, and are %s", allMarks, figure(sum))
	}
}

// seal draws the faults, if all else is in order.
func (x *table) seal(e *sim.Exercise) {
	v, ok := x.get("sealed", "a whole number, 0 or above: the seed that the faults are drawn by", wholeKind)
	switch {
	case !ok:
		return
	case v.whole < 0:
		x.bad("sealed", "must be 0 or above")
		return
	case len(x.plan.Faults) > 0 || len(x.plan.Lessons) > 0:
		x.bad("sealed", "does not go with [[fault]] or [[lesson]]: the faults of a sealed flight are drawn")
		return
	}
	e.Sealed, e.Seed = true, uint64(v.whole)
	if x.err() != nil || x.broken {
		return
	}
	faults, err := sealed.Draw(x.plan, e.Seed)
	if err != nil {
		x.bad("sealed", "%v", err)
		return
	}
	x.plan.Faults = faults
}
