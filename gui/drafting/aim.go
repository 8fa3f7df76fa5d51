package drafting

import (
	"errors"
	"math"
	"slices"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// shortest is the least length of a leg that is drawn, so that it has a direction.
const shortest = 0.5 * units.NM

// missedBy is how near an aimed leg must come, before its figures are rounded.
const missedBy = 0.02 * units.NM

// mostTries bounds the aiming: each try takes away most of what is left.
const mostTries = 40

// with is a plan in which leg i is another one; the legs before and after it are as
// they were.
func with(p *sim.Plan, i int, leg sim.Leg) *sim.Plan {
	q := *p
	q.Legs = slices.Clone(p.Legs)
	q.Legs[i] = leg
	return &q
}

// from is where leg i begins by plan; false if the plan does not get so far.
func from(p *sim.Plan, i int) (units.Position, bool) {
	planned := atlas.Planned(p)
	if i == 0 && p.Setting.Counters == nil {
		return p.Aircraft.Position, true
	}
	if i < len(planned) {
		return planned[i].From, true
	}
	if i > 0 && i == len(planned) {
		return planned[i-1].To, true
	}
	return units.Position{}, false
}

// aim gives leg i the direction and the end that lead to a position. Its kind stays as
// the package comment says.
func aim(p *sim.Plan, i int, to units.Position) (sim.Leg, error) {
	leg := p.Legs[i]
	begin, ok := from(p, i)
	if !ok {
		return leg, errors.New(look.Text(look.DraftUnheld))
	}
	course, far := geodesy.RhumbInverse(begin, to)
	if !(far >= shortest) {
		return leg, errors.New(look.Text(look.DraftTooNear))
	}
	heading := leg.Steer <= sim.HeadingCompass
	track := leg
	track.Steer, track.Direction = sim.TrackTrue, course
	if leg.Steer == sim.ToPlace || leg.Distance == 0 && leg.Ticks == 0 {
		track.Distance, track.Ticks, track.Place = 0, sim.TicksOf(time.Hour), ""
	}
	track, err := settle(p, i, track, begin, to, false)
	if err != nil || !heading {
		return track, err
	}
	planned := atlas.Planned(with(p, i, track))[i]
	nose, _ := geodesy.RhumbInverse(planned.AirFrom, planned.AirTo)
	track.Steer, track.Direction = leg.Steer, nose
	return settle(p, i, track, begin, to, true)
}

// settle turns the direction (of a heading, always, for the wind answers it; of a track
// only in the first try) and stretches the leg until it ends at a position.
func settle(p *sim.Plan, i int, leg sim.Leg, begin, to units.Position, turn bool) (sim.Leg, error) {
	course, far := geodesy.RhumbInverse(begin, to)
	for range mostTries {
		planned := atlas.Planned(upTo(with(p, i, leg), i))
		if i >= len(planned) {
			return leg, errors.New(look.Text(look.DraftUnheld))
		}
		_, miss := geodesy.RhumbInverse(planned[i].To, to)
		if miss < missedBy {
			return leg, nil
		}
		went, ran := geodesy.RhumbInverse(begin, planned[i].To)
		if turn {
			leg.Direction = units.Wrap(leg.Direction + units.WrapHalf(course-went)*2/3)
		}
		k := math.Max(0.25, math.Min(4, float64(far/max(ran, units.NM/100))))
		leg.Distance *= units.Length(k)
		leg.Ticks = int64(math.Ceil(float64(leg.Ticks) * k))
	}
	return leg, errors.New(look.Text(look.DraftUnheld))
}

// upTo is a plan that ends with leg i.
func upTo(p *sim.Plan, i int) *sim.Plan {
	p.Legs = p.Legs[:i+1]
	return p
}
