package papers

import (
	"math"
	"slices"
	"time"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/counter"
	"stillair/integrator/units"
	"stillair/sim"
)

// moment is what the crew had before them at one time of the flight, and why it
// was written down.
type moment struct {
	view  aboard.View
	entry *aboard.Entry // what happened; nil: nothing, it was time
}

// flown flies a plan to its end and gives what was shown at the start, at each
// whole multiple of every on the clock, and at each event of the log that is
// asked for. Nothing else of the flight comes out.
func flown(p *sim.Plan, every time.Duration, events func(*aboard.Entry) bool) ([]moment, error) {
	e, err := sim.New(p)
	if err != nil {
		return nil, err
	}
	e.Advance(math.MaxInt64 / 2)
	log := e.View().Log
	last := e.Tick()
	var out []moment
	when := map[int64]bool{0: true, last: true}
	first := p.Start.Truncate(every)
	for t := first; ; t = t.Add(every) {
		tick := sim.TicksOf(t.Sub(p.Start))
		if tick > last {
			break
		}
		if tick >= 0 {
			when[tick] = true
		}
	}
	for i := range log {
		if events(&log[i]) {
			when[sim.TicksOf(log[i].Elapsed)] = true
		}
	}
	ticks := make([]int64, 0, len(when))
	for t := range when {
		ticks = append(ticks, t)
	}
	slices.Sort(ticks)
	again, err := sim.New(p)
	if err != nil {
		return nil, err
	}
	for _, t := range ticks {
		again.Advance(t - again.Tick())
		view := again.View()
		n := len(out)
		for i := range log {
			if sim.TicksOf(log[i].Elapsed) == t && events(&log[i]) {
				out = append(out, moment{view, &log[i]})
			}
		}
		if len(out) == n {
			out = append(out, moment{view, nil})
		}
	}
	return out, nil
}

// drums is a counter as it is read off: latitude and longitude with the
// hemisphere after the figures, the figures that the drums have passed.
func drums(r counter.Reading) string {
	digit := func(i int) byte { return byte('0' + int(math.Floor(r.Drums[i]+1e-6))) }
	var out []byte
	for i := r.N - 1; i >= 0; i-- {
		switch i {
		case 2:
			out = append(out, ' ')
		case 0:
			out = append(out, '.')
		}
		out = append(out, digit(i))
	}
	if r.Letter != 0 {
		out = append(out, ' ', r.Letter)
	}
	return string(out)
}

// drumsOf are latitude and longitude of a position counter; positionOf those of
// a position, rounded.
func drumsOf(c aboard.Counters) [2]string { return [2]string{drums(c.Latitude), drums(c.Longitude)} }

func positionOf(p units.Position) [2]string {
	return [2]string{units.LatitudeText(p.Lat), units.LongitudeText(p.Lon)}
}

// Remark says what happened, as a navigator would write it.
func Remark(p *sim.Plan, n *aboard.Entry) string {
	switch n.Event {
	case aboard.LegBegun:
		return legRemark(p, n)
	case aboard.WindSet:
		return look.Textf(look.PaperWindSet, n.Action.Wind.String())
	case aboard.VarSet:
		if n.Action.Kind == aboard.FollowField {
			return look.Text(look.PaperFieldFollowed)
		}
		return look.Textf(look.PaperVariationSet, n.Action.Variation.Tenths())
	case aboard.CountersSet:
		return counterRemark(&n.Action)
	case aboard.Observed:
		return readingRemark(p, n)
	case aboard.Acted:
		switch {
		case n.Action.Kind == aboard.Resynchronise:
			return look.Text(look.PaperInStep)
		case n.Action.On:
			return look.Text(look.PaperStaticAlternate)
		}
		return look.Text(look.PaperStaticNormal)
	case aboard.FlightEnded:
		return look.Text(look.PaperFlightEnds)
	}
	return ""
}

func legRemark(p *sim.Plan, n *aboard.Entry) string {
	leg := &p.Legs[n.Leg]
	text := look.Textf(look.PaperTurned, n.Heading.String())
	if n.Elapsed == 0 {
		text = look.Textf(look.PaperHeadingSet, n.Heading.String())
	}
	if leg.Steer == sim.ToPlace {
		text = look.Textf(look.PaperFor, text, leg.Place)
	}
	if leg.Altitude != nil {
		text = join(text, look.Textf(look.PaperTo, units.HeightText(*leg.Altitude)))
	}
	return text
}

func counterRemark(a *aboard.Action) string {
	switch a.Kind {
	case aboard.SetCounters:
		return look.Textf(look.PaperCountersSet, a.Position.String())
	case aboard.SlewLatitude, aboard.SlewLongitude:
		return look.Textf(look.PaperCounterTurned, units.Figure(a.Slew.Minutes(), 1))
	}
	return look.Text(look.PaperLever)
}

// readingRemark is what an aid said.
func readingRemark(p *sim.Plan, n *aboard.Entry) string {
	r := &n.Action.Reading
	text := look.Capital(r.Aim.String())
	if r.Missing != aboard.Had {
		return look.Textf(look.PaperNotHad, text)
	}
	switch r.Aid {
	case aboard.DriftSight:
		text += " " + r.Value()
		if tm := &r.Timing; tm.Gives() { // what it was worked from
			text = look.Textf(look.PaperTimed, text, units.Figure(tm.Took.Seconds(), 1)+" s", units.HeightText(tm.Height))
		}
		return text
	case aboard.Sextant:
		text += " " + units.AltitudeText(r.Angle)
		if r.Before > 0 { // it is good for the middle of the sight
			text = look.Textf(look.PaperSight, text, units.TimeText(p.Start.Add(n.Elapsed-r.Before)))
		}
		return text
	case aboard.Loop:
		return text + " " + units.RelativeText(r.Angle)
	case aboard.PulseReceiver:
		return text + " " + look.Textf(look.PaperMicroseconds, units.Figure(r.Delay, 1))
	case aboard.HeadingCheck:
		return text + " " + units.TrueText(r.Angle)
	}
	return text
}

// CompassCard is the deviation of the flight's compass as the class of its
// instrument has it, or the flight file: what a swing before the flight has
// found. What breaks later, and what is drawn by chance, is not on it.
func CompassCard(p *sim.Plan) (k airplot.Coefficients) {
	for _, v := range p.Mechanism.Senses() {
		switch v.Name {
		case "deviation_b_deg":
			k.B = units.Angle(v.X) * units.Degree
		case "deviation_c_deg":
			k.C = units.Angle(v.X) * units.Degree
		}
	}
	return k
}
