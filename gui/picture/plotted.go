package picture

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Waypoint is a turning point of the required track.
type Waypoint struct {
	At    units.Position
	Label string // "B 1018Z"; "" for none and, at the first point, no circle
}

// Fix is a fix on the chart.
type Fix struct {
	At   units.Position
	Time time.Time
	// From and Found are the air position at that time and the wind found from
	// it; Found nil: none was worked.
	From  units.AirPosition
	Found *units.Wind
	Which bool // one of two
}

// Line is a position line.
type Line struct {
	From, To    units.Position // its drawn ends
	Label       string         // "1012 Gannet Rock", written at To
	Transferred bool
	Source      *units.Position // the mark it was taken of: a dotted line leads back
	Under       string          // a second line of the label: "moved to 1030Z"
	Moved       *Move           // how it was moved along the DR track
	Fresh       bool            // the newest one
	Idle        bool            // taken, and not used
}

// Move is the way along which a position line was moved.
type Move struct{ From, To units.Position }

// Truth is the true track and position, for those who may see it.
type Truth struct {
	Track    []units.Position
	Position units.Position
}

// Plot is what the crew drew and where the marker stands. Marks may be the
// slice of an aboard.View as it is.
type Plot struct {
	Start    time.Time // of the flight: mark times count from it
	Required []Waypoint
	Marks    []aboard.Mark
	Fixes    []Fix
	Lines    []Line
	Hat      []units.Position // the corners of a cocked hat
	Ellipse  *Ellipse
	Truth    *Truth

	Clock   time.Time
	Heading units.TrueHeading
	Air     units.AirPosition
	Ground  units.GroundPosition // where air position and wind lead
	Marker  units.GroundPosition // where the marker stands

	// Held, handed in with each frame, keeps labels from jumping; nil in a
	// single picture.
	Held *Held
}

// PlotOf takes from a view what the chart shows of it.
func PlotOf(v *aboard.View) Plot {
	return Plot{
		Start: v.Clock.Add(-v.Elapsed), Marks: v.Marks,
		Clock: v.Clock, Heading: v.Heading, Air: v.Air, Ground: v.Ground, Marker: v.Marker,
	}
}

// Positions are all positions of the plot, to be fitted into a view.
func (p *Plot) Positions() []units.Position {
	var out []units.Position
	for _, w := range p.Required {
		out = append(out, w.At)
	}
	for _, m := range p.Marks {
		out = append(out, units.Position(m.Air), units.Position(m.Ground))
	}
	out = append(out, units.Position(p.Air), units.Position(p.Marker))
	if p.Truth != nil {
		out = append(out, p.Truth.Position)
	}
	return out
}

// Tracks are the lines of the plot as they run now, wind included, for
// Waters.Keep.
func (p *Plot) Tracks() [][]units.Position {
	var out [][]units.Position
	for _, s := range p.stretches() {
		out = append(out, s.air, s.ground, []units.Position{s.air[len(s.air)-1], s.ground[len(s.ground)-1]})
	}
	return out
}

// stretch is a run of marks between two settings of the counters, and where
// legs begin in it (indices of its points).
type stretch struct {
	air, ground []units.Position
	legs        []int
	end         aboard.Mark // the last mark before the counters were set anew
}

// stretches cuts the marks where the counters were set; the last stretch ends
// at the present.
func (p *Plot) stretches() []stretch {
	var out []stretch
	var s stretch
	add := func(m aboard.Mark) {
		if m.Event == aboard.LegBegun && len(s.air) > 0 {
			s.legs = append(s.legs, len(s.air))
		}
		s.air, s.ground = append(s.air, units.Position(m.Air)), append(s.ground, units.Position(m.Ground))
		s.end = m
	}
	for i, m := range p.Marks {
		if m.Event == aboard.CountersSet && i > 0 && m.Elapsed > 0 {
			out = append(out, s)
			s = stretch{}
		}
		add(m)
	}
	add(aboard.Mark{Elapsed: p.Clock.Sub(p.Start), Air: p.Air, Ground: p.Ground})
	return append(out, s)
}

// Rows are the rows of the key that explain this plot.
func (p *Plot) Rows() []KeyRow {
	var rows []KeyRow
	add := func(when bool, r KeyRow) {
		if when {
			rows = append(rows, r)
		}
	}
	found := false
	for _, f := range p.Fixes {
		found = found || f.Found != nil
	}
	transferred, taken := false, false
	for _, m := range p.Lines {
		transferred, taken = transferred || m.Transferred, taken || !m.Transferred
	}
	add(len(p.Required) > 1, RowRequired)
	rows = append(rows, RowAirPlot, RowGround)
	add(!found, RowWind)
	add(found, RowWinds)
	rows = append(rows, RowSymbols, RowMarker)
	add(taken, RowPosition)
	add(transferred, RowTransferred)
	add(p.Truth != nil, RowTruth)
	return rows
}
