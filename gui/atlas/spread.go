package atlas

import (
	"io"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim/spread"
)

// SpreadLink is the name of a link of a spread.
func SpreadLink(l spread.Link) look.Key {
	return [...]look.Key{look.SpreadWind, look.SpreadHeading, look.SpreadAirLog, look.SpreadDrive, look.SpreadStart}[l]
}

// SpreadOf is the picture of a spread, of one flight or more. Times at which some
// flights had ended are left out: those that have not are no fair sample.
func SpreadOf(f *spread.File) picture.Spread {
	s := picture.Spread{
		Title: look.Textf(look.SpreadTitle, len(f.Flights)), Told: look.Textf(look.SpreadTold, f.Title, f.Law.Name, f.Seed), Flights: len(f.Flights),
	}
	all := f.Moments()
	for i := range all {
		m := &all[i]
		if m.N < len(f.Flights) || len(f.Effects) > 0 && !m.Shared {
			continue
		}
		form := m.Growth.Ellipse()
		s.Hours = append(s.Hours, m.At.Hours())
		s.Median, s.Half, s.Most = append(s.Median, m.Miss), append(s.Half, m.R50), append(s.Most, m.R95)
		if way := wayAt(f.Result, i, len(all)-1); way.FromStart {
			s.FormHalf, s.FormMost = append(s.FormHalf, form.Radius(0.5)), append(s.FormMost, form.Radius(0.95))
		}
		if m.Shared {
			s.Shares = append(s.Shares, m.Links())
		}
	}
	last := all[len(all)-1]
	s.Mean = picture.Miss(last.Mean)
	s.HalfAxes, s.MostAxes = axes(last.Axes, spread.Scale(0.5)), axes(last.Axes, spread.Scale(0.95))
	for _, p := range f.Points() {
		s.Dots = append(s.Dots, picture.Miss(p))
	}
	return s
}

// wayAt is how the plan was flown to a look at it. Once the counters are set, to what
// the plan says and not to where each flight is, the closed form does not hold.
func wayAt(r *spread.Result, i, last int) spread.Way {
	if i == last || i >= len(r.Nominal.Ways) {
		return r.Nominal.EndWay
	}
	return r.Nominal.Ways[i]
}

func axes(e spread.Ellipse, k float64) picture.SpreadEllipse {
	return picture.SpreadEllipse{Major: k * e.Major, Minor: k * e.Minor, BearingDeg: e.BearingDeg}
}

// WriteSpread writes the picture of a spread on a page of its own, with the caution
// at its foot.
func WriteSpread(out io.Writer, f paint.Format, s picture.Spread) error {
	const w, h, foot = picture.SpreadWidth, picture.SpreadHeight, 34
	return paint.Export(out, f, w, h+foot, s.Title, func(d paint.Surface) {
		z, c := look.SizeOf(w, h, 1), look.Of(look.Paper)
		var path paint.Path
		d.Fill(path.Rect(paint.R(0, 0, w, h+foot)), c.Ground)
		picture.DrawSpread(picture.NewBrush(d, c, z), paint.R(0, 0, w, h), s)
		d.Text(z.Px(look.Edge), h+foot/2, look.Text(look.Caution), paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}, c.Ink2)
	})
}
