package papers

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/internal/rows"
	"stillair/sim"
	"stillair/sim/sky"
)

// sheetByHand are the formulas of a Mercator sheet on WGS-84, written down a second
// time: R = N(ts) cos(ts)/S; psi = artanh(sin lat) - e artanh(e sin lat).
type sheetByHand struct {
	mid    units.Position
	at     paint.Point // of mid on the paper, mm
	radian float64     // mm to a radian of longitude
}

// First eccentricity squared and equatorial radius of WGS-84 (defining f =
// 1/298.257223563, a = 6378137 m).
const (
	flat = 1 / 298.257223563
	e2   = flat * (2 - flat)
	axis = 6378137.0
)

func byHand(mid units.Position, standardDeg, denominator float64, at paint.Point) sheetByHand {
	s, c := math.Sincos(standardDeg * math.Pi / 180)
	return sheetByHand{mid, at, 1000 * axis / math.Sqrt(1-e2*s*s) * c / denominator}
}

func isometric(lat float64) float64 {
	e, s := math.Sqrt(e2), math.Sin(lat)
	return math.Atanh(s) - e*math.Atanh(e*s)
}

func (s sheetByHand) place(latRad, lonRad float64) paint.Point {
	return s.at.Add(s.radian*math.Remainder(lonRad-float64(s.mid.Lon), 2*math.Pi), -s.radian*(isometric(latRad)-isometric(float64(s.mid.Lat))))
}

// polylines joins strokes that go on from one another.
func polylines(page []segment) (all [][]segment) {
	for _, s := range page {
		if n := len(all); n > 0 && all[n-1][len(all[n-1])-1].z.Dist(s.a) < 1e-9 {
			all[n-1] = append(all[n-1], s)
			continue
		}
		all = append(all, []segment{s})
	}
	return all
}

// off is how far a point lies from a line.
func off(p paint.Point, line []segment) float64 {
	least := math.Inf(1)
	for _, s := range line {
		dx, dy := s.z.X-s.a.X, s.z.Y-s.a.Y
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = math.Max(0, math.Min(1, ((p.X-s.a.X)*dx+(p.Y-s.a.Y)*dy)/l))
		}
		least = math.Min(least, p.Dist(s.a.Add(t*dx, t*dy)))
	}
	return least
}

// starNight is a flight that begins where and when the reference data have two stars.
func starNight(t *testing.T, at units.Position, when time.Time) *sim.Plan {
	p := *plan(t, "first-look")
	p.Start, p.Aircraft.Position, p.Setting.Counters = when, at, nil
	return &p
}

// plates are the altitudes on a page, minutes, with the places on their curves.
func platesOf(t *testing.T, on Paper, p Page) map[int]paint.Point {
	out := map[int]paint.Point{}
	form := regexp.MustCompile(`^(\d\d)°(\d\d)′$`)
	for _, c := range record(on, p).Texts() {
		if m := form.FindStringSubmatch(c.Text); m != nil {
			deg, err := strconv.Atoi(m[1])
			require.NoError(t, err)
			min, err := strconv.Atoi(m[2])
			require.NoError(t, err)
			out[60*deg+min] = c.At.Add(0, -0.35*c.Type.Size)
		}
	}
	return out
}

// Each labelled curve of the file itself goes through the places from which the star
// stands at that altitude. Hour angle and declination are those of the reference data
// (ERFA, see testdata/PROVENANCE.md); the places are worked here by the cosine formula,
// refraction by Bennett's formula (G. G. Bennett, J. Inst. Navigation 35, 1982, from
// memory) scaled by 283/T p/1010 in the ICAO standard air, and the Mercator sheet by
// the formulas above. Asked: 0.3 mm.
func TestStarCurvesAreWhereTheStarsStand(t *testing.T) {
	const most = 0.3
	type row struct{ gha, dec float64 }
	stars := map[string]row{}
	for _, r := range rows.Read(t, "testdata/astro_altaz.csv") {
		if r.Text("UT1_date") == "1943-03-05" {
			stars[r.Text("body")] = row{r.Float("GHA_body_deg") * math.Pi / 180, r.Float("apparent_Dec_deg") * math.Pi / 180}
		}
	}
	require.Len(t, stars, 2)
	p := starNight(t, units.At(51.75, 0.5), time.Date(1943, 3, 5, 20, 0, 0, 0, time.UTC))
	temperature := 288.15 - 0.0065*8000*0.3048
	thin := 1013.25 * math.Pow(temperature/288.15, 5.25588) / 1010 * 283 / temperature
	for _, on := range []Paper{A4, Letter} {
		pages, err := Stars(p, on, StarsOrder{SheetOrder: SheetOrder{Latitude: StandardLatitude}, At: new(time.Duration), Pair: [2]sky.Body{mustBody(t, "Polaris"), mustBody(t, "Capella")}})
		require.NoError(t, err)
		require.Len(t, pages, 1)
		page := pages[0].(StarPage)
		require.InDelta(t, 8000, page.Height.Feet(), 1e-6)
		hand := byHand(page.Sheet.Centre, 56, 1e6, frameOf(on).Centre())
		box := page.Sheet.above(on, timeMarks).box
		lines := polylines(printed(t, on, page)[0])
		labelled := platesOf(t, on, page)
		require.Greater(t, len(labelled), 15)
		points, worst := 0, 0.0
		for minutes, plate := range labelled {
			var curve []segment
			for _, l := range lines {
				if curve == nil || off(plate, l) < off(plate, curve) {
					curve = l
				}
			}
			star := stars["Capella"]
			if minutes < 60*60 {
				star = stars["Polaris"]
			}
			read := float64(minutes) / 60
			h := (read - thin/60/math.Tan((read+7.31/(read+4.4))*math.Pi/180)) * math.Pi / 180
			for lat := 49.0; lat < 54; lat += 0.05 {
				phi := lat * math.Pi / 180
				cos := (math.Sin(h) - math.Sin(phi)*math.Sin(star.dec)) / (math.Cos(phi) * math.Cos(star.dec))
				if math.Abs(cos) > 1 {
					continue
				}
				for _, lha := range []float64{math.Acos(cos), -math.Acos(cos)} {
					at := hand.place(phi, lha-star.gha)
					if box.Inset(1).Contains(at) {
						d := off(at, curve)
						assert.LessOrEqual(t, d, most, "%d′ at %g on %s", minutes, lat, on.Name)
						points, worst = points+1, math.Max(worst, d)
					}
				}
			}
		}
		assert.Greater(t, points, 100)
		t.Logf("%s: %d points of %d curves, worst %.3f mm", on.Name, points, len(labelled), worst)
	}
}

func mustBody(t *testing.T, name string) sky.Body {
	b, err := sky.Lookup(name)
	require.NoError(t, err)
	return b
}

// The marks of time stand as far apart as the sky turns: 360 degrees in a sidereal day
// of 23 h 56 m 4.09 s (IERS; from memory), to half a step of the file's coordinates;
// the one of the overlay's time stands on the meridian that is named.
func TestMarksOfTime(t *testing.T) {
	pages, err := Stars(plan(t, "first-look"), A4, StarsOrder{SheetOrder: SheetOrder{Latitude: StandardLatitude}})
	require.NoError(t, err)
	require.Len(t, pages, 7, "an hour, each ten minutes")
	page := pages[0].(StarPage)
	hand := byHand(page.Sheet.Centre, 56, 1e6, frameOf(A4).Centre())
	var marks []float64
	for _, s := range printed(t, A4, page)[0] {
		if s.vertical() && math.Abs(s.length()-3.4) < 0.01 {
			marks = append(marks, s.a.X)
		}
	}
	require.Greater(t, len(marks), 10)
	minute := 2 * math.Pi / (23*60 + 56 + 4.09/60) * hand.radian
	for i := 1; i < len(marks); i++ {
		assert.InDelta(t, minute, marks[i]-marks[i-1], 0.005)
	}
	found := false
	for _, c := range record(A4, page).Texts() {
		if c.Text == "0930Z" { // 179 40 W, as the words beside it say
			assert.InDelta(t, hand.place(float64(page.Sheet.Centre.Lat), -(179+40.0/60)*math.Pi/180).X, c.At.X, 0.005)
			found = true
		}
	}
	assert.True(t, found)
	assert.Regexp(t, `meridian 179 40 W of the sheet \(the point stands at 0930Z\)`, strings.Join(texts(A4, page), " "))
}

// A sheet about a centre has the stars that are up there.
func TestStarsOfACentre(t *testing.T) {
	centre := units.At(60, 5)
	p := starNight(t, units.At(-47, 179), time.Date(1957, 1, 5, 20, 0, 0, 0, time.UTC)) // night at 5 E, day at 179 E
	pages, err := Stars(p, A4, StarsOrder{SheetOrder: SheetOrder{Latitude: StandardLatitude, Centre: &centre}, At: new(time.Duration)})
	require.NoError(t, err)
	page := pages[0].(StarPage)
	assert.Equal(t, centre, page.Sheet.Centre)
	assert.Greater(t, len(platesOf(t, A4, page)), 10)
}

// Without stars there are no curves, and it is said why.
func TestStarCurvesAreRefused(t *testing.T) {
	sheet := SheetOrder{Latitude: StandardLatitude}
	at := func(d time.Duration) *time.Duration { return &d }
	day := starNight(t, units.At(51.75, 0.5), time.Date(1943, 6, 20, 11, 0, 0, 0, time.UTC))
	night := starNight(t, units.At(51.75, 0.5), time.Date(1943, 3, 5, 20, 0, 0, 0, time.UTC))
	for says, c := range map[string]struct {
		p *sim.Plan
		o StarsOrder
	}{
		"at 1100Z 20 Jun 1943 near 51 45.0 N 000 30.0 E it is day, and no star is to be seen": {day, StarsOrder{At: at(0)}},
		"nor is there a pair at any other time of the flight":                                 {day, StarsOrder{}},
		"at = 90h0m0s: must be 0s to":                                                         {night, StarsOrder{At: at(90 * time.Hour)}},
		"at = -1ns: must be 0s to":                                                            {night, StarsOrder{At: at(-1)}},
		"pair = Canopus, Capella: not both of them are up":                                    {night, StarsOrder{At: at(0), Pair: [2]sky.Body{mustBody(t, "Canopus"), mustBody(t, "Capella")}}},
	} {
		c.o.SheetOrder = sheet
		pages, err := Stars(c.p, A4, c.o)
		assert.ErrorContains(t, err, says)
		assert.Empty(t, pages)
	}
}
