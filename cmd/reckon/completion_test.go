package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/papers"
	"stillair/scenarios"
)

// model is the command line's own.
func model(t *testing.T) *kong.Application {
	parser, err := kong.New(&cli{}, kong.Name("reckon"))
	require.NoError(t, err)
	return parser.Model
}

// Every command and every flag of the model is in each script, hidden ones in none.
func TestCompletionIsTheModel(t *testing.T) {
	flag := map[string]func(string) string{
		"bash": func(name string) string { return "--" + name },
		"zsh":  func(name string) string { return "'--" + name + ":" },
		"fish": func(name string) string { return " -l " + name + " " },
	}
	for shell, written := range flag {
		status, out, _ := call("", "completion", shell)
		require.Equal(t, exitDone, status)
		n := 0
		for _, command := range model(t).Children {
			if command.Hidden {
				assert.NotContains(t, out, command.Name+")", shell)
				continue
			}
			assert.Contains(t, out, command.Name, shell)
			for _, node := range append([]*kong.Node{command}, command.Children...) {
				for _, f := range node.Flags {
					if !f.Hidden {
						assert.Contains(t, out, written(f.Name), "%s: %s", shell, command.Name)
						n++
					}
				}
			}
		}
		assert.Greater(t, n, 40)
	}
}

// The fixed words of the arguments are offered: kinds of paper, shipped flights
// wherever a flight is taken, topics.
func TestCompletionOffersTheWords(t *testing.T) {
	by := map[string]offer{}
	for _, o := range offers(model(t)) {
		by[o.name] = o
	}
	assert.Subset(t, by["papers"].words, papers.Kinds())
	for _, command := range []string{"papers", "fly", "check", "spread", "film", "export"} {
		for _, f := range scenarios.Shipped() {
			assert.Contains(t, by[command].words, f.Name, command)
		}
	}
	assert.Contains(t, by["work"].words, "geodesic")
	assert.Contains(t, by["spread"].words, "merge")
	assert.Empty(t, by["replay"].words, "it takes a file that nobody has shipped")
}

// shellAnswers has a shell itself complete; each prints what it would offer. The
// functions of zsh's own system are stood in for by ones that print.
var shellAnswers = map[string]string{
	"bash": `source "$0"; COMP_WORDS=($LINE); COMP_CWORD=$N; _reckon; printf '%s\n' "${COMPREPLY[@]}"`,
	"zsh": `compdef() { : }; _files() { : }; _describe() { print -l -- "${(@P)@[-1]}" }
source "$0"; words=(${=LINE}); CURRENT=$((N + 1)); _reckon`,
	"fish": `source $argv[1]; complete -C "$LINE"`,
}

// Each shell that is installed completes commands, flags and words.
func TestShellsComplete(t *testing.T) {
	dir := t.TempDir() // with no files to be offered
	for shell, answer := range shellAnswers {
		path, err := exec.LookPath(shell)
		if err != nil {
			t.Logf("%s is not installed", shell)
			continue
		}
		_, out, _ := call("", "completion", shell)
		script := filepath.Join(t.TempDir(), "script")
		require.NoError(t, os.WriteFile(script, []byte(out), 0o600))
		for line, want := range map[string][]string{
			"reckon pap":                   {"papers"},
			"reckon fly --un":              {"--until"},
			"reckon papers sta":            {"stars"},
			"reckon film weather-tri":      {"weather-triangle"},
			"reckon work geod":             {"geodesic"},
			"stillair-reckon papers --lat": {"--latitude"},
		} {
			n := len(strings.Fields(line)) - 1
			args := []string{"-c", answer, script}
			if shell == "zsh" {
				args = append([]string{"-f"}, args...)
			}
			cmd := exec.Command(path, args...)
			cmd.Dir = dir
			cmd.Env = append(os.Environ(), "LINE="+line, "N="+string(rune('0'+n)), "HOME="+dir, "XDG_CONFIG_HOME="+dir, "XDG_DATA_HOME="+dir)
			said, err := cmd.CombinedOutput()
			require.NoError(t, err, "%s: %s: %s", shell, line, said)
			for _, w := range want {
				assert.Contains(t, string(said), w, "%s: %s", shell, line)
			}
		}
	}
}
