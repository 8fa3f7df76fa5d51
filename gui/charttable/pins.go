package charttable

import (
	"slices"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// maxPins is how many pins a chart takes, A to H.
const maxPins = 8

// pin is where a group in the audience believes the aircraft to be.
type pin struct {
	letter byte
	name   string
	at     units.Position
	off    leg // from the true position, once that may be seen
}

// leg is a rhumb line between two positions as they are printed.
type leg struct {
	miles   units.Length
	bearing units.Angle
}

// pins ask where the aircraft really is: they are put on the chart while the
// truth is hidden, and measured against it when it is revealed. Until then they
// know nothing but the ground position shown.
type pins struct {
	table *Table
	on    bool  // they can be put and moved, and their card is open
	all   []pin // by letter, while the truth is hidden; then by miles off
	made  int   // how often they have changed
	held  byte  // letter of the one that the keyboard moves; 0: none

	revealed bool        // the truth was to be seen at the last moment
	instead  func() bool // shows the truth in another way, and says whether it did; nil: it does not
	answer   *pinsAnswer // nil while there is nothing to measure by
	drawn    float64     // how much of the lines to the true position is drawn

	grip *pinGrip
	file pinFile
	card *pinCard
}

// pinsAnswer is what the reveal told; it stays until the truth is hidden again,
// for the pins were put for that moment.
type pinsAnswer struct {
	truth  units.Position
	time   string
	ground leg // how far off the ground position shown was
}

func newPins(t *Table) *pins {
	p := &pins{table: t, file: pinFile{name: pinFileName()}}
	p.card = newPinCard(p)
	t.chart.overlay(p.draw)
	t.chart.onTap(p.tapped)
	t.chart.onGrab(p)
	p.show()
	return p
}

// PinMode opens or shuts the card on which pins are listed; while it is open a
// tap on the chart puts a pin. The clock stops, for the question is about one
// moment. The pins stay where they are when it is shut.
func (t *Table) PinMode(on bool) {
	p := t.pins
	if on == p.on {
		return
	}
	if on {
		t.clearColumn()
	}
	p.on = on
	if on && t.moment.Playing {
		t.helm.Pause()
	}
	p.changed()
	t.tray.apply()
	t.content.Refresh()
}

// PinsOn says whether pins can be put.
func (t *Table) PinsOn() bool { return t.pins.on }

// locked says why pins cannot be changed, "" if they can.
func (p *pins) locked() string {
	if p.revealed {
		return look.Text(look.PinsLocked)
	}
	return ""
}

// find is a pin by its letter, nil if there is none.
func (p *pins) find(letter byte) *pin {
	i := slices.IndexFunc(p.all, func(q pin) bool { return q.letter == letter })
	if i < 0 {
		return nil
	}
	return &p.all[i]
}

// put puts the next pin and chooses it; false if there is none left.
func (p *pins) put(at units.Position) bool {
	if p.locked() != "" || len(p.all) == maxPins {
		return false
	}
	letter := byte('A')
	for p.find(letter) != nil {
		letter++
	}
	p.all = append(p.all, pin{letter: letter, at: at})
	p.sort()
	p.held = letter
	p.changed()
	return true
}

func (p *pins) move(letter byte, to units.Position) {
	if q := p.find(letter); q != nil && p.locked() == "" {
		q.at = to
		p.changed()
	}
}

// shift moves the pin that is held along a rhumb line.
func (p *pins) shift(course units.Angle, by units.Length) {
	q := p.find(p.held)
	if q == nil {
		return
	}
	if to, err := geodesy.RhumbDirect(q.at, course, by); err == nil { // not over a pole
		p.move(p.held, to)
	}
}

func (p *pins) remove(letter byte) {
	if p.locked() != "" {
		return
	}
	p.all = slices.DeleteFunc(p.all, func(q pin) bool { return q.letter == letter })
	if p.held == letter {
		p.held = 0
	}
	p.changed()
}

func (p *pins) clear() {
	p.all, p.held, p.answer = nil, 0, nil
	p.changed()
}

func (p *pins) choose(letter byte) {
	p.held = letter
	p.changed()
}

func (p *pins) name(letter byte, name string) {
	if q := p.find(letter); q != nil {
		q.name = name
		p.changed()
	}
}

// sort puts the pins in order: by letter, or by miles off once they are known.
func (p *pins) sort() {
	slices.SortStableFunc(p.all, func(a, b pin) int {
		if p.answer != nil && a.off.miles != b.off.miles {
			if a.off.miles < b.off.miles {
				return -1
			}
			return 1
		}
		return int(a.letter) - int(b.letter)
	})
}

// apply sees whether the truth has been revealed or hidden since.
func (p *pins) apply(m *helm.Moment) {
	switch now := m.Revealed != nil; {
	case now && !p.revealed:
		p.revealed = true
		p.reveal(m)
	case !now && p.revealed:
		p.revealed, p.answer, p.drawn = false, nil, 0
		p.sort()
		p.changed()
	}
	p.show()
}

// reveal measures the pins, keeps them for the handout and lets the lines run.
func (p *pins) reveal(m *helm.Moment) {
	if len(p.all) == 0 {
		p.changed()
		return
	}
	if m.Playing {
		p.table.helm.Pause()
	}
	truth := m.Revealed.Now.Truth.Position
	p.answer = &pinsAnswer{truth: truth, time: units.TimeText(m.View.Clock), ground: between(truth, units.Position(m.View.Marker))}
	for i := range p.all {
		p.all[i].off = between(truth, p.all[i].at)
	}
	p.sort()
	rows := rowsOf(p.table.plan, m.View.Clock, p.all)
	p.table.away(func() { p.file.keep(rows, p.table.screen.Later, p.card.tell) })
	p.run()
	p.changed()
}

// between is the rhumb line from one position to another, both as printed.
func between(a, b units.Position) leg {
	course, miles := geodesy.RhumbInverse(a.Printed(), b.Printed())
	return leg{miles, course}
}

// run lets the lines run to the true position.
func (p *pins) run() {
	if p.table.screen.ReducedMotion {
		p.drawn = 1
		return
	}
	p.drawn = 0
	answer := p.answer
	run := fyne.NewAnimation(lineTime, func(part float32) {
		if p.answer == answer {
			p.drawn = float64(part)
			p.table.chart.Repaint()
		}
	})
	run.Curve = fyne.AnimationEaseInOut
	run.Start()
}

// changed paints what shows pins.
func (p *pins) changed() {
	p.made++
	p.table.chart.Repaint()
	p.show()
	p.table.tellDrawn()
}

// picture is how the pins are drawn; on paper none is chosen.
func (p *pins) picture(paper bool) picture.Pins {
	out := picture.Pins{Drawn: p.drawn, Title: look.Text(look.PinsSheet)}
	if paper {
		out.Drawn = 1
	}
	for i := range p.all {
		q := &p.all[i]
		out.All = append(out.All, picture.Pin{
			Letter: string(q.letter), Name: q.name, At: q.at, Words: p.distance(q),
			Chosen: !paper && p.on && q.letter == p.held && p.locked() == "",
		})
	}
	if laid, broken := p.table.Cloud(); p.answer != nil && (paper || !laid || broken) { // a whole cloud covers the truth
		out.To, out.Title = &p.answer.truth, look.Textf(look.PinsSheetTruth, p.answer.time)
	}
	return out
}

func (p *pins) draw(b *picture.Brush, v picture.View) { picture.DrawPins(b, v, p.picture(false)) }

// beside is the room that the labels of the plot have beside the pins.
func (p *pins) beside(room *picture.Room, z look.Size) *picture.Room {
	return p.picture(false).Beside(room, p.table.chart.view, z)
}
