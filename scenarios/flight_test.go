package scenarios

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator"
	"stillair/integrator/aboard"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
	"stillair/sim/spread"
)

const kt, deg, ft = units.Knot, units.Degree, units.Foot

func example(t *testing.T) *sim.Plan {
	t.Helper()
	text, err := os.ReadFile("example.toml")
	require.NoError(t, err)
	p, src, err := Load("example.toml", strings.NewReader(string(text)))
	require.NoError(t, err)
	assert.Equal(t, text, src.Text)
	assert.Equal(t, "example.toml", src.Name)
	return p
}

// Every value of example.toml, read off the file by eye.
func TestTheExampleCompiles(t *testing.T) {
	p := example(t)
	assert.Equal(t, "Every key once", p.Title)
	assert.Equal(t, time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), p.Start)
	assert.Equal(t, uint64(42), p.Seed)
	assert.Equal(t, "tern-islands", p.Waters)
	assert.Equal(t, sim.AsPlanned, p.Pilot)
	assert.Equal(t, sim.Aircraft{
		Position: units.At(-47.1667, 178.5), Heading: units.TrueHeading(90 * deg), PressureAltitude: 10000 * ft,
		Speed: sim.SpeedOrder{Kind: sim.HoldCAS, Speed: 150 * kt},
	}, p.Aircraft)
	require.NotNil(t, p.Field)
	assert.Equal(t, units.Variation(23.5*deg), *p.Field)
	assert.Equal(t, units.Variation(23*deg), *p.Setting.Variation)
	assert.Equal(t, units.Wind{From: 265 * deg, Speed: 22 * kt}, p.Setting.Wind)
	assert.Equal(t, units.At(-47.2, 178+31/60.0), *p.Setting.Counters)
}

func TestTheLegsOfTheExample(t *testing.T) {
	legs := example(t).Legs
	require.Len(t, legs, 6)
	at500 := 500 * ft / 60
	for i, want := range []sim.Leg{
		{Steer: sim.HeadingTrue, Direction: 90 * deg, Ticks: 20 * 60 * 16, TurnRate: 3},
		{Steer: sim.HeadingMagnetic, Direction: 60 * deg, Distance: 45 * units.NM, TurnRate: 1.5,
			Speed: &sim.SpeedOrder{Kind: sim.HoldTAS, Speed: 190 * kt}},
		{Steer: sim.HeadingCompass, Direction: 10 * deg, Ticks: 750 * 16, TurnRate: 3, Altitude: new(14000 * ft)},
		{Steer: sim.TrackTrue, Direction: 200 * deg, Ticks: 15 * 60 * 16, TurnRate: 3},
		{Steer: sim.ToPlace, Place: "Teal Holm", TurnRate: 3, Target: legs[4].Target},
		{Steer: sim.ToPlace, Place: "47 25.0 S 179 52.0 W", TurnRate: 3, Target: units.At(-47-25/60.0, -179-52/60.0)},
	} {
		climb := at500
		if i >= 2 {
			climb = 700 * ft / 60 // ordered on the third leg, kept while it lasts
		}
		assert.InDelta(t, float64(climb), float64(legs[i].Climb), 1e-12, "leg %d", i+1)
		want.Climb = legs[i].Climb
		assert.Equal(t, want, legs[i], "leg %d", i+1)
	}
	// Teal Holm stands near 47 46 S 177 10 W.
	assert.InDelta(t, -47.76, legs[4].Target.Lat.Degrees(), 0.02)
	assert.InDelta(t, -177.17, legs[4].Target.Lon.Degrees(), 0.03)
}

func TestTheRestOfTheExample(t *testing.T) {
	p := example(t)
	assert.Equal(t, -4.0, p.Air.ISADeviation)
	assert.InDelta(t, 100200, p.Air.QNH.Pascals(), 1e-9)
	hour := int64(57600)
	assert.Equal(t, []sim.WindEntry{
		{Wind: units.Wind{From: 270 * deg, Speed: 20 * kt}, Base: new(5000 * ft), Until: hour},
		{Wind: units.Wind{From: 290 * deg, Speed: 38 * kt}, Base: new(15000 * ft), Until: hour},
		{Wind: units.Wind{From: 240 * deg, Speed: 31.5 * kt}, From: hour},
	}, p.Air.Winds)
	m := p.Mechanism
	assert.Equal(t, integrator.Service, m.Class)
	assert.Equal(t, ground.Running, m.Ground)
	assert.Equal(t, integrator.HemisphereLever, m.Longitude)
	assert.Equal(t, "bulb", m.TemperatureSource)
	assert.Len(t, m.Values, 12)
	assert.Equal(t, 75.0, m.Values["secant_limit_deg"])
	minute := int64(960)
	assert.Equal(t, []sim.Command{
		{Tick: 25 * minute, Action: aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 275 * deg, Speed: 26 * kt}}},
		{Tick: 30 * minute, Action: aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(23.5 * deg)}},
		{Tick: 40 * minute, Action: aboard.Action{Kind: aboard.SetLongitudeLever, East: false}},
		{Tick: 45 * minute, Action: aboard.Action{Kind: aboard.SetCounters, Position: units.At(-46-55/60.0, -179-20/60.0)}},
		{Tick: 50 * minute, Action: aboard.Action{Kind: aboard.AlternateStatic, On: true}},
		{Tick: 52 * minute, Action: aboard.Action{Kind: aboard.Resynchronise}},
		{Tick: 55 * minute, Action: aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: aboard.Aim{Aid: aboard.Loop, Source: "Gannet Rock"}, ByCrew: true, Error: 1.2}}},
	}, p.Crew)
	assert.Equal(t, []fault.Order{
		{ID: "drive-slip", At: 20 * minute, For: 10 * minute, Params: []float64{0.02}},
		{ID: "static-leak", At: 35 * minute, Shape: fault.Ramp, RampTicks: 5 * minute, Params: []float64{0.1, -0.1, 3}},
		{ID: "longitude-drum-jam", At: hour, Shape: fault.Intermittent, On: 320, Off: 640, Params: []float64{2}},
	}, p.Faults)
	for _, o := range p.Faults {
		assert.NoError(t, o.Check())
	}
	hidden := false
	assert.Equal(t, []sim.Lesson{{
		Title: "Two positions",
		Text:  "The air position goes where the nose points. The ground position goes where the wind lets it.",
		Light: []string{"air-counters", "marker"}, View: sim.ViewTable,
		Start: sim.LessonStart{GoTo: 0, Clock: sim.RunTheClock, RunTo: 10 * minute, Rate: 30, Truth: &hidden},
		Do:    "Set the wind of the briefing.",
		Until: sim.Goal{Kind: sim.WindGoal, Wind: units.Wind{From: 280 * deg, Speed: 25 * kt}, WithinDegrees: 10, WithinKnots: 5},
		Hint:  "Turn the ring of the wind setter.", HintAfter: 40 * time.Second, Note: "What the lecturer is reminded of.",
		Question: &sim.Question{Text: "Which of the two does the wind move?", Answers: []string{"The air position", "The ground position"},
			Right: 1, Why: "The air position is where the aircraft would be if the air stood still."},
	}, {
		Title: "Where is the aircraft?", Text: "Put a pin where you believe it to be.",
		Start: sim.LessonStart{GoTo: 20 * minute, Clock: sim.StopTheClock, RunTo: -1}, HintAfter: 30 * time.Second,
		Predict: &sim.Prediction{At: 20 * minute},
	}}, p.Lessons)
	assert.Equal(t, &sim.Exercise{
		Level: 3, Task: "Fly the triangle, keep the log, and report what you suspect.", Finds: "The static line leaks into the cabin from 1005Z.",
		ReportWithin: 8 * minute, Hold: 4.5 * units.NM, LogEvery: 15 * minute, Marks: [5]float64{30, 10, 20, 25, 15},
	}, p.Exercise)
	assert.Equal(t, []sim.Moment{{At: 20 * minute, Name: "Onto the second leg"}, {At: 25 * minute, Name: "Another wind is set"}}, p.Moments)
}

// The reference and the example leave no key out.
func TestEveryKeyIsDocumented(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	text, err := os.ReadFile("example.toml")
	require.NoError(t, err)
	keys := append(append(append([]string{}, legKeys...), aircraftKeys...), actionKeys...)
	keys = append(keys, "schema", "title", "summary", "start", "seed", "waters", "pilot", "variation_deg", "isa_deviation_c",
		"qnh_hpa", "from_deg_true", "speed_kt", "base_ft", "from", "until", "class", "ground", "counters",
		"wind_from_deg_true", "wind_kt", "id", "at", "for", "shape", "ramp", "on", "off", "text", "moment", "name", "preset", "wander_time",
		"exercise", "level", "task", "finds", "report_within", "hold_nm", "log_every", "marks", "sealed")
	keys = append(keys, sim.ExerciseMarks[:]...)
	keys = append(keys, lessonKeys...)
	for _, g := range goals { // the example shows one
		for _, k := range append([]string{g.key}, g.with...) {
			assert.Contains(t, string(doc), k)
		}
	}
	for _, name := range sim.LightNames() {
		assert.Regexp(t, `\b`+name+`\b`, string(doc))
	}
	for _, term := range spread.Terms() {
		f := term.Fact()
		keys = append(keys, f.Key)
		assert.Regexp(t, fmt.Sprintf(`(?m)^//\t%s +to %v\b`, f.Key, f.Max), string(doc))
	}
	for _, s := range fault.Service() {
		keys = append(keys, s.Name)
		row := fmt.Sprintf(`(?m)^//\t%s +%v +`, s.Name, s.Value)
		if s.Word != "" {
			row = fmt.Sprintf(`(?m)^//\t%s +"%s" +`, s.Name, s.Word)
		} else {
			row += fmt.Sprintf(`%v to %v$`, s.Min, s.Max)
		}
		assert.Regexp(t, row, string(doc))
	}
	for _, k := range keys {
		word := regexp.MustCompile(`\b` + k + `\b`)
		assert.Regexp(t, word, string(doc), "doc.go")
		assert.Regexp(t, word, string(text), "example.toml")
	}
}

func TestDefaults(t *testing.T) {
	p, _, err := Load("f", strings.NewReader(plainFlight))
	require.NoError(t, err)
	assert.Equal(t, sim.Steady, p.Pilot)
	assert.Equal(t, integrator.Config{}, p.Mechanism)
	assert.Nil(t, p.Field)
	assert.Equal(t, sim.Setting{}, p.Setting)
	assert.Equal(t, sim.Air{QNH: 1013.25 * units.Hectopascal}, p.Air)
	assert.Empty(t, p.Crew)
	assert.Empty(t, p.Faults)
}

func TestThreeSixtyIsNought(t *testing.T) {
	p, _, err := Load("f", strings.NewReader(edit("heading_true_deg = 90", "heading_true_deg = 360")))
	require.NoError(t, err)
	assert.Equal(t, units.TrueHeading(0), p.Aircraft.Heading)
}

func TestResynchronise(t *testing.T) {
	entry := "\n[[crew]]\nat = \"10m\"\nresynchronise = "
	p, _, err := Load("f", strings.NewReader(edit("", entry+"true")))
	require.NoError(t, err)
	assert.Equal(t, aboard.Resynchronise, p.Crew[0].Action.Kind)
	_, _, err = Load("f", strings.NewReader(edit("", entry+"false")))
	assert.ErrorContains(t, err, "must be true")
}

func TestCrewIsSortedByTimeAndStays(t *testing.T) {
	p, _, err := Load("f", strings.NewReader(edit("", `
[[crew]]
at = "20m"
take = "drift"
[[crew]]
at = "10m"
take = "sextant sun"
[[crew]]
at = "10m"
take = "sextant Moon"
[[crew]]
at = "20m"
set_variation_deg = "true-to-field"`)))
	require.NoError(t, err)
	var order []string
	for _, c := range p.Crew {
		order = append(order, c.Action.Reading.Aim.String())
	}
	assert.Equal(t, []string{"sextant Sun", "sextant Moon", "drift", ""}, order)
	assert.Equal(t, aboard.FollowField, p.Crew[3].Action.Kind)
}

func TestWinds(t *testing.T) {
	wind := func(rest string) string { return "[[air.wind]]\nfrom_deg_true = 270\nspeed_kt = 20\n" + rest + "\n" }
	for name, c := range map[string]struct {
		text string
		ok   bool
	}{
		"one for all":                     {wind(""), true},
		"two for all":                     {wind("") + wind(""), false},
		"blocks that meet":                {wind(`until = "1h"`) + wind(`from = "1h"`), true},
		"blocks that overlap":             {wind(`until = "1h1s"`) + wind(`from = "1h"`), false},
		"later first":                     {wind(`from = "1h"`) + wind(`until = "1h"`), true},
		"calm between":                    {wind(`until = "1h"`) + wind(`from = "2h"`), true},
		"two levels":                      {wind("base_ft = 1000") + wind("base_ft = 2000"), true},
		"one level twice":                 {wind("base_ft = 1000") + wind("base_ft = 1000.0"), false},
		"one level at other times":        {wind("base_ft = 1000\nuntil = \"1h\"") + wind("base_ft = 1000\nfrom = \"1h\""), true},
		"a level and all heights":         {wind("base_ft = 1000") + wind(""), false},
		"a level, then all heights later": {wind("base_ft = 1000\nuntil = \"1h\"") + wind(`from = "1h"`), true},
	} {
		err := check(edit("", c.text))
		assert.Equal(t, c.ok, err == nil, "%s: %v", name, err)
	}
}

// The standard atmosphere's speed of sound is 661.5 kt at sea level and 573.6
// kt from 36 089 ft up (handbook tables, from memory), so 450 kt true is legal
// everywhere at standard temperature; 60 C colder at 40 000 ft it is 487 kt.
// 260 kt calibrated at 40 000 ft is Mach 0.86; 330 kt is past 1.
func TestSpeedOfSound(t *testing.T) {
	high := func(speed string) string {
		return strings.Replace(edit("tas_kt = 150", speed), "10000", "40000", 1)
	}
	assert.NoError(t, check(high("tas_kt = 450")))
	assert.NoError(t, check(high("cas_kt = 260")))
	assert.ErrorContains(t, check(high("cas_kt = 330")), "f:9: aircraft.cas_kt = 330: must be below the speed of sound")
	assert.NoError(t, check(high("tas_kt = 450")+"[air]\nisa_deviation_c = -60\n"))
	assert.ErrorContains(t, check(edit("tas_kt = 150", "cas_kt = 330")+"pressure_altitude_ft = 40000\n"),
		"f:13: leg[1].pressure_altitude_ft = 40000: must be below the speed of sound")
}

// A TOML array and a [[table]] are the same thing.
func TestInlineTables(t *testing.T) {
	text := `schema = 1
title = "inline"
start = 1957-08-14T09:30:00Z
seed = 7
aircraft = { position = [-47, 178], heading_true_deg = 90, pressure_altitude_ft = 10000, tas_kt = 150 }
leg = [ { heading_true_deg = 90, duration = "1h" }, { heading_true_deg = 180, duration = "1h" } ]
air.wind = [ { from_deg_true = 270, speed_kt = 20 } ]
`
	p, _, err := Load("f", strings.NewReader(text))
	require.NoError(t, err)
	assert.Len(t, p.Legs, 2)
	assert.Len(t, p.Air.Winds, 1)
	assert.ErrorContains(t, check(strings.Replace(text, "180", "380", 1)), "f:6: leg[2].heading_true_deg = 380")
}
