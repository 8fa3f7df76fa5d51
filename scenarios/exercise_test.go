package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim"
)

func TestExercisesThatAreRefused(t *testing.T) {
	told := "task = \"t\"\nfinds = \"f\"\n"
	for keys, want := range map[string]string{
		"task = \"t\"":                              "exercise.finds",
		"finds = \"f\"":                             "exercise.task",
		told + "level = 0":                          "level",
		told + "level = 10":                         "level",
		told + "marks = { report = 50 }":            "must be 100 in all, and are 50",
		told + "marks = { report = 50, tidy = 50 }": "unknown key",
		told + "report_within = \"0s\"":             "report_within",
		told + "points = 3":                         "unknown key",
		"sealed = -1":                               "must be 0 or above",
		"sealed = 1\n[[fault]]\nid = \"drive-slip\"\nat = \"1m\"": "does not go with [[fault]]",
		"task = \"" + strings.Repeat("a", 421) + "\"":             "at most 420",
	} {
		assert.ErrorContains(t, check(edit("", "[exercise]\n"+keys)), want, keys)
	}
	assert.NoError(t, check(edit("", "[exercise]\n"+told)))
}

// The same flight and seed give the same trouble; another seed another one. The file
// itself does not say.
func TestSealedFlights(t *testing.T) {
	sealed := func(seed string) *sim.Plan {
		p, src, err := Load("f", strings.NewReader(edit("", "[exercise]\nsealed = "+seed)))
		require.NoError(t, err)
		require.NotEmpty(t, p.Faults)
		for _, f := range p.Faults {
			assert.NoError(t, f.Check())
			assert.NotContains(t, string(src.Text), f.ID)
		}
		return p
	}
	a := sealed("7")
	assert.Equal(t, a.Faults, sealed("7").Faults)
	assert.True(t, a.Exercise.Sealed)
	assert.Equal(t, uint64(7), a.Exercise.Seed)
	kinds := map[string]bool{}
	for _, seed := range []string{"1", "2", "3", "4", "5", "6"} {
		kinds[sealed(seed).Faults[0].ID] = true
	}
	assert.Greater(t, len(kinds), 2)
}
