package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"stillair/cmd/reckon/internal/work"
	"stillair/scenarios"
	"stillair/sim/fault"
)

// completionCmd is `reckon completion`.
type completionCmd struct {
	Shell string `arg:"" name:"SHELL" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

// Run prints a script made from the command line's own model.
func (c completionCmd) Run(s streams, app *kong.Application) error {
	scripts := map[string]func([]offer) string{"bash": bashScript, "zsh": zshScript, "fish": fishScript}
	fmt.Fprint(s.out, scripts[c.Shell](offers(app)))
	return nil
}

// offer is a command, and what may follow it: flags and fixed words.
type offer struct {
	name, help string
	flags      []told
	words      []string
}

// told is a flag without its dashes, and what it does.
type told struct {
	name, help string
	value      bool // a value follows
}

// names are the flags as they are typed.
func (o *offer) names() (all []string) {
	for _, f := range o.flags {
		all = append(all, "--"+f.name)
	}
	return all
}

// offers are the commands by their names.
func offers(app *kong.Application) (all []offer) {
	for _, command := range app.Children {
		if command.Hidden {
			continue
		}
		o := offer{name: command.Name, help: command.Help}
		o.take(command)
		for _, part := range command.Children {
			if part != command.DefaultCmd {
				o.words = append(o.words, part.Name)
			}
			o.take(part)
		}
		all = append(all, o)
	}
	slices.SortFunc(all, func(a, b offer) int { return strings.Compare(a.name, b.name) })
	return all
}

// take adds flags and words of a command, each once.
func (o *offer) take(command *kong.Node) {
	for _, f := range command.Flags {
		if !f.Hidden && !slices.ContainsFunc(o.flags, func(t told) bool { return t.name == f.Name }) {
			o.flags = append(o.flags, told{f.Name, f.Help, !f.IsBool()})
		}
	}
	for _, p := range command.Positional {
		for _, w := range wordsOf(p) {
			if !slices.Contains(o.words, w) {
				o.words = append(o.words, w)
			}
		}
	}
}

// wordsOf are the words that an argument may be, as far as they are fixed: those of its
// enumeration, shipped flights where its help says that it takes them, faults, topics.
func wordsOf(p *kong.Positional) (words []string) {
	switch {
	case p.Enum != "":
		return p.EnumSlice()
	case strings.Contains(p.Help, "hipped flight"):
		for _, f := range scenarios.Shipped() {
			words = append(words, f.Name)
		}
	case p.Name == "ID":
		for _, e := range fault.Catalogue() {
			words = append(words, e.ID)
		}
	case p.Name == "TOPIC":
		for _, t := range work.Topics() {
			words = append(words, t.Name)
		}
	}
	return words
}

// twin is the other name of the program, for machines that have another reckon.
const twin = "stillair-reckon"

func bashScript(all []offer) string {
	var b strings.Builder
	b.WriteString("_reckon() {\n  local cur=${COMP_WORDS[COMP_CWORD]} words\n")
	var names []string
	for _, o := range all {
		names = append(names, o.name)
	}
	fmt.Fprintf(&b, "  if [ \"$COMP_CWORD\" = 1 ]; then words='%s'; else case ${COMP_WORDS[1]} in\n", strings.Join(names, " "))
	for _, o := range all {
		fmt.Fprintf(&b, "    %s) words='%s' ;;\n", o.name, strings.Join(append(o.names(), o.words...), " "))
	}
	b.WriteString("  esac; fi\n  COMPREPLY=($(compgen -W \"$words\" -- \"$cur\") $(compgen -f -- \"$cur\"))\n}\n")
	fmt.Fprintf(&b, "complete -o filenames -F _reckon reckon %s\n", twin)
	return b.String()
}

// zshScript works as a file _reckon on fpath, and sourced.
func zshScript(all []offer) string {
	var b strings.Builder
	fmt.Fprintf(&b, "#compdef reckon %s\n_reckon() {\n  local -a commands options values\n", twin)
	b.WriteString("  if (( CURRENT == 2 )); then\n    commands=(\n")
	for _, o := range all {
		fmt.Fprintf(&b, "      %s\n", zshPair(o.name, o.help))
	}
	b.WriteString("    )\n    _describe -t commands command commands\n    return\n  fi\n  case $words[2] in\n")
	for _, o := range all {
		fmt.Fprintf(&b, "  %s)\n    values=(%s)\n    options=(\n", o.name, strings.Join(o.words, " "))
		for _, f := range o.flags {
			fmt.Fprintf(&b, "      %s\n", zshPair("--"+f.name, f.help))
		}
		b.WriteString("    ) ;;\n")
	}
	b.WriteString("  esac\n  if [[ $words[CURRENT] == -* ]]; then\n    _describe -o option options\n    return\n  fi\n")
	b.WriteString("  (( $#values )) && _describe value values\n  _files\n}\n")
	fmt.Fprintf(&b, "if [ \"$funcstack[1]\" = _reckon ]; then _reckon \"$@\"; else compdef _reckon reckon %s; fi\n", twin)
	return b.String()
}

// zshPair is a word and what it does as _describe wants them.
func zshPair(word, help string) string {
	return quoted(word + ":" + strings.ReplaceAll(help, ":", `\:`))
}

// quoted is a text between single quotes; bash, zsh and fish read it alike.
func quoted(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }

func fishScript(all []offer) string {
	var b strings.Builder
	for _, o := range all {
		fmt.Fprintf(&b, "complete -c reckon -n __fish_use_subcommand -a %s -d %s\n", o.name, quoted(o.help))
	}
	for _, o := range all {
		when := "-n " + quoted("__fish_seen_subcommand_from "+o.name)
		if len(o.words) > 0 {
			fmt.Fprintf(&b, "complete -c reckon %s -a %s\n", when, quoted(strings.Join(o.words, " ")))
		}
		for _, f := range o.flags {
			value := ""
			if f.value {
				value = " -r"
			}
			fmt.Fprintf(&b, "complete -c reckon %s -l %s%s -d %s\n", when, f.name, value, quoted(f.help))
		}
	}
	fmt.Fprintf(&b, "complete -c %s -w reckon\n", twin)
	return b.String()
}
