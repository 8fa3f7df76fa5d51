package picture

import "stillair/gui/paint"

// Symbols of the chart, k being their size (1 at 1080 lines).

// AirCross is the air position: a plus sign.
func (b *Brush) AirCross(p paint.Point, k float64) { b.airCross(p, k, b.C.Air) }

func (b *Brush) airCross(p paint.Point, k float64, c colour) {
	b.line(p.Add(-9*k, 0), p.Add(9*k, 0), 2.6*k, c)
	b.line(p.Add(0, -9*k), p.Add(0, 9*k), 2.6*k, c)
}

// DRSquare is a DR position: a square with a dot.
func (b *Brush) DRSquare(p paint.Point, k float64) {
	b.rect(paint.R(p.X-7*k, p.Y-7*k, 14*k, 14*k), 0, b.C.Ground, b.C.Ink, 2.2*k)
	b.disc(p.X, p.Y, 2*k, b.C.Ink, none, 0)
}

// FixTriangle is a fix.
func (b *Brush) FixTriangle(p paint.Point, k float64) {
	b.polygon(b.C.Ground, b.C.Ink, 2.2*k, p.Add(0, -11*k), p.Add(10*k, 7*k), p.Add(-10*k, 7*k))
	b.disc(p.X, p.Y+0.5*k, 2.2*k, b.C.Ink, none, 0)
}

// CountersBox is where the counters were set: a brass square with a tick.
func (b *Brush) CountersBox(p paint.Point, k float64) {
	b.rect(paint.R(p.X-8*k, p.Y-8*k, 16*k, 16*k), 0, b.C.BrassHi, b.C.BrassLo, 1.6*k)
	b.roundLine(2*k, b.C.OnBrass, p.Add(-4*k, 0), p.Add(-1*k, 4*k), p.Add(5*k, -5*k))
}

// FaultDiamond is a fault: a diamond with a broken stroke.
func (b *Brush) FaultDiamond(p paint.Point, k float64) {
	b.polygon(b.C.VermFill, b.C.Verm, 2*k, p.Add(0, -11*k), p.Add(11*k, 0), p.Add(0, 11*k), p.Add(-11*k, 0))
	b.roundLine(2*k, b.C.Verm, p.Add(2*k, -6*k), p.Add(-3*k, 0.5*k), p.Add(3*k, -0.5*k), p.Add(-2*k, 6*k))
}

// TruthDiamond is the true position: a hollow diamond.
func (b *Brush) TruthDiamond(p paint.Point, k float64) {
	b.polygon(b.C.Card, b.C.Verm, 2.4*k, p.Add(0, -10*k), p.Add(10*k, 0), p.Add(0, 10*k), p.Add(-10*k, 0))
}

// NamedMark is a place with a name.
func (b *Brush) NamedMark(p paint.Point, k float64) {
	b.disc(p.X, p.Y, 5*k, b.C.Card, b.C.Ink, 1.8*k)
	b.disc(p.X, p.Y, 1.6*k, b.C.Ink, none, 0)
}

// TurningPoint is an open circle.
func (b *Brush) TurningPoint(p paint.Point, k float64) {
	b.disc(p.X, p.Y, 5.5*k, b.C.Sea, b.C.Ink, 1.5*k)
}

// Marker is the ground position: a pool of lamp light, a brass disc and an
// arrow in the direction of the heading.
func (b *Brush) Marker(p paint.Point, k, heading float64) {
	b.pool(p, k)
	b.pointer(p, k, heading)
}

// pool is the lamp light under the marker.
func (b *Brush) pool(p paint.Point, k float64) {
	for i, r := range [3]float64{poolRadius, 25, 17} {
		b.disc(p.X, p.Y, r*k, paint.Alpha(b.C.BrassHi, b.C.Pool[i]), none, 0)
	}
}

// pointer is the marker without its light.
func (b *Brush) pointer(p paint.Point, k, heading float64) {
	at := func(r float64) paint.Point { return paint.Polar(p.X, p.Y, r*k, heading) }
	shoulder := at(17)
	b.line(at(9), shoulder, 3*k, b.C.Ink)
	b.polygon(b.C.Ink, none, 0, at(26),
		paint.Polar(shoulder.X, shoulder.Y, 6.5*k, heading-90), at(19), paint.Polar(shoulder.X, shoulder.Y, 6.5*k, heading+90))
	b.disc(p.X, p.Y, 9.5*k, b.C.Brass, b.C.Ink, 2*k)
	b.disc(p.X, p.Y, 2.6*k, b.C.Ink, none, 0)
}

// Still is the mark of the program: a still-air cross in a ring on a brass
// line.
func (b *Brush) Still(p paint.Point, r float64) {
	b.path.Reset().Rect(paint.R(p.X-1.7*r, p.Y-0.16*r, 3.4*r, 0.32*r))
	b.Fill(&b.path, b.C.Brass)
	b.disc(p.X, p.Y, r, b.C.Ground, b.C.Ink, r*0.16)
	b.line(p.Add(-r/2, 0), p.Add(r/2, 0), r*0.18, b.C.Ink)
	b.line(p.Add(0, -r/2), p.Add(0, r/2), r*0.18, b.C.Ink)
}
