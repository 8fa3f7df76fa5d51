package integrator

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/airlog"
	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

const dt = 1.0 / 16

// sense gives the inputs of an aircraft at sea level in standard air.
func sense(kt, heading float64) Inputs {
	static := isa.Pressure(0)
	t := isa.Temperature(0)
	m := float64(units.Speed(kt)*units.Knot) / float64(isa.SpeedOfSound(t))
	return Inputs{
		Air:     airlog.Inputs{Pitot: static + isa.ImpactPressureAtMach(m, static), Static: static, Temperature: t},
		Compass: units.CompassHeading(units.Wrap(units.Angle(heading) * units.Degree)),
	}
}

// fly runs one leg from a position.
func fly(lat, lon, kt, heading, seconds float64, wrong Imperfections) *State {
	var s State
	in := sense(kt, heading)
	s.Start(in, 0, units.Wind{}, units.At(lat, lon), wrong)
	for range int(math.Round(seconds / dt)) {
		s.Step(in, dt)
	}
	return &s
}

// Against the closed form of the mechanism's own sphere: the rows also name
// what WGS-84 gives, so that the error of the earth model is checked with it.
func TestEarthModel(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_earth_model.csv") {
		if r.Text("fault_id") != "earth-model" {
			continue
		}
		lat := r.Float("lat1_deg")
		s := fly(lat, 0, 200, r.Float("heading_deg"), r.Float("air_nm")/200*3600, Imperfections{})
		p := units.Position(s.AirPosition())
		assert.InDelta(t, r.Float("mech_lat_deg"), p.Lat.Degrees(), 1e-8, "%v", r)
		assert.InDelta(t, r.Float("mech_lon_deg"), p.Lon.Degrees(), 1e-8, "%v", r)
		north := 60 * (p.Lat.Degrees() - r.Float("truth_lat_deg"))
		east := 60 * (p.Lon.Degrees() - r.Float("truth_lon_deg")) * math.Cos(r.Float("truth_lat_deg")*math.Pi/180)
		assert.InDelta(t, r.Float("err_north_nm"), north, 1e-5, "%v", r)
		assert.InDelta(t, r.Float("err_east_nm"), east, 1e-5, "%v", r)
	}
}

// One constant imperfection on a leg of 300 NM at 060: along D (k cos e - 1),
// across D k sin e, from the note's law of a constant factor k and angle e.
func TestConstantImperfections(t *testing.T) {
	deg := units.Degree
	for name, c := range map[string]struct {
		wrong Imperfections
		k, e  float64 // factor, degrees
	}{
		"drive slips":    {Imperfections{Drive: DriveImperfection{Slip: 0.02}}, 0.98, 0},
		"drive broken":   {Imperfections{Drive: DriveImperfection{Slip: 1}}, 0, 0},
		"statute gears":  {Imperfections{Drive: DriveImperfection{GearError: 0.15077944802}}, 1.15077944802, 0},
		"air log scale":  {Imperfections{AirLog: airlog.Imperfection{Scale: -0.03}}, 0.97, 0},
		"resolver zero":  {Imperfections{Resolver: ResolverImperfection{Zero: deg}}, 1, 1},
		"repeater steps": {Imperfections{Heading: HeadingImperfection{Repeater: 3 * deg}}, 1, 3},
		// V_s = V sqrt((T+e)/T) at 288.15 K
		"hot bulb": {Imperfections{AirLog: airlog.Imperfection{TemperatureError: 10}}, math.Sqrt(298.15 / 288.15), 0},
	} {
		s := fly(50, 0, 200, 60, 5400, c.wrong)
		north, east := s.North.Total, s.East.Total
		sin, cos := math.Sincos((60 + c.e) * math.Pi / 180)
		assert.InDelta(t, 300*c.k*cos, north, 1e-9, name)
		assert.InDelta(t, 300*c.k*sin, east, 1e-9, name)
		if c.wrong.AirLog == (airlog.Imperfection{}) {
			assert.InDelta(t, 300, s.AirLog.Miles.Total, 1e-9, "%s: the air log counter is tapped before the drive", name)
		}
	}
	s := fly(50, 0, 200, 60, 5400, Imperfections{Resolver: ResolverImperfection{NorthGain: 0.02}})
	assert.InDelta(t, 153, s.North.Total, 1e-9) // mech_flights.csv resolver-gain-mismatch-1: +3 NM north
}

// twin is the mechanism a second time: no compensation, no types, RK4 of the
// sphere's rates in tenths of a step.
type twin struct{ lat, lon, north, east float64 }

func (w *twin) step(kt, from, to float64) {
	const parts = 10
	h := dt / 3600 / parts
	for i := range parts {
		heading := func(f float64) float64 { return (from + (to-from)*(float64(i)+f)/parts) * math.Pi / 180 }
		lat := func(f float64) float64 { return w.lat + kt*h*f*math.Cos(heading(f/2)) }
		rate := func(f float64) (n, e, l float64) {
			n, e = kt*math.Cos(heading(f)), kt*math.Sin(heading(f))
			return n, e, e / math.Cos(lat(f)/60*math.Pi/180)
		}
		n0, e0, l0 := rate(0)
		n1, e1, l1 := rate(0.5)
		n2, e2, l2 := rate(1)
		w.north, w.east = w.north+h*(n0+4*n1+n2)/6, w.east+h*(e0+4*e1+e2)/6
		w.lat, w.lon = w.lat+h*(n0+4*n1+n2)/6, w.lon+h*(l0+4*l1+l2)/6
	}
}

func TestAgainstASlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, heading := rapid.Float64Range(-75, 75).Draw(t, "lat"), rapid.Float64Range(0, 360).Draw(t, "heading")
		kt := rapid.Float64Range(80, 400).Draw(t, "kt")
		var s State
		s.Start(sense(kt, heading), 0, units.Wind{}, units.At(lat, 0), Imperfections{})
		w := twin{lat: lat * 60}
		for range rapid.IntRange(1, 8).Draw(t, "legs") {
			turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
			for range 200 {
				next := heading + turn*dt
				s.Step(sense(kt, next), dt)
				w.step(kt, heading, next)
				heading = next
			}
		}
		require.InDelta(t, w.north, s.North.Total, 1e-8)
		require.InDelta(t, w.east, s.East.Total, 1e-8)
		require.InDelta(t, w.lat, s.Air.Lat.Total, 1e-8)
		require.InDelta(t, w.lon, s.Air.Lon.Total, 1e-7)
	})
}

func TestLeverMirrorsTheLongitude(t *testing.T) {
	s := fly(0, 179.5, 60, 90, 3600, Imperfections{}) // half a degree past 180
	c := Config{Longitude: HemisphereLever}
	reading := s.LongitudeCounter(&c, s.Air.Lon.Total)
	assert.Equal(t, "E 180 30.0", reading.Arc())
	assert.True(t, reading.Over)
	s.ThrowLever(false)
	assert.Equal(t, "W 180 30.0", s.LongitudeCounter(&c, s.Air.Lon.Total).Arc(), "the drums stand where they stood")
	s.ThrowLever(false)
	assert.Equal(t, "W 180 30.0", s.LongitudeCounter(&c, s.Air.Lon.Total).Arc(), "thrown already")
}

func TestSlewTurnsTheAirCounterAlone(t *testing.T) {
	s := fly(10, 20, 200, 90, 60, Imperfections{})
	ground := s.GroundPosition(&Config{})
	s.SlewLatitude(5 * units.ArcMinute)
	s.SlewLongitude(-3 * units.ArcMinute)
	assert.InDelta(t, 605, s.Air.Lat.Total, 1e-9)
	assert.Equal(t, ground, s.GroundPosition(&Config{}))
}
