package plotting

import (
	"errors"
	"time"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/gui/sighting"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// AidName is what an aid is called.
func AidName(a aboard.Aid) string { return look.Text(aidNames[a]) }

var aidNames = map[aboard.Aid]look.Key{
	aboard.DriftSight: look.AidDrift, aboard.Sextant: look.AidSextant, aboard.Loop: look.AidLoop,
	aboard.PulseReceiver: look.AidPulse, aboard.HeadingCheck: look.AidHeading, aboard.Pinpoint: look.AidPinpoint,
}

// ShortName is what an aid is called where there is little room.
func ShortName(a aboard.Aid) string {
	if k, ok := shortNames[a]; ok {
		return look.Text(k)
	}
	return AidName(a)
}

var shortNames = map[aboard.Aid]look.Key{
	aboard.Sextant: look.ShelfSextant, aboard.PulseReceiver: look.ShelfPulse, aboard.HeadingCheck: look.ShelfHeading,
}

// source is a reading's source as the list has it.
func source(r *aboard.Reading) string {
	switch r.Aid {
	case aboard.Sextant, aboard.Pinpoint:
		return r.Source
	case aboard.DriftSight:
		return AidName(r.Aid)
	}
	return ShortName(r.Aid) + ", " + r.Source
}

// Rows are the rows of the list of readings, the newest last.
func (b *Book) Rows(v *aboard.View) []picture.ReadingRow {
	start := v.Clock.Add(-v.Elapsed)
	rows := make([]picture.ReadingRow, len(b.sheet.Readings))
	for i := range b.sheet.Readings {
		t := &b.sheet.Readings[i]
		r := &t.Entry.Action.Reading
		rows[i] = picture.ReadingRow{
			Time: units.TimeText(start.Add(t.When)), Source: source(r), Value: sighting.ValueText(r),
			Used: b.sheet.Used[i], Idle: r.Missing != aboard.Had, Moved: look.Text(look.PlotNoLine),
		}
		row := &rows[i]
		switch {
		case row.Idle:
			row.Value, row.Moved = "", look.Textf(look.PlotMissing, sighting.MissingText(r.Missing))
		case t.HasLine():
			row.Box, row.Moved = true, b.movedText(i)
		case r.Aid == aboard.DriftSight:
			row.Box = true
			if tm := &r.Timing; tm.Gives() {
				row.Value = aboard.DriftText(r.Angle, 1)
				row.Moved = look.Textf(look.PlotTimed, tm.GroundspeedText(), sighting.SecondsText(tm.Took))
			}
		case r.Aid == aboard.HeadingCheck:
			row.Moved, row.Used = look.Textf(look.PlotDeviation, deviationOf(t).Tenths()), false // no line, and nothing to choose
		}
		row.Miss = b.miss(t)
	}
	return rows
}

// deviationOf is what a heading check has found.
func deviationOf(t *airplot.Taken) units.Deviation {
	return airplot.DeviationFound(units.TrueHeading(t.Entry.Action.Reading.Angle), t.Entry.Variation, t.Entry.Compass)
}

func (b *Book) movedText(i int) string {
	for _, m := range b.sheet.Moved {
		if m.Reading == i && m.Line.Run.Distance.NM() >= 0.05 {
			return look.Textf(look.PlotMoved, runText(m.Line.Run))
		}
	}
	return look.Text(look.PlotAsTaken)
}

func runText(r airplot.Run) string {
	return units.DistanceText(r.Distance) + " " + units.TrueText(r.Track)
}

// miss is how far off the truth a reading's line lies, "" if that is not to be seen.
func (b *Book) miss(t *airplot.Taken) string {
	if b.trues == nil {
		return ""
	}
	d, ok := t.Miss(b.trues(t.When))
	if !ok {
		return ""
	}
	return look.Textf(look.PlotMiss, units.DistanceText(d))
}

// Card is what is written of the fix and the wind.
func (b *Book) Card(v *aboard.View) picture.FixCard {
	s, start := b.sheet, v.Clock.Add(-v.Elapsed)
	c := picture.FixCard{WindNow: look.Textf(look.PlotWindNow, v.WindSet)}
	c.Told = b.told()
	if len(s.Fixes) == 1 {
		f := &s.Fixes[0]
		c.Fix, c.When = f.Position.String(), look.Textf(look.PlotFixAt, units.TimeText(start.Add(s.At)), b.count())
		c.Told = ""
		c.Add(look.PlotFrom, apartText(units.Position(s.DR), f.Position))
		k := airplot.ScaleFor(0.95)
		c.Add(look.PlotEllipse, look.Textf(look.PlotEllipseIs,
			units.Figure(k*f.Ellipse.Major.NM(), 1), units.Figure(k*f.Ellipse.Minor.NM(), 1), units.TrueText(f.Ellipse.Bearing)))
		if s.LeftOut > 0 {
			c.Add(look.PlotLeftOut, look.Textf(look.PlotMost, units.DistanceText(s.LeftOut)))
		}
		if b.trues != nil {
			c.Truth = look.Text(look.PlotTrue) + ": " + apartText(b.trues(s.At), f.Position)
		}
	}
	b.windCard(&c, start)
	return c
}

// windCard fills in the wind.
func (b *Book) windCard(c *picture.FixCard, start time.Time) {
	s := b.sheet
	switch {
	case s.Since > 0:
		c.Wind = whole(s.Wind).String()
		c.Since = look.Textf(look.PlotWindSince, units.TimeText(start.Add(s.At-s.Since)), units.TimeText(start.Add(s.At)))
	case len(s.Fixes) == 1:
		c.Since = look.Text(look.PlotWindShort)
	}
	for _, f := range b.bySight() {
		f.write(c, s, start)
	}
}

// write writes a wind found by the drift sight: as the wind found, or as another one.
func (f *found) write(c *picture.FixCard, s *airplot.Sheet, start time.Time) {
	key, is := look.PlotWind, look.Textf(look.PlotWindByDrift, f.headings, f.Wind)
	words := is
	if f.timed >= 0 {
		key, is = look.PlotByTime, f.Wind.String()
		words = look.Textf(look.PlotWindByTime, units.TimeText(start.Add(s.Readings[f.timed].When)))
	}
	first := c.Wind == ""
	if first {
		c.Wind = f.Wind.String()
	}
	if first && c.Since == "" {
		c.Since = words
		return
	}
	c.Add(key, is)
}

// count is how many lines the fix is of, in words.
func (b *Book) count() string {
	if n := len(b.sheet.Moved); n > 2 {
		return look.Textf(look.PlotLinesCount, n)
	}
	return look.Text(look.PlotTwoLines)
}

// told is why there is no fix.
func (b *Book) told() string {
	var parallel *airplot.ParallelError
	s := b.sheet
	switch {
	case len(s.Fixes) == 2:
		return look.Textf(look.PlotTwo, s.Fixes[0].Position, s.Fixes[1].Position)
	case len(s.Moved) == 0:
		return look.Text(look.PlotNone)
	case len(s.Moved) == 1:
		return look.Text(look.PlotMore)
	case errors.As(s.Err, &parallel):
		return look.Textf(look.PlotCut, units.Figure(parallel.Cut.Degrees(), 0)+"°")
	}
	return look.Text(look.PlotNoMeet)
}

// apartText is distance and direction from one place to another.
func apartText(from, to units.Position) string {
	az, _, d := geodesy.GeodesicInverse(from, to)
	if d.NM() < 0.05 {
		return units.DistanceText(d)
	}
	return units.DistanceText(d) + " " + units.TrueText(az)
}
