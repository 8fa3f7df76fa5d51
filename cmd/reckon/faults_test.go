package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/sim/fault"
)

func TestFaultsListsTheCatalogue(t *testing.T) {
	status, out, errs := call("", "faults")
	require.Equal(t, exitDone, status, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 65) // the number of rows of the table
	assert.Regexp(t, `^pitot-ram-blocked +air data +ram hole`, lines[0])
	status, out, _ = call("", "faults", "--json")
	require.Equal(t, exitDone, status)
	var list []map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	assert.Len(t, list, 65)
}

func TestOneFault(t *testing.T) {
	status, out, errs := call("", "faults", "drive-slip")
	require.Equal(t, exitDone, status, errs)
	for _, want := range []string{
		"flexible drive or clutch slips", "comes on as step, ramp, intermittent",
		"What breaks", "What the crew see", "look-alikes", "Remedy", "slip = 0.05  (number; 0 to 1)",
	} {
		assert.Contains(t, out, want)
	}
	_, out, _ = call("", "faults", "earth-model")
	assert.Contains(t, out, "is an explanation")
	_, out, _ = call("", "faults", "drive-broken")
	assert.Contains(t, out, "none")
	_, out, _ = call("", "faults", "disc-slip", "axis")
	assert.Contains(t, out, "axis = E  (choice; N or E)")
	assert.NotContains(t, out, "slip =")
}

// The figures of mech_fault_parameters.csv for one number, one choice and one
// truth value.
func TestOneFaultAsJSON(t *testing.T) {
	one := func(id string) map[string]any {
		status, out, errs := call("", "faults", id, "--json")
		require.Equal(t, exitDone, status, errs)
		return decode(t, out)
	}
	slip := one("drive-slip")
	assert.Equal(t, []any{"step", "ramp", "intermittent"}, slip["shapes"])
	assert.Equal(t, []any{map[string]any{"name": "slip", "type": "number", "default": 0.05, "min": 0.0, "max": 1.0}}, slip["parameters"])
	axis := one("disc-slip")["parameters"].([]any)[0].(map[string]any)
	assert.Equal(t, map[string]any{"name": "axis", "type": "choice", "default": "E", "choices": []any{"N", "E"}}, axis)
	rate := one("gyro-drift-unslaved")["parameters"].([]any)[1].(map[string]any)
	assert.Equal(t, map[string]any{"name": "earth_rate", "type": "bool", "default": true}, rate)
}

func TestFaultsThatAreNot(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"faults", "drive-slp"}, "did you mean drive-slip"},
		{[]string{"faults", "zzzzzz"}, "see: reckon faults"},
		{[]string{"faults", "drive-slip", "slp"}, "did you mean slip?"},
		{[]string{"faults", "drive-slip", "colour"}, "it has slip"},
		{[]string{"faults", "drive-broken", "slip"}, "has no parameters"},
	} {
		status, out, errs := call("", c.args...)
		assert.Equal(t, exitBad, status, "%v", c.args)
		assert.Empty(t, out)
		assert.Contains(t, errs, c.says, "%v", c.args)
	}
}

// The closing lines say what was wrong, and when.
func TestFlyNamesTheFaults(t *testing.T) {
	_, out, _ := call("", "fly", "pitot-ice", "--until", "20m")
	assert.Regexp(t, `(?m)^fault +pitot-ram-blocked +from 15m0s$`, out)
	_, out, _ = call("", "fly", "pitot-ice", "--until", "10m")
	assert.Regexp(t, `(?m)^fault +pitot-ram-blocked +not yet$`, out)
	_, out, _ = call("", "fly", "pitot-ice")
	assert.Regexp(t, `(?m)^fault +pitot-ram-blocked +15m0s to 27m0s$`, out)
}

func TestCompletionKnowsTheFaults(t *testing.T) {
	_, out, _ := call("", "completion", "bash")
	for _, e := range fault.Catalogue() {
		assert.Contains(t, out, e.ID)
	}
}
