package plotting

import (
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// How long position lines are drawn, on either side.
const (
	leastHalf = 34 * units.NM
	mostHalf  = 70 * units.NM
)

// Marks is what lies on the chart.
type Marks struct {
	Lines   []picture.Line
	Fixes   []picture.Fix
	Hat     []units.Position
	Ellipse *picture.Ellipse
}

// Chart is the plot on the chart.
func (b *Book) Chart(v *aboard.View) (m Marks) {
	s, start := b.sheet, v.Clock.Add(-v.Elapsed)
	middle := units.Position(s.DR)
	if len(s.Fixes) > 0 {
		middle = s.Fixes[0].Position
	}
	for i := range s.Moved {
		m.Lines = append(m.Lines, b.lines(&s.Moved[i], middle, start)...)
	}
	for i := range s.Fixes {
		m.Fixes = append(m.Fixes, b.fix(&s.Fixes[i], start))
	}
	if len(s.Fixes) != 1 {
		return m
	}
	k := units.Length(airplot.ScaleFor(0.95))
	e := s.Fixes[0].Ellipse
	m.Ellipse = &picture.Ellipse{At: s.Fixes[0].Position, Major: k * e.Major, Minor: k * e.Minor, Bearing: e.Bearing}
	if s.Hat != nil {
		m.Hat = s.Hat.Corners[:]
	}
	return m
}

func (b *Book) fix(f *airplot.Fix, start time.Time) picture.Fix {
	s := b.sheet
	mark := picture.Fix{At: f.Position, Time: start.Add(s.At), From: s.Air}
	if len(s.Fixes) > 1 {
		mark.Which = true
	} else if s.Since > 0 {
		w := whole(s.Wind)
		mark.Found = &w
	}
	return mark
}

// lines are a line as it was taken and, if it was, as it was moved.
func (b *Book) lines(m *airplot.Moved, middle units.Position, start time.Time) (all []picture.Line) {
	t := &b.sheet.Readings[m.Reading]
	label := units.TimeText(start.Add(t.When)) + " " + m.Line.Source
	moved := m.Line.Run.Distance.NM() >= 0.05
	fresh := entryOf(t) == b.latest
	half := mostHalf
	if on, err := m.Line.Near(middle); err == nil {
		half = max(leastHalf, min(mostHalf, 1.6*geodesy.Distance(on.Point, middle)+leastHalf))
	}
	asTaken := m.Line
	asTaken.Run = airplot.Run{}
	taken, ok := drawn(asTaken, units.Position(t.Ground), half)
	if !ok {
		return nil
	}
	if !moved {
		taken.Label, taken.Fresh = label, fresh
		return []picture.Line{taken}
	}
	now, ok := drawn(m.Line, middle, half)
	if !ok {
		return []picture.Line{taken}
	}
	now.Label, now.Under, now.Transferred, now.Fresh = label, look.Textf(look.PlotMoved, look.Textf(look.HandTo, units.TimeText(start.Add(b.sheet.At)))), true, fresh
	if from, err := asTaken.Near(units.Position(t.Ground)); err == nil {
		if to, err := m.Line.Run.Forward(from.Point); err == nil {
			now.Moved = &picture.Move{From: from.Point, To: to}
		}
	}
	taken.Idle = true
	return []picture.Line{taken, now}
}

// drawn is the piece of a line near a place.
func drawn(l airplot.Line, near units.Position, half units.Length) (picture.Line, bool) {
	pts, err := l.Trace(near, half, 1)
	if err != nil {
		return picture.Line{}, false
	}
	return picture.Line{From: pts[0], To: pts[len(pts)-1]}, true
}
