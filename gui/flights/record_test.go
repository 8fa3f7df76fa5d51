package flights

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
)

// TestRecordOfTheWindowOpens: what a recorder has written opens as the flight it
// was, with all that was done in it; nothing is written before there is something.
func TestRecordOfTheWindowOpens(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "records")
	f, err := OpenShipped(scenarios.Default)
	require.NoError(t, err)
	e, err := f.Engine()
	require.NoError(t, err)
	r := NewRecorder(dir, f, time.Date(2026, 11, 25, 9, 30, 5, 0, time.UTC))
	e.Advance(100)
	r.Note(e)
	assert.NoDirExists(t, dir, "nothing worth writing yet")
	e.Advance(1000)
	require.NoError(t, e.Do(aboard.Action{Kind: aboard.SetWind, Wind: units.Wind{From: 2, Speed: 9}}))
	r.Note(e)
	e.Advance(3000)
	r.Close(e)
	require.NoError(t, r.Err)
	assert.Equal(t, "2026-11-25 093005 first-look.record", filepath.Base(r.Path()))

	again, err := Open(r.Path())
	require.NoError(t, err)
	assert.NotEmpty(t, again.Told())
	assert.Nil(t, again.Record.Damage)
	g, err := again.Engine()
	require.NoError(t, err)
	assert.Zero(t, g.Tick(), "it begins at its start")
	assert.Equal(t, e.Tick(), g.Frontier())
	g.GoTo(e.Tick())
	assert.Equal(t, e.Hash(), g.Hash())
	silent := NewRecorder(dir, again, time.Now())
	silent.Close(g)
	assert.Empty(t, silent.Path(), "a replay is not written down again")

	text, err := os.ReadFile(r.Path())
	require.NoError(t, err)
	cut := filepath.Join(dir, "cut.record")
	require.NoError(t, os.WriteFile(cut, text[:len(text)-100], 0o600))
	torn, err := Open(cut)
	require.NoError(t, err)
	assert.Contains(t, torn.Told(), "torn")
	_, err = torn.Engine()
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(cut, []byte(strings.Replace(string(text), "first-look", "first-luck", 1)), 0o600))
	_, err = Open(cut)
	assert.ErrorContains(t, err, "line 1: the line has been changed")
}

// TestOldestRecordsGo: so many are kept, and so many bytes.
func TestOldestRecordsGo(t *testing.T) {
	dir := t.TempDir()
	for i := range 10 {
		require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("2026-11-%02d a.record", i+1)), make([]byte, 100), 0o600))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.txt"), nil, 0o600))
	prune(dir, 7, 1<<20)
	left, _ := filepath.Glob(filepath.Join(dir, "*"))
	assert.Len(t, left, 8)
	assert.NoFileExists(t, filepath.Join(dir, "2026-11-03 a.record"))
	prune(dir, 7, 450)
	left, _ = filepath.Glob(filepath.Join(dir, "*.record"))
	assert.Len(t, left, 4)
	assert.FileExists(t, filepath.Join(dir, "2026-11-10 a.record"))
}

// TestRecordThatCannotBeWritten is given up, and says why.
func TestRecordThatCannotBeWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	f, err := OpenShipped(scenarios.Default)
	require.NoError(t, err)
	e, err := f.Engine()
	require.NoError(t, err)
	e.Advance(2000)
	r := NewRecorder(filepath.Join(file, "records"), f, time.Now())
	var told []error
	r.Failed = func(err error) { told = append(told, err) }
	r.Note(e)
	require.Error(t, r.Err)
	r.Note(e)
	r.Close(e)
	assert.Len(t, told, 1)
}
