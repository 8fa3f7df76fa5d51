//go:build linux

package exhibit

import (
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/keep"
)

// visitOn plays a visit on the way that the program takes, from Folder on: a report should
// it crash, the exhibit file, the counts; then the keeper's page is opened.
func visitOn(t *testing.T, file string, wall time.Time) *hall {
	t.Helper()
	test.NewTempApp(t)
	folder := Folder()
	last, _ := keep.Watch(folder, wall) // that no report can be written is told on standard error
	x := &hall{t: t, wall: wall}
	var err error
	x.View, err = NewView(keep.Open(file, folder, Shipped), keep.OpenCounts(folder), last, 7, func() { x.left = true })
	require.NoError(t, err)
	t.Cleanup(x.crew.drop)
	x.crew.stepped = true
	x.step(0)
	x.machine.Touch(conduct.Anywhere)
	require.Equal(t, conduct.Playing, x.machine.Stage())
	x.machine.Touch(conduct.BreakKey)
	x.fly(5 * time.Minute)
	x.machine.Touch(conduct.LandKey)
	x.fly(5 * time.Minute)
	x.step(91 * time.Second)
	x.step(2 * time.Second)
	x.step(2 * time.Second)
	require.Equal(t, conduct.Result, x.machine.Stage())
	x.machine.Open()
	x.generate(1366, 768)
	return x
}

func counted(t *testing.T, x *hall) {
	t.Helper()
	day := x.page.Today
	assert.Equal(t, []int{1, 1, 1}, []int{day.Visits, day.Breaks, day.Landings}, "the visitors are counted all the same")
}

// TestAFullDiskChangesNothingForVisitors: a program of its own, whose files may not grow
// by a byte, as those of a full disk.
func TestAFullDiskChangesNothingForVisitors(t *testing.T) {
	if os.Getenv("FULL_DISK") == "" {
		cmd := exec.Command(os.Args[0], "-test.run", "^"+t.Name()+"$", "-test.v")
		folder, file := t.TempDir(), file(t, Shipped)
		cmd.Env = append(os.Environ(), "FULL_DISK="+file, "XDG_DATA_HOME="+folder, "XDG_CONFIG_HOME="+folder)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		assert.Contains(t, string(out), "--- PASS: "+t.Name())
		_, err = os.Stat(filepath.Join(folder, "stillair", "exhibit", "counts.csv"))
		assert.ErrorIs(t, err, os.ErrNotExist, "nothing half written stays")
		return
	}
	signal.Ignore(syscall.SIGXFSZ)
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{}))
	x := visitOn(t, os.Getenv("FULL_DISK"), wednesday)
	counted(t, x)
	require.ErrorIs(t, x.page.Counting, syscall.EFBIG, "and the keeper is told")
	assert.Empty(t, x.page.Problems, "the exhibit file is in order")
}

// TestAFolderThatCannotBeMade: as on a disk that is read only; a file stands in the way,
// which stops even root.
func TestAFolderThatCannotBeMade(t *testing.T) {
	taken := filepath.Join(t.TempDir(), "taken")
	require.NoError(t, os.WriteFile(taken, nil, 0o644))
	t.Setenv("XDG_DATA_HOME", taken)
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	_, err := keep.Watch(Folder(), wednesday)
	assert.Error(t, err)
	x := visitOn(t, file(t, Shipped), wednesday)
	counted(t, x)
	assert.Error(t, x.page.Counting)
}

// TestAWrongClock: years off, or leaping within a visit, it keeps nothing shut, and the
// visit is counted on the day that the clock says.
func TestAWrongClock(t *testing.T) {
	hours := Shipped + "\n[hours]\nwednesday = \"10:00-11:00\"\n"
	for _, wall := range []time.Time{time.Unix(0, 0).UTC(), time.Date(2019, 5, 1, 3, 0, 0, 0, time.UTC)} {
		t.Setenv("XDG_DATA_HOME", t.TempDir())
		t.Setenv("XDG_CONFIG_HOME", t.TempDir())
		x := visitOn(t, file(t, hours), wall)
		counted(t, x)
		assert.NoError(t, x.page.Counting)
		x.wall = wednesday.AddDate(9, 0, 0) // put right, and wrong the other way
		x.step(time.Second)
		assert.Equal(t, conduct.Keeper, x.machine.Stage(), "a leap ends nothing")
		x.wall = wall
		for range 200 {
			x.step(time.Second)
		}
		assert.Equal(t, conduct.Attract, x.machine.Stage())
	}
}
