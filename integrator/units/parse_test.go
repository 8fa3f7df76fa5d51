package units_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/units"
)

func TestParsePosition(t *testing.T) {
	for s, want := range map[string][2]float64{
		"47 10.0 S 178 30.0 E":   {-47 - 10.0/60, 178.5},
		"47 S 178 E":             {-47, 178},
		"  47 10 s   178 30 w ":  {-47 - 10.0/60, -178.5},
		"47.5 N 178.25 W":        {47.5, -178.25},
		"47 10.0 S 178 E":        {-47 - 10.0/60, 178},
		"90 N 180 E":             {90, 180},
		"90 00.0 S 180 00.0 W":   {-90, -180},
		"0 S 0 W":                {0, 0},
		"00 00.0 N 000 00.0 E":   {0, 0},
		"46 59.999 N 007 00.5 W": {46 + 59.999/60, -7 - 0.5/60},
	} {
		p, err := units.ParsePosition(s)
		require.NoError(t, err, "%q", s)
		assert.InDelta(t, want[0], p.Lat.Degrees(), 1e-12, "%q", s)
		assert.InDelta(t, want[1], p.Lon.Degrees(), 1e-12, "%q", s)
		assert.False(t, math.Signbit(float64(p.Lat)) && p.Lat == 0, "%q: -0", s)
	}
}

func TestParsePositionErrors(t *testing.T) {
	form := `: want a position like "47 10.0 S 178 30.0 E" or "47 S 178 E"`
	for s, want := range map[string]string{
		"":                      `position ""` + form,
		"47 10.0":               `position "47 10.0"` + form,
		"47 S":                  `position "47 S"` + form,
		"178 30 30 N 178 E":     `latitude "178 30 30 N": want degrees, minutes and N or S`,
		"178 E 47 S":            `position "178 E 47 S"` + form,
		"47 60.0 S 178 E":       `latitude minutes "60.0": want 0 to below 60`,
		"47 S 178 61 E":         `longitude minutes "61": want 0 to below 60`,
		"91 S 178 E":            `latitude degrees "91": want 0 to 90`,
		"90 00.1 S 178 E":       `latitude "90 00.1": want 0 to 90 degrees`,
		"47 S 181 E":            `longitude degrees "181": want 0 to 180`,
		"47 S 180 00.1 W":       `longitude "180 00.1": want 0 to 180 degrees`,
		"47.5 10.0 S 178 E":     `latitude degrees "47.5": want whole degrees before minutes`,
		"-47 S 178 E":           `latitude degrees "-47": want 0 to 90`,
		"47 10 30 S 178 E":      `latitude "47 10 30 S": want degrees, minutes and N or S`,
		"47 S 178 E 5":          `longitude "178 E 5": want degrees, minutes and E or W`,
		"NaN S 178 E":           `latitude degrees "NaN": want 0 to 90`,
		"47 S 1e2 E":            `longitude degrees "1e2": want 0 to 180`,
		"47 S 0x10 E":           `longitude degrees "0x10": want 0 to 180`,
		"47 S 1_0 E":            `longitude degrees "1_0": want 0 to 180`,
		"47 1.2.3 S 178 E":      `latitude minutes "1.2.3": want 0 to below 60`,
		"47 .5 S 178 E":         `latitude minutes ".5": want 0 to below 60`,
		"47 10\u00b0 S 178 E":   "latitude minutes \"10\u00b0\": want 0 to below 60",
		"47 10.0 S 178 30.0 NE": `longitude "178 30.0 NE": want degrees, minutes and E or W`,
	} {
		_, err := units.ParsePosition(s)
		require.Error(t, err, "%q", s)
		assert.Equal(t, want, err.Error(), "%q", s)
	}
}

func TestParseLatitudeAndLongitude(t *testing.T) {
	lat, err := units.ParseLatitude("47 30.0 S")
	require.NoError(t, err)
	assert.InDelta(t, -47.5, lat.Degrees(), 1e-12)
	lon, err := units.ParseLongitude("178.5 W")
	require.NoError(t, err)
	assert.InDelta(t, -178.5, lon.Degrees(), 1e-12)
	_, err = units.ParseLatitude("47 30.0 E")
	assert.EqualError(t, err, `latitude "47 30.0 E": want degrees, minutes and N or S`)
	_, err = units.ParseLongitude("")
	assert.EqualError(t, err, `longitude "": want degrees, minutes and E or W`)
}

func TestParseWind(t *testing.T) {
	for s, want := range map[string][2]float64{
		"295/27": {295, 27}, "300/05": {300, 5}, " 000/00 ": {0, 0}, "360/250": {0, 250}, "7.5/12.5": {7.5, 12.5},
	} {
		w, err := units.ParseWind(s)
		require.NoError(t, err, "%q", s)
		assert.InDelta(t, want[0], w.From.Degrees(), 1e-12, "%q", s)
		assert.InDelta(t, want[1], w.Speed.Knots(), 1e-12, "%q", s)
	}
	for s, want := range map[string]string{
		"":        `wind "": want direction from / knots, like "295/27"`,
		"29527":   `wind "29527": want direction from / knots, like "295/27"`,
		"361/20":  `wind direction "361": want 0 to 360`,
		"/20":     `wind direction "": want 0 to 360`,
		"90/251":  `wind speed "251": want 0 to 250`,
		"90/-5":   `wind speed "-5": want 0 to 250`,
		"90/20/3": `wind speed "20/3": want 0 to 250`,
		"nan/5":   `wind direction "nan": want 0 to 360`,
	} {
		_, err := units.ParseWind(s)
		assert.EqualError(t, err, want, "%q", s)
	}
}

func TestParseVariation(t *testing.T) {
	for s, want := range map[string]float64{"24 E": 24, "23.5 w": -23.5, "0": 0, "0.0": 0, "0 W": 0, "180 W": -180} {
		v, err := units.ParseVariation(s)
		require.NoError(t, err, "%q", s)
		assert.InDelta(t, want, v.Degrees(), 1e-12, "%q", s)
		assert.False(t, v == 0 && math.Signbit(float64(v)), "%q: -0", s)
	}
	for s, want := range map[string]string{
		"":       `variation "": want degrees and E or W, like "24 E"`,
		"24":     `variation letter "24": want E or W, like "24 E"`,
		"24 N":   `variation letter "24 N": want E or W, like "24 E"`,
		"181 E":  `variation "181": want 0 to 180`,
		"24 E E": `variation "24 E E": want degrees and E or W, like "24 E"`,
	} {
		_, err := units.ParseVariation(s)
		assert.EqualError(t, err, want, "%q", s)
	}
}

func TestParseDuration(t *testing.T) {
	d, err := units.ParseDuration("1h30m")
	require.NoError(t, err)
	assert.Equal(t, 90*time.Minute, d)
	d, err = units.ParseDuration("0s")
	require.NoError(t, err)
	assert.Zero(t, d)
	for _, s := range []string{"", "90", "1h30", "-5s", "1 h", "abc", "1e9h"} {
		_, err := units.ParseDuration(s)
		assert.ErrorContains(t, err, `duration "`+s+`": want hours, minutes and seconds from 0s up`, "%q", s)
	}
}

// What is printed reads back to within half the last printed figure, and prints
// again as the same text.
func TestPrintedPositionsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := units.At(rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"))
		back, err := units.ParsePosition(p.String())
		if err != nil {
			t.Fatal(err)
		}
		if back.String() != p.String() {
			t.Fatalf("%q came back as %q", p, back)
		}
		half := 0.05*units.ArcMinute + 1e-12
		if d := back.Lat - p.Lat; d > half || d < -half {
			t.Fatalf("latitude moved by %v minutes", d.Minutes())
		}
		if d := units.WrapHalf(back.Lon - p.Lon); d > half || d < -half {
			t.Fatalf("longitude moved by %v minutes", d.Minutes())
		}
	})
}

func TestPrintedWindsAndVariationsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := units.Wind{
			From:  deg(rapid.Float64Range(0, 360).Draw(t, "from")),
			Speed: units.Speed(rapid.Float64Range(0, 250).Draw(t, "kt")) * units.Knot,
		}
		back, err := units.ParseWind(w.String())
		if err != nil || back.String() != w.String() {
			t.Fatalf("%q came back as %q, %v", w, back, err)
		}
		v := units.Variation(deg(rapid.Float64Range(-180, 180).Draw(t, "variation")))
		bv, err := units.ParseVariation(v.Tenths())
		if err != nil || bv.Tenths() != v.Tenths() {
			t.Fatalf("%q came back as %q, %v", v.Tenths(), bv.Tenths(), err)
		}
	})
}

// The fuzz targets: no text makes a parser panic, and what it accepts is legal
// and prints as a text that it reads as the same.

func FuzzParsePosition(f *testing.F) {
	for _, s := range []string{"47 10.0 S 178 30.0 E", "47 S 178 E", "90 N 180 W", "0.5 N 0.5 E", "47 60 S 1 E", "S E"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := units.ParsePosition(s)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.LessOrEqual(t, math.Abs(p.Lat.Degrees()), 90.0)
		require.LessOrEqual(t, math.Abs(p.Lon.Degrees()), 180.0)
		back, err := units.ParsePosition(p.String())
		require.NoError(t, err)
		require.Equal(t, p.String(), back.String())
	})
}

func FuzzParseWind(f *testing.F) {
	for _, s := range []string{"295/27", "360/250", "0/0", "1/2/3", "/"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, err := units.ParseWind(s)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.True(t, w.From >= 0 && w.From < 2*math.Pi && w.Speed >= 0 && w.Speed <= units.MaxWindSpeed)
		back, err := units.ParseWind(w.String())
		require.NoError(t, err)
		require.Equal(t, w.String(), back.String())
	})
}

func FuzzParseVariation(f *testing.F) {
	for _, s := range []string{"24 E", "23.5 W", "0", "180 E", "E"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := units.ParseVariation(s)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.LessOrEqual(t, math.Abs(v.Degrees()), 180.0)
	})
}

func FuzzParseDuration(f *testing.F) {
	for _, s := range []string{"1h30m", "45s", "-1s", "9999999h", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := units.ParseDuration(s)
		if err == nil {
			require.GreaterOrEqual(t, d, time.Duration(0))
		}
	})
}
