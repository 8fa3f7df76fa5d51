package integrator

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/airlog"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// params are the parameters of a fault by their names in the catalogue; words
// are numbers of the table below.
type params map[string]float64

const (
	axisN, axisE     = 1, 2
	axisLat, axisLon = 3, 4
	disengage        = 22
	ofGround, ofBoth = 32, 33
)

var words = params{
	"N": axisN, "E": axisE, "lat": axisLat, "lon": axisLon, "minutes": 11, "tens-of-minutes": 12, "degrees": 13,
	"hold": 21, "disengage": disengage, "air": 31, "ground": ofGround, "both": ofBoth,
}

func (p params) angle(name string) units.Angle { return units.Angle(p[name]) * units.Degree }

// trains has something done to the trains that are meant.
func trains(spoil func(w *train.Imperfection, p params)) func(w *Imperfections, p params) {
	return func(w *Imperfections, p params) {
		if p["train"] != ofGround {
			spoil(&w.Train, p)
		}
		if p["train"] == ofGround || p["train"] == ofBoth {
			spoil(&w.Ground.Train, p)
		}
	}
}

// faults are those of the catalogue that these links have, as the table of the
// package says.
var faults = map[string]func(w *Imperfections, p params){
	"density-standard-temperature": func(w *Imperfections, _ params) { w.AirLog.Source = airlog.Standard },
	"temperature-mis-set":          func(w *Imperfections, p params) { w.AirLog.TemperatureError = p["temperature_error_k"] },
	"compressibility-neglected":    func(w *Imperfections, _ params) { w.AirLog.Incompressible = true },
	"tas-scale":                    func(w *Imperfections, p params) { w.AirLog.Scale = p["scale"] },
	"low-speed-threshold": func(w *Imperfections, p params) {
		w.AirLog.Threshold = units.Speed(p["threshold_kt"]) * units.Knot
		w.AirLog.Hysteresis = units.Speed(p["hysteresis_kt"]) * units.Knot
	},
	"regulator-ripple": func(w *Imperfections, p params) {
		w.AirLog.Ripple = airlog.Ripple{Amount: p["ripple"], Period: p["period_s"], Duty: p["duty"]}
	},
	"air-log-frozen":    func(w *Imperfections, _ params) { w.AirLog.Frozen = true },
	"drive-slip":        func(w *Imperfections, p params) { w.Drive.Slip = p["slip"] },
	"drive-broken":      func(w *Imperfections, _ params) { w.Drive.Parted = true },
	"wrong-gear-ratio":  func(w *Imperfections, p params) { w.Drive.GearError = p["ratio"] - 1 },
	"backlash":          func(w *Imperfections, p params) { w.Drive.Play = p["backlash_nm"] },
	"resolver-zero-off": func(w *Imperfections, p params) { w.Resolver.Zero = p.angle("zero_deg") },
	"resolver-gain-mismatch": func(w *Imperfections, p params) {
		w.Resolver.NorthGain, w.Resolver.EastGain = p["north_gain_error"], p["east_gain_error"]
	},
	"resolver-not-orthogonal": func(w *Imperfections, p params) { w.Resolver.Skew = p.angle("angle_deg") },
	"quadrant-error": func(w *Imperfections, p params) {
		if p["axis"] == axisN {
			w.Resolver.NorthCrossed = Quadrant(int(p["quadrant"]))
		} else {
			w.Resolver.EastCrossed = Quadrant(int(p["quadrant"]))
		}
	},
	"resolver-stiction": func(w *Imperfections, p params) { w.Resolver.Stiction = p["threshold"] },
	"disc-centre-offset": func(w *Imperfections, p params) {
		w.Resolver.NorthCentre, w.Resolver.EastCentre = p["north_centre"], p["east_centre"]
	},
	"disc-slip": func(w *Imperfections, p params) {
		if p["axis"] == axisN {
			w.Resolver.NorthSlip = p["slip"]
		} else {
			w.Resolver.EastSlip = p["slip"]
		}
	},
	"secant-gear-held": trains(func(w *train.Imperfection, p params) { w.SecantHeld, w.HeldLatitude = true, p.angle("held_lat_deg") }),
	"secant-gear-at-limit": trains(func(w *train.Imperfection, p params) {
		w.SecantLimit, w.Disengages = p.angle("limit_deg"), p["beyond"] == disengage
	}),
	"latitude-coupling":  trains(func(w *train.Imperfection, p params) { w.GearOffset = p.angle("lat_error_deg") }),
	"latitude-drum-jam":  trains(func(w *train.Imperfection, _ params) { w.LatJammed = true }),
	"longitude-drum-jam": trains(func(w *train.Imperfection, _ params) { w.LonJammed = true }),
	"carry-failure": trains(func(w *train.Imperfection, p params) {
		c := train.Carry{Drum: train.Drum(p["drum"] - words["minutes"] + 1), Count: int(p["missed_count"])}
		if p["axis"] == axisLon {
			w.LonCarry = c
		} else {
			w.LatCarry = c
		}
	}),
	"counter-mis-set": trains(func(w *train.Imperfection, p params) {
		if p["axis"] == axisLon {
			w.LonMisSet = p["offset_min"]
		} else {
			w.LatMisSet = p["offset_min"]
		}
	}),
	"latitude-sense-reversed":  trains(func(w *train.Imperfection, _ params) { w.LatReversed = true }),
	"longitude-sense-reversed": trains(func(w *train.Imperfection, _ params) { w.LonReversed = true }),
	"wind-direction-reversed":  func(w *Imperfections, _ params) { w.Ground.Wind.Reversed = true },
	"wind-direction-mis-set":   func(w *Imperfections, p params) { w.Ground.Wind.Turn = p.angle("direction_error_deg") },
	"wind-speed-mis-set":       func(w *Imperfections, p params) { w.Ground.Wind.Speed = p["speed_factor"] - 1 },
	"wind-clock-late":          func(w *Imperfections, p params) { w.Ground.ClockLate = 60 * p["late_min"] },
	"wind-clock-not-reset":     func(w *Imperfections, p params) { w.Ground.ClockOld = 60 * p["old_run_min"] },
	"clock-rate-wrong":         func(w *Imperfections, p params) { w.Ground.ClockRate = p["rate_ppm"] / 1e6 },
	"marker-origin-mis-set": func(w *Imperfections, p params) {
		w.Ground.Marker.North, w.Ground.Marker.East = p["north_nm"], p["east_nm"]
	},
	"chart-scale-wrong": func(w *Imperfections, p params) { w.Ground.Marker.Scale = p["scale_factor"] - 1 },
	"mercator-scale-fixed": func(w *Imperfections, p params) {
		w.Ground.Marker.Fixed, w.Ground.Marker.ScaleLatitude = true, p.angle("scale_lat_deg")
	},
}

// elsewhere are the faults that spoil what is handed in, or are an act of the
// crew.
var elsewhere = []string{
	"pitot-ram-blocked", "pitot-and-drain-blocked", "static-blocked", "static-leak", "pitot-leak", "position-error",
	"capsule-lag", "water-in-pitot-line", "water-head-in-pitot-line", "temperature-ram-rise",
	"compass-deviation", "variation-mis-set", "variation-wrong-sign", "variation-left-at-old-value",
	"gyro-drift-unslaved", "slaving-hang-off", "turning-error", "repeater-lost-steps", "repeater-stuck", "repeater-lag",
	"reset-applied-late", "fix-time-wrong", "reset-to-wrong-fix",
}

// Every fault of the catalogue that can be given is realised here or elsewhere,
// stands in the table of the package, and does something to the fields.
func TestEveryFaultHasItsFields(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	for _, r := range rows.Read(t, "testdata/mech_faults.csv") {
		id := r.Text("id")
		spoil, ours := faults[id]
		if !ours {
			given := r.Text("kind") != "explanation"
			assert.Equal(t, given, slices.Contains(elsewhere, id), id)
			continue
		}
		assert.Contains(t, string(doc), "//\t"+id+" ", "the table of the package")
		p := defaults(t, id)
		if r.Text("kind") == "explanation" { // has no parameters there
			p = params{"lat_error_deg": 1}
		}
		var w Imperfections
		spoil(&w, p)
		assert.NotEqual(t, Imperfections{}, w, id)
	}
}

// defaults are the parameters of a fault as the catalogue gives them.
func defaults(t *testing.T, id string) params {
	p := params{}
	for _, r := range rows.Read(t, "testdata/mech_fault_parameters.csv") {
		if r.Text("fault_id") == id {
			p[r.Text("name")] = number(r.Text("default"))
		}
	}
	return p
}

// number reads a number or a word of the table.
func number(text string) float64 {
	return given("x=" + strings.TrimSpace(text))["x"]
}
