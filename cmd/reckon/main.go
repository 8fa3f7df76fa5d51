// Command reckon is stillair without a window: it lists, checks and flies
// flights, and does the trade's calculations on a CSV.
//
// Results go to standard output, everything else to standard error. The exit
// status is 0 when it is done, 1 when the input is bad or a check failed, 2
// when it was called wrongly.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// The exit statuses of the contract.
const (
	exitDone  = 0
	exitBad   = 1
	exitUsage = 2
)

const description = `Flies an air-position integrator without a window, and does the trade's
calculations. For teaching and display only: not for navigation in flight.`

// cli is the command line.
type cli struct {
	List       listCmd       `cmd:"" help:"List the shipped flights, one a line, the name first."`
	Check      checkCmd      `cmd:"" help:"Check flight files; every error is named with its line."`
	Fly        flyCmd        `cmd:"" help:"Fly a flight; print the navigation log and the closing positions."`
	Replay     replayCmd     `cmd:"" help:"Fly a record again and compare it minute by minute."`
	Debrief    debriefCmd    `cmd:"" help:"Share the error of a recorded flight out to the links of the chain."`
	Spread     spreadCmd     `cmd:"" help:"Fly a flight many times with drawn errors: how the error of the ground position grows."`
	Papers     papersCmd     `cmd:"" help:"Print what a class plots with: sheets, forms, readings, problems, as PDF."`
	Film       filmCmd       `cmd:"" help:"Run off a flight as a film: pictures, raw frames, an animated GIF or an MP4."`
	Export     exportCmd     `cmd:"" help:"Write a flight as data: GeoJSON or KML for maps, CSV for sums."`
	Faults     faultsCmd     `cmd:"" help:"List what can go wrong, or show one fault with its parameters."`
	Work       workCmd       `cmd:"" help:"Do one of the trade's calculations on a CSV."`
	Completion completionCmd `cmd:"" help:"Print the completion script of a shell: source <(reckon completion bash)."`
	Man        manCmd        `cmd:"" hidden:"" help:"Print the page of the manual for man."`
}

// streams are what a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// watched remembers the first failure to write, so that no command that prints
// line by line calls itself done when its results have not arrived.
type watched struct {
	io.Writer
	err error
}

func (w *watched) Write(p []byte) (int, error) {
	n, err := w.Writer.Write(p)
	if w.err == nil {
		w.err = err
	}
	return n, err
}

// usageError marks an error as a wrong call.
type usageError struct{ error }

func main() {
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}

// run is the whole program.
func run(args []string, s streams) int {
	status, ended := exitDone, false
	if len(args) == 0 {
		args, status = []string{"--help"}, exitUsage
		s.out = s.err
	}
	out := &watched{Writer: s.out}
	s.out = out
	parser, err := kong.New(&cli{},
		kong.Name("reckon"), kong.Description(description),
		kong.Writers(s.out, s.err), kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(int) { ended = true }),
	)
	if err != nil {
		fmt.Fprintln(s.err, "reckon:", err)
		return exitUsage
	}
	ctx, err := parser.Parse(args)
	if out.err != nil { // help could not be printed
		return report(out.err, s.err)
	}
	if ended { // help was printed
		return status
	}
	if err != nil {
		fmt.Fprintf(s.err, "reckon: %v\ntry: reckon --help\n", err)
		return exitUsage
	}
	ctx.Bind(s)
	ctx.Bind(parser.Model)
	if err = ctx.Run(); err == nil {
		err = out.err
	}
	return report(err, s.err)
}

// report says what went wrong and gives the exit status.
func report(err error, w io.Writer) int {
	var usage usageError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintln(w, "reckon:", err)
		return exitUsage
	default:
		fmt.Fprintln(w, err)
		return exitBad
	}
}
