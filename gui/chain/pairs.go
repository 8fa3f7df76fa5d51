package chain

import (
	"math"

	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// tell writes what a link passes on: "178.0 kt", "048T", "47 26.3 S". It serves
// what stands there and what ought to stand there alike.
func (s *Story) tell(of picture.Link, w *sim.Works) string {
	switch of {
	case picture.LinkPitot:
		return s.pressureText(w.Pitot)
	case picture.LinkStatic:
		return s.pressureText(w.Static)
	case picture.LinkCapsules:
		p := s.pressure()
		return p.with(p.as(s.pa(w.Pitot)) - p.as(s.pa(w.Static)))
	case picture.LinkAirLog:
		return s.speedText(w.TAS)
	case picture.LinkCounter:
		return s.lengthText(w.AirMiles)
	case picture.LinkDrive:
		return s.speedText(w.Drive)
	case picture.LinkCompass:
		return units.CompassText(units.Angle(w.Compass))
	case picture.LinkDeviation:
		return w.Compass.String()
	case picture.LinkVariation:
		return variationText(w.Setter)
	case picture.LinkRepeater, picture.LinkResolver:
		return w.Heading.String()
	case picture.LinkNorthDisc:
		return s.speedToward(w.NorthRate, "N", "S")
	case picture.LinkEastDisc:
		return s.speedToward(w.EastRate, "E", "W")
	}
	return s.tellGround(of, w)
}

func (s *Story) tellGround(of picture.Link, w *sim.Works) string {
	switch of {
	case picture.LinkLatitude:
		return units.LatitudeText(w.Air.Lat)
	case picture.LinkSecant:
		return ratioText(w.Secant)
	case picture.LinkLongitude:
		return units.LongitudeText(w.Air.Lon)
	case picture.LinkClock:
		return units.Figure(w.WindRun/60, 1) + " min"
	case picture.LinkWind:
		return s.windText(w.Wind)
	case picture.LinkAdders:
		return s.speedText(units.Speed(math.Hypot(float64(w.GroundNorth), float64(w.GroundEast))))
	case picture.LinkGroundSecant:
		return ratioText(w.GroundSecant)
	case picture.LinkGround:
		return w.Ground.String()
	case picture.LinkMarker:
		return w.Marker.String()
	}
	return ""
}

// speedToward writes a speed with the letter of its side: "119.1 kt N".
func (s *Story) speedToward(v units.Speed, plus, minus string) string {
	x := s.speed().as(s.v(v))
	if x < 0 {
		return s.speed().with(-x) + " " + minus
	}
	return s.speed().with(x) + " " + plus
}
