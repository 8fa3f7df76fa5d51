package flights

import (
	"bytes"
	"fmt"
	"slices"

	"stillair/scenarios"
)

// CanSeal says whether the faults of a flight can be drawn: it has no faults, lessons and
// exercise of its own, and was not written down.
func (f *Flight) CanSeal() bool {
	return f.Record == nil && f.Plan.Exercise == nil && len(f.Plan.Faults) == 0 && len(f.Plan.Lessons) == 0
}

// Seal is the flight with faults drawn by a seed. Its text holds the seed and no fault, so
// that its record can be flown again and tells nothing to a reader.
func (f *Flight) Seal(seed uint64) (*Flight, error) {
	text := slices.Concat(f.Source.Text, fmt.Appendf(nil, "\n[exercise]\nsealed = %d\n", seed))
	plan, src, err := scenarios.Load(f.Name, bytes.NewReader(text))
	if err != nil {
		return nil, &Refused{Name: f.Name, Path: f.Path, Lines: linesOf(text), Err: err}
	}
	return ready(&Flight{Name: f.Name, Plan: plan, Source: src, Summary: src.Summary})
}
