// Package chain knows what the view of the opened mechanism tells: the value
// that stands at each link, its law with the numbers of the moment, how it
// stands to the truth, and the words of a walk along it. It has no toolkit and
// no clock: a Story goes in, texts and numbers come out.
//
//	qc   impact pressure, pitot less static
//	M    Mach number; a the speed of sound, kt or m/s
//	TAS  true airspeed
//	sec  secant, 1 / cosine
//
// Errors are what stands there less what would stand there if every link were
// in order; north, east and long are positive. In SI units pressures are in kPa,
// speeds in m/s, lengths in km; angles, headings and the speed of turning of
// the counters (minutes of arc an hour) stay as they are, for an angle has one
// unit in the trade and in the classroom.
package chain

import (
	"stillair/gui/picture"
	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/sim"
)

// Story is all that is known at one moment. Truth and Faults are nil while the
// truth is hidden: then no link is judged.
type Story struct {
	View      *aboard.View
	Now       sim.Works
	Truth     *sim.Works
	Faults    []sim.FaultStatus
	Mechanism integrator.Config
	Held      sim.Hands // inputs held by hand; the zero value holds none
	Fast, SI  bool
}

// Card is what is told of one link.
type Card struct {
	Title, What string
	Law         []string // its law, step by step, with the numbers of the moment
	Error       string   // "" where it agrees or may not be judged
	Faults      []string // ids of the catalogue: what may break there
}

// Step is one link of an error that is followed, and a sentence on it.
type Step struct {
	Link  picture.Link
	Words string
}

// Verdict is how one link stands to the truth.
type Verdict struct {
	Stands picture.Standing
	Flag   string    // of a broken one, in plain words
	Wrong  [2]string // of its error plate; "" for none
}

// inputs are the links whose motion or value a link takes up. Each stands
// before it in the order of the links, so that one pass along them suffices.
var inputs = [picture.LinkCount][]picture.Link{
	picture.LinkCapsules:     {picture.LinkPitot, picture.LinkStatic},
	picture.LinkAirLog:       {picture.LinkCapsules, picture.LinkStatic},
	picture.LinkCounter:      {picture.LinkAirLog},
	picture.LinkDrive:        {picture.LinkAirLog},
	picture.LinkDeviation:    {picture.LinkCompass},
	picture.LinkVariation:    {picture.LinkDeviation},
	picture.LinkRepeater:     {picture.LinkVariation},
	picture.LinkResolver:     {picture.LinkRepeater},
	picture.LinkNorthDisc:    {picture.LinkDrive, picture.LinkResolver},
	picture.LinkEastDisc:     {picture.LinkDrive, picture.LinkResolver},
	picture.LinkLatitude:     {picture.LinkNorthDisc},
	picture.LinkSecant:       {picture.LinkLatitude, picture.LinkEastDisc},
	picture.LinkLongitude:    {picture.LinkSecant},
	picture.LinkWind:         {picture.LinkClock},
	picture.LinkAdders:       {picture.LinkNorthDisc, picture.LinkEastDisc, picture.LinkWind},
	picture.LinkGroundSecant: {picture.LinkAdders},
	picture.LinkGround:       {picture.LinkAdders, picture.LinkGroundSecant},
	picture.LinkMarker:       {picture.LinkGround},
}

// Walk gives all links in the order in which a lecturer walks along them: the
// air, the heading, the two together, the wind. A longitude is told after the
// latitude that it needs.
func Walk() []picture.Link {
	return []picture.Link{
		picture.LinkPitot, picture.LinkStatic, picture.LinkCapsules, picture.LinkAirLog, picture.LinkCounter, picture.LinkDrive,
		picture.LinkCompass, picture.LinkDeviation, picture.LinkVariation, picture.LinkRepeater, picture.LinkResolver,
		picture.LinkNorthDisc, picture.LinkEastDisc, picture.LinkLatitude, picture.LinkSecant, picture.LinkLongitude,
		picture.LinkClock, picture.LinkWind, picture.LinkAdders, picture.LinkGroundSecant, picture.LinkGround, picture.LinkMarker,
	}
}
