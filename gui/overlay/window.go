package overlay

import (
	"math"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// Window is the piece of the Mercator chart that lines are wanted for, and how
// finely: West <= East, which may run on over 180 or 360 degrees.
type Window struct {
	South, North  units.Angle
	West, East    units.Angle
	Columns, Rows int // of the grid the lines are found on
}

// Steepest is the latitude beyond which no window reaches: the chart of a pole
// has no end.
const Steepest = 85 * units.Degree

// usable says whether there is anything in the window.
func (w Window) usable() bool {
	return w.Columns > 0 && w.Rows > 0 && w.East > w.West && w.North > w.South &&
		w.North <= Steepest && w.South >= -Steepest
}

// Line is a line on the earth; longitudes run on over 180.
type Line = []units.Position

// grid is the value at the corners of the cells, row by row from the south.
type grid struct {
	Window
	psi  []float64 // isometric latitude of the rows, radians
	at   func(units.Position) float64
	v    []float64
	near float64 // how near a crossing is found, in the unit of the value
}

// gridOf works the corners.
func gridOf(w Window, near float64, at func(units.Position) float64) *grid {
	g := &grid{Window: w, at: at, near: near, v: make([]float64, (w.Columns+1)*(w.Rows+1)), psi: make([]float64, w.Rows+1)}
	low, high := geodesy.IsometricLatitude(w.South), geodesy.IsometricLatitude(w.North)
	for j := range g.psi {
		g.psi[j] = low + (high-low)*float64(j)/float64(w.Rows)
		for i := range w.Columns + 1 {
			g.v[j*(w.Columns+1)+i] = at(g.place(float64(i), float64(j)))
		}
	}
	return g
}

// place is where column x and row y lie, parts of a cell allowed.
func (g *grid) place(x, y float64) units.Position {
	j := min(int(y), g.Rows-1)
	psi := g.psi[j] + (g.psi[j+1]-g.psi[j])*(y-float64(j))
	return units.Position{
		Lat: geodesy.LatitudeOfIsometric(psi),
		Lon: g.West + (g.East-g.West)*units.Angle(x/float64(g.Columns)),
	}
}

func (g *grid) value(i, j int) float64 { return g.v[j*(g.Columns+1)+i] }

// span is the least and greatest value at the corners.
func (g *grid) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range g.v {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

// levels are the multiples of a step between two limits that the grid has.
func (g *grid) levels(step, least, most float64) (all []float64) {
	low, high := g.span()
	low, high = math.Max(low, least), math.Min(high, most)
	for k := math.Ceil(low / step); k*step <= high; k++ {
		all = append(all, k*step)
	}
	return all
}
