package conduct

import (
	"math"
	"strconv"
	"time"

	"stillair/gui/exhibit/tongue"
	"stillair/integrator/units"
)

// said is the sentence that stands there.
type said struct {
	word  tongue.Word
	fault string // of a fault, in the place of word
	at    time.Duration
}

func (m *Machine) tell(w tongue.Word) {
	if m.say.word != w || m.say.fault != "" {
		m.say = said{word: w, at: m.now}
	}
}

func (m *Machine) tellFault(i int) { m.say = said{fault: m.x.Faults[i].ID, at: m.now} }

// round are the sentences that come one after the other while nothing else is to be
// said.
var round = []tongue.Word{tongue.SaySteer, tongue.SayWind, tongue.SaySpeed}

// goRound brings the next sentence when one has stood for long, as long as all is
// well.
func (m *Machine) goRound() {
	if m.now-m.say.at < sentenceIn || m.broken >= 0 || m.erred || m.inside || m.say.word == tongue.SayBack && m.now-m.say.at < 2*sentenceIn {
		return
	}
	next := round[0]
	for i, w := range round {
		if m.say.word == w {
			next = round[(i+1)%len(round)]
		}
	}
	m.say = said{word: next, at: m.now}
}

// Sentence is what is said now, in a language.
func (m *Machine) Sentence(t *tongue.Tongue) string {
	switch m.stage {
	case Cloud:
		if m.Since() < 6*time.Second && m.say.word == tongue.CloudStart {
			return t.Text(tongue.CloudStart, m.place())
		}
		return m.clue(t)
	case Parting:
		return t.Text(tongue.CloudParts)
	case Result:
		return m.why(t)
	}
	if m.say.fault != "" {
		s, _ := t.Fault(m.say.fault)
		return s
	}
	fill := tongue.Fill{Name: "place", Value: m.x.Flight.Place}
	return t.Text(m.say.word, fill)
}

func (m *Machine) place() tongue.Fill {
	return tongue.Fill{Name: "place", Value: m.x.Landing.Place}
}

// The strength of a wind in words, knots. The limits are a choice of this project.
const (
	freshKt  = 19
	strongKt = 31
)

// clue is what the ship says of the wind: one of eight directions, one of three
// strengths.
func (m *Machine) clue(t *tongue.Tongue) string {
	strength := tongue.Light
	switch kt := m.real.Speed.Knots(); {
	case kt >= strongKt:
		strength = tongue.Strong
	case kt >= freshKt:
		strength = tongue.Fresh
	}
	return t.Text(tongue.CloudClue, tongue.Fill{Name: "strength", Value: t.Text(strength)},
		tongue.Fill{Name: "direction", Value: t.Text(tongue.Compass[eighth(m.real.From)])})
}

// eighth is the nearest of the eight directions.
func eighth(a units.Angle) int { return int(math.Round(units.Wrap(a).Degrees()/45)) % 8 }

// why tells what the wind was.
func (m *Machine) why(t *tongue.Tongue) string {
	w := tongue.WhySteer
	if m.result.Reached {
		w = tongue.Why
	}
	knots := func(v units.Wind) string {
		return t.Text(tongue.Knots, tongue.Fill{Name: "n", Value: strconv.Itoa(int(math.Round(v.Speed.Knots())))})
	}
	return t.Text(w, tongue.Fill{Name: "real", Value: knots(m.result.Real)}, tongue.Fill{Name: "set", Value: knots(m.result.Set)},
		tongue.Fill{Name: "realfrom", Value: degrees(m.result.Real)}, tongue.Fill{Name: "setfrom", Value: degrees(m.result.Set)})
}

// degrees writes where a wind comes from, in three figures.
func degrees(w units.Wind) string {
	d := int(math.Round(units.Wrap(w.From).Degrees())) % 360
	return string([]byte{byte('0' + d/100), byte('0' + d/10%10), byte('0' + d%10)})
}
