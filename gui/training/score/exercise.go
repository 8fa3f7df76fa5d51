package score

import (
	"time"

	"stillair/integrator/units"
)

// Exercise is what is asked of a trainee and how it is marked.
type Exercise struct {
	Title string
	Start time.Time // of the flight, UTC
	Task  string    // what the trainee is told
	Finds string    // what there is to be found; told after landing
	// Sealed: the faults were drawn by Seed, and nobody knows them before landing.
	Sealed bool
	Seed   uint64
	Criteria
}

// Criteria are by what it is marked.
type Criteria struct {
	ReportWithin time.Duration // from the onset
	Hold         units.Length  // how far off the position may be
	LogEvery     time.Duration
	Weights      Weights
}

// Weights are the marks that can be had for each criterion.
type Weights [criteria]float64

// Criterion is one of those of the package comment.
type Criterion uint8

// The criteria.
const (
	Detection Criterion = iota
	Link
	Fault
	Position
	Log
	criteria = 5
)

// Usual are the criteria of an exercise that states none.
var Usual = Criteria{
	ReportWithin: 10 * time.Minute, Hold: 5 * units.NM, LogEvery: 10 * time.Minute,
	Weights: Weights{25, 15, 20, 25, 15},
}

// Chain is what a trainee may suspect: the links in order, each with its faults. It is the
// whole catalogue, so it says nothing of this flight.
type Chain []ChainLink

// ChainLink is one link.
type ChainLink struct {
	Name, Title string
	Kinds       []Kind
}

// Kind is a fault that a link may have.
type Kind struct{ ID, Title string }

// Title is what a link and a fault of it are called; the name itself where there is none.
func (c Chain) Title(link, fault string) (linkTitle, faultTitle string) {
	linkTitle, faultTitle = link, fault
	for _, l := range c {
		if l.Name != link {
			continue
		}
		linkTitle = l.Title
		for _, k := range l.Kinds {
			if k.ID == fault {
				faultTitle = k.Title
			}
		}
	}
	return linkTitle, faultTitle
}
