package sim

import (
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Lesson is one guided step; the engine only carries it.
type Lesson struct {
	Title, Text string
	Light       []string // of LightNames: what to look at, in this order
	View        LessonView
	Start       LessonStart
	Do          string // what to do, in words; "" for a step that is only read
	Until       Goal   // by what it is known to be done
	Hint        string
	HintAfter   time.Duration // on the wall clock
	Note        string        // for the lecturer alone
	Question    *Question     // nil: none is asked
	Predict     *Prediction   // nil: no pin is wanted
}

// LessonView is what stands over the time strip during a step.
type LessonView uint8

// The views of a step.
const (
	ViewAsItIs LessonView = iota
	ViewTable
	ViewLinkage
	ViewBoth
	ViewNavigator // the chart, and the aids beside it
)

// LessonStart is what the engine does as a step begins.
type LessonStart struct {
	GoTo  int64 // tick; -1: it stays where it is
	Clock LessonClock
	RunTo int64   // with RunTheClock: the tick at which it stops; -1: none
	Rate  float64 // one of LessonRates; 0: as it is
	Truth *bool   // revealed or hidden; nil: as it is
}

// LessonClock is what the clock does as a step begins.
type LessonClock uint8

// What the clock does.
const (
	ClockAsItIs LessonClock = iota
	RunTheClock
	StopTheClock
)

// LessonRates are the time rates that a step may ask for.
var LessonRates = []float64{0.25, 1, 2, 5, 10, 30, 60, 120, 240}

// GoalKind says by what a step is known to be done.
type GoalKind uint8

// The goals. Their values live in the fields of Goal named beside them.
const (
	NoGoal           GoalKind = iota
	VariationGoal             // Variation, WithinDegrees: the setter stands there
	WindGoal                  // Wind, WithinDegrees, WithinKnots: the setter stands there
	CountersGoal              // Position, WithinNM: the counters have been set there
	FaultGoal                 // Word, Among: the fault has been named
	LinkGoal                  // Word: the link has been picked in the Linkage
	TimeGoal                  // Tick: the clock has come there
	ReadingGoal               // Aim: a reading has been taken
	AnswerGoal                // OnlyRight: the question has been answered
	RevealGoal                // the truth has been revealed
	MendGoal                  // Word: the fault has been mended
	StaticGoal                // the alternate static has been opened
	HandHeadingGoal           // Angle, WithinDegrees: the resolver is held there by hand
	HandLatitudeGoal          // Angle, WithinDegrees: the secant gear is
	HandSpeedGoal             // Speed, WithinKnots: the air log is
)

// Goal is what is to be seen when a step has been done.
type Goal struct {
	Kind          GoalKind
	Variation     units.Variation
	Wind          units.Wind
	Position      units.Position
	Angle         units.Angle
	Speed         units.Speed
	WithinDegrees float64
	WithinKnots   float64
	WithinNM      float64
	Word          string
	Among         []string // ids of faults to choose from, Word among them
	Tick          int64
	Aim           aboard.Aim
	OnlyRight     bool
}

// Question is one question with its answers.
type Question struct {
	Text    string
	Answers []string
	Right   int // index of the right one
	Why     string
}

// Prediction is a pin that the learner puts on the chart.
type Prediction struct {
	At int64 // tick at which the truth is shown
}

// LightNames are the parts of the window that a step may light up. The links of
// the Linkage come first, in the order of the chain; then the parts of the Chart
// table. A name that both have is lit in the view that is open.
func LightNames() []string { return append(LinkNames(), tableParts...) }

// LinkNames are the links of the Linkage as a flight names them, in the order of
// the chain.
func LinkNames() []string { return append([]string(nil), linkNames...) }

var linkNames = []string{
	"pitot", "static", "capsules", "air-log", "air-log-counter", "drive",
	"compass", "deviation", "variation-setter", "repeater", "resolver", "north-disc", "east-disc",
	"latitude-counter", "secant-gear", "longitude-counter",
	"clock", "wind-setter", "adders", "ground-secant-gear", "ground-counters", "marker",
}

var tableParts = []string{"chart", "air-counters", "heading", "airspeed", "dials", "time-strip", "reveal", "aids"}
