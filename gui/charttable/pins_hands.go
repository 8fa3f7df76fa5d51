package charttable

import (
	"errors"
	"strings"
	"time"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// lineTime is how long the lines take to the true position.
const lineTime = 800 * time.Millisecond

// pinGrip is a pin in the hand: its foot keeps its place under the pointer.
type pinGrip struct {
	letter byte
	dx, dy float64 // of the foot from the pointer, device pixels
}

// tapped puts a pin, or chooses the one that is pointed at.
func (p *pins) tapped(at units.Position) bool {
	c := p.table.chart
	if !p.on || !c.fitted {
		return false
	}
	if q := p.at(c.view.ToPixel(at), c.view); q != nil {
		p.choose(q.letter)
		return true
	}
	if !p.put(at) {
		p.card.tell(p.whyNoMore(), true)
	}
	return true
}

// whyNoMore says why no pin can be put, "" if one can.
func (p *pins) whyNoMore() string {
	if why := p.locked(); why != "" {
		return why
	}
	if len(p.all) == maxPins {
		return look.Textf(look.PinsAllPut, maxPins)
	}
	return ""
}

// at is the pin whose head or foot is nearest to a place, within the reach of a
// finger; nil if there is none.
func (p *pins) at(place paint.Point, v picture.View) *pin {
	device := p.table.chart.device()
	scale := picture.PinScale(p.table.screen.Size(device))
	reach := kit.Target / 2 * device
	var best *pin
	for i := range p.all {
		foot := v.ToPixel(p.all[i].at)
		d := min(foot.Dist(place), picture.PinHead(foot, scale).Dist(place))
		if d <= reach {
			best, reach = &p.all[i], d
		}
	}
	return best
}

// Grab takes hold of a pin.
func (p *pins) Grab(place paint.Point, v picture.View) bool {
	if !p.on || p.locked() != "" {
		return false
	}
	q := p.at(place, v)
	if q == nil {
		return false
	}
	foot := v.ToPixel(q.at)
	p.grip = &pinGrip{q.letter, foot.X - place.X, foot.Y - place.Y}
	p.choose(q.letter)
	return true
}

// Drag moves the pin in the hand.
func (p *pins) Drag(to units.Position) {
	if p.grip == nil {
		return
	}
	v := p.table.chart.view
	p.move(p.grip.letter, v.FromPixel(v.ToPixel(to).Add(p.grip.dx, p.grip.dy)))
}

// Drop lets go of it.
func (p *pins) Drop() { p.grip = nil }

// another puts a pin where it can be seen, for those who use the keyboard or
// would rather drag: they stand in a row until they are moved.
func (p *pins) another() {
	c := p.table.chart
	m := c.view.Box.Centre()
	aside := (float64(len(p.all)) - (maxPins-1)/2.0) * min(48*c.device(), c.view.Box.W/(maxPins+1))
	p.put(c.view.FromPixel(m.Add(aside, 0)))
}

// toggleReveal shows the truth of this moment, or hides it again.
func (p *pins) toggleReveal() {
	if p.revealed {
		p.table.helm.Reveal(false)
		return
	}
	if p.instead != nil && p.instead() {
		return
	}
	p.table.helm.Pause()
	if laid, _ := p.table.Cloud(); laid {
		p.table.BreakCloud() // which reveals
		return
	}
	p.table.helm.Reveal(true)
}

// ask asks for the name of a pin.
func (p *pins) ask(letter byte) {
	q := p.find(letter)
	if q == nil {
		return
	}
	kit.Ask(p.table.canvas(), p.table.screen, look.Textf(look.PinAsk, string(letter)), look.Text(look.PinAskHint), q.name,
		func(name string) error {
			name = strings.Join(strings.Fields(name), " ")
			if utf8.RuneCountInString(name) > maxPinName {
				return errors.New(look.Textf(look.PinNameLong, maxPinName))
			}
			p.name(letter, name)
			return nil
		})
}

// PinKeys are what the help sheet tells of PinDeeds: all of them, at any time.
func (t *Table) PinKeys() []kit.Deed {
	return []kit.Deed{
		{Label: "A to H", Does: look.DoPinChoose},
		{Label: "\u2190 \u2191 \u2192 \u2193", Does: look.DoPinMove},
		{Label: "Delete", Does: look.DoPinRemove},
	}
}

// PinDeeds are those of PinKeys that can be done now; while pins can be put they
// come before those of the view and of the window.
func (t *Table) PinDeeds() []kit.Deed {
	p := t.pins
	if !p.on {
		return nil
	}
	all := t.PinKeys()
	choose, move, remove := &all[0], &all[1], &all[2]
	for _, q := range p.all {
		choose.Keys = append(choose.Keys, fyne.KeyName(q.letter))
	}
	choose.Do = func(k fyne.KeyName) { p.choose(k[0]) }
	if p.find(p.held) != nil && p.locked() == "" {
		move.Keys = []fyne.KeyName{fyne.KeyUp, fyne.KeyRight, fyne.KeyDown, fyne.KeyLeft}
		move.Do = func(k fyne.KeyName) { p.shift(courseOf(k), stride(shiftHeld())) }
		remove.Keys = []fyne.KeyName{fyne.KeyDelete, fyne.KeyBackspace}
		remove.Do = func(fyne.KeyName) { p.remove(p.held) }
	}
	return all
}

// courseOf is the way an arrow points on the chart.
func courseOf(arrow fyne.KeyName) units.Angle {
	switch arrow {
	case fyne.KeyRight:
		return 90 * units.Degree
	case fyne.KeyDown:
		return 180 * units.Degree
	case fyne.KeyLeft:
		return 270 * units.Degree
	}
	return 0
}

// stride is how far an arrow key moves a pin.
func stride(far bool) units.Length {
	if far {
		return 10 * units.NM
	}
	return units.NM
}

// shiftHeld says whether the shift key is down; a driver without a keyboard
// has none.
func shiftHeld() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}

// maxPinName is the longest name of a pin, characters.
const maxPinName = 24
