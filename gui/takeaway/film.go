// Package takeaway is the cards on which a film and papers are ordered, and what
// makes them beside the window: the window goes on, and the card may be shut, while
// they are made.
package takeaway

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"stillair/gui/film"
	"stillair/gui/look"
	"stillair/scenarios"
	"stillair/sim"
)

// format is a kind of film.
type format uint8

const (
	asGIF format = iota
	asPictures
	asMP4
)

// rates are those that may be chosen; rateDefault is the one of reckon.
var rates = []film.Rate{{Num: 24, Den: 1}, {Num: 25, Den: 1}, {Num: 30, Den: 1}, {Num: 50, Den: 1}}

const rateDefault = 1

// cuedSpeed is what counts until a cue gives a speed, as reckon has it.
const cuedSpeed = 30

// What may be chosen, with its words.
var (
	views = []struct {
		word look.Key
		name string
	}{{look.ChartTable, film.ChartView}, {look.LinkageWord, film.LinkageView}, {look.FilmBoth, film.BothView}, {look.FilmCounters, film.CountersView}}
	sizes = []struct {
		word look.Key
		size film.Size
	}{
		{look.FilmWide, film.Size{W: 1920, H: 1080}}, {look.FilmTall, film.Size{W: 1080, H: 1920}},
		{look.FilmSquare, film.Size{W: 1080, H: 1080}}, {look.FilmSmall, film.Size{W: 960, H: 540}},
	}
	lengths = []time.Duration{10 * time.Second, 30 * time.Second, time.Minute, 2 * time.Minute}
	formats = []look.Key{look.FilmGIF, look.FilmPictures, look.FilmMP4}
	parts   = []look.Key{look.FilmFlown, look.FilmWhole}
)

// order is a film as it is ordered.
type order struct {
	view, size, rate, length, format int // of those that may be chosen
	whole                            bool
	cues                             string // the cue file; "" for none
	folder                           string
	title                            string
	light                            look.Variant
	reveal                           bool
}

// errShort is the error of a flight of which nothing has been flown yet.
var errShort = errors.New(look.Text(look.FilmShort))

// make makes the film of an engine, which it has for itself, and gives the name of
// the file or folder.
func (o order) make(ctx context.Context, e *sim.Engine, told func(done, total int)) (name string, err error) {
	if o.whole {
		e.Advance(1 << 62)
	}
	end := sim.TimeOf(e.Tick())
	if end < time.Second {
		return "", errShort
	}
	plan := o.plan(end)
	if o.cues != "" {
		if plan.Cues, err = readCues(o.cues, plan.Rules()); err != nil {
			return "", err
		}
	}
	script, err := film.NewScript(plan, end)
	if err != nil {
		return "", err
	}
	l := film.Look{Size: sizes[o.size].size, Light: o.light, Reveal: o.reveal}
	name = free(filepath.Join(o.folder, fileName(o.title)+"-"+views[o.view].name+o.ending()))
	sink, undo, err := o.sink(ctx, name, l, script.Frames())
	if err != nil {
		return "", err
	}
	run := film.Run{Engine: e, Script: script, Look: l, Sinks: []film.Sink{sink}, Jobs: max(1, runtime.NumCPU()-1), Told: told}
	if err := run.Make(ctx); err != nil {
		undo()
		return "", err
	}
	return name, nil
}

// plan is what the film of a flight up to an end shows when.
func (o order) plan(end time.Duration) film.Plan {
	p := film.Plan{Rate: rates[o.rate], Speed: big.NewRat(cuedSpeed, 1), View: views[o.view].name}
	if o.cues == "" {
		p.Speed = new(big.Rat).Quo(big.NewRat(int64(end), 1), big.NewRat(int64(lengths[o.length]), 1))
	}
	return p
}

// readCues reads a cue file. Errors name it without its folder, so that they can be
// read on the card.
func readCues(name string, rules scenarios.CueRules) (*scenarios.Cues, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return scenarios.LoadCues(filepath.Base(name), f, rules)
}

// cueCount is the number of cues of a file.
func cueCount(c *scenarios.Cues) (n int) {
	for i := range c.Passages {
		if c.Passages[i].Line > 0 {
			n++
		}
	}
	return n
}

func (o order) ending() string { return [...]string{".gif", "-frames", ".mp4"}[o.format] }

// sink begins the file or the folder; undo takes away what is not whole.
func (o order) sink(ctx context.Context, name string, l film.Look, frames int) (film.Sink, func(), error) {
	undo := func() { _ = os.RemoveAll(name) } // its name was free: nothing of anybody else's is in it
	switch format(o.format) {
	case asPictures:
		s, err := film.NewPNGs(name, frames)
		return s, undo, err
	case asMP4:
		s, err := film.NewMP4(ctx, name, l.Size, rates[o.rate])
		return s, undo, err
	}
	f, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return nil, nil, err
	}
	s := &file{film.NewGIF(bufio.NewWriterSize(f, 1<<16), l, rates[o.rate], frames), f}
	return s, func() { _ = f.Close(); undo() }, nil
}

// file is a GIF that closes its file.
type file struct {
	*film.GIF
	file *os.File
}

// Close is part of film.Sink.
func (f *file) Close() error { return errors.Join(f.GIF.Close(), f.file.Close()) }

// free is the name, or the first with a number that nothing has yet.
func free(name string) string {
	ext := filepath.Ext(name)
	base := strings.TrimSuffix(name, ext)
	for i := 2; ; i++ {
		if _, err := os.Lstat(name); errors.Is(err, os.ErrNotExist) || i > 9999 {
			return name
		}
		name = fmt.Sprintf("%s-%d%s", base, i, ext)
	}
}

// fileName is a title as part of a file's name.
func fileName(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	name := strings.Join(words, "-")
	if name == "" {
		return "flight"
	}
	return name[:min(len(name), 80)]
}

// encoder says why there can be no MP4, "" if there can.
func encoder() string {
	if _, err := exec.LookPath(film.Encoder); err != nil {
		return look.Textf(look.FilmNoEncoder, film.Encoder)
	}
	return ""
}
