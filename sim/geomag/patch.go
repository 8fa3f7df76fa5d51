package geomag

import (
	"math"

	"stillair/integrator/units"
)

// The size of a cell of the grid that a Patch interpolates in.
const (
	CellDegrees = 0.1 // of latitude and of longitude
	CellHeight  = 1 * units.Kilometre

	cellsPerCircle = 3600
	lowestCell     = -10 // -10 km
	highestCell    = 100 // 101 km
)

// Patch holds the field at the corners of the one cell, 0.1 degree by 0.1
// degree by 1 km, in which it was last asked, and interpolates between them
// (trilinear, in X and Y, not in the angle). The corners belong to a fixed grid,
// so that the answer depends on the place alone, not on the way there, and does
// not step from cell to cell. The zero value is empty.
//
// Error against the evaluated field (measured over the earth up to 12 km, see
// the test): components within 0.07 nT, so that the variation is within
// 0.0002 degrees where H is above 10000 nT, 0.001 where it is above 2000 nT, and
// 0.1 nT/H radians anywhere. Where H is below 100 nT, some ten miles about a
// magnetic pole, the needle points nowhere in any case.
//
// Patch is a plain value: a copy is an independent patch. All fields are filled
// by Horizontal; they are exported for those who copy, compare or write states.
type Patch struct {
	Year  float64    // of the model; 0: empty
	Cell  [3]int32   // counts of latitude, longitude, height from 0
	North [8]float64 // X, nT; corner bits 1: upper latitude, 2: longitude, 4: height
	East  [8]float64 // Y, nT
}

// Variation returns the interpolated variation at a place, refilling the patch
// if the place lies outside its cell. Longitudes may have any size; heights are
// interpolated from -10 to 101 km and carried on linearly beyond. NaN gives NaN.
func (p *Patch) Variation(m *Model, pos units.Position, height units.Length) units.Variation {
	x, y := p.Horizontal(m, pos, height)
	return units.Variation(math.Atan2(y, x))
}

// Horizontal returns the interpolated components north and east in nanotesla.
func (p *Patch) Horizontal(m *Model, pos units.Position, height units.Length) (x, y float64) {
	const perDegree = 1 / CellDegrees
	lat, fLat := cellOf(pos.Lat.Degrees()*perDegree, -90*perDegree, 90*perDegree-1)
	lon, fLon := cellOf(units.WrapHalf(pos.Lon).Degrees()*perDegree, -180*perDegree, 180*perDegree-1)
	up, fUp := cellOf(float64(height/CellHeight), lowestCell, highestCell)
	if math.IsNaN(fLat + fLon + fUp) {
		return math.NaN(), math.NaN()
	}
	cell := [3]int32{lat, lon, up}
	if p.Year != m.year || p.Cell != cell {
		p.fill(m, cell)
	}
	return trilinear(&p.North, fLat, fLon, fUp), trilinear(&p.East, fLat, fLon, fUp)
}

// cellOf gives the cell that a coordinate in cells lies in, not outside lowest
// to highest, and the part of the cell that lies below it.
func cellOf(x, lowest, highest float64) (cell int32, part float64) {
	c := math.Max(lowest, math.Min(highest, math.Floor(x)))
	if math.IsNaN(c) {
		return 0, math.NaN()
	}
	return int32(c), x - c
}

// fill evaluates the field at the eight corners of a cell.
func (p *Patch) fill(m *Model, cell [3]int32) {
	p.Year, p.Cell = m.year, cell
	for i := range 8 {
		lat, lon, up := cell[0]+int32(i&1), cell[1]+int32(i>>1&1), cell[2]+int32(i>>2)
		if lon == cellsPerCircle/2 { // the two names of the 180th meridian
			lon = -cellsPerCircle / 2
		}
		at := units.At(float64(lat)*CellDegrees, float64(lon)*CellDegrees)
		p.North[i], p.East[i], _ = m.vector(at, units.Length(up)*CellHeight)
	}
}

// trilinear interpolates between the corners; the bits of a corner's number
// stand for the upper latitude, longitude and height.
func trilinear(v *[8]float64, fLat, fLon, fUp float64) float64 {
	return lerp(
		lerp(lerp(v[0], v[1], fLat), lerp(v[2], v[3], fLat), fLon),
		lerp(lerp(v[4], v[5], fLat), lerp(v[6], v[7], fLat), fLon), fUp)
}

// lerp is a at f = 0 and b at f = 1, exactly at both ends.
func lerp(a, b, f float64) float64 { return float64(a*(1-f)) + float64(b*f) }
