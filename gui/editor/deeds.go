package editor

import (
	"strconv"
	"strings"

	"stillair/gui/drafting"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/scenarios/edit"
)

func (v *View) undo() {
	v.draft.Undo()
	v.tell(nil)
	v.changed()
}

func (v *View) redo() {
	v.draft.Redo()
	v.tell(nil)
	v.changed()
}

// add adds what the tab holds.
func (v *View) add() {
	switch v.tab {
	case drafting.RouteTab:
		v.adding = !v.adding
		v.tell(nil)
		v.apply()
	case drafting.WeatherTab:
		v.addWind(drafting.AddLevel)
	case drafting.EventsTab:
		v.pick(look.EditorPickAction, drafting.NewActions(v.draft), drafting.AddAction)
	}
}

// addSecond adds the other thing that the tab holds.
func (v *View) addSecond() {
	if v.tab == drafting.WeatherTab {
		v.addWind(drafting.AddTime)
		return
	}
	v.pick(look.EditorPickFault, drafting.NewFaults(v.draft), drafting.AddFault)
}

// addMoment names a time of the flight.
func (v *View) addMoment() {
	made, err := drafting.AddMoment(v.draft)
	v.tell(err)
	if err == nil {
		v.choose(made)
		return
	}
	v.apply()
}

func (v *View) addWind(by func(*edit.Draft, string) ([]edit.Change, string, error)) {
	changes, made, err := by(v.draft, v.open)
	v.do(changes, err)
	if !v.bad {
		v.choose(made)
	}
}

// pick has an action or a fault chosen and added.
func (v *View) pick(title look.Key, picks []drafting.Pick, add func(*edit.Draft, string) (string, error)) {
	v.ask(look.Text(title), picks, func(value string) error {
		made, err := add(v.draft, value)
		if err == nil {
			v.open = made
		}
		return err
	})
}

// ask has something chosen of a list.
func (v *View) ask(title string, picks []drafting.Pick, take func(string) error) {
	v.picking, v.first = &picking{v.first, v.list.marked, title, picks, take}, 0
	v.list.marked = 0
	v.apply()
}

// back shuts the list of choices.
func (v *View) back() {
	v.unpick()
	v.apply()
}

// unpick goes back to the rows, where they stood.
func (v *View) unpick() {
	if v.picking == nil {
		return
	}
	v.first, v.list.marked = v.picking.first, v.picking.marked
	v.picking = nil
}

// remove takes away the table that is open.
func (v *View) remove() {
	if v.open == "" {
		return
	}
	if v.tab == drafting.RouteTab {
		n := v.leg()
		v.open = ""
		v.do(drafting.RemoveLeg(v.draft, n))
		return
	}
	gone := v.open
	v.open = ""
	v.do([]edit.Change{edit.Remove(gone)}, nil)
}

// leg is the number of the leg that is open, 0 if none is.
func (v *View) leg() int {
	n, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(v.open, "leg["), "]"))
	if !strings.HasPrefix(v.open, "leg[") {
		return 0
	}
	return n
}

// choose opens a table and brings its head in sight; the one that is open is shut.
func (v *View) choose(item string) {
	v.open = item
	v.changed()
	v.reveal(item)
	v.apply()
}

// reveal scrolls until the rows of a table are in sight.
func (v *View) reveal(item string) {
	if item == "" {
		return
	}
	for i, r := range v.rows {
		if r.Kind != drafting.HeadRow || r.Item != item {
			continue
		}
		end := i + 1
		for end < len(v.rows) && v.rows[end].Kind == drafting.ValueRow {
			end++
		}
		v.list.marked = i
		v.first = min(i, max(v.first, end-v.list.room()))
		return
	}
}

// touch does what a row is for.
func (v *View) touch(i int) {
	if p := v.picking; p != nil {
		if i >= len(p.picks) || p.picks[i].Title {
			return
		}
		open := v.open
		err := p.take(p.picks[i].Value)
		v.unpick()
		v.tell(err)
		v.changed()
		if v.open != open { // something was added
			v.reveal(v.open)
		}
		v.apply()
		return
	}
	if i >= len(v.rows) {
		return
	}
	v.list.marked = i
	r := v.rows[i]
	switch {
	case r.Kind == drafting.HeadRow && r.Item == v.open:
		v.choose("")
	case r.Kind == drafting.HeadRow:
		v.choose(r.Item)
	case r.Kind == drafting.TitleRow:
	case r.Picks != nil:
		v.ask(r.Label, r.Picks, func(value string) error { return r.Take(v.draft, value) })
	default:
		check := func(text string) error { return r.Check(v.draft, text) }
		take := func(text string) error {
			err := r.Take(v.draft, text)
			if err == nil {
				v.tell(nil)
				v.changed()
			}
			return err
		}
		kit.Question{Title: r.Label, Hint: r.Hint, Now: r.Now, Check: check, Take: take}.Ask(v.canvas(), v.screen)
	}
}
