package papers

import (
	"bytes"
	"flag"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

var update = flag.Bool("update", false, "write the golden problems anew")

// printedSlip are the words on a slip: for each of its five problems what is
// given, by name.
type printedSlip [5]map[string]string

// readSlips reads the words of the pages back, as a pupil does.
func readSlips(t *testing.T, pages []Page) (out []printedSlip) {
	titles := []look.Key{look.PaperTriangle, look.PaperAirspeed, look.PaperReckoning, look.PaperTwoBearings, look.PaperWindByPlot}
	for _, page := range pages {
		if _, ok := page.(SlipsPage); !ok {
			continue
		}
		at := -1
		words := record(A4, page).Texts()
		for i, c := range words {
			switch {
			case strings.HasPrefix(c.Text, "Problems, pupil"):
				out, at = append(out, printedSlip{}), -1
			case at < 4 && c.Text == look.Text(titles[at+1]) && c.Type.Font == look.Semibold.Font():
				at++
				out[len(out)-1][at] = map[string]string{}
			case at >= 0 && c.Type.Font == look.Semibold.Font() && words[i-1].At.Y == c.At.Y: // beside its name
				out[len(out)-1][at][words[i-1].Text] = c.Text
			}
		}
	}
	require.NotEmpty(t, out)
	return out
}

func keyOf(pages []Page) (rows [][]string) {
	for _, p := range pages {
		if k, ok := p.(KeyPage); ok {
			rows = append(rows, k.Rows...)
		}
	}
	return rows
}

// first is the number with which a printed figure begins.
func first(t *testing.T, s string) float64 {
	return number(t, strings.TrimRight(strings.Fields(s)[0], "TZ"))
}

func position(t *testing.T, s string) units.Position {
	p, err := units.ParsePosition(s)
	require.NoError(t, err, s)
	return p
}

// minutesBetween is the time between two printed times.
func minutesBetween(t *testing.T, from, to string) float64 {
	of := func(s string) float64 { return 60*number(t, s[:2]) + number(t, s[2:4]) }
	return math.Mod(of(to)-of(from)+1440, 1440)
}

// given finds the figure whose name begins so, and the rest of the name.
func (p printedSlip) given(i int, begins string) (value, rest string) {
	for name, v := range p[i] {
		if r, ok := strings.CutPrefix(name, begins); ok {
			return v, strings.TrimSpace(r)
		}
	}
	return "", ""
}

// Every answer of the key is worked again from the words on the slips, by other
// ways than those of the key.
func TestKeyIsRightByOtherWays(t *testing.T) {
	for name, n := range map[string]int{"weather-triangle": 60, "far-south": 20, "first-look": 20} {
		pages, err := Problems(plan(t, name), A4, n, 77)
		require.NoError(t, err)
		slips, key := readSlips(t, pages), keyOf(pages)
		require.Equal(t, n, len(slips))
		require.Equal(t, n, len(key))
		for i, s := range slips {
			checkTriangle(t, s, key[i][1], key[i][2])
			checkAirspeed(t, s, key[i][3])
			checkReckoning(t, s, key[i][4])
			checkFix(t, s, key[i][5], key[i][6])
			checkWind(t, s, key[i][7], key[i][8])
		}
	}
}

// The plane triangle closes: the air vector of the answer and the wind make the
// ground vector, within half a degree of heading and half a knot.
func checkTriangle(t *testing.T, s printedSlip, heading, gs string) {
	track, tas := first(t, s[0]["required track"]), first(t, s[0]["true airspeed"])
	from, kt, _ := strings.Cut(s[0]["wind"], "/")
	x, y := polar(first(t, heading)-track, tas) // x across, y along the track
	wx, wy := polar(number(t, from)+180-track, number(t, kt))
	assert.InDelta(t, 0, x+wx, tas*0.5*math.Pi/180+0.01, "%v: %s", s[0], heading)
	assert.InDelta(t, y+wy, first(t, gs), 1.1, "%v: %s", s[0], gs)
}

// The isentropic relations in their closed form with knots and feet (constants
// of the standard atmosphere from memory: 661.4788 kt, 6.87559e-6 a foot,
// 38.9679 kt for a kelvin).
func checkAirspeed(t *testing.T, s printedSlip, tas string) {
	cas, h, c := first(t, s[1]["calibrated airspeed"]), first(t, s[1]["pressure altitude"]), first(t, s[1]["air temperature"])
	delta := math.Pow(1-6.87559e-6*h, 5.25588)
	qc := (math.Pow(1+0.2*math.Pow(cas/661.4788, 2), 3.5) - 1) / delta
	mach := math.Sqrt(5 * (math.Pow(qc+1, 2.0/7) - 1))
	assert.InDelta(t, mach*38.9679*math.Sqrt(c+273.15), first(t, tas), 0.52, "%v", s[1])
}

// The track is run in ten thousand steps over WGS-84 by its radii of curvature.
func checkReckoning(t *testing.T, s printedSlip, want string) {
	fix, begins := s.given(2, "fix at")
	p, minutes := position(t, fix), minutesBetween(t, begins, s[2]["wanted at"])
	p = run(p, first(t, s[2]["track made good"]), first(t, s[2]["groundspeed"])*minutes/60)
	assertPlace(t, p, position(t, want), 0.052)
}

// run steps along a rhumb line. WGS-84: a = 6378137 m, e2 = 0.00669437999014.
func run(p units.Position, track, nm float64) units.Position {
	const a, e2, steps = 6378137, 0.00669437999014, 10000
	sin, cos := math.Sincos(track * math.Pi / 180)
	ds := nm * 1852 / steps
	for range steps {
		mid := float64(p.Lat) + ds/2*cos/6.37e6
		w := 1 - e2*math.Pow(math.Sin(mid), 2)
		p.Lat += units.Angle(ds * cos / (a * (1 - e2) / math.Pow(w, 1.5)))
		p.Lon += units.Angle(ds * sin / (a / math.Sqrt(w) * math.Cos(mid)))
	}
	return p
}

func assertPlace(t *testing.T, got, want units.Position, minutes float64) {
	assert.InDelta(t, got.Lat.Minutes(), want.Lat.Minutes(), minutes)
	assert.InDelta(t, 0, units.WrapHalf(got.Lon-want.Lon).Minutes(), minutes)
}

// From the answer the geodesics to the stations leave on the printed bearings;
// the answer is rounded to a tenth of a minute, and the stations are 12 NM off
// at least. The fix is near the DR position, and the tolerance no less than what
// half a degree in each bearing makes of it.
func checkFix(t *testing.T, s printedSlip, want, tolerance string) {
	fix := position(t, want)
	n := 0
	for name, bearing := range s[3] {
		station, ok := strings.CutPrefix(name, "bearing of ")
		if !ok {
			continue
		}
		n++
		at := position(t, s[3][station+" is at"])
		azimuth, _, d := geodesy.GeodesicInverse(fix, at)
		assert.InDelta(t, 0, units.WrapHalfDegrees(azimuth.Degrees()-first(t, bearing)), 0.075/d.NM()*180/math.Pi, "%v", s[3])
		assert.GreaterOrEqual(t, number(t, tolerance), d.NM()*0.5*math.Pi/180)
		assert.Less(t, d.NM(), 48.0)
	}
	assert.Equal(t, 2, n)
	_, off := geodesy.RhumbInverse(fix, position(t, s[3]["DR position"]))
	assert.Less(t, off.NM(), 11.0)
	assert.LessOrEqual(t, number(t, tolerance), 2.0)
}

// By middle-latitude sailing, which is within half a percent: what blew in the
// time from air position to fix.
func checkWind(t *testing.T, s printedSlip, want, tolerance string) {
	place, then := s.given(4, "air position at")
	air, fix := position(t, place), position(t, s[4]["fix then"])
	hours := minutesBetween(t, s[4]["counters set to a fix at"], then) / 60
	north := (fix.Lat - air.Lat).Minutes() / hours
	east := units.WrapHalf(fix.Lon-air.Lon).Minutes() * math.Cos(float64(air.Lat+fix.Lat)/2) / hours
	from, kt, _ := strings.Cut(want, "/")
	speed := math.Hypot(north, east)
	assert.InDelta(t, speed, number(t, kt), 0.5+0.006*speed, "%v", s[4])
	assert.InDelta(t, 0, units.WrapHalfDegrees(math.Atan2(east, north)*180/math.Pi+180-number(t, from)), 0.9, "%v", s[4])
	// Half a mile in each place, by the tolerance allowed.
	deg, knots, _ := strings.Cut(tolerance, "/")
	assert.GreaterOrEqual(t, number(t, knots)*hours, 0.7)
	assert.GreaterOrEqual(t, math.Tan(number(t, deg)*math.Pi/180)*speed*hours, 0.7)
}

// The same seed gives the same slips, however many pupils there are; no two
// pupils get the same numbers, and another seed gives others.
func TestProblemsAreDrawnFromTheSeed(t *testing.T) {
	p := plan(t, "weather-triangle")
	file := func(count int, seed uint64) []byte {
		pages, err := Problems(p, A4, count, seed)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, Write(&b, A4, "problems", pages))
		return b.Bytes()
	}
	assert.True(t, bytes.Equal(file(8, 3), file(8, 3)))
	assert.False(t, bytes.Equal(file(8, 3), file(8, 4)))
	few, err := Problems(p, A4, 4, 3)
	require.NoError(t, err)
	many, err := Problems(p, A4, 40, 3)
	require.NoError(t, err)
	a, b := readSlips(t, few), readSlips(t, many)
	require.Equal(t, [2]int{4, 40}, [2]int{len(a), len(b)})
	assert.Equal(t, a, b[:4])
	assert.Equal(t, keyOf(few), keyOf(many)[:4])
	for kind := range 5 {
		seen := map[string]int{}
		for i, s := range b {
			var all []string
			for name, v := range s[kind] {
				all = append(all, name+"="+v)
			}
			text := strings.Join(sorted(all), ";")
			other, twice := seen[text]
			assert.False(t, twice, "pupils %d and %d: %s", i, other, text)
			seen[text] = i
		}
	}
}

// Slips and key of a set have a mark in common; the seed stands on the key alone.
func TestSlipsDoNotTellTheSeed(t *testing.T) {
	pages, err := Problems(plan(t, "first-look"), A4, 2, 987654)
	require.NoError(t, err)
	require.Len(t, pages, 2)
	slip, key := strings.Join(texts(A4, pages[0]), " "), strings.Join(texts(A4, pages[1]), " ")
	assert.NotContains(t, slip, "987654")
	assert.Contains(t, key, "seed 987654")
	mark := regexp.MustCompile(`set [0-9A-F]{4}`)
	assert.NotEmpty(t, mark.FindString(slip))
	assert.Equal(t, mark.FindString(slip), mark.FindString(key))
}

// The numbers are spread over their range: of 200 pupils the tracks of the wind
// triangle fall into every third of the compass about alike (binomial, five
// standard deviations: 200/3 +- 33).
func TestProblemsAreSpread(t *testing.T) {
	pages, err := Problems(plan(t, "weather-triangle"), A4, 200, 5)
	require.NoError(t, err)
	thirds := [3]int{}
	for _, s := range readSlips(t, pages) {
		thirds[int(first(t, s[0]["required track"]))/120]++
	}
	for _, n := range thirds {
		assert.InDelta(t, 200.0/3, n, 33)
	}
}

// What stands on the first slips and their key, word for word: the same seed must
// give the same problems in years to come. go test -update writes it anew.
func TestProblemsAreAsBefore(t *testing.T) {
	pages, err := Problems(plan(t, "weather-triangle"), A4, 2, 1957)
	require.NoError(t, err)
	var b strings.Builder
	for _, p := range pages {
		for _, s := range texts(A4, p) {
			b.WriteString(s + "\n")
		}
	}
	const file = "testdata/problems.golden"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}
