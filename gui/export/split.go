package export

import (
	"math"

	"stillair/integrator/units"
)

// coordinate is a place as the files have it: longitude first, degrees.
type coordinate [2]float64

func coordinateOf(p units.Position) coordinate { return coordinate{longitude(p.Lon), degrees(p.Lat)} }

// split cuts a line at the 180th meridian: each part lies on one side of it, ends
// and begins on it where the line crosses, and has two points at least.
func split(line []units.Position) [][]coordinate {
	var parts [][]coordinate
	var part []coordinate
	add := func(c coordinate) {
		if n := len(part); n == 0 || part[n-1] != c {
			part = append(part, c)
		}
	}
	end := func() {
		if len(part) > 1 {
			parts = append(parts, part)
		}
		part = nil
	}
	var last coordinate
	for i, p := range line {
		c := coordinateOf(p)
		if i > 0 && math.Abs(c[0]) == 180 {
			c[0] = math.Copysign(180, last[0]) // on the meridian it lies on either side
		}
		if i > 0 && math.Abs(c[0]-last[0]) > 180 {
			lat := crossing(last, c)
			add(coordinate{math.Copysign(180, last[0]), lat})
			end()
			add(coordinate{math.Copysign(180, c[0]), lat})
		}
		add(c)
		last = c
	}
	end()
	return parts
}

// crossing is the latitude at which the shorter way from a to b meets the 180th
// meridian.
func crossing(a, b coordinate) float64 {
	to := 180 - math.Abs(a[0])
	share := to / (to + 180 - math.Abs(b[0]))
	return math.Round((a[1]+share*(b[1]-a[1]))*places) / places
}
