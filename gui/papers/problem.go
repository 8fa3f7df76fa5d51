package papers

import (
	"math"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim"
)

// fact is a figure that a problem gives.
type fact struct {
	name  look.Key
	about string // filled into the name, if it has room for it
	value string
}

// answer is what is to be found, and how far a plotted answer may be off.
type answer struct {
	name             look.Key
	value, tolerance string
}

// problem is one problem as it is printed, and its key. What it is worked from
// is what is printed.
type problem struct {
	title, ask look.Key
	given      []fact
	answers    []answer
}

// The tolerances of plotted answers (common practice, no source): a plotter is
// read to about half a degree, and a place pricked off to about half a mile.
const (
	headingTolerance = 2   // degrees
	speedTolerance   = 3   // kt
	dialTolerance    = 2   // kt, of a computer's dial
	plotTolerance    = 1.0 // NM
	pencil           = 0.5 // degrees, NM
)

// problems draws the five problems of a pupil.
func problems(p *sim.Plan, seed uint64, pupil int) ([]problem, error) {
	where := areaOf(p)
	var out []problem
	for _, draw := range []struct {
		kind string
		make func(*lot, *area) (problem, error)
	}{
		{"triangle", triangleProblem}, {"airspeed", airspeedProblem}, {"reckoning", reckoningProblem},
		{"fix", fixProblem}, {"wind", windProblem},
	} {
		one, err := draw.make(newLot(seed, pupil, draw.kind), &where)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// area is where problems are set: along the required track, off the stations.
type area struct {
	track    [][2]units.Position
	stations []sim.Station
	start    time.Time
}

func areaOf(p *sim.Plan) area {
	a := area{stations: p.Stations, start: p.Start.Truncate(time.Minute)}
	for _, leg := range atlas.Planned(p) {
		a.track = append(a.track, [2]units.Position{leg.From, leg.To})
	}
	if len(a.track) == 0 {
		a.track = append(a.track, [2]units.Position{startOf(p), startOf(p)})
	}
	return a
}

// farthestProblem is the latitude beyond which no problem is set.
const farthestProblem = 75 * units.Degree

// place is a place near the track.
func (a *area) place(l *lot) units.Position {
	leg := a.track[l.whole(0, len(a.track)-1, 1)]
	course, length := geodesy.RhumbInverse(leg[0], leg[1])
	p, err := geodesy.RhumbDirect(leg[0], course, units.Length(l.uniform(0, 1))*length)
	if err != nil {
		p = leg[0]
	}
	off, _ := geodesy.GeodesicDirect(p, units.Angle(l.uniform(0, 2*math.Pi)), units.Length(l.uniform(0, 15))*units.NM)
	off.Lat = max(-farthestProblem, min(off.Lat, farthestProblem))
	return off.Printed()
}

// triangleProblem: heading and groundspeed for a track in a wind.
func triangleProblem(l *lot, _ *area) (problem, error) {
	tas, track := l.whole(140, 240, 1), l.whole(0, 359, 1)
	wind := windOf(l.whole(0, 355, 5), l.whole(12, 55, 1))
	heading, gs, err := airplot.HeadingFor(degrees(track), speed(tas), wind)
	if err != nil {
		return problem{}, err
	}
	return problem{
		title: look.PaperTriangle, ask: look.PaperTriangleAsk,
		given: []fact{
			{look.PaperRequiredTrack, "", units.TrueText(degrees(track))}, {look.PaperTrueAirspeed, "", units.SpeedText(speed(tas))}, {look.PaperWindVelocity, "", wind.String()},
		},
		answers: []answer{
			{look.PaperHeadingWord, heading.String(), number0(headingTolerance)}, {look.PaperGroundspeed, units.SpeedText(gs), number0(speedTolerance)},
		},
	}, nil
}

func number0(x float64) string { return units.Figure(x, 0) }

// airspeedProblem: true airspeed from the dials.
func airspeedProblem(l *lot, _ *area) (problem, error) {
	cas, height := l.whole(120, 200, 1), units.Length(l.whole(2000, 18000, 500))*units.Foot
	standard := isa.Temperature(height).Celsius()
	temp := units.Celsius(math.Round(standard) + float64(l.whole(-12, 12, 1)))
	tas := isa.TASFromCAS(speed(cas), height, temp)
	return problem{
		title: look.PaperAirspeed, ask: look.PaperAirspeedAsk,
		given: []fact{
			{look.PaperCalibrated, "", units.SpeedText(speed(cas))}, {look.PaperPressureAltitude, "", units.HeightText(height)}, {look.PaperTemperature, "", units.TemperatureText(temp)},
		},
		answers: []answer{{look.PaperTrueAirspeed, units.SpeedText(tas), number0(dialTolerance)}},
	}, nil
}

// reckoningProblem: a DR position along a track.
func reckoningProblem(l *lot, a *area) (problem, error) {
	from, track, gs, minutes := a.place(l), l.whole(0, 359, 1), l.whole(120, 250, 1), l.whole(14, 43, 1)
	begins := a.start.Add(time.Duration(l.whole(0, 90, 1)) * time.Minute)
	to, err := airplot.NewDR(units.GroundPosition(from), degrees(track), speed(gs), time.Duration(minutes)*time.Minute)
	if err != nil {
		return problem{}, err
	}
	ends := begins.Add(time.Duration(minutes) * time.Minute)
	return problem{
		title: look.PaperReckoning, ask: look.PaperReckoningAsk,
		given: []fact{
			{look.PaperFixAt, units.TimeText(begins), from.String()}, {look.PaperTrackMade, "", units.TrueText(degrees(track))},
			{look.PaperGroundspeed, "", units.SpeedText(speed(gs))}, {look.PaperWantedAt, "", units.TimeText(ends)},
		},
		answers: []answer{{look.PaperDRPosition, to.String(), units.Figure(plotTolerance, 1)}},
	}, nil
}

// windProblem: the wind between an air position and a fix.
func windProblem(l *lot, a *area) (problem, error) {
	air, minutes := a.place(l), l.whole(24, 75, 1)
	blown := windOf(l.whole(0, 359, 1), l.whole(15, 50, 1))
	fix, err := airplot.DRPosition(units.AirPosition(air), blown, time.Duration(minutes)*time.Minute)
	if err != nil {
		return problem{}, err
	}
	at := units.Position(fix).Printed()
	wind, err := airplot.WindFound(units.AirPosition(air), units.GroundPosition(at), time.Duration(minutes)*time.Minute)
	if err != nil {
		return problem{}, err
	}
	hours := float64(minutes) / 60
	off := math.Sqrt2 * pencil // NM, of the two places together
	// One more of each for the rounding of the answer itself.
	turn := math.Atan(off/(wind.Speed.Knots()*hours)) * 180 / math.Pi
	begins := a.start.Add(time.Duration(l.whole(0, 60, 1)) * time.Minute)
	return problem{
		title: look.PaperWindByPlot, ask: look.PaperWindByPlotAsk,
		given: []fact{
			{look.PaperCountersSetAt, "", units.TimeText(begins)},
			{look.PaperAirAt, units.TimeText(begins.Add(time.Duration(minutes) * time.Minute)), air.String()},
			{look.PaperFixThen, "", at.String()},
		},
		answers: []answer{{look.PaperWindVelocity, wind.String(), number0(1+math.Ceil(turn)) + "/" + number0(1+math.Ceil(off/hours))}},
	}, nil
}
