package sim

import "stillair/integrator/units"

// Exercise is what is asked of a trainee on a flight and how it is marked; the engine only
// carries it.
type Exercise struct {
	Level        int    // 1 to 9, the hardest; 0: not graded
	Task         string // what the trainee is told
	Finds        string // what there is to be found, told after landing
	ReportWithin int64  // ticks from the onset; 0: as usual
	Hold         units.Length
	LogEvery     int64      // ticks; 0: as usual
	Marks        [5]float64 // report, link, fault, position, log; all 0: as usual
	// Sealed: the faults were drawn by Seed, and nobody knows them before landing.
	Sealed bool
	Seed   uint64
}

// ExerciseMarks are the names of the marks as a flight writes them, in their order.
var ExerciseMarks = [5]string{"report", "link", "fault", "position", "log"}
