package earth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// fly moves a place as the engine does: heading of the middle of the step,
// chord of a steady turn. Speeds in knots, angles in degrees.
func fly(p *Place, heading, turn, kt, seconds, dt float64) {
	run := float64(kt) * 1852 / 3600 * dt
	x := turn * dt / 2 * math.Pi / 180
	run *= 1 - x*x/6
	for i := range int(math.Round(seconds / dt)) {
		sin, cos := math.Sincos((heading + turn*dt*(float64(i)+0.5)) * math.Pi / 180)
		p.Move(run*cos, run*sin, 0)
	}
}

// missNM is how far a place is from a position, NM.
func missNM(p *Place, lat, lon float64) float64 {
	dLat := p.Lat.Total*180/math.Pi - lat
	dLon := math.Remainder(p.Lon.Total*180/math.Pi-lon, 360)
	return 60 * math.Hypot(dLat, dLon*math.Cos(lat*math.Pi/180))
}

// Truth: 1e-6 NM after ten hours on straight legs, 1e-4 NM in turns.
func TestEndPoints(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_truth_endpoints.csv") {
		p := At(units.At(r.Float("lat1_deg"), r.Float("lon1_deg")))
		fly(&p, r.Float("heading0_deg"), r.Float("turn_deg_s"), r.Float("tas_kt"), r.Float("seconds"), 1.0/16)
		limit := 1e-6
		if r.Text("kind") != "straight" {
			limit = 1e-4
		}
		assert.Less(t, missNM(&p, r.Float("lat2_deg"), r.Float("lon2_deg_unwrapped")), limit, "%v", r)
	}
}

// Still air and a constant heading make a rhumb line of WGS-84.
func TestStillAirIsARhumbLine(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/air_position_rhumb_direct.csv") {
		p := At(units.At(r.Float("lat1"), r.Float("lon1")))
		fly(&p, r.Float("true_heading_deg"), 0, r.Float("TAS_kt"), 3600*r.Float("hours"), 1.0/16)
		assert.Less(t, missNM(&p, r.Float("lat2"), r.Float("lon2")), 1e-6, "%v", r)
	}
}

// The order of the rule: four times the step, sixteen times the error, wherever
// the error is not rounding.
func TestSecondOrder(t *testing.T) {
	exact := At(units.At(70, 0))
	fly(&exact, 75, 0, 250, 36000, 1.0/64)
	lat, lon := exact.Lat.Total*180/math.Pi, exact.Lon.Total*180/math.Pi
	miss := func(dt float64) float64 {
		p := At(units.At(70, 0))
		fly(&p, 75, 0, 250, 36000, dt)
		return missNM(&p, lat, lon)
	}
	assert.InDelta(t, 16, miss(4)/miss(1), 0.5)
	assert.InDelta(t, 16, miss(16)/miss(4), 0.5)
}

// Near the pole a heading other than north and south is a spiral; plain RK4 of
// the rates in hundredths of a second is the judge, to 1 NM from the pole.
func TestAgainstRK4(t *testing.T) {
	for _, c := range []struct{ lat, heading, turn, seconds float64 }{
		{-60, 123, 0, 600}, {89, 30, 0, 600}, {-89.5, 200, 0, 300}, {85, 10, 3, 600}, {0, 359, -1, 600}, {89.7, 90, 0.5, 120},
	} {
		const kt, part = 250.0, 0.01
		p := At(units.At(c.lat, 0))
		fly(&p, c.heading, c.turn, kt, c.seconds, 1.0/16)
		rate := func(at, lat float64) (dlat, dlon float64) {
			sin, cos := math.Sincos((c.heading + c.turn*at) * math.Pi / 180)
			s := math.Sin(lat)
			w := math.Sqrt(1 - e2*s*s)
			v := kt * 1852 / 3600
			return v * cos * w * w * w / (a * (1 - e2)), v * sin * w / (a * math.Cos(lat))
		}
		lat, lon := c.lat*math.Pi/180, 0.0
		for i := range int(c.seconds / part) {
			at := float64(i) * part
			k1, l1 := rate(at, lat)
			k2, l2 := rate(at+part/2, lat+part/2*k1)
			k3, l3 := rate(at+part/2, lat+part/2*k2)
			k4, l4 := rate(at+part, lat+part*k3)
			lat, lon = lat+part/6*(k1+2*k2+2*k3+k4), lon+part/6*(l1+2*l2+2*l3+l4)
		}
		assert.Less(t, missNM(&p, lat*180/math.Pi, lon*180/math.Pi), 1e-6, "%v", c)
	}
}

func TestRadii(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/mech_earth_ratio.csv") {
		overM, overN := inverseRadii(math.Sin(r.Float("lat_deg")*math.Pi/180), 0)
		assert.InDelta(t, r.Float("northing_ratio_1852"), math.Pi/10800/overM/1852, 2e-8, "%v", r)
		assert.InDelta(t, r.Float("easting_ratio_1852"), math.Pi/10800/overN/1852, 2e-8, "%v", r)
	}
}

func TestOverThePole(t *testing.T) {
	p := At(units.At(89.999, 10))
	assert.True(t, p.Move(300, 0, 0))
	assert.Less(t, p.Lat.Total, math.Pi/2)
	assert.InDelta(t, 190, p.Lon.Total*180/math.Pi, 1e-9)
	// 0.001 degree is 111.694 m of meridian there (a(1-e2)/(1-e2)^1.5 = 6399593.6 m).
	back := (math.Pi/2 - p.Lat.Total) * 6399593.6
	assert.InDelta(t, 300-0.001*math.Pi/180*6399593.6, back, 0.01)
}

func TestOutAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-80, 80).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")
		h := rapid.Float64Range(0, 360).Draw(t, "heading")
		p := At(units.At(lat, lon))
		fly(&p, h, 0, 300, 600, 1.0/16)
		fly(&p, h+180, 0, 300, 600, 1.0/16)
		require.Less(t, missNM(&p, lat, lon), 1e-7)
	})
}
