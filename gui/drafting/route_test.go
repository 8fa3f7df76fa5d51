package drafting

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/atlas"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
	"stillair/sim"
)

// shipped is a shipped flight as a draft.
func shipped(t require.TestingT, name string) *edit.Draft {
	_, src, err := scenarios.Open(name)
	require.NoError(t, err)
	d, err := edit.New(name, src.Text)
	require.NoError(t, err)
	return d
}

// calm is a flight without wind, so that what it flies can be worked by head.
func calm(t require.TestingT, legs string) *edit.Draft {
	text := `schema = 1
title = "Calm"
start = 1957-08-14T09:30:00Z
seed = 1
waters = "tern-islands"
pilot = "as-planned"
[aircraft]
position = "47 00.0 S 179 00.0 E"
heading_true_deg = 0
pressure_altitude_ft = 6000
tas_kt = 120
` + legs
	d, err := edit.New("calm", []byte(text))
	require.NoError(t, err)
	require.NoError(t, d.Wrong())
	return d
}

// do makes changes that must be possible.
func do(t require.TestingT, d *edit.Draft) func(changes []edit.Change, err error) {
	return func(changes []edit.Change, err error) {
		require.NoError(t, err)
		require.NoError(t, d.Do(changes...))
	}
}

func legText(d *edit.Draft, n int) string {
	var out []string
	for _, k := range append(append([]string{}, steerKeys...), "duration", "distance_nm") {
		if v, ok := d.Get(leg(n) + "." + k); ok {
			out = append(out, k+" "+v.String())
		}
	}
	return strings.Join(out, ", ")
}

// At 47 S a due north mile is a minute of latitude to a part in a thousand, and 120 kt
// are two of them a minute: the legs can be read off. Figures by head, checked to the
// mile; on WGS-84 a minute of latitude at 46.5 S is 1852.2 m (geographical mile at 45
// degrees, 1852.2 m, from memory), so 30' are 30.0 NM.
func TestMovedLegsAreAsWorkedByHead(t *testing.T) {
	d := calm(t, "[[leg]]\nheading_true_deg = 0 # out\nduration = \"10m\"\n[[leg]]\ntrack_true_deg = 90\ndistance_nm = 20\n")
	do(t, d)(MoveEnd(d, 1, units.At(-46.5, 179), 0))
	assert.Equal(t, `heading_true_deg 0, duration "15m"`, legText(d, 1), "30 NM at 2 NM a minute; the heading is kept")
	assert.Contains(t, string(d.Text()), "heading_true_deg = 0 # out")
	// the second leg still ends where it did: 20 NM east of 46 40 S 179 00 E, 10 NM south of here
	assert.Equal(t, `track_true_deg 116.6, distance_nm 22.4`, legText(d, 2), "atan2(20, -10) is 116.6, the hypotenuse 22.4")
	do(t, d)(MoveEnd(d, 2, units.At(-46.5, 179.5), 0))
	assert.Equal(t, `track_true_deg 90, distance_nm 20.7`, legText(d, 2), "30 minutes of longitude times cos 46.5")
}

func TestDroppedOnAPlace(t *testing.T) {
	waters, err := scenarios.Waters("tern-islands")
	require.NoError(t, err)
	home, ok := waters.Place("Skerrow")
	require.True(t, ok)
	d := calm(t, "[[leg]]\nheading_true_deg = 0\nduration = \"10m\"\nturn_rate_deg_s = 1\n")
	near, err := geodesy.RhumbDirect(home.At, 1, 3*units.NM)
	require.NoError(t, err)
	do(t, d)(MoveEnd(d, 1, near, 4*units.NM))
	assert.Equal(t, `to "Skerrow"`, legText(d, 1))
	assert.Equal(t, sim.ToPlace, d.Plan().Legs[0].Steer)
	assert.True(t, d.Has("leg[1].turn_rate_deg_s"), "the rest of the leg stays")
	away, err := geodesy.RhumbDirect(home.At, 2, 30*units.NM)
	require.NoError(t, err)
	do(t, d)(MoveEnd(d, 1, away, 0))
	assert.Contains(t, legText(d, 1), "track_true_deg")
	assert.NotContains(t, legText(d, 1), "to ")
	d.Undo()
	d.Undo()
	assert.Equal(t, `heading_true_deg 0, duration "10m"`, legText(d, 1))
}

// flownTo is where the engine flies a plan to, in the world: WGS-84 stepped by its radii
// of curvature, which shares no code with the tables that the route was drawn with. The
// air is the wind that is set, everything is held as planned, turns are at once.
func flownTo(t require.TestingT, p *sim.Plan) []units.Position {
	q := *p
	q.Pilot, q.Faults, q.Crew, q.Air = sim.AsPlanned, nil, nil, p.Air
	q.Air.Winds = []sim.WindEntry{{Wind: p.Setting.Wind}}
	q.Legs = append([]sim.Leg{}, p.Legs...)
	for i := range q.Legs {
		q.Legs[i].TurnRate = 0
	}
	e, err := sim.New(&q)
	require.NoError(t, err)
	var ends []units.Position
	leg := e.State().Leg.Index
	for e.Advance(1) > 0 {
		if now := e.State().Leg.Index; now != leg {
			leg = now
			ends = append(ends, e.Snapshot().Truth.Position)
		}
	}
	return append(ends, e.Snapshot().Truth.Position)
}

// TestTheEngineFliesThere: a turning point moved is where the engine really comes to, and
// the next one is where it was.
func TestTheEngineFliesThere(t *testing.T) {
	d := calm(t, "[[leg]]\nheading_true_deg = 40\nduration = \"20m\"\n[[leg]]\ntrack_true_deg = 90\nduration = \"20m\"\n[[leg]]\nheading_true_deg = 100\ndistance_nm = 30\n"+
		"[setting]\nwind_from_deg_true = 300\nwind_kt = 40\n")
	before := flownTo(t, d.Plan())
	require.Len(t, before, 3)
	rapid.Check(t, func(t *rapid.T) {
		d := d.Copy()
		n := rapid.IntRange(1, 3).Draw(t, "leg")
		course := units.Angle(rapid.Float64Range(0, 2*math.Pi).Draw(t, "course"))
		far := units.Length(rapid.Float64Range(0.5, 15).Draw(t, "NM")) * units.NM
		to, err := geodesy.RhumbDirect(before[n-1], course, far)
		require.NoError(t, err)
		do(t, d)(MoveEnd(d, n, to, 0))
		after := flownTo(t, d.Plan())
		for i, want := range before {
			if i == n-1 {
				want = to
			}
			if i > n { // after the next one, errors of rounding add up along the way
				continue
			}
			_, off := geodesy.RhumbInverse(want, after[i])
			assert.LessOrEqual(t, off.NM(), 0.25, "turning point %d", i+1)
		}
	})
}

// TestAnyFlightCanBeRedrawn: on every shipped flight turning points are moved, put in and
// taken out at random. What comes of it loads, the point is where it was put and the
// others are where they were, both to the rounding of a file; or nothing is changed and
// the reason is told. Undo brings the bytes back.
func TestAnyFlightCanBeRedrawn(t *testing.T) {
	moved, refused := 0, 0
	flights := scenarios.Shipped()
	rapid.Check(t, func(t *rapid.T) {
		d := shipped(t, rapid.SampledFrom(flights).Draw(t, "flight").Name)
		text := string(d.Text())
		before := atlas.Planned(d.Plan())
		n := rapid.IntRange(1, len(before)).Draw(t, "leg")
		course := units.Angle(rapid.Float64Range(0, 2*math.Pi).Draw(t, "course"))
		far := units.Length(rapid.Float64Range(0.1, 60).Draw(t, "NM")) * units.NM
		near := func(p units.Position) units.Position {
			q, err := geodesy.RhumbDirect(p, course, far)
			require.NoError(t, err)
			return q
		}
		what := rapid.SampledFrom([]string{"end", "start", "split", "append", "remove"}).Draw(t, "what")
		want := map[int]units.Position{} // by the number of the turning point after it
		var changes []edit.Change
		var err error
		switch what {
		case "end":
			want[n] = near(before[n-1].To)
			changes, err = MoveEnd(d, n, want[n], 0)
			if n < len(before) {
				want[n+1] = before[n].To
			}
		case "start":
			changes, err = MoveStart(d, near(d.Plan().Aircraft.Position), 0)
			want[1] = before[0].To
		case "split":
			want[n], want[n+1] = near(before[n-1].From), before[n-1].To
			changes, err = Split(d, n, want[n], 0)
		case "append":
			want[len(before)+1] = near(before[len(before)-1].To)
			changes, err = Append(d, want[len(before)+1], 0)
		case "remove":
			changes, err = RemoveLeg(d, n)
			if n < len(before) {
				want[n] = before[n].To
			}
		}
		if err == nil {
			err = d.Do(changes...)
		}
		if err != nil {
			refused++
			require.NotEmpty(t, err.Error())
			require.Equal(t, text, string(d.Text()))
			return
		}
		moved++
		require.NoError(t, d.Wrong())
		after := atlas.Planned(d.Plan())
		for i, at := range want {
			require.LessOrEqual(t, i, len(after), "%s", what)
			_, off := geodesy.RhumbInverse(at, after[i-1].To)
			_, long := geodesy.RhumbInverse(after[i-1].From, after[i-1].To)
			// half a tenth of a degree across, half a second at 6 NM a minute or half a tenth
			// of a mile along, half a tenth of a minute where the leg begins
			most := long.NM()*0.05*math.Pi/180*1.6 + 0.05 + 0.07 + missedBy.NM() + 0.05
			require.LessOrEqual(t, off.NM(), most, "%s: turning point %d", what, i)
		}
		d.Undo()
		require.Equal(t, text, string(d.Text()))
	})
	assert.Positive(t, moved)
	t.Logf("%d redrawn, %d refused", moved, refused)
}

func TestRefusedRoutes(t *testing.T) {
	d := calm(t, "[[leg]]\nheading_true_deg = 0\nduration = \"10m\"\n")
	_, err := MoveEnd(d, 1, units.At(-47, 179.001), 0)
	assert.ErrorContains(t, err, "Too near")
	_, err = RemoveLeg(d, 1)
	assert.ErrorContains(t, err, "one leg at least")
	require.NoError(t, d.Do(edit.Set("setting.wind_from_deg_true", edit.Whole(0)), edit.Set("setting.wind_kt", edit.Whole(200))))
	_, err = Append(d, units.At(-40, 179), 0)
	assert.ErrorContains(t, err, "cannot be held off")
}

// TestSpeedAndHeightStay: a leg that goes hands its orders on; one that is split keeps
// them in its first part.
func TestSpeedAndHeightStay(t *testing.T) {
	d := calm(t, "[[leg]]\nheading_true_deg = 0\nduration = \"20m\"\ntas_kt = 150\npressure_altitude_ft = 9000\n[[leg]]\nheading_true_deg = 90\nduration = \"20m\"\n")
	do(t, d)(Split(d, 1, units.At(-46.7, 179.1), 0))
	assert.Equal(t, 3, d.Count("leg"))
	assert.True(t, d.Has("leg[1].tas_kt"))
	assert.False(t, d.Has("leg[2].tas_kt"))
	assert.Contains(t, legText(d, 2), "heading_true_deg")
	do(t, d)(RemoveLeg(d, 1))
	assert.Equal(t, 2, d.Count("leg"))
	v, _ := d.Get("leg[1].tas_kt")
	assert.Equal(t, "150", v.String())
	assert.True(t, d.Has("leg[1].pressure_altitude_ft"))
}
