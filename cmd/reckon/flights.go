package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"stillair/scenarios"
	"stillair/sim"
)

// listCmd is `reckon list`.
type listCmd struct{}

// Run prints the shipped flights.
func (listCmd) Run(s streams) error {
	flights := scenarios.Shipped()
	width := 0
	for _, f := range flights {
		width = max(width, len(f.Name))
	}
	for _, f := range flights {
		fmt.Fprintf(s.out, "%-*s  %s\n", width, f.Name, f.Line)
	}
	return nil
}

// checkCmd is `reckon check`.
type checkCmd struct {
	Files []string `arg:"" name:"FILE" help:"Flight files, or names of shipped flights; - is standard input."`
}

// Help is shown by --help.
func (checkCmd) Help() string { return "For example: reckon check my-flight.toml" }

// Run checks every file and fails if one of them is bad.
func (c checkCmd) Run(s streams) error {
	var bad []error
	for _, name := range c.Files {
		plan, _, err := open(name, s)
		if err != nil {
			bad = append(bad, err)
			continue
		}
		fmt.Fprintf(s.out, "%s: in order: %s, %s\n", name, plan.Title, legsText(len(plan.Legs)))
	}
	return errors.Join(bad...)
}

func legsText(n int) string {
	if n == 1 {
		return "1 leg"
	}
	return fmt.Sprintf("%d legs", n)
}

// open loads a flight by file or by the name of a shipped one; a file that
// exists goes first.
func open(name string, s streams) (*sim.Plan, *scenarios.Source, error) {
	if name == "-" {
		return scenarios.Load("standard input", s.in)
	}
	f, err := os.Open(name)
	if err == nil {
		defer f.Close()
		return scenarios.Load(name, f)
	}
	if !errors.Is(err, os.ErrNotExist) {
		return nil, nil, err
	}
	if strings.ContainsAny(name, `/\`) || strings.HasSuffix(name, ".toml") {
		return nil, nil, fmt.Errorf("%s: there is no such file", name)
	}
	plan, src, err := scenarios.Open(name)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: there is no such file and %w", name, err)
	}
	return plan, src, nil
}
