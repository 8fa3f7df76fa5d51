package edit

import (
	"errors"
	"maps"
	"slices"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/scenarios"
)

// entries are the tables of a list as the library decodes them.
func entries(t require.TestingT, text []byte, list string) []any {
	var root map[string]any
	require.NoError(t, toml.Unmarshal(text, &root))
	if list == "air.wind" {
		air, _ := root["air"].(map[string]any)
		all, _ := air["wind"].([]any)
		return all
	}
	all, _ := root[list].([]any)
	return all
}

// fresh is a table of each list that the loader takes in most flights.
var fresh = map[string][]Field{
	"leg":    {{"heading_true_deg", Whole(75)}, {"duration", Text("5m")}},
	"crew":   {{"at", Text("7m")}, {"set_wind", Inline(Field{"from_deg_true", Whole(300)}, Field{"speed_kt", Whole(9)})}},
	"fault":  {{"id", Text("drive-slip")}, {"at", Text("3m")}},
	"moment": {{"at", Text("30h")}, {"name", Text("Late")}},
	"air.wind": {{"from_deg_true", Whole(10)}, {"speed_kt", Whole(5)}, {"from", Text("40h")},
		{"base_ft", Whole(500)}},
}

// TestTablesComeAndGo: tables put in, taken out and moved at random, several at once.
// Each list is what a plain slice treated the same way is, the other lists are as they
// were; or the loader refuses and
// nothing is changed. Undo and redo give the same bytes.
func TestTablesComeAndGo(t *testing.T) {
	names := slices.Sorted(maps.Keys(files))
	taken, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "file")
		d := open(t, name, files[name])
		texts := []string{string(d.Text())}
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			list := rapid.SampledFrom([]string{"leg", "crew", "fault", "moment", "air.wind"}).Draw(t, "list")
			want, before := entries(t, d.Text(), list), string(d.Text())
			c, want := draw(t, list, want)
			if c == nil {
				continue
			}
			if err := d.Do(c); err != nil {
				refused++
				var errs *scenarios.Errors
				require.True(t, errors.As(err, &errs), "%v", err)
				require.Equal(t, before, string(d.Text()))
				continue
			}
			taken++
			require.Equal(t, len(want), d.Count(list))
			require.True(t, len(want) == 0 || assert.ObjectsAreEqual(want, entries(t, d.Text(), list)), "%s", list)
			for other := range fresh {
				if other != list {
					require.Equal(t, entries(t, []byte(before), other), entries(t, d.Text(), other))
				}
			}
			if string(d.Text()) != before {
				texts = append(texts, string(d.Text()))
			}
		}
		for _, text := range slices.Backward(texts[:len(texts)-1]) {
			d.Undo()
			require.Equal(t, text, string(d.Text()))
		}
		require.False(t, d.CanUndo())
		for _, text := range texts[1:] {
			d.Redo()
			require.Equal(t, text, string(d.Text()))
		}
		require.False(t, d.CanRedo())
	})
	assert.Positive(t, taken, "some must be taken")
	assert.Positive(t, refused, "some must be refused")
}

// draw gives a change of a list, and what a slice becomes by the same; nil if the list
// is empty and nothing can be taken out of it.
func draw(t *rapid.T, list string, want []any) (Change, []any) {
	want = slices.Clone(want)
	n := len(want)
	what := rapid.SampledFrom([]string{"insert", "remove", "move"}).Draw(t, "what")
	if what == "insert" {
		at := rapid.IntRange(1, n+1).Draw(t, "at")
		made := "[[x]]\n"
		for _, f := range fresh[list] {
			made += f.Key + " = " + f.Value.String() + "\n"
		}
		var doc map[string][]any
		require.NoError(t, toml.Unmarshal([]byte(made), &doc))
		return Insert(list, at, fresh[list]...), slices.Insert(want, at-1, doc["x"][0])
	}
	if n == 0 {
		return nil, nil
	}
	from := rapid.IntRange(1, n).Draw(t, "from")
	one := want[from-1]
	want = slices.Delete(want, from-1, from)
	if what == "remove" {
		return Remove(entry(list, from)), want
	}
	to := rapid.IntRange(1, n).Draw(t, "to")
	return Move(list, from, to), slices.Insert(want, to-1, one)
}

// TestCommentsStay: what a person wrote between the tables survives the tables.
func TestCommentsStay(t *testing.T) {
	d := open(t, "slipping-drive", files["slipping-drive"])
	require.NoError(t, d.Do(Insert("leg", 2, fresh["leg"]...), Set("leg[2].turn_rate_deg_s", Whole(1)), Remove("fault[1]"), Remove("moment[2]")))
	text := string(d.Text())
	for _, kept := range []string{"# A drive that begins to slip", "# From Port Aldous north-east past", "# Tightened at the hour."} {
		assert.Contains(t, text, kept)
	}
	assert.NotContains(t, text, "# From 10 min on the clutch slips", "it stood directly above the table")
	d.Undo()
	assert.Equal(t, string(files["slipping-drive"]), string(d.Text()), "all at once is one step")
}
