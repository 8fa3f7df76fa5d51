package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"time"

	"stillair/gui/paint"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/record"
	"stillair/sim/spread"
)

// spreadCmd is `reckon spread`.
type spreadCmd struct {
	Fly   spreadFlyCmd   `cmd:"" default:"withargs" help:"Fly one flight many times with drawn errors (this is what spread FLIGHT does)."`
	Merge spreadMergeCmd `cmd:"" help:"Join what several runs have flown of one spread."`
}

// Help is shown by --help.
func (spreadCmd) Help() string {
	return `For example: reckon spread weather-triangle --flights 1000 --plot growth.svg
All that may be said to it: reckon spread fly --help`
}

// spreadOut is where what was flown goes, beside the table.
type spreadOut struct {
	Out  string `help:"Write it all (.json, which merge reads) or a row for each time (.csv)." placeholder:"FILE"`
	Plot string `help:"Draw the growth of the error; the ending .png, .svg or .pdf says how." placeholder:"FILE"`
}

func (o spreadOut) check() error {
	if ext := filepath.Ext(o.Out); o.Out != "" && ext != ".json" && ext != ".csv" {
		return fmt.Errorf("--out = %s: must end in .json or .csv", o.Out)
	}
	if _, err := paint.FormatOf(o.Plot); o.Plot != "" && err != nil {
		return fmt.Errorf("--plot = %s: must end in .png, .svg or .pdf", o.Plot)
	}
	return nil
}

// spreadFlyCmd is `reckon spread FLIGHT`.
type spreadFlyCmd struct {
	Flight  string        `arg:"" name:"FLIGHT" help:"A shipped flight or a file; - is standard input."`
	Flights int           `help:"How many flights." default:"400" aliases:"runs" placeholder:"N"`
	Seed    *uint64       `help:"What chance is drawn from; absent: the seed of the flight." placeholder:"S"`
	Preset  string        `help:"Law of the errors: well-kept, ordinary or neglected; absent: that of the flight, or ordinary." placeholder:"NAME"`
	Every   time.Duration `help:"Time between two looks at the flights." default:"15m" placeholder:"DURATION"`
	Shard   string        `help:"Fly only part i of n, to be merged." placeholder:"i/n"`
	Jobs    int           `help:"Flights flown at a time; absent: as many as there are cores." placeholder:"N"`
	Resume  string        `help:"Go on from what was stopped: fly only what this file (.json) lacks." placeholder:"FILE"`
	spreadOut

	ctx context.Context `kong:"-"` // of a test
}

// Help is shown by --help.
func (spreadFlyCmd) Help() string {
	return `Flies one plan many times, each flight with errors of its own, and shows how the error of the ground position grows.
The same seed gives the same flights, however many, on however many cores. Ctrl-C keeps what has been flown.
For example: reckon spread weather-triangle --flights 1000 --plot growth.svg`
}

// Run flies.
func (c spreadFlyCmd) Run(s streams) error {
	from, to, err := c.shard()
	if err == nil {
		err = c.check()
	}
	if err != nil {
		return usageError{err}
	}
	plan, src, err := open(c.Flight, s)
	if err != nil {
		return err
	}
	job, err := c.job(plan, src)
	if err != nil {
		return usageError{err}
	}
	if from == to {
		return usageError{fmt.Errorf("--shard = %s: of %d flights this part has none", c.Shard, c.Flights)}
	}
	f, flown, err := c.fly(s, job, from, to, headOf(plan, src))
	stopped := errors.Is(err, context.Canceled)
	if err != nil && !stopped {
		return fmt.Errorf("%s: %w", c.Flight, err)
	}
	if err := c.write(s, f); err != nil {
		return err
	}
	if stopped {
		return fmt.Errorf("stopped: %d of %d flights were flown; they are kept%s", flown, to-from, c.hint())
	}
	return nil
}

// hint says how to go on from what was stopped.
func (c spreadFlyCmd) hint() string {
	if filepath.Ext(c.Out) != ".json" {
		return ""
	}
	return fmt.Sprintf(" in %s, from which --resume %s goes on", c.Out, c.Out)
}

// fly flies what is wanted of the flights from, to, but for those that are to be
// resumed, and says how many of the wanted there are now.
func (c spreadFlyCmd) fly(s streams, job spread.Job, from, to int, head spread.Head) (*spread.File, int, error) {
	var parts []*spread.File
	gaps := [][2]int{{from, to}}
	if c.Resume != "" {
		had, err := readSpread(c.Resume)
		if err != nil {
			return nil, 0, err
		}
		wanted := &spread.Result{Law: job.Law, Seed: job.Seed, Every: job.Every, Asked: job.Flights, Nominal: had.Nominal}
		if _, err := spread.MergeFiles([]*spread.File{had, {Head: head, Result: wanted}}); err != nil {
			return nil, 0, fmt.Errorf("--resume %s: %w", c.Resume, err) // before anything is flown in vain
		}
		parts, gaps = append(parts, had), within(had.Missing(), from, to)
	}
	progress := newProgress(s.err)
	defer progress.end()
	job.Progress = func(done, total int, _ func() *spread.Result) { progress.told(done, total) }
	ctx, stop := c.context()
	defer stop()
	var stopped error
	for _, gap := range gaps {
		job.From, job.To = gap[0], gap[1]
		r, err := spread.Run(ctx, job)
		if err != nil && !errors.Is(err, context.Canceled) {
			return nil, 0, err
		}
		parts = append(parts, &spread.File{Head: head, Result: r})
		if stopped = err; stopped != nil {
			break
		}
	}
	f, err := spread.MergeFiles(parts)
	if err != nil {
		return nil, 0, err
	}
	flown := to - from
	for _, gap := range within(f.Missing(), from, to) {
		flown -= gap[1] - gap[0]
	}
	return f, flown, stopped
}

// within are the parts of ranges that lie within one.
func within(ranges [][2]int, from, to int) (out [][2]int) {
	for _, r := range ranges {
		if a, b := max(r[0], from), min(r[1], to); a < b {
			out = append(out, [2]int{a, b})
		}
	}
	return out
}

func (c spreadFlyCmd) check() error {
	if c.Preset != "" {
		if _, ok := spread.Preset(c.Preset); !ok {
			return fmt.Errorf("--preset = %s: must be one of %s", c.Preset, strings.Join(spread.Presets(), ", "))
		}
	}
	switch {
	case c.Flights < 1 || c.Flights > spread.MaxFlights:
		return fmt.Errorf("--flights = %d: must be 1 to %d", c.Flights, spread.MaxFlights)
	case c.Every < spread.MinEvery || c.Every > spread.MaxEvery:
		return fmt.Errorf("--every = %v: must be %v to %v", c.Every, spread.MinEvery, spread.MaxEvery)
	case c.Jobs < 0:
		return fmt.Errorf("--jobs = %d: must be 1 or more", c.Jobs)
	}
	return c.spreadOut.check()
}

// shard reads --shard i/n.
func (c spreadFlyCmd) shard() (from, to int, err error) {
	if c.Shard == "" {
		return 0, c.Flights, nil
	}
	first, second, _ := strings.Cut(c.Shard, "/")
	i, errI := strconv.Atoi(first)
	n, errN := strconv.Atoi(second)
	if errI != nil || errN != nil || i < 1 || i > n {
		return 0, 0, fmt.Errorf("--shard = %s: must be i/n with i from 1 to n, such as 2/4", c.Shard)
	}
	from, to = spread.Shard(c.Flights, i, n)
	return from, to, nil
}

func (c spreadFlyCmd) job(plan *sim.Plan, src *scenarios.Source) (spread.Job, error) {
	j := spread.Job{Plan: plan, Seed: plan.Seed, Every: c.Every, Flights: c.Flights, Workers: c.Jobs}
	if c.Seed != nil {
		j.Seed = *c.Seed
	}
	if j.Workers == 0 {
		j.Workers = runtime.NumCPU()
	}
	switch {
	case c.Preset != "":
		j.Law, _ = spread.Preset(c.Preset)
	case src.Spread != nil:
		j.Law = *src.Spread
	default:
		j.Law, _ = spread.Preset(spread.Default)
	}
	return j, j.Law.Check()
}

func (c spreadFlyCmd) context() (context.Context, context.CancelFunc) {
	if c.ctx != nil {
		return context.WithCancel(c.ctx)
	}
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

func headOf(plan *sim.Plan, src *scenarios.Source) spread.Head {
	sum := sha256.Sum256(src.Text)
	return spread.Head{
		Program: record.Program(), Platform: record.Platform(), Flight: filepath.Base(src.Name), Title: plan.Title, Text: hex.EncodeToString(sum[:]),
	}
}

// spreadMergeCmd is `reckon spread merge`.
type spreadMergeCmd struct {
	Shards []string `arg:"" name:"SHARD" help:"Files that spread --out FILE.json has written."`
	spreadOut
}

// Help is shown by --help.
func (spreadMergeCmd) Help() string {
	return `Joins shards of one spread; whole, they are byte for byte the file of one run. What is missing is told.
For example: reckon spread merge a.json b.json --out whole.json`
}

// Run merges.
func (c spreadMergeCmd) Run(s streams) error {
	if err := c.check(); err != nil {
		return usageError{err}
	}
	var shards []*spread.File
	for _, name := range c.Shards {
		f, err := readSpread(name)
		if err != nil {
			return err
		}
		shards = append(shards, f)
	}
	m, err := spread.MergeFiles(shards)
	if err != nil {
		return fmt.Errorf("%s: %w", strings.Join(c.Shards, ", "), err)
	}
	for _, gap := range m.Missing() {
		fmt.Fprintf(s.err, "flights %d to %d of 0 to %d are missing\n", gap[0], gap[1]-1, m.Asked-1)
	}
	return c.write(s, m)
}

func readSpread(name string) (*spread.File, error) {
	r, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	f, err := spread.Read(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return f, nil
}
