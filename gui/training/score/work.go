package score

import (
	"math"
	"sort"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// Flown is what was so, which only those who may see it can hand in.
type Flown struct {
	Until  time.Duration
	Ended  bool
	Shown  []Point // the ground position shown, by time
	True   []Point // the true position, by time
	Faults []Came  // that have come, by time
	Log    []aboard.Entry
}

// Point is a position at a time.
type Point struct {
	At       time.Duration
	Position units.Position
}

// Came is a fault that came.
type Came struct {
	ID, Link, Title string
	Onset           time.Duration
	Alike           []string // ids of what it may be taken for
}

// Mark is what a criterion gave.
type Mark struct {
	Got, Of float64
}

// Share is Got of Of, 1 where there was nothing to be had.
func (m Mark) Share() float64 {
	if m.Of <= 0 {
		return 1
	}
	return m.Got / m.Of
}

// Naming says how near a report came to a fault.
type Naming uint8

// How near.
const (
	NotNamed Naming = iota // no report of its link
	OtherNamed
	AlikeNamed
	RightNamed
)

// Found is how one fault was found.
type Found struct {
	Came
	First  int           // the report that found it, -1: none
	Last   int           // the last one of its link, -1: none
	After  time.Duration // from onset to First
	Naming Naming
	Sure   bool // of Last
}

// Sheet is the result.
type Sheet struct {
	Exercise Exercise
	Until    time.Duration
	Ended    bool
	Marks    [criteria]Mark
	Total    Mark

	Found   []Found
	Reports []Report
	False   int // reports that fit no fault, by the number; see FalseAt
	FalseAt []int

	Minutes   []Minute // of the position, from the first onset on
	MeanError float64  // NM
	Within    int      // of Minutes, within Criteria.Hold
	ByHand    int      // of Minutes, by the manual air plot

	Stretches, Kept int // of the log
	Deeds           []aboard.Entry
	Notes           []Note
}

// Minute is one of the position: how far what the trainee went by was off.
type Minute struct {
	At     time.Duration
	Error  float64 // NM
	ByHand bool
}

// What shares of marks are given or cost; see the package comment.
const (
	whenUnsure   = 0.8
	whenAlike    = 0.5
	falseSure    = 0.25
	falseUnsure  = 0.1
	nothingAfter = 3 // times what is whole
)

// Work marks an exercise.
func Work(x Exercise, b *Book, f *Flown) *Sheet {
	s := &Sheet{Exercise: x, Until: f.Until, Ended: f.Ended, Reports: b.Reports, Notes: b.Notes}
	var share [criteria]float64
	s.find(b, f)
	share[Detection], share[Link], share[Fault] = s.findings()
	share[Position] = s.held(b, f)
	share[Log] = s.kept(b, f)
	for _, e := range f.Log {
		if e.Action.Kind != 0 && e.Elapsed <= f.Until {
			s.Deeds = append(s.Deeds, e)
		}
	}
	for c, of := range x.Weights {
		s.Marks[c] = Mark{Got: of * share[c], Of: of}
		s.Total.Got += s.Marks[c].Got
		s.Total.Of += of
	}
	return s
}

// find matches reports and faults: a report answers the first fault of its link that has
// come by then and has no answer, rather the one it names; another report of the same
// link corrects the answer.
func (s *Sheet) find(b *Book, f *Flown) {
	for _, came := range f.Faults {
		if came.Onset <= f.Until {
			s.Found = append(s.Found, Found{Came: came, First: -1, Last: -1})
		}
	}
	for i, r := range b.Reports {
		k := s.answers(&r)
		if k < 0 {
			s.FalseAt = append(s.FalseAt, i)
			continue
		}
		g := &s.Found[k]
		if g.First < 0 {
			g.First, g.After = i, r.At-g.Onset
		}
		g.Last, g.Sure, g.Naming = i, r.Sure, naming(&r, &g.Came)
	}
	s.False = len(s.FalseAt)
}

// answers is the number of the fault that a report answers, -1 if none.
func (s *Sheet) answers(r *Report) int {
	named, open, any := -1, -1, -1
	for k := range s.Found {
		g := &s.Found[k]
		if g.Link != r.Link || g.Onset > r.At {
			continue
		}
		any = k
		if g.First < 0 && open < 0 {
			open = k
		}
		if g.ID == r.Fault && named < 0 {
			named = k
		}
	}
	switch {
	case named >= 0:
		return named
	case open >= 0:
		return open
	}
	return any
}

func naming(r *Report, c *Came) Naming {
	if r.Fault == c.ID {
		return RightNamed
	}
	for _, id := range c.Alike {
		if id == r.Fault {
			return AlikeNamed
		}
	}
	return OtherNamed
}

// findings are the shares of the first three criteria.
func (s *Sheet) findings() (detection, link, named float64) {
	n := float64(len(s.Found))
	for i := range s.Found {
		g := &s.Found[i]
		if g.First < 0 {
			continue
		}
		detection += fading(float64(g.After), float64(s.Exercise.ReportWithin)) / n
		link += 1 / n
		named += g.named() / n
	}
	if n == 0 {
		detection, link, named = 1, 1, 1
	}
	for _, i := range s.FalseAt {
		cost := falseUnsure
		if s.Reports[i].Sure {
			cost = falseSure
		}
		link -= cost
	}
	return detection, max(0, link), named
}

func (g *Found) named() float64 {
	switch {
	case g.Naming == AlikeNamed:
		return whenAlike
	case g.Naming != RightNamed:
		return 0
	case !g.Sure:
		return whenUnsure
	}
	return 1
}

// fading is 1 up to what is whole, 0 from three times that on, and even between.
func fading(x, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return max(0, min(1, (nothingAfter-x/whole)/(nothingAfter-1)))
}

// held measures the position each whole minute from the first onset on.
func (s *Sheet) held(b *Book, f *Flown) float64 {
	from := time.Duration(0)
	if len(s.Found) > 0 {
		from = s.Found[0].Onset
	}
	sum, off := 0.0, 0.0
	for at := from.Truncate(time.Minute) + time.Minute; at <= f.Until; at += time.Minute {
		m, ok := minuteOf(at, b, f)
		if !ok {
			continue
		}
		s.Minutes = append(s.Minutes, m)
		off += m.Error
		sum += fading(m.Error, s.Exercise.Hold.NM())
		if m.Error <= s.Exercise.Hold.NM() {
			s.Within++
		}
		if m.ByHand {
			s.ByHand++
		}
	}
	if len(s.Minutes) == 0 {
		return 1
	}
	s.MeanError = off / float64(len(s.Minutes))
	return sum / float64(len(s.Minutes))
}

func minuteOf(at time.Duration, b *Book, f *Flown) (m Minute, ok bool) {
	truth, ok := positionAt(f.True, at)
	if !ok {
		return m, false
	}
	goneBy, ok := positionAt(f.Shown, at)
	h := b.ByHand(at)
	if h != nil {
		goneBy, ok = h.Position(at), true
	}
	return Minute{At: at, Error: apart(goneBy, truth), ByHand: h != nil}, ok
}

// apart is an error in the program's measure: north = 60 x difference of latitude, east =
// 60 x difference of longitude x cos(true latitude), in NM.
func apart(shown, truth units.Position) float64 {
	north := (shown.Lat - truth.Lat).Minutes()
	east := units.WrapHalf(shown.Lon-truth.Lon).Minutes() * math.Cos(float64(truth.Lat))
	return math.Hypot(north, east)
}

// positionAt is the position at a time, between the points; the last one stands for at
// most a quarter of a minute.
func positionAt(all []Point, at time.Duration) (units.Position, bool) {
	i := sort.Search(len(all), func(i int) bool { return all[i].At >= at })
	switch {
	case i == len(all):
		if i == 0 || at-all[i-1].At > time.Minute/4 {
			return units.Position{}, false
		}
		return all[i-1].Position, true
	case all[i].At == at || i == 0:
		return all[i].Position, all[i].At == at
	}
	a, z := all[i-1], all[i]
	share := units.Angle(at-a.At) / units.Angle(z.At-a.At)
	return units.Position{
		Lat: a.Position.Lat + share*(z.Position.Lat-a.Position.Lat),
		Lon: units.WrapHalf(a.Position.Lon + share*units.WrapHalf(z.Position.Lon-a.Position.Lon)),
	}, true
}

// kept counts the stretches of the log in which the trainee wrote something.
func (s *Sheet) kept(b *Book, f *Flown) float64 {
	every := s.Exercise.LogEvery
	if every <= 0 || f.Until < every {
		return 1
	}
	s.Stretches = int(f.Until / every)
	wrote := make([]bool, s.Stretches)
	write := func(at time.Duration) {
		if i := int(at / every); i < len(wrote) {
			wrote[i] = true
		}
	}
	for i := range b.Lines {
		write(b.Lines[i].Elapsed)
	}
	for i := range f.Log {
		if f.Log[i].Action.Kind == aboard.TakeAid {
			write(f.Log[i].Elapsed)
		}
	}
	for _, w := range wrote {
		if w {
			s.Kept++
		}
	}
	return float64(s.Kept) / float64(s.Stretches)
}
