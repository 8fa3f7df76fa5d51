package score

import (
	"math"
	"strconv"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/integrator/units"
)

// Told is a sheet in words and figures, as window and page write it.
type Told struct {
	Title, When   string
	Got, Of       string // of the whole
	Rows          []Row
	Found         []string
	Reports       []string
	Finds, Sealed string // after landing; "" else
	Notes         []string
	Criteria      []string // how it is marked
}

// Row is one criterion.
type Row struct {
	Name, Marks, Why string
	Share            float64
}

var names = [criteria]look.Key{look.MarkDetection, look.MarkLink, look.MarkFault, look.MarkPosition, look.MarkLog}

// Tell writes the sheet out; the chain gives links and faults their names.
func (s *Sheet) Tell(c Chain) *Told {
	x := &s.Exercise
	t := &Told{
		Title: x.Title, When: units.DateText(x.Start) + ", " + s.clock(0) + " to " + s.clock(s.Until),
		Of: units.Figure(s.Total.Of, 0),
	}
	if len(s.Found) == 0 {
		t.Found = []string{look.Capital(look.Text(look.ScoreNoFault))}
	}
	for i := range s.Found {
		t.Found = append(t.Found, s.foundText(&s.Found[i], c))
	}
	for i := range s.Reports {
		t.Reports = append(t.Reports, s.Told(&s.Reports[i], c))
	}
	if s.Ended {
		t.Finds = x.Finds
		if x.Sealed {
			t.Sealed = look.Textf(look.ScoreSealed, strconv.FormatUint(x.Seed, 10))
		}
	}
	t.Criteria = x.Tell()
	for _, n := range s.Notes {
		t.Notes = append(t.Notes, s.clock(n.At)+" "+n.Words)
	}
	why := [criteria]string{Detection: s.foundWords(), Link: s.falseText(), Fault: s.namedText(), Position: s.positionText(), Log: s.logText()}
	total := 0.0
	for i, m := range s.Marks {
		total += m.printed() // the total is that of the printed marks
		t.Rows = append(t.Rows, Row{
			Name: look.Text(names[i]), Marks: look.Textf(look.MarkOf, units.Figure(m.printed(), 0), units.Figure(m.Of, 0)),
			Why: why[i], Share: m.Share(),
		})
	}
	t.Got = units.Figure(total, 0)
	return t
}

// printed is the mark in whole ones; what is not full is not printed as full.
func (m Mark) printed() float64 {
	got := math.Round(m.Got)
	if m.Got < m.Of-1e-9 && got >= m.Of {
		return math.Ceil(m.Of) - 1
	}
	return got
}

// Tell says by what it is marked; the package comment has the same.
func (c *Criteria) Tell() []string {
	return []string{
		look.Textf(look.CriterionDetection, minutes(c.ReportWithin), minutes(nothingAfter*c.ReportWithin)),
		look.Text(look.CriterionLink), look.Text(look.CriterionFault),
		look.Textf(look.CriterionPosition, units.Figure(c.Hold.NM(), 1), units.Figure(nothingAfter*c.Hold.NM(), 1)),
		look.Textf(look.CriterionLog, minutes(c.LogEvery)), look.Text(look.CriterionSeveral),
	}
}

// clock is a time of the flight as it is written.
func (s *Sheet) clock(at time.Duration) string { return units.TimeText(s.Exercise.Start.Add(at)) }

// Told is a report in words: 1032Z drive: slips, sure.
func (s *Sheet) Told(r *Report, c Chain) string { return ReportText(r, c, s.Exercise.Start) }

// ReportText is a report in words.
func ReportText(r *Report, c Chain, start time.Time) string {
	link, named := c.Title(r.Link, r.Fault)
	what := link + ": " + named
	if r.Fault == "" {
		what = look.Textf(look.ReportLinkOnly, link)
	}
	sure := look.ReportUnsure
	if r.Sure {
		sure = look.ReportSure
	}
	return units.TimeText(start.Add(r.At)) + " " + what + ", " + look.Text(sure)
}

func (s *Sheet) foundText(g *Found, c Chain) string {
	link, _ := c.Title(g.Link, "")
	parts := []string{look.Capital(link) + ": " + g.Title, look.Textf(look.ScoreAgo, s.clock(g.Onset))}
	if g.First < 0 {
		return strings.Join(append(parts, look.Text(look.ScoreNotFound)), "; ")
	}
	parts = append(parts, look.Textf(look.ScoreFoundIn, minutes(g.After)), g.namingText())
	return strings.Join(parts, "; ")
}

func (g *Found) namingText() string {
	words := map[Naming]look.Key{RightNamed: look.ScoreRight, AlikeNamed: look.ScoreAlike, OtherNamed: look.ScoreOther}
	text := look.Text(words[g.Naming])
	if !g.Sure {
		text += ", " + look.Text(look.ScoreUnsure)
	}
	return text
}

// foundWords says after how long each fault was reported.
func (s *Sheet) foundWords() string {
	var all []string
	for i := range s.Found {
		if g := &s.Found[i]; g.First < 0 {
			all = append(all, look.Text(look.ScoreNotFound))
		} else {
			all = append(all, look.Textf(look.ScoreFoundIn, minutes(g.After)))
		}
	}
	return orNone(all)
}

func (s *Sheet) namedText() string {
	var all []string
	for i := range s.Found {
		if g := &s.Found[i]; g.First < 0 {
			all = append(all, look.Text(look.ScoreNotFound))
		} else {
			all = append(all, g.namingText())
		}
	}
	return orNone(all)
}

func orNone(all []string) string {
	if len(all) == 0 {
		return look.Text(look.ScoreNoFault)
	}
	return strings.Join(all, "; ")
}

func (s *Sheet) falseText() string {
	if s.False == 0 {
		return s.foundWords()
	}
	return s.foundWords() + "; " + look.Textf(look.ScoreFalse, strconv.Itoa(s.False))
}

func (s *Sheet) positionText() string {
	text := look.Textf(look.ScorePosition, units.Figure(s.MeanError, 1), units.Figure(s.Exercise.Hold.NM(), 1),
		strconv.Itoa(s.Within), strconv.Itoa(len(s.Minutes)))
	if s.ByHand > 0 {
		text += "; " + look.Textf(look.ScoreByHand, strconv.Itoa(s.ByHand))
	}
	return text
}

func (s *Sheet) logText() string {
	if s.Stretches == 0 {
		return look.Text(look.ScoreNoLog)
	}
	return look.Textf(look.ScoreLog, strconv.Itoa(s.Kept), strconv.Itoa(s.Stretches), minutes(s.Exercise.LogEvery))
}

// minutes is a time in whole minutes.
func minutes(d time.Duration) string { return units.Figure(d.Minutes(), 0) }
