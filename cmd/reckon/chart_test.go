package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/scenarios"
	"stillair/sim"
)

func TestChartIsWrittenInEveryFormat(t *testing.T) {
	plan, _, err := scenarios.Open(scenarios.Default)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(50 * time.Minute))
	dir := t.TempDir()
	for name, head := range map[string]string{"a.png": "\x89PNG", "a.SVG": "<?xml", "a.pdf": "%PDF-"} {
		file := filepath.Join(dir, name)
		require.NoError(t, writeChart(file, e))
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, head, string(text[:len(head)]))
		assert.Greater(t, len(text), 50_000, "a sheet with coasts and tracks")
	}
	assert.Error(t, writeChart(filepath.Join(dir, "no", "such", "a.png"), e))
}

// TestWorksAreWrittenInEveryFormat: the mechanism opened up, with what is wrong
// only when that is asked for.
func TestWorksAreWrittenInEveryFormat(t *testing.T) {
	plan, _, err := scenarios.Open("slipping-drive")
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(sim.TicksOf(45 * time.Minute))
	dir := t.TempDir()
	for name, head := range map[string]string{"a.png": "\x89PNG", "a.pdf": "%PDF-"} {
		file := filepath.Join(dir, name)
		require.NoError(t, writeWorks(file, e, true))
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, head, string(text[:len(head)]))
		assert.Greater(t, len(text), 50_000)
	}
	for file, revealed := range map[string]bool{"hidden.svg": false, "revealed.svg": true} {
		file = filepath.Join(dir, file)
		require.NoError(t, writeWorks(file, e, revealed))
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, revealed, strings.Contains(string(text), "Drive slips 10 in 100"), "%s", file)
	}
}
