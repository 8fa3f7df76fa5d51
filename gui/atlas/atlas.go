// Package atlas makes the chart of a flight: the coasts and places of its
// waters, and the lines of equal variation that a chart of its year would
// print. Nothing in it comes from the world as it is flown.
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

// margin is how far the lines of variation reach beyond the coasts, degrees.
const margin = 3.0

// region is a rectangle of the earth in degrees; east may pass 180.
type region struct{ south, west, north, east float64 }

// Of is what a chart shows where a plan flies. keep are the lines along which
// it is expected to go, which key, rose and names keep off.
func Of(p *sim.Plan, keep ...[]units.Position) (picture.Waters, error) {
	w := picture.Waters{Keep: keep, Year: p.Start.UTC().Year()}
	start := p.Aircraft.Position
	r := around(region{start.Lat.Degrees(), start.Lon.Degrees(), start.Lat.Degrees(), start.Lon.Degrees()}, 12)
	if p.Waters != "" {
		data, err := scenarios.Waters(p.Waters)
		if err != nil {
			return w, err
		}
		w.Title, w.Line = data.Title, data.Line
		w.Coasts, w.Places = coasts(data), places(data)
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

// ranks say how near one must look for the name of a kind of place.
var ranks = map[scenarios.PlaceKind]int{
	scenarios.Port: 0, scenarios.Beacon: 0, scenarios.Chain: 0,
	scenarios.Rock: 1, scenarios.Cape: 1, scenarios.Airfield: 1, scenarios.Island: 1, scenarios.Town: 1,
	scenarios.Light: 2, scenarios.Weather: 2, scenarios.Seaplane: 2,
	scenarios.Hill: 3, scenarios.Bay: 3,
}

func places(w *scenarios.WatersData) []picture.Place {
	out := make([]picture.Place, len(w.Places))
	for i, p := range w.Places {
		marked := p.Kind != scenarios.Bay && p.Kind != scenarios.Island
		out[i] = picture.Place{Name: p.Name, At: p.At, Rank: ranks[p.Kind], Mark: marked}
	}
	return out
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
