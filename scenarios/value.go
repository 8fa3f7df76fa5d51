package scenarios

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// value turns a parsed value into a node; the line is that of its key. An
// array or table here is the depth-th level.
func (r *reader) value(v *unstable.Node, path string, line, depth int) *node {
	n := &node{line: line, raw: shorten(string(r.parser.Raw(v.Raw)))}
	if depth > maxNesting && (v.Kind == unstable.Array || v.Kind == unstable.InlineTable) {
		r.add(line, path, "", "nested too deep: must be %d levels at most", maxNesting)
		n.kind = badKind
		return n
	}
	switch v.Kind {
	case unstable.Array:
		n.kind, n.made = arrayKind, byValue
		for it := v.Children(); it.Next(); {
			n.items = append(n.items, r.value(it.Node(), entry(path, len(n.items)+1), r.lineWithin(it.Node(), line), depth+1))
		}
	case unstable.InlineTable:
		r.inline(n, v, path, depth)
	case unstable.String:
		n.kind, n.text = stringKind, string(v.Data)
	case unstable.Bool:
		n.kind, n.flag = boolKind, v.Data[0] == 't'
	default:
		r.scalar(n, v.Kind, string(v.Data), path)
	}
	return n
}

// lineWithin is the line of an element; arrays carry none of their own.
func (r *reader) lineWithin(v *unstable.Node, line int) int {
	if v.Raw.Length == 0 {
		return line
	}
	return r.line(v)
}

func (r *reader) inline(n *node, v *unstable.Node, path string, depth int) {
	n.kind, n.values, n.made = tableKind, map[string]*node{}, byKey
	for it := v.Children(); it.Next(); {
		var keys []string
		line := n.line
		for k := it.Node().Key(); k.Next(); {
			line = r.line(k.Node())
			keys = append(keys, string(k.Node().Data))
		}
		r.assign(n, path, keys, line, it.Node().Value(), depth)
	}
	n.made = byValue
}

// scalar reads numbers and times.
func (r *reader) scalar(n *node, k unstable.Kind, text, path string) {
	var err error
	switch digits := strings.ReplaceAll(text, "_", ""); k {
	case unstable.Integer:
		n.kind = wholeKind
		n.whole, err = strconv.ParseInt(digits, base(digits), 64)
		n.num = float64(n.whole)
	case unstable.Float:
		n.kind = numberKind
		n.num, err = strconv.ParseFloat(digits, 64)
	case unstable.DateTime:
		n.kind = timeKind
		n.time, err = time.Parse(time.RFC3339Nano, rfc3339(text))
	default:
		n.kind = localTimeKind
	}
	if err != nil {
		n.kind = badKind
		what := "no such number can be held: too large"
		if k == unstable.DateTime {
			what = "no such date or time"
		}
		r.add(n.line, path, n.raw, "%s", what)
	}
}

// base is 0, so that prefixes count, except for plain decimal figures.
func base(digits string) int {
	if strings.HasPrefix(digits, "0x") || strings.HasPrefix(digits, "0o") || strings.HasPrefix(digits, "0b") {
		return 0
	}
	return 10
}

// rfc3339 writes the T and the Z that TOML lets a writer leave small or out.
func rfc3339(s string) string {
	s = strings.ToUpper(s)
	return strings.Replace(s, " ", "T", 1)
}

// shown is the value as an error repeats it.
func (n *node) shown() string {
	switch n.kind {
	case arrayKind:
		if n.made == byDouble {
			return ""
		}
		parts := make([]string, 0, 4)
		for _, it := range n.items[:min(len(n.items), 4)] {
			parts = append(parts, it.shown())
		}
		if len(n.items) > 4 {
			parts = append(parts, "...")
		}
		return shorten("[" + strings.Join(parts, ", ") + "]")
	case tableKind:
		if n.made == byValue {
			return "{...}"
		}
		return ""
	}
	return n.raw
}

// maxValue is how many bytes of a value an error repeats.
const maxValue = 48

// shorten brings a value on one line of bounded length, whatever is in it.
func shorten(s string) string {
	cut := len(s) > maxValue
	if cut {
		s = s[:maxValue]
	}
	s = strings.Map(func(c rune) rune {
		if c < ' ' || c == utf8.RuneError || c == 0x7f {
			return ' '
		}
		return c
	}, s)
	if cut {
		s += "..."
	}
	return s
}
