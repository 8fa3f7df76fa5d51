package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"stillair/cmd/reckon/internal/work"
)

// workCmd is `reckon work`.
type workCmd struct {
	Topic string `arg:"" name:"TOPIC" help:"What to work; see below."`
	In    string `name:"in" help:"The CSV to read; absent: standard input." placeholder:"FILE"`
}

// Help lists the topics with their columns and an example.
func (workCmd) Help() string {
	var b strings.Builder
	b.WriteString("Reads a CSV with a header, adds result columns, keeps the order of the rows.\n")
	for _, t := range work.Topics() {
		fmt.Fprintf(&b, "\n%s: %s\n", t.Name, t.Help)
		for _, f := range t.Forms {
			fmt.Fprintf(&b, "  reads %s\n  adds  %s\n", f.Describe(), strings.Join(f.Adds, ", "))
		}
	}
	b.WriteString("\nFor example: reckon work rhumb --in legs.csv > positions.csv, where legs.csv is\n\n")
	b.WriteString(exampleOf("rhumb"))
	return b.String()
}

func exampleOf(topic string) string {
	for _, t := range work.Topics() {
		if t.Name == topic {
			return "  " + strings.ReplaceAll(strings.TrimSpace(t.Example), "\n", "\n  ")
		}
	}
	return ""
}

// Run works the topic.
func (c workCmd) Run(s streams) error {
	in := s.in
	if c.In != "" && c.In != "-" {
		f, err := os.Open(c.In)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	err := work.Run(c.Topic, in, s.out)
	if errors.Is(err, work.ErrUnknownTopic) {
		return usageError{err}
	}
	return err
}
