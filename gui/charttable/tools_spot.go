package charttable

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator/units"
)

// toolSpot lies over a grip of a tool, so that the keyboard can reach and move it; the
// pointer drags the grip through it.
type toolSpot struct {
	*kit.Spot
	tools *tools
	tool  tool
	grip  grip
}

func newToolSpot(s *tools, which tool, g grip) *toolSpot {
	p := &toolSpot{Spot: &kit.Spot{}, tools: s, tool: which, grip: g}
	p.Press = func() {
		if which == rule {
			s.rulePencil()
		}
	}
	p.Point = func(tell func(fyne.CanvasObject, string)) { tell(p, p.Spoken()) }
	p.Extend(p, s.table.screen)
	p.Hide()
	return p
}

// Spoken is what the tool says and how it is moved.
func (p *toolSpot) Spoken() string {
	return p.tool.name() + ": " + p.tools.say(p.tool) + ".\n" + look.Text(look.ToolHow)
}

// ways are the directions of the arrows.
var ways = map[fyne.KeyName]units.Angle{
	fyne.KeyUp: 0, fyne.KeyRight: 90 * units.Degree, fyne.KeyDown: 180 * units.Degree, fyne.KeyLeft: 270 * units.Degree,
}

// TypedKey moves the grip by a mile.
func (p *toolSpot) TypedKey(e *fyne.KeyEvent) {
	if way, ok := ways[e.Name]; ok {
		p.tools.shift(p.tool, p.grip, way, units.NM)
		p.Point(p.tools.table.screen.Hints.Tell)
		return
	}
	p.Spot.TypedKey(e)
}

// spotWide is the size of a spot, units: less than the reach of a finger, which the
// chart gives.
const spotWide = 32

// place puts the spots over their grips.
func (s *tools) place() {
	c := s.table.chart
	for _, p := range s.spots {
		seen := s.laid[p.tool] && c.fitted && s.table.standing != StageAlone
		if seen {
			at := s.at(p.tool, p.grip, c.view)
			seen = c.view.Box.Contains(at)
			k := c.device()
			x, y := float32(at.X/k)+c.Position().X, float32(at.Y/k)+c.Position().Y
			box{x - spotWide/2, y - spotWide/2, spotWide, spotWide}.put(p)
		}
		show(seen, p)
	}
}

func (s *tools) objects() (all []fyne.CanvasObject) {
	for _, p := range s.spots {
		all = append(all, p)
	}
	return all
}
