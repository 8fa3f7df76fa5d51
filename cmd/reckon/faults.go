package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"stillair/sim/fault"
)

// faultsCmd is `reckon faults`.
type faultsCmd struct {
	ID        string `arg:"" optional:"" name:"ID" help:"One fault; absent: all of them."`
	Parameter string `arg:"" optional:"" name:"PARAMETER" help:"One parameter of it."`
	JSON      bool   `name:"json" help:"Print JSON instead of text."`
}

// Help is shown by --help.
func (faultsCmd) Help() string { return "For example: reckon faults drive-slip" }

// Run prints the catalogue, or one fault of it.
func (c faultsCmd) Run(s streams) error {
	if c.ID == "" {
		return c.list(s.out)
	}
	e, ok := fault.Lookup(c.ID)
	if !ok {
		return fmt.Errorf("no fault %q%s", c.ID, meant(fault.Nearest(c.ID), "see: reckon faults"))
	}
	one := *e
	if c.Parameter != "" {
		i, ok := e.Param(c.Parameter)
		if !ok {
			return c.noParameter(e)
		}
		one.Params = e.Params[i : i+1]
	}
	if c.JSON {
		return printJSON(s.out, faultOf(&one))
	}
	writeFault(s.out, &one)
	return nil
}

func (c faultsCmd) noParameter(e *fault.Entry) error {
	var names []string
	for _, p := range e.Params {
		names = append(names, p.Name)
	}
	if len(names) == 0 {
		return fmt.Errorf("%s has no parameters", e.ID)
	}
	return fmt.Errorf("%s has no parameter %q%s", e.ID, c.Parameter,
		meant(fault.NearestOf(c.Parameter, names), "it has "+strings.Join(names, ", ")))
}

func meant(near []string, otherwise string) string {
	if len(near) == 0 {
		return "; " + otherwise
	}
	return "; did you mean " + strings.Join(near, " or ") + "?"
}

func (c faultsCmd) list(w io.Writer) error {
	all := fault.Catalogue()
	if c.JSON {
		list := make([]faultJSON, len(all))
		for i := range all {
			list[i] = faultOf(&all[i])
		}
		return printJSON(w, list)
	}
	ids, links := 0, 0
	for _, e := range all {
		ids, links = max(ids, len(e.ID)), max(links, len(e.Link))
	}
	for _, e := range all {
		fmt.Fprintf(w, "%-*s  %-*s  %s\n", ids, e.ID, links, e.Link, e.Title)
	}
	return nil
}

// writeFault prints one entry as text.
func writeFault(w io.Writer, e *fault.Entry) {
	x := e.Text()
	fmt.Fprintf(w, "%s: %s\nlink %s, kind %s, comes on as %s\n", e.ID, e.Title, e.Link, e.Kind, orNone(shapesOf(e)))
	for _, p := range []struct{ head, text string }{
		{"What breaks", x.Breaks}, {"What the crew see", x.Sees},
		{"What tells it from look-alikes", x.Told}, {"Remedy", x.Remedy}, {"Law", e.Law},
	} {
		fmt.Fprintf(w, "\n%s\n  %s\n", p.head, p.text)
	}
	if len(x.Alike) > 0 {
		fmt.Fprintln(w, "\nLooks like")
	}
	for _, a := range x.Alike {
		fmt.Fprintf(w, "  %s: %s\n", a.ID, a.Check)
	}
	fmt.Fprintln(w, "\nParameters")
	if len(e.Params) == 0 {
		fmt.Fprintln(w, "  none")
	}
	for _, p := range e.Params {
		fmt.Fprintf(w, "  %s = %s  (%s; %s)\n", p.Name, p.Format(p.Default), p.Type, p.Range())
	}
	if why := e.Refusal(); why != "" {
		fmt.Fprintf(w, "\n%s %s.\n", e.ID, why)
	}
}

// shapesOf are the shapes in which it may be given; an explanation has none.
func shapesOf(e *fault.Entry) []string {
	shapes := []string{}
	if e.Refusal() != "" {
		return shapes
	}
	for _, s := range e.Shapes {
		if s != fault.Ramp || e.CanRamp() {
			shapes = append(shapes, s.String())
		}
	}
	return shapes
}

func orNone(words []string) string {
	if len(words) == 0 {
		return "nothing that can be given"
	}
	return strings.Join(words, ", ")
}

// faultJSON is an entry as JSON.
type faultJSON struct {
	ID         string        `json:"id"`
	Link       string        `json:"link"`
	Kind       string        `json:"kind"`
	Title      string        `json:"title"`
	Shapes     []string      `json:"shapes"`
	Breaks     string        `json:"breaks"`
	Sees       string        `json:"sees"`
	Told       string        `json:"told_from_look_alikes"`
	Remedy     string        `json:"remedy"`
	Alike      []fault.Alike `json:"looks_like"`
	Law        string        `json:"law"`
	Parameters []paramJSON   `json:"parameters"`
}

// paramJSON is a parameter; Min and Max are there for numbers, Choices else.
type paramJSON struct {
	Name    string   `json:"name"`
	Type    string   `json:"type"`
	Unit    string   `json:"unit,omitempty"`
	Default any      `json:"default"`
	Min     *float64 `json:"min,omitempty"`
	Max     *float64 `json:"max,omitempty"`
	Choices []string `json:"choices,omitempty"`
}

func faultOf(e *fault.Entry) faultJSON {
	x := e.Text()
	f := faultJSON{
		ID: e.ID, Link: e.Link, Kind: string(e.Kind), Title: e.Title, Shapes: shapesOf(e),
		Breaks: x.Breaks, Sees: x.Sees, Told: x.Told, Remedy: x.Remedy, Alike: append([]fault.Alike{}, x.Alike...), Law: e.Law, Parameters: []paramJSON{},
	}
	for _, p := range e.Params {
		f.Parameters = append(f.Parameters, paramOf(p))
	}
	return f
}

func paramOf(p fault.Param) paramJSON {
	j := paramJSON{Name: p.Name, Type: string(p.Type), Unit: p.Unit, Default: p.Default}
	switch p.Type {
	case fault.Choice:
		j.Default, j.Choices = p.Format(p.Default), p.Choices
	case fault.Bool:
		j.Default = p.Default != 0
	default:
		lo, hi := p.Min, p.Max
		j.Min, j.Max = &lo, &hi
	}
	return j
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
