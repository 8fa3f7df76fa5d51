package pictures

import (
	"errors"
	"io"
	"math"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/isa"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// The star curves: as the chart shows them once the second sight is in the log.
const (
	curvesAt   = 44*time.Minute + time.Second
	curvesTall = 900
)

// starCurves are the curves of the two stars of night-stars over its chart.
func starCurves(out io.Writer) error {
	e, err := flown("night-stars", curvesAt)
	if err != nil {
		return err
	}
	view := e.View()
	plot := picture.PlotOf(&view)
	waters, err := atlas.Of(e.Plan(), plot.Tracks()...)
	if err != nil {
		return err
	}
	order, err := starOrder(e, &view)
	if err != nil {
		return err
	}
	return drawn(out, Wide, curvesTall, func(s paint.Surface) {
		z, c := look.SizeOf(Wide, curvesTall, 1), look.Of(look.Paper)
		b := picture.NewBrush(s, c, z)
		var path paint.Path
		s.Fill(path.Rect(paint.R(0, 0, Wide, curvesTall)), c.Ground)
		box := paint.R(0, 0, Wide, curvesTall).Inset(picture.FrameWidth(z) + 8).Snap()
		v := picture.Fit(box, 130, plot.Positions()...)
		room := picture.DrawGround(b, v, picture.NewGround(waters))
		order.Window, order.Step = atlas.WindowOf(v), atlas.AltitudeStep(v)
		stars := overlay.Stars(order)
		o := atlas.StarOverlay(order, &stars)
		picture.DrawOverlay(b, v, o, room)
		picture.DrawPlot(b, v, &plot, room)
		var held picture.Held
		picture.DrawCrossings(b, v, o.Crossings, room, &held)
	})
}

// starOrder asks for the curves of the two sights in the log, the first brought to the
// time of the second by what it would have changed by where the marker stood.
func starOrder(e *sim.Engine, v *aboard.View) (o overlay.StarOrder, err error) {
	thin := sight.ThinAir(isa.Pressure(v.PressureAltitude), v.AirTemperature)
	start := v.Clock.Add(-v.Elapsed)
	skyAt := func(at time.Duration) overlay.Sky {
		e.GoTo(sim.TicksOf(at))
		return overlay.Sky{Time: start.Add(at).Round(time.Second), Near: units.Position(e.View().Ground), Thin: thin}
	}
	var skies []overlay.Sky
	for _, l := range v.Log {
		r := &l.Action.Reading
		if l.Action.Kind != aboard.TakeAid || r.Aid != aboard.Sextant || len(skies) == len(o.Pair) {
			continue
		}
		i := len(skies)
		if o.Pair[i], err = sky.Lookup(r.Source); err != nil {
			return o, err
		}
		o.Read[i] = overlay.ReadAt(sight.Lifted(r.Observed, thin).Minutes())
		skies = append(skies, skyAt(l.Elapsed-r.Before))
	}
	if len(skies) < len(o.Pair) {
		return o, errors.New("the log has not two sights")
	}
	o.Sky = skies[1]
	o.Read[0].Value += skies[1].Altitude(o.Pair[0], skies[1].Near) - skies[0].Altitude(o.Pair[0], skies[0].Near)
	return o, nil
}

// The sheet of eyepieces: the middle of each, all as large, a caption under it.
const (
	eyeTall   = 900
	eyeRadius = 140
)

// eyepieces are the five aids on one sheet, each as it looks when it is read, and the loop
// as one flies by it.
func eyepieces(out io.Writer) error {
	type piece struct {
		caption look.Key
		x, y    float64
		draw    func(b *picture.Brush, x, y, r float64)
	}
	all := []piece{
		{look.AidDrift, 250, 225, func(b *picture.Brush, x, y, r float64) {
			picture.DrawDriftSight(b, x, y, r, picture.DriftSight{Wires: 8, Drift: 8, Streaks: picture.StreaksAt(0.4, 7), Across: 0.728})
		}},
		{look.AidSextant, 700, 225, func(b *picture.Brush, x, y, r float64) {
			picture.DrawSextant(b, x, y, r, picture.Sextant{BubbleX: 0.06, BubbleY: -0.05, BodyX: 0.05, BodyY: -0.02, Share: 0.6, Wheel: 3, Field: 8})
		}},
		{look.AidHeading, 1150, 225, func(b *picture.Brush, x, y, r float64) {
			picture.DrawHeadingCheck(b, x, y, r, picture.HeadingCheck{Ring: 75, BodyX: 0.02, BodyY: -0.03, Name: "Achernar"})
		}},
		{look.AidLoop, 250, 650, func(b *picture.Brush, x, y, r float64) { picture.DrawLoop(b, x, y, r, loopSwung(64)) }},
		{look.LoopHome, 700, 650, func(b *picture.Brush, x, y, r float64) { picture.DrawHoming(b, x, y, r, picture.Needle{Side: -0.35}) }},
		{look.AidPulse, 1150, 650, func(b *picture.Brush, x, y, r float64) {
			picture.DrawPulse(b, x, y, r, picture.Pulse{Offset: 0, PerRadius: 50, Amplitude: [2]float64{1, 0.8}, Noise: 1, Knob: 30, Name: "A"})
		}},
	}
	return drawn(out, Wide, eyeTall, func(s paint.Surface) {
		z, c := look.SizeOf(1920, 1080, 1), look.Of(look.Paper)
		b := picture.NewBrush(s, c, z)
		var path paint.Path
		s.Fill(path.Rect(paint.R(0, 0, Wide, eyeTall)), c.Ground)
		for _, p := range all {
			p.draw(b, p.x, p.y, eyeRadius)
			words := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextLabel), Anchor: paint.Middle}
			s.Text(p.x, p.y+1.52*eyeRadius, look.Text(p.caption), words, c.Ink)
		}
	})
}

// loopSwung is a loop that has been swung all round, its null at a relative bearing.
func loopSwung(null float64) picture.Loop {
	const floor = 0.08
	l := picture.Loop{Bearing: null, Signal: floor, Lowest: floor, Trail: make([]float64, 360)}
	for d := range l.Trail {
		l.Trail[d] = floor + (1-floor)*math.Abs(math.Sin((float64(d)-null)*math.Pi/180))
	}
	return l
}
