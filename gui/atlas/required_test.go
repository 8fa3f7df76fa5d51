package atlas

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

var noon = time.Date(1957, 8, 14, 12, 0, 0, 0, time.UTC)

// plan is a flight from a place at a true airspeed with a wind set.
func plan(lat, lon, tas float64, wind units.Wind, legs ...sim.Leg) *sim.Plan {
	p := &sim.Plan{Start: noon, Legs: legs}
	p.Aircraft.Position = units.At(lat, lon)
	p.Aircraft.Speed = sim.SpeedOrder{Kind: sim.HoldTAS, Speed: units.Speed(tas) * units.Knot}
	p.Setting.Wind = wind
	return p
}

func wind(from, knots float64) units.Wind {
	return units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(knots) * units.Knot}
}

func steer(kind sim.Steer, deg float64, d time.Duration) sim.Leg {
	return sim.Leg{Steer: kind, Direction: units.Angle(deg) * units.Degree, Ticks: sim.TicksOf(d)}
}

// run is the rhumb line of a leg of the required track.
func run(track []picture.Waypoint, leg int) (course, nm float64) {
	c, d := geodesy.RhumbInverse(track[leg].At, track[leg+1].At)
	return c.Degrees(), d.NM()
}

// Closed form: the vector sum. 100 kt north with a wind from 270 at 20 kt runs
// 100 NM north and 20 NM east in an hour: course atan(0.2) = 11.3099, 101.980 NM.
func TestHeadingAndWindAddUp(t *testing.T) {
	track := Required(plan(10, 179.9, 100, wind(270, 20), steer(sim.HeadingTrue, 0, time.Hour)))
	require.Len(t, track, 2)
	course, nm := run(track, 0)
	assert.InDelta(t, 11.3099, course, 1e-4)
	assert.InDelta(t, 101.9804, nm, 1e-4)
	assert.Empty(t, track[0].Label)
	assert.Equal(t, "A 1300Z", track[1].Label)
}

// A degree of longitude of the equator is 6378.137 km x pi/180 = 60.1077 NM
// (WGS-84). With 100 kt and a wind from 000 at 20 kt, east is made good at
// sqrt(100^2 - 20^2) = 97.9796 kt: 36 min 48.5 s.
func TestPlaceIsReached(t *testing.T) {
	to := sim.Leg{Steer: sim.ToPlace, Place: "there", Target: units.At(0, -179.5)}
	track := Required(plan(0, 179.5, 100, wind(0, 20), to, steer(sim.TrackTrue, 180, time.Hour)))
	require.Len(t, track, 3)
	assert.InDelta(t, 0, track[1].At.Lat.Degrees(), 1e-9)
	assert.InDelta(t, -179.5, units.WrapHalfDegrees(track[1].At.Lon.Degrees()), 1e-9)
	assert.Equal(t, "A 1236Z", track[1].Label)
	course, nm := run(track, 1)
	assert.InDelta(t, 180, course, 1e-6)
	assert.InDelta(t, 120, nm, 1e-6, "down wind: 100 + 20 kt")
	assert.Equal(t, "B 1336Z", track[2].Label, "the seconds of the first leg are kept")
}

// Air miles end a leg: 50 NM at 100 kt are half an hour, and the wind carries 10
// NM in it.
func TestLegByDistance(t *testing.T) {
	leg := sim.Leg{Steer: sim.HeadingTrue, Distance: 50 * units.NM}
	track := Required(plan(-47, 10, 100, wind(180, 20), leg))
	_, nm := run(track, 0)
	assert.InDelta(t, 60, nm, 1e-6)
	assert.Equal(t, "A 1230Z", track[1].Label)
}

// Variation E is added to a magnetic heading: the one set, else the field's.
func TestMagneticLegs(t *testing.T) {
	p := plan(-47, 180, 100, units.Wind{}, steer(sim.HeadingMagnetic, 66, time.Hour))
	east := func(d float64) *units.Variation { v := units.Variation(units.Angle(d) * units.Degree); return &v }
	p.Field = east(24)
	course, _ := run(Required(p), 0)
	assert.InDelta(t, 90, course, 1e-6)
	p.Setting.Variation = east(20)
	course, _ = run(Required(p), 0)
	assert.InDelta(t, 86, course, 1e-6)
	// 47 S 180 in 1957.62 has 23.5 E (IGRF-14, computed for the look of the
	// program from the published coefficients).
	p.Field, p.Setting.Variation = nil, nil
	p.Legs[0].Ticks = sim.TicksOf(time.Minute)
	course, _ = run(Required(p), 0)
	assert.InDelta(t, 66+23.5, course, 0.06)
}

// Constant calibrated airspeed in a climb: true airspeed grows on the way. 150
// kt CAS are 150.0 kt TAS at sea level and 174.1 kt at 10,000 ft (US Standard
// Atmosphere: sqrt of the density ratio 0.7385 gives 174.5, compressibility
// takes 0.4 off; from memory); the mean over an even climb lies between, nearer
// the middle than an end.
func TestClimbIsWorkedOnTheWay(t *testing.T) {
	top := 10000 * units.Foot
	leg := steer(sim.HeadingTrue, 0, 20*time.Minute)
	leg.Altitude, leg.Climb = &top, units.Speed(500*0.3048/60)
	p := plan(0, 0, 0, units.Wind{}, leg, steer(sim.HeadingTrue, 0, time.Hour))
	p.Aircraft.Speed = sim.SpeedOrder{Kind: sim.HoldCAS, Speed: 150 * units.Knot}
	track := Required(p)
	_, climb := run(track, 0)
	_, level := run(track, 1)
	assert.InDelta(t, 174.1, level, 0.3)
	assert.InDelta(t, (150+level)/2, climb*3, 1)
}

// What cannot be flown ends the track and nothing hangs.
func TestWhatCannotBeHeldEnds(t *testing.T) {
	to := sim.Leg{Steer: sim.ToPlace, Target: units.At(1, 0)}
	assert.Len(t, Required(plan(0, 0, 40, wind(0, 60), to)), 1, "head wind")
	assert.Len(t, Required(plan(0, 0, 40, wind(90, 60), to)), 1, "cross wind")
	over := Required(plan(88, 0, 200, units.Wind{}, steer(sim.HeadingTrue, 0, time.Hour), steer(sim.HeadingTrue, 0, 2*time.Hour)))
	assert.Len(t, over, 1, "beyond the pole there is no heading 000")
	assert.Len(t, Required(&sim.Plan{Start: noon}), 1)
	stay := Required(plan(-47, 180, 100, units.Wind{}, sim.Leg{Steer: sim.ToPlace, Target: units.At(-47, -180)}))
	require.Len(t, stay, 2)
	assert.Equal(t, "A 1200Z", stay[1].Label)
}

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, letter(i))
	}
}

// The mechanism flies the plan with the wind set: where it shows the ground
// position at the legs' ends is where the required track turns, but for the
// turns, which the track leaves out (30 s of 3 knots of 60 or so at most), and
// the mechanism's sphere. Nothing is found or set on the way.
func TestRequiredTrackIsWhatTheMechanismShows(t *testing.T) {
	p, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	q := *p
	q.Crew = nil
	e, err := sim.New(&q)
	require.NoError(t, err)
	for e.Advance(1<<20) > 0 {
	}
	track := Required(&q)
	require.Len(t, track, len(q.Legs)+1)
	view := e.View()
	leg := 0
	for _, m := range view.Marks {
		if m.Event == aboard.LegBegun {
			_, d := geodesy.RhumbInverse(track[leg].At, units.Position(m.Ground))
			assert.Less(t, d.NM(), 2.0, "beginning of leg %d", leg)
			leg++
		}
	}
	assert.Equal(t, len(q.Legs), leg)
	_, d := geodesy.RhumbInverse(track[leg].At, units.Position(view.Ground))
	assert.Less(t, d.NM(), 2.0, "the end")
}

func TestTruthOf(t *testing.T) {
	p, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(20*time.Minute + 3*time.Second))
	truth := TruthOf(e.Snapshot(), e.TrueTrack())
	assert.Equal(t, e.Snapshot().Truth.Position, truth.Position)
	assert.Len(t, truth.Track, len(e.TrueTrack())+1)
	assert.Equal(t, truth.Position, truth.Track[len(truth.Track)-1], "up to now")
	assert.InDelta(t, -47.1667, truth.Track[0].Lat.Degrees(), 1e-3)
	for i := 1; i < len(truth.Track); i++ {
		_, d := geodesy.RhumbInverse(truth.Track[i-1], truth.Track[i])
		assert.Less(t, d.NM(), 1.0, "a point every ten seconds")
	}
}

// Names that matter: where legs lead, and one for each lonely island.
func TestRanks(t *testing.T) {
	w, err := scenarios.Waters("tern-islands")
	require.NoError(t, err)
	rank := func(legs ...sim.Leg) map[string]int {
		out := map[string]int{}
		for _, p := range places(w, legs) {
			out[p.Name] = p.Rank
		}
		return out
	}
	r := rank()
	assert.Equal(t, 1, r["Storm Holm"], "a weather station alone on its island")
	assert.Equal(t, 2, r["Lantern Head"], "a light by a port")
	light, ok := w.Place("Lantern Head")
	require.True(t, ok)
	assert.Equal(t, 0, rank(sim.Leg{Steer: sim.ToPlace, Target: light.At})["Lantern Head"])
}

// DrawGround of the Tern Islands, as the window draws it at 1920 x 1080.
func BenchmarkGround(b *testing.B) {
	p, _, err := scenarios.Open(scenarios.Default)
	require.NoError(b, err)
	w, err := Of(p)
	require.NoError(b, err)
	k := look.SizeOf(1920, 1080, 1)
	box := paint.R(12, 12, 1336, 796)
	for name, scale := range map[string]float64{"archipelago": 64, "flight": 300, "island": 1300} {
		b.Run(name, func(b *testing.B) {
			v := picture.View{Centre: units.At(-47.2, 180), Scale: scale, Box: box}
			g, brush := picture.NewGround(w), picture.NewBrush(paint.NewImage(1360, 820), look.Of(look.Paper), k)
			for b.Loop() {
				picture.DrawGround(brush, v, g)
			}
		})
	}
}

func BenchmarkOf(b *testing.B) {
	p, _, err := scenarios.Open(scenarios.Default)
	require.NoError(b, err)
	for b.Loop() {
		w, err := Of(p)
		if err != nil || math.IsNaN(float64(*w.Rose)) {
			b.Fatal(err)
		}
	}
}
