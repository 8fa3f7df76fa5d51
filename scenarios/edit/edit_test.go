package edit

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/scenarios"
)

// files are all shipped flights and the page with every key.
var files = func() map[string][]byte {
	all := map[string][]byte{}
	for _, f := range scenarios.Shipped() {
		_, src, err := scenarios.Open(f.Name)
		if err != nil {
			panic(err)
		}
		all[f.Name] = src.Text
	}
	text, err := os.ReadFile("../example.toml")
	if err != nil {
		panic(err)
	}
	all["example"] = text
	return all
}()

func open(t require.TestingT, name string, text []byte) *Draft {
	d, err := New(name, text)
	require.NoError(t, err)
	return d
}

// leaves are all values of a text as the library decodes them, by path: a reading
// that shares no code with this package.
func leaves(t require.TestingT, text []byte) map[string]any {
	var root map[string]any
	require.NoError(t, toml.Unmarshal(text, &root))
	out := map[string]any{}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, in := range v {
				walk(strings.TrimPrefix(path+"."+k, "."), in)
			}
		case []any:
			if len(v) > 0 {
				if _, ok := v[0].(map[string]any); ok {
					for i, in := range v {
						walk(fmt.Sprintf("%s[%d]", path, i+1), in)
					}
					return
				}
			}
			out[path] = v
		default:
			out[path] = v
		}
	}
	walk("", root)
	return out
}

// lists are those [[...]] whose entries do not depend on one another's order, so
// that they may be moved freely; moments must follow in time.
var lists = []string{"leg", "crew", "fault", "air.wind", "lesson", "moment"}

// TestEveryValueIsFound: what the library decodes has a path here, and no more.
func TestEveryValueIsFound(t *testing.T) {
	for name, text := range files {
		d := open(t, name, text)
		require.NoError(t, d.Wrong())
		found := map[string]bool{}
		for _, f := range d.now().index.fields {
			if string(text[f.value.from]) != "{" {
				found[f.path] = true
			}
		}
		assert.ElementsMatch(t, slices.Collect(maps.Keys(leaves(t, text))), slices.Collect(maps.Keys(found)), name)
	}
}

// TestNothingChanged: a value set to what it is leaves the bytes as they are, and
// so does a table moved to and fro, and one put in and taken out.
func TestNothingChanged(t *testing.T) {
	for name, text := range files {
		d := open(t, name, text)
		assert.Equal(t, string(text), string(d.Text()), name)
		for _, f := range d.now().index.fields {
			v, ok := d.Get(f.path)
			require.True(t, ok)
			require.NoError(t, d.Do(Set(f.path, v)), "%s: %s", name, f.path)
		}
		assert.False(t, d.CanUndo(), name)
		for _, list := range lists {
			n := d.Count(list)
			for from := 1; from <= n; from++ {
				for to := 1; to <= n; to++ {
					moved, err := Move(list, from, to)(d.now().index)
					require.NoError(t, err)
					x, err := read(moved)
					require.NoError(t, err)
					back, err := Move(list, to, from)(x)
					require.NoError(t, err)
					require.Equal(t, string(text), string(back), "%s: %s %d to %d", name, list, from, to)
				}
			}
		}
	}
}

// TestInAndOut: a table put in and taken out again leaves the file as it was; an
// empty line may stay where the tables round it are not parted as their like are.
func TestInAndOut(t *testing.T) {
	exact, all := 0, 0
	for name, text := range files {
		x, err := read(text)
		require.NoError(t, err)
		for _, list := range lists {
			for n := 1; n <= x.counts[list]+1; n++ {
				in, err := Insert(list, n, Field{"at", Text("1m")})(x)
				require.NoError(t, err)
				y, err := read(in)
				require.NoError(t, err)
				require.Equal(t, x.counts[list]+1, y.counts[list], "%s: %s", name, list)
				f, ok := y.field(entry(list, n) + ".at")
				require.True(t, ok, "%s: %s %d", name, list, n)
				require.Equal(t, `"1m"`, string(in[f.value.from:f.value.to]))
				out, err := Remove(entry(list, n))(y)
				require.NoError(t, err)
				require.Equal(t, dense(text), dense(out), "%s: %s %d", name, list, n)
				if string(text) == string(out) {
					exact++
				}
				all++
			}
		}
	}
	t.Logf("%d of %d to the byte", exact, all)
	assert.Greater(t, exact, all*9/10)
}

// dense is a text without its empty lines.
func dense(text []byte) string {
	var b strings.Builder
	for line := range strings.Lines(string(text)) {
		if strings.TrimSpace(line) != "" {
			b.WriteString(line)
		}
	}
	return b.String()
}

// keys that are set at random, with what may be legal and what is not.
var numbers = []string{"aircraft.heading_true_deg", "aircraft.pressure_altitude_ft", "air.isa_deviation_c", "air.qnh_hpa",
	"setting.variation_deg", "field.variation_deg", "mechanism.threshold_kt", "seed"}

// pick draws a change, with the path it sets and the value that should come of it.
func pick(t *rapid.T, d *Draft) (c Change, path string, want any) {
	number := func(path string) (Change, string, any) {
		x := rapid.OneOf(rapid.Float64Range(-400, 400), rapid.Float64Range(0, 250),
			rapid.Map(rapid.IntRange(-10, 12000), func(i int) float64 { return float64(i) })).Draw(t, "number")
		return Set(path, Number(x)), path, x
	}
	if path, ok := entryPath(t, d, "leg", "fault", "crew"); ok && rapid.Bool().Draw(t, "entry") {
		d := rapid.Map(rapid.IntRange(-5, 200000), func(s int) time.Duration { return time.Duration(s) * time.Second }).Draw(t, "duration")
		key := ".at"
		if strings.HasPrefix(path, "leg") {
			if rapid.Bool().Draw(t, "direction") {
				return number(path + ".heading_true_deg")
			}
			key = ".duration"
		}
		return Set(path+key, Duration(d)), path + key, DurationText(d)
	}
	if rapid.Bool().Draw(t, "title") {
		s := rapid.String().Draw(t, "words")
		s = strings.ToValidUTF8(s, "\uFFFD")
		return Set("title", Text(s)), "title", s
	}
	return number(rapid.SampledFrom(numbers).Draw(t, "key"))
}

func entryPath(t *rapid.T, d *Draft, of ...string) (string, bool) {
	list := rapid.SampledFrom(of).Draw(t, "list")
	if d.Count(list) == 0 {
		return "", false
	}
	return entry(list, rapid.IntRange(1, d.Count(list)).Draw(t, "entry number")), true
}

// TestWhatIsSetIsMeant: a random change of a shipped flight either gives a file that
// loads, has the value that was set and every other value as it was, and every
// other line; or it is refused in the loader's words and changes nothing. Undo
// brings the bytes back.
func TestWhatIsSetIsMeant(t *testing.T) {
	names := slices.Sorted(maps.Keys(files))
	taken, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "file")
		d := open(t, name, files[name])
		var texts [][]byte
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			before, old := d.Text(), leaves(t, d.Text())
			c, path, want := pick(t, d)
			if err := d.Do(c); err != nil {
				refused++
				var errs *scenarios.Errors
				require.True(t, errors.As(err, &errs), "%v", err)
				require.NotEmpty(t, errs.Problems)
				require.Equal(t, string(before), string(d.Text()))
				continue
			}
			taken++
			_, _, err := scenarios.Load(name, strings.NewReader(string(d.Text())))
			require.NoError(t, err)
			now := leaves(t, d.Text())
			require.True(t, same(want, now[path]), "%s: want %v, have %v", path, want, now[path])
			old[path] = now[path]
			require.Equal(t, old, now)
			requireOneLine(t, before, d.Text())
			if string(before) != string(d.Text()) {
				texts = append(texts, before)
			}
		}
		for _, text := range slices.Backward(texts) {
			require.True(t, d.CanUndo())
			d.Undo()
			require.Equal(t, string(text), string(d.Text()))
		}
		require.False(t, d.CanUndo())
		require.Equal(t, string(files[name]), string(d.Text()))
	})
	assert.Positive(t, taken, "some must be taken")
	assert.Positive(t, refused, "some must be refused")
}

// same compares a value set with one decoded: a whole number will do for a number.
func same(want, have any) bool {
	if x, ok := want.(float64); ok {
		switch h := have.(type) {
		case int64:
			return float64(h) == x
		case float64:
			return h == x
		}
		return false
	}
	return want == have
}

// requireOneLine: one line is another one, or one is new with at most an empty line
// and a header before it.
func requireOneLine(t require.TestingT, before, after []byte) {
	a, b := strings.Split(string(before), "\n"), strings.Split(string(after), "\n")
	i, j := 0, 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	for j < min(len(a), len(b))-i && a[len(a)-1-j] == b[len(b)-1-j] {
		j++
	}
	require.LessOrEqual(t, len(a)-i-j, 1)
	require.LessOrEqual(t, len(b)-i-j, 3)
}

func TestDraftThatCannotBeFlown(t *testing.T) {
	text := "schema = 1\ntitle = \"Half\"\nstart = 1957-08-14T09:30:00Z\nseed = 1\n[[leg]]\nheading_true_deg = 400\nduration = \"5m\"\n"
	d := open(t, "half", []byte(text))
	require.Error(t, d.Wrong())
	require.Nil(t, d.Plan())
	require.NoError(t, d.Do(Set("leg[1].heading_true_deg", Number(40))), "it may be mended in steps")
	require.ErrorContains(t, d.Wrong(), "aircraft")
	for _, f := range []Field{{"position", Text("47 10.0 S 178 30.0 E")}, {"heading_true_deg", Whole(40)},
		{"pressure_altitude_ft", Whole(8000)}, {"tas_kt", Whole(180)}} {
		require.NoError(t, d.Do(Set("aircraft."+f.Key, f.Value)))
	}
	require.NoError(t, d.Wrong())
	assert.Equal(t, 180.0, d.Plan().Aircraft.Speed.Speed.Knots())
	err := d.Do(Set("aircraft.tas_kt", Whole(20)))
	require.ErrorContains(t, err, "half:13: aircraft.tas_kt = 20: must be 40 to 450 kt", "now it has to stay good")
	_, err = New("bad", []byte("title = = 3\n"))
	require.ErrorContains(t, err, "bad:1:9: not TOML")
}

// The ranges are those of the flight schema in the design.
func TestRangesAreTheLoadersOwn(t *testing.T) {
	d := open(t, "example", files["example"])
	for path, want := range map[string]string{
		"aircraft.pressure_altitude_ft": "-1000 to 40000 ft",
		"aircraft.cas_kt":               "40 to 450 kt",
		"leg[1].heading_true_deg":       "0 to 360",
		"air.wind[2].speed_kt":          "0 to 250 kt",
		"air.isa_deviation_c":           "-60 to 60 C",
		"setting.variation_deg":         "-180 to 180",
		"crew[1].set_wind.speed_kt":     "0 to 250 kt",
	} {
		assert.Equal(t, want, d.Range(path), path)
	}
	assert.Empty(t, d.Range("title.x"))
	assert.False(t, d.CanUndo())
}
