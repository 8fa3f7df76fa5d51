package manual

import (
	"flag"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/export"
)

var update = flag.Bool("update", false, "write the parts of the manual that are made from the source")

const folder = "../../docs"

// pages are the pages of the manual by their names.
func pages(t *testing.T) map[string]string {
	names, err := filepath.Glob(filepath.Join(folder, "*.md"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	all := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		all[filepath.Base(name)] = string(text)
	}
	return all
}

func TestLinksLeadSomewhere(t *testing.T) {
	n := 0
	for name, page := range pages(t) {
		for _, to := range Links(page) {
			n++
			assert.FileExists(t, filepath.Join(folder, to), name)
		}
	}
	assert.Greater(t, n, 20)
}

// Every page is named in the index, leads back to it, and has the cautions.
func TestPagesHaveTheirPlaceAndCautions(t *testing.T) {
	all := pages(t)
	for name, page := range all {
		if name != "README.md" {
			assert.Contains(t, Links(all["README.md"]), name)
			assert.Contains(t, Links(page), "README.md", name)
		}
		flat := strings.Join(strings.Fields(strings.ReplaceAll(page, "*", "")), " ")
		for _, caution := range []string{
			"For teaching and display only: not for navigation in flight, not a trainer approved by any authority.",
			"The behaviour of blocked pitot and static systems is simplified: in a real aircraft follow its approved flight manual and licensed instruction.",
			"electrical and fire safety follow local codes",
		} {
			assert.Contains(t, flat, caution, name)
		}
	}
}

func TestLinesAreShort(t *testing.T) {
	for name, page := range pages(t) {
		for _, line := range strings.Split(page, "\n") {
			if !strings.HasPrefix(strings.TrimSpace(line), "|") && !strings.Contains(line, "reckon ") && !strings.HasPrefix(strings.TrimSpace(line), "!") {
				assert.LessOrEqual(t, len([]rune(line)), 100, "%s: %s", name, line)
			}
		}
	}
}

// made holds a part of a page against what it is made of, or writes it.
func made(t *testing.T, page, name, want string) {
	t.Helper()
	text := pages(t)[page]
	if *update {
		text, err := Remade(text, name, want)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(folder, page), []byte(text), 0o644))
		return
	}
	got, err := Made(text, name)
	require.NoError(t, err)
	assert.Equal(t, want, got, "docs/%s: go test ./internal/manual -update", page)
}

// The keys of a flight are those of the comment of package scenarios.
func TestKeysOfAFlight(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "../../scenarios/doc.go", nil, parser.ParseComments)
	require.NoError(t, err)
	want := Keys(f.Doc.Text())
	for _, key := range []string{"pressure_altitude_ft", "set_counters", "hint_after", "wander_time"} {
		require.Contains(t, want, key)
	}
	made(t, "flight-author.md", "keys", want)
}

// The columns of the export are those that it writes.
func TestColumnsOfTheExport(t *testing.T) {
	line, lines := "", []string{}
	for _, c := range export.Columns() {
		word := "`" + c.Name + "`, "
		if len(line)+len(word) > 90 {
			lines, line = append(lines, strings.TrimSpace(line)), ""
		}
		line += word
	}
	lines = append(lines, strings.TrimSuffix(line, ", ")+".")
	require.Greater(t, len(lines), 5)
	made(t, "files.md", "columns", "\n"+strings.Join(lines, "\n")+"\n")
}

func TestBlocks(t *testing.T) {
	all := Blocks("a\n\n  ```sh\n  x\n   y\n  ```\n\n```toml f.toml\nz\n```\n")
	assert.Equal(t, []Block{{"sh", "", "x\n y\n", 4}, {"toml", "f.toml", "z\n", 9}}, all)
	_, err := Made("nothing", "keys")
	assert.Error(t, err)
}
