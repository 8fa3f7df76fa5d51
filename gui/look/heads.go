package look

import "image/color"

// Line is how one kind of line is drawn on the chart: the convention of the
// trade for vectors is told by the number of heads (one for heading and air
// distance, two for a track over the ground, three for wind). Services differ:
// this table is the one place to change it, and every chart carries a key.
type Line struct {
	Colour func(*Palette) color.NRGBA
	Width  float64   // pixels, scale 1
	Heads  int       // along the line
	Head   float64   // length of a head, pixels
	Dash   []float64 // pixels
}

// LineKind is a kind of line on the chart.
type LineKind uint8

// The kinds.
const (
	RequiredTrack LineKind = iota
	AirPlot
	GroundTrack
	DRTrack
	WindSet
	WindFound
	TrueTrack
	PositionLine
	lineKinds
)

// Lines is the table of conventions.
var Lines = [lineKinds]Line{
	RequiredTrack: {Colour: func(p *Palette) color.NRGBA { c := p.Ink; c.A = 191; return c }, Width: 1.1},
	AirPlot:       {Colour: func(p *Palette) color.NRGBA { return p.Air }, Width: 2.4, Heads: 1, Head: 12},
	GroundTrack:   {Colour: func(p *Palette) color.NRGBA { return p.Ink }, Width: 3, Heads: 2, Head: 13},
	DRTrack:       {Colour: func(p *Palette) color.NRGBA { return p.Ink2 }, Width: 2, Heads: 2, Head: 11, Dash: []float64{10, 4}},
	WindSet:       {Colour: func(p *Palette) color.NRGBA { return p.Wind }, Width: 2.6, Heads: 3, Head: 12},
	WindFound:     {Colour: func(p *Palette) color.NRGBA { return p.Wind }, Width: 2.4, Heads: 3, Head: 11, Dash: []float64{7, 5}},
	TrueTrack:     {Colour: func(p *Palette) color.NRGBA { return p.Verm }, Width: 2.4, Dash: []float64{9, 6}},
	PositionLine:  {Colour: func(p *Palette) color.NRGBA { return p.Pos }, Width: 1.8, Head: 9},
}
