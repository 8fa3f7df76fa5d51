package edit

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// span is a part of a text, from the first byte to the one behind the last.
type span struct{ from, to int }

// field is a key with its value: a line of a table, or an entry of an inline table.
type field struct {
	path   string
	whole  span // key and value
	value  span
	inline string // path of the inline table it lies in, "" for a line of its own
	table  string // path of the table it lies in
	kind   unstable.Kind
}

// section is a header with its lines; the first one has no header.
type section struct {
	path string // of one table, as leg[2]
	list string // leg; "" if it is no [[...]]
	lead int    // where the comments that belong to it begin
	head int    // the header
	end  int    // behind its last line
}

// index says where what stands in a text.
type index struct {
	text     []byte
	sections []section
	fields   []field
	at       map[string]int // of a path, in fields
	counts   map[string]int // entries of each [[...]]
}

// read finds out where what stands. The error is that of a text that is no TOML.
func read(text []byte) (*index, error) {
	x := &index{text: text, at: map[string]int{}, counts: map[string]int{}}
	x.sections = []section{{}}
	var p unstable.Parser
	p.Reset(text)
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			x.header(e)
		case unstable.KeyValue:
			here := &x.sections[len(x.sections)-1]
			f := x.keyValue(e, here.path, "", here.path)
			here.end = x.lineEnd(f.whole.to)
		}
	}
	return x, p.Error()
}

// header opens a section.
func (x *index) header(e *unstable.Node) {
	keys, raw := keysOf(e)
	s := section{head: x.lineStart(raw.from), end: x.lineEnd(raw.to)}
	name := x.resolve(keys[:len(keys)-1])
	name = join(name, keys[len(keys)-1])
	s.path = name
	if e.Kind == unstable.ArrayTable {
		x.counts[name]++
		s.list, s.path = name, entry(name, x.counts[name])
	}
	s.lead = x.comments(s.head, x.sections[len(x.sections)-1].end)
	x.sections = append(x.sections, s)
}

// comments is where the run of comment lines directly above a line begins; what
// opens the file belongs to the file.
func (x *index) comments(head, floor int) int {
	at := head
	for at > floor {
		above := x.lineStart(at - 1)
		if above < floor || !bytes.HasPrefix(bytes.TrimLeft(x.text[above:at], " \t"), []byte("#")) {
			break
		}
		at = above
	}
	if at == 0 {
		return head
	}
	return at
}

// keyValue takes in a key with its value, and what lies in the value.
func (x *index) keyValue(e *unstable.Node, base, inline, table string) field {
	keys, raw := keysOf(e)
	whole := span{int(e.Raw.Offset), int(e.Raw.Offset + e.Raw.Length)}
	from := raw.to + bytes.IndexByte(x.text[raw.to:], '=') + 1
	for x.text[from] == ' ' || x.text[from] == '\t' {
		from++
	}
	path := base
	for _, k := range keys {
		path = join(path, k)
	}
	f := field{path: path, whole: whole, value: span{from, whole.to}, inline: inline, table: table, kind: e.Value().Kind}
	x.at[path] = len(x.fields)
	x.fields = append(x.fields, f)
	x.inside(e.Value(), path, table)
	return f
}

// inside takes in what lies in an inline table, and in those of an array.
func (x *index) inside(v *unstable.Node, path, table string) {
	n := 0
	for it := v.Children(); it.Next(); {
		switch child := it.Node(); {
		case v.Kind == unstable.InlineTable && child.Kind == unstable.KeyValue:
			x.keyValue(child, path, path, table)
		case v.Kind == unstable.Array:
			n++
			x.inside(child, entry(path, n), table)
		}
	}
}

// keysOf gives the parts of a dotted key, and where it stands.
func keysOf(e *unstable.Node) (keys []string, raw span) {
	for it := e.Key(); it.Next(); {
		n := it.Node()
		if len(keys) == 0 {
			raw.from = int(n.Raw.Offset)
		}
		raw.to = int(n.Raw.Offset + n.Raw.Length)
		keys = append(keys, string(n.Data))
	}
	return keys, raw
}

// resolve is the path of the table that a header's first keys mean: of a [[...]]
// the entry begun last.
func (x *index) resolve(keys []string) string {
	path := ""
	for _, k := range keys {
		path = join(path, k)
		if n := x.counts[path]; n > 0 {
			path = entry(path, n)
		}
	}
	return path
}

func entry(list string, n int) string { return list + "[" + strconv.Itoa(n) + "]" }

// join adds a key to a path.
func join(path, key string) string {
	key = written(key)
	if path == "" {
		return key
	}
	return path + "." + key
}

// written is a key as a file has it.
func written(key string) string {
	for _, c := range key {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-') {
			return quote(key)
		}
	}
	if key == "" {
		return quote(key)
	}
	return key
}

// lineStart is where the line of a place begins.
func (x *index) lineStart(at int) int { return bytes.LastIndexByte(x.text[:at], '\n') + 1 }

// lineEnd is behind the line of a place, its line end taken in.
func (x *index) lineEnd(at int) int {
	if i := bytes.IndexByte(x.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(x.text)
}

// field finds a value by its path.
func (x *index) field(path string) (*field, bool) {
	i, ok := x.at[path]
	if !ok {
		return nil, false
	}
	return &x.fields[i], true
}

// section finds a table by its path; -1 if there is none of its own.
func (x *index) section(path string) int {
	for i := range x.sections {
		if x.sections[i].path == path {
			return i
		}
	}
	return -1
}

// block is a table with the tables below it that follow it at once: from its own
// comments to behind its last line.
func (x *index) block(i int) span {
	b := span{x.sections[i].lead, x.sections[i].end}
	for _, s := range x.sections[i+1:] {
		if !below(s.path, x.sections[i].path) {
			break
		}
		b.to = s.end
	}
	return b
}

// below says whether a path lies below another.
func below(path, above string) bool { return strings.HasPrefix(path, above+".") }

// blocks are those of a [[...]], in order.
func (x *index) blocks(list string) []span {
	var out []span
	for i, s := range x.sections {
		if s.list == list {
			out = append(out, x.block(i))
		}
	}
	return out
}

// split parts a path into the table and the key.
func split(path string) (table, key string) {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		return path[:i], path[i+1:]
	}
	return "", path
}

// missing says that there is nothing under a path.
func missing(path string) error { return fmt.Errorf("%s: there is none in this flight", path) }
