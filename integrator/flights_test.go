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
	latBy     float64 // minutes that the latitude counter is set wrong at the start
}

// given reads "a=1;b=2 (a remark)" into numbers; words are left out.
func given(text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		number, _, _ := strings.Cut(value, " ")
		if x, err := strconv.ParseFloat(number, 64); err == nil {
			got[name] = x
		}
	}
	return got
}

func always(w Imperfections) func(float64, float64) Imperfections {
	return func(float64, float64) Imperfections { return w }
}

// links is what is wrong by fault id, for a row's parameters and its length in
// seconds. What is not here the mechanism cannot have yet.
var links = map[string]func(p map[string]float64, seconds float64) trial{
	"tas-scale": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{AirLog: airlog.Imperfection{Scale: p["scale"]}})}
	},
	"drive-slip": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Drive: DriveImperfection{Slip: p["slip"]}})}
	},
	"drive-broken": func(p map[string]float64, seconds float64) trial {
		return trial{wrong: func(at, _ float64) (w Imperfections) {
			if at >= seconds*p["break_at_fraction"] {
				w.Drive.Slip = 1
			}
			return w
		}}
	},
	"wrong-gear-ratio": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Drive: DriveImperfection{GearError: p["ratio"] - 1}})}
	},
	"variation-mis-set": func(p map[string]float64, _ float64) trial {
		return trial{set: p["set_minus_true_deg"]}
	},
	"variation-wrong-sign": func(p map[string]float64, _ float64) trial {
		v := p["true_variation"]
		return trial{set: -v, variation: func(float64) float64 { return v }}
	},
	"variation-left-at-old-value": func(p map[string]float64, _ float64) trial {
		return trial{variation: func(miles float64) float64 { return -p["gradient_deg_per_nm"] * miles }}
	},
	"repeater-lost-steps": func(p map[string]float64, _ float64) trial {
		e := units.Angle(p["steps"]*p["step_deg"]) * units.Degree
		return trial{wrong: always(Imperfections{Heading: HeadingImperfection{Repeater: e}})}
	},
	"repeater-stuck": func(p map[string]float64, _ float64) trial {
		return trial{wrong: func(at, heading float64) (w Imperfections) {
			if at >= p["after_s"] {
				w.Heading.Repeater = units.Angle(p["stuck_at"]-heading) * units.Degree
			}
			return w
		}}
	},
	"resolver-zero-off": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Resolver: ResolverImperfection{Zero: units.Angle(p["zero_deg"]) * units.Degree}})}
	},
	"resolver-gain-mismatch": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Resolver: ResolverImperfection{NorthGain: p["north_gain_error"], EastGain: p["east_gain_error"]}})}
	},
	"secant-gear-held": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{SecantHeld: true, HeldLatitude: units.Angle(p["held_lat_deg"]) * units.Degree}})}
	},
	"secant-gear-at-limit": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{SecantLimit: units.Angle(p["limit_deg"]) * units.Degree}})}
	},
	"latitude-coupling":       func(p map[string]float64, _ float64) trial { return trial{latBy: 60 * p["lat_error_deg"]} },
	"counter-mis-set":         func(p map[string]float64, _ float64) trial { return trial{latBy: p["offset_min"]} },
	"latitude-sense-reversed": jam(func(w *train.Imperfection) { w.LatReversed = true }),
	"longitude-sense-reversed": jam(func(w *train.Imperfection) {
		w.LonReversed = true
	}),
	"latitude-drum-jam":  jam(func(w *train.Imperfection) { w.LatJammed = true }),
	"longitude-drum-jam": jam(func(w *train.Imperfection) { w.LonJammed = true }),
}

// jam is something wrong with a train for the time of the row, or throughout.
func jam(spoil func(w *train.Imperfection)) func(p map[string]float64, _ float64) trial {
	return func(p map[string]float64, _ float64) trial {
		return trial{wrong: func(at, _ float64) (w Imperfections) {
			to, limited := p["to_s"]
			if at >= p["jam_from_s"] && (!limited || at < to) {
				spoil(&w.Train)
			}
			return w
		}}
	}
}

// straight is one leg without a turn.
type straight struct{ seconds, kt, heading float64 }

// legsOf reads "600s 200kt 60deg +0deg/s;1800s ..."
func legsOf(t *testing.T, r rows.Row) (legs []straight, seconds float64) {
	for _, text := range strings.Split(r.Text("legs"), ";") {
		var l straight
		var turn float64
		_, err := fmt.Sscanf(strings.TrimSpace(text), "%fs %fkt %fdeg %fdeg/s", &l.seconds, &l.kt, &l.heading, &turn)
		require.NoError(t, err, "%v", r)
		require.Zero(t, turn, "%v", r)
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
	feel := func(l straight) Inputs { return sense(l.kt, l.heading-c.variation(miles)) }
	start := units.At(lat+c.latBy/60, 0)
	s.Start(feel(legs[0]), units.Variation(units.Angle(c.set)*units.Degree), units.Wind{}, start, c.wrong(0, legs[0].heading))
	for _, l := range legs {
		s.Wrong = c.wrong(at, l.heading)
		s.Settle(feel(l))
		for range int(math.Round(l.seconds / dt)) {
			s.Wrong = c.wrong(at, l.heading)
			at, miles = at+dt, miles+l.kt*dt/3600
			s.Step(feel(l), dt)
		}
	}
	return &s
}

// Every row of the table that the links can have: shafts within its 1e-6 NM,
// counters within that and the digits printed.
func TestFlightsWithOneThingWrong(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows.Read(t, "testdata/mech_flights.csv") {
		id := r.Text("fault_id")
		link, ok := links[id]
		if !ok {
			continue
		}
		seen[id]++
		lat := r.Float("lat1_deg")
		legs, seconds := legsOf(t, r)
		c := link(given(r.Text("params")), seconds)
		right, s := flyTrial(lat, legs, trial{}), flyTrial(lat, legs, c)
		p := units.Position(right.AirPosition())
		assert.InDelta(t, r.Float("truth_lat_deg"), p.Lat.Degrees(), 2e-8, "%v", r)
		assert.InDelta(t, r.Float("truth_lon_deg"), p.Lon.Degrees(), 1e-7, "%v", r)
		if r.Has("err_north_nm") {
			assert.InDelta(t, r.Float("err_north_nm"), s.North.Total-right.North.Total, 1e-6, "%v", r)
			assert.InDelta(t, r.Float("err_east_nm"), s.East.Total-right.East.Total, 1e-6, "%v", r)
		}
		if r.Has("ind_lat_deg") {
			p = units.Position(s.AirPosition())
			indicated := p.Lat.Degrees()
			if id == "latitude-coupling" { // the row leaves the error of latitude itself out
				indicated -= c.latBy / 60
			}
			assert.InDelta(t, r.Float("ind_lat_deg"), indicated, 2e-8, "%v", r)
			assert.InDelta(t, r.Float("ind_lon_deg"), p.Lon.Degrees(), 1e-7, "%v", r)
		}
	}
	for id := range links {
		assert.GreaterOrEqual(t, seen[id], 2, id)
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
			Heading:  HeadingImperfection{units.Angle(off) * units.Degree},
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
