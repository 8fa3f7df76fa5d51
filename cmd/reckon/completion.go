package main

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"github.com/alecthomas/kong"

	"stillair/cmd/reckon/internal/work"
	"stillair/gui/papers"
	"stillair/scenarios"
	"stillair/sim/fault"
)

// completionCmd is `reckon completion`.
type completionCmd struct {
	Shell string `arg:"" name:"SHELL" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

// Run prints a script made from the command line's own model.
func (c completionCmd) Run(s streams, app *kong.Application) error {
	fmt.Fprint(s.out, completionScript(c.Shell, app))
	return nil
}

// words are what may follow each command: its flags and its fixed arguments.
func words(app *kong.Application) map[string][]string {
	all := map[string][]string{}
	for _, command := range app.Children {
		if command.Hidden {
			continue
		}
		w := flags(command)
		for _, part := range command.Children {
			if part != command.DefaultCmd {
				w = append(w, part.Name)
			}
			for _, flag := range flags(part) {
				if !slices.Contains(w, flag) {
					w = append(w, flag)
				}
			}
		}
		all[command.Name] = append(w, arguments(command.Name)...)
	}
	return all
}

func flags(command *kong.Node) (w []string) {
	for _, flag := range command.Flags {
		if !flag.Hidden {
			w = append(w, "--"+flag.Name)
		}
	}
	return w
}

func arguments(command string) []string {
	var w []string
	switch command {
	case "fly", "check", "spread":
		for _, f := range scenarios.Shipped() {
			w = append(w, f.Name)
		}
	case "papers":
		w = append(w, papers.Kinds()...)
		for _, f := range scenarios.Shipped() {
			w = append(w, f.Name)
		}
	case "faults":
		for _, e := range fault.Catalogue() {
			w = append(w, e.ID)
		}
	case "work":
		for _, t := range work.Topics() {
			w = append(w, t.Name)
		}
	case "completion":
		w = []string{"bash", "fish", "zsh"}
	}
	return w
}

func completionScript(shell string, app *kong.Application) string {
	all := words(app)
	var names []string
	for name := range all {
		names = append(names, name)
	}
	sort.Strings(names)
	if shell == "fish" {
		return fishScript(names, all)
	}
	var b strings.Builder
	if shell == "zsh" {
		b.WriteString("autoload -U +X bashcompinit && bashcompinit\n")
	}
	b.WriteString("_reckon() {\n  local cur=${COMP_WORDS[COMP_CWORD]} words\n")
	fmt.Fprintf(&b, "  if [ \"$COMP_CWORD\" = 1 ]; then words='%s'; else case ${COMP_WORDS[1]} in\n", strings.Join(names, " "))
	for _, name := range names {
		fmt.Fprintf(&b, "    %s) words='%s' ;;\n", name, strings.Join(all[name], " "))
	}
	b.WriteString("  esac; fi\n  COMPREPLY=($(compgen -W \"$words\" -- \"$cur\") $(compgen -f -- \"$cur\"))\n}\n")
	b.WriteString("complete -o filenames -F _reckon reckon\n")
	return b.String()
}

func fishScript(names []string, all map[string][]string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "complete -c reckon -n __fish_use_subcommand -a '%s'\n", strings.Join(names, " "))
	for _, name := range names {
		fmt.Fprintf(&b, "complete -c reckon -n '__fish_seen_subcommand_from %s' -a '%s'\n", name, strings.Join(all[name], " "))
	}
	return b.String()
}
