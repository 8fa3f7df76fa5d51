package atlas

import (
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
	"stillair/sim"
)

// cell is the size of a cell on which the lines of an overlay are found, pixels.
const cell = 14

// WindowOf is the piece of the chart that a view shows, a little more on each side,
// in cells that suit its pixels.
func WindowOf(v picture.View) overlay.Window {
	const more = 2 * cell
	box := v.Box.Inset(-more)
	a, z := v.FromPixel(paint.Pt(box.X, box.Bottom())), v.FromPixel(paint.Pt(box.Right(), box.Y))
	half := units.Angle(box.W/2/v.Scale) * units.Degree
	half = min(half, 180*units.Degree)
	return overlay.Window{
		South: max(a.Lat, -overlay.Steepest), North: min(z.Lat, overlay.Steepest),
		West: v.Centre.Lon - half, East: v.Centre.Lon + half,
		Columns: max(8, int(box.W/cell)), Rows: max(8, int(box.H/cell)),
	}
}

// perMile is how many pixels a mile has in the middle of a view.
func perMile(v picture.View) float64 { return 1 / v.MilesPerPixel(v.Centre.Lat) }

// AltitudeStep is the step of star curves that suits a view.
func AltitudeStep(v picture.View) float64 { return overlay.AltitudeStep(perMile(v)) }

// LatticeStep is the step of the lattice that suits a view.
func LatticeStep(v picture.View) float64 {
	const milesPerMicrosecond = 0.0809 // on the baseline (navigation note, 5.2)
	return overlay.LatticeStep(perMile(v) * milesPerMicrosecond)
}

// ChainOf are the stations of the pulse chain in the waters of a flight, M, A and
// B; ok is false where there are not three.
func ChainOf(p *sim.Plan) (stations [3]sim.Station, ok bool) {
	n := 0
	for _, s := range p.Stations {
		if s.Kind == sim.ChainStation && n < len(stations) {
			stations[n] = s
			n++
		}
	}
	return stations, n == len(stations)
}

// AltitudeText writes an altitude of so many minutes of arc: 42°22.5′, whole
// minutes without a tenth where whole is asked for.
func AltitudeText(minutes float64, whole bool) string {
	decimals := 1
	if whole {
		decimals = 0
	}
	return units.AltitudePlate(units.Angle(minutes)*units.ArcMinute, decimals)
}

// DelayText writes a time difference, without its unit.
func DelayText(us float64) string { return units.Figure(us, 1) }

// StarOverlay is how star curves are printed.
func StarOverlay(o overlay.StarOrder, s *overlay.StarSheet) *picture.Overlay {
	out := &picture.Overlay{AtEdge: true}
	for i, f := range s.Curve {
		out.Inks[i] = inkOf(f, func(level float64) string { return AltitudeText(level, true) })
		out.Inks[i].Later = s.Later[i]
		if o.Read[i].Known {
			out.Inks[i].Plate = f.Name + " " + AltitudeText(o.Read[i].Value, false)
		}
	}
	out.Crossings = crossings(overlay.Likely(o.Near, s.Fixes), units.TimeText(o.Time))
	if len(s.Fixes) > 0 {
		out.Going = going(o, s)
	}
	return out
}

func inkOf(f overlay.Family, plate func(float64) string) (ink picture.Ink) {
	for _, c := range f.Curves {
		ink.Curves = append(ink.Curves, picture.InkCurve{Weight: int(c.Weight), Plate: plate(c.Level), Lines: c.Lines})
	}
	ink.Read = f.Read
	return ink
}

// crossings are the fixes: each asks which, if there is more than one.
func crossings(fixes []airplot.Fix, when string) (all []picture.Crossing) {
	for _, f := range fixes {
		c := picture.Crossing{At: f.Position, Words: []string{look.Textf(look.FixAt, when), f.Position.String()}}
		if len(fixes) > 1 {
			c.Open, c.Words[0] = true, look.Text(look.WhichFix)
		}
		all = append(all, c)
	}
	return all
}

// going is the arrow from the curve of the first star to its dots, some way south
// of the fix where it is clear of it.
func going(o overlay.StarOrder, s *overlay.StarSheet) *picture.Going {
	at := s.Fixes[0].Position
	below := at.Lat - (o.Window.North-o.Window.South)/5
	for _, line := range s.Curve[0].Read {
		for k := 1; k < len(line); k++ {
			a, b := line[k-1], line[k]
			if (a.Lat-below)*(b.Lat-below) > 0 || a.Lat == b.Lat {
				continue
			}
			from := units.Position{Lat: below, Lon: a.Lon + (b.Lon-a.Lon)*(below-a.Lat)/(b.Lat-a.Lat)}
			to := from
			to.Lon -= overlay.Turning(overlay.Ahead)
			return &picture.Going{From: from, To: to, Words: [2]string{
				look.Text(look.CurvesGoWest),
				look.Textf(look.CurvesRate, units.DistanceText(s.Drift), units.TimeText(o.Time.Add(overlay.Ahead))),
			}}
		}
	}
	return nil
}

// LatticeOverlay is how the lattice is printed.
func LatticeOverlay(o overlay.LatticeOrder, s *overlay.LatticeSheet, when string) *picture.Overlay {
	out := &picture.Overlay{
		Weak:      s.Weak,
		Stations:  []picture.Station{{Letter: "M", At: o.Master}, {Letter: "A", At: o.A}, {Letter: "B", At: o.B}},
		Baselines: [][2]units.Position{{o.Master, o.A}, {o.Master, o.B}},
	}
	for i, f := range s.Curve {
		out.Inks[i] = inkOf(f, func(level float64) string { return units.Figure(level, 0) })
		if o.Read[i].Known {
			out.Inks[i].Plate = f.Name + " " + DelayText(o.Read[i].Value)
		}
	}
	out.Crossings = crossings(overlay.Likely(o.Near, s.Fixes), when)
	return out
}
