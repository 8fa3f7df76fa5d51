package main

import (
	"crypto/sha256"
	"fmt"
	"image/gif"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) { testscript.Main(m, map[string]func(){"reckon": main}) }

// TestScripts calls reckon as from a shell; the scripts say what must come of it.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("testdata", "script"),
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"size": size, "image": imageOf, "sums": sums, "cut": cut, "into": into,
		},
	})
}

// size FILE BYTES: a file is so long.
func size(ts *testscript.TestScript, neg bool, args []string) {
	info, err := os.Stat(ts.MkAbs(args[0]))
	ts.Check(err)
	if got := fmt.Sprint(info.Size()); (got == args[1]) == neg {
		ts.Fatalf("%s is %s bytes long", args[0], got)
	}
}

// image FILE WxH [FRAMES]: a PNG, or a GIF of so many frames, is so large.
func imageOf(ts *testscript.TestScript, _ bool, args []string) {
	f, err := os.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	if filepath.Ext(args[0]) == ".gif" {
		g, err := gif.DecodeAll(f)
		ts.Check(err)
		if got := fmt.Sprintf("%dx%d %d", g.Config.Width, g.Config.Height, len(g.Image)); got != args[1]+" "+args[2] {
			ts.Fatalf("%s is %s", args[0], got)
		}
		return
	}
	im, err := png.DecodeConfig(f)
	ts.Check(err)
	if got := fmt.Sprintf("%dx%d", im.Width, im.Height); got != args[1] {
		ts.Fatalf("%s is %s", args[0], got)
	}
}

// sums A B: all files of two folders are alike (! sums: some are not).
func sums(ts *testscript.TestScript, neg bool, args []string) {
	sum := func(dir string) (all string) {
		names, err := filepath.Glob(filepath.Join(ts.MkAbs(dir), "*"))
		ts.Check(err)
		if len(names) == 0 {
			ts.Fatalf("%s is empty", dir)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			ts.Check(err)
			all += fmt.Sprintf("%s %x\n", filepath.Base(name), sha256.Sum256(text))
		}
		return all
	}
	if a, b := sum(args[0]), sum(args[1]); (a == b) == neg {
		ts.Fatalf("%s\nand\n%s", a, b)
	}
}

// cut FILE TO: a file without its last 100 bytes, as after a kill.
func cut(ts *testscript.TestScript, _ bool, args []string) {
	text, err := os.ReadFile(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), text[:len(text)-100], 0o644))
}

// into FILE PROGRAM ARG...: what a program writes, which is not to be printed, in a
// file.
func into(ts *testscript.TestScript, neg bool, args []string) {
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	program, err := exec.LookPath(args[1])
	ts.Check(err)
	c := exec.Command(program, args[2:]...)
	c.Dir, c.Stdout, c.Stderr = ts.MkAbs("."), f, ts.Stderr()
	if err := c.Run(); (err == nil) == neg {
		ts.Fatalf("%v: %v", args, err)
	}
}
