package main

import (
	"fmt"
	"io"
	"math"

	"stillair/sim"
	"stillair/sim/debrief"
)

// debriefCmd is `reckon debrief`.
type debriefCmd struct {
	Record string `arg:"" name:"RECORD" help:"A record that fly --record has written; - is standard input."`
	JSON   bool   `name:"json" help:"Print the account as one JSON object, with a point for each minute."`
}

// Help is shown by --help.
func (debriefCmd) Help() string {
	return "Shares the error at the end of a flight out to the links of the chain; the lines add up to it.\nFor example: reckon debrief my-flight.record"
}

// Run accounts for the error.
func (c debriefCmd) Run(s streams) error {
	rec, e, err := replayCmd{c.Record}.open(s)
	if err != nil {
		return err
	}
	to := int64(0)
	if n := len(rec.Minutes); n > 0 {
		to = rec.Minutes[n-1].Tick
	}
	if rec.End != nil {
		to = rec.End.Tick
	}
	if err := rec.Fly(e, to); err != nil {
		return fmt.Errorf("%s: %w", c.Record, err)
	}
	r := debrief.Of(e)
	if c.JSON {
		return printJSON(s.out, debriefOf(&r))
	}
	writeDebrief(s.out, rec.Name, e, &r)
	if rec.Damage != nil {
		return fmt.Errorf("%s: %w; what stands before was read", c.Record, rec.Damage)
	}
	return nil
}

// writeDebrief prints the two accounts as tables whose columns add up.
func writeDebrief(w io.Writer, name string, e *sim.Engine, r *debrief.Report) {
	fmt.Fprintf(w, "%s after %v: indicated minus true, NM\n", name, sim.TimeOf(e.Tick()))
	for _, t := range []struct {
		title string
		a     *debrief.Account
	}{{"ground position", &r.Ground}, {"air position", &r.Air}} {
		fmt.Fprintf(w, "\n%-30s %8s %8s %8s\n", t.title, "north", "east", "miles")
		var north, east []float64
		for _, l := range t.a.Lines {
			north, east = append(north, l.North), append(east, l.East)
		}
		n, x := debrief.Tenths(north), debrief.Tenths(east)
		for i, l := range t.a.Lines {
			writeLine(w, l.Name, n[i], x[i])
		}
		writeLine(w, "total", sumOf(n), sumOf(x))
		if in := t.a.Interaction; in.NM() >= 0.05 {
			fmt.Fprintf(w, "each link alone, added up, misses the total by %.1f north, %.1f east: they work together\n", in.North, in.East)
		}
	}
	fmt.Fprintln(w, "\nEach line: with all before it as it really was, what did this link add?")
}

func writeLine(w io.Writer, name string, north, east int) {
	n, x := float64(north)/10, float64(east)/10
	fmt.Fprintf(w, "%-30s %8.1f %8.1f %8.1f\n", name, n, x, math.Hypot(n, x))
}

func sumOf(all []int) (sum int) {
	for _, n := range all {
		sum += n
	}
	return sum
}

// debriefJSON is the account as JSON: total and links are those of the ground
// position.
type debriefJSON struct {
	accountJSON
	Air      accountJSON `json:"air"`
	Timeline []pointJSON `json:"timeline"`
}

type accountJSON struct {
	Total       vectorJSON `json:"total"`
	Links       []linkJSON `json:"links"`
	Interaction vectorJSON `json:"interaction"`
}

type vectorJSON struct {
	NorthNM float64 `json:"north_nm"`
	EastNM  float64 `json:"east_nm"`
	NM      float64 `json:"nm"`
}

type linkJSON struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	vectorJSON
	Alone *vectorJSON `json:"alone,omitempty"`
}

// pointJSON is a whole minute: the total, and the lines in the order of links.
type pointJSON struct {
	ElapsedS float64      `json:"elapsed_s"`
	Total    vectorJSON   `json:"total"`
	Links    []vectorJSON `json:"links"`
}

func vectorOf(o sim.Offset) vectorJSON { return vectorJSON{o.North, o.East, o.NM()} }

func debriefOf(r *debrief.Report) debriefJSON {
	out := debriefJSON{accountJSON: accountOf(&r.Ground), Air: accountOf(&r.Air), Timeline: []pointJSON{}}
	for _, p := range r.Timeline {
		j := pointJSON{ElapsedS: float64(p.Tick) / sim.TicksPerSecond, Total: vectorOf(p.Total), Links: []vectorJSON{}}
		for _, l := range p.Lines {
			j.Links = append(j.Links, vectorOf(l))
		}
		out.Timeline = append(out.Timeline, j)
	}
	return out
}

func accountOf(a *debrief.Account) accountJSON {
	alone := map[string]*vectorJSON{}
	for _, l := range a.Alone {
		v := vectorOf(l.Offset)
		alone[l.ID] = &v
	}
	out := accountJSON{Total: vectorOf(a.Total), Links: []linkJSON{}, Interaction: vectorOf(a.Interaction)}
	for _, l := range a.Lines {
		out.Links = append(out.Links, linkJSON{l.ID, l.Name, vectorOf(l.Offset), alone[l.ID]})
	}
	return out
}
