package pictures

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/png"
	"io"
	"math/big"
	"time"

	"stillair/gui/calc"
	"stillair/gui/film"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
)

// calculator is the wind triangle and the height-and-airspeed computer, side by side,
// with the examples that they open with.
func calculator(out io.Writer) error {
	const tall, edge = 560, 16.0
	t, c := calc.NewTriangle(), calc.NewComputer()
	f := picture.WindTriangle{
		TAS: t.Value(calc.TAS), Heading: t.Value(calc.Heading), Wind: t.Value(calc.WindSpeed), WindFrom: t.Value(calc.WindFrom),
		Groundspeed: t.Value(calc.Groundspeed), Track: t.Value(calc.Track), HeadingText: t.Text(calc.Heading), TASText: t.Text(calc.TAS),
		TrackText: t.Text(calc.Track), GroundspeedText: t.Text(calc.Groundspeed), DriftText: t.Drift(), WindText: t.WindText(),
	}
	r := c.Readings()
	rings := picture.SpeedRings{
		CAS: c.CAS().Knots(), TAS: c.TAS().Knots(), Top: c.Top().Knots(), TASText: units.Figure(c.TAS().Knots(), 0),
		Height: r.Height, Temperature: r.Temperature, Day: c.Day(),
	}
	return drawn(out, Wide, tall, func(s paint.Surface) {
		z, p := look.SizeOf(1920, 1080, 1), look.Of(look.Paper)
		b := picture.NewBrush(s, p, z)
		var path paint.Path
		s.Fill(path.Rect(paint.R(0, 0, Wide, tall)), p.Ground)
		left := paint.R(edge, edge, 800-1.5*edge, tall-2*edge)
		right := paint.R(800+edge/2, edge, 600-1.5*edge, tall-2*edge)
		for _, q := range []paint.Rect{left, right} {
			path.Reset().RoundRect(q, look.CardRadius)
			s.Fill(&path, p.Card)
			s.Stroke(&path, paint.Pen{Width: 1}, p.Line)
		}
		picture.DrawWindTriangle(b, picture.FitTriangle(z, left.Inset(2), &f), &f)
		picture.DrawSpeedRings(b, picture.FitSpeedDial(z, right.Inset(20)), &rings)
	})
}

// filmFrame is a frame of a film of first-look that shows chart and mechanism.
func filmFrame(out io.Writer) error {
	const at, pace = 35 * time.Minute, 10
	e, err := flown("first-look", at)
	if err != nil {
		return err
	}
	script, err := film.NewScript(film.Plan{
		Rate: film.Rate{Num: pace, Den: int64(at / time.Second)}, Speed: big.NewRat(pace, 1), To: at, View: film.BothView,
	}, at) // two frames: the start, and the moment wanted; slow, so that no drum is a blur
	if err != nil {
		return err
	}
	var sink lastFrame
	run := film.Run{Engine: e, Script: script, Look: film.Look{Size: film.Size{W: 1280, H: 720}, Reveal: true}, Sinks: []film.Sink{&sink}, Jobs: 1}
	if err := run.Make(context.Background()); err != nil {
		return err
	}
	if sink.data == nil {
		return errors.New("the film has no frame")
	}
	_, err = out.Write(sink.data)
	return err
}

// lastFrame keeps the last frame of a film.
type lastFrame struct{ data []byte }

// Encode is part of film.Sink, like all below.
func (l *lastFrame) Encode(_ int, im *image.RGBA) ([]byte, error) {
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	err := encoder.Encode(&b, im)
	return b.Bytes(), err
}

func (l *lastFrame) Put(_ int, data []byte) error { l.data = data; return nil }
func (l *lastFrame) Close() error                 { return nil }
