package picture

import (
	"math"

	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Ellipse is where so many in a hundred fixes fall: semi-axes, and the true direction of
// the longer one.
type Ellipse struct {
	At           units.Position
	Major, Minor units.Length
	Bearing      units.Angle
}

// ellipseSides is how many sides an ellipse is drawn with.
const ellipseSides = 72

// ellipse draws the ellipse of the fix, under the lines.
func (l *layer) ellipse() {
	e := l.p.Ellipse
	if e == nil {
		return
	}
	middle := l.v.ToPixel(e.At)
	perMile := 1 / l.v.MilesPerPixel(e.At.Lat)
	sin, cos := math.Sincos(e.Bearing.Radians())
	pts := make([]paint.Point, ellipseSides)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / ellipseSides)
		a, b := e.Major.NM()*perMile*c, e.Minor.NM()*perMile*s // along and across
		pts[i] = middle.Add(a*sin+b*cos, b*sin-a*cos)
	}
	l.path.Reset().Polygon(pts...)
	l.Fill(&l.path, paint.Alpha(l.C.BrassHi, 0.35))
	l.path.Reset().Polyline(append(pts, pts[0])...)
	l.Stroke(&l.path, paint.Pen{Width: 1.8 * l.k, Dash: []float64{7 * l.k, 5 * l.k}}, l.C.Ink)
}

// hat draws the cocked hat, over the ellipse and under the lines.
func (l *layer) hat() {
	if len(l.p.Hat) < 3 {
		return
	}
	l.polygon(paint.Alpha(l.C.Land, 0.55), l.C.Ink, 2.2*l.k, l.v.ToPixels(l.p.Hat)...)
}

// moved draws the way that a line was moved.
func (l *layer) moved(m *Line) {
	if m.Moved == nil {
		return
	}
	a, z := l.v.ToPixel(m.Moved.From), l.v.ToPixel(m.Moved.To)
	d := a.Dist(z)
	if d < 14*l.k {
		return
	}
	l.dashed(a, z, 1.3*l.k, l.C.Pos, 2*l.k, 6*l.k)
	dx, dy := (z.X-a.X)/d, (z.Y-a.Y)/d
	at := func(back, aside float64) paint.Point {
		return z.Add(-back*l.k*dx-aside*l.k*dy, -back*l.k*dy+aside*l.k*dx)
	}
	l.polygon(l.C.Pos, none, 0, z, at(9, 3.5), at(9, -3.5))
}

// fresh is a band under the newest line.
func (l *layer) fresh(a, z paint.Point) {
	share := 0.60
	if l.C.Variant != 0 {
		share = 0.32
	}
	l.line(a, z, 9*l.k, paint.Alpha(l.C.BrassHi, share))
}
