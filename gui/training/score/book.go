package score

import (
	"slices"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// Report is what a trainee suspects at a time of the flight.
type Report struct {
	At    time.Duration
	Link  string
	Fault string // "": the link alone
	Sure  bool
}

// Hand is the manual air plot from a time on: the position is carried on from a place by
// heading, true airspeed and wind as the trainee has them. Done: back to the instrument.
type Hand struct {
	At      time.Duration
	From    units.Position
	Heading units.TrueHeading
	TAS     units.Speed
	Wind    units.Wind
	Done    bool
}

// Position is the DR position at a time: a rhumb line along the track made good.
func (h *Hand) Position(at time.Duration) units.Position {
	track, groundspeed := airplot.TrackMade(h.Heading, h.TAS, h.Wind)
	p, err := airplot.NewDR(units.GroundPosition(h.From), track, groundspeed, at-h.At)
	if err != nil { // over a pole: it stays where it was begun
		return h.From
	}
	return units.Position(p)
}

// Line is a line that the trainee wrote into the log: the dials as they stood, and a
// remark.
type Line struct {
	aboard.Entry
	Remark string
}

// Note is what a trainer wrote down.
type Note struct {
	At    time.Duration
	Words string
}

// Book is what trainee and trainer have written during a flight. All lists are by time.
type Book struct {
	Reports []Report
	Hands   []Hand
	Lines   []Line
	Notes   []Note // of the trainer; the trainee's window does not show them
	Changes int    // how often it has been written in
}

// Report adds what is suspected.
func (b *Book) Report(r Report) {
	b.Reports = append(b.Reports, r)
	b.Changes++
}

// Plot goes on by hand, or back to the instrument.
func (b *Book) Plot(h Hand) {
	b.Hands = append(b.Hands, h)
	b.Changes++
}

// Write writes a line of the log from what the dials show.
func (b *Book) Write(v *aboard.View, remark string) {
	b.Lines = append(b.Lines, Line{EntryOf(v), remark})
	b.Changes++
}

// Note adds a trainer's note.
func (b *Book) Note(at time.Duration, words string) {
	b.Notes = append(b.Notes, Note{at, words})
	b.Changes++
}

// EntryOf are the dials as a line of the log.
func EntryOf(v *aboard.View) aboard.Entry {
	return aboard.Entry{
		Elapsed: v.Elapsed, Event: aboard.Sample, Heading: v.Heading, Variation: v.VariationSet,
		Magnetic: units.MagneticHeading(units.Wrap(units.Angle(v.Heading) - units.Angle(v.VariationSet))),
		TAS:      v.TAS, IAS: v.IAS, Height: v.PressureAltitude, OAT: v.AirTemperature, Wind: v.WindSet,
		AirMiles: v.AirLog, Air: v.Air, Ground: v.Ground,
	}
}

// TakeBack forgets all that was written after a time: the flight is flown again from
// there.
func (b *Book) TakeBack(to time.Duration) {
	before := len(b.Reports) + len(b.Hands) + len(b.Lines) + len(b.Notes)
	b.Reports = slices.DeleteFunc(slices.Clone(b.Reports), func(r Report) bool { return r.At > to })
	b.Hands = slices.DeleteFunc(slices.Clone(b.Hands), func(h Hand) bool { return h.At > to })
	b.Lines = slices.DeleteFunc(slices.Clone(b.Lines), func(l Line) bool { return l.Elapsed > to })
	b.Notes = slices.DeleteFunc(slices.Clone(b.Notes), func(n Note) bool { return n.At > to })
	if before != len(b.Reports)+len(b.Hands)+len(b.Lines)+len(b.Notes) {
		b.Changes++
	}
}

// ByHand is the manual air plot in use at a time, nil if the trainee goes by the
// instrument.
func (b *Book) ByHand(at time.Duration) *Hand {
	var h *Hand
	for i := range b.Hands {
		if b.Hands[i].At <= at {
			h = &b.Hands[i]
		}
	}
	if h != nil && h.Done {
		return nil
	}
	return h
}
