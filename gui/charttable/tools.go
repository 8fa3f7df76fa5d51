package charttable

import (
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/plotting"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// tool is one of the tools for plotting by hand.
type tool uint8

const (
	rule tool = iota
	protractor
	dividers
	toolCount
)

// grip is what of a tool is held.
type grip uint8

const (
	first  grip = iota // A, or the middle of the protractor
	second             // B, or its arm
	hinge              // of the dividers: both feet
	noGrip
)

// tools are rule, protractor and dividers, laid on the chart and dragged there, and
// the pencil lines that the rule leaves. They measure along rhumb lines, as those of
// a navigator do on Mercator's chart, and know nothing but where they lie.
type tools struct {
	table  *Table
	laid   [toolCount]bool
	ends   [toolCount][2]units.Position
	placed [toolCount]bool
	held   tool
	grip   grip
	aside  paint.Point // of what is held from the pointer, device pixels
	pencil plotting.Pencil
	shown  []plotting.Checked // how far apart they lie is drawn
	chosen int                // the line that is meant; 0: none
	made   int                // how often something was done with the pencil
	plate  paint.Rect         // of the rule, as drawn last
	words  []paint.Rect       // of the pencil lines
	spots  []*toolSpot
}

func newTools(t *Table) *tools {
	s := &tools{table: t, grip: noGrip}
	t.chart.overlay(s.draw)
	t.chart.onTap(s.tapped)
	t.chart.onGrab(s)
	for _, h := range []struct {
		tool tool
		grip grip
	}{{rule, first}, {rule, second}, {protractor, first}, {protractor, second}, {dividers, first}, {dividers, second}, {dividers, hinge}} {
		s.spots = append(s.spots, newToolSpot(s, h.tool, h.grip))
	}
	return s
}

// layTool lays a tool on the chart, or takes it off. It lies where it was before, if
// that is still to be seen.
func (t *Table) layTool(which tool) {
	s := t.tools
	s.laid[which] = !s.laid[which]
	if s.laid[which] {
		s.bring(which)
	}
	t.tray.apply()
	s.place()
	t.chart.Repaint()
	t.tellDrawn()
}

// bring puts a tool that is out of sight in the middle of the chart.
func (s *tools) bring(which tool) {
	c := s.table.chart
	v := c.view
	if s.placed[which] {
		for _, p := range s.ends[which] {
			if v.Box.Contains(v.ToPixel(p)) {
				return
			}
		}
	}
	// apart from one another: the rule above, the protractor at the left, the dividers
	// at the right, in parts of the chart
	at := [toolCount][4]float64{rule: {0.36, 0.32, 0.68, 0.26}, protractor: {0.28, 0.62, 0.42, 0.5}, dividers: {0.56, 0.72, 0.74, 0.68}}[which]
	for i := range s.ends[which] {
		s.ends[which][i] = v.FromPixel(paint.Pt(v.Box.X+at[2*i]*v.Box.W, v.Box.Y+at[2*i+1]*v.Box.H))
	}
	s.placed[which] = true
}

// at is where a grip of a tool is on the chart.
func (s *tools) at(which tool, g grip, v picture.View) paint.Point {
	pts := v.ToPixels(s.ends[which][:])
	if g == hinge {
		return picture.Hinge(pts[0], pts[1], s.scale())
	}
	return pts[g]
}

func (s *tools) scale() float64 {
	return s.table.screen.Size(s.table.chart.device()).Symbol()
}

// grips are how many grips a tool has.
func grips(which tool) grip {
	if which == dividers {
		return hinge
	}
	return second
}

// Grab takes hold of the nearest grip within reach.
func (s *tools) Grab(p paint.Point, v picture.View) bool {
	reach := kit.Target / 2 * s.table.chart.device()
	s.grip = noGrip
	for which := range toolCount {
		if !s.laid[which] {
			continue
		}
		for g := first; g <= grips(which); g++ {
			at := s.at(which, g, v)
			if d := at.Dist(p); d < reach {
				reach, s.held, s.grip = d, which, g
				s.aside = paint.Pt(at.X-p.X, at.Y-p.Y)
			}
		}
	}
	return s.grip != noGrip
}

// Drag moves what is held.
func (s *tools) Drag(to units.Position) {
	if s.grip == noGrip {
		return
	}
	v := s.table.chart.view
	s.move(s.held, s.grip, v.ToPixel(to).Add(s.aside.X, s.aside.Y), v)
}

// move puts a grip to a place on the chart. The hinge of the dividers and the middle
// of the protractor take all with them: on paper, so that an opening carried north or
// south is another number of miles.
func (s *tools) move(which tool, g grip, to paint.Point, v picture.View) {
	ends := &s.ends[which]
	pts := v.ToPixels(ends[:])
	from := s.at(which, g, v)
	dx, dy := to.X-from.X, to.Y-from.Y
	whole := g == hinge || which == protractor && g == first
	for i := range pts {
		if whole || grip(i) == g {
			ends[i] = v.FromPixel(pts[i].Add(dx, dy))
		}
	}
	s.place()
}

// Drop lets go.
func (s *tools) Drop() { s.grip = noGrip }

// say is what a tool says.
func (s *tools) say(which tool) string {
	a, b := s.ends[which][0], s.ends[which][1]
	course, distance := picture.Ruled(a, b)
	switch which {
	case rule:
		return units.TrueText(course) + "  " + units.DistanceText(distance)
	case dividers:
		return units.DistanceText(distance)
	}
	magnetic := units.TrueHeading(course).Magnetic(s.table.moment.View.VariationSet)
	return units.TrueText(course) + "  " + magnetic.String()
}

func (s *tools) draw(b *picture.Brush, v picture.View) {
	s.words = s.words[:0]
	for _, p := range s.drawn() {
		s.words = append(s.words, picture.DrawPencil(b, v, p, s.table.chart.left))
	}
	for i := range s.shown {
		picture.DrawApart(b, v, s.shown[i].Worked, s.shown[i].Hand)
	}
	e := &s.ends
	if s.laid[protractor] {
		picture.DrawProtractor(b, v, picture.Protractor{At: e[protractor][0], Arm: e[protractor][1], Words: s.say(protractor)})
	}
	if s.laid[rule] {
		s.plate = picture.DrawRule(b, v, picture.Rule{A: e[rule][0], B: e[rule][1], Words: s.say(rule)})
	}
	if s.laid[dividers] {
		picture.DrawDividers(b, v, picture.Dividers{A: e[dividers][0], B: e[dividers][1], Words: s.say(dividers)})
	}
}

// tapped draws a line along the rule where its plate is touched, and rubs one out
// where its words are.
func (s *tools) tapped(at units.Position) bool {
	p := s.table.chart.view.ToPixel(at)
	if s.laid[rule] && s.plate.Contains(p) {
		s.rulePencil()
		return true
	}
	for i, q := range s.words {
		if lines := s.pencil.Lines(); i < len(lines) && q.Inset(-6*s.table.chart.device()).Contains(p) {
			s.rubOut(lines[i].ID)
			return true
		}
	}
	return false
}

// rulePencil draws a line along the rule, or rubs out the one that lies there.
func (s *tools) rulePencil() {
	line := airplot.PencilLine{From: s.ends[rule][0], To: s.ends[rule][1]}
	if id := s.pencil.At(line); id != 0 {
		s.rubOut(id)
		return
	}
	s.pencil.Draw(line, s.perMillimetre(line), s.say(rule))
	s.changed()
}

// unitsPerMillimetre are those of the window, of which there are 96 to an inch.
const unitsPerMillimetre = 96 / 25.4

// perMillimetre is how much of the earth is a millimetre of the chart beside a line.
func (s *tools) perMillimetre(l airplot.PencilLine) units.Length {
	c := s.table.chart
	miles := c.view.MilesPerPixel((l.From.Lat + l.To.Lat) / 2)
	return units.Length(miles*c.device()*unitsPerMillimetre) * units.NM
}

// shift moves a grip along a rhumb line, for the keyboard.
func (s *tools) shift(which tool, g grip, course units.Angle, by units.Length) {
	v := s.table.chart.view
	at := v.FromPixel(s.at(which, g, v))
	if to, err := geodesy.RhumbDirect(at, course, by); err == nil {
		s.move(which, g, v.ToPixel(to), v)
		s.table.chart.Repaint()
	}
}

// name is what a tool is called.
func (which tool) name() string {
	return look.Text([toolCount]look.Key{look.TrayRule, look.TrayProtractor, look.TrayDividers}[which])
}
