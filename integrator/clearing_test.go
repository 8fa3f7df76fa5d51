package integrator

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/integrator/airlog"
	"stillair/integrator/ground"
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// minutes flies on for some minutes with what is wrong; a new heading or speed
// is taken up at once, before something breaks.
func minutes(s *State, n, kt, heading float64, w Imperfections) {
	s.Settle(sense(kt, heading))
	s.Wrong = w
	for range int(math.Round(n * 60 / dt)) {
		s.Step(sense(kt, heading), dt)
	}
}

func begun(lat, lon, kt, heading float64) *State {
	var s State
	s.Start(sense(kt, heading), 0, units.Wind{}, units.At(lat, lon), Imperfections{})
	return &s
}

// Mended after ten minutes of thirty, each rate fault leaves what it has
// summed and adds nothing: the error of the ten minutes, by the closed form of
// the note, from the very tick of onset to that of mending.
func TestMendingStopsTheGrowth(t *testing.T) {
	const miles = 200.0 / 6 // ten minutes at 200 kt on 060
	sin, cos := math.Sincos(math.Pi / 3)
	turned := func(z float64) (n, e float64) {
		return miles * (math.Cos(math.Pi/3+z) - cos), miles * (math.Sin(math.Pi/3+z) - sin)
	}
	zn, ze := turned(2 * math.Pi / 180)
	for name, c := range map[string]struct {
		w           Imperfections
		north, east float64
	}{
		"scale":  {Imperfections{AirLog: airlog.Imperfection{Scale: 0.02}}, 0.02 * miles * cos, 0.02 * miles * sin},
		"slip":   {Imperfections{Drive: DriveImperfection{Slip: 0.05}}, -0.05 * miles * cos, -0.05 * miles * sin},
		"parted": {Imperfections{Drive: DriveImperfection{Parted: true}}, -miles * cos, -miles * sin},
		"zero":   {Imperfections{Resolver: ResolverImperfection{Zero: 2 * units.Degree}}, zn, ze},
		"centre": {Imperfections{Resolver: ResolverImperfection{NorthCentre: 0.01}}, 0.01 * miles, 0},
		"disc":   {Imperfections{Resolver: ResolverImperfection{NorthSlip: 0.1, EastSlip: 0.2}}, -0.1 * miles * cos, -0.2 * miles * sin},
		"crossed": {Imperfections{Resolver: ResolverImperfection{EastCrossed: Quadrant(1) | Quadrant(3)}},
			0, -2 * miles * sin},
		"hot bulb": {Imperfections{AirLog: airlog.Imperfection{TemperatureError: 10}},
			(math.Sqrt(298.15/288.15) - 1) * miles * cos, (math.Sqrt(298.15/288.15) - 1) * miles * sin},
		"least speed": {Imperfections{AirLog: airlog.Imperfection{Threshold: 201 * units.Knot, Hysteresis: 0.5 * units.Knot}},
			-miles * cos, -miles * sin},
	} {
		s := begun(10, 0, 200, 60)
		minutes(s, 10, 200, 60, Imperfections{})
		minutes(s, 10, 200, 60, c.w)
		minutes(s, 10, 200, 60, Imperfections{})
		assert.InDelta(t, 3*miles*cos+c.north, s.North.Total, 1e-9, name)
		assert.InDelta(t, 3*miles*sin+c.east, s.East.Total, 1e-9, name)
	}
}

// The follow-up motor stops at 200 kt, the aircraft flies on at 260: (V0 - V) t,
// and from the tick of mending the shaft has the speed that is asked for.
func TestFrozenAirLog(t *testing.T) {
	s := begun(0, 0, 200, 90)
	frozen := Imperfections{AirLog: airlog.Imperfection{Frozen: true}}
	minutes(s, 6, 200, 90, frozen)
	minutes(s, 6, 260, 90, frozen)
	assert.InDelta(t, 40, s.AirLog.Miles.Total, 1e-9)
	assert.InDelta(t, 200, s.AirLog.TAS.Knots(), 1e-9)
	minutes(s, 6, 260, 90, Imperfections{})
	assert.InDelta(t, 66, s.AirLog.Miles.Total, 1e-9)

	// Broken from the start, it has the speed of the start.
	var late State
	late.Start(sense(200, 90), 0, units.Wind{}, units.At(0, 0), frozen)
	minutes(&late, 6, 260, 90, frozen)
	assert.InDelta(t, 20, late.AirLog.Miles.Total, 1e-9)
}

// A ripple of whole periods leaves its bias, one of duty 1/2 nothing; within a
// period it is a saw-tooth of 2 r V P duty (1-duty)/3600 NM from peak to peak.
func TestRippleIsASawTooth(t *testing.T) {
	r := airlog.Ripple{Amount: 0.05, Period: 2.2, Duty: 0.3}
	w := Imperfections{AirLog: airlog.Imperfection{Ripple: r}}
	s := begun(0, 0, 200, 90)
	minutes(s, 1, 200, 90, Imperfections{})
	start, least, most := s.AirLog.Miles.Total, 0.0, 0.0
	s.Wrong = w
	const ticks = 352 // ten periods
	for i := range ticks {
		s.Step(sense(200, 90), dt)
		bias := 200 * (1 + 0.05*(2*0.3-1)) * float64(i+1) * dt / 3600
		off := s.AirLog.Miles.Total - start - bias
		least, most = min(least, off), max(most, off)
	}
	peak := 2 * 0.05 * 200 * 2.2 * 0.3 * 0.7 / 3600
	assert.InDelta(t, peak, most-least, 0.05*peak, "read at ticks")
	assert.InDelta(t, 200*22*0.98/3600, s.AirLog.Miles.Total-start, 1e-9)
	at := s.AirLog.Miles.Total
	minutes(s, 1, 200, 90, Imperfections{})
	assert.InDelta(t, 200.0/60, s.AirLog.Miles.Total-at, 1e-9)
	assert.Zero(t, s.AirLog.Hunting, "the next begins a new period")
}

// North 30 min and back with play b leaves +b; driven back it is taken up
// again. Mended while it is out, the counter stands where it stands.
func TestPlayStandsUntilDrivenBack(t *testing.T) {
	w := Imperfections{Drive: DriveImperfection{Play: 0.2}}
	there := func() *State {
		s := begun(0, 0, 120, 0)
		minutes(s, 30, 120, 0, w)
		assert.InDelta(t, 60, s.North.Total, 1e-9, "taken up in the positive sense at the start")
		minutes(s, 30, 120, 180, w)
		assert.InDelta(t, 0.2, s.North.Total, 1e-9)
		assert.InDelta(t, 0.2, s.Air.Lat.Total, 1e-9)
		assert.InDelta(t, 0.2, s.Ground.Running.Lat.Total, 1e-9, "the shafts drive both pairs of trains")
		return s
	}
	s := there()
	minutes(s, 5, 120, 0, w)
	assert.InDelta(t, 10, s.North.Total, 1e-9)
	s = there()
	minutes(s, 5, 120, 0, Imperfections{})
	assert.InDelta(t, 10.2, s.North.Total, 1e-9)
	s.SetCounters(units.At(0, 0))
	minutes(s, 5, 120, 180, w)
	assert.InDelta(t, -9.8, s.North.Total, 1e-9, "a reset takes it up in the positive sense")
}

// A knob moves the counter within the play: turned up, the shaft has to make up
// the play before it drives on; turned down, it drives at once.
func TestKnobAndPlay(t *testing.T) {
	w := Imperfections{Drive: DriveImperfection{Play: 0.2}}
	for by, lost := range map[float64]float64{5: 0.2, 0.1: 0.1, -5: 0} {
		s := begun(0, 0, 120, 0)
		minutes(s, 5, 120, 0, w)
		s.SlewLatitude(units.Angle(by) * units.ArcMinute)
		minutes(s, 5, 120, 0, w)
		assert.InDelta(t, 20+by-lost, s.Air.Lat.Total, 1e-9, "%v", by)
	}
}

// Marker faults show at once and leave nothing: mended, the marker stands where
// the counters say. A wrong scale counts from where it was set wrong.
func TestMendingTheMarker(t *testing.T) {
	s, c := begun(0, 0, 120, 90), Config{}
	minutes(s, 15, 120, 90, Imperfections{})
	scale := Imperfections{Ground: ground.Imperfection{Marker: ground.MarkerError{Scale: 0.5}}}
	minutes(s, 15, 120, 90, scale)
	assert.InDelta(t, 60, s.GroundPosition(&c).Lon.Minutes(), 1e-9)
	assert.InDelta(t, 75, s.Marker(&c).Lon.Minutes(), 1e-9)
	s.Wrong = Imperfections{Ground: ground.Imperfection{Marker: ground.MarkerError{North: -3}}}
	assert.InDelta(t, 60, s.Marker(&c).Lon.Minutes(), 1e-9)
	assert.InDelta(t, -3, s.Marker(&c).Lat.Minutes(), 1e-9)
	minutes(s, 15, 120, 90, Imperfections{})
	assert.Equal(t, s.GroundPosition(&c), s.Marker(&c))
	minutes(s, 15, 120, 90, scale)
	assert.InDelta(t, 135, s.Marker(&c).Lon.Minutes(), 1e-9, "it starts anew")
	s.SetCounters(units.At(0, 0))
	assert.InDelta(t, 0, s.Marker(&c).Lon.Minutes(), 1e-9, "lifted and put down")
}

// In the plotted design the marker is driven by what the plot makes, wind and all.
func TestMarkerInThePlottedDesign(t *testing.T) {
	c := Config{Ground: ground.Plotted}
	w, err := c.Imperfections()
	assert.NoError(t, err)
	w.Ground.Marker.Scale = 0.1
	var s State
	s.Start(sense(120, 90), 0, units.Wind{From: 180 * units.Degree, Speed: 30 * units.Knot}, units.At(0, 0), w)
	minutes(&s, 60, 120, 90, w)
	g, m := s.GroundPosition(&c), s.Marker(&c)
	assert.InDelta(t, 30, g.Lat.Minutes(), 1e-9)
	assert.InDelta(t, 33, m.Lat.Minutes(), 1e-9)
	assert.InDelta(t, 1.1*g.Lon.Minutes(), m.Lon.Minutes(), 1e-9)
}

// A mis-setting is made once, not again by a reset, and stands when it is mended.
func TestMisSettingIsMadeOnce(t *testing.T) {
	s := begun(0, 0, 120, 90)
	w := Imperfections{Train: train.Imperfection{LatMisSet: 10, LonMisSet: -60}}
	minutes(s, 10, 120, 90, w)
	assert.InDelta(t, 10, s.Air.Lat.Total, 1e-9)
	assert.InDelta(t, 0, s.Ground.Running.Lat.Total, 1e-9, "the ground trains have their own")
	minutes(s, 10, 120, 90, Imperfections{})
	assert.InDelta(t, 10, s.Air.Lat.Total, 1e-9)
	s.SetCounters(units.At(0, 0))
	minutes(s, 10, 120, 90, w)
	s.SetCounters(units.At(0, 0))
	minutes(s, 10, 120, 90, w)
	assert.InDelta(t, 0, s.Air.Lat.Total, 1e-9)
	assert.InDelta(t, 20, s.Air.Lon.Total, 1e-9)
}
