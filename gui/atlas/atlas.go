// Package atlas makes the chart of a flight: the coasts and places of its
// waters, the lines of equal variation that a chart of its year would print,
// and the required track. Only TruthOf hands on what comes from the world as it
// is flown.
package atlas

import (
	"math"
	"time"

	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/geomag"
)

// margin is how far the lines of variation reach beyond the coasts, degrees:
// as far as a chart that shows them all does.
const margin = 9.0

// region is a rectangle of the earth in degrees; east may pass 180.
type region struct{ south, west, north, east float64 }

// Of is what a chart shows where a plan flies. Key, rose and names keep off the
// required track and its air plot, and off further lines if any are given.
func Of(p *sim.Plan, keep ...[]units.Position) (picture.Waters, error) {
	track, air := reckon(p)
	required := line(track)
	w := picture.Waters{Keep: append(keep[:len(keep):len(keep)], required, air), Points: required, Year: p.Start.UTC().Year()}
	start := p.Aircraft.Position
	r := around(region{start.Lat.Degrees(), start.Lon.Degrees(), start.Lat.Degrees(), start.Lon.Degrees()}, 12)
	if p.Waters != "" {
		data, err := scenarios.Waters(p.Waters)
		if err != nil {
			return w, err
		}
		w.Title, w.Line = data.Title, data.Line
		w.Coasts, w.Places = coasts(data), places(data, p.Legs)
		r = around(bounds(w.Coasts, start), margin)
	}
	if p.Field != nil {
		v := *p.Field
		w.Rose, w.Year = &v, 0
		return w, nil
	}
	return w, variation(&w, r, start, p.Start)
}

func around(r region, d float64) region {
	return region{math.Max(r.south-d, -80), r.west - d, math.Min(r.north+d, 80), r.east + d}
}

// bounds is the rectangle round the coasts and the start, unwrapped at 180.
func bounds(coasts []picture.Coast, start units.Position) region {
	lat, ref := start.Lat.Degrees(), start.Lon.Degrees()
	r := region{lat, ref, lat, ref}
	for _, c := range coasts {
		for _, p := range c.Points {
			lat, lon := p.Lat.Degrees(), ref+units.WrapHalfDegrees(p.Lon.Degrees()-ref)
			r.south, r.north = math.Min(r.south, lat), math.Max(r.north, lat)
			r.west, r.east = math.Min(r.west, lon), math.Max(r.east, lon)
		}
	}
	return r
}

func coasts(w *scenarios.WatersData) []picture.Coast {
	out := make([]picture.Coast, len(w.Coasts))
	for i, c := range w.Coasts {
		out[i] = picture.Coast{Name: c.Name, Points: c.Points}
	}
	return out
}

// line is the required track as a line.
func line(track []picture.Waypoint) []units.Position {
	out := make([]units.Position, len(track))
	for i, w := range track {
		out[i] = w.At
	}
	return out
}

// ranks say how near one must look for the name of a kind of place.
var ranks = map[scenarios.PlaceKind]int{
	scenarios.Port: 0, scenarios.Beacon: 0, scenarios.Chain: 0,
	scenarios.Rock: 1, scenarios.Cape: 1, scenarios.Airfield: 1, scenarios.Island: 1, scenarios.Town: 1,
	scenarios.Light: 2, scenarios.Weather: 2, scenarios.Seaplane: 2,
	scenarios.Hill: 3, scenarios.Bay: 3,
}

// places are the places with their ranks. Where legs lead comes first; a place
// such as a light with no higher one near it speaks for its island.
func places(w *scenarios.WatersData, legs []sim.Leg) []picture.Place {
	out := make([]picture.Place, len(w.Places))
	for i, p := range w.Places {
		marked := p.Kind != scenarios.Bay && p.Kind != scenarios.Island
		out[i] = picture.Place{Name: p.Name, At: p.At, Rank: ranks[p.Kind], Mark: marked}
		for _, leg := range legs {
			if leg.Steer == sim.ToPlace && leg.Target == p.At {
				out[i].Rank = 0
			}
		}
	}
	for i := range out {
		if out[i].Rank == 2 && alone(out, i) {
			out[i].Rank = 1
		}
	}
	return out
}

// alone says whether no place of a higher rank, or of the same before it, lies
// within lonely degrees.
func alone(all []picture.Place, i int) bool {
	const lonely = 0.45
	p := all[i]
	for j, q := range all {
		near := math.Hypot((p.At.Lat-q.At.Lat).Degrees(), units.WrapHalf(p.At.Lon-q.At.Lon).Degrees()*math.Cos(p.At.Lat.Radians())) < lonely
		if near && (q.Rank < p.Rank || q.Rank == p.Rank && j < i) {
			return false
		}
	}
	return true
}

// variation adds rose and isogonals of the year.
func variation(w *picture.Waters, r region, start units.Position, when time.Time) error {
	model, err := geomag.New(geomag.DecimalYear(when))
	if err != nil {
		return err
	}
	at := func(lat, lon float64) float64 {
		return model.At(units.At(lat, units.WrapHalfDegrees(lon)), 0).D.Degrees()
	}
	rose := units.Variation(math.Round(at(start.Lat.Degrees(), start.Lon.Degrees()))) * units.Variation(units.Degree)
	w.Rose = &rose
	w.Isogonals = isogonals(r, at)
	return nil
}
