package main

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page names every command, every argument and every flag.
func TestManNamesEverything(t *testing.T) {
	var out, complaints bytes.Buffer
	require.Zero(t, run([]string{"man"}, streams{strings.NewReader(""), &out, &complaints}), complaints.String())
	page := strings.ReplaceAll(out.String(), `\-`, "-")
	app, err := kong.New(&cli{}, kong.Name("reckon"))
	require.NoError(t, err)
	n := 0
	var named func(c *kong.Node)
	named = func(c *kong.Node) {
		if c.Hidden {
			assert.NotContains(t, page, ".SS "+c.Name)
			return
		}
		assert.Contains(t, page, "\n.SS "+strings.TrimPrefix(c.FullPath(), "reckon "))
		for _, f := range c.Flags {
			assert.Contains(t, page, "\n.B --"+f.Name, c.Name)
			n++
		}
		for _, a := range c.Positional {
			assert.Contains(t, page, "\n.B "+a.Summary(), c.Name)
		}
		for _, part := range c.Children {
			named(part)
		}
	}
	for _, c := range app.Model.Children {
		named(c)
	}
	assert.Greater(t, n, 30)
	assert.NotContains(t, page, "${", "what stands for something is put in")
}

// Where man is installed it reads the page without a complaint.
func TestManIsReadByMan(t *testing.T) {
	man, err := exec.LookPath("groff")
	if err != nil {
		t.Skip("groff is not installed")
	}
	var page, complaints bytes.Buffer
	require.Zero(t, run([]string{"man"}, streams{strings.NewReader(""), &page, &complaints}))
	cmd := exec.Command(man, "-man", "-Tascii", "-ww")
	cmd.Stdin, cmd.Stderr = &page, &complaints
	require.NoError(t, cmd.Run())
	assert.Empty(t, complaints.String())
}
