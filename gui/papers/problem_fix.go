package papers

import (
	"errors"
	"math"

	"stillair/gui/look"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// What a fix from two bearings is set with: near enough that half the convergency
// stays within the tolerance of a plotted line, far enough to be worth plotting.
const (
	nearest  = 12 * units.NM
	farthest = 45 * units.NM
	leastCut = 35.0 // degrees
	tries    = 60
)

// sighted is a station, and its bearing from a place to the whole degree.
type sighted struct {
	name     string
	at       units.Position
	bearing  int
	distance units.Length
}

// fixProblem: a fix from the true bearings of two stations.
func fixProblem(l *lot, a *area) (problem, error) {
	for range tries {
		place := a.place(l)
		pair, ok := a.pair(l, place)
		if !ok {
			continue
		}
		if one, err := twoBearings(l, place, pair); err == nil {
			return one, nil
		}
	}
	for range tries { // no two stations in reach: there are two buoys
		place := a.place(l)
		if one, err := twoBearings(l, place, buoys(l, place)); err == nil {
			return one, nil
		}
	}
	return problem{}, errors.New("no fix can be set about this flight")
}

// pair picks two stations whose bearings cut well.
func (a *area) pair(l *lot, place units.Position) (pair [2]sighted, ok bool) {
	var seen []sighted
	for _, s := range a.stations {
		if b, ok := sightOf(place, s); ok {
			seen = append(seen, b)
		}
	}
	var all [][2]sighted
	for i, p := range seen {
		for _, q := range seen[i+1:] {
			if cutOf(p, q) >= leastCut {
				all = append(all, [2]sighted{p, q})
			}
		}
	}
	if len(all) == 0 {
		return pair, false
	}
	return all[l.whole(0, len(all)-1, 1)], true
}

// sightOf is a station as it is seen, if it is in reach.
func sightOf(place units.Position, s sim.Station) (sighted, bool) {
	at := s.At.Printed()
	azimuth, _, d := geodesy.GeodesicInverse(place, at)
	return sighted{s.Name, at, int(math.Round(azimuth.Degrees())) % 360, d}, d >= nearest && d <= farthest
}

// cutOf is the angle at which two bearings cut, degrees up to 90.
func cutOf(p, q sighted) float64 {
	a := math.Abs(units.WrapHalfDegrees(float64(p.bearing - q.bearing)))
	return min(a, 180-a)
}

// buoys are two marks of no name where the waters have none.
func buoys(l *lot, place units.Position) [2]sighted {
	first := l.whole(0, 359, 1)
	buoy := func(name look.Key, bearing int) sighted {
		at, _ := geodesy.GeodesicDirect(place, degrees(bearing), units.Length(l.uniform(15, 40))*units.NM)
		s, _ := sightOf(place, sim.Station{Name: look.Text(name), At: at})
		return s
	}
	return [2]sighted{buoy(look.PaperBuoyA, first), buoy(look.PaperBuoyB, (first+l.whole(45, 135, 1))%360)}
}

// twoBearings is the problem and its key: the place where both bearings, as
// printed, would be read.
func twoBearings(l *lot, place units.Position, pair [2]sighted) (problem, error) {
	dr, _ := geodesy.GeodesicDirect(place, degrees(l.whole(0, 359, 1)), units.Length(l.uniform(3, 8))*units.NM)
	dr = dr.Printed()
	var lines []airplot.Line
	given := []fact{{look.PaperDRPosition, "", dr.String()}}
	spread := 0.0 // NM, of both pencil lines at the fix
	for _, s := range pair {
		lines = append(lines, airplot.Line{Locus: airplot.Bearing{Station: s.at, Bearing: degrees(s.bearing), Sigma: 1 * units.Degree}})
		given = append(given, fact{look.PaperBearingOf, s.name, units.TrueText(degrees(s.bearing))}, fact{look.PaperStationAt, s.name, s.at.String()})
		spread = math.Hypot(spread, s.distance.NM()*math.Sin(pencil*math.Pi/180))
	}
	fixes, err := airplot.Solve(dr, lines)
	if err != nil {
		return problem{}, err
	}
	off := max(plotTolerance, math.Ceil(2*spread/math.Sin(cutOf(pair[0], pair[1])*math.Pi/180))/2)
	return problem{
		title: look.PaperTwoBearings, ask: look.PaperTwoBearingsAsk, given: given,
		answers: []answer{{look.PaperFixWord, fixes[0].Position.String(), units.Figure(off, 1)}},
	}, nil
}
