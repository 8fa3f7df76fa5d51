package sim

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// homing is a flight 60 NM south of a beacon, heading for it at 180 kt in a wind from the
// west; the loop's errors of mounting and of this flight are taken off by off.
func homing(t *testing.T, windKt float64, off units.Angle) *Engine {
	t.Helper()
	p := plan(-48, 179, 0, 180, 3*time.Hour)
	p.Start = time.Date(1957, 8, 14, 0, 30, 0, 0, time.UTC) // noon there: no sky wave
	p.Aircraft.PressureAltitude = 8000 * units.Foot
	p.Air.Winds = []WindEntry{{Wind: wind(270, windKt)}}
	p.Stations = []Station{{"Gannet Rock", BeaconStation, units.At(-47, 179)}}
	p.Aids.Loop = off
	return engine(t, p)
}

// toBeacon is bearing and distance of the beacon from the true place.
func toBeacon(e *Engine) (units.Angle, units.Length) {
	az, _, d := geodesy.GeodesicInverse(e.Snapshot().Truth.Position, units.At(-47, 179))
	return az, d
}

// flyByNeedle steers by the needle, by the ordinary order of heading: five degrees toward a
// needle that lies hard over, less for one that does not, every five seconds. It hands over
// each place, and ends when the station is nearest, or after two hours.
func flyByNeedle(t *testing.T, e *Engine, each func(p units.Position)) (nearest units.Length) {
	t.Helper()
	beacon := aim(t, "loop Gannet Rock")
	_, nearest = toBeacon(e)
	for range 1440 {
		s := e.Scene(beacon)
		side, alive := s.Needle()
		require.True(t, alive)
		v := e.View()
		order := HelmOrder{Heading: units.TrueHeading(units.Wrap(units.Angle(v.Heading) + units.Angle(5*side)*units.Degree)), HeadingOnly: true}
		require.NoError(t, e.Steer(order))
		for range 5 * TicksPerSecond {
			e.Advance(1)
			_, d := toBeacon(e)
			nearest = min(nearest, d)
		}
		each(e.Snapshot().Truth.Position)
		if _, d := toBeacon(e); d > nearest+units.NM && nearest < 5*units.NM {
			break
		}
	}
	return nearest
}

// TestHomingByTheNeedle: in a cross wind the nose follows the station and the path is the
// curve of pursuit that is known for a swimmer who always points at a landing in a stream
// (from memory): with k = wind/airspeed and a the distance abeam of the wind, it lies
// a/2 ((x/a)^(1-k) - (x/a)^(1+k)) down wind at the distance x. Two tenths are what the
// loop's wavering, the steps of the orders and the figure of the earth are granted.
func TestHomingByTheNeedle(t *testing.T) {
	const k = 40.0 / 180
	e := homing(t, 40, 0)
	az, start := toBeacon(e)
	s := e.Scene(aim(t, "loop Gannet Rock"))
	e = homing(t, 40, units.WrapHalf(az-units.Angle(e.Snapshot().Truth.Heading)-s.Null))
	a, most := start.NM(), 0.0
	nearest := flyByNeedle(t, e, func(p units.Position) {
		az, _, d := geodesy.GeodesicInverse(units.At(-47, 179), p)
		x, down := -d.NM()*math.Cos(float64(az)), d.NM()*math.Sin(float64(az))
		if x < 1 {
			return
		}
		most = math.Max(most, down)
		assert.InDelta(t, a/2*(math.Pow(x/a, 1-k)-math.Pow(x/a, 1+k)), down, 0.2, "%.1f NM to go", x)
	})
	assert.Less(t, nearest.NM(), 0.3, "it arrives over the station")
	assert.Greater(t, most, 4.0, "by a curve, not the straight way")
}

// TestHomingArrivesWithTheLoopsErrors: whatever is wrong with the loop within reason, the
// station is come over; only the curve is another one.
func TestHomingArrivesWithTheLoopsErrors(t *testing.T) {
	for _, off := range []float64{-8, 0, 8} {
		e := homing(t, 25, units.Angle(off)*units.Degree)
		assert.Less(t, flyByNeedle(t, e, func(units.Position) {}).NM(), 0.5, "%v", off)
	}
}

// TestTheNeedleIsDead: beyond the range, and where the loop has failed.
func TestTheNeedleIsDead(t *testing.T) {
	e := navigated(t)
	for _, name := range []string{"loop Far Beacon", "loop Nowhere"} {
		s := e.Scene(aim(t, name))
		_, alive := s.Needle()
		assert.False(t, alive, name)
	}
	near := e.Scene(aim(t, "loop Gannet Rock"))
	_, alive := near.Needle()
	assert.True(t, alive)
	e.course.plan.Aids.OutOfOrder = []aboard.Aid{aboard.Loop}
	near = e.Scene(aim(t, "loop Gannet Rock"))
	_, alive = near.Needle()
	assert.False(t, alive)
}
