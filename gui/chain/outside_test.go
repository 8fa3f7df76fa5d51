package chain

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim"
)

// What the cards print is held against tables from outside (testdata). The
// pressures that go in are made here, by the defining equations of the standard
// atmosphere (ICAO Doc 7488/3) and of compressible flow (NASA RP-1046); both from
// memory, and the rows would not come out if they were wrong.

// pressureAt is that of a pressure altitude, hPa.
func pressureAt(feet float64) float64 {
	const tropopause = 36089.24 // ft, 11 km
	if feet > tropopause {
		return pressureAt(tropopause) * math.Exp(-(feet-tropopause)/20805.8)
	}
	return 1013.25 * math.Pow(1-6.8755856e-6*feet, 5.2558797)
}

// kelvinsAt is the standard temperature below the tropopause.
func kelvinsAt(feet float64) float64 { return 288.15 - 0.0065*0.3048*feet }

// impactOf is the impact pressure of a speed in knots, hPa.
func impactOf(kt, p, kelvins float64) float64 {
	m := kt * 1852 / 3600 / math.Sqrt(1.4*287.05287*kelvins)
	return p * (math.Pow(1+0.2*m*m, 3.5) - 1)
}

// airLogOf are the law lines of an air log that feels these pressures (hPa) and
// has this temperature at its cam; shaft is what it turns at, kt.
func airLogOf(p, qc, kelvins, shaft float64) []string {
	s := &Story{Now: sim.Works{
		Static: units.Pressure(p) * units.Hectopascal, Pitot: units.Pressure(p+qc) * units.Hectopascal,
		Temperature: units.Temperature(kelvins), TAS: units.Speed(shaft) * units.Knot,
	}}
	return s.law(picture.LinkAirLog)
}

// lastOf is the number that a line ends in.
func lastOf(t *testing.T, line string) float64 {
	t.Helper()
	all := regexp.MustCompile(`-?\d+(\.\d+)?`).FindAllString(line[strings.LastIndex(line, "=")+1:], -1)
	require.NotEmpty(t, all, line)
	x, err := strconv.ParseFloat(all[0], 64)
	require.NoError(t, err)
	return x
}

// A card prints tenths of a knot, from pressures printed to 0.01 hPa: half a tenth
// and, at the least impact pressure of the tables, 0.03 kt.
const printedSpeed = 0.05 + 0.03

func TestAirLogCardComesToThePublishedSpeeds(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/airspeed_chain.csv") {
		celsius, err := strconv.ParseFloat(regexp.MustCompile(`(-?[\d.]+) C\)`).FindStringSubmatch(r.Text("OAT"))[1], 64)
		require.NoError(t, err)
		p, qc := pressureAt(r.Float("pressure_altitude_ft")), impactOf(r.Float("CAS_kt"), 1013.25, 288.15)
		law := airLogOf(p, qc, celsius+273.15, 0)
		tolerance := 0.02
		if strings.HasPrefix(r.Text("tolerance"), "0.1") {
			tolerance = 0.1
		}
		assert.InDelta(t, r.Float("Mach"), lastOf(t, law[1]), 1e-4, "%s: %s", r, law[1])
		assert.InDelta(t, r.Float("TAS_kt"), lastOf(t, law[3]), tolerance+printedSpeed, "%s: %s", r, law[3])
	}
}

// felt is what one fault makes of the pressures (hPa) and of the temperature at
// the cam (K), as the column closed_form of the table says.
func felt(r rows.Row, p, qc, kelvins float64) (float64, float64, float64) {
	params := map[string]float64{}
	for _, pair := range strings.Split(r.Text("params"), ";") {
		name, value, _ := strings.Cut(pair, "=")
		params[name], _ = strconv.ParseFloat(value, 64)
	}
	feet, at := r.Float("pressure_altitude_ft"), params["blocked_at_ft"]
	switch id := r.Text("fault_id"); id {
	case "density-standard-temperature":
		return p, qc, kelvinsAt(feet)
	case "temperature-mis-set":
		return p, qc, kelvins + params["temperature_error_k"]
	case "temperature-ram-rise":
		m := r.Float("true_tas_kt") * 1852 / 3600 / math.Sqrt(1.4*287.05287*kelvins)
		return p, qc, kelvins * (1 + 0.2*params["recovery"]*m*m)
	case "position-error", "static-leak":
		k := params["dps_over_qc"] + params["leak_fraction"]*params["cabin_dp_over_qc"]
		return p + k*qc, qc * (1 - k), kelvins
	case "pitot-leak":
		return p, qc * (1 - params["leak_fraction"]), kelvins
	case "pitot-and-drain-blocked":
		return p, pressureAt(at) + impactOf(params["tas_at_blockage_kt"], pressureAt(at), kelvinsAt(at)) - p, kelvins
	case "static-blocked":
		return pressureAt(at), p + qc - pressureAt(at), kelvins
	case "pitot-ram-blocked":
		return p, qc * math.Exp(-params["t_since_onset_s"]/params["decay_s"]), kelvins
	case "water-head-in-pitot-line":
		return p, qc - 0.0980665*params["head_mm"], kelvins
	}
	return p, qc, kelvins
}

// Under a fault of the senses or of the cam the card works out what the air log
// reads; where the capsules themselves have another law, it works out the right
// speed and says in a last line at what the shaft turns.
func TestAirLogCardComesToTheFaultySpeeds(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_airdata.csv") {
		feet, read := r.Float("pressure_altitude_ft"), r.Float("indicated_tas_kt")
		kelvins := kelvinsAt(feet) + r.Float("isa_deviation_K")
		p := pressureAt(feet)
		p, qc, cam := felt(r, p, impactOf(r.Float("true_tas_kt"), p, kelvins), kelvins)
		law := airLogOf(p, qc, cam, read)
		if r.Text("fault_id") == "compressibility-neglected" {
			require.Len(t, law, 5, "%s: %v", r, law)
			assert.InDelta(t, r.Float("true_tas_kt"), lastOf(t, law[3]), printedSpeed, "%s: %s", r, law[3])
			assert.Equal(t, fmt.Sprintf("the shaft turns at %.1f kt", read), law[4], r)
			continue
		}
		require.Len(t, law, 4, "%s: %v", r, law)
		assert.InDelta(t, read, lastOf(t, airLogOf(p, qc, cam, 0)[3]), printedSpeed, "%s: %s", r, law[3])
	}
}

// The height comes out to a foot or two: half of 0.01 hPa is 0.4 ft at 40,000 ft,
// and the printed exponent and factor make as much again.
func TestStaticCardComesToTheTabledHeights(t *testing.T) {
	worked := 0
	for _, r := range rows.Read(t, "testdata/atmosphere_feet_computed.csv") {
		s := &Story{Now: sim.Works{Static: units.Pressure(r.Float("p_hPa")) * units.Hectopascal}}
		law := s.law(picture.LinkStatic)
		if feet := r.Float("H_geopotential_ft"); feet < 36089 {
			worked++
			assert.InDelta(t, feet, lastOf(t, law[0]), 2, "%s: %s", r, law[0])
		} else if feet > 36090 {
			assert.Contains(t, law[0], "above the tropopause", r)
		}
	}
	assert.Greater(t, worked, 10)
}

// Groundspeed as the adders' card prints it, from parts printed in tenths: 0.15 kt.
func TestAddersCardComesToTheTabledGroundspeeds(t *testing.T) {
	given := regexp.MustCompile(`TAS (\d+) HDG (\d+) wind\(from\) (\d+)/(\d+)`)
	worked := 0
	for _, r := range rows.Read(t, "testdata/wind_triangle.csv") {
		m := given.FindStringSubmatch(r.Text("input"))
		if m == nil {
			continue
		}
		worked++
		var x [4]float64
		for i := range x {
			x[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		sin, cos := math.Sincos(x[1] * math.Pi / 180)
		w := sim.Works{Clock: 1, Wind: units.Wind{From: units.Angle(x[2]) * units.Degree, Speed: units.Speed(x[3]) * units.Knot}}
		w.NorthRate, w.EastRate = units.Speed(x[0]*cos)*units.Knot, units.Speed(x[0]*sin)*units.Knot
		law := (&Story{Now: w}).law(picture.LinkAdders)
		want, err := strconv.ParseFloat(regexp.MustCompile(`GS ([\d.]+)`).FindStringSubmatch(r.Text("answer"))[1], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, lastOf(t, law[2]), 0.15, "%s: %s", r, law[2])
	}
	assert.Equal(t, 6, worked)
}
