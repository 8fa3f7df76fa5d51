package sim

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/units"
)

// Over the pole the way goes straight on: what is held turns about with the
// meridian, whatever it is read on. 6 NM before the pole and 12 flown end 6 NM
// beyond it, on the other meridian (0.1 degree there is 6.031 NM of meridian:
// 6399593.6 m of radius).
func TestStraightOnOverThePole(t *testing.T) {
	for _, pilot := range []Pilot{AsPlanned, Steady, ByInstruments} {
		for _, pole := range []float64{1, -1} {
			north := units.Angle(0)
			if pole < 0 {
				north = 180 * units.Degree
			}
			for steer, order := range map[Steer]units.Angle{
				HeadingTrue: north, TrackTrue: north, // 15 E everywhere: magnetic reads less
				HeadingMagnetic: units.Wrap(north - 15*units.Degree), HeadingCompass: units.Wrap(north - 15*units.Degree),
			} {
				p := plan(89.9*pole, 10, north.Degrees(), 240, 3*time.Minute)
				p.Pilot, p.Legs[0].Steer, p.Legs[0].Direction = pilot, steer, order
				e := engine(t, p)
				e.Advance(untilTheEnd)
				s := e.Snapshot()
				beyond := 12 - 0.1*60*6399593.6*0.000290888208665722/1852
				assert.InDelta(t, 90-beyond/(60*6399593.6*0.000290888208665722/1852), pole*s.Truth.Position.Lat.Degrees(), 1e-5, "%d %v %d", pilot, pole, steer)
				assert.InDelta(t, -170, s.Truth.Position.Lon.Degrees(), 0.05, "%d %v %d", pilot, pole, steer)
			}
		}
	}
}
