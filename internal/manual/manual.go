// Package manual reads the pages of the manual, so that tests can hold them against
// the program: the shell lines that are to be tried, the files that stand in them, the
// links, and the parts that are made from the source.
package manual

import (
	"fmt"
	"regexp"
	"strings"
)

// Block is a fenced block of a page.
type Block struct {
	Kind string // what stands after the fence: sh, toml, csv, ...
	File string // the name of the file that it is, "" for none
	Text string
	Line int // of its first line in the page, from 1
}

// Blocks are the fenced blocks of a page, those in lists too.
func Blocks(page string) (all []Block) {
	var open *Block
	indent := ""
	for i, line := range strings.Split(page, "\n") {
		trimmed := strings.TrimLeft(line, " ")
		switch {
		case open == nil && strings.HasPrefix(trimmed, "```"):
			indent = line[:len(line)-len(trimmed)]
			kind, file, _ := strings.Cut(strings.TrimPrefix(trimmed, "```"), " ")
			open = &Block{Kind: kind, File: file, Line: i + 2}
		case open != nil && trimmed == "```":
			all = append(all, *open)
			open = nil
		case open != nil:
			open.Text += strings.TrimPrefix(line, indent) + "\n"
		}
	}
	return all
}

var link = regexp.MustCompile(`\]\(([^)#]+)(#[^)]*)?\)`)

// Links are the files that a page leads to or shows; addresses of the web are left out.
func Links(page string) (all []string) {
	for _, m := range link.FindAllStringSubmatch(page, -1) {
		if !strings.Contains(m[1], "://") {
			all = append(all, m[1])
		}
	}
	return all
}

const end = "<!-- end -->"

// Made is the part of a page that is made from the source, between <!-- NAME --> and
// <!-- end -->.
func Made(page, name string) (string, error) {
	_, rest, ok := strings.Cut(page, "<!-- "+name+" -->")
	part, _, also := strings.Cut(rest, end)
	if !ok || !also {
		return "", fmt.Errorf("the page has no part <!-- %s --> ... %s", name, end)
	}
	return part, nil
}

// Remade is the page with another such part.
func Remade(page, name, part string) (string, error) {
	old, err := Made(page, name)
	if err != nil {
		return "", err
	}
	mark := "<!-- " + name + " -->"
	return strings.Replace(page, mark+old+end, mark+part+end, 1), nil
}

// Keys is the part of the page for authors that names every key of a flight, made of
// the comment of package scenarios.
func Keys(comment string) string {
	_, text, _ := strings.Cut(comment, "# Before the first table")
	var out strings.Builder
	code := false
	fence := func(want bool) {
		switch {
		case want && !code:
			out.WriteString("```text\n")
		case !want && code:
			out.WriteString("```\n")
		}
		code = want
	}
	lines := strings.Split("# Before the first table"+text, "\n")
	for i, line := range lines {
		head, isHead := strings.CutPrefix(line, "# ")
		body, isCode := strings.CutPrefix(line, "\t")
		switch {
		case isHead:
			fence(false)
			out.WriteString("### " + head + "\n")
		case isCode:
			fence(true)
			out.WriteString(body + "\n")
		case line == "" && code && i+1 < len(lines) && strings.HasPrefix(lines[i+1], "\t"):
			out.WriteString("\n")
		default:
			fence(false)
			out.WriteString(line + "\n")
		}
	}
	fence(false)
	return "\n\n" + strings.TrimSpace(out.String()) + "\n\n"
}
