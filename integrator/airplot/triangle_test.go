package airplot

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Mathematics for Air Crew Trainees (wartime), vectors, exercise b(2): heading 315 at
// 150 mph in a wind from 045 at 30 makes good 304 at 153.
func ExampleTriangle_Solve() {
	x := math.NaN()
	t, err := Triangle{TASKnots: 150, HeadingDegrees: 315, WindKnots: 30, WindFromDegrees: 45,
		GroundspeedKnots: x, TrackDegrees: x}.Solve()
	fmt.Printf("%.0f at %.0f, drift %.0f %v\n", t.TrackDegrees, t.GroundspeedKnots, t.DriftDegrees(), err)
	// Output: 304 at 153, drift -11 <nil>
}

// The limiting cases and all fifteen pairs of unknowns are tested in the topic of
// reckon work that answers with this.
func TestATriangleIsSettledByFour(t *testing.T) {
	x := math.NaN()
	for _, few := range []Triangle{{}, {x, x, x, 40, 150, 50}, {150, 40, 30, 40, 120, x}} {
		same, err := few.Solve()
		assert.ErrorIs(t, err, ErrNotFour)
		assert.Equal(t, fmt.Sprint(few), fmt.Sprint(same))
	}
	_, err := Triangle{100, x, 120, 90, x, 0}.Solve()
	assert.ErrorIs(t, err, ErrNoTriangle)
	_, err = Triangle{150, x, 30, x, 130, 40}.Solve()
	assert.ErrorIs(t, err, ErrMirror)
}
