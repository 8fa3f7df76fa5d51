package scenarios

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFourMegabytes(t *testing.T) {
	pad := strings.Repeat("# 3456789 123456789 123456789 123456789 123456789 123456789 123\n", 1<<16)
	require.Equal(t, 4<<20, len(pad))
	assert.NoError(t, check(plainFlight+pad[:len(pad)-len(plainFlight)]))
	assert.ErrorContains(t, check(plainFlight+pad), "larger than 4 MB")
}

func TestTwoThousandLegs(t *testing.T) {
	leg := "[[leg]]\nheading_true_deg = 90\nduration = \"1s\"\n"
	assert.NoError(t, check(plainFlight+strings.Repeat(leg, 1999)))
	assert.ErrorContains(t, check(plainFlight+strings.Repeat(leg, 2000)), "f:6010: leg[2001]: too many: must be 2000 at most, these are 2001")
}

func TestFortyEightHours(t *testing.T) {
	leg := "[[leg]]\nheading_true_deg = 90\nduration = \"47h\"\n"
	assert.NoError(t, check(plainFlight+leg))
	assert.ErrorContains(t, check(plainFlight+leg+"[[leg]]\nheading_true_deg = 90\nduration = \"1s\"\n"), "leg[3].duration")
	// 48 h at 150 kt are 7200 NM; the hour of the plain flight takes 150.
	far := "[[leg]]\nheading_true_deg = 90\ndistance_nm = "
	assert.NoError(t, check(plainFlight+far+"7049\n"))
	assert.ErrorContains(t, check(plainFlight+far+"7051\n"), "leg[2].distance_nm = 7051: with this leg the flight lasts about 49 h")
	// From 47 S to 80 N are 7620 NM of meridian.
	assert.ErrorContains(t, check(plainFlight+"[[leg]]\nto = [80, 178]\n"), "leg[2].to = [80, 178]: with this leg")
	assert.NoError(t, check(plainFlight+"[[leg]]\nto = [50, 178]\n"))
}

// Sixteen levels of tables and arrays, one in another.
func TestNesting(t *testing.T) {
	deep := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	for _, text := range []string{
		"title = " + deep(16) + "\n",
		"[" + strings.Repeat("a.", 15) + "a]\nb = 1\n",
		"[" + strings.Repeat("a.", 14) + "a]\nb = []\n",
		strings.Repeat("a.", 16) + "a = 1\n",
	} {
		assert.NotContains(t, check(text).Error(), "nested", text)
	}
	for _, text := range []string{
		"title = " + deep(17) + "\n",
		"title = " + deep(2000) + "\n",
		"title = " + strings.Repeat("{a = ", 17) + "1" + strings.Repeat("}", 17) + "\n",
		"[" + strings.Repeat("a.", 16) + "a]\n",
		"[" + strings.Repeat("a.", 15) + "a]\nb = []\n",
		strings.Repeat("a.", 17) + "a = 1\n",
	} {
		assert.ErrorContains(t, check(text), "nested too deep: must be 16 levels at most", text[:20])
	}
	assert.Error(t, check("title = "+strings.Repeat("[", 1<<20)))
}

// Hostile files of the full size are refused in bounded time and words.
func TestHostileFiles(t *testing.T) {
	fill := func(unit string) string { return strings.Repeat(unit, (4<<20)/len(unit)) }
	for name, text := range map[string]string{
		"unknown keys":    "schema = 1\n" + numbered("k%d = 1\n"),
		"one key again":   fill("heading = 1\n"),
		"tables":          fill("[a]\n"),
		"legs":            plainFlight + fill("[[leg]]\n")[:4<<20-len(plainFlight)],
		"winds":           plainFlight + fill("[[air.wind]]\nspeed_kt=1\nfrom_deg_true=1\n")[:4<<20-len(plainFlight)],
		"syntax":          fill("= 1\n"),
		"open brackets":   fill("a = [\n"),
		"open inline":     fill("a = { b = \n"),
		"open strings":    fill("a = \"\"\"\n"),
		"one long string": "title = \"" + fill("x")[:4<<20-20] + "\"\n",
		"one long key":    fill("x")[:4<<20-20] + " = 1\n",
		"one long number": "seed = " + fill("9")[:4<<20-20] + "\n",
		"long array":      "title = [" + fill("1,")[:4<<20-20] + "]\n",
		"no text":         fill("\x00\xff\xfe"),
	} {
		t.Run(name, func(t *testing.T) {
			began := time.Now()
			err := check(text)
			// A minute is no promise, only far from the hours of a bad algorithm: the
			// race detector on a busy machine needs ten seconds for the long array.
			assert.Less(t, time.Since(began), time.Minute)
			var errs *Errors
			require.True(t, errors.As(err, &errs), "%v", err)
			assertWellFormed(t, errs, strings.Count(text, "\n")+1)
			assert.Less(t, len(err.Error()), 200_000)
		})
	}
}

func numbered(format string) string {
	var b strings.Builder
	for i := 0; b.Len() < 3<<20; i++ {
		b.WriteString(strings.Replace(format, "%d", strings.Repeat("a", i%7)+string(rune('a'+i%26))+strings.Repeat("b", i%97), 1))
	}
	return b.String()
}

// FuzzLoad: whatever the text, Load returns, with a good plan or with errors
// that have lines.
func FuzzLoad(f *testing.F) {
	f.Add(plainFlight)
	for _, s := range shipped {
		text, err := flightFiles.ReadFile(fileOf(s))
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("a = [1,\n2\n[b]\nc = \"\"\"\n")
	f.Add("[[a]]\n[a.b]\n[[a.b]]\na.b.c = {d = 1}\n'' = 1\n\"\\u0000\" = 1979-05-27\n")
	f.Add("a = 1\na.b = 2\n[a]\n[a.b.c]\n[[a]]\n")
	f.Fuzz(func(t *testing.T, text string) {
		plan, _, err := Load("f", strings.NewReader(text))
		if err == nil {
			assertLegal(t, plan)
			return
		}
		var errs *Errors
		require.True(t, errors.As(err, &errs))
		assertWellFormed(t, errs, strings.Count(text, "\n")+1)
	})
}

// A flight with lines left out, doubled, swapped or with figures changed is
// refused, or it is legal.
func TestAnyAcceptedPlanIsLegal(t *testing.T) {
	text, err := flightFiles.ReadFile(fileOf("weather-triangle"))
	require.NoError(t, err)
	lines := strings.Split(string(text), "\n")
	values := []string{"0", "-1", "359.9", "360", "40000", "1e9", "nan", `"1h"`, `"0s"`, `"Skerrow"`, "true", "[0, 0]", `"steady"`}
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		ls := append([]string(nil), lines...)
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			i := rapid.IntRange(0, len(ls)-1).Draw(t, "line")
			switch rapid.IntRange(0, 3).Draw(t, "how") {
			case 0:
				ls[i] = ""
			case 1:
				ls[i] += "\n" + ls[i]
			case 2:
				j := rapid.IntRange(0, len(ls)-1).Draw(t, "other")
				ls[i], ls[j] = ls[j], ls[i]
			case 3:
				if key, _, ok := strings.Cut(ls[i], " = "); ok {
					ls[i] = key + " = " + rapid.SampledFrom(values).Draw(t, "value")
				}
			}
		}
		plan, _, err := Load("f", strings.NewReader(strings.Join(ls, "\n")))
		if err == nil {
			accepted++
			assertLegal(t, plan)
			return
		}
		var errs *Errors
		if !errors.As(err, &errs) || len(errs.Problems) == 0 {
			t.Fatalf("no report: %v", err)
		}
	})
	assert.Positive(t, accepted, "the generator makes some good flights too")
}
