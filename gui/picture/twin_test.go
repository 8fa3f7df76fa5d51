package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/paint"
)

// In every corner of a chart with no room left the plate lies on the chart.
func TestPlateOfTheTwinStaysOnTheChart(t *testing.T) {
	chart := paint.R(20, 20, 800, 480)
	full := NewRoom(chart)
	full.Take(chart)
	for _, z := range []paint.Point{paint.Pt(30, 30), paint.Pt(815, 30), paint.Pt(815, 495), paint.Pt(30, 495), paint.Pt(815, 250), paint.Pt(400, 250)} {
		q := platePlace(chart, z.Add(-10, 0), z, 90, 24, 1, full)
		assert.True(t, chart.Covers(q), "%v: %v", z, q)
		free := platePlace(chart, z.Add(-10, 0), z, 90, 24, 1, nil)
		assert.False(t, free.Overlaps(paint.R(z.X-40, z.Y-30, 60, 60)), "%v: %v lies on the marker", z, free)
	}
}
