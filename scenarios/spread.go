package scenarios

import (
	"stillair/sim"
	"stillair/sim/spread"
)

// ownLaw is the name of a law that a flight gives itself.
const ownLaw = "flight"

// spread reads how widely the errors of many flights are drawn: a preset, and
// single figures in its place. Without a preset what is not given is not drawn.
func (l *loader) spread(t *table) {
	known := []string{"preset", "wander_time"}
	for _, term := range spread.Terms() {
		known = append(known, term.Fact().Key)
	}
	s := t.table("spread", known...)
	if s == nil {
		return
	}
	law := spread.Law{}
	if i := s.word("preset", spread.Presets()...); i >= 0 {
		law, _ = spread.Preset(spread.Presets()[i])
	}
	law.Name = ownLaw
	for _, term := range spread.Terms() {
		f := term.Fact()
		if x, ok := s.number(f.Key, 0, f.Max, f.Unit); ok {
			law.Sigma[term] = x
		}
	}
	if ticks, ok := s.duration("wander_time", false); ok {
		law.WanderTime = sim.TimeOf(ticks)
		if law.WanderTime < spread.MinWanderTime {
			s.bad("wander_time", "must be 1m to 48h")
		}
	}
	wander := spread.Wander.Fact().Key
	if law.Sigma[spread.Wander] > 0 && law.WanderTime == 0 && !s.has("wander_time") {
		s.bad(wander, `wants wander_time: the time after which the wander keeps 1/e of what it was, such as "2h"`)
	}
	l.law = &law
}
