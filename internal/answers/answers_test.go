package answers

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/units"
)

var update = flag.Bool("update", false, "write docs/answers.csv anew")

const table = "../../docs/answers.csv"

// No answer of a shipped flight has moved. One that was meant to is written anew with
// -update, and told in CHANGELOG.md, in NM.
func TestAnswersHaveNotMoved(t *testing.T) {
	now, err := Worked()
	require.NoError(t, err)
	if *update {
		var out bytes.Buffer
		require.NoError(t, Write(&out, now))
		require.NoError(t, os.WriteFile(table, out.Bytes(), 0o644))
		return
	}
	f, err := os.Open(table)
	require.NoError(t, err)
	defer f.Close()
	old, err := Read(f)
	require.NoError(t, err)
	require.Greater(t, len(old), 10)
	for _, m := range Moves(old, now) {
		assert.False(t, m.Far(), "%s\nif it was meant: go test ./internal/answers -update, and say so in CHANGELOG.md", m)
	}
}

func at(lat, lon float64) units.Position {
	return units.Position{Lat: units.Angle(lat) * units.Degree, Lon: units.Angle(lon) * units.Degree}
}

// A minute of latitude at 45 N is 1852.2 m on WGS-84 (111 132 m to a degree there, from
// memory): a little over a mile. What moves is told, and what comes and goes.
func TestMoves(t *testing.T) {
	p := at(45, 180)
	q := at(45+1.0/60, -180)
	old := []Answer{{"a", 60, [places]units.Position{p, p, p, p}}, {"b", 60, [places]units.Position{p, p, p, p}}, {Flight: "old"}}
	now := []Answer{{"a", 60, [places]units.Position{p, q, p, p}}, {"b", 60, [places]units.Position{p, p, at(45+1e-9/60, 180), p}}, {Flight: "young"}}
	all := Moves(old, now)
	require.Len(t, all, 4)
	assert.InDelta(t, 1.0001, all[0].NM[Ground], 0.0005)
	assert.True(t, all[0].Far())
	assert.Contains(t, all[0].String(), "ground 1")
	assert.False(t, all[1].Far(), "2e-6 m is no move")
	assert.Equal(t, "b: the same", all[1].String())
	assert.Equal(t, []string{"young: new", "old: gone"}, []string{all[2].String(), all[3].String()})
	assert.True(t, all[2].Far() && all[3].Far())
	later := Moves(old[:1], []Answer{{"a", 61, old[0].At}})
	assert.True(t, later[0].Far())
}

func TestTableComesBack(t *testing.T) {
	all := []Answer{{"x", 12.0625, [places]units.Position{at(-47.123456789, 178.5), at(1, 2), at(3, 4), at(5, -179.99)}}}
	var out bytes.Buffer
	require.NoError(t, Write(&out, all))
	back, err := Read(&out)
	require.NoError(t, err)
	for _, nm := range Moves(all, back)[0].NM {
		assert.InDelta(t, 0, nm, 1e-11) // a degree as radians, and back
	}
	for _, bad := range []string{"", "nonsense\n", strings.Join(header(), ",") + "\nx,y,1,1,1,1,1,1,1,1\n"} {
		_, err := Read(strings.NewReader(bad))
		assert.Error(t, err, bad)
	}
}
