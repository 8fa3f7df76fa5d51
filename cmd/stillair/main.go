// Command stillair is the window. It takes the name of a shipped flight or a
// flight file; without one it opens the default flight.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"

	_ "stillair/gui/early" // before the toolkit

	"fyne.io/fyne/v2/app"

	"stillair/gui"
	"stillair/gui/exhibit"
	"stillair/gui/flights"
	"stillair/scenarios"
)

func main() {
	if len(os.Args) > 1 && os.Args[1] == "--exhibit" {
		exhibition(os.Args[2:])
		return
	}
	name, seed, err := asked(os.Args[1:])
	if errors.Is(err, flag.ErrHelp) {
		fmt.Println(usage)
		return
	}
	if err != nil {
		fmt.Fprintf(os.Stderr, "stillair: %v\n%s\n", err, usage)
		os.Exit(2)
	}
	wantDisplay()
	if err := run(name, seed); err != nil {
		fmt.Fprintln(os.Stderr, gui.FailureText(name, err))
		os.Exit(1)
	}
}

const usage = `usage: stillair [--sealed SEED] [FLIGHT]
       stillair --exhibit FILE.toml

FLIGHT is a shipped flight (reckon list) or a flight file. With --sealed faults are
drawn by a seed, a whole number, and nobody is told of them before landing; the same
seed and flight give the same trouble. --exhibit stands among visitors, over the whole
screen: see docs/exhibit.`

// asked reads the command line. The seed is nil for a flight that is not sealed.
func asked(args []string) (name string, seed *uint64, err error) {
	f := flag.NewFlagSet("stillair", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	sealed := f.String("sealed", "", "")
	if err := f.Parse(args); err != nil {
		return "", nil, err
	}
	if f.NArg() > 1 {
		return "", nil, errors.New("one flight at a time")
	}
	if name = f.Arg(0); name == "" {
		name = scenarios.Default
	}
	if *sealed != "" {
		n, err := strconv.ParseUint(*sealed, 10, 63)
		if err != nil {
			return "", nil, fmt.Errorf("--sealed %s: a seed is a whole number, 0 or above", *sealed)
		}
		seed = &n
	}
	return name, seed, nil
}

// run opens the window. A file whose text is at fault opens it too, on the
// default flight, with all that is to be put right; there is time to edit it.
func run(name string, seed *uint64) error {
	f, wrong := flights.Open(name)
	if wrong == nil && seed != nil {
		f, wrong = f.Seal(*seed)
	}
	var refused *flights.Refused
	if errors.As(wrong, &refused) && refused.Lines != nil {
		fmt.Fprintln(os.Stderr, gui.FailureText(name, wrong))
		f, _ = flights.OpenShipped(scenarios.Default) // a test flies it
	} else if wrong != nil {
		return wrong
	}
	a := app.NewWithID("org.stillair.window")
	w, err := gui.Open(a, f)
	if err != nil {
		return err
	}
	if refused != nil {
		w.Refuse(refused)
	}
	if file := os.Getenv("STILLAIR_PROBE"); file != "" {
		w.Probe(file)
	}
	a.Run()
	return nil
}

// exhibition opens the window that stands among visitors, or says why not.
func exhibition(args []string) {
	if len(args) != 1 {
		fmt.Fprintln(os.Stderr, "stillair: --exhibit wants one file, such as docs/exhibit/exhibit.toml")
		os.Exit(2)
	}
	wantDisplay()
	if err := runExhibit(args[0]); err != nil {
		fmt.Fprintln(os.Stderr, "stillair:", err)
		os.Exit(1)
	}
}

// wantDisplay ends the program where there is no display.
func wantDisplay() {
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		fmt.Fprintln(os.Stderr, "stillair: there is no display; without one try: go run ./cmd/reckon fly")
		os.Exit(1)
	}
}

// runExhibit opens the window that stands among visitors.
func runExhibit(file string) error {
	a := app.NewWithID("org.stillair.exhibit")
	if err := exhibit.Open(a, file); err != nil {
		return err
	}
	a.Run()
	return nil
}
