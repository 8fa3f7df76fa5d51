package airplot

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// The pulse chain aboard: the delay at which its secondaries answer, and the index of
// the air for its waves (from memory).
const (
	chainDelay = 1000 * Microsecond
	chainIndex = 1.0003
)

// ChainPair is a master and a secondary of the pulse chain.
func ChainPair(master, secondary units.Position) Pair {
	return Pair{Master: master, Secondary: secondary, Delay: chainDelay, Index: chainIndex}
}

// What a reading is good for, one standard deviation, hand and aid together (of the
// loop from memory, the others common practice, no source).
const (
	sextantSigma  = 4 * units.ArcMinute
	loopSigma     = 1.5 * units.Degree
	pulseSigma    = 0.8 * Microsecond
	pinpointSigma = 1 * units.NM
)

// Taken is a reading that stands in the log, with what the crew had at the time.
type Taken struct {
	Entry   aboard.Entry
	When    time.Duration        // the time for which the reading is good
	Air     units.AirPosition    // then
	Ground  units.GroundPosition // then
	Heading units.TrueHeading    // when it was entered
}

// Lines are the position lines of a reading: none of a drift sight and a heading check,
// two of a pinpoint. start is the time at which the log begins.
func (t *Taken) Lines(start time.Time) []Line {
	r := &t.Entry.Action.Reading
	line := func(l Locus) []Line { return []Line{{Locus: l, Time: start.Add(t.When), Source: r.Source}} }
	if r.Missing != aboard.Had {
		return nil
	}
	switch r.Aid {
	case aboard.Sextant:
		return line(Altitude{GHA: units.Wrap(-r.At.Lon), Declination: r.At.Lat, Observed: r.Observed, Sigma: sextantSigma})
	case aboard.Loop:
		return line(Bearing{Station: r.At, Bearing: towardStation(TrueBearing(t.Heading, r.Angle, 0), units.Position(t.Ground), r.At), Sigma: loopSigma})
	case aboard.PulseReceiver:
		return line(Hyperbola{Pair: ChainPair(r.Master, r.At), Read: TimeDifference(r.Delay) * Microsecond, Sigma: pulseSigma})
	case aboard.Pinpoint:
		both := Pinpoint(r.At, pinpointSigma, start.Add(t.When), r.Source)
		return both[:]
	}
	return nil
}
