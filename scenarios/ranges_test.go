package scenarios

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim/fault"
)

// plainFlight is a small good flight; edit replaces in it or adds to its end.
const plainFlight = `schema = 1
title = "plain"
start = 1957-08-14T09:30:00Z
seed = 7
[aircraft]
position = [-47, 178]
heading_true_deg = 90
pressure_altitude_ft = 10000
tas_kt = 150
[[leg]]
heading_true_deg = 90
duration = "1h"
`

func edit(old, new string) string {
	if old == "" {
		return plainFlight + new + "\n"
	}
	if !strings.Contains(plainFlight, old) {
		panic("not in the plain flight: " + old)
	}
	return strings.Replace(plainFlight, old, new, 1)
}

func check(text string) error {
	_, _, err := Load("f", strings.NewReader(text))
	return err
}

// number is a key with its legal range; place makes a flight with a value.
type number struct {
	key    string
	lo, hi float64
	place  func(v string) string
}

func replaced(old string) func(string) string {
	key, _, _ := strings.Cut(old, " = ")
	return func(v string) string { return edit(old, key+" = "+v) }
}

func added(format string) func(string) string {
	return func(v string) string { return edit("", fmt.Sprintf(format, v)) }
}

func inLeg(key string) func(string) string { return added(key + " = %s") }

// The ranges of the design's flight schema; climb, turn rate and QNH as doc.go
// says; the single values of [mechanism] and the parameters of the faults from
// their tables.
func numbers() []number {
	all := []number{
		{"heading_true_deg", 0, 360, replaced("heading_true_deg = 90")},
		{"pressure_altitude_ft", -1000, 40000, replaced("pressure_altitude_ft = 10000")},
		{"tas_kt", 40, 450, replaced("tas_kt = 150")},
		{"latitude", -90, 90, func(v string) string { return edit("[-47, 178]", "["+v+", 0]") }},
		{"longitude", -180, 180, func(v string) string { return edit("[-47, 178]", "[0, "+v+"]") }},
		{"pressure_altitude_ft", -1000, 40000, inLeg("pressure_altitude_ft")},
		{"tas_kt", 40, 450, inLeg("tas_kt")},
		{"cas_kt", 40, 450, inLeg("cas_kt")},
		{"climb_ft_min", 50, 6000, inLeg("climb_ft_min")},
		{"turn_rate_deg_s", 0, 30, inLeg("turn_rate_deg_s")},
		{"variation_deg", -180, 180, added("[field]\nvariation_deg = %s")},
		{"isa_deviation_c", -60, 60, added("[air]\nisa_deviation_c = %s")},
		{"qnh_hpa", 850, 1085, added("[air]\nqnh_hpa = %s")},
		{"from_deg_true", 0, 360, added("[[air.wind]]\nspeed_kt = 1\nfrom_deg_true = %s")},
		{"speed_kt", 0, 250, added("[[air.wind]]\nfrom_deg_true = 1\nspeed_kt = %s")},
		{"base_ft", -1000, 40000, added("[[air.wind]]\nfrom_deg_true = 1\nspeed_kt = 1\nbase_ft = %s")},
		{"variation_deg", -180, 180, added("[setting]\nvariation_deg = %s")},
		{"wind_from_deg_true", 0, 360, added("[setting]\nwind_kt = 1\nwind_from_deg_true = %s")},
		{"wind_kt", 0, 250, added("[setting]\nwind_from_deg_true = 1\nwind_kt = %s")},
		{"set_variation_deg", -180, 180, added("[[crew]]\nat = \"1m\"\nset_variation_deg = %s")},
		{"from_deg_true", 0, 360, added("[[crew]]\nat = \"1m\"\nset_wind = { speed_kt = 1, from_deg_true = %s }")},
		{"speed_kt", 0, 250, added("[[crew]]\nat = \"1m\"\nset_wind = { from_deg_true = 1, speed_kt = %s }")},
	}
	for _, g := range []struct {
		key    string
		lo, hi float64
		until  string
	}{{"variation_deg", -180, 180, "variation_deg = %s"}, {"wind_from_deg_true", 0, 360, "wind_kt = 1, wind_from_deg_true = %s"},
		{"wind_kt", 0, 250, "wind_from_deg_true = 1, wind_kt = %s"}, {"hand_heading_deg_true", 0, 360, "hand_heading_deg_true = %s"},
		{"hand_latitude_deg", -89, 89, "hand_latitude_deg = %s"}, {"hand_speed_kt", 0, 600, "hand_speed_kt = %s"}} {
		all = append(all, number{g.key, g.lo, g.hi, added("[[lesson]]\ntitle = \"t\"\ntext = \"t\"\ndo = \"d\"\nuntil = { " + g.until + " }")})
	}
	for _, k := range []string{"heading_magnetic_deg", "heading_compass_deg", "track_true_deg"} {
		all = append(all, number{k, 0, 360, added("[[leg]]\nduration = \"1m\"\n" + k + " = %s")})
	}
	for _, s := range fault.Service() {
		if s.Word == "" {
			all = append(all, number{s.Name, s.Min, s.Max, added("[mechanism]\n" + s.Name + " = %s")})
		}
	}
	for _, f := range []struct {
		key string
		hi  float64
	}{{"wind_kt", 60}, {"wander_kt", 60}, {"compass_deg", 10}, {"variation_deg", 10}, {"repeater_deg", 10}, {"resolver_deg", 10},
		{"position_error", 0.1}, {"thermometer_c", 30}, {"air_log_scale", 0.1}, {"drive_ratio", 0.1}, {"start_nm", 60}} {
		all = append(all, number{f.key, 0, f.hi, added("[spread]\nwander_time = \"1h\"\n" + f.key + " = %s")})
	}
	told := "[exercise]\ntask = \"t\"\nfinds = \"f\"\n"
	all = append(all, number{"hold_nm", 0.1, 60, added(told + "hold_nm = %s")})
	for _, e := range fault.Catalogue() {
		for _, p := range e.Params {
			if p.Type == fault.Number && e.Kind != fault.Explanation {
				all = append(all, number{p.Name, p.Min, p.Max,
					added("[mechanism]\nground = \"plotted\"\n[[fault]]\nid = \"" + e.ID + "\"\nat = \"0s\"\n" + p.Name + " = %s")})
			}
		}
	}
	return all
}

// Both ends of every range are legal; a hair beyond, NaN and the infinities
// are not, nor is a number in quotes; and the report names key and value.
func TestEveryRange(t *testing.T) {
	all := numbers()
	require.Greater(t, len(all), 80)
	for _, n := range all {
		for _, ok := range []float64{n.lo, n.hi, (n.lo + n.hi) / 2} {
			assert.NoError(t, check(n.place(float(ok))), "%s %v", n.key, ok)
		}
		whole := strconv.FormatInt(int64(math.Ceil(n.lo)), 10)
		if math.Ceil(n.lo) <= n.hi {
			assert.NoError(t, check(n.place(whole)), "%s: an integer for a number", n.key)
		}
		for _, bad := range []string{float(math.Nextafter(n.lo, -1e6)), float(math.Nextafter(n.hi, 1e6)),
			"nan", "inf", "-inf", `"1"`, "true", "[1]"} {
			text := n.place(bad)
			err := check(text)
			var errs *Errors
			require.ErrorAs(t, err, &errs, "%s %s", n.key, bad)
			require.Len(t, errs.Problems, 1, err)
			p := errs.Problems[0]
			if n.key == "latitude" || n.key == "longitude" {
				assert.Equal(t, "aircraft.position", p.Key)
				assert.Equal(t, 6, p.Line)
				continue
			}
			assert.True(t, strings.HasSuffix(p.Key, n.key), "%s in %s", n.key, p.Key)
			assert.Equal(t, bad, p.Value)
			line := strings.Split(text, "\n")[p.Line-1]
			assert.Contains(t, line, n.key+" = "+bad)
		}
	}
}

// float writes a float as TOML wants it: with a point or an exponent.
func float(x float64) string {
	s := strconv.FormatFloat(x, 'g', -1, 64)
	if !strings.ContainsAny(s, ".e") {
		s += ".0"
	}
	return s
}

func TestIntegersAreNotNumbers(t *testing.T) {
	assert.NoError(t, check(edit("seed = 7", "seed = 0")))
	assert.NoError(t, check(edit("seed = 7", "seed = 9223372036854775807")))
	assert.NoError(t, check(edit("seed = 7", "seed = 0xff")))
	assert.Error(t, check(edit("seed = 7", "seed = 7.0")))
	assert.Error(t, check(edit("seed = 7", "seed = -1")))
	assert.Error(t, check(edit("seed = 7", "seed = 9223372036854775808")))
	assert.Error(t, check(edit("schema = 1", "schema = 1.0")))
	good := "[[fault]]\nid = \"repeater-lost-steps\"\nat = \"0s\"\nsteps = "
	assert.NoError(t, check(edit("", good+"-360")))
	assert.Error(t, check(edit("", good+"-361")))
	assert.Error(t, check(edit("", good+"5.0")))
}

func TestStart(t *testing.T) {
	for v, ok := range map[string]bool{
		"1900-01-01T00:00:00Z":         true,
		"1899-12-31T23:59:59.999Z":     false,
		"1900-01-01T00:30:00+01:00":    false, // 1899 in UTC
		"1899-12-31T23:30:00-01:00":    true,
		"2030-01-01T00:00:00Z":         true,
		"2030-01-01T00:00:01Z":         false,
		"1957-08-14 09:30:00Z":         true, // TOML lets a space stand for the T
		"1957-08-14T09:30:00.5Z":       true,
		"1957-08-14T09:30:00":          false, // local
		"1957-08-14":                   false,
		"09:30:00":                     false,
		`"1957-08-14T09:30:00Z"`:       false,
		"1957-13-14T09:30:00Z":         false,
		"1957-08-14T25:30:00Z":         false,
		"1957-08-14t09:30:00z":         true,
		"1957-02-29T09:30:00Z":         false,
		"1956-02-29T09:30:00.0000001Z": true,
	} {
		err := check(edit("1957-08-14T09:30:00Z", v))
		assert.Equal(t, ok, err == nil, "%s: %v", v, err)
	}
}

func TestDurations(t *testing.T) {
	for v, ticks := range map[string]int64{
		"1h": 57600, "1s": 16, "62500us": 1, "1ns": 1, "62500001ns": 2, "1h30m": 86400, "48h": 48 * 57600, "1.5h": 86400,
		"+1m": 960,
	} {
		p, _, err := Load("f", strings.NewReader(edit(`"1h"`, strconv.Quote(v))))
		require.NoError(t, err, v)
		assert.Equal(t, ticks, p.Legs[0].Ticks, v)
	}
	for _, v := range []string{`"0s"`, `"-1h"`, `"48h0m1s"`, `"1 h"`, `"1d"`, `""`, `"99999999999999h"`, "3600", "1.5", "09:30:00"} {
		assert.Error(t, check(edit(`"1h"`, v)), v)
	}
}
