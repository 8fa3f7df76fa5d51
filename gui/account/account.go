// Package account is what the Debrief knows: from the account of a flight's error
// to the values and words of its picture. It imports no toolkit.
package account

import (
	"math"
	"slices"
	"strings"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/debrief"
	"stillair/sim/fault"
)

// told is how a link is spoken of.
type told struct {
	name, subject, advice look.Key
	family                picture.Family
}

var links = map[string]told{
	"earth":       {look.AccountEarth, look.SubjectEarth, look.AdviceEarth, picture.EarthFamily},
	"method":      {look.AccountMethod, look.SubjectMethod, look.AdviceMethod, picture.EarthFamily},
	"static":      {look.AccountStatic, look.SubjectStatic, look.AdviceStatic, picture.AirFamily},
	"temperature": {look.AccountTemperature, look.SubjectTemperature, look.AdviceTemperature, picture.AirFamily},
	"air-log":     {look.AccountAirLog, look.SubjectAirLog, look.AdviceAirLog, picture.AirFamily},
	"drive":       {look.AccountDrive, look.SubjectDrive, look.AdviceDrive, picture.DriveFamily},
	"compass":     {look.AccountCompass, look.SubjectCompass, look.AdviceCompass, picture.HeadingFamily},
	"variation":   {look.AccountVariation, look.SubjectVariation, look.AdviceVariation, picture.HeadingFamily},
	"repeater":    {look.AccountRepeater, look.SubjectRepeater, look.AdviceRepeater, picture.HeadingFamily},
	"resolver":    {look.AccountResolver, look.SubjectResolver, look.AdviceResolver, picture.TrainFamily},
	"trains":      {look.AccountTrains, look.SubjectTrains, look.AdviceTrains, picture.TrainFamily},
	"counters":    {look.AccountCounters, look.SubjectCounters, look.AdviceCounters, picture.TrainFamily},
	"wind":        {look.AccountWind, look.SubjectWind, look.AdviceWind, picture.WindFamily},
	"clock":       {look.AccountClock, look.SubjectClock, look.AdviceClock, picture.WindFamily},
	"crew":        {look.AccountCrew, look.SubjectCrew, look.AdviceCrew, picture.CrewFamily},
}

// Story is the account of a flight, to be told at any of its moments.
type Story struct {
	plan   *sim.Plan
	told   *Material
	ground *picture.Ground // of the flight as a whole
	near   *picture.Ground // of the large-scale chart

	right []string        // links taken as right
	after *debrief.Report // the account with these; nil: there are none, or it is not there yet
}

// New makes a story of an account.
func New(p *sim.Plan, a *Material) (*Story, error) {
	s := &Story{plan: p, told: a}
	var truth []units.Position
	for _, t := range a.Truth {
		truth = append(truth, t.Ground)
	}
	plot := picture.PlotOf(&a.View)
	waters, err := atlas.Of(p, append(plot.Tracks(), truth)...)
	if err != nil {
		return nil, err
	}
	s.ground = picture.NewGround(picture.Waters{Coasts: waters.Coasts, Places: waters.Places, Keep: waters.Keep, Points: waters.Points})
	s.near = picture.NewGround(picture.Waters{Coasts: waters.Coasts, Places: waters.Places})
	return s, nil
}

// Suppose takes links as right; r is the account with them so, nil with none.
func (s *Story) Suppose(right []string, r *debrief.Report) { s.right, s.after = right, r }

// pointOf is the account of a report at a tick: of the whole minute before it, or
// at its end.
func pointOf(r *debrief.Report, tick int64) *debrief.Point {
	if at := tick / sim.MinuteTicks; tick < r.Last.Tick && at < int64(len(r.Timeline)) {
		return &r.Timeline[at]
	}
	return &r.Last
}

// Moment is the tick for which the account at a tick is: its whole minute, or the
// end.
func (s *Story) Moment(tick int64) int64 { return pointOf(&s.told.Report, tick).Tick }

// Part is a row of the picture: the id of its link, and whether that could have
// been right.
type Part struct {
	ID      string
	CanPull bool
}

// Subject is how a sentence about a link begins.
func (s *Story) Subject(id string) string { return look.Text(links[id].subject) }

// least is what a link must have added, at any time, to be listed: NM.
const least = 1e-6

// At is the picture of the account at a tick, with the link of each of its rows.
func (s *Story) At(tick int64) (a picture.Account, rows []Part) {
	r := &s.told.Report
	if s.after != nil {
		r = s.after
	}
	p := pointOf(r, tick)
	v := &s.told.View
	clock := s.plan.Start.Add(sim.TimeOf(p.Tick))
	a = picture.Account{
		Start: s.plan.Start, When: units.TimeText(clock), Minute: minutes(p.Tick), True: p.True, Heading: v.Heading,
		North: p.Total.North, East: p.Total.East, Ground: s.ground, Near: s.near,
		AsFlown: s.flown(), Events: s.events(),
	}
	was := pointOf(&s.told.Report, tick)
	a.Shown = aside(p.True, was.Total)
	along := s.along(&a, p)
	for i, l := range r.Ground.Lines {
		right := slices.Contains(s.right, l.ID)
		if !right && !s.counts(r, i) {
			continue
		}
		t := links[l.ID]
		rows = append(rows, Part{l.ID, l.ID != "earth" && l.ID != "method"})
		a.Parts = append(a.Parts, picture.AccountPart{
			Name: look.Text(t.name), Note: s.note(l.ID, p), Family: t.family, North: p.Lines[i].North, East: p.Lines[i].East, Right: right,
		})
	}
	printed(&a, along)
	if s.after != nil {
		a.If = ifLine(s.after)
	}
	s.plot(&a, tick)
	a.Lessons = s.lessons(&a, rows, p)
	return a, rows
}

func minutes(tick int64) float64 { return sim.TimeOf(tick).Minutes() }

// counts says whether a link ever added enough to be listed.
func (s *Story) counts(r *debrief.Report, line int) bool {
	if r.Last.Lines[line].NM() >= least {
		return true
	}
	for i := range r.Timeline {
		if r.Timeline[i].Lines[line].NM() >= least {
			return true
		}
	}
	return false
}

// along is the part of an offset along the line of the whole.
func (s *Story) along(a *picture.Account, p *debrief.Point) func(north, east float64) float64 {
	total := p.Total.NM()
	if total == 0 {
		return func(float64, float64) float64 { return 0 }
	}
	n, e := a.North/total, a.East/total
	return func(north, east float64) float64 { return north*n + east*e }
}

// printed gives the rows the tenths that they print, so that the columns add up.
func printed(a *picture.Account, along func(north, east float64) float64) {
	var n, e, l []float64
	for _, p := range a.Parts {
		n, e, l = append(n, p.North), append(e, p.East), append(l, along(p.North, p.East))
	}
	for c, column := range [][]float64{n, e, l} {
		for i, x := range debrief.Tenths(column) {
			a.Parts[i].Printed[c] = x
			a.Sum[c] += x
		}
	}
}

// aside is a place so far off another one, by the measure of the account.
func aside(at units.Position, off sim.Offset) units.Position {
	return units.Position{
		Lat: at.Lat + units.Angle(off.North)*units.ArcMinute,
		Lon: units.WrapHalf(at.Lon + units.Angle(off.East/math.Cos(at.Lat.Radians()))*units.ArcMinute),
	}
}

// flown is the error of the ground position as flown.
func (s *Story) flown() []picture.AccountPoint {
	marks := s.told.View.Marks
	out := make([]picture.AccountPoint, 0, len(marks)+1)
	for i, m := range marks[:min(len(marks), len(s.told.Truth))] {
		off := sim.OffsetOf(units.Position(m.Ground), s.told.Truth[i].Ground)
		out = append(out, picture.AccountPoint{Minute: m.Elapsed.Minutes(), NM: off.NM(), Jump: m.Event == aboard.CountersSet && m.Elapsed > 0})
	}
	last := &s.told.Report.Last
	return append(out, picture.AccountPoint{Minute: minutes(last.Tick), NM: last.Total.NM()})
}

// ifLine is the error with links taken as right, each minute.
func ifLine(r *debrief.Report) []picture.AccountPoint {
	var out []picture.AccountPoint
	for i := range r.Timeline {
		p := &r.Timeline[i]
		out = append(out, picture.AccountPoint{Minute: minutes(p.Tick), NM: p.Total.NM()})
	}
	return append(out, picture.AccountPoint{Minute: minutes(r.Last.Tick), NM: r.Last.Total.NM()})
}

// plot is the flight as a whole up to the moment, with the truth.
func (s *Story) plot(a *picture.Account, tick int64) {
	p := picture.PlotOf(&s.told.View)
	until := sim.TimeOf(tick)
	n := min(len(p.Marks), len(s.told.Truth))
	for n > 1 && p.Marks[n-1].Elapsed > until {
		n--
	}
	p.Marks = p.Marks[:n]
	truth := &picture.Truth{Position: a.True}
	for _, t := range s.told.Truth[:n] {
		truth.Track = append(truth.Track, t.Ground)
	}
	truth.Track = append(truth.Track, a.True)
	if tick < s.told.Tick { // its present was another one
		m := p.Marks[n-1]
		p.Clock, p.Air = s.plan.Start.Add(m.Elapsed), m.Air
		p.Ground, p.Marker = units.GroundPosition(a.Shown), units.GroundPosition(a.Shown)
	}
	p.Truth = truth
	a.Plot = p
}

// note says what was so at a link.
func (s *Story) note(id string, p *debrief.Point) string {
	switch id {
	case "earth":
		return look.Text(look.AccountEarthNote)
	case "wind":
		return look.Textf(look.AccountWindNote, p.WindSet, p.WindMet)
	case "variation":
		if math.Abs(float64(p.VariationSet-p.Variation)) > float64(0.05*units.Degree) {
			return look.Textf(look.AccountVariationNote, p.VariationSet.Tenths(), p.Variation.Tenths())
		}
	case "crew":
		if at := s.resets(p.Tick); len(at) > 0 {
			return look.Textf(look.AccountCrewNote, strings.Join(at, ", "))
		}
		return ""
	}
	if faults := s.faultsOf(id, p.Tick); len(faults) > 0 {
		return strings.Join(faults, "; ")
	}
	return look.Text(look.AccountBuiltNote)
}

// faultsOf are the faults that had been at work in a link by then.
func (s *Story) faultsOf(id string, tick int64) (all []string) {
	for _, f := range s.told.Faults {
		if f.Onset <= tick && debrief.LinkOf(f.Order) == id {
			e, _ := fault.Lookup(f.Order.ID)
			all = append(all, look.Textf(look.AccountFaultNote, e.Title, s.clock(f.Onset)))
		}
	}
	return all
}

func (s *Story) clock(tick int64) string { return units.TimeText(s.plan.Start.Add(sim.TimeOf(tick))) }

// resets are the times at which the counters had been set by a tick.
func (s *Story) resets(tick int64) (all []string) {
	for _, e := range s.told.View.Log {
		if e.Event == aboard.CountersSet && e.Elapsed <= sim.TimeOf(tick) {
			all = append(all, units.TimeText(s.plan.Start.Add(e.Elapsed)))
		}
	}
	return slices.Compact(all)
}

// events are what happened to the error.
func (s *Story) events() (all []picture.AccountEvent) {
	add := func(at time.Duration, kind picture.AccountKind, words string) {
		all = append(all, picture.AccountEvent{Minute: at.Minutes(), Kind: kind, Words: words})
	}
	for _, e := range s.told.View.Log {
		when := units.TimeText(s.plan.Start.Add(e.Elapsed))
		switch e.Event {
		case aboard.CountersSet:
			add(e.Elapsed, picture.AccountReset, look.Textf(look.AccountResetWord, when))
		case aboard.WindSet:
			add(e.Elapsed, picture.AccountSetting, look.Textf(look.AccountWindWord, e.Wind))
		case aboard.VarSet:
			add(e.Elapsed, picture.AccountSetting, look.Textf(look.AccountVariationWord, e.Variation.Tenths()))
		}
	}
	for _, f := range s.told.Faults {
		if f.Onset > s.told.Tick || f.Ends < f.Onset {
			continue
		}
		e, _ := fault.Lookup(f.Order.ID)
		add(sim.TimeOf(f.Onset), picture.AccountBreak, look.Textf(look.AccountBreakWord, e.Title, s.clock(f.Onset)))
		if f.Ends <= s.told.Tick {
			add(sim.TimeOf(f.Ends), picture.AccountMend, look.Textf(look.AccountMendWord, s.clock(f.Ends)))
		}
	}
	return all
}
