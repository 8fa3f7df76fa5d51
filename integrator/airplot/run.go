package airplot

import (
	"math"
	"time"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Run is a movement over the ground along a rhumb line, from the time of a
// reading to the time for which it is wanted. A negative distance brings a
// later reading back. The zero value is no movement.
type Run struct {
	Track    units.Angle
	Distance units.Length
}

// RunOver is the run at a track and groundspeed for some time.
func RunOver(track units.Angle, groundspeed units.Speed, elapsed time.Duration) Run {
	return Run{track, over(groundspeed, elapsed)}
}

// over is the distance run at a speed.
func over(v units.Speed, elapsed time.Duration) units.Length {
	return units.Length(v.MetresPerSecond() * elapsed.Seconds())
}

// RunByAirPlot is the run between two air positions of one air plot while a
// wind blew: the rhumb line from the first one to the second one moved
// downwind.
func RunByAirPlot(from, to units.AirPosition, wind units.Wind, elapsed time.Duration) (Run, error) {
	end, err := DRPosition(to, wind, elapsed)
	if err != nil {
		return Run{}, err
	}
	track, distance := geodesy.RhumbInverse(units.Position(from), units.Position(end))
	return Run{track, distance}, nil
}

// Forward is where the run from p ends, on WGS-84.
func (r Run) Forward(p units.Position) (units.Position, error) {
	if r.Distance == 0 {
		return p, nil
	}
	return geodesy.RhumbDirect(p, r.Track, r.Distance)
}

// back is where a run that ended at p began; NaN if it would cross a pole.
func (r Run) back(p units.Position) units.Position {
	q, err := Run{r.Track, -r.Distance}.Forward(p)
	if err != nil {
		return nowhere
	}
	return q
}

var nowhere = units.Position{Lat: units.Angle(math.NaN()), Lon: units.Angle(math.NaN())}

// backByArc is back on the sphere of one minute to the mile; NaN beyond a pole.
func (r Run) backByArc(p units.Position) units.Position {
	if r.Distance == 0 {
		return p
	}
	s, c := math.Sincos(r.Track.Radians())
	arc := -r.Distance.NM() * float64(units.ArcMinute)
	phi := p.Lat.Radians()
	dPhi := arc * c
	if math.Abs(phi+dPhi) > math.Pi/2 {
		return nowhere
	}
	return units.Position{
		Lat: units.Angle(phi + dPhi),
		Lon: units.WrapHalf(p.Lon + units.Angle(arc*s/stretch(phi, dPhi))),
	}
}

// stretch is the mean cosine of the latitudes that a rhumb line on a sphere
// runs through: dPhi/dPsi, psi the isometric latitude atanh(sin phi). With D the
// difference of the sines, dPsi = atanh(D/(1 - sin phi1 sin phi2)).
func stretch(phi, dPhi float64) float64 {
	if math.Abs(dPhi) < 1e-12 {
		return math.Cos(phi)
	}
	d := 2 * math.Cos(phi+dPhi/2) * math.Sin(dPhi/2)
	return dPhi / math.Atanh(d/(1-math.Sin(phi)*math.Sin(phi+dPhi)))
}
