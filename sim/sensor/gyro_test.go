package sensor

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/internal/rows"
)

// given reads "a=1;b=true (a remark)" into numbers; words are left out.
func given(text string) map[string]float64 {
	got := map[string]float64{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		number, _, _ := strings.Cut(value, " ")
		if x, err := strconv.ParseFloat(number, 64); err == nil {
			got[name] = x
		} else if number == "true" {
			got[name] = 1
		}
	}
	return got
}

// Every row of the table of gyros left alone: earth rate, transport, latitude
// nut, and the change of reading over the time given.
func TestFreeGyro(t *testing.T) {
	for _, r := range rows.Read(t, "testdata/nav_gyro.csv") {
		w := &World{Latitude: units.Angle(r.Float("lat_deg")) * units.Degree, Temperature: 288}
		hours, tolerance := r.Float("hours"), 0.01
		g := Gyro{Free: true, EarthRate: true, Transport: true}
		if r.Has("latitude_nut_lat") {
			g.LatitudeNut = units.Angle(r.Float("latitude_nut_lat")) * units.Degree
		}
		switch {
		case r.Has("east_groundspeed_kt"):
			w.WindEast = units.Speed(r.Float("east_groundspeed_kt")) * units.Knot
		default: // 20 degrees of longitude in the time, on the parallel
			w.WindEast = units.Speed(20*60*math.Cos(float64(w.Latitude))/hours) * units.Knot
		}
		switch want := r.Text("tolerance"); {
		case strings.Contains(want, "0.3 % with 15.041"):
			tolerance = 0.003 * r.Float("earth_rate_deg_h")
		case strings.HasPrefix(want, "0.5"):
			tolerance = 0.5
		}
		s := State{Wrong: Imperfection{Gyro: g}}
		first := s.Begin(w).Compass
		var last units.CompassHeading
		for range int(hours * 3600) {
			last = s.Step(w, 1).Compass
		}
		change := units.WrapHalf(units.Angle(last) - units.Angle(first)).Degrees()
		if strings.HasPrefix(r.Text("reading_change_deg"), "-37 ") {
			assert.InDelta(t, -37, change, tolerance, "%v", r)
			continue
		}
		assert.InDelta(t, r.Float("reading_change_deg"), change, tolerance*hours, "%v", r)
		assert.InDelta(t, r.Float("total_reading_rate_deg_h"), change/hours, tolerance, "%v", r)
	}
}

// A gyro with a real drift alone, over any step; it follows a turn and not a
// change of variation.
func TestFreeGyroKeepsItsDirection(t *testing.T) {
	w := &World{Heading: units.TrueHeading(units.Degree * 30), Temperature: 288}
	var s State
	s.Begin(w)
	s.Wrong.Gyro = Gyro{Free: true, Drift: 6 * DegreePerHour}
	w.Heading, w.Variation = units.TrueHeading(units.Degree*350), units.Variation(9*units.Degree)
	in := s.Settle(w)
	assert.InDelta(t, 350, in.Compass.Degrees(), 1e-9)
	assert.InDelta(t, 341, s.Compass.Degrees(), 1e-9, "the element does not")
	for range 600 {
		in = s.Step(w, 1)
	}
	assert.InDelta(t, 351, in.Compass.Degrees(), 1e-9, "a degree in ten minutes")
	s.OverPole()
	w.Heading = units.TrueHeading(units.Degree * 170)
	assert.InDelta(t, 351, s.Settle(w).Compass.Degrees(), 1e-9, "a pole does not turn it")
	s.Wrong.Gyro = Gyro{}
	assert.InDelta(t, 161, s.Step(w, 1).Compass.Degrees(), 1e-9, "ideal slaving leads it back at once")
}

// The wander is the mean of the two ends of a step: flown north, the earth
// rate of the true latitudes is missed by the square of the step.
func TestWanderConverges(t *testing.T) {
	const hours, rate = 2.0, 10 * math.Pi / 180 // 10 degrees of latitude an hour
	exact := -15.041067 * (math.Cos(0.5) - math.Cos(0.5+rate*hours)) / rate
	var missed [3]float64
	for i, step := range []float64{600, 300, 150} {
		s := State{Wrong: Imperfection{Gyro: Gyro{Free: true, EarthRate: true}}}
		w := &World{Latitude: 0.5, Temperature: 288}
		s.Begin(w)
		for k := range int(hours * 3600 / step) {
			w.Latitude = units.Angle(0.5 + rate*step*float64(k+1)/3600)
			s.Step(w, step)
		}
		missed[i] = s.Master.Zero.Degrees() - exact
	}
	assert.InDelta(t, 4, missed[0]/missed[1], 0.01)
	assert.InDelta(t, 4, missed[1]/missed[2], 0.01)
}

// A slaved gyro is led back at its rate to the edge of its dead band, and hangs
// at the edge to which the earth's turning drives it.
func TestSlaving(t *testing.T) {
	w := &World{Temperature: 288, Latitude: 50 * units.Degree}
	var healthy Imperfection
	for _, r := range rows.Read(t, "testdata/mech_service.csv") {
		if name := r.Text("name"); name == "slaving_deg_min" || name == "slaving_dead_band_deg" {
			require.True(t, healthy.Set(name, r.Float("value")))
		}
	}
	s := State{Wrong: healthy}
	s.Begin(w)
	reads := func(seconds int) float64 {
		var in units.CompassHeading
		for range seconds * 16 {
			in = s.Step(w, dt).Compass
		}
		return units.WrapHalf(units.Angle(in)).Degrees()
	}
	assert.InDelta(t, -11.522/60, reads(60), 1e-4, "within the band it wanders")
	assert.InDelta(t, -0.5, reads(600), 1e-9, "and hangs at its edge")
	s.Wrong.Gyro.Free = true
	assert.InDelta(t, -0.5-11.522/4, reads(900), 1e-3)
	s.Wrong = healthy
	assert.InDelta(t, -0.5-11.522/4+2-11.522/60, reads(60), 1e-3, "2 degrees a minute against the wander")
	assert.InDelta(t, -0.5, reads(120), 1e-9)
	w.Latitude = -w.Latitude
	assert.InDelta(t, 0.5, reads(600), 1e-9, "south of the equator at the other")

	w.Force = 3000
	s.Wrong.Gyro.EarthRate, s.Wrong.Gyro.Drift = false, -20*DegreePerHour
	assert.InDelta(t, -1, reads(900), 1e-9, "half the force, twice the band")
	assert.InDelta(t, 1, weakness(6001), 0)
	assert.InDelta(t, 1, weakness(0), 0)
	assert.InDelta(t, 3, weakness(10), 0)
}

// Noise-free swings: the deviation at the readings, and the figures printed for
// two other headings; the other swings leave the residuals printed.
func TestDeviationAgainstSwings(t *testing.T) {
	used := 0
	for _, r := range rows.Read(t, "testdata/nav_compass.csv") {
		c, ok := coefficients(r.Text("answer"))
		if !ok {
			continue
		}
		used++
		dev := func(h float64) float64 {
			return float64(c.Deviation(units.CompassHeading(units.Angle(h)*units.Degree), 1)) * 180 / math.Pi
		}
		sum, n := 0.0, 0
		for _, reading := range strings.Fields(r.Text("readings(heading:deviation, E+)")) {
			h, d, _ := strings.Cut(reading, ":")
			heading, _ := strconv.ParseFloat(h, 64)
			deviation, err := strconv.ParseFloat(d, 64)
			require.NoError(t, err, "%v", r)
			if strings.Contains(r.Text("case"), "noise free") {
				assert.InDelta(t, deviation, dev(heading), 0.02, "%v", r)
			}
			sum, n = sum+(dev(heading)-deviation)*(dev(heading)-deviation), n+1
		}
		text := strings.NewReplacer(";", "", ",", "", ":", "").Replace(r.Text("detail"))
		for words := strings.Fields(text); len(words) > 1; words = words[1:] {
			x, _ := strconv.ParseFloat(words[1], 64)
			heading, err := strconv.ParseFloat(words[0], 64)
			switch {
			case words[0] == "residual":
				assert.InDelta(t, x, math.Sqrt(sum/float64(n)), 0.0006, "%v", r)
			case err == nil && heading > 0 && strings.ContainsAny(words[1], "+-") && !strings.Contains(text, "generating"):
				assert.InDelta(t, x, dev(heading), 0.0016, "%v at %v", r, heading)
			}
		}
	}
	assert.Equal(t, 6, used)
}

// coefficients reads "A=+1.00 B=...", all five.
func coefficients(text string) (c Compass, ok bool) {
	p := given(strings.ReplaceAll(text, " ", ";"))
	deg := func(name string) units.Angle { return units.Angle(p[name]) * units.Degree }
	_, ok = p["E"]
	return Compass{deg("A"), deg("B"), deg("C"), deg("D"), deg("E")}, ok
}

// What the needle reads and the deviation there make the magnetic heading, up
// to the largest deviations, in weak fields too; offsets are the inverse.
func TestReadingSolvesTheDeviation(t *testing.T) {
	c := Compass{A: 10 * units.Degree, B: 15 * units.Degree, C: -15 * units.Degree, D: 5 * units.Degree, E: -5 * units.Degree}
	for _, weak := range []float64{1, 2, 3} {
		for h := 0.0; h < 360; h += 7 {
			m := units.MagneticHeading(units.Angle(h) * units.Degree)
			hc := c.reading(m, weak)
			back := hc.Magnetic(c.Deviation(hc, weak))
			require.InDelta(t, 0, float64(units.WrapHalf(units.Angle(back)-units.Angle(m))), 1e-14)
		}
	}
	s := State{Wrong: Imperfection{Compass: c, Gyro: Gyro{Residual: units.Degree}}}
	w := &World{Heading: 2, Variation: 0.3, Temperature: 288}
	in := s.Begin(w)
	reads := units.Angle(in.Compass)
	assert.InDelta(t, float64(reads)-2, float64(units.WrapHalf(s.MasterOffset(reads, w.Variation))), 1e-14)
	assert.InDelta(t, float64(s.Compass)-2, float64(units.WrapHalf(s.CompassOffset(units.Angle(s.Compass), w.Variation))), 1e-14)
}

// In a field of half the force the iron turns the needle twice as far; A, D and
// E do not change, and B and C stop at 25 degrees together.
func TestWeakField(t *testing.T) {
	c := Compass{A: units.Degree, B: 3 * units.Degree}
	east := units.CompassHeading(90 * units.Degree)
	at := func(c Compass, force float64) float64 { return c.Deviation(east, weakness(force)).Degrees() }
	assert.InDelta(t, 4, at(c, 20000), 1e-9)
	assert.InDelta(t, 7, at(c, 3000), 1e-9)
	assert.InDelta(t, 25, at(Compass{B: 15 * units.Degree}, 1000), 1e-9)
	s := State{Wrong: Imperfection{Compass: c}}
	w := World{Temperature: 288, Force: 3000, Heading: 1}
	assert.InDelta(t, float64(c.reading(1, 2)), float64(s.Begin(&w).Compass), 0)
}

// The names of the service table that belong to the senses.
func TestSet(t *testing.T) {
	var w Imperfection
	taken := map[string]bool{}
	for _, r := range rows.Read(t, "testdata/mech_service.csv") {
		x, _ := strconv.ParseFloat(r.Text("value"), 64)
		taken[r.Text("name")] = w.Set(r.Text("name"), x)
	}
	for _, name := range []string{"line_lag_s", "deviation_b_deg", "deviation_c_deg", "slaving_deg_min", "slaving_dead_band_deg"} {
		assert.True(t, taken[name], name)
		delete(taken, name)
	}
	for name, ours := range taken {
		assert.False(t, ours, name)
	}
	assert.InDelta(t, 0.3, w.LineLag, 0)
	assert.InDelta(t, 1, w.Compass.B.Degrees(), 1e-12)
	assert.InDelta(t, -0.5, w.Compass.C.Degrees(), 1e-12)
	assert.InDelta(t, 2*math.Pi/180/60, w.Gyro.Slaving, 1e-15)
	assert.InDelta(t, 0.5, w.Gyro.DeadBand.Degrees(), 1e-12)
	assert.True(t, w.Gyro.EarthRate && w.Gyro.Transport, "a gyro that is led is a real one")
}
