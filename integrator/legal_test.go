package integrator

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/counter"
	"stillair/integrator/ground"
	"stillair/integrator/units"
	"stillair/internal/rows"
)

// parameter is a line of the catalogue's table of parameters.
type parameter struct {
	name     string
	min, max float64
	whole    bool
	choices  []string
}

func (p parameter) draw(t *rapid.T) float64 {
	switch {
	case len(p.choices) > 0:
		return words[rapid.SampledFrom(p.choices).Draw(t, p.name)]
	case p.whole:
		return float64(rapid.IntRange(int(p.min), int(p.max)).Draw(t, p.name))
	}
	return rapid.Float64Range(p.min, p.max).Draw(t, p.name)
}

// catalogue reads the parameters of the faults of these links.
func catalogue(t *testing.T) map[string][]parameter {
	got := map[string][]parameter{}
	for _, r := range rows.Read(t, "testdata/mech_fault_parameters.csv") {
		p := parameter{name: r.Text("name"), choices: strings.Fields(r.Text("choices")), whole: r.Text("type") == "integer"}
		if _, ours := faults[r.Text("fault_id")]; !ours {
			continue
		}
		if len(p.choices) == 0 {
			p.min, p.max = r.Float("min"), r.Float("max")
		}
		for _, word := range p.choices {
			require.Contains(t, words, word)
		}
		got[r.Text("fault_id")] = append(got[r.Text("fault_id")], p)
	}
	return got
}

// finite walks everything of a state.
func finite(t require.TestingT, v reflect.Value, where string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i), where+"."+v.Type().Field(i).Name)
		}
	case reflect.Float64:
		require.False(t, math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0), where)
	}
}

// legal refuses digits that no drum has.
func legal(t require.TestingT, r counter.Reading, most float64) {
	value, size := 0.0, 0.1
	bases := []float64{10, 10, 6, 10, 10, 10}
	for i := range r.N {
		require.GreaterOrEqual(t, r.Drums[i], 0.0)
		require.Less(t, r.Drums[i], bases[i])
		value += float64(r.Digit(i)) * size
		size *= bases[i]
	}
	require.LessOrEqual(t, value, most, r.Arc())
}

func legalState(t require.TestingT, s *State) {
	finite(t, reflect.ValueOf(s).Elem(), "state")
	require.GreaterOrEqual(t, s.AirLog.Miles.Total, 0.0, "the distance shaft never turns back")
	for _, d := range []ground.Design{ground.Running, ground.Plotted} {
		c := Config{Ground: d}
		for _, p := range []units.Position{units.Position(s.AirPosition()), units.Position(s.GroundPosition(&c)), units.Position(s.Marker(&c))} {
			require.LessOrEqual(t, math.Abs(p.Lat.Degrees()), 90+1e-9)
			require.False(t, math.IsNaN(float64(p.Lon)) || math.IsInf(float64(p.Lon), 0))
			legal(t, counter.Latitude(p.Lat.Minutes()), 5400)
			for design, most := range map[LongitudeDesign]float64{HemisphereAuto: 10800, East360: 21600, HemisphereLever: 21600} {
				legal(t, s.LongitudeCounter(&Config{Longitude: design}, p.Lon.Minutes()), most)
			}
		}
	}
}

// Whatever legal faults come and go together, whatever is flown and whatever
// the crew do: everything stays finite, every counter legal.
func TestAnyLegalCombination(t *testing.T) {
	of := catalogue(t)
	ids := make([]string, 0, len(faults))
	for id := range faults {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	rapid.Check(t, func(t *rapid.T) {
		heading, kt := rapid.Float64Range(0, 360), rapid.Float64Range(0, 450)
		lat := rapid.OneOf(rapid.Float64Range(-90, 90), rapid.SampledFrom([]float64{-90, -89.99, 0, 50, 89.99, 90}))
		w := windOf(heading.Draw(t, "from"), rapid.Float64Range(0, 250).Draw(t, "wind"))
		c := Config{Class: Class(rapid.IntRange(0, 1).Draw(t, "class")), Ground: ground.Design(rapid.IntRange(0, 1).Draw(t, "design"))}
		healthy, err := c.Imperfections()
		require.NoError(t, err)
		var s State
		s.Start(aloft(0, kt.Draw(t, "kt"), 0), 0, w, units.At(lat.Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")), healthy)
		for range rapid.IntRange(1, 8).Draw(t, "parts") {
			s.Wrong = healthy
			for _, id := range rapid.SliceOfNDistinct(rapid.SampledFrom(ids), 0, 6, rapid.ID).Draw(t, "faults") {
				p := params{"lat_error_deg": 3}
				for _, q := range of[id] {
					p[q.name] = q.draw(t)
				}
				faults[id](&s.Wrong, p)
			}
			fly := rapid.Float64Range(-1000, 40000).Draw(t, "ft")
			in := aloft(fly, kt.Draw(t, "kt"), rapid.Float64Range(-60, 60).Draw(t, "deviation"))
			turn, h := rapid.Float64Range(-3, 3).Draw(t, "turn"), heading.Draw(t, "heading")
			for range 100 {
				h += turn * dt
				in.Compass = units.CompassHeading(units.Wrap(units.Angle(h) * units.Degree))
				s.Step(in, dt)
			}
			// An hour of steps a minute long: the laws must not hang on small ones.
			for range rapid.IntRange(0, 60).Draw(t, "minutes") {
				s.Step(in, 60)
			}
			legalState(t, &s)
			switch rapid.IntRange(0, 4).Draw(t, "crew") {
			case 0:
				s.SetCounters(units.At(lat.Draw(t, "set"), 179.99))
			case 1:
				s.SlewLatitude(units.Angle(rapid.Float64Range(-90, 90).Draw(t, "slew")) * units.Degree)
				s.SlewLongitude(units.Angle(rapid.Float64Range(-180, 180).Draw(t, "slew")) * units.Degree)
			case 2:
				s.ThrowLever(!s.LeverEast)
			case 3:
				s.Ground.SetWind(windOf(h, 250))
			}
			legalState(t, &s)
		}
	})
}

// A step takes no memory, ideal or with everything wrong at once.
func TestStepDoesNotAllocate(t *testing.T) {
	var all Imperfections
	for id, spoil := range faults {
		if id != "air-log-frozen" && id != "drive-broken" {
			spoil(&all, defaults(t, id))
		}
	}
	for _, w := range []Imperfections{{}, all} {
		var s State
		in := sense(200, 40)
		s.Start(in, 0, units.Wind{}, units.At(50, 0), w)
		assert.Zero(t, testing.AllocsPerRun(100, func() { s.Step(in, dt) }))
	}
}
