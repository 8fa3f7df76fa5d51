// Package conduct is the course of an exhibit, without toolkit, clock, file or engine:
// touches, keys and the passing of time go in; what is to be shown and what the crew is
// to do come out.
//
//	Attract -> Playing (-> broken -> mended) -> Cloud -> Parting -> Result -> Playing
//	   ^          |  nobody touched it for the idle time                       |
//	   +----------+------------------------------------------------------------+
//	Attract <-> Shut (outside the opening hours)
//	any -> Keeper (held sequence) -> Test, Wiping, leave
//
// Time: now is that of a clock which only goes on (time since the program began), for
// all that lasts; wall is the clock on the wall, for opening hours and the day of the
// counts alone. A wall clock that is plainly wrong keeps nothing shut.
//
// Notation: headings and directions in whole degrees true, speeds in knots, lengths in
// sea miles.
package conduct

import "time"

// Stage is what the machine is at.
type Stage uint8

// The stages.
const (
	Attract Stage = iota
	Trouble       // what is wrong with the exhibit file, for the keeper, for a while
	Playing
	Cloud   // flying to the landing in cloud
	Parting // the cloud opens
	Result
	Keeper // the keeper's page
	Test   // every square of the screen is to be touched
	Wiping
	Shut
	stages
)

// String is the name of the stage, for reports.
func (s Stage) String() string {
	return [...]string{"attract", "trouble", "playing", "cloud", "parting", "result", "keeper", "test", "wiping", "shut"}[s]
}

// How long things last.
const (
	WipeFor    = time.Minute
	troubleFor = 30 * time.Second
	partFor    = 1200 * time.Millisecond
	sentenceIn = 9 * time.Second // the next sentence of the round comes
	plainly    = 2024            // years before it no clock can be right: the program was not there
)

// Target is what a touch meets.
type Target uint8

// The targets. Those of languages are First + index.
const (
	Nothing Target = iota
	Anywhere
	SteerLess
	SteerMore
	SteerRim
	SpeedLess
	SpeedMore
	SpeedSlide
	WindLess
	WindMore
	WindRim
	BreakKey
	InsideKey
	LandKey
	LargerKey
	AgainKey
	KeeperTest
	KeeperWipe
	KeeperBack
	KeeperLeave
	FirstLanguage
)

// MostLanguages is how many languages may be offered.
const MostLanguages = 6

// Repeats says whether a target acts again and again while a finger stays on it.
func (t Target) Repeats() bool {
	switch t {
	case SteerLess, SteerMore, SpeedLess, SpeedMore, WindLess, WindMore:
		return true
	}
	return false
}

// Drags says whether a target follows the finger.
func (t Target) Drags() bool { return t == SteerRim || t == SpeedSlide || t == WindRim }

// Dial is what a knob turns.
type Dial uint8

// The dials.
const (
	Heading Dial = iota
	Speed
	WindSpeed
	WindFrom
	dials
)

// Bounds of the dials.
const (
	SlowestKt, FastestKt = 90, 300
	StrongestKt          = 80
)
