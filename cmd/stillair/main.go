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
	"stillair/scenarios"
	"stillair/sim"
)

func main() {
	name := scenarios.Default
	if len(os.Args) > 1 {
		name = os.Args[1]
	}
	if name == "-h" || name == "--help" {
		fmt.Println("usage: stillair [FLIGHT]\n\nFLIGHT is a shipped flight (reckon list) or a flight file.")
		return
	}
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		fmt.Fprintln(os.Stderr, "stillair: there is no display; without one try: go run ./cmd/reckon fly")
		os.Exit(1)
	}
	plan, err := open(name)
	if err == nil {
		err = run(plan)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, gui.FailureText(name, err))
		os.Exit(1)
	}
}

func run(plan *sim.Plan) error {
	a := app.NewWithID("org.stillair.window")
	w, err := gui.Open(a, plan)
	if err != nil {
		return err
	}
	if file := os.Getenv("STILLAIR_PROBE"); file != "" {
		w.Probe(file)
	}
	a.Run()
	return nil
}

func open(name string) (*sim.Plan, error) {
	f, err := os.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		plan, _, err := scenarios.Open(name)
		return plan, err
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	plan, _, err := scenarios.Load(name, f)
	return plan, err
}
