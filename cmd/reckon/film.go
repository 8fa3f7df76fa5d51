package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math/big"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"stillair/gui/film"
	"stillair/gui/look"
	"stillair/scenarios"
	"stillair/sim"
)

// filmCmd is `reckon film`.
type filmCmd struct {
	Flight string `arg:"" name:"RECORD" help:"A record that fly --record or the window has written, a shipped flight or a flight file; - is standard input."`

	Out string `help:"Write numbered pictures, frame-000001.png and so on, into this folder." placeholder:"DIR"`
	Raw string `help:"Write raw frames to standard output for an encoder: rgba or rgb24." placeholder:"PIXELS"`
	GIF string `name:"gif" help:"Write an animated GIF." placeholder:"FILE"`
	MP4 string `name:"mp4" help:"Write an MP4, by the program ffmpeg where it is installed." placeholder:"FILE"`

	Still string `help:"Write one picture of the moment that --from says (.png)." placeholder:"FILE"`
	Clear bool   `help:"The ground of the picture of --still is transparent."`

	View    string        `help:"chart, linkage, both or counters." default:"chart" placeholder:"VIEW"`
	Size    string        `help:"Size of a frame in pixels; a square or an upright one is laid out anew." default:"1920x1080" placeholder:"WxH"`
	Rate    string        `help:"Frames a second, also 24000/1001." default:"25" placeholder:"FPS"`
	Speed   string        `help:"Seconds of flight in a second of film." default:"30" placeholder:"N"`
	Cues    string        `help:"Where the film runs fast and slow, what it shows and says: a cue file (.toml)." placeholder:"FILE"`
	From    time.Duration `help:"Begin at this flight time." placeholder:"DURATION"`
	To      time.Duration `help:"End at this flight time; absent: the end." placeholder:"DURATION"`
	Palette string        `help:"paper or night." default:"paper" placeholder:"NAME"`
	Reveal  bool          `help:"Show the truth: true track, and what is wrong with the mechanism."`
	Jobs    int           `help:"Frames drawn at a time; absent: as many as there are cores." placeholder:"N"`

	ctx context.Context `kong:"-"` // of a test
}

// Help is shown by --help.
func (filmCmd) Help() string {
	return `Runs off a flight as a film. The same record gives the same frames, byte for byte.
A cue file has tables [[cue]]: at = "12s" (film time), flight = "40m" (flight time), speed = 10, view = "both", link = "resolver",
caption = "...". What a cue does not say stays; "" ends a link or a caption; a cue without a speed before one that names a flight
time runs so as to be there when that one begins. length = "45s" above them ends the film. See scenarios/example-cues.toml.
For example: reckon film first-look --view both --gif first-look.gif --size 960x540 --speed 120
An encoder: reckon film my-flight.record --raw rgb24 --rate 30 | ENCODER`
}

// filmJob is a film that is ready to be run off.
type filmJob struct {
	plan film.Plan
	look film.Look
}

// Run makes the film.
func (c filmCmd) Run(s streams) error {
	job, err := c.check()
	if err != nil {
		return usageError{err}
	}
	if c.Cues != "" {
		if job.plan.Cues, err = c.readCues(job.plan.Rules()); err != nil {
			return err
		}
	}
	flown, err := flownToEnd(c.Flight, s)
	if err != nil {
		return err
	}
	if flown.told != "" {
		fmt.Fprintf(s.err, "%s: %s\n", c.Flight, flown.told)
	}
	if c.Still != "" {
		return c.writeStill(flown.engine, flown.end, job)
	}
	script, err := film.NewScript(job.plan, flown.end)
	if err != nil {
		if job.plan.Cues == nil {
			err = fmt.Errorf("%s: %w", c.Flight, err)
		}
		return err
	}
	ctx, stop := c.context()
	defer stop()
	sinks, undo, err := c.sinks(ctx, s, job, script.Frames())
	if err != nil {
		return err
	}
	progress := newProgress(s.err)
	progress.what = "frames drawn"
	defer progress.end()
	run := film.Run{Engine: flown.engine, Script: script, Look: job.look, Sinks: sinks, Jobs: c.Jobs, Told: progress.told}
	if err := run.Make(ctx); err != nil {
		undo()
		if errors.Is(err, context.Canceled) {
			return errors.New("stopped: the film is not whole")
		}
		return err
	}
	return nil
}

// writeStill writes the picture of one moment.
func (c filmCmd) writeStill(e *sim.Engine, end time.Duration, job filmJob) error {
	if c.From > end {
		return fmt.Errorf("--from = %v: the flight ends at %v", c.From, end)
	}
	job.look.Clear = c.Clear
	im, err := film.One(e, c.From, c.View, job.look)
	if err != nil {
		return err
	}
	return toFile(c.Still, func(w io.Writer) error { return png.Encode(w, im) })
}

// check reads all that stands on the command line.
func (c filmCmd) check() (job filmJob, err error) {
	p := &job.plan
	p.From, p.To, p.View, p.Speed = c.From, c.To, c.View, new(big.Rat)
	if p.Rate, err = film.ParseRate(c.Rate); err != nil {
		return job, fmt.Errorf("--rate = %w", err)
	}
	if job.look.Size, err = film.ParseSize(c.Size); err != nil {
		return job, fmt.Errorf("--size = %w", err)
	}
	job.look.Reveal = c.Reveal
	switch c.Palette {
	case look.Paper.String():
	case look.Night.String():
		job.look.Light = look.Night
	default:
		return job, fmt.Errorf("--palette = %s: must be paper or night", c.Palette)
	}
	const fastest = 3600
	if _, ok := p.Speed.SetString(c.Speed); !ok || p.Speed.Sign() <= 0 || p.Speed.Cmp(big.NewRat(fastest, 1)) > 0 {
		return job, fmt.Errorf("--speed = %s: must be above 0, up to %d seconds of flight in a second of film", c.Speed, fastest)
	}
	switch {
	case !slices.Contains(film.Views(), c.View):
		return job, fmt.Errorf("--view = %s: must be %s", c.View, strings.Join(film.Views(), ", "))
	case c.From < 0:
		return job, fmt.Errorf("--from = %v: must not be negative", c.From)
	case c.To < 0 || c.To > 0 && c.To <= c.From:
		return job, fmt.Errorf("--to = %v: must be later than --from = %v", c.To, c.From)
	case c.Jobs < 0:
		return job, fmt.Errorf("--jobs = %d: must be 1 or more", c.Jobs)
	}
	return job, c.checkOutputs(job)
}

// checkOutputs sees that there is something to write, and that it can be.
func (c filmCmd) checkOutputs(job filmJob) error {
	switch size := job.look.Size; {
	case c.Out == "" && c.Raw == "" && c.GIF == "" && c.MP4 == "" && c.Still == "":
		return errors.New("nothing to write: one of --out DIR, --raw rgb24, --gif FILE, --mp4 FILE and --still FILE is wanted")
	case c.Still != "" && filepath.Ext(c.Still) != ".png":
		return fmt.Errorf("--still = %s: must end in .png", c.Still)
	case c.Still != "" && (c.Out != "" || c.Raw != "" || c.GIF != "" || c.MP4 != "" || c.Cues != ""):
		return errors.New("--still is a picture of one moment: no film is written beside it")
	case c.Clear && c.Still == "":
		return errors.New("--clear is of --still FILE, which is missing")
	case c.Raw != "" && c.Raw != "rgba" && c.Raw != "rgb24":
		return fmt.Errorf("--raw = %s: must be rgba or rgb24", c.Raw)
	case c.GIF != "" && filepath.Ext(c.GIF) != ".gif":
		return fmt.Errorf("--gif = %s: must end in .gif", c.GIF)
	case c.GIF != "" && !film.GIFRate(job.plan.Rate):
		return fmt.Errorf("--rate = %s: must be 50 or less with --gif, which counts in hundredths of a second", c.Rate)
	case c.MP4 != "" && filepath.Ext(c.MP4) != ".mp4":
		return fmt.Errorf("--mp4 = %s: must end in .mp4", c.MP4)
	case c.MP4 != "" && (size.W%2 != 0 || size.H%2 != 0):
		return fmt.Errorf("--size = %s: width and height must be even with --mp4", c.Size)
	}
	return nil
}

func (c filmCmd) readCues(rules scenarios.CueRules) (*scenarios.Cues, error) {
	f, err := os.Open(c.Cues)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return scenarios.LoadCues(c.Cues, f, rules)
}

// sinks opens all that is written; undo takes away what is not whole.
func (c filmCmd) sinks(ctx context.Context, s streams, job filmJob, frames int) (all []film.Sink, undo func(), err error) {
	var spoilt []string
	undo = func() {
		for _, name := range spoilt {
			_ = os.Remove(name) // half a film is worth nothing
		}
	}
	if c.MP4 != "" { // first: it is the one that may not be there
		sink, err := film.NewMP4(ctx, c.MP4, job.look.Size, job.plan.Rate)
		if err != nil {
			return nil, undo, err
		}
		all, spoilt = append(all, sink), append(spoilt, c.MP4)
	}
	if c.Out != "" {
		sink, err := film.NewPNGs(c.Out, frames)
		if err != nil {
			return nil, undo, err
		}
		all = append(all, sink)
	}
	if c.Raw != "" {
		pixels := film.RGBA
		if c.Raw == "rgb24" {
			pixels = film.RGB24
		}
		all = append(all, film.NewRaw(s.out, pixels))
	}
	if c.GIF != "" {
		f, err := os.Create(c.GIF)
		if err != nil {
			return nil, undo, err
		}
		spoilt = append(spoilt, c.GIF)
		all = append(all, &gifFile{film.NewGIF(bufio.NewWriterSize(f, 1<<16), job.look, job.plan.Rate, frames), f})
	}
	return all, undo, nil
}

// gifFile closes the file of a GIF.
type gifFile struct {
	*film.GIF
	file *os.File
}

// Close is part of film.Sink.
func (g *gifFile) Close() error {
	err := g.GIF.Close()
	if closed := g.file.Close(); err == nil {
		err = closed
	}
	return err
}

func (c filmCmd) context() (context.Context, context.CancelFunc) {
	if c.ctx != nil {
		return context.WithCancel(c.ctx)
	}
	return signal.NotifyContext(context.Background(), os.Interrupt)
}
