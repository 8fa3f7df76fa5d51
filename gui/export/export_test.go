package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// crewFlight crosses the 180th meridian, is set right on the way, and has readings
// taken, truly.
const crewFlight = `schema = 1
title = "Over & <back>"
start = 1957-08-14T01:30:00Z
seed = 7
waters = "tern-islands"
pilot = "as-planned"
[aircraft]
position = [-46.8, 179.2]
heading_true_deg = 95
pressure_altitude_ft = 8000
tas_kt = 180
[[leg]]
heading_true_deg = 95
duration = "20m"
[[leg]]
heading_true_deg = 275
duration = "20m"
[[air.wind]]
from_deg_true = 300
speed_kt = WIND
[setting]
wind_from_deg_true = 290
wind_kt = 25
[[crew]]
at = "10m"
take = "loop Cape Linnet"
[[crew]]
at = "11m"
take = "loop Gannet Rock"
[[crew]]
at = "16m"
set_wind = { from_deg_true = 300, speed_kt = 30 }
[[crew]]
at = "30m"
set_counters = [-46.9, 179.9]
[[crew]]
at = "32m"
set_variation_deg = 23.5
[[crew]]
at = "33m"
alternate_static = true
[[crew]]
at = "35m"
take = "sextant Sun"
[[crew]]
at = "36m"
take = "pinpoint Port Aldous"
`

func fly(t testing.TB, wind string) *sim.Engine {
	plan, _, err := scenarios.Load("crew.toml", strings.NewReader(strings.Replace(crewFlight, "WIND", wind, 1)))
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(1 << 40)
	return e
}

// files are the three files of a flight.
func files(t *testing.T, e *sim.Engine, reveal bool) (geo, kml, table string) {
	var a, b, c bytes.Buffer
	take := Gather(e, reveal)
	require.NoError(t, WriteGeoJSON(&a, take))
	require.NoError(t, WriteKML(&b, take))
	require.NoError(t, WriteCSV(&c, e, 5*time.Minute, reveal))
	return a.String(), b.String(), c.String()
}

// TestNothingOfTheTruth: two flights that differ in nothing that the crew could see
// give the same files, unless the truth is asked for. (The sextant and the bearing
// would tell: they are left out here.)
func TestNothingOfTheTruth(t *testing.T) {
	blind := func(wind string) *sim.Engine {
		text := strings.Replace(crewFlight, "WIND", wind, 1)
		for _, aid := range []string{"loop Cape Linnet", "loop Gannet Rock", "sextant Sun", "pinpoint Port Aldous"} {
			i := strings.Index(text, `take = "`+aid)
			start := strings.LastIndex(text[:i], "[[crew]]")
			text = text[:start] + text[i+len(`take = "`+aid+"\"\n"):]
		}
		text += "[field]\nvariation_deg = 20\n" // the earth's, at the true place, would tell, too
		plan, _, err := scenarios.Load("crew.toml", strings.NewReader(text))
		require.NoError(t, err)
		e, err := sim.New(plan)
		require.NoError(t, err)
		e.Advance(1 << 40)
		return e
	}
	a, b := blind("0"), blind("60")
	geoA, kmlA, csvA := files(t, a, false)
	geoB, kmlB, csvB := files(t, b, false)
	assert.True(t, geoA == geoB && kmlA == kmlB && csvA == csvB)
	geoA, kmlA, csvA = files(t, a, true)
	geoB, kmlB, csvB = files(t, b, true)
	assert.True(t, geoA != geoB && kmlA != kmlB && csvA != csvB)
}

// TestTwiceTheSame: the same flight, the same files, and the engine stands where it
// stood.
func TestTwiceTheSame(t *testing.T) {
	e := fly(t, "30")
	hash := e.Hash()
	a, b, c := files(t, e, true)
	assert.Equal(t, hash, e.Hash())
	x, y, z := files(t, fly(t, "30"), true)
	assert.True(t, a == x && b == y && c == z)
}

// feature is what the tests know of one.
type feature struct {
	Type     string
	Geometry struct {
		Type        string
		Coordinates json.RawMessage
	}
	Properties map[string]any
}

// readGeoJSON reads a file by the rules of RFC 7946 alone, and names the first that
// it breaks: section 3 (objects), 3.1.1 (positions: longitude, latitude), 3.1.4
// (two positions to a line), 3.1.9 (nothing crosses the 180th meridian), 3.2 (type,
// geometry, properties), 4 (no crs), 7.1 (no member of another object's meaning).
func readGeoJSON(text string) (all []feature, rule string) {
	var top map[string]json.RawMessage
	if json.Unmarshal([]byte(text), &top) != nil {
		return nil, "8.1: JSON"
	}
	for _, name := range []string{"crs", "geometry", "properties", "coordinates", "geometries"} {
		if _, ok := top[name]; ok {
			return nil, "4, 7.1: " + name
		}
	}
	if string(top["type"]) != `"FeatureCollection"` || json.Unmarshal(top["features"], &all) != nil || all == nil {
		return nil, "3.3: a FeatureCollection with its features"
	}
	var raw []map[string]json.RawMessage
	if json.Unmarshal(top["features"], &raw) != nil {
		return nil, "3.3"
	}
	for i, f := range all {
		for _, name := range []string{"type", "geometry", "properties"} {
			if _, ok := raw[i][name]; !ok {
				return nil, "3.2: " + name
			}
		}
		if f.Type != "Feature" || f.Properties == nil {
			return nil, "3.2"
		}
		if rule := geometryRule(f.Geometry.Type, f.Geometry.Coordinates); rule != "" {
			return nil, rule
		}
	}
	return all, ""
}

func geometryRule(kind string, coordinates json.RawMessage) string {
	switch kind {
	case "Point":
		var p []float64
		if json.Unmarshal(coordinates, &p) != nil {
			return "3.1.2"
		}
		return positionRule(p)
	case "LineString":
		var line [][]float64
		if json.Unmarshal(coordinates, &line) != nil {
			return "3.1.4"
		}
		return lineRule(line)
	case "MultiLineString":
		var lines [][][]float64
		if json.Unmarshal(coordinates, &lines) != nil || len(lines) == 0 {
			return "3.1.5"
		}
		for _, line := range lines {
			if rule := lineRule(line); rule != "" {
				return rule
			}
		}
		return ""
	}
	return "1.4: " + kind
}

func lineRule(line [][]float64) string {
	if len(line) < 2 {
		return "3.1.4: two positions"
	}
	for i, p := range line {
		if rule := positionRule(p); rule != "" {
			return rule
		}
		if i > 0 && math.Abs(p[0]-line[i-1][0]) > 180 {
			return "3.1.9: the 180th meridian"
		}
	}
	return ""
}

func positionRule(p []float64) string {
	if len(p) < 2 || len(p) > 3 || math.Abs(p[0]) > 180 || math.Abs(p[1]) > 90 {
		return "3.1.1: longitude, latitude"
	}
	return ""
}

// TestTheReaderCanRefuse: a check that cannot fail is none.
func TestTheReaderCanRefuse(t *testing.T) {
	wrap := func(geometry string) string {
		return `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":` + geometry + `}]}`
	}
	for text, want := range map[string]string{
		"{": "8.1", `{"type":"Feature"}`: "3.3", `{"type":"FeatureCollection","features":[],"crs":{}}`: "4",
		`{"type":"FeatureCollection","features":[{"type":"Feature","geometry":null}]}`: "3.2",
		wrap(`{"type":"Point","coordinates":[-47,178]}`):                               "3.1.1",
		wrap(`{"type":"LineString","coordinates":[[1,2]]}`):                            "3.1.4",
		wrap(`{"type":"LineString","coordinates":[[179,2],[-179,2]]}`):                 "3.1.9",
		wrap(`{"type":"Circle","coordinates":[[179,2],[-179,2]]}`):                     "1.4",
	} {
		_, rule := readGeoJSON(text)
		assert.True(t, strings.HasPrefix(rule, want), "%s: %s", text, rule)
	}
	_, rule := readGeoJSON(wrap(`{"type":"Point","coordinates":[178,-47]}`))
	assert.Empty(t, rule)
}

func count(all []feature, k Kind) (n int) {
	for _, f := range all {
		if f.Properties["kind"] == string(k) {
			n++
		}
	}
	return n
}

// TestGeoJSON: read by the standard's rules alone, it holds what was flown.
func TestGeoJSON(t *testing.T) {
	e := fly(t, "30")
	text, _, _ := files(t, e, false)
	all, rule := readGeoJSON(text)
	require.Empty(t, rule)
	assert.Equal(t, 2, count(all, AirTrack), "cut where the counters were set")
	assert.Equal(t, 2, count(all, GroundTrack))
	assert.Equal(t, 0, count(all, TrueTrack))
	assert.Equal(t, 8, count(all, Action))
	assert.Equal(t, 3, count(all, PositionLine))
	assert.Equal(t, 2, count(all, Fix), "two bearings, counters set; the pinpoint was not to be had")
	assert.Contains(t, text, `"action":"take","aid":"pinpoint"`)
	assert.Contains(t, text, `"taken":false`)
	assert.NotContains(t, text, "true_lat")
	assert.NotContains(t, text, "error_")

	// The end of the last ground track is the ground position shown.
	v := e.View()
	var last feature
	for _, f := range all {
		if f.Properties["kind"] == string(GroundTrack) {
			last = f
		}
	}
	places := flat(t, last)
	end := places[len(places)-1]
	assert.InDelta(t, v.Ground.Lon.Degrees(), end[0], 0.51e-7)
	assert.InDelta(t, v.Ground.Lat.Degrees(), end[1], 0.51e-7)
	crossing := 0
	for _, f := range all {
		if f.Geometry.Type == "MultiLineString" && strings.HasSuffix(f.Properties["kind"].(string), "track") {
			crossing++
		}
	}
	assert.Equal(t, 2, crossing, "the first tracks go over the 180th meridian and back")
	assert.Equal(t, "1957-08-14T02:00:00Z", last.Properties["from"])

	for _, f := range all {
		if f.Properties["action"] == "set_wind" {
			assert.Equal(t, "1957-08-14T01:46:00Z", f.Properties["time"])
			assert.Equal(t, []any{300.0, 30.0}, []any{f.Properties["wind_from_deg_true"], f.Properties["wind_kt"]})
			assert.InDelta(t, 30*1852.0/3600, f.Properties["wind_m_s"], 1e-9)
		}
	}
	text, _, _ = files(t, e, true)
	all, rule = readGeoJSON(text)
	require.Empty(t, rule)
	assert.Equal(t, 1, count(all, TrueTrack))
	assert.Contains(t, text, `"error_north_nm"`)
}

// TestPositionLines: readings taken by a true hand give lines through the true
// position, but for the errors of the aids themselves, which two sigmas hold. The
// distance is that of a point from a chord on a
// small plane, worked here.
func TestPositionLines(t *testing.T) {
	e := fly(t, "30")
	take := Gather(e, false)
	found := 0
	for _, thing := range take.Things {
		if thing.Kind != PositionLine {
			continue
		}
		found++
		e.GoTo(sim.TicksOf(thing.From.Sub(take.Start)))
		truth := e.Snapshot().Truth.Position
		least := math.Inf(1)
		for i := 1; i < len(thing.Line); i++ {
			least = math.Min(least, offChord(truth, thing.Line[i-1], thing.Line[i]))
		}
		var sigma float64
		for _, f := range thing.Facts {
			if f.Name == "sigma_nm" {
				sigma = f.Value.(float64)
			}
		}
		require.Greater(t, sigma, 0.5)
		assert.Less(t, least, 2*sigma, "%s: %.2f NM off, sigma %.2f", thing.Name, least, sigma)
	}
	assert.Equal(t, 3, found)
}

// TestFixOfTwoLines: it lies within its ellipse of the true position, taken as a circle
// of the longer axis; the readings are true but for their aids.
func TestFixOfTwoLines(t *testing.T) {
	e := fly(t, "30")
	take := Gather(e, false)
	for _, thing := range take.Things {
		if thing.Kind != Fix || thing.Facts[0].Value != "position_lines" {
			continue
		}
		assert.Equal(t, "0141Z fix", thing.Name)
		e.GoTo(sim.TicksOf(thing.From.Sub(take.Start)))
		off := sim.OffsetOf(thing.Point, e.Snapshot().Truth.Position).NM()
		var axis float64
		for _, f := range thing.Facts {
			if f.Name == "ellipse_95_major_nm" {
				axis = f.Value.(float64)
			}
		}
		require.Greater(t, axis, 1.0)
		assert.Less(t, off, axis)
		return
	}
	t.Fatal("no fix")
}

// TestTheOtherCrossing: the circles of two stars give two places; the one in another part
// of the world is not in question, the other is near the true position.
func TestTheOtherCrossing(t *testing.T) {
	plan, _, err := scenarios.Open("night-stars")
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(1 << 40)
	var off []float64
	for _, thing := range Gather(e, false).Things {
		if thing.Kind != Fix || thing.Facts[0].Value != "position_lines" {
			continue
		}
		assert.Equal(t, Fact{"one_of_two", false}, thing.Facts[1])
		e.GoTo(sim.TicksOf(thing.From.Sub(plan.Start)))
		off = append(off, sim.OffsetOf(thing.Point, e.Snapshot().Truth.Position).NM())
	}
	require.Len(t, off, 1)
	assert.Less(t, off[0], 15.0, "1 and 1.5 minutes were read wrong, and the sextants are no better than some minutes")
}

// offChord is the distance in NM of p from the stretch a to b, on a plane of miles
// about p.
func offChord(p, a, b units.Position) float64 {
	plane := func(q units.Position) (x, y float64) {
		return units.WrapHalf(q.Lon-p.Lon).Minutes() * math.Cos(float64(p.Lat)), (q.Lat - p.Lat).Minutes()
	}
	ax, ay := plane(a)
	bx, by := plane(b)
	dx, dy := bx-ax, by-ay
	k := math.Max(0, math.Min(1, -(ax*dx+ay*dy)/(dx*dx+dy*dy)))
	return math.Hypot(ax+k*dx, ay+k*dy)
}

// TestCSV: read by the library, a row each five minutes and the end; figures in SI
// units are those of the trade by their definitions (1 NM = 1852 m, 1 ft = 0.3048 m,
// both exact; 0 C = 273.15 K); the uncertainties are a step over root 12 (JCGM
// 100:2008, F.2.2.1), to three figures.
func TestCSV(t *testing.T) {
	e := fly(t, "30")
	_, _, text := files(t, e, true)
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+9, "0 to 40 minutes")
	at := map[string]int{}
	for i, name := range rows[0] {
		_, twice := at[name]
		assert.False(t, twice, name)
		at[name] = i
	}
	figure := func(row []string, name string) float64 {
		i, ok := at[name]
		require.True(t, ok, name)
		x, err := strconv.ParseFloat(row[i], 64)
		require.NoError(t, err)
		return x
	}
	for i, row := range rows[1:] {
		assert.Equal(t, float64(300*i), figure(row, "elapsed_s"))
		for trade, si := range map[string]struct {
			name  string
			times float64
		}{
			"tas_kt": {"tas_m_s", 1852.0 / 3600}, "ias_kt": {"ias_m_s", 1852.0 / 3600}, "wind_set_kt": {"wind_set_m_s", 1852.0 / 3600},
			"true_tas_kt": {"true_tas_m_s", 1852.0 / 3600}, "pressure_altitude_ft": {"pressure_altitude_m", 0.3048},
			"air_log_nm": {"air_log_m", 1852}, "northing_nm": {"northing_m", 1852}, "easting_nm": {"easting_m", 1852},
			"u_tas_kt": {"u_tas_m_s", 1852.0 / 3600}, "u_air_log_nm": {"u_air_log_m", 1852},
		} {
			x := figure(row, trade) * si.times
			slack := 1e-5 // nine places of the trade's figure
			if strings.HasPrefix(trade, "u_") {
				slack = x * 0.006 // both to three figures
			}
			assert.InDelta(t, x, figure(row, si.name), slack, trade)
		}
		assert.InDelta(t, figure(row, "air_temperature_c")+273.15, figure(row, "air_temperature_k"), 1e-8)
		e.GoTo(int64(300*i) * sim.TicksPerSecond)
		assert.InDelta(t, e.View().Air.Lat.Degrees(), figure(row, "air_lat_deg"), 0.5e-7)
		assert.InDelta(t, e.Snapshot().Truth.Position.Lon.Degrees(), figure(row, "true_lon_deg"), 0.5e-7)
	}
	row := rows[1]
	for name, want := range map[string]string{
		"u_position_min": "0.0289", "u_position_m": "53.5", "u_heading_deg": "0.289", "u_tas_kt": "0.289", "u_air_log_nm": "0.0289",
		"u_variation_set_deg": "0.0289", "u_pressure_altitude_m": "0.088", "u_air_temperature_k": "0.289", "u_wind_set_from_deg": "0.289",
	} {
		assert.Equal(t, want, row[at[name]], name)
	}
}

// TestColumnsAreTold: every column of the CSV is told, with a unit where it is a
// quantity, and every one that can be read wrongly has its uncertainty.
func TestColumnsAreTold(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteColumns(&out))
	told, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	_, _, text := files(t, fly(t, "30"), true)
	header := strings.Split(strings.SplitN(text, "\n", 2)[0], ",")
	require.Len(t, told, 1+len(header))
	for i, name := range header {
		assert.Equal(t, name, told[i+1][0])
		assert.NotEmpty(t, told[i+1][2])
		if name != "utc" {
			assert.NotEmpty(t, told[i+1][1], name)
		}
	}
	_, _, hidden := files(t, fly(t, "30"), false)
	for _, name := range strings.Split(strings.SplitN(hidden, "\n", 2)[0], ",") {
		assert.False(t, strings.HasPrefix(name, "true_") || strings.Contains(name, "error"), name)
	}
}

// TestPinpoint: a place recognised below is a fix at the place.
func TestPinpoint(t *testing.T) {
	waters, err := scenarios.Waters("tern-islands")
	require.NoError(t, err)
	for _, p := range waters.Places {
		if p.Name != "Teal Holm" {
			continue
		}
		text := strings.Replace(strings.Replace(crewFlight, "WIND", "0", 1), "pinpoint Port Aldous", "pinpoint Teal Holm", 1)
		text = strings.Replace(text, `at = "36m"`, `at = "1s"`, 1)
		text = strings.Replace(text, "[-46.8, 179.2]", "["+number(p.At.Lat.Degrees())+", "+number(p.At.Lon.Degrees())+"]", 1)
		plan, _, err := scenarios.Load("crew.toml", strings.NewReader(text))
		require.NoError(t, err)
		e, err := sim.New(plan)
		require.NoError(t, err)
		e.Advance(60 * sim.TicksPerSecond)
		for _, thing := range Gather(e, false).Things {
			if thing.Kind == Fix {
				assert.InDelta(t, p.At.Lat.Degrees(), thing.Point.Lat.Degrees(), 1e-9)
				assert.InDelta(t, p.At.Lon.Degrees(), thing.Point.Lon.Degrees(), 1e-9)
				assert.Equal(t, "0130Z Teal Holm", thing.Name)
				return
			}
		}
	}
	t.Fatal("no pinpoint")
}
