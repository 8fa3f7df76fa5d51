package edit

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

// change applies changes to a text that need not be a flight.
func change(t *testing.T, text string, changes ...Change) string {
	t.Helper()
	for _, c := range changes {
		x, err := read([]byte(text))
		require.NoError(t, err)
		out, err := c(x)
		require.NoError(t, err)
		text = string(out)
	}
	_, err := read([]byte(text))
	require.NoError(t, err)
	return text
}

// What a change should look like was written down by hand.
func TestForms(t *testing.T) {
	cases := []struct {
		name, before, after string
		change              Change
	}{
		{"a new key keeps step", "a   = 1\nbb  = 2 # two\n\n[t]\n", "a   = 1\nbb  = 2 # two\nc   = 3\n\n[t]\n", Set("c", Whole(3))},
		{"a comment behind a value stays", "[a]\nx = 1   # why\n", "[a]\nx = 12.5   # why\n", Set("a.x", Number(12.5))},
		{"first key below what opens the file", "# A flight\n\n[t]\nx = 1\n", "# A flight\n\nc = 3\n[t]\nx = 1\n", Set("c", Whole(3))},
		{"a new table", "a = 1", "a = 1\n\n[t]\nx = \"y\"\n", Set("t.x", Text("y"))},
		{"a table above its own", "[[air.wind]]\nx = 1\n", "[air]\nqnh = 1\n[[air.wind]]\nx = 1\n", Set("air.qnh", Whole(1))},
		{"dotted keys stay dotted", "air.qnh = 1\nb = 2\n", "air.qnh = 1\nair.t = 3\nb = 2\n", Set("air.t", Whole(3))},
		{"into an inline table", "w = { a = 1 }\n", "w = { a = 1, b = 2 }\n", Set("w.b", Whole(2))},
		{"into an empty one", "w = {}\n", "w = { b = 2 }\n", Set("w.b", Whole(2))},
		{"out of an inline table", "w = { a = 1, b = 2, c = 3 }\n", "w = { a = 1, c = 3 }\n", Remove("w.b")},
		{"the last out of it", "w = { a = 1, b = 2 }\n", "w = { a = 1 }\n", Remove("w.b")},
		{"a long string is one value", "s = \"\"\"\n# no comment\n\"\"\"\nb = 2\n", "s = \"z\"\nb = 2\n", Set("s", Text("z"))},
		{"a long array goes whole", "a = [\n 1, # one\n 2,\n]\nb = 2\n", "b = 2\n", Remove("a")},
		{"a table takes its comment along", "# file\n\n# one\n[[l]]\nx = 1\n\n# two\n[[l]]\nx = 2\n\n# of the file\n\n[z]\n",
			"# file\n\n# two\n[[l]]\nx = 2\n\n# one\n[[l]]\nx = 1\n\n# of the file\n\n[z]\n", Move("l", 2, 1)},
		{"a table removed", "# one\n[[l]]\nx = 1\n\n# two\n[[l]]\nx = 2\n\n# of the file\n\n[z]\n",
			"# one\n[[l]]\nx = 1\n\n# of the file\n\n[z]\n", Remove("l[2]")},
		{"what lies below goes with it", "[[c]]\nat = 1\n[c.w]\ny = 2\n[[c]]\nat = 3\n", "[[c]]\nat = 3\n", Remove("c[1]")},
		{"Windows lines", "a = 1\r\n[[l]]\r\nx = 1\r\n", "a = 1\r\n[[l]]\r\nx = 1\r\n[[l]]\r\nx = 2\r\n", Insert("l", 2, Field{"x", Whole(2)})},
		{"no end to the last line", "a = 1\n[[l]]\nx = 1", "a = 1\n[[l]]\nx = 1\n[[l]]\nx = 2\n", Insert("l", 2, Field{"x", Whole(2)})},
		{"a first one behind its table", "[air]\nq = 1\n\n[z]\n", "[air]\nq = 1\n[[air.wind]]\nx = 1\n\n[z]\n", Insert("air.wind", 1, Field{"x", Whole(1)})},
		{"another key in its place", "[[l]]\nto = \"X\" # home\nz = 1\n", "[[l]]\ntrack = 90 # home\nz = 1\n", Swap("l[1].to", "track", Whole(90))},
		{"another dotted key", "a.b = 1\n", "a.c = 2\n", Swap("a.b", "c", Whole(2))},
		{"quoted keys", "[\"a b\"]\nx = 1\n", "[\"a b\"]\nx = 2\n", Set(`"a b".x`, Whole(2))},
		{"indented keys", "[t]\n  x = 1\n", "[t]\n  x = 1\n  y = 2\n", Set("t.y", Whole(2))},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.after, change(t, c.before, c.change)) })
	}
}

func TestRefusals(t *testing.T) {
	x, err := read([]byte("l = [{ x = 1 }]\na = 1\n[[m]]\n"))
	require.NoError(t, err)
	for words, c := range map[string]Change{
		"b: there is none":             Remove("b"),
		"m[2]: there is none":          Set("m[2].x", Whole(1)),
		"m[3]: there is none":          Insert("m", 3),
		"m[0]: there is none":          Move("m", 1, 0),
		"l: this file has them in one": Insert("l", 1),
		"a: is no table":               Set("a.b", Whole(1)),
	} {
		_, err := c(x)
		assert.ErrorContains(t, err, words)
	}
	out, err := Drop("b")(x)
	require.NoError(t, err)
	assert.Equal(t, string(x.text), string(out))
}

func TestValues(t *testing.T) {
	p := units.At(-47.1667, 178.5)
	for want, v := range map[string]Value{
		"12.5":                                   Number(12.5),
		"0":                                      Number(0 * -1.0),
		"nan":                                    Number(nan()),
		"0.1":                                    Rounded(0.1000004, 4),
		`"1h30m"`:                                Duration(90 * time.Minute),
		`"1h"`:                                   Duration(time.Hour),
		`"10m"`:                                  Duration(10 * time.Minute),
		`"1m30s"`:                                Duration(90 * time.Second),
		`"0s"`:                                   Duration(0),
		`"1h0m5s"`:                               Duration(time.Hour + 5*time.Second),
		`"a\"\\\n\u0001"`:                        Text("a\"\\\n\x01"),
		`[-47.1667, 178.5]`:                      Pair(p, 4),
		`{ from_deg_true = 270, speed_kt = 20 }`: Inline(Field{"from_deg_true", Whole(270)}, Field{"speed_kt", Whole(20)}),
		`1957-08-14T09:30:00Z`:                   Time(time.Date(1957, 8, 14, 21, 30, 0, 0, time.FixedZone("", 12*3600))),
		`"47 10.0 S 178 30.0 E"`:                 Position(p),
	} {
		assert.Equal(t, want, v.String())
	}
}

func nan() float64 { z := 0.0; return z / z }
