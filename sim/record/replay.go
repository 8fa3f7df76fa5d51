package record

import (
	"fmt"
	"math"

	"stillair/sim"
)

// Report is what came of flying a record again.
type Report struct {
	Minutes   int         // compared
	ByHash    bool        // else by positions: it was flown on another platform
	Different *Difference // the first minute that differs; nil: all are alike
	EndAlike  bool        // the closing line, if there is one and hashes can be compared
}

// Difference is a minute that is not the one recorded.
type Difference struct {
	Minute int
	What   string
	NM     float64 // of the position that differs most
}

// positionTolerance is how far positions may lie apart on another platform, whose
// last bits may differ.
const positionTolerance = 1e-6 // NM

// Fly flies an engine that follows the record on to a tick, doing what was done
// before that tick.
func (rec *Record) Fly(e *sim.Engine, to int64) error {
	for i := len(e.Given()); i < len(rec.Commands) && rec.Commands[i].Tick < to; i++ {
		if err := rec.give(e, i); err != nil {
			return err
		}
	}
	e.Advance(to - e.Tick())
	return nil
}

// give does a command of the record at its time.
func (rec *Record) give(e *sim.Engine, i int) error {
	c := &rec.Commands[i]
	e.Advance(c.Tick - e.Tick())
	if err := e.Give(*c); err != nil {
		return fmt.Errorf("command %d, at %v: %w", i+1, sim.TimeOf(c.Tick), err)
	}
	return nil
}

// Replay flies the record on a fresh engine of its flight and holds each minute
// against what is written; platform is the one it is flown on.
func (rec *Record) Replay(e *sim.Engine, platform string) (Report, error) {
	r := Report{ByHash: platform == rec.Platform}
	for i := range rec.Minutes {
		was := &rec.Minutes[i]
		if err := rec.Fly(e, was.Tick); err != nil {
			return r, err
		}
		s, hash, ok := e.Kept(int64(i))
		if !ok {
			r.Different = &Difference{Minute: i, What: "the flight has ended before"}
			return r, nil
		}
		now := minuteOf(&s, hash)
		r.Minutes++
		if d := was.differs(now, r.ByHash); d != nil {
			d.Minute = i
			r.Different = d
			return r, nil
		}
	}
	if rec.End == nil {
		return r, nil
	}
	var err error
	if r.EndAlike, err = rec.ends(e, r.ByHash); err == nil && !r.EndAlike {
		r.Different = &Difference{Minute: len(rec.Minutes), What: "the end"}
	}
	return r, err
}

// ends flies on to the closing line and says whether it ends alike. What was done
// at that very tick may have been done or not yet: a flight that is taken back to
// it shows it only after the next tick.
func (rec *Record) ends(e *sim.Engine, byHash bool) (bool, error) {
	alike := func() bool { return e.Tick() == rec.End.Tick && (!byHash || hashText(e.Hash()) == rec.End.Hash) }
	if rec.End.Tick < e.Tick() { // it was taken back, and left there
		e.GoTo(rec.End.Tick)
		return alike(), nil
	}
	if err := rec.Fly(e, rec.End.Tick); err != nil {
		return false, err
	}
	for i := len(e.Given()); !alike() && i < len(rec.Commands) && rec.Commands[i].Tick == rec.End.Tick; i++ {
		if err := rec.give(e, i); err != nil {
			return false, err
		}
	}
	return alike(), nil
}

// differs says how a minute flown differs from the one written.
func (m *Minute) differs(now *Minute, byHash bool) *Difference {
	if byHash && m.Hash == now.Hash {
		return nil
	}
	most, what := 0.0, "the state"
	for _, p := range []struct {
		what     string
		was, now [2]float64
	}{{"the true position", m.True, now.True}, {"the air position", m.Air, now.Air}, {"the ground position", m.Ground, now.Ground}, {"the marker", m.Marker, now.Marker}} {
		if d := apart(p.was, p.now); d > most || math.IsNaN(d) {
			most, what = d, p.what
		}
	}
	if !byHash && most <= positionTolerance {
		return nil
	}
	return &Difference{What: what, NM: most}
}

// apart is the distance of two places in degrees, in minutes called miles.
func apart(a, b [2]float64) float64 {
	lon := math.Mod(a[1]-b[1]+540, 360) - 180
	return 60 * math.Hypot(a[0]-b[0], lon*math.Cos(b[0]*math.Pi/180))
}
