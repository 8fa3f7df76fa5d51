// Command stillair is the window. It takes the name of a shipped flight or a
// flight file; without one it opens the default flight.
package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"

	_ "stillair/gui/early" // before the toolkit

	"fyne.io/fyne/v2/app"

	"stillair/gui"
	"stillair/gui/exhibit"
	"stillair/gui/flights"
	"stillair/scenarios"
)

func main() {
	name := scenarios.Default
	if len(os.Args) > 1 {
		name = os.Args[1]
	}
	if name == "-h" || name == "--help" {
		fmt.Println("usage: stillair [FLIGHT]\n       stillair --exhibit FILE.toml\n\n" +
			"FLIGHT is a shipped flight (reckon list) or a flight file.\n" +
			"--exhibit stands among visitors, over the whole screen: see docs/exhibit.")
		return
	}
	if name == "--exhibit" && len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "stillair: --exhibit wants one file, such as docs/exhibit/exhibit.toml")
		os.Exit(2)
	}
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		fmt.Fprintln(os.Stderr, "stillair: there is no display; without one try: go run ./cmd/reckon fly")
		os.Exit(1)
	}
	if name == "--exhibit" {
		if err := runExhibit(os.Args[2]); err != nil {
			fmt.Fprintln(os.Stderr, "stillair:", err)
			os.Exit(1)
		}
		return
	}
	if err := run(name); err != nil {
		fmt.Fprintln(os.Stderr, gui.FailureText(name, err))
		os.Exit(1)
	}
}

// run opens the window. A file whose text is at fault opens it too, on the
// default flight, with all that is to be put right; there is time to edit it.
func run(name string) error {
	f, wrong := flights.Open(name)
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

// runExhibit opens the window that stands among visitors.
func runExhibit(file string) error {
	a := app.NewWithID("org.stillair.exhibit")
	if err := exhibit.Open(a, file); err != nil {
		return err
	}
	a.Run()
	return nil
}
