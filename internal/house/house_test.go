// Package house keeps the rules of the house: who may import whom, and what the
// engine may not touch. The rules are policy: do not change them to make a
// build pass.
package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const toolkit = "fyne.io/fyne/v2"

// rule forbids the packages under one of from, except those under one of but,
// to import those under one of no. A path stands for itself and all below it.
type rule struct{ from, but, no, why string }

var rules = []rule{
	{from: "stillair/integrator", no: "stillair/sim stillair/scenarios stillair/gui " + toolkit,
		why: "the mechanism knows only what its inputs tell it"},
	{from: "stillair/sim", no: "stillair/scenarios stillair/gui os net " + toolkit,
		why: "the engine is a pure state machine: files come in as readers, records go out to writers"},
	{from: "stillair/sim/earth", no: "stillair/integrator/geodesy",
		why: "the earth of the world and the navigator's tables check one another"},
	{from: "stillair/gui", no: "stillair/sim/earth stillair/sim/weather stillair/sim/aircraft stillair/sim/sensor",
		why: "a window must not look at the truth behind the engine's back"},
	{from: "stillair/gui/paint stillair/gui/picture", no: toolkit,
		why: "window, reckon, papers and tests draw with the same code"},
	{from: "stillair", but: "stillair/cmd/stillair", no: toolkit + "/app",
		why: "app brings in cgo; everything else builds without a C compiler"},
	{from: "stillair/cmd/reckon", no: "stillair/gui/kit stillair/gui/charttable stillair/gui/helm " + toolkit,
		why: "reckon needs the Go toolchain alone"},
	{from: "stillair/gui/training", no: "stillair/sim stillair/scenarios",
		why: "a trainee's display cannot leak what it does not have"},
}

// under says whether a path is one of the paths of a list or below one.
func under(path, list string) bool {
	for _, p := range strings.Fields(list) {
		if path == p || strings.HasPrefix(path, p+"/") {
			return true
		}
	}
	return false
}

// breach names what a package imports against the rule, "" if nothing.
func (r rule) breach(pkg string, imports []string) string {
	if !under(pkg, r.from) || under(pkg, r.but) {
		return ""
	}
	for _, i := range imports {
		if under(i, r.no) {
			return i
		}
	}
	return ""
}

// imports gives the direct imports of every package, tests left out.
func imports(t *testing.T) map[string][]string {
	list := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "stillair/...")
	list.Stderr = os.Stderr
	out, err := list.Output()
	require.NoError(t, err)
	all := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		all[f[0]] = f[1:]
	}
	for _, p := range []string{"stillair/integrator", "stillair/sim", "stillair/gui/paint", "stillair/cmd/reckon"} {
		require.NotEmpty(t, all[p], "the list does not know %s", p)
	}
	return all
}

func TestWhoMayImportWhom(t *testing.T) {
	for pkg, used := range imports(t) {
		for _, r := range rules {
			assert.Empty(t, r.breach(pkg, used), "%s must not import it: %s", pkg, r.why)
		}
	}
}

// TestARuleCanBeBroken: a check that cannot fail is none.
func TestARuleCanBeBroken(t *testing.T) {
	assert.Equal(t, "stillair/sim", rules[0].breach("stillair/integrator/airlog", []string{"math", "stillair/sim"}))
	assert.Equal(t, "os", rules[1].breach("stillair/sim", []string{"os"}))
	assert.Equal(t, toolkit+"/app", rules[5].breach("stillair/gui", []string{toolkit + "/app"}))
	assert.Empty(t, rules[5].breach("stillair/cmd/stillair", []string{toolkit + "/app"}))
	assert.Empty(t, rules[0].breach("stillair/simple", []string{"stillair/sim"}))
	assert.Equal(t, []string{"time.Now", "rand.IntN", "go"}, trespasses(parse(t, "x.go", `package x
		import ("math/rand/v2"; "time")
		func f() { _, _ = time.Now(), rand.IntN(6); go f() }
		func g(s *rand.PCG) (*rand.Rand, time.Time) { return rand.New(s), time.Unix(0, 0) }`)))
}

// clocks and dice are what the engine may not touch. From math/rand only what
// is handed its own source is allowed.
var (
	clocks      = "Now Since Until Sleep After AfterFunc Tick NewTimer NewTicker"
	ownedChance = "New NewPCG NewChaCha8 PCG ChaCha8 Rand Source"
)

// trespasses are the clocks, the common dice and the goroutines of a file.
func trespasses(f *ast.File) (found []string) {
	name := map[string]string{} // what a package is called in this file
	for _, i := range f.Imports {
		path := strings.Trim(i.Path.Value, `"`)
		local := filepath.Base(strings.TrimSuffix(path, "/v2"))
		if i.Name != nil {
			local = i.Name.Name
		}
		name[local] = path
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			found = append(found, "go")
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && x.Obj == nil {
				clock := name[x.Name] == "time" && under(n.Sel.Name, clocks)
				dice := strings.HasPrefix(name[x.Name], "math/rand") && !under(n.Sel.Name, ownedChance)
				if clock || dice {
					found = append(found, x.Name+"."+n.Sel.Name)
				}
			}
		}
		return true
	})
	return found
}

// parse reads a file, or a text in its place.
func parse(t *testing.T, name string, text any) *ast.File {
	f, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
	require.NoError(t, err)
	return f
}

// The same flight gives the same hash only if nothing in it asks a clock,
// shares a source of chance or runs beside it. Many flights at once may run beside
// one another, and no more.
func TestTheEngineIsPure(t *testing.T) {
	files := 0
	for _, root := range []string{"integrator", "sim"} {
		err := filepath.WalkDir(filepath.Join("..", "..", root), func(name string, d os.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() && d.Name() == "testdata" {
				return filepath.SkipDir
			}
			if strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go") {
				files++
				found := trespasses(parse(t, name, nil))
				if filepath.Base(filepath.Dir(name)) == "spread" {
					found = slices.DeleteFunc(found, func(what string) bool { return what == "go" })
				}
				assert.Empty(t, found, name)
			}
			return nil
		})
		require.NoError(t, err)
	}
	assert.Greater(t, files, 30)
}
