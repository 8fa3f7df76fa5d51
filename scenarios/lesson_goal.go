package scenarios

import (
	"slices"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// goals are the keys of until, each with those that go with it.
var goals = []struct {
	key  string
	with []string
	kind sim.GoalKind
}{
	{"variation_deg", []string{"within_deg"}, sim.VariationGoal},
	{"wind_from_deg_true", []string{"wind_kt", "within_deg", "within_kt"}, sim.WindGoal},
	{"counters", []string{"within_nm"}, sim.CountersGoal},
	{"fault", []string{"among"}, sim.FaultGoal},
	{"link", nil, sim.LinkGoal},
	{"time", nil, sim.TimeGoal},
	{"reading", nil, sim.ReadingGoal},
	{"answer", nil, sim.AnswerGoal},
	{"revealed", nil, sim.RevealGoal},
	{"mended", nil, sim.MendGoal},
	{"alternate_static", nil, sim.StaticGoal},
	{"hand_heading_deg_true", []string{"within_deg"}, sim.HandHeadingGoal},
	{"hand_latitude_deg", []string{"within_deg"}, sim.HandLatitudeGoal},
	{"hand_speed_kt", []string{"within_kt"}, sim.HandSpeedGoal},
}

// until reads by what the step is known to be done.
func (s *table) until(l *sim.Lesson) (g sim.Goal) {
	var first, known []string
	for _, k := range goals {
		first = append(first, k.key)
		for _, w := range append([]string{k.key}, k.with...) {
			if !slices.Contains(known, w) {
				known = append(known, w)
			}
		}
	}
	u := s.table("until", known...)
	switch {
	case u == nil && l.Question != nil && l.Do == "":
		return sim.Goal{Kind: sim.AnswerGoal}
	case u == nil && l.Do != "" && !s.has("predict") && !s.has("until"):
		s.missing(s.node.line, s.key("until"), "how the program knows that what do asks has been done")
	case u != nil && l.Do == "" && !s.has("do") && !u.has("answer"):
		s.missing(s.node.line, s.key("do"), "what the learner must do, in words, for there is an until")
	}
	if u == nil {
		return g
	}
	key := u.onlyOne("", first...)
	for _, k := range goals {
		if k.key != key {
			continue
		}
		g.Kind = k.kind
		for _, other := range u.node.keys {
			if slices.Contains(known, other) && !slices.Contains(first, other) && !slices.Contains(k.with, other) {
				u.bad(other, "does not go with %s", key)
			}
		}
		u.goal(key, &g, l)
	}
	return g
}

// How near is near enough where the file does not say.
const (
	withinDegrees     = 1
	withinDegreesWind = 10
	withinKnots       = 5
	withinNM          = 1
)

func (u *table) goal(key string, g *sim.Goal, l *sim.Lesson) {
	var ok bool
	switch g.Kind {
	case sim.VariationGoal:
		v, _ := u.angle(key, -180, 180)
		g.Variation, g.WithinDegrees = units.Variation(v), u.tolerance("within_deg", 90, "degrees", withinDegrees)
	case sim.WindGoal:
		u.require("wind_kt", span(0, maxWindKt, "kt"))
		g.Wind.From, _ = u.direction(key)
		kt, _ := u.number("wind_kt", 0, maxWindKt, "kt")
		g.Wind.Speed = units.Speed(kt) * units.Knot
		g.WithinDegrees = u.tolerance("within_deg", 90, "degrees", withinDegreesWind)
		g.WithinKnots = u.tolerance("within_kt", 50, "kt", withinKnots)
	case sim.CountersGoal:
		g.Position, _ = u.position(key)
		g.WithinNM = u.tolerance("within_nm", 60, "NM", withinNM)
	case sim.FaultGoal:
		g.Word = u.faultID(key)
		u.require("among", "2 to 4 ids of faults to choose from")
		g.Among = u.listOf("among", "ids of faults", minAnswers, maxAnswers, u.wrongFault)
		if g.Word != "" && g.Among != nil && !slices.Contains(g.Among, g.Word) {
			u.bad("among", "must have %s, the right one, among them", g.Word)
		}
	case sim.MendGoal:
		g.Word = u.faultID(key)
	case sim.LinkGoal:
		if i := u.word(key, sim.LinkNames()...); i >= 0 {
			g.Word = sim.LinkNames()[i]
		}
	case sim.TimeGoal:
		if g.Tick, ok = u.duration(key, false); ok && g.Tick <= l.Start.GoTo {
			u.bad(key, "must be later than go_to")
		}
	case sim.ReadingGoal:
		g.Aim = u.aim(key)
	case sim.AnswerGoal:
		g.OnlyRight = u.word(key, "any", "right") == 1
		if l.Question == nil {
			u.bad(key, "there is no question to be answered")
		}
	case sim.RevealGoal, sim.StaticGoal:
		u.mustBeTrue(key, "true")
	case sim.HandHeadingGoal:
		g.Angle, _ = u.direction(key)
		g.WithinDegrees = u.tolerance("within_deg", 90, "degrees", withinDegrees)
	case sim.HandLatitudeGoal:
		g.Angle, _ = u.angle(key, -89, 89)
		g.WithinDegrees = u.tolerance("within_deg", 90, "degrees", withinDegrees)
	case sim.HandSpeedGoal:
		kt, _ := u.number(key, 0, 600, "kt")
		g.Speed, g.WithinKnots = units.Speed(kt)*units.Knot, u.tolerance("within_kt", 50, "kt", withinKnots)
	}
}

// tolerance is how near is near enough, above 0.
func (u *table) tolerance(key string, most float64, unit string, otherwise float64) float64 {
	if !u.has(key) {
		return otherwise
	}
	v, ok := u.get(key, "a number above 0, up to "+figure(most)+" "+unit, wholeKind, numberKind)
	if ok && !(v.num > 0 && v.num <= most) {
		u.bad(key, "must be above 0, up to %s %s", figure(most), unit)
	}
	if !ok {
		return otherwise
	}
	return v.num
}

// faultID reads the id of a fault of the catalogue.
func (u *table) faultID(key string) string {
	id, ok := u.text(key)
	if !ok {
		return ""
	}
	if why := u.wrongFault(id); why != "" {
		u.bad(key, "%s", why)
		return ""
	}
	return id
}

func (u *table) wrongFault(id string) string {
	if _, ok := fault.Lookup(id); ok {
		return ""
	}
	if near := fault.Nearest(id); len(near) > 0 {
		return "no such fault; did you mean " + orList(near) + "?"
	}
	return "no such fault; reckon faults lists them"
}

// aim reads an aid and what it is pointed at.
func (u *table) aim(key string) (a aboard.Aim) {
	text, ok := u.oneLine(key)
	if !ok {
		return a
	}
	if a, ok = aboard.ParseAim(text); !ok {
		u.bad(key, `must be an aid and what it is pointed at, such as "loop Cape Linnet" or "drift"; the aids are %s`, orList(aboard.AidNames()))
		return a
	}
	if a.Source != "" || a.Aid == aboard.DriftSight { // an aid alone: whatever it is pointed at
		u.source(key, &a)
	}
	return a
}
