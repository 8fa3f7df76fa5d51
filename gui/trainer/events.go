package trainer

import (
	"sort"
	"time"

	"stillair/gui/drill"
	"stillair/gui/look"
	"stillair/gui/training/score"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// event is something that happened: of the trainee, of the flight, or a note.
type event struct {
	at    time.Duration
	words string
	truth bool // what the trainee does not know
}

// clock is a time of the flight.
func (v *View) clock(at time.Duration) string { return units.TimeText(v.exercise.Start.Add(at)) }

// events are all, the newest first.
func (v *View) events() []event {
	var all []event
	add := func(at time.Duration, words string, truth bool) { all = append(all, event{at, words, truth}) }
	for i := range v.book.Reports {
		r := &v.book.Reports[i]
		words := score.ReportText(r, drill.Chain(), v.exercise.Start)
		add(r.At, look.Textf(look.EventReports, words[len("0000Z "):]), false)
	}
	for _, h := range v.book.Hands {
		if h.Done {
			add(h.At, look.Text(look.EventInstrument), false)
		} else {
			add(h.At, look.Textf(look.EventByHand, h.Heading, units.SpeedText(h.TAS)), false)
		}
	}
	for i := range v.book.Lines {
		l := &v.book.Lines[i]
		words := look.Text(look.EventLine)
		if l.Remark != "" {
			words = look.Textf(look.EventLineSays, l.Remark)
		}
		add(l.Elapsed, words, false)
	}
	for _, n := range v.book.Notes {
		add(n.At, look.Textf(look.EventNote, n.Words), false)
	}
	for i := range v.moment.View.Log {
		if e := &v.moment.View.Log[i]; e.Action.Kind != 0 {
			add(e.Elapsed, actionText(&e.Action), false)
		}
	}
	if r := v.moment.Revealed; r != nil {
		for _, b := range r.Breaks {
			if b.Tick > v.moment.View.Tick {
				continue
			}
			words := look.Textf(look.EventBreaks, b.Words)
			if b.Mended {
				words = look.Textf(look.EventMended, b.Words)
			}
			add(sim.TimeOf(b.Tick), words, true)
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].at > all[j].at })
	return all
}

// actionText is what the crew did, in words.
func actionText(a *aboard.Action) string {
	switch a.Kind {
	case aboard.SetVariation:
		return look.Textf(look.EventVariation, a.Variation)
	case aboard.SetWind:
		return look.Textf(look.EventWind, a.Wind)
	case aboard.SetCounters:
		return look.Textf(look.EventCounters, a.Position)
	case aboard.AlternateStatic:
		return look.Text(look.EventStatic)
	case aboard.TakeAid:
		return look.Textf(look.EventReading, a.Reading.Aim, a.Reading.Value())
	case aboard.Resynchronise:
		return look.Text(look.EventSynchronised)
	}
	return look.Text(look.EventOther)
}
