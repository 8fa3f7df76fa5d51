package work

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

// Printed values of ISO 2533:1975 (p and rho 1e-5 of the value, T 0.001 K, a
// 0.001 m/s) and of the US Standard Atmosphere 1976 by geometric altitude (one
// unit of the last printed digit, five digits of pressure).
func TestAtmosphereMetres(t *testing.T) {
	q := question{header: "geopotential_m"}
	for _, r := range rows.Read(t, airFolder+"atmosphere_iso2533_metres.csv") {
		q.ask(r, r.Text("H_geopotential_m"))
	}
	for i, a := range q.answer(t, "atmosphere") {
		r := q.rows[i]
		within(t, r, "T_K", 1, a["temperature_k"], 0, 0.001)
		within(t, r, "p_hPa", 100, a["pressure_pa"], 1e-5, 0)
		within(t, r, "rho_kg_m3", 1, a["density_kg_m3"], 1e-5, 0)
		within(t, r, "a_m_s", 1, a["speed_of_sound_m_s"], 0, 0.001)
	}
	q = question{header: "geometric_m"}
	for _, r := range rows.Read(t, airFolder+"atmosphere_ussa76_geometric.csv") {
		q.ask(r, r.Text("Z_geometric_m"))
	}
	for i, a := range q.answer(t, "atmosphere") {
		r := q.rows[i]
		within(t, r, "T_K", 1, a["temperature_k"], 0, 0.001)
		within(t, r, "p_Pa", 1, a["pressure_pa"], 1e-4, 0)
		within(t, r, "rho_kg_m3", 1, a["density_kg_m3"], 0, 2*r.HalfDigit("rho_kg_m3"))
		within(t, r, "a_m_s", 1, a["speed_of_sound_m_s"], 0, 0.01)
	}
}

// Computed by two independent programs: 1e-5 of p and rho and half the last
// printed digit, 0.005 K, 0.02 kt.
func TestAtmosphereFeet(t *testing.T) {
	q := question{header: "pressure_altitude_ft,isa_deviation_c"}
	for _, r := range rows.Read(t, airFolder+"atmosphere_feet_computed.csv") {
		q.ask(r, r.Text("H_geopotential_ft"), "") // an empty deviation is none
	}
	for i, a := range q.answer(t, "atmosphere") {
		r := q.rows[i]
		within(t, r, "T_K", 1, a["temperature_k"], 0, 0.005)
		within(t, r, "p_hPa", 100, a["pressure_pa"], 1e-5, 100*r.HalfDigit("p_hPa"))
		within(t, r, "rho_kg_m3", 1, a["density_kg_m3"], 1e-5, r.HalfDigit("rho_kg_m3"))
		within(t, r, "a_kt", 1852.0/3600, a["speed_of_sound_m_s"], 0, 0.02*1852/3600)
	}
}

// Printed values of ICAO Doc 7488/3: those up to 32 km are answered, those
// above are bad rows.
func TestAtmosphereDoc7488(t *testing.T) {
	q, above := question{header: "pressure_altitude_ft"}, 0
	for _, r := range rows.Read(t, airFolder+"atmosphere_icao7488_feet.csv") {
		if r.Float("H_geopotential_ft") > 32000/0.3048 {
			above++
			_, err := run(atmosphereTopic(), "pressure_altitude_ft\n"+r.Text("H_geopotential_ft")+"\n")
			assert.ErrorContains(t, err, "row 1 (line 2), column pressure_altitude_ft", "%s", r)
			continue
		}
		q.ask(r, r.Text("H_geopotential_ft"))
	}
	assert.NotZero(t, above)
	column := map[string]string{"T_K": "temperature_k", "p_hPa": "pressure_pa", "rho_kg_m3": "density_kg_m3",
		"delta=p/p0": "pressure_pa", "a_m_s": "speed_of_sound_m_s"}
	scale := map[string]float64{"p_hPa": 100, "delta=p/p0": 101325}
	for i, a := range q.answer(t, "atmosphere") {
		r := q.rows[i]
		name := r.Text("quantity")
		if name == "g_m_s2" { // gravity is not a result of the topic
			continue
		}
		require.Contains(t, column, name, "%s", r)
		s := scale[name]
		if s == 0 {
			s = 1
		}
		within(t, r, "value", s, a[column[name]], 1e-5, r.HalfDigit("value")*s)
	}
}

// Warm air is thinner at the same pressure: the gas law by hand,
// p/(287.05287 T), at 10000 ft with 10 degrees above the standard 268.338 K.
func TestAtmosphereDeviation(t *testing.T) {
	out, err := run(atmosphereTopic(), "pressure_altitude_ft,isa_deviation_c\n10000,10\n10000,0\n")
	require.NoError(t, err)
	var f [2][6]float64
	for i, line := range strings.Split(strings.TrimSpace(out), "\n")[1:] {
		_, err := fmt.Sscanf(line, "%g,%g,%g,%g,%g,%g", &f[i][0], &f[i][1], &f[i][2], &f[i][3], &f[i][4], &f[i][5])
		require.NoError(t, err)
	}
	assert.InDelta(t, 278.338, f[0][2], 1e-9)
	assert.Equal(t, f[1][3], f[0][3], "the same pressure")
	assert.InDelta(t, f[0][3]/(287.05287*278.338), f[0][4], 1e-9)
	assert.InDelta(t, math.Sqrt(1.4*287.05287*278.338), f[0][5], 1e-9)
}

// What is refused, with the words of the design: -5 to 32 km in the figure read.
func TestAtmosphereRefuses(t *testing.T) {
	for in, want := range map[string]string{
		"geopotential_m\n32000.1\n":                       "row 1 (line 2), column geopotential_m: 32000.1 is outside -5000 to 32000",
		"geometric_m\n-5000\n32000\n-5000.5\n":            "row 3 (line 4), column geometric_m: -5000.5 is outside -5000 to 32000",
		"pressure_altitude_ft\n-16405\n":                  "column pressure_altitude_ft: -16405 is outside -16404.199",
		"pressure_altitude_ft\n104987\n":                  "column pressure_altitude_ft: 104987 is outside",
		"geopotential_m,isa_deviation_c\n0,60.5\n":        "column isa_deviation_c: 60.5 is outside -60 to 60",
		"height_m\n0\n":                                   "atmosphere reads",
		"geopotential_m,geometric_m\n0,0\n":               "asks two things",
		"geopotential_m,temperature_k\n0,0\n":             "already has the column temperature_k",
		"geopotential_m,isa_deviation_c\n1000,\n1000,x\n": `row 2 (line 3), column isa_deviation_c: "x" is not a number`,
	} {
		_, err := run(atmosphereTopic(), in)
		assert.ErrorContains(t, err, want, "%q", in)
	}
}

// The chain from CAS: one published row (Aviation Formulary V1.46; its
// temperature, -6.72 C, is printed there) and rows of two independent programs.
// Tolerance 0.02 kt, published 0.1 kt; Mach to the last printed digit.
func TestAirspeedChain(t *testing.T) {
	q := question{header: "cas_kt,pressure_altitude_ft,oat_c,isa_deviation_c"}
	for _, r := range rows.Read(t, airFolder+"airspeed_chain.csv") {
		oat, dev := "", ""
		switch s := r.Text("OAT"); {
		case strings.HasPrefix(s, "IAT"):
			oat = "-6.72"
		case s == "-70 F":
			oat = "-56.666666666666664"
		default:
			dev, _, _ = strings.Cut(strings.TrimPrefix(s, "ISA"), " ")
		}
		q.ask(r, r.Text("CAS_kt"), r.Text("pressure_altitude_ft"), oat, dev)
	}
	for i, a := range q.answer(t, "airspeed") {
		r, tol := q.rows[i], 0.02
		if strings.HasPrefix(r.Text("OAT"), "IAT") {
			tol = 0.1
			assert.InDelta(t, 3.1001*3386.38864, a["impact_pressure_pa"], 0.00005*3386.4, "%s: 3.1001 inHg", r)
		}
		within(t, r, "TAS_kt", 1, a["tas_kt"], 0, tol)
		if r.Has("EAS_kt") {
			within(t, r, "EAS_kt", 1, a["eas_kt"], 0, 0.02)
		}
		if r.Has("Mach") {
			within(t, r, "Mach", 1, a["mach"], 0, 2.1*r.HalfDigit("Mach"))
		}
	}
}

// The rule-of-thumb file has true airspeeds in standard air (0.05 kt), the
// computed file impact pressures (1e-5), in both without a temperature column.
func TestAirspeedInStandardAir(t *testing.T) {
	q := question{header: "cas_kt,pressure_altitude_ft"}
	for _, r := range rows.Read(t, airFolder+"airspeed_rule_of_thumb.csv") {
		q.ask(r, r.Text("CAS_kt"), r.Text("PA_ft"))
	}
	for i, a := range q.answer(t, "airspeed") {
		within(t, q.rows[i], "TAS_exact_ISA_kt", 1, a["tas_kt"], 0, 0.05)
	}
	q = question{header: "cas_kt,pressure_altitude_ft"}
	for _, r := range rows.Read(t, airFolder+"airspeed_qc_computed.csv") {
		q.ask(r, r.Text("CAS_kt"), "0")
	}
	for i, a := range q.answer(t, "airspeed") {
		r := q.rows[i]
		within(t, r, "qc_Pa", 1, a["impact_pressure_pa"], 1e-5, r.HalfDigit("qc_Pa"))
		assert.InDelta(t, r.Float("CAS_kt"), a["tas_kt"], 1e-9, "%s: at sea level TAS is CAS", r)
	}
}

// Printed impact pressures of NASA RP-1046: subsonic rows in knots, km/h and
// mph are answered (2e-5), supersonic ones refused.
func TestAirspeedPublished(t *testing.T) {
	knots := map[string]float64{"kt": 1, "km/h": 1 / 1.852, "mph": 1.609344 / 1.852}
	pascals := map[string]float64{"Pa": 1, "psf": 47.8802589803, "inHg": 3386.38864, "mmHg": 133.322387415}
	q, refused := question{header: "cas_kt,pressure_altitude_ft"}, 0
	for _, r := range rows.Read(t, airFolder+"airspeed_qc_published.csv") {
		if r.Text("speed_unit") == "Mach" { // the topic reads no Mach number
			continue
		}
		cas := fmt.Sprint(r.Float("speed") * knots[r.Text("speed_unit")])
		if r.Text("regime") == "supersonic" {
			refused++
			out, err := run(airspeedTopic(), q.header+"\n"+cas+",0\n")
			assert.ErrorContains(t, err, "above the speed of sound", "%s", r)
			assert.Equal(t, q.header+",impact_pressure_pa,mach,eas_kt,tas_kt\n", out)
			continue
		}
		q.ask(r, cas, "0")
	}
	assert.NotZero(t, refused)
	for i, a := range q.answer(t, "airspeed") {
		r := q.rows[i]
		within(t, r, "published_qc", pascals[r.Text("qc_unit")], a["impact_pressure_pa"], 2e-5, 0)
	}
}

func TestAirspeedRefuses(t *testing.T) {
	const header = "cas_kt,pressure_altitude_ft,oat_c,isa_deviation_c\n"
	for in, want := range map[string]string{
		header + "400,35000,,\n":                    "row 1 (line 2), columns cas_kt, pressure_altitude_ft: Mach 1.",
		header + "700,-10000,,\n":                   "column cas_kt: 700 kt is above the speed of sound at sea level, 661.48 kt",
		header + "150,10000,5,10\n":                 "columns oat_c, isa_deviation_c: both are given",
		header + "-1,10000,,\n":                     "column cas_kt: -1 is outside 0 or more",
		header + "150,110000,,\n":                   "column pressure_altitude_ft: 110000 is outside",
		header + "150,10000,-273.15,\n":             "column oat_c: -273.15 is outside -117 to 108",
		header + "150,10000,,-61\n":                 "column isa_deviation_c: -61 is outside -60 to 60",
		header + "150,,,\n":                         "column pressure_altitude_ft: the cell is empty",
		"cas_kt,pressure_altitude_ft,mach\n1,2,3\n": "already has the column mach",
	} {
		_, err := run(airspeedTopic(), in)
		assert.ErrorContains(t, err, want, "%q", in)
	}
	var out bytes.Buffer
	require.NoError(t, Run("airspeed", strings.NewReader("cas_kt,pressure_altitude_ft\n0,0\n"), &out))
	assert.Equal(t, "cas_kt,pressure_altitude_ft,impact_pressure_pa,mach,eas_kt,tas_kt\n0,0,0,0,0,0\n", out.String())
}
