package exhibit

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
)

const docs = "../../docs/exhibit/"

func doc(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(docs + name)
	require.NoError(t, err)
	return string(text)
}

// keyNames are the names of keys that the toolkit calls otherwise than people do.
var keyNames = map[fyne.KeyName]string{fyne.KeyPageUp: "Page Up", fyne.KeyPageDown: "Page Down"}

func named(k fyne.KeyName) string {
	if s, ok := keyNames[k]; ok {
		return s
	}
	return string(k)
}

// TestEveryKeyIsToldAndDoesOneThing.
func TestEveryKeyIsToldAndDoesOneThing(t *testing.T) {
	text := doc(t, "README.md")
	seen := map[fyne.KeyName]bool{}
	once := func(k fyne.KeyName) {
		assert.False(t, seen[k], "%s twice", k)
		seen[k] = true
	}
	for _, p := range pairs {
		assert.Contains(t, text, "| `"+named(p.less)+"` | `"+named(p.more)+"` |")
		once(p.less)
		once(p.more)
	}
	for _, p := range presses {
		assert.Contains(t, text, "| `"+named(p.key)+"` | "+p.does+" |")
		once(p.key)
	}
	for _, p := range keeperPresses {
		assert.Contains(t, text, "| `"+named(p.key)+"` | "+p.does)
		once(p.key)
	}
	for _, k := range "KEY" {
		assert.False(t, seen[fyne.KeyName(k)], "%c is the keeper's", k)
	}
}

// TestTheShippedFileIsTheDocumentedOne, in order, and says of every key what counts
// without it.
func TestTheShippedFileIsTheDocumentedOne(t *testing.T) {
	assert.Equal(t, doc(t, "exhibit.toml"), Shipped)
	assert.Empty(t, Check(docs+"exhibit.toml"))
	for _, key := range []string{"title", "languages", "texts", "idle", "rate", "light", "low", "captions", "reduced_motion", "larger_text",
		"cursor", "keeper", "shift_px", "shift_every", "from", "start", "heading_true_deg", "tas_kt", "wind_from_deg_true", "wind_kt",
		"pressure_altitude_ft", "id", "at", "time", "off", "[hours]"} {
		assert.Contains(t, Shipped, key)
	}
	bad := filepath.Join(t.TempDir(), "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte("schema = 1\nidle = 5\n"), 0o644))
	assert.Len(t, Check(bad), 1)
}

// TestTheScriptStartsItAgain: a program that crashes twice and is then closed by the
// keeper is run three times.
func TestTheScriptStartsItAgain(t *testing.T) {
	if testing.Short() {
		t.Skip("takes six seconds")
	}
	folder := t.TempDir()
	program := filepath.Join(folder, "program")
	require.NoError(t, os.WriteFile(program, []byte("#!/bin/sh\necho x >>"+folder+"/runs\ntest $(wc -l <"+folder+"/runs) -ge 3 || exit 2\n"), 0o755))
	out, err := exec.Command("sh", docs+"run-exhibit.sh", program, "some.toml").CombinedOutput()
	require.NoError(t, err, string(out))
	runs, err := os.ReadFile(filepath.Join(folder, "runs"))
	require.NoError(t, err)
	assert.Equal(t, 3, strings.Count(string(runs), "x"))
	assert.Equal(t, 2, strings.Count(string(out), "status 2, again in 3 s"))
}

func TestTheUnitStartsItAgain(t *testing.T) {
	unit := doc(t, "stillair-exhibit.service")
	for _, line := range []string{"Restart=on-failure", "StartLimitIntervalSec=0", "ExecStart=%h/exhibit/stillair --exhibit %h/exhibit/exhibit.toml"} {
		assert.Contains(t, unit, "\n"+line+"\n")
	}
}

// TestSystemdUnderstandsTheUnit, where there is one to ask. A wrong line is told, so
// that silence means something.
func TestSystemdUnderstandsTheUnit(t *testing.T) {
	analyze, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("there is no systemd here")
	}
	home := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(home, "exhibit"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(home, "exhibit", "stillair"), []byte("#!/bin/sh\n"), 0o755))
	said := func(unit string) string {
		file := filepath.Join(home, "stillair-exhibit.service")
		require.NoError(t, os.WriteFile(file, []byte(unit), 0o644))
		cmd := exec.Command(analyze, "--user", "verify", file)
		cmd.Env = append(os.Environ(), "HOME="+home, "XDG_RUNTIME_DIR="+home)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		return string(out)
	}
	unit := doc(t, "stillair-exhibit.service")
	assert.Empty(t, said(unit))
	assert.Contains(t, said(strings.Replace(unit, "on-failure", "sometimes", 1)), "restart")
}

// TestKeysAlone plays a visit with the keyboard alone.
func TestKeysAlone(t *testing.T) {
	x := openHall(t, Shipped, 1366, 768)
	key := func(name fyne.KeyName) {
		x.typed(&fyne.KeyEvent{Name: name})
		x.step(300 * time.Millisecond)
	}
	key(fyne.KeyReturn)
	require.Equal(t, conduct.Playing, x.machine.Stage())
	for _, c := range []struct {
		key  fyne.KeyName
		dial conduct.Dial
		want float64
	}{
		{fyne.KeyRight, conduct.Heading, 63}, {fyne.KeyLeft, conduct.Heading, 62}, {fyne.KeyUp, conduct.Speed, 181}, {fyne.KeyDown, conduct.Speed, 180},
		{fyne.KeyG, conduct.WindFrom, 311}, {fyne.KeyF, conduct.WindFrom, 310}, {fyne.KeyPageUp, conduct.WindSpeed, 35}, {fyne.KeyPageDown, conduct.WindSpeed, 34},
	} {
		key(c.key)
		assert.Equal(t, c.want, x.machine.Dial(c.dial), "%s", c.key)
	}
	key(fyne.KeyM)
	assert.False(t, x.broken(), "there is nothing to mend")
	key(fyne.KeyB)
	key(fyne.KeyB)
	assert.True(t, x.broken(), "it is broken already")
	key(fyne.KeyM)
	assert.False(t, x.broken())
	key(fyne.KeyI)
	key(fyne.KeyI)
	assert.True(t, x.machine.Inside())
	key(fyne.KeyO)
	assert.False(t, x.machine.Inside())
	key(fyne.KeyN)
	assert.Equal(t, 1, x.machine.Language())
	key(fyne.KeyN)
	assert.Equal(t, 0, x.machine.Language(), "round")
	key(fyne.KeyP)
	assert.Equal(t, 1, x.machine.Language())
	key(fyne.KeyA)
	assert.True(t, x.machine.Larger())
	key(fyne.KeyS)
	assert.False(t, x.machine.Larger())
	key(fyne.KeyL)
	assert.Equal(t, conduct.Cloud, x.machine.Stage())
	key(fyne.KeyR)
	assert.Equal(t, conduct.Playing, x.machine.Stage())
	x.held(fyne.KeyK, true)
	x.step(2 * time.Second)
	key(fyne.KeyR)
	assert.Equal(t, conduct.Playing, x.machine.Stage(), "no other key acts while the keeper's is held")
	for _, k := range []fyne.KeyName{fyne.KeyE, fyne.KeyY} {
		x.held(k, true)
		x.held(k, false)
	}
	x.held(fyne.KeyK, false)
	require.Equal(t, conduct.Keeper, x.machine.Stage())
	for i, want := range []conduct.Stage{conduct.Test, conduct.Wiping, conduct.Attract} {
		x.machine.Open()
		key(fyne.KeyName(strconv.Itoa(i + 1)))
		assert.Equal(t, want, x.machine.Stage())
	}
	x.machine.Open()
	key(fyne.Key4)
	assert.True(t, x.left)
}
