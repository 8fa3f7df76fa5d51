package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/papers"
)

// Each kind is written as a PDF, and nothing is said about it.
func TestPapersAreWritten(t *testing.T) {
	dir := t.TempDir()
	for _, args := range [][]string{
		{"sheet", "first-look"},
		{"sheet", "first-look", "--latitude", "0", "--size", "letter"},
		{"sheet", "first-look", "--plain", "--centre", "47 30.0 S 179 W"},
		{"log", "weather-triangle"},
		{"plan", "weather-triangle"},
		{"readings", "first-look", "--every", "2m"},
		{"problems", "first-look", "--count", "30", "--seed", "4"},
		{"deviation", "first-look"},
		{"landfall", "first-look"},
		{"landfall", "first-look", "--place", "gannet rock"},
		{"rule", "first-look", "--latitude", "47"},
		{"log-short", "weather-triangle", "--filled"},
	} {
		file := filepath.Join(dir, "out.pdf")
		status, out, errs := call("", append([]string{"papers", "--out", file}, args...)...)
		require.Equal(t, exitDone, status, "%v: %s", args, errs)
		assert.Empty(t, out+errs)
		pdf, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, "%PDF-", string(pdf[:5]), "%v", args)
		require.NoError(t, os.Remove(file))
	}
}

// Every kind that there is can be asked for.
func TestEveryPaperCanBeAskedFor(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out.pdf")
	for _, kind := range papers.Kinds() {
		status, _, errs := call("", "papers", kind, "first-look", "--out", file)
		assert.Equal(t, exitDone, status, "%s: %s", kind, errs)
	}
	status, _, errs := call("", "papers", "horoscope", "first-look", "--out", file)
	assert.Equal(t, exitUsage, status)
	for _, kind := range papers.Kinds() {
		assert.Contains(t, errs, kind)
	}
	_, help, _ := call("", "papers", "--help")
	for _, kind := range papers.Kinds() {
		assert.Regexp(t, `(?m)^ +`+strings.TrimSuffix(kind, "-short")+` `, help)
	}
}

// What is wrong is refused by name, value and legal range, and no file is left.
func TestPapersRefuse(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte("schema = 1\ntitle = 3\n"), 0o600))
	file := filepath.Join(dir, "out.pdf")
	for _, c := range []struct {
		want int
		says string
		args []string
	}{
		{exitUsage, "sheet", []string{"horoscope", "first-look", "--out", file}},
		{exitUsage, "--out", []string{"sheet", "first-look"}},
		{exitUsage, "--out = x.png: must end in .pdf", []string{"sheet", "first-look", "--out", "x.png"}},
		{exitUsage, "--size = A3: must be A4 or Letter", []string{"sheet", "first-look", "--out", file, "--size", "A3"}},
		{exitUsage, "--latitude = 71: must be 0 to 70", []string{"sheet", "first-look", "--out", file, "--latitude", "71"}},
		{exitUsage, "--latitude = NaN: must be 0 to 70", []string{"sheet", "first-look", "--out", file, "--latitude", "NaN"}},
		{exitUsage, "--centre = here", []string{"sheet", "first-look", "--out", file, "--centre", "here"}},
		{exitUsage, "75 S to 75 N", []string{"sheet", "first-look", "--out", file, "--centre", "80 N 10 E"}},
		{exitUsage, "--filled is of log and log-short, not of sheet", []string{"sheet", "first-look", "--out", file, "--filled"}},
		{exitUsage, "--plain is of sheet, not of log", []string{"log", "first-look", "--out", file, "--plain"}},
		{exitUsage, "--every = 2h0m0s: must be 10s to 1h0m0s", []string{"readings", "first-look", "--out", file, "--every", "2h"}},
		{exitUsage, "--every is of readings, not of plan", []string{"plan", "first-look", "--out", file, "--every", "2m"}},
		{exitUsage, "--count = 0: must be 1 to 200", []string{"problems", "first-look", "--out", file, "--count", "0"}},
		{exitUsage, "--seed", []string{"problems", "first-look", "--out", file, "--seed", "-1"}},
		{exitUsage, "--seed is of problems, not of plan", []string{"plan", "first-look", "--out", file, "--seed", "1"}},
		{exitUsage, "--place = Nowhere: there is none; there are ", []string{"landfall", "first-look", "--out", file, "--place", "Nowhere"}},
		{exitUsage, "--place is of landfall, not of plan", []string{"plan", "first-look", "--out", file, "--place", "Skerrow"}},
		{exitUsage, "--at is of stars, not of sheet", []string{"sheet", "first-look", "--out", file, "--at", "1h"}},
		{exitUsage, "--pair = Sirius: must be two stars", []string{"stars", "first-look", "--out", file, "--pair", "Sirius"}},
		{exitUsage, "--pair = Sirius, Moon: must be two stars, not Moon", []string{"stars", "first-look", "--out", file, "--pair", "Sirius, Moon"}},
		{exitUsage, "--pair = Sirius, Elbow", []string{"stars", "first-look", "--out", file, "--pair", "Sirius, Elbow"}},
		{exitBad, "far-south: stars: at 0100Z 19 Jan 1958", []string{"stars", "far-south", "--out", file}},
		{exitBad, "first-look: at = 9h0m0s: must be 0s to", []string{"stars", "first-look", "--out", file, "--at", "9h"}},
		{exitBad, "no-such-flight", []string{"sheet", "no-such-flight", "--out", file}},
		{exitBad, bad + ":2: title = 3", []string{"sheet", bad, "--out", file}},
		{exitBad, "no/such", []string{"sheet", "first-look", "--out", filepath.Join(dir, "no", "such", "a.pdf")}},
	} {
		status, out, errs := call("", append([]string{"papers"}, c.args...)...)
		assert.Equal(t, c.want, status, "%v: %s", c.args, errs)
		assert.Contains(t, errs, c.says, "%v", c.args)
		assert.Empty(t, out)
		assert.NoFileExists(t, file)
	}
}
