package record

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// plan is a flight of an hour and a half with a turn, built by hand.
func plan() *sim.Plan {
	return &sim.Plan{
		Title: "Recorded", Start: time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), Seed: 5,
		Aircraft: sim.Aircraft{
			Position: units.Position{Lat: -47.2 * units.Degree, Lon: 178.5 * units.Degree}, Heading: units.TrueHeading(units.Degree * 90),
			PressureAltitude: 8000 * units.Foot, Speed: sim.SpeedOrder{Speed: 178 * units.Knot},
		},
		Legs: []sim.Leg{
			{Direction: 90 * units.Degree, Ticks: sim.TicksOf(40 * time.Minute), TurnRate: 3},
			{Direction: 340 * units.Degree, Ticks: sim.TicksOf(50 * time.Minute), TurnRate: 3},
		},
		Setting: sim.Setting{Wind: units.Wind{From: 295 * units.Degree, Speed: 27 * units.Knot}},
	}
}

func engine(t require.TestingT) *sim.Engine {
	e, err := sim.New(plan())
	require.NoError(t, err)
	return e
}

const text = "schema = 1 # the text is kept as it is: \"<&>\" \u2032"

func begun(t require.TestingT, out *bytes.Buffer) *Writer {
	w, err := NewWriter(out, Header{Program: "test", Platform: "here", Name: "recorded", Seed: 5, Flight: text})
	require.NoError(t, err)
	return w
}

// flown is a whole record with one of each thing that can be done in flight.
func flown(t *testing.T) ([]byte, *sim.Engine) {
	t.Helper()
	var out bytes.Buffer
	e := engine(t)
	w := begun(t, &out)
	do := func(at time.Duration, err func() error) {
		for e.Tick() < sim.TicksOf(at) {
			e.Advance(min(160, sim.TicksOf(at)-e.Tick()))
			require.NoError(t, w.Note(e))
		}
		require.NoError(t, err())
		require.NoError(t, w.Note(e))
	}
	act := func(a aboard.Action) func() error { return func() error { return e.Do(a) } }
	do(5*time.Minute, act(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 1.234567890123, Speed: 13.3}}))
	do(6*time.Minute, act(aboard.Action{Kind: aboard.SetVariation, Variation: units.Variation(0.31)}))
	do(7*time.Minute, act(aboard.Action{Kind: aboard.SlewLatitude, Slew: 0.001}))
	do(7*time.Minute, act(aboard.Action{Kind: aboard.SlewLongitude, Slew: -0.002}))
	do(8*time.Minute, func() error {
		return e.Break(fault.Order{ID: "drive-slip", At: e.Tick(), For: 9600, Shape: fault.Ramp, RampTicks: 960, Params: []float64{0.06}})
	})
	do(9*time.Minute, func() error {
		return e.Break(fault.Order{ID: "pitot-ram-blocked", At: e.Tick(), Params: mustDefaults(t, "pitot-ram-blocked"), Trigger: fault.Trigger{Kind: fault.BySignal, Signal: 3}})
	})
	drift := aboard.Aim{Aid: aboard.DriftSight}
	do(10*time.Minute, act(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
		Aim: drift, Angle: 0.05, Timing: aboard.Timing{On: true, Took: 19187500 * time.Microsecond},
	}}))
	do(11*time.Minute, act(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{
		Aim: drift, ByCrew: true, Error: -0.5, Timing: aboard.Timing{On: true, Error: 0.25},
	}}))
	do(12*time.Minute, func() error { return e.Signal(3) })
	do(14*time.Minute, func() error { return e.Mend(1) })
	do(15*time.Minute, func() error {
		return e.Hold(sim.Hand{Input: sim.HandWind, On: true, Wind: units.Wind{From: 2, Speed: 9}})
	})
	do(17*time.Minute, func() error { return e.Hold(sim.Hand{Input: sim.HandWind}) })
	do(18*time.Minute, func() error {
		return e.Steer(sim.HelmOrder{Heading: 1, TAS: 90, Wind: units.Wind{From: 3, Speed: 12}})
	})
	do(19*time.Minute, func() error { return e.Steer(sim.HelmOrder{Heading: 1.2, HeadingOnly: true}) })
	do(20*time.Minute, act(aboard.Action{Kind: aboard.AlternateStatic, On: true}))
	do(21*time.Minute, act(aboard.Action{Kind: aboard.Resynchronise}))
	do(25*time.Minute, act(aboard.Action{Kind: aboard.SetCounters, Position: units.Position{Lat: -0.8, Lon: 3.1}}))
	do(30*time.Minute, act(aboard.Action{Kind: aboard.FollowField}))
	e.Advance(1 << 40)
	require.NoError(t, w.Close(e))
	return out.Bytes(), e
}

func count(log []aboard.Entry, such func(*aboard.Entry) bool) (n int) {
	for i := range log {
		if such(&log[i]) {
			n++
		}
	}
	return n
}

func mustDefaults(t *testing.T, id string) []float64 {
	e, ok := fault.Lookup(id)
	require.True(t, ok)
	return e.Defaults()
}

func TestRecordComesBackAndFliesAlike(t *testing.T) {
	file, e := flown(t)
	rec, err := Read(bytes.NewReader(file))
	require.NoError(t, err)
	require.Nil(t, rec.Damage)
	assert.Equal(t, text, rec.Flight)
	assert.Equal(t, e.Given(), rec.Commands, "to the last bit")
	assert.Len(t, rec.Minutes, 91)
	require.NotNil(t, rec.End)
	assert.Equal(t, hashText(e.Hash()), rec.End.Hash)
	s := e.Snapshot()
	assert.Equal(t, s.Error.Ground.North, rec.End.GroundError[0])
	timed := e.View().Log
	assert.Equal(t, 2, count(timed, func(n *aboard.Entry) bool { return n.Action.Reading.Timing.Gives() }), "groundspeeds timed")

	r, err := rec.Replay(engine(t), "here")
	require.NoError(t, err)
	assert.Equal(t, Report{Minutes: 91, ByHash: true, EndAlike: true}, r)
	r, err = rec.Replay(engine(t), "elsewhere")
	require.NoError(t, err)
	assert.Equal(t, Report{Minutes: 91, ByHash: false, EndAlike: true}, r)
}

// TestReplayNamesTheFirstMinuteThatDiffers: another seed is another state at once,
// another wind another position from its minute on.
func TestReplayNamesTheFirstMinuteThatDiffers(t *testing.T) {
	file, _ := flown(t)
	rec, err := Read(bytes.NewReader(file))
	require.NoError(t, err)
	p := plan()
	p.Seed = 6
	e, err := sim.New(p)
	require.NoError(t, err)
	r, err := rec.Replay(e, "here")
	require.NoError(t, err)
	assert.Equal(t, &Difference{Minute: 0, What: "the state"}, r.Different)

	for i := range rec.Commands { // somebody set another wind at 5 minutes
		if rec.Commands[i].Action.Kind == aboard.SetWind {
			rec.Commands[i].Action.Wind.Speed *= 2
		}
	}
	r, err = rec.Replay(engine(t), "here")
	require.NoError(t, err)
	require.NotNil(t, r.Different)
	assert.Equal(t, 6, r.Different.Minute, "the wind is set after the moment of minute 5 is kept")
	assert.Equal(t, "the ground position", r.Different.What)
	// 13.3 m/s more for a minute: 0.43 NM
	assert.InDelta(t, 0.43, r.Different.NM, 0.01)
}

// TestKilledAHundredTimes: wherever the program is cut off, the record loads, and
// what it holds flies alike.
func TestKilledAHundredTimes(t *testing.T) {
	file, _ := flown(t)
	first := bytes.IndexByte(file, '\n') + 1
	chance := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		cut := first + chance.IntN(len(file)-first)
		rec, err := Read(bytes.NewReader(file[:cut]))
		require.NoError(t, err)
		if file[cut-1] != '\n' {
			require.NotNil(t, rec.Damage)
			assert.Contains(t, rec.Damage.Error(), "torn")
			assert.Equal(t, 1+bytes.Count(file[:cut], []byte("\n")), rec.Damage.Line)
		} else {
			assert.Nil(t, rec.Damage)
		}
		assert.Nil(t, rec.End)
		r, err := rec.Replay(engine(t), "here")
		require.NoError(t, err)
		assert.Nil(t, r.Different)
		assert.Equal(t, len(rec.Minutes), r.Minutes)
	}
	_, err := Read(bytes.NewReader(file[:first-10]))
	assert.ErrorContains(t, err, "line 1")
}

// TestChangedBytesAreFound changes one byte anywhere: it is found in its line, and
// what stands before is read.
func TestChangedBytesAreFound(t *testing.T) {
	file, _ := flown(t)
	first := bytes.IndexByte(file, '\n') + 1
	chance := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		at := first + chance.IntN(len(file)-first)
		spoilt := bytes.Clone(file)
		spoilt[at] ^= 1 << chance.IntN(7)
		rec, err := Read(bytes.NewReader(spoilt))
		require.NoError(t, err)
		require.NotNil(t, rec.Damage, "byte %d", at)
		want := 1 + bytes.Count(file[:at], []byte("\n"))
		assert.InDelta(t, want, rec.Damage.Line, 1, "a line end that is gone joins two lines")
	}
	lines := bytes.SplitAfter(file, []byte("\n"))
	lost := bytes.Join(append(append([][]byte{}, lines[:9]...), lines[10:]...), nil)
	rec, err := Read(bytes.NewReader(lost))
	require.NoError(t, err)
	assert.Equal(t, 10, rec.Damage.Line, "a lost line is found")
	twice := bytes.Join(append(append(append([][]byte{}, lines[:10]...), lines[9]), lines[10:]...), nil)
	rec, err = Read(bytes.NewReader(twice))
	require.NoError(t, err)
	assert.Equal(t, 11, rec.Damage.Line, "a doubled line is found")
}

// TestDamagedFiles is a corpus of files that are no records, or spoilt ones.
func TestDamagedFiles(t *testing.T) {
	head := func(h string) string {
		text := strings.TrimSuffix(h, "}")
		return text + sumMark + sumOf("", []byte(text)) + "\"}\n"
	}
	for name, c := range map[string]struct{ file, says string }{
		"empty":          {"", "the file is empty"},
		"a flight":       {"schema = 1\ntitle = \"x\"\n", "this is no record"},
		"other json":     {head(`{"a":1}`), "this is no record of a flight"},
		"future":         {head(`{"stillair_record":99,"flight":""}`), "a later version of the program (records of version 99, this one reads up to 1)"},
		"flight changed": {head(`{"stillair_record":1,"flight_sha256":"00","flight":"x"}`), "not the one that was flown"},
		"torn":           {`{"stillair_record":1`, "torn"},
	} {
		_, err := Read(strings.NewReader(c.file))
		assert.ErrorContains(t, err, c.says, name)
		assert.ErrorContains(t, err, "line 1: ", name)
	}
	good := head(`{"stillair_record":1,"flight_sha256":"` + HashOf("x") + `","flight":"x"}`)
	sum := good[len(good)-11 : len(good)-3]
	next := func(body string) string {
		text := strings.TrimSuffix(body, "}")
		return text + sumMark + sumOf(sum, []byte(text)) + "\"}\n"
	}
	for body, says := range map[string]string{
		`{"command":{"tick":5}}`:                                           "nothing is done",
		`{"command":{"tick":-5,"follow_field":true}}`:                      "must not be negative",
		`{"command":{"tick":5,"break":{"id":"x","at":0,"shape":"round"}}}`: "no such shape",
		`{"command":{"tick":5,"hold":{"input":"nose","on":true}}}`:         "no such input",
		`{"minute":{"tick":17}}`:                                           "the next minute is that of tick 0",
		`{"back":{"commands":3,"tick":0}}`:                                 "there are 0",
		`{"something":1}`:                                                  "nothing that is known here",
		`{"minute":7}`:                                                     "cannot be read",
	} {
		rec, err := Read(strings.NewReader(good + next(body)))
		require.NoError(t, err, body)
		require.NotNil(t, rec.Damage, body)
		assert.Contains(t, rec.Damage.Error(), says)
		assert.Equal(t, 2, rec.Damage.Line)
	}
}

// TestWhateverIsDone: whatever is done, taken back and done anew, and however
// often it is noted, the record holds the flight as it ended.
func TestWhateverIsDone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var out bytes.Buffer
		e, w := engine(t), (*Writer)(nil)
		w = begun(t, &out)
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			switch rapid.IntRange(0, 6).Draw(t, "what") {
			case 0:
				e.Advance(int64(rapid.IntRange(1, 5000).Draw(t, "ticks")))
			case 1:
				e.GoTo(int64(rapid.IntRange(0, int(e.Frontier())).Draw(t, "tick")))
			case 2:
				_ = e.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: units.Angle(rapid.Float64Range(0, 6).Draw(t, "from")), Speed: 10}})
			case 3:
				_ = e.Break(fault.Order{ID: "drive-slip", At: e.Tick(), Params: []float64{0.05}})
			case 4:
				_ = e.Hold(sim.Hand{Input: sim.HandHeading, On: rapid.Bool().Draw(t, "on"), Heading: units.TrueHeading(rapid.Float64Range(0, 6).Draw(t, "heading"))})
			case 5:
				require.NoError(t, w.Note(e))
			case 6:
				require.NoError(t, e.TakeBack(int64(rapid.IntRange(0, int(e.Frontier())).Draw(t, "back to"))))
			}
		}
		require.NoError(t, w.Close(e))
		rec, err := Read(&out)
		require.NoError(t, err)
		require.Nil(t, rec.Damage)
		assert.Equal(t, append([]sim.Command{}, e.Given()...), append([]sim.Command{}, rec.Commands...))
		r, err := rec.Replay(engine(t), "here")
		require.NoError(t, err)
		assert.Nil(t, r.Different)
		assert.True(t, r.EndAlike)
	})
}

func FuzzRead(f *testing.F) {
	var out bytes.Buffer
	e := engine(f)
	w := begun(f, &out)
	e.Advance(2000)
	_ = e.Do(aboard.Action{Kind: aboard.FollowField})
	_ = w.Close(e)
	f.Add(out.Bytes())
	f.Add([]byte(`{"stillair_record":1,"flight":"","sum":"00000000"}`))
	f.Fuzz(func(t *testing.T, file []byte) {
		rec, err := Read(bytes.NewReader(file))
		if err == nil {
			assert.Equal(t, HashOf(rec.Flight), rec.SHA256)
		}
	})
}

func BenchmarkNote(b *testing.B) {
	e := engine(b)
	e.Advance(1 << 40)
	for b.Loop() {
		var out bytes.Buffer
		if err := begun(b, &out).Close(e); err != nil {
			b.Fatal(err)
		}
	}
}
