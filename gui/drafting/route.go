package drafting

import (
	"errors"
	"strconv"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
	"stillair/sim"
)

// steerKeys are the keys of a leg's direction, in the order of sim.Steer.
var steerKeys = []string{"heading_true_deg", "heading_magnetic_deg", "heading_compass_deg", "track_true_deg", "to"}

// kept are the keys of a leg that hold on later legs.
var kept = []string{"cas_kt", "tas_kt", "pressure_altitude_ft", "climb_ft_min"}

func leg(n int) string { return "leg[" + strconv.Itoa(n) + "]" }

// Reach is a place that a turning point was let go at, within some distance.
func Reach(p *sim.Plan, at units.Position, reach units.Length) (scenarios.Place, bool) {
	var best scenarios.Place
	waters, err := scenarios.Waters(p.Waters)
	if err != nil {
		return best, false
	}
	found := false
	for _, place := range waters.Places {
		if _, d := geodesy.RhumbInverse(at, place.At); d <= reach {
			best, reach, found = place, d, true
		}
	}
	return best, found
}

// flyable is the plan of a draft, or why its route cannot be drawn.
func flyable(d *edit.Draft) (*sim.Plan, error) {
	if d.Plan() == nil {
		return nil, errors.New(look.Text(look.DraftNotYet))
	}
	return d.Plan(), nil
}

// ended is leg i, counted from 0, as it ends at a position: at a place within reach, or
// aimed.
func ended(p *sim.Plan, i int, to units.Position, reach units.Length) (sim.Leg, error) {
	if place, ok := Reach(p, to, reach); ok {
		l := p.Legs[i]
		l.Steer, l.Place, l.Target, l.Ticks, l.Distance = sim.ToPlace, place.Name, place.At, 0, 0
		if begin, ok := from(p, i); ok {
			if _, far := geodesy.RhumbInverse(begin, place.At); far < shortest {
				return l, errors.New(look.Text(look.DraftTooNear))
			}
		}
		return l, nil
	}
	return aim(p, i, to)
}

// held gives the changes by which leg i of a new plan leads where the leg of that
// number, j, of the old one ended; none if it leads to a place.
func held(d *edit.Draft, q *sim.Plan, i int, end units.Position, n int) ([]edit.Change, error) {
	if i >= len(q.Legs) || q.Legs[i].Steer == sim.ToPlace {
		return nil, nil
	}
	l, err := aim(q, i, end)
	if err != nil {
		return nil, err
	}
	return orders(d, n, &l), nil
}

// MoveEnd has leg n, counted from 1, end at a position or at a place within reach of it.
func MoveEnd(d *edit.Draft, n int, to units.Position, reach units.Length) ([]edit.Change, error) {
	p, err := flyable(d)
	if err != nil {
		return nil, err
	}
	l, err := ended(p, n-1, to, reach)
	if err != nil {
		return nil, err
	}
	changes := orders(d, n, &l)
	if planned := atlas.Planned(p); n < len(planned) {
		next, err := held(d, with(p, n-1, l), n, planned[n].To, n+1)
		if err != nil {
			return nil, err
		}
		changes = append(changes, next...)
	}
	return changes, nil
}

// MoveStart has the flight start at a position, or at a place within reach of it.
// Counters that are set at the start are moved by as much.
func MoveStart(d *edit.Draft, to units.Position, reach units.Length) ([]edit.Change, error) {
	p, err := flyable(d)
	if err != nil {
		return nil, err
	}
	if place, ok := Reach(p, to, reach); ok {
		to = place.At
	}
	q := *p
	changes := []edit.Change{edit.Set("aircraft.position", positionLike(d, "aircraft.position", to))}
	if c := p.Setting.Counters; c != nil {
		moved := units.Position{Lat: to.Lat + c.Lat - p.Aircraft.Position.Lat,
			Lon: units.WrapHalf(to.Lon + c.Lon - p.Aircraft.Position.Lon)}
		q.Setting.Counters = &moved
		changes = append(changes, edit.Set("setting.counters", positionLike(d, "setting.counters", moved)))
	}
	q.Aircraft.Position = to
	if planned := atlas.Planned(p); len(planned) > 0 {
		first, err := held(d, &q, 0, planned[0].To, 1)
		if err != nil {
			return nil, err
		}
		changes = append(changes, first...)
	}
	return changes, nil
}

// positionLike writes a position as the one under a path is written.
func positionLike(d *edit.Draft, path string, at units.Position) edit.Value {
	if v, ok := d.Get(path); ok && v.String()[0] == '[' {
		return edit.Pair(at, 4)
	}
	return edit.Position(at)
}

// Split puts a turning point into leg n: the leg ends there, with its speed and height,
// and a new one goes on from there to where it led.
func Split(d *edit.Draft, n int, to units.Position, reach units.Length) ([]edit.Change, error) {
	p, err := flyable(d)
	if err != nil {
		return nil, err
	}
	planned := atlas.Planned(p)
	if n > len(planned) {
		return nil, errors.New(look.Text(look.DraftUnheld))
	}
	first, err := ended(p, n-1, to, reach)
	if err != nil {
		return nil, err
	}
	second := p.Legs[n-1]
	second.Speed, second.Altitude = nil, nil
	q := with(p, n-1, first)
	q.Legs = append(q.Legs[:n:n], second)
	if second.Steer != sim.ToPlace {
		if second, err = aim(q, n, planned[n-1].To); err != nil {
			return nil, err
		}
	}
	return append(orders(d, n, &first), edit.Insert("leg", n+1, fieldsOf(&second)...)), nil
}

// Append adds a leg at the end.
func Append(d *edit.Draft, to units.Position, reach units.Length) ([]edit.Change, error) {
	p, err := flyable(d)
	if err != nil {
		return nil, err
	}
	q := *p
	last := sim.Leg{Steer: sim.TrackTrue, TurnRate: 3, Ticks: sim.TicksOf(time.Hour), Climb: p.Legs[len(p.Legs)-1].Climb}
	q.Legs = append(p.Legs[:len(p.Legs):len(p.Legs)], last)
	l, err := ended(&q, len(p.Legs), to, reach)
	if err != nil {
		return nil, err
	}
	return []edit.Change{edit.Insert("leg", len(p.Legs)+1, fieldsOf(&l)...)}, nil
}

// RemoveLeg takes a leg away with the turning point at its end. The next leg leads from
// the one before it to where it led; speed and height ordered on the leg go over to it.
func RemoveLeg(d *edit.Draft, n int) ([]edit.Change, error) {
	p, err := flyable(d)
	if err != nil {
		return nil, err
	}
	if len(p.Legs) == 1 {
		return nil, errors.New(look.Text(look.DraftLastLeg))
	}
	changes := []edit.Change{edit.Remove(leg(n))}
	planned := atlas.Planned(p)
	if n >= len(planned) || n == len(p.Legs) {
		return changes, nil
	}
	for _, k := range kept {
		speed := k == "cas_kt" || k == "tas_kt"
		if v, ok := d.Get(leg(n) + "." + k); ok && !d.Has(leg(n+1)+"."+k) && !(speed && p.Legs[n].Speed != nil) {
			changes = append(changes, edit.Set(leg(n)+"."+k, v))
		}
	}
	q := *p
	gone := p.Legs[n-1]
	q.Legs = append(p.Legs[:n-1:n-1], p.Legs[n:]...)
	next := &q.Legs[n-1]
	if next.Speed == nil {
		next.Speed = gone.Speed
	}
	if next.Altitude == nil {
		next.Altitude = gone.Altitude
	}
	if next.Steer == sim.ToPlace {
		return changes, nil
	}
	l, err := aim(&q, n-1, planned[n].To)
	if err != nil {
		return nil, err
	}
	// by the number it has once the other one is gone; its keys are those it has now
	return append(changes, rewrite(keysOf(d, n+1), n, &l)...), nil
}

// keysOf are the keys of direction and end that a leg has.
func keysOf(d *edit.Draft, n int) map[string]bool {
	has := map[string]bool{}
	for _, k := range append([]string{"duration", "distance_nm"}, steerKeys...) {
		has[k] = d.Has(leg(n) + "." + k)
	}
	return has
}

// orders writes direction and end of a leg into leg n.
func orders(d *edit.Draft, n int, l *sim.Leg) []edit.Change { return rewrite(keysOf(d, n), n, l) }

func rewrite(has map[string]bool, n int, l *sim.Leg) []edit.Change {
	var changes []edit.Change
	path := leg(n) + "."
	put := func(f edit.Field, others ...string) {
		if has[f.Key] {
			changes = append(changes, edit.Set(path+f.Key, f.Value))
			return
		}
		for _, k := range others {
			if has[k] {
				changes = append(changes, edit.Swap(path+k, f.Key, f.Value))
				return
			}
		}
		changes = append(changes, edit.Set(path+f.Key, f.Value))
	}
	fields := fieldsOf(l)
	put(fields[0], steerKeys...)
	if len(fields) > 1 {
		put(fields[1], "duration", "distance_nm")
		return changes
	}
	return append(changes, edit.Drop(path+"duration"), edit.Drop(path+"distance_nm"))
}

// fieldsOf are direction and end of a leg, rounded as a file has them.
func fieldsOf(l *sim.Leg) []edit.Field {
	if l.Steer == sim.ToPlace {
		return []edit.Field{{Key: "to", Value: edit.Text(l.Place)}}
	}
	degrees := edit.Rounded(l.Direction.Degrees(), 1)
	if degrees.String() == "360" {
		degrees = edit.Whole(0)
	}
	direction := edit.Field{Key: steerKeys[l.Steer], Value: degrees}
	if l.Distance > 0 {
		return []edit.Field{direction, {Key: "distance_nm", Value: edit.Rounded(max(0.1, l.Distance.NM()), 1)}}
	}
	d := max(time.Second, sim.TimeOf(l.Ticks).Round(time.Second))
	return []edit.Field{direction, {Key: "duration", Value: edit.Duration(d)}}
}
