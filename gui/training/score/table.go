package score

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"stillair/integrator/units"
)

// WriteCSV writes the sheet as a table: kind, time, what, value, of. The kinds are mark
// (each criterion, then total), fault, report, minute (of the position: NM off), note, and
// seed for a sealed flight that has landed. Times are of the clock, minutes with hand or
// shown under what.
func WriteCSV(out io.Writer, s *Sheet) error {
	w := csv.NewWriter(out)
	rows := [][]string{{"kind", "time", "what", "value", "of"}}
	for i, name := range []string{"detection", "link", "fault", "position", "log"} {
		rows = append(rows, []string{"mark", "", name, number(s.Marks[i].Got), number(s.Marks[i].Of)})
	}
	rows = append(rows, []string{"mark", "", "total", number(s.Total.Got), number(s.Total.Of)})
	for i := range s.Found {
		g := &s.Found[i]
		after := ""
		if g.First >= 0 {
			after = number(g.After.Minutes())
		}
		rows = append(rows, []string{"fault", s.stamp(g.Onset), g.ID, after, ""})
	}
	for i := range s.Reports {
		r := &s.Reports[i]
		rows = append(rows, []string{"report", s.stamp(r.At), r.Link, r.Fault, sureWord(r.Sure)})
	}
	for _, m := range s.Minutes {
		by := "shown"
		if m.ByHand {
			by = "hand"
		}
		rows = append(rows, []string{"minute", s.stamp(m.At), by, units.Figure(m.Error, 3), ""})
	}
	for _, n := range s.Notes {
		rows = append(rows, []string{"note", s.stamp(n.At), n.Words, "", ""})
	}
	if s.Exercise.Sealed && s.Ended {
		rows = append(rows, []string{"seed", "", "", strconv.FormatUint(s.Exercise.Seed, 10), ""})
	}
	if err := w.WriteAll(rows); err != nil {
		return err
	}
	return w.Error()
}

func sureWord(sure bool) string {
	if sure {
		return "sure"
	}
	return "not sure"
}

func (s *Sheet) stamp(at time.Duration) string {
	return s.Exercise.Start.Add(at).UTC().Format(time.RFC3339)
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
