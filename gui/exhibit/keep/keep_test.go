package keep

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var wednesday = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func TestCountsPerDay(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "a", "b")
	c := OpenCounts(folder)
	_, any := c.Best(wednesday)
	assert.False(t, any)
	c.Visited(wednesday)
	c.Visited(wednesday)
	c.Broke(wednesday)
	c.Landed(wednesday, 12.34)
	c.Landed(wednesday, 3.21)
	c.Landed(wednesday, 8)
	c.Visited(wednesday.AddDate(0, 0, 1))
	require.NoError(t, c.Err)
	text, err := os.ReadFile(filepath.Join(folder, "counts.csv"))
	require.NoError(t, err)
	assert.Equal(t, "date,visits,breaks,landings,best_nm\n2026-11-25,2,1,3,3.2\n2026-11-26,1,0,0,0.0\n", string(text))
	again := OpenCounts(folder)
	assert.Equal(t, Day{"2026-11-25", 2, 1, 3, 3.2}, again.Today(wednesday))
	best, any := again.Best(wednesday)
	assert.True(t, any)
	assert.Equal(t, 3.2, best)
	_, any = again.Best(wednesday.AddDate(0, 0, 1))
	assert.False(t, any, "the best is the day's")
}

// TestADiskThatCannotBeWritten: a file stands where the folder should be, which not
// even root can write into; then a folder stands where the file should be.
func TestADiskThatCannotBeWritten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "taken")
	require.NoError(t, os.WriteFile(folder, nil, 0o644))
	c := OpenCounts(folder)
	for range 3 {
		c.Visited(wednesday)
		c.Landed(wednesday, 5)
	}
	assert.Error(t, c.Err)
	assert.Equal(t, 3, c.Today(wednesday).Visits, "counted in memory")
	require.NoError(t, os.Remove(folder))
	c.Visited(wednesday)
	assert.NoError(t, c.Err, "and written as soon as that is possible")
	assert.Equal(t, 4, OpenCounts(folder).Today(wednesday).Visits)
	f := Open(filepath.Join(t.TempDir(), "none.toml"), filepath.Join(folder, "counts.csv"), "schema = 1\n")
	assert.Error(t, f.Wrong)
	assert.NotNil(t, f.Exhibit)
}

func TestAFullDisk(t *testing.T) {
	if _, err := os.Stat("/dev/full"); err != nil {
		t.Skip("no /dev/full here")
	}
	folder := t.TempDir()
	c := OpenCounts(folder)
	c.Visited(wednesday)
	require.NoError(t, os.Symlink("/dev/full", filepath.Join(folder, "counts.csv.part")))
	c.Visited(wednesday)
	assert.Error(t, c.Err)
	assert.Equal(t, 1, OpenCounts(folder).Today(wednesday).Visits, "what was there stays")
}

func TestCountsThatCannotBeReadArePutAside(t *testing.T) {
	for _, text := range []string{"date,visits\nx,y\n", "date,visits,breaks,landings,best_nm\n2026-11-25,x,1,3,3.2\n", "\"", "a,b,c,d,e\n1,2,3\n"} {
		folder := t.TempDir()
		file := filepath.Join(folder, "counts.csv")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		c := OpenCounts(folder)
		assert.Error(t, c.Err)
		c.Visited(wednesday)
		assert.NoError(t, c.Err)
		aside, err := os.ReadFile(file + ".unread")
		require.NoError(t, err)
		assert.Equal(t, text, string(aside))
	}
}

func TestTheLastGoodFileRuns(t *testing.T) {
	folder, data := t.TempDir(), t.TempDir()
	file := filepath.Join(folder, "hall.toml")
	write := func(text string) { require.NoError(t, os.WriteFile(file, []byte(text), 0o644)) }
	write("schema = 1\nrate = 0\n")
	f := Open(file, data, "schema = 1\nrate = 33\n")
	assert.Equal(t, 33.0, f.Exhibit.Rate, "the shipped one, for there never was a good one")
	assert.Len(t, Problems(f.Wrong), 1)
	assert.Contains(t, Problems(f.Wrong)[0], "hall.toml:2: rate = 0: must be 1 to 240")
	write("schema = 1\nrate = 44\n")
	f = Open(file, data, "schema = 1\n")
	assert.NoError(t, f.Wrong)
	assert.Empty(t, Problems(f.Wrong))
	write("schema = 1\nrate = 55\nlow = 3\nidle = 7\n")
	f = Open(file, data, "schema = 1\n")
	assert.Equal(t, 44.0, f.Exhibit.Rate, "the last good one")
	assert.Len(t, Problems(f.Wrong), 2)
	require.NoError(t, os.Remove(file))
	f = Open(file, data, "schema = 1\n")
	assert.Equal(t, 44.0, f.Exhibit.Rate)
	assert.ErrorIs(t, f.Wrong, os.ErrNotExist)
}

func TestFurtherLanguagesLieBesideTheFile(t *testing.T) {
	folder := t.TempDir()
	text, err := os.ReadFile("../tongue/texts/en.toml")
	require.NoError(t, err)
	require.NoError(t, os.Mkdir(filepath.Join(folder, "texts"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "texts", "eo.toml"), text, 0o644))
	file := filepath.Join(folder, "hall.toml")
	require.NoError(t, os.WriteFile(file, []byte("schema = 1\ntexts = \"texts\"\nlanguages = [\"eo\", \"en\"]\n"), 0o644))
	f := Open(file, t.TempDir(), "")
	require.NoError(t, f.Wrong)
	assert.Equal(t, []string{"eo", "en"}, f.Exhibit.Languages)
	assert.Contains(t, f.Tongues, "eo")
	require.NoError(t, os.WriteFile(filepath.Join(folder, "texts", "eo.toml"), []byte("name = \"x\"\n"), 0o644))
	f = Open(file, t.TempDir(), "schema = 1\n")
	require.Error(t, f.Wrong)
	assert.Contains(t, f.Wrong.Error(), "is missing")
}

// TestACrashIsReported crashes a program of its own, on another goroutine, and starts
// it again.
func TestACrashIsReported(t *testing.T) {
	if folder := os.Getenv("CRASH_IN"); folder != "" {
		_, err := Watch(folder, wednesday)
		if err != nil {
			os.Exit(3)
		}
		go func() { panic("the drum came off") }()
		time.Sleep(10 * time.Second)
		return
	}
	folder := t.TempDir()
	last, err := Watch(folder, wednesday)
	require.NoError(t, err)
	assert.Empty(t, last)
	cmd := exec.Command(os.Args[0], "-test.run", "TestACrashIsReported")
	cmd.Env = append(os.Environ(), "CRASH_IN="+folder)
	var failed *exec.ExitError
	require.True(t, errors.As(cmd.Run(), &failed), "it crashed")
	require.Equal(t, 2, failed.ExitCode(), "a status other than 0: it is started again")
	last, err = Watch(folder, wednesday.Add(time.Minute))
	require.NoError(t, err)
	assert.Equal(t, "20261125-120100 panic: the drum came off", last)
	again, err := Watch(folder, wednesday.Add(2*time.Minute))
	require.NoError(t, err)
	assert.Equal(t, last, again, "the last fault stays to be read")
	files := all(folder)
	require.Len(t, files, 1)
	text, err := os.ReadFile(files[0])
	require.NoError(t, err)
	assert.Contains(t, string(text), "goroutine ")
	for i := range 30 {
		require.NoError(t, os.WriteFile(filepath.Join(folder, openReport), []byte("panic: "+strings.Repeat("x", i+1)), 0o644))
		_, err := Watch(folder, wednesday.Add(time.Duration(i)*time.Hour))
		require.NoError(t, err)
	}
	assert.Len(t, all(folder), mostKept)
}
