// Package drill joins an exercise of the window to its marks: it reads the exercise of a
// plan, gives the chain that may be suspected, and takes from the engine's side what was
// so. It stands between package score, which knows no engine, and those who may see the
// truth; it knows no toolkit. The trainee's window does not import it.
package drill

import (
	"sync"

	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/training/score"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
	"stillair/sim/sealed"
)

// ExerciseOf is the exercise of a plan; of a flight that is none, one by the usual
// criteria, with nothing told.
func ExerciseOf(p *sim.Plan) score.Exercise {
	x := score.Exercise{Title: p.Title, Start: p.Start.UTC(), Criteria: score.Usual}
	e := p.Exercise
	if e == nil {
		return x
	}
	x.Task, x.Finds, x.Sealed, x.Seed = e.Task, e.Finds, e.Sealed, e.Seed
	if e.ReportWithin > 0 {
		x.ReportWithin = sim.TimeOf(e.ReportWithin)
	}
	if e.LogEvery > 0 {
		x.LogEvery = sim.TimeOf(e.LogEvery)
	}
	if e.Hold > 0 {
		x.Hold = e.Hold
	}
	if e.Marks != ([5]float64{}) {
		x.Weights = score.Weights(e.Marks)
	}
	return x
}

// links are those of the catalogue, in the order of the chain, with their words.
var links = []struct {
	name string
	word look.Key
}{
	{"air data", look.LinkAirData}, {"drive", look.LinkDrive}, {"heading", look.LinkHeading},
	{"resolver", look.LinkResolver}, {"latitude-longitude", look.LinkTrains}, {"ground", look.LinkGround},
	{"crew", look.LinkCrew},
}

// Chain is what may be suspected: the whole catalogue but for explanations.
var Chain = sync.OnceValue(func() (c score.Chain) {
	for _, l := range links {
		link := score.ChainLink{Name: l.name, Title: look.Text(l.word)}
		for _, e := range fault.Catalogue() {
			if e.Link == l.name && e.Refusal() == "" {
				link.Kinds = append(link.Kinds, score.Kind{ID: e.ID, Title: look.Capital(e.Title)})
			}
		}
		c = append(c, link)
	}
	return c
})

// FlownOf is what was so up to now, of the truth of a moment.
func FlownOf(v *aboard.View, track []sim.TruePoint, faults []sim.FaultStatus, over bool) *score.Flown {
	f := &score.Flown{Until: v.Elapsed, Ended: over, Log: v.Log}
	for i := range v.Marks {
		f.Shown = append(f.Shown, score.Point{At: v.Marks[i].Elapsed, Position: units.Position(v.Marks[i].Ground)})
	}
	for i := range track {
		f.True = append(f.True, score.Point{At: sim.TimeOf(track[i].Tick), Position: track[i].Ground})
	}
	for _, s := range faults {
		if s.Onset > v.Tick || s.Ends < s.Onset {
			continue
		}
		f.Faults = append(f.Faults, cameOf(&s))
	}
	sortByOnset(f.Faults)
	return f
}

func cameOf(s *sim.FaultStatus) score.Came {
	c := score.Came{ID: s.Order.ID, Title: s.Order.ID, Onset: sim.TimeOf(s.Onset)}
	e, ok := fault.Lookup(s.Order.ID)
	if !ok {
		return c
	}
	c.Link, c.Title = e.Link, e.Title
	for _, a := range e.Text().Alike {
		c.Alike = append(c.Alike, a.ID)
	}
	return c
}

func sortByOnset(all []score.Came) {
	for i := range all {
		for k := i; k > 0 && all[k].Onset < all[k-1].Onset; k-- {
			all[k], all[k-1] = all[k-1], all[k]
		}
	}
}

// Sheet marks what has been flown; nil while the truth is hidden.
func Sheet(x score.Exercise, b *score.Book, m *helm.Moment) *score.Sheet {
	if m.Revealed == nil {
		return nil
	}
	return score.Work(x, b, FlownOf(&m.View, m.Revealed.Track, m.Revealed.Faults, m.Over))
}

// Random draws a fault by a seed for the flight as it is planned, to come so many ticks
// after now at the earliest.
func Random(p *sim.Plan, seed uint64, now int64) (fault.Order, error) {
	orders, err := sealed.Draw(p, seed)
	if err != nil {
		return fault.Order{}, err
	}
	o := orders[0]
	o.At = max(o.At, now)
	return o, nil
}
