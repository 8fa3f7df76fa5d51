package lesson

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/sim"
)

// The laws by which the figures of the lessons are worked, none of them the
// program's. Airspeeds: the standard isentropic relations and the ISO 2533
// troposphere (T = 288.15 - 1.9812 K per 1000 ft, pressure ratio to the power
// 5.25588; speed of sound at sea level 661.4788 kt). They are held against the table
// of published and computed airspeeds below.

// isa is temperature (K) and pressure ratio at a height (ft).
func isa(h float64) (t, delta float64) {
	t = 288.15 - 0.0019812*h
	return t, math.Pow(t/288.15, 5.25588)
}

// impact is the impact pressure, of the pressure at sea level.
func impact(cas float64) float64 { return math.Pow(1+0.2*math.Pow(cas/661.4788, 2), 3.5) - 1 }

// tas is the true airspeed, kt, with the air warmer by so much.
func tas(cas, h, warmer float64) float64 {
	t, delta := isa(h)
	mach := math.Sqrt(5 * (math.Pow(impact(cas)/delta+1, 2.0/7) - 1))
	return 661.4788 * math.Sqrt((t+warmer)/288.15) * mach
}

func cos(deg float64) float64 { return math.Cos(deg * math.Pi / 180) }
func sin(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }

// n is a figure as a text prints it.
func n(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

// whole is a figure without decimals.
func whole(x float64) string { return n(x, 0) }

// Expected: the table of the rule of thumb, exact values in standard air at 150 kt
// (10000 ft 174.05, 25000 ft 221.74; error of the rule +5.95 and +3.26 kt; at 20000
// and 30000 ft +6.00 and -1.70 kt), to 0.05 kt.
func TestTheLawOfTheFigures(t *testing.T) {
	for h, want := range map[float64]float64{1000: 152.18, 2000: 154.41, 10000: 174.05, 15000: 188.18, 25000: 221.74} {
		assert.InDelta(t, want, tas(150, h, 0), 0.05, "%v ft", h)
	}
	assert.InDelta(t, 6.00, 210-tas(150, 20000, 0), 0.05)
	assert.InDelta(t, -1.70, 240-tas(150, 30000, 0), 0.05)
}

// figures are, for each step of a lesson from 1, all the numbers that may stand in it:
// worked ones, and those that the flight or the question gives.
type figures map[int][]string

var number = regexp.MustCompile(`\d+(\.\d+)?`)

func airPosition(*testing.T, *sim.Plan) figures {
	const v, wind = 180.0, 30.0
	return figures{
		2: {"000T", whole(v), whole(v / 60), "270", whole(wind), clock(9, 30, 20)},
		3: {"20", whole(v * 20 / 60), whole(wind * 20 / 60)},
		4: {whole(wind), "1", whole(v), "10", "20", whole(wind / 3)},
		5: {"090", whole(wind), "090/30"},
		6: {clock(9, 30, 40)},
		7: {"270", whole(wind)},
		8: {whole(wind*20/60 + wind*20/60)}, // right for 20 minutes, reversed for 20
	}
}

func pitotToMiles(*testing.T, *sim.Plan) figures {
	v := tas(150, 8000, 0)
	return figures{
		2: {whole(1013.25 * impact(150)), "150"},
		3: {whole(v), "240"},
		4: {whole(v), clock(20, 0, 10), clock(20, 0, 20)},
		5: {clock(20, 0, 10), clock(20, 0, 20), n(v/6, 1), whole(v), "180", "10", "60", whole(180.0 / 60), whole(180.0 / 6), "18", "36"},
		6: {clock(20, 0, 30), clock(20, 0, 40)},
		7: {whole(v / 6)},
	}
}

func airspeedAndHeight(*testing.T, *sim.Plan) figures {
	v10, v20, v30, warm := tas(150, 10000, 0), tas(150, 20000, 0), tas(150, 30000, 0), tas(150, 20000, 10)
	t10, d10 := isa(10000)
	t20, _ := isa(20000)
	rule := func(h float64) float64 { return 150 * (1 + 0.02*h/1000) }
	off := func(h, v float64) string { return whole(math.Abs(rule(h) - v)) }
	return figures{
		1: {whole(tas(150, 0, 0))},
		2: {"10000", "150", clock(19, 0, 16)},
		3: {"10000", whole(100 * d10 * 288.15 / t10), "100", "150", whole(v10), whole(v10 - 150)},
		4: {"2", "1000", "10000", "150", whole(2 * 10), whole(rule(10000) - 150), whole(rule(10000)), whole(v10), off(10000, v10), "153", "170"},
		5: {"150", "20000", whole(rule(20000)), "30000", whole(rule(30000)), clock(19, 0, 32), clock(19, 0, 45)},
		6: {"20000", whole(v20), off(20000, v20), "30000", whole(v30), off(30000, v30), "10000", off(10000, v10)},
		7: {clock(19, 0, 68), "10", "20000"},
		8: {whole(v20), whole(warm), whole(t20), whole(1000 / t20), "100", whole(100 * (warm/v20 - 1)), whole(warm - v20), "10", "40"},
	}
}

func trueHeading4(t *testing.T, p *sim.Plan) figures {
	const v = 180.0
	f := fly(t, p)
	f.engine.GoTo(sim.TicksOf(55 * time.Minute))
	compass := units.Angle(f.engine.View().Compass).Degrees()
	assert.InDelta(t, 66-compass, 4, 1.0, "the compass reads some 4 degrees less")
	assert.InDelta(t, 5*sin(compass), 66-compass, 0.05, "B sin of the compass heading: published form of the deviation")
	return figures{
		1: {"1957", "24", "090T", "0" + whole(90-24)},
		2: {"0", "066T", clock(21, 0, 10)},
		3: {"066", "24", "0" + whole(66+24) + "T", "090"},
		4: {"090T", whole(v / 6), whole(v / 6 * cos(66)), "200", "24", whole(200 + 24), whole(200 - 24)},
		5: {"1", "60", "4", "120", whole(4.0 * 120 / 60), n(120*sin(4), 1), "12"},
		6: {clock(21, 0, 50), clock(21, 0, 52)},
		7: {"090T", "4"},
		8: {"245C", "1", "24", whole(245 - 1), whole(245 - 1 + 24), "245", "270T", "220T"},
	}
}

func northAndEast(*testing.T, *sim.Plan) figures {
	wide := 60 * cos(47)
	minutes := 60 / cos(47)
	return figures{
		2: {"000T", "0"},
		3: {"000T"},
		4: {"070T", "100", whole(100 * sin(70)), whole(100 * cos(70)), "030T", whole(100 * cos(30)), whole(100 * sin(30)), "30"},
		5: {"47", whole(wide), "60", n(1/cos(47), 3), whole(minutes), "1", whole(minutes - 60), "0", "41", "00"},
		6: {"60"},
		7: {"60", whole(1 / cos(60)), whole(60 * cos(60)), n(1/cos(70), 2), "70", n(1/cos(80), 2), "80"},
	}
}

func windLesson(t *testing.T, p *sim.Plan) figures {
	// Winds as vectors toward, north and east, kt.
	set, real := [2]float64{-30 * cos(10), -30 * sin(10)}, [2]float64{-40 * cos(350), -40 * sin(350)}
	drift := func(w [2]float64) (deg, gs float64) {
		return math.Atan2(-w[0], 180+w[1]) * 180 / math.Pi, math.Hypot(180+w[1], w[0])
	}
	setDrift, gs := drift(set)
	realDrift, _ := drift(real)
	hour := math.Hypot(set[0]-real[0], set[1]-real[1])
	f := fly(t, p)
	f.do(wind(10, 30))
	f.engine.GoTo(sim.TicksOf(time.Hour))
	assert.InDelta(t, hour, f.engine.Snapshot().Error.Ground.NM(), 0.6, "but for the two earths, half a mile in a hundred of the way")
	return figures{
		2: {"010/30"},
		3: {"090T", whole(90+setDrift) + "T", whole(setDrift), whole(gs)},
		4: {clock(9, 0, 60)},
		5: {whole(realDrift), whole(setDrift), "090T"},
		6: {"350/40", "010/30", whole(hour), n(hour, 1), n(2*hour, 1), whole(2 * hour), "40"},
		7: {"350/40"},
	}
}

func fixAndReset(t *testing.T, p *sim.Plan) figures {
	f := fly(t, p)
	f.engine.GoTo(sim.TicksOf(40 * time.Minute))
	snap := f.engine.Snapshot()
	fix, err := units.ParsePosition("46 42.0 S 178 57.5 W")
	require.NoError(t, err)
	assert.Equal(t, fix.String(), snap.Truth.Position.String(), "the fix is the true place")
	air := snap.Shown.Air
	// Mid-latitude sailing, from the two positions as printed.
	north := 60 * (fix.Lat - units.Position(air).Printed().Lat).Degrees()
	mean := (fix.Lat.Degrees() + air.Lat.Degrees()) / 2
	east := 60 * (fix.Lon - units.Position(air).Printed().Lon).Degrees() * cos(mean)
	miles, toward := math.Hypot(north, east), math.Atan2(east, north)*180/math.Pi
	speed := miles / (40.0 / 60)
	out := whole(snap.Error.Ground.NM())
	set := fmt.Sprintf("%s/%s", whole(toward+180), whole(speed))
	bearing := greatCircle(fix, gannetRock)
	f.do(wind(toward+180, speed))
	f.do(counters(fix))
	f.engine.GoTo(sim.TicksOf(70 * time.Minute))
	assert.Less(t, f.engine.Snapshot().Error.Ground.NM(), 1.0, "the found wind holds")
	return figures{
		2: {"280/20", clock(9, 30, 40)},
		3: {"0" + whole(bearing-60) + "R", "060T", "00" + whole(60-(bearing-60)) + "T", "0" + whole(bearing-60) + "T", whole(bearing) + "T"},
		4: {clock(9, 30, 40), fix.String(), snap.Shown.Ground.String(), out},
		5: {air.String(), whole(miles), whole(toward) + "T", "40", whole(speed), whole(toward + 180), set, "16"},
		6: {set},
		7: {fix.String()},
		8: {clock(9, 30, 70)},
		9: {out, "40"},
	}
}

func brokenLink(t *testing.T, p *sim.Plan) figures {
	const v, slip = 180.0, 0.1
	all, east := v*40/60, v*10/60+v*30/60*(1-slip)
	wide := 60 * cos(47+10.0/60)
	deg := all / wide
	f := fly(t, p)
	f.engine.GoTo(sim.TicksOf(40 * time.Minute))
	assert.InDelta(t, all, f.engine.View().AirLog.NM(), 0.01)
	assert.InDelta(t, east, f.engine.View().Easting.NM(), 0.01)
	lon := 360 - 178.5 - deg // W
	minutes := func(x float64) float64 { return 60 * (x - math.Floor(x)) }
	put := fmt.Sprintf("47 10.0 S 178 %s W", n(minutes(lon), 1))
	return figures{
		1: {whole(v), "090T", clock(20, 0, 10), whole(v / 6), "10"},
		2: {whole(v / 6), clock(20, 0, 40)},
		3: {whole(all), whole(v), "40", whole(east)},
		6: {whole(all), "090T", "47 10.0 S 178 30.0 E", n(wide, 1), n(deg, 2), n(60*deg, 1), put, "180", n(all*cos(47+10.0/60), 1), "120.0"},
		7: {put},
		8: {whole(v * slip)},
		9: {whole(v * slip), whole(v), "10"},
	}
}

// gannetRock and capeLinnet are the beacons as the waters have them.
var (
	gannetRock = units.Position{Lat: -47.223 * units.Degree, Lon: (182.627 - 360) * units.Degree}
	capeLinnet = units.Position{Lat: -46.2883 * units.Degree, Lon: (182.4001 - 360) * units.Degree}
)

// greatCircle is the bearing at which the great circle of a sphere leaves, degrees; the law
// of the haversines' triangle. Against the ellipsoid it is out by 0.2 degrees at most.
func greatCircle(from, to units.Position) float64 {
	a, b, l := from.Lat.Degrees(), to.Lat.Degrees(), (to.Lon - from.Lon).Degrees()
	deg := math.Atan2(sin(l)*cos(b), cos(a)*sin(b)-sin(a)*cos(b)*cos(l)) * 180 / math.Pi
	return math.Mod(deg+360, 360)
}

// clock is so many minutes after a start, as the clock writes it.
func clock(hour, minute, after int) string {
	m := hour*60 + minute + after
	return fmt.Sprintf("%02d%02d", m/60%24, m%60)
}

// Every number in every text is one of those worked here, or given by the flight;
// a figure that nobody has worked does not pass.
func TestEveryNumberOfTheLessons(t *testing.T) {
	names, plans := lessons(t)
	worked := map[string]func(*testing.T, *sim.Plan) figures{
		"lesson-air-position": airPosition, "lesson-pitot-to-miles": pitotToMiles, "lesson-airspeed-and-height": airspeedAndHeight,
		"lesson-true-heading": trueHeading4, "lesson-north-and-east": northAndEast, "lesson-wind": windLesson,
		"lesson-fix-and-reset": fixAndReset, "lesson-broken-link": brokenLink,
	}
	require.Len(t, names, len(worked))
	for _, name := range names {
		require.Contains(t, worked, name)
		ok := worked[name](t, plans[name])
		for i, s := range plans[name].Lessons {
			var allowed []string
			for _, f := range ok[i+1] {
				allowed = append(allowed, number.FindAllString(f, -1)...)
			}
			text := strings.Join(append(wordsOf(&s), s.Title), "  ")
			used := number.FindAllString(text, -1)
			for _, x := range used {
				assert.True(t, slices.Contains(allowed, x), "%s, step %d: %s stands in it and is not among %v", name, i+1, x, allowed)
			}
			for _, x := range allowed {
				assert.True(t, slices.Contains(used, x), "%s, step %d: %s was worked, and is not in the text", name, i+1, x)
			}
		}
	}
}
