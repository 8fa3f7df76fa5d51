package calc

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// closes checks a figure by the definition alone: air vector and wind (from) make the
// ground vector.
func closes(t require.TestingT, tri *Triangle, tolerance float64) {
	north, east := 0.0, 0.0
	for _, v := range [][2]Quantity{{TAS, Heading}, {WindSpeed, WindFrom}, {Groundspeed, Track}} {
		s, c := math.Sincos(tri.Value(v[1]) * math.Pi / 180)
		k := 1.0
		if v[0] != TAS {
			k = -1
		}
		north, east = north+k*tri.Value(v[0])*c, east+k*tri.Value(v[0])*s
	}
	require.InDelta(t, 0, math.Hypot(north, east), tolerance)
}

func TestTheExampleAndItsWords(t *testing.T) {
	tri := NewTriangle()
	closes(t, tri, 1e-9)
	var said []string
	for q := range Quantities {
		said = append(said, tri.Text(Quantity(q)))
	}
	// Track and groundspeed as in the drawing of this screen, worked there by a script.
	assert.Equal(t, []string{"050T", "178 kt", "305T", "33 kt", "060T", "189 kt"}, said)
	assert.Equal(t, "10 R", tri.Drift(), "the difference of the printed track and heading")
	assert.Contains(t, tri.Said(), "here 10 to the right")
	assert.Equal(t, "305/33", tri.WindText())
	require.NoError(t, tri.Type(WindFrom, "125"))
	assert.Contains(t, tri.Said(), "to the left")
	assert.Contains(t, tri.Drift(), "L")
	require.NoError(t, tri.Type(WindSpeed, "0"))
	assert.Equal(t, "0", tri.Drift())
	assert.Contains(t, tri.Said(), "here none")
}

func TestAFifthIsRefusedAndNothingChanges(t *testing.T) {
	tri := NewTriangle()
	before := *tri
	four := look.Text(look.CalcFour)
	assert.EqualError(t, tri.Toggle(Track), four)
	assert.EqualError(t, tri.Type(Groundspeed, "180"), four)
	assert.EqualError(t, tri.Step(Track, 1), four)
	assert.EqualError(t, tri.Drag(AirCorner, 100, 100), four)
	assert.Equal(t, before, *tri)
	require.NoError(t, tri.Toggle(Heading))
	assert.Equal(t, Free, tri.State(Track))
	require.NoError(t, tri.Type(Track, "060T"))
	assert.Equal(t, Given, tri.State(Track))
	assert.Equal(t, Answer, tri.State(Heading))
	assert.Equal(t, "050T", tri.Text(Heading))
	tri.LetAllGo()
	for q := range Quantities {
		assert.Equal(t, Free, tri.State(Quantity(q)))
	}
	assert.Equal(t, look.Text(look.CalcFreeSaid), tri.Said())
}

func TestWhatIsTypedIsRead(t *testing.T) {
	tri := NewTriangle()
	require.NoError(t, tri.Type(WindSpeed, "295/27"))
	assert.Equal(t, "295/27", tri.WindText())
	require.NoError(t, tri.Type(TAS, " 182.5 kt "))
	assert.Equal(t, 182.5, tri.Value(TAS))
	require.NoError(t, tri.Type(TAS, tri.Text(TAS)))
	assert.Equal(t, 182.5, tri.Value(TAS), "what it printed already is left as it is")
	require.NoError(t, tri.Type(Heading, "7t"))
	assert.Equal(t, "007T", tri.Text(Heading))
	before := *tri
	for text, reason := range map[string]string{
		"fast": `"fast" is not a speed`, "": `"" is not a speed`, "0x10": "is not a speed", "1e2": "is not a speed", "NaN": "is not a speed",
		"-4": "The true airspeed must lie between 1 and 600.", "601": "between 1 and 600",
	} {
		assert.ErrorContains(t, tri.Type(TAS, text), reason, text)
	}
	assert.ErrorContains(t, tri.Type(WindFrom, "361"), "The wind from must lie between 0 and 360")
	assert.ErrorContains(t, tri.Type(Heading, "north"), "is not a direction")
	assert.ErrorContains(t, tri.Type(WindSpeed, "251"), "between 0 and 250")
	assert.Equal(t, before, *tri)
	full := given(t, map[Quantity]float64{Heading: 50, TAS: 178, Track: 60, Groundspeed: 189})
	assert.ErrorContains(t, full.Type(WindFrom, "295/27"), "Four are given")
	half := given(t, map[Quantity]float64{Heading: 50, TAS: 178, Track: 60, WindFrom: 305})
	assert.ErrorContains(t, half.Type(WindFrom, "295/27"), "Four are given")
	assert.Equal(t, 305.0, half.Value(WindFrom))
}

// The gap of figures that cannot close, from closed forms: TAS 100 against a wind of
// 120 across the track leaves 20; lengths 150 and 30 cannot make 300.
func TestAnOpenFigureShowsTheLeastGap(t *testing.T) {
	for _, c := range []struct {
		values map[Quantity]float64
		gap    float64
	}{
		{map[Quantity]float64{TAS: 100, Track: 0, WindFrom: 90, WindSpeed: 120}, 20},
		{map[Quantity]float64{TAS: 150, Heading: 40, WindSpeed: 30, Groundspeed: 300}, 120},
		{map[Quantity]float64{TAS: 150, Heading: 40, WindSpeed: 200, Groundspeed: 30}, 20},
		{map[Quantity]float64{TAS: 300, Heading: 40, WindSpeed: 30, Groundspeed: 150}, 120},
		{map[Quantity]float64{Heading: 0, Track: 90, WindFrom: 45, WindSpeed: 100}, 100 / math.Sqrt2},
		{map[Quantity]float64{Heading: 0, TAS: 100, Track: 90, WindSpeed: 60}, 40},
		{map[Quantity]float64{Heading: 0, TAS: 100, Track: 90, WindFrom: 180}, 100},
		{map[Quantity]float64{Heading: 50, Track: 60, TAS: 178, WindFrom: 100}, 178 * math.Sin(10*math.Pi/180)},
	} {
		tri := given(t, c.values)
		assert.InDelta(t, c.gap, tri.Gap(), 1e-9, c.values)
		assert.Contains(t, tri.Problem(), "stays open by "+units.Figure(c.gap, 1)+" kt", c.values)
		assert.Equal(t, tri.Problem(), tri.Said())
		assert.Empty(t, tri.Drift())
		for q := range Quantities {
			if v, ok := c.values[Quantity(q)]; ok {
				assert.Equal(t, v, tri.Value(Quantity(q)), "what is given stays")
				continue
			}
			assert.Equal(t, None, tri.State(Quantity(q)))
			assert.Equal(t, "–", tri.Text(Quantity(q)))
		}
	}
}

// No figure near the one that is shown has a smaller gap: the two that are not given
// are tried in a grid round it.
func TestNoSmallerGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := figure{Heading: deg(t), WindFrom: deg(t), Track: deg(t), TAS: kt(t, 1, 400), WindSpeed: kt(t, 0, 200), Groundspeed: kt(t, 1, 500)}
		i := rapid.IntRange(0, 5).Draw(t, "one")
		j := rapid.IntRange(0, 4).Draw(t, "other")
		if j >= i {
			j++
		}
		var fixed [Quantities]bool
		for q := range fixed {
			fixed[q] = q != i && q != j
		}
		_, err := f.solved(fixed)
		if err == nil {
			return
		}
		tri := Triangle{values: f.nearest(fixed, err), problem: err}
		least := tri.Gap()
		for a := -8; a <= 8; a++ {
			for b := -8; b <= 8; b++ {
				near := tri
				for q, by := range map[int]int{i: a, j: b} {
					near.values[q] += float64(by) * 0.7
					if !Quantity(q).IsDirection() {
						near.values[q] = math.Max(0, near.values[q])
					}
				}
				require.GreaterOrEqual(t, near.Gap(), least-1e-9, "%v without %d, %d: %v", f, i, j, tri.values)
			}
		}
	})
}

func deg(t *rapid.T) float64 { return rapid.Float64Range(0, 359.9).Draw(t, "deg") }
func kt(t *rapid.T, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(t, "kt")
}

func TestFourThatSettleNothing(t *testing.T) {
	mirror := given(t, map[Quantity]float64{TAS: 150, Heading: 40, WindSpeed: 30, Groundspeed: 130})
	assert.Equal(t, look.Text(look.CalcMirror), mirror.Problem())
	assert.InDelta(t, 0, mirror.Gap(), 1e-9, "one of the two is drawn")
	two := given(t, map[Quantity]float64{Heading: 0, WindSpeed: 60, Track: 10, Groundspeed: 150})
	assert.Equal(t, look.Text(look.CalcTwo), two.Problem())
	assert.InDelta(t, 0, two.Gap(), 1e-9)
	many := given(t, map[Quantity]float64{Heading: 40, Track: 40, WindFrom: 220, WindSpeed: 30})
	assert.Equal(t, look.Text(look.CalcMany), many.Problem())
	none := given(t, map[Quantity]float64{Heading: 10, TAS: 37, WindFrom: 10, WindSpeed: 37})
	assert.Equal(t, look.Text(look.CalcNoLength), none.Problem())
	far := given(t, map[Quantity]float64{Heading: 0, Track: 1, WindFrom: 271, WindSpeed: 250})
	assert.Equal(t, look.Text(look.CalcTooFar), far.Problem())
}

// Whatever is dragged, stepped, typed and let go: the figure closes or says why, what
// is locked stays to the last bit, and the dragged corner never ends farther from the
// hand than where it stood.
func TestDragging(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tri := NewTriangle()
		tri.LetAllGo()
		closes(t, tri, 1e-6)
		for range rapid.IntRange(0, 3).Draw(t, "locks") {
			q := Quantity(rapid.IntRange(0, 5).Draw(t, "lock"))
			if !tri.locked[q] {
				require.NoError(t, tri.Toggle(q))
			}
		}
		locked := tri.locked
		for range 5 {
			c := Corner(rapid.IntRange(0, 1).Draw(t, "corner"))
			n, e := kt(t, -300, 300), kt(t, -300, 300)
			before := *tri
			require.NoError(t, tri.Drag(c, n, e))
			require.Empty(t, tri.Problem())
			closes(t, tri, 1e-6)
			for q, l := range locked {
				if l {
					near(t, before.values[q], tri.values[q], 0, "locked %d", q)
				}
			}
			require.Equal(t, locked, tri.locked)
			hand := at(n, e)
			wind := hand.distance(before.values.corner(1 - c))
			if locked == [Quantities]bool{} && hand.size() >= 1 && wind < 250 {
				require.LessOrEqual(t, tri.values.corner(c).distance(hand), 1e-6, "a free corner goes where the hand goes")
			}
		}
	})
}

func TestALockedCornerKeepsToItsLock(t *testing.T) {
	tri := given(t, map[Quantity]float64{Heading: 90})
	require.NoError(t, tri.Drag(AirCorner, 40, 200))
	assert.Equal(t, 90.0, tri.Value(Heading))
	assert.InDelta(t, 200, tri.Value(TAS), 1e-9, "the foot on the ray")
	tri = given(t, map[Quantity]float64{TAS: 150})
	require.NoError(t, tri.Drag(AirCorner, 0, 300))
	assert.Equal(t, 150.0, tri.Value(TAS))
	assert.InDelta(t, 90, tri.Value(Heading), 1e-9, "toward the hand on the circle")
	tri = given(t, map[Quantity]float64{WindFrom: 270, WindSpeed: 30})
	require.NoError(t, tri.Drag(GroundCorner, 100, 130))
	assert.InDelta(t, 45, tri.Value(Heading), 1e-9, "the whole figure moves: 100 north, 100 east through the air")
	assert.InDelta(t, math.Hypot(100, 100), tri.Value(TAS), 1e-9)
}

func TestStepping(t *testing.T) {
	tri := NewTriangle()
	require.NoError(t, tri.Step(Heading, -51))
	assert.Equal(t, 359.0, tri.Value(Heading))
	require.NoError(t, tri.Step(WindSpeed, -100))
	assert.Equal(t, 0.0, tri.Value(WindSpeed))
	require.NoError(t, tri.Step(TAS, 1000))
	assert.Equal(t, 600.0, tri.Value(TAS))
	assert.Equal(t, Given, tri.State(TAS))
	tri = NewTriangle()
	tri.LetAllGo()
	require.NoError(t, tri.Step(Track, 1))
	assert.Equal(t, 61.0, tri.Value(Track))
	assert.Equal(t, Free, tri.State(Track), "it is not locked by that")
	assert.Equal(t, [2]float64{305, 33}, [2]float64{tri.Value(WindFrom), tri.Value(WindSpeed)}, "the wind is held")
	assert.InDelta(t, 178, tri.Value(TAS), 1e-9)
	closes(t, tri, 1e-9)
}

// What the dials show goes in, and nothing else can: a View has no truth.
func TestFromTheFlight(t *testing.T) {
	view := &aboard.View{Clock: time.Unix(0, 0), TAS: 180 * units.Knot, Heading: units.TrueHeading(90 * units.Degree),
		WindSet: units.Wind{From: 0, Speed: 30 * units.Knot}, IAS: 150 * units.Knot, PressureAltitude: 10000 * units.Foot, AirTemperature: units.Celsius(-4.8)}
	tri := given(t, map[Quantity]float64{Track: 3, Groundspeed: 100})
	require.NoError(t, tri.Take(view))
	// wind_triangle.csv: TAS 180 HDG 090 wind 000/30 gives GS 182.4829, TRK 99.4623.
	assert.InDelta(t, 182.4829, tri.Value(Groundspeed), 1e-3)
	assert.InDelta(t, 99.4623, tri.Value(Track), 1e-3)
	c := NewComputer()
	require.NoError(t, c.Take(view))
	// airspeed_rule_of_thumb.csv: 150 kt at 10,000 ft is 174.05; -4.81 is standard there.
	assert.InDelta(t, 174.05, c.TAS().Knots(), 0.05)
	assert.Equal(t, "standard day", c.Day())
	before, ring := *tri, *c
	view.TAS, view.IAS = 0, 30*units.Knot
	assert.ErrorContains(t, tri.Take(view), "true airspeed must lie between 1 and 600")
	assert.ErrorContains(t, c.Take(view), "The rings reach from 60 to 600 kt")
	assert.Equal(t, before, *tri)
	assert.Equal(t, ring, *c)
}
