package units_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

func TestCompare(t *testing.T) {
	for _, c := range []struct {
		a, b     float64
		decimals int
		want     units.Compared
	}{
		{12.34, 12.26, 1, units.Compared{A: "12.3", B: "12.3", Difference: "0.0"}},
		{12.36, 12.24, 1, units.Compared{A: "12.4", B: "12.2", Difference: "+0.2"}}, // 0.12 alone would print 0.1
		{164.6, 166.4, 0, units.Compared{A: "165", B: "166", Difference: "-1"}},     // 1.8 alone would print 2
		{-0.04, 0.04, 1, units.Compared{A: "0.0", B: "0.0", Difference: "0.0"}},
		{nan, 1, 1, units.Compared{A: "---", B: "1.0", Difference: "---"}},
	} {
		assert.Equal(t, c.want, units.Compare(c.a, c.b, c.decimals))
	}
}

func TestCompareDirections(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want units.Compared
	}{
		{2, 358, units.Compared{A: "002", B: "358", Difference: "+4"}},
		{358, 2, units.Compared{A: "358", B: "002", Difference: "-4"}},
		{359.6, 0.4, units.Compared{A: "000", B: "000", Difference: "0"}},
		{270, 90, units.Compared{A: "270", B: "090", Difference: "+180"}},
		{90, 270, units.Compared{A: "090", B: "270", Difference: "+180"}},
		{nan, 1, units.Compared{A: "---", B: "001", Difference: "---"}},
	} {
		assert.Equal(t, c.want, units.CompareDirections(deg(c.a), deg(c.b)))
	}
}

func TestComparePositions(t *testing.T) {
	assert.Equal(t, units.Compared{A: "47 00.0 S", B: "46 59.0 S", Difference: "-1.0"},
		units.CompareLatitudes(deg(-(46+59.96/60)), deg(-(46+59.04/60))))
	assert.Equal(t, units.Compared{A: "179 59.0 W", B: "179 58.0 E", Difference: "+3.0"},
		units.CompareLongitudes(deg(-179-59.0/60), deg(179+58.0/60)))
	assert.Equal(t, units.Compared{A: "179 58.0 E", B: "179 59.0 W", Difference: "-3.0"},
		units.CompareLongitudes(deg(179+58.0/60), deg(180+1.0/60)))
}

// The reader's own subtraction of the printed figures gives the printed
// difference.
func TestDifferenceIsThatOfThePrintedValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-1e5, 1e5).Draw(t, "a")
		b := rapid.Float64Range(-1e5, 1e5).Draw(t, "b")
		c := units.Compare(a, b, 1)
		pa, _ := strconv.ParseFloat(c.A, 64)
		pb, _ := strconv.ParseFloat(c.B, 64)
		pd, err := strconv.ParseFloat(c.Difference, 64)
		if err != nil || math.Abs(pa-pb-pd) > 1e-9 {
			t.Fatalf("%+v", c)
		}
	})
}
