package scenarios

import (
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"stillair/sim"
)

// Bounds of a step, in characters: what the panel beside a view has room for.
const (
	maxStepTitle = 48
	maxStepText  = 420
	maxStepDo    = 160
	maxStepHint  = 120
	maxQuestion  = 140
	maxAnswer    = 36
	maxWhy       = 200
	maxLights    = 6
	minAnswers   = 2
	maxAnswers   = 4
	maxHintAfter = 10 * time.Minute
	hintAfter    = 30 * time.Second
)

var lessonKeys = []string{"title", "text", "light", "view", "go_to", "run", "stop", "rate", "reveal", "do", "until",
	"hint", "hint_after", "note", "question", "answers", "right", "why", "predict"}

// lessons reads the guided steps, in the order of the file.
func (l *loader) lessons(t *table) {
	for i, n := range t.entries("lesson") {
		s := l.newTable(n, entry("lesson", i+1), lessonKeys...)
		l.plan.Lessons = append(l.plan.Lessons, s.lesson())
	}
}

// lesson reads one step.
func (s *table) lesson() (l sim.Lesson) {
	s.require("title", "a few words")
	s.require("text", "what the step says")
	l.Title, _ = s.lineOf("title", maxStepTitle)
	l.Text, _ = s.passage("text", maxStepText)
	l.Light = s.lights()
	l.View = sim.LessonView(1 + s.word("view", "table", "linkage", "both", "navigator"))
	l.Start = s.start()
	l.Do, _ = s.passage("do", maxStepDo)
	l.Question = s.question()
	l.Until = s.until(&l)
	l.Hint, _ = s.passage("hint", maxStepHint)
	l.Note, _ = s.passage("note", maxStepText)
	l.HintAfter = s.hintAfter()
	l.Predict = s.predict(&l)
	return l
}

// passage gives a text of several lines; those of the file that are not parted
// by an empty one run on.
func (t *table) passage(key string, longest int) (string, bool) {
	text, ok := t.text(key)
	if !ok {
		return "", false
	}
	if utf8.RuneCountInString(text) > longest {
		t.bad(key, "must be at most %d characters: the panel has room for no more", longest)
		return "", false
	}
	var parts []string
	for _, p := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n\n") {
		if p = strings.Join(strings.Fields(p), " "); p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, "\n"), true
}

// lights are the names of what is lit up.
func (s *table) lights() []string {
	return s.listOf("light", "parts of the window", 1, maxLights, func(name string) string {
		if slices.Contains(sim.LightNames(), name) {
			return ""
		}
		return "no part " + name + s.meant(name, sim.LightNames(), "they are")
	})
}

// listOf gives an array of so many strings, each approved: the approval says what
// is wrong with one, "" if nothing.
func (t *table) listOf(key, what string, least, most int, approve func(string) string) (all []string) {
	v, ok := t.get(key, "an array of strings, "+what, arrayKind)
	if !ok {
		return nil
	}
	if n := len(v.items); n < least || n > most {
		t.bad(key, "must have %d to %d entries, %s; these are %d", least, most, what, n)
		return nil
	}
	for _, it := range v.items {
		switch why := ""; {
		case it.kind == badKind:
		case it.kind != stringKind:
			t.add(it.line, t.key(key), it.shown(), "must be strings, not %v", it.kind)
		case slices.Contains(all, it.text):
			t.add(it.line, t.key(key), it.shown(), "given twice")
		default:
			if why = approve(it.text); why != "" {
				t.add(it.line, t.key(key), it.shown(), "%s", why)
			}
			all = append(all, it.text)
		}
	}
	return all
}

// start reads what the engine does as the step begins.
func (s *table) start() sim.LessonStart {
	b := sim.LessonStart{GoTo: -1, RunTo: -1}
	if tick, ok := s.duration("go_to", true); ok {
		b.GoTo = tick
	}
	if s.has("run") && s.has("stop") {
		s.bad("stop", "only one of run or stop, and run is given in line %d", s.line("run"))
	}
	if v := s.node.values["run"]; v != nil && v.kind == stringKind {
		if tick, ok := s.duration("run", false); ok {
			b.Clock, b.RunTo = sim.RunTheClock, tick
			if tick <= b.GoTo {
				s.bad("run", "must be later than go_to, in line %d", s.line("go_to"))
			}
		}
	} else if s.mustBeTrue("run", `true, or the flight time at which the clock stops again, such as "40m"`) {
		b.Clock = sim.RunTheClock
	}
	if s.mustBeTrue("stop", "true") {
		b.Clock = sim.StopTheClock
	}
	if v, ok := s.get("rate", "a number, "+rateList(), wholeKind, numberKind); ok {
		if b.Rate = v.num; !slices.Contains(sim.LessonRates, v.num) {
			s.bad("rate", "must be %s", rateList())
		}
	}
	if on, ok := s.truth("reveal"); ok {
		b.Truth = &on
	}
	return b
}

func rateList() string {
	var all []string
	for _, r := range sim.LessonRates {
		all = append(all, figure(r))
	}
	return orList(all)
}

// mustBeTrue reads a key that is true or not there.
func (t *table) mustBeTrue(key, want string) bool {
	v, ok := t.get(key, want, boolKind)
	if ok && !v.flag {
		t.bad(key, "must be %s, or left out", want)
		return false
	}
	return ok
}

func (s *table) hintAfter() time.Duration {
	if s.has("hint_after") && !s.has("hint") {
		s.bad("hint_after", "there is no hint to wait for")
	}
	if !s.has("hint_after") {
		return hintAfter
	}
	ticks, ok := s.duration("hint_after", true)
	if ok && sim.TimeOf(ticks) > maxHintAfter {
		s.bad("hint_after", "must be 0s to 10m")
	}
	return sim.TimeOf(ticks)
}

// question reads a question with its answers; all four keys or none.
func (s *table) question() *sim.Question {
	keys := []string{"question", "answers", "right", "why"}
	if !slices.ContainsFunc(keys, s.has) {
		return nil
	}
	s.require("question", "what is asked, for answers, right and why belong to it")
	s.require("answers", "2 to 4 answers")
	s.require("right", "the number of the right answer, from 1")
	s.require("why", "why that answer is right")
	q := &sim.Question{}
	q.Text, _ = s.passage("question", maxQuestion)
	q.Answers = s.listOf("answers", "the answers", minAnswers, maxAnswers, func(a string) string {
		if strings.TrimSpace(a) == "" || utf8.RuneCountInString(a) > maxAnswer || strings.ContainsAny(a, "\n\r\t") {
			return "must be one line of 1 to " + figure(maxAnswer) + " characters"
		}
		return ""
	})
	if v, ok := s.get("right", "the number of the right answer, from 1", wholeKind); ok {
		if n := int64(len(q.Answers)); n > 0 && (v.whole < 1 || v.whole > n) {
			s.bad("right", "must be 1 to %d, the number of the right answer", n)
		}
		q.Right = int(v.whole) - 1
	}
	q.Why, _ = s.passage("why", maxWhy)
	return q
}

// predict reads when a pin is held against the truth.
func (s *table) predict(l *sim.Lesson) *sim.Prediction {
	t := s.table("predict", "at")
	if t == nil {
		return nil
	}
	t.require("at", `the flight time at which the truth is shown, such as "1h"`)
	at, ok := t.duration("at", false)
	if ok && at < max(l.Start.GoTo, l.Start.RunTo) {
		t.bad("at", "must not be before go_to or run")
	}
	if l.Start.Truth != nil && *l.Start.Truth {
		s.bad("reveal", "must not be true in a step that asks for a pin")
	}
	if l.Until.Kind != sim.NoGoal {
		s.bad("until", "does not go with predict: the step is done when the truth is shown")
	}
	return &sim.Prediction{At: at}
}
