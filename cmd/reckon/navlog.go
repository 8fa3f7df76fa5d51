package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// caution stands under every log (design section 7).
const caution = "For teaching and display only: not for navigation in flight."

// logHead names the columns as a navigation log has them.
var logHead = []string{
	"Time", "Hdg T", "Var", "Hdg M", "TAS", "IAS", "Height", "Temp", "Wind set", "Air NM",
	"Air position", "Ground position", "Remarks",
}

// writeLog prints the navigation log and the closing positions.
func writeLog(out io.Writer, e *sim.Engine) error {
	plan := e.Plan()
	fmt.Fprintf(out, "%s\n%s, %s\n\n", plan.Title, units.DateText(plan.Start), setUp(plan))
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, strings.Join(logHead, "\t"))
	for _, entry := range e.View().Log {
		fmt.Fprintln(w, strings.Join(logLine(plan, &entry), "\t"))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return writeClosing(out, e)
}

func setUp(p *sim.Plan) string {
	pilot := map[sim.Pilot]string{
		sim.Steady: "pilot steady", sim.ByInstruments: "pilot by instruments", sim.AsPlanned: "pilot as planned",
	}[p.Pilot]
	field := "earth's field"
	if p.Field != nil {
		field = "variation " + p.Field.Tenths() + " everywhere"
	}
	return pilot + ", " + field + ", " + legsText(len(p.Legs))
}

func logLine(p *sim.Plan, n *aboard.Entry) []string {
	return []string{
		units.TimeText(p.Start.Add(n.Elapsed)),
		n.Heading.String(), n.Variation.Tenths(), n.Magnetic.String(),
		units.Figure(n.TAS.Knots(), 0), units.Figure(n.IAS.Knots(), 0),
		units.HeightText(n.Height), units.TemperatureText(n.OAT),
		n.Wind.String(), units.Figure(n.AirMiles.NM(), 1),
		units.Position(n.Air).String(), units.Position(n.Ground).String(), remark(p, n),
	}
}

// remark is what was ordered or done.
func remark(p *sim.Plan, n *aboard.Entry) string {
	switch n.Event {
	case aboard.LegBegun:
		return legRemark(&p.Legs[n.Leg], n)
	case aboard.WindSet:
		return "wind set " + n.Action.Wind.String()
	case aboard.VarSet:
		if n.Action.Kind == aboard.FollowField {
			return "variation follows the field"
		}
		return "variation set " + n.Action.Variation.Tenths()
	case aboard.CountersSet:
		return counterRemark(&n.Action)
	case aboard.Acted:
		return actRemark(&n.Action)
	case aboard.FlightEnded:
		return "end of flight"
	case aboard.Observed:
		return readingRemark(&n.Action.Reading)
	}
	return ""
}

// readingRemark is a reading of an aid: loop Cape Linnet 144R.
func readingRemark(r *aboard.Reading) string {
	value := r.Value()
	if r.Missing != aboard.Had {
		value = r.Missing.String()
	}
	return strings.TrimSpace(r.Aim.String() + " " + value)
}

// actRemark is an action that sets no figure.
func actRemark(a *aboard.Action) string {
	switch {
	case a.Kind == aboard.Resynchronise:
		return "repeater re-synchronised"
	case a.On:
		return "alternate static source"
	}
	return "normal static source"
}

func legRemark(leg *sim.Leg, n *aboard.Entry) string {
	text := "alter heading " + n.Heading.String()
	if n.Elapsed == 0 {
		text = "set heading " + n.Heading.String()
	}
	switch leg.Steer {
	case sim.TrackTrue:
		text += ", track " + units.TrueText(leg.Direction)
	case sim.ToPlace:
		text += " for " + leg.Place
	}
	if leg.Altitude != nil {
		text += ", to " + units.HeightText(*leg.Altitude)
	}
	if leg.Speed != nil {
		text += ", " + speedRemark(leg.Speed)
	}
	return text
}

func speedRemark(o *sim.SpeedOrder) string {
	if o.Kind == sim.HoldCAS {
		return "CAS " + units.SpeedText(o.Speed)
	}
	return "TAS " + units.SpeedText(o.Speed)
}

func counterRemark(a *aboard.Action) string {
	switch a.Kind {
	case aboard.SetCounters:
		return "counters set " + a.Position.String()
	case aboard.SlewLatitude, aboard.SlewLongitude:
		return "counter turned by hand " + units.Figure(a.Slew.Minutes(), 1) + " minutes"
	}
	return "longitude lever thrown"
}

// writeClosing prints where everything ended.
func writeClosing(out io.Writer, e *sim.Engine) error {
	s := e.Snapshot()
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	line := func(name string, p units.Position, rest string) {
		fmt.Fprintf(w, "%s\t%v\t%s\n", name, p, rest)
	}
	fmt.Fprintf(w, "\nClosing positions, %s after %v\n",
		units.TimeText(e.Plan().Start.Add(sim.TimeOf(s.Tick))), sim.TimeOf(s.Tick))
	line("air position", units.Position(s.Shown.Air), "error "+offsetText(s.Error.Air))
	line("ground position", units.Position(s.Shown.Ground), "error "+offsetText(s.Error.Ground))
	line("true position", s.Truth.Position, fmt.Sprintf("track %s, %s, wind %v",
		units.TrueText(s.Truth.Track), units.SpeedText(s.Truth.Groundspeed), s.Truth.Wind))
	fmt.Fprintf(w, "air log counter\t%s\t\n", units.DistanceText(s.Shown.AirMiles))
	for _, f := range e.Faults() {
		fmt.Fprintf(w, "fault\t%s\t%s\n", f.Order.ID, spanText(f, s.Tick))
	}
	fmt.Fprintf(w, "hash\t%016x\ttick %d\n\n%s\n", e.Hash(), s.Tick, caution)
	return w.Flush()
}

// spanText says when a fault acted, in flight time.
func spanText(f sim.FaultStatus, now int64) string {
	switch {
	case f.Onset > now:
		return "not yet"
	case f.Ends > now:
		return fmt.Sprintf("from %v", sim.TimeOf(f.Onset))
	}
	return fmt.Sprintf("%v to %v", sim.TimeOf(f.Onset), sim.TimeOf(f.Ends))
}

// offsetText writes an error by its printed parts: "3.2 NM (1.1 N 3.0 E)".
func offsetText(o sim.Offset) string {
	part := func(x float64, plus, minus string) string {
		if x < 0 {
			return units.Figure(-x, 1) + " " + minus
		}
		return units.Figure(x, 1) + " " + plus
	}
	return fmt.Sprintf("%s NM (%s %s)", units.Figure(o.NM(), 1), part(o.North, "N", "S"), part(o.East, "E", "W"))
}
