package integrator

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/airlog"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// trial is a row of mech_flights.csv set up for the mechanism: what is wrong
// at a time and on a heading, the true variation after so many miles, and what
// is set.
type trial struct {
	wrong     func(at, heading float64) Imperfections
	variation func(miles float64) float64
	set       float64 // variation, degrees
}

// given reads "a=1;b=2 (a remark)" into numbers; words not known are left out.
func given(text string) params {
	got := params{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		number, _, _ := strings.Cut(value, " ")
		if x, err := strconv.ParseFloat(number, 64); err == nil {
			got[name] = x
		} else if x, ok := words[number]; ok {
			got[name] = x
		}
	}
	return got
}

func always(w Imperfections) func(float64, float64) Imperfections {
	return func(float64, float64) Imperfections { return w }
}

// straight is one leg without a turn, its speed rising evenly.
type straight struct{ seconds, from, kt, heading float64 }

// legsOf reads "600s 200kt 60deg +0deg/s;1800s 0>200kt ..."
func legsOf(t *testing.T, r rows.Row) (legs []straight, seconds float64) {
	for _, text := range strings.Split(r.Text("legs"), ";") {
		var l straight
		var turn float64
		text = strings.TrimSpace(text)
		_, err := fmt.Sscanf(text, "%fs %f>%fkt %fdeg %fdeg/s", &l.seconds, &l.from, &l.kt, &l.heading, &turn)
		if err != nil {
			_, err = fmt.Sscanf(text, "%fs %fkt %fdeg %fdeg/s", &l.seconds, &l.kt, &l.heading, &turn)
			l.from = l.kt
		}
		require.NoError(t, err, "%v", r)
		legs, seconds = append(legs, l), seconds+l.seconds
	}
	return legs, seconds
}

// flyTrial runs the whole mechanism from pressures and compass to counters.
func flyTrial(lat float64, legs []straight, c trial) *State {
	if c.wrong == nil {
		c.wrong = always(Imperfections{})
	}
	if c.variation == nil {
		c.variation = func(float64) float64 { return 0 }
	}
	var s State
	at, miles := 0.0, 0.0
	feel := func(l straight, part float64) Inputs {
		return sense(l.from+(l.kt-l.from)*part, l.heading-c.variation(miles))
	}
	s.Start(feel(legs[0], 0), units.Variation(units.Angle(c.set)*units.Degree), units.Wind{}, units.At(lat, 0), c.wrong(0, legs[0].heading))
	for _, l := range legs {
		s.Wrong = c.wrong(at, l.heading)
		s.Settle(feel(l, 0))
		steps := math.Round(l.seconds / dt)
		for i := range int(steps) {
			s.Wrong = c.wrong(at, l.heading)
			at, miles = at+dt, miles+l.kt*dt/3600
			s.Step(feel(l, float64(i+1)/steps), dt)
		}
	}
	return &s
}

// tolerance of the rows, 1e-6 NM, with half the last digit printed, degrees.
const tolerance = 1e-6/60 + 5e-10

// Every row of the table that the links can have: shafts within its 1e-6 NM,
// counters within that and the digits printed.
func TestFlightsWithOneThingWrong(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_flights.csv") {
		id := r.Text("fault_id")
		lat := r.Float("lat1_deg")
		legs, seconds := legsOf(t, r)
		c, ok := trialOf(id, given(r.Text("params")), seconds)
		if !ok {
			require.Contains(t, elsewhere, id, "%v: nobody's", r)
			continue
		}
		seen[id]++
		right, s := flyTrial(lat, legs, trial{}), flyTrial(lat, legs, c)
		p := units.Position(right.AirPosition())
		assert.InDelta(t, r.Float("truth_lat_deg"), p.Lat.Degrees(), tolerance, "%v", r)
		assert.InDelta(t, r.Float("truth_lon_deg"), p.Lon.Degrees(), tolerance/math.Cos(float64(p.Lat)), "%v", r)
		if r.Has("err_north_nm") {
			assert.InDelta(t, r.Float("err_north_nm"), s.North.Total-right.North.Total, 1e-6, "%v", r)
			assert.InDelta(t, r.Float("err_east_nm"), s.East.Total-right.East.Total, 1e-6, "%v", r)
		}
		if r.Has("ind_lat_deg") {
			p = units.Position(s.AirPosition())
			assert.InDelta(t, r.Float("ind_lat_deg"), p.Lat.Degrees(), tolerance, "%v", r)
			assert.InDelta(t, r.Float("ind_lon_deg"), p.Lon.Degrees(), tolerance/math.Cos(float64(p.Lat)), "%v", r)
		}
	}
	assert.Len(t, seen, 28)
	for id, n := range seen {
		assert.GreaterOrEqual(t, n, 2, id)
	}
}

// The whole chain with several things wrong at once, and the running ground
// position in a wind, against plain RK4 of the rates in tenths of a step.
func TestSlowTwinWithThingsWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		lat, heading, kt := draw("lat", -70, 70), draw("heading", 0, 360), draw("kt", 80, 400)
		variation, from, blows := draw("variation", -40, 40), draw("from", 0, 360), draw("wind", 0, 100)
		slip, gear, scale := draw("slip", 0, 0.2), draw("gear", -0.1, 0.1), draw("scale", -0.1, 0.1)
		zero, off := draw("zero", -5, 5), draw("repeater", -20, 20)
		gainN, gainE := draw("north", -0.1, 0.1), draw("east", -0.1, 0.1)
		senseN, senseE := rapid.Bool().Draw(t, "N reversed"), rapid.Bool().Draw(t, "E reversed")
		w := Imperfections{
			AirLog: airlog.Imperfection{Scale: scale}, Drive: DriveImperfection{Slip: slip, GearError: gear},
			Heading:  HeadingImperfection{Repeater: units.Angle(off) * units.Degree},
			Resolver: ResolverImperfection{Zero: units.Angle(zero) * units.Degree, NorthGain: gainN, EastGain: gainE},
			Train:    train.Imperfection{LatReversed: senseN, LonReversed: senseE},
		}
		set := units.Wind{From: units.Angle(from) * units.Degree, Speed: units.Speed(blows) * units.Knot}
		var s State
		s.Start(sense(kt, heading-variation), units.Variation(units.Angle(variation)*units.Degree), set, units.At(lat, 0), w)

		sign := func(reversed bool) float64 { return map[bool]float64{false: 1, true: -1}[reversed] }
		v := kt * (1 + scale) * (1 - slip) * (1 + gear) / 3600
		wn, we := -blows/3600*math.Cos(from*math.Pi/180), -blows/3600*math.Sin(from*math.Pi/180)
		rates := func(h float64, y [6]float64) [6]float64 { // N, E, air lat, lon, ground lat, lon: NM and minutes
			a := (h + off + zero) * math.Pi / 180
			n, e := v*math.Cos(a)*(1+gainN), v*math.Sin(a)*(1+gainE)
			return [6]float64{n, e, sign(senseN) * n, sign(senseE) * e / math.Cos(y[2]/60*math.Pi/180),
				n + wn, (e + we) / math.Cos(y[4]/60*math.Pi/180)}
		}
		y := [6]float64{2: lat * 60, 4: lat * 60}
		for range rapid.IntRange(1, 5).Draw(t, "legs") {
			turn := draw("turn", -3, 3)
			for range 160 {
				next := heading + turn*dt
				s.Step(sense(kt, next-variation), dt)
				y = rk4(y, dt, 10, func(f float64, y [6]float64) [6]float64 { return rates(heading+(next-heading)*f, y) })
				heading = next
			}
		}
		g := units.Position(s.GroundPosition(&Config{}))
		for i, got := range []float64{s.North.Total, s.East.Total, s.Air.Lat.Total, s.Air.Lon.Total, g.Lat.Minutes(), g.Lon.Minutes()} {
			require.InDelta(t, y[i], got, 1e-7, "%d", i)
		}
	})
}

// rk4 runs a step of h in so many parts; f of the rates is the part of the step
// that has passed.
func rk4(y [6]float64, h float64, parts int, rates func(f float64, y [6]float64) [6]float64) [6]float64 {
	d := h / float64(parts)
	plus := func(y, k [6]float64, x float64) [6]float64 {
		for i := range y {
			y[i] += x * k[i]
		}
		return y
	}
	for i := range parts {
		f := func(x float64) float64 { return (float64(i) + x) / float64(parts) }
		k1 := rates(f(0), y)
		k2 := rates(f(0.5), plus(y, k1, d/2))
		k3 := rates(f(0.5), plus(y, k2, d/2))
		k4 := rates(f(1), plus(y, k3, d))
		y = plus(plus(plus(plus(y, k1, d/6), k2, d/3), k3, d/3), k4, d/6)
	}
	return y
}
