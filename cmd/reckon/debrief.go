package main

import (
	"fmt"
	"io"

	"stillair/gui/account"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/debrief"
)

// debriefCmd is `reckon debrief`.
type debriefCmd struct {
	Record string   `arg:"" name:"RECORD" help:"A record that fly --record has written; - is standard input."`
	JSON   bool     `name:"json" help:"Print the account as one JSON object, with a point for each minute."`
	PDF    string   `name:"pdf" placeholder:"FILE" help:"Draw the account on a page: .pdf, .svg or .png by the ending."`
	Right  []string `name:"right" placeholder:"LINK" enum:"static,temperature,air-log,drive,compass,variation,repeater,resolver,trains,counters,wind,clock,crew" help:"Account for the flight as if this link had been right (${enum}); may be given more than once."`
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
	t, err := c.account(e)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, debriefOf(t))
	}
	writeDebrief(s.out, rec.Name, e, t)
	if rec.Damage != nil {
		return fmt.Errorf("%s: %w; what stands before was read", c.Record, rec.Damage)
	}
	return nil
}

// toldAccount is an account, with what would have been left of each error if one link
// alone had been right.
type toldAccount struct {
	debrief.Report
	ifGround, ifAir []debrief.Line
}

// account works out what is told, and draws it if that is asked for.
func (c debriefCmd) account(e *sim.Engine) (*toldAccount, error) {
	m := account.Gather(e)
	t := &toldAccount{m.Report, m.IfOnly, m.AirIfOnly}
	if len(c.Right) > 0 { // what else had been right would be another question
		r, err := debrief.If(e, c.Right...)
		if err != nil {
			return nil, fmt.Errorf("--right: %w", err)
		}
		t = &toldAccount{Report: r}
	}
	if c.PDF == "" {
		return t, nil
	}
	story, err := account.New(e.Plan(), m)
	if err != nil {
		return nil, err
	}
	if len(c.Right) > 0 {
		story.Suppose(c.Right, &t.Report)
	}
	shown, _ := story.At(m.Tick)
	return t, draw(c.PDF, func(out io.Writer, f paint.Format) error {
		return account.WritePage(out, f, e.Plan().Title, &shown)
	})
}

// writeDebrief prints the two accounts as tables whose columns add up.
func writeDebrief(w io.Writer, name string, e *sim.Engine, r *toldAccount) {
	fmt.Fprintf(w, "%s after %v: indicated minus true, NM\n", name, sim.TimeOf(e.Tick()))
	for _, t := range []struct {
		title string
		a     *debrief.Account
		only  []debrief.Line
	}{{"ground position", &r.Ground, r.ifGround}, {"air position", &r.Air, r.ifAir}} {
		left := map[string]float64{}
		last := ""
		if t.only != nil {
			last = "had it been right"
		}
		for _, l := range t.only {
			left[l.ID] = l.NM()
		}
		fmt.Fprintf(w, "\n%-30s %8s %8s %8s  %s\n", t.title, "north", "east", "miles", last)
		var north, east []float64
		for _, l := range t.a.Lines {
			north, east = append(north, l.North), append(east, l.East)
		}
		n, x := debrief.Tenths(north), debrief.Tenths(east)
		for i, l := range t.a.Lines {
			writeLine(w, l.Name, n[i], x[i], l.NM())
			if nm, ok := left[l.ID]; ok {
				fmt.Fprintf(w, "  %.1f left", nm)
			}
			fmt.Fprintln(w)
		}
		writeLine(w, "total", sumOf(n), sumOf(x), t.a.Total.NM())
		fmt.Fprintln(w)
		if in := t.a.Interaction; in.NM() >= 0.05 {
			fmt.Fprintf(w, "each link alone, added up, misses the total by %s north, %s east: they work together\n", units.Figure(in.North, 1), units.Figure(in.East, 1))
		}
	}
	fmt.Fprintln(w, "\nEach line: with all before it as it really was, what did this link add?")
}

// writeLine prints north and east in tenths of miles, so that the columns add up.
func writeLine(w io.Writer, name string, north, east int, miles float64) {
	fmt.Fprintf(w, "%-30s %8.1f %8.1f %8.1f", name, float64(north)/10, float64(east)/10, miles)
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
	// IfRight is the total that would have been left had this link alone been right.
	IfRight *vectorJSON `json:"if_right,omitempty"`
}

// pointJSON is a whole minute: the total, and the lines in the order of links.
type pointJSON struct {
	ElapsedS float64      `json:"elapsed_s"`
	Total    vectorJSON   `json:"total"`
	Links    []vectorJSON `json:"links"`
}

func vectorOf(o sim.Offset) vectorJSON { return vectorJSON{o.North, o.East, o.NM()} }

func debriefOf(r *toldAccount) debriefJSON {
	out := debriefJSON{accountJSON: accountOf(&r.Ground, r.ifGround), Air: accountOf(&r.Air, r.ifAir), Timeline: []pointJSON{}}
	for _, p := range r.Timeline {
		j := pointJSON{ElapsedS: float64(p.Tick) / sim.TicksPerSecond, Total: vectorOf(p.Total), Links: []vectorJSON{}}
		for _, l := range p.Lines {
			j.Links = append(j.Links, vectorOf(l))
		}
		out.Timeline = append(out.Timeline, j)
	}
	return out
}

func accountOf(a *debrief.Account, only []debrief.Line) accountJSON {
	alone, right := byID(a.Alone), byID(only)
	out := accountJSON{Total: vectorOf(a.Total), Links: []linkJSON{}, Interaction: vectorOf(a.Interaction)}
	for _, l := range a.Lines {
		out.Links = append(out.Links, linkJSON{l.ID, l.Name, vectorOf(l.Offset), alone[l.ID], right[l.ID]})
	}
	return out
}

func byID(lines []debrief.Line) map[string]*vectorJSON {
	all := map[string]*vectorJSON{}
	for _, l := range lines {
		v := vectorOf(l.Offset)
		all[l.ID] = &v
	}
	return all
}
