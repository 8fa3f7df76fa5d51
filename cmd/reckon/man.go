package main

import (
	"io"
	"strings"

	"github.com/alecthomas/kong"
)

// manCmd is `reckon man`, by which the page of the manual is made when the program is
// installed; --help does not name it.
type manCmd struct{}

// Run prints the page, made from the command line's own model.
func (manCmd) Run(s streams, app *kong.Application) error {
	return writeMan(s.out, app)
}

// writeMan writes the page in the language of man(7).
func writeMan(w io.Writer, app *kong.Application) error {
	m := &manWriter{}
	m.request(".TH RECKON 1\n.ad l")
	m.request(".SH NAME")
	m.line("reckon - flies an air-position integrator without a window, and does the trade's calculations")
	m.request(".SH SYNOPSIS")
	m.request(".B reckon")
	m.request(".I COMMAND")
	m.line("[ARGUMENT]... [--FLAG]...")
	m.request(".SH DESCRIPTION")
	m.line(app.Help)
	m.line("Results go to standard output, everything else to standard error.")
	m.request(".SH COMMANDS")
	for _, c := range app.Children {
		m.command(c)
	}
	m.request(".SH EXIT STATUS")
	m.line("0 when it is done, 1 when the input is bad or a check failed, 2 when it was called wrongly.")
	m.request(".SH CAUTION")
	m.line("For teaching and display only: not for navigation in flight, not a trainer approved by any authority. " +
		"The behaviour of blocked pitot and static systems is simplified: in a real aircraft follow its approved flight manual " +
		"and licensed instruction. Where a display stands among visitors, electrical and fire safety follow local codes.")
	_, err := io.WriteString(w, m.String())
	return err
}

// manWriter writes the page.
type manWriter struct{ strings.Builder }

// request writes a line that man is to obey, hyphens in it as minus signs.
func (m *manWriter) request(line string) {
	m.WriteString(strings.ReplaceAll(line, "--", `\-\-`) + "\n")
}

// escaped is text as man prints it: no escapes, hyphens as they are typed.
func escaped(s string) string {
	return strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
}

// line writes running text; a line of it must not begin as a request does.
func (m *manWriter) line(text string) {
	for _, l := range strings.Split(strings.TrimSpace(text), "\n") {
		l = escaped(l)
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			l = `\&` + l
		}
		m.WriteString(l + "\n")
	}
}

// command writes a command, its parts and all that may be said to them.
func (m *manWriter) command(c *kong.Node) {
	if c.Hidden {
		return
	}
	call := c.FullPath()
	for _, a := range c.Positional {
		call += " " + a.Summary()
	}
	m.request(".SS " + escaped(strings.TrimPrefix(call, "reckon ")))
	m.line(c.Help)
	if c.Detail != "" {
		m.request(".PP\n.nf")
		m.line(c.Detail)
		m.request(".fi")
	}
	for _, a := range c.Positional {
		m.item(a.Summary(), a.Help)
	}
	for _, f := range c.Flags {
		if !f.Hidden {
			m.item(flagCall(f), f.Help)
		}
	}
	for _, part := range c.Children {
		m.command(part)
	}
}

// flagCall is a flag as it is typed.
func flagCall(f *kong.Flag) string {
	if f.IsBool() {
		return "--" + f.Name
	}
	return "--" + f.Name + "=" + f.FormatPlaceHolder()
}

func (m *manWriter) item(name, says string) {
	m.request(".TP\n.B " + escaped(name))
	m.line(says)
}
