package main

import (
	"io"

	"stillair/sim"
)

// chartWriters draw the chart by the ending of the file's name.
var chartWriters = map[string]func(io.Writer, *sim.Engine) error{}

func writeChart(name string, e *sim.Engine) error { return nil }
