package picture

import (
	"math"

	"stillair/gui/paint"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// View is a window onto the Mercator chart.
type View struct {
	Centre units.Position
	Scale  float64    // pixels to a degree of longitude
	Box    paint.Rect // where the chart lies on the surface, inside its frame
}

// The limits of a view: the whole circle fits the box, a minute is no longer
// than maxMinute pixels, and the middle stays short of the poles.
const (
	maxMinute  = 600
	maxLatDeg  = 84
	degPerPsi  = 180 / math.Pi
	fitPadding = 48 // pixels round what was fitted, at 1080 lines
)

// spot is a position made ready for projection: degrees of longitude and
// degrees of isometric latitude.
type spot struct{ lon, psi float64 }

func spotOf(p units.Position) spot {
	return spot{p.Lon.Degrees(), geodesy.IsometricLatitude(p.Lat) * degPerPsi}
}

func (v View) spot() spot { return spotOf(v.Centre) }

// place projects a spot whose longitude already lies near the centre's.
func (v View) place(c, s spot) paint.Point {
	m := v.Box.Centre()
	return paint.Pt(m.X+(s.lon-c.lon)*v.Scale, m.Y-(s.psi-c.psi)*v.Scale)
}

// near turns the longitude by whole circles until it is within 180 degrees of
// the reference.
func near(lon, ref float64) float64 { return ref + units.WrapHalfDegrees(lon-ref) }

// ToPixel is the place of a position, by the shorter way round from the centre.
func (v View) ToPixel(p units.Position) paint.Point {
	c, s := v.spot(), spotOf(p)
	s.lon = near(s.lon, c.lon)
	return v.place(c, s)
}

// FromPixel is the position at a place, its longitude in [-180, 180).
func (v View) FromPixel(p paint.Point) units.Position {
	m := v.Box.Centre()
	c := v.spot()
	psi := c.psi - (p.Y-m.Y)/v.Scale
	return units.Position{
		Lat: geodesy.LatitudeOfIsometric(psi / degPerPsi),
		Lon: units.WrapHalf(v.Centre.Lon + units.Angle((p.X-m.X)/v.Scale)*units.Degree),
	}
}

// ToPixels projects a line, unbroken across 180: each point is taken on the
// side nearer to the one before, the first nearer to the centre.
func (v View) ToPixels(line []units.Position) []paint.Point {
	out := make([]paint.Point, len(line))
	c := v.spot()
	ref := c.lon
	for i, p := range line {
		s := spotOf(p)
		s.lon = near(s.lon, ref)
		ref = s.lon
		out[i] = v.place(c, s)
	}
	return out
}

// MilesPerPixel is the length of a pixel at a latitude.
func (v View) MilesPerPixel(lat units.Angle) float64 { return milesToDegree(lat) / v.Scale }

// Shift moves the chart under the window by so many pixels, as a hand drags it.
func (v View) Shift(dx, dy float64) View {
	m := v.Box.Centre()
	v.Centre = v.FromPixel(paint.Pt(m.X-dx, m.Y-dy))
	return v.limit()
}

// ZoomAt enlarges by the factor; what lies under p stays there.
func (v View) ZoomAt(p paint.Point, factor float64) View {
	held := v.FromPixel(p)
	v.Scale *= factor
	v = v.limit()
	q := v.ToPixel(held)
	return v.Shift(p.X-q.X, p.Y-q.Y)
}

// WithBox is the same piece of chart in a box of another size.
func (v View) WithBox(box paint.Rect) View {
	if v.Box.W > 0 && v.Box.H > 0 && box.W > 0 && box.H > 0 {
		v.Scale *= math.Min(box.W/v.Box.W, box.H/v.Box.H)
	}
	v.Box = box
	return v.limit()
}

func (v View) limit() View {
	v.Scale = math.Max(v.Box.W/360, math.Min(v.Scale, maxMinute*60))
	if top := maxLatDeg * units.Degree; v.Centre.Lat > top {
		v.Centre.Lat = top
	} else if v.Centre.Lat < -top {
		v.Centre.Lat = -top
	}
	v.Centre.Lon = units.WrapHalf(v.Centre.Lon)
	return v
}

// Fit is the view in which all positions show with some room round them, pad
// in pixels. The span of longitudes is the narrowest that holds them all, so
// that a flight across 180 is not shown the long way round. Without positions
// it is a view of the middle of the South Pacific.
func Fit(box paint.Rect, pad float64, positions ...units.Position) View {
	const least = 0.5 // a single place is shown with its surroundings
	return fit(box, pad, least, positions...)
}

// fit is Fit with the least span of the view, degrees.
func fit(box paint.Rect, pad, least float64, positions ...units.Position) View {
	v := View{Centre: units.At(-47, 180), Scale: 240, Box: box}
	if len(positions) == 0 {
		return v.limit()
	}
	lo, hi := spotOf(positions[0]), spotOf(positions[0])
	ref := lo.lon
	for _, p := range positions[1:] {
		s := spotOf(p)
		s.lon = near(s.lon, ref)
		ref = s.lon
		lo.lon, hi.lon = math.Min(lo.lon, s.lon), math.Max(hi.lon, s.lon)
		lo.psi, hi.psi = math.Min(lo.psi, s.psi), math.Max(hi.psi, s.psi)
	}
	v.Centre = units.Position{
		Lat: geodesy.LatitudeOfIsometric((lo.psi + hi.psi) / 2 / degPerPsi),
		Lon: units.Angle((lo.lon+hi.lon)/2) * units.Degree,
	}
	room := paint.R(0, 0, math.Max(1, box.W-2*pad), math.Max(1, box.H-2*pad))
	v.Scale = math.Min(room.W/math.Max(least, hi.lon-lo.lon), room.H/math.Max(least, hi.psi-lo.psi))
	return v.limit()
}

// Over is where what was drawn on a surface of w by h pixels in an old view lies in
// this one, moved and stretched.
func (v View) Over(old View, w, h float64) paint.Rect {
	if old == v {
		return paint.R(0, 0, w, h)
	}
	k := v.Scale / old.Scale
	at, m := v.ToPixel(old.Centre), old.Box.Centre()
	return paint.R(at.X-m.X*k, at.Y-m.Y*k, w*k, h*k)
}
