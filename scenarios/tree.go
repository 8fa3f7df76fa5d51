package scenarios

import (
	"sort"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is the kind of a value in the file.
type kind uint8

const (
	tableKind kind = iota
	arrayKind
	stringKind
	wholeKind
	numberKind
	boolKind
	timeKind      // with an offset from UTC
	localTimeKind // date or time without one
	badKind       // reported already
)

// String names the kind in an error.
func (k kind) String() string {
	return [...]string{"a table", "an array", "a string", "a whole number", "a number",
		"true or false", "a time", "a time without its offset from UTC", "?"}[k]
}

// node is a value with the line it stands in.
type node struct {
	kind   kind
	line   int
	raw    string // as written, on one line, shortened
	text   string
	num    float64 // of a whole number too
	whole  int64
	flag   bool
	time   time.Time
	keys   []string // of a table, in the order of the file
	values map[string]*node
	items  []*node // of an array
	made   making  // of a table or an array of tables
}

// making is how a table came to be, which decides what may still be added.
type making uint8

const (
	byPath   making = iota // named on the way to another; may still get its header
	byHeader               // [table]
	byKey                  // dotted key; no header may follow
	byValue                // inline: closed
	byDouble               // [[table]]: the array
)

// reader turns text into a tree. It goes on after a syntax error where that is
// safe, so that all errors come at once.
type reader struct {
	*problems
	data   []byte
	lines  []int // offset of the start of each line
	base   int   // offset of the parser's part of data
	parser unstable.Parser
	root   *node
	here   *node  // table that keys go to; nil: one that was refused
	path   string // of here
	depth  int    // levels of tables that here lies in, itself included
	broken bool   // there was a syntax error: parts are missing
}

// readTree reads a whole file. The tree holds what could be understood.
func readTree(ps *problems, data []byte) *reader {
	r := &reader{problems: ps, data: data, lines: []int{0}}
	for i, c := range data {
		if c == '\n' {
			r.lines = append(r.lines, i+1)
		}
	}
	r.root = newTable(1, byHeader)
	r.here = r.root
	r.parser.Reset(data)
	for r.next() {
		r.expression(r.parser.Expression())
	}
	r.confirm()
	return r
}

// confirm has the library read the whole of a file that was found good, so
// that nothing passes here that is no TOML.
func (r *reader) confirm() {
	if r.total > 0 {
		return
	}
	var all map[string]any
	err := toml.Unmarshal(r.data, &all)
	if err == nil {
		return
	}
	line, column := 1, 1
	if d, ok := err.(*toml.DecodeError); ok {
		line, column = d.Position()
	}
	r.broken = true
	r.addAt(line, column, "", "", "not TOML: %s", plain(err.Error()))
}

func newTable(line int, made making) *node {
	return &node{kind: tableKind, line: line, made: made, values: map[string]*node{}}
}

// next moves to the next expression, past syntax errors.
func (r *reader) next() bool {
	for !r.parser.NextExpression() {
		err := r.parser.Error()
		if err == nil || !r.recoverFrom(err) {
			return false
		}
	}
	return true
}

// recoverFrom reports a syntax error and goes on in the line after it. It
// gives up where the damage may span lines (an open bracket or a long string)
// and where the problems are many.
func (r *reader) recoverFrom(err error) bool {
	r.broken = true
	at := r.base
	if e, ok := err.(*unstable.ParserError); ok {
		at += int(r.parser.Range(e.Highlight).Offset)
	}
	line := r.lineOf(at)
	r.addAt(line, r.columnOf(at, line), "", "", "not TOML: %s", plain(err.Error()))
	if line >= len(r.lines) || len(r.kept) >= maxWritten {
		return false
	}
	text := r.data[r.lines[line-1] : r.lines[line]-1]
	if s := string(text); strings.Contains(s, `"""`) || strings.Contains(s, "'''") || !r.startsLine(line) {
		return false
	}
	if s := strings.TrimSpace(string(text)); strings.HasPrefix(s, "[") {
		r.here, r.path = nil, "" // its keys have no home
	}
	r.base = r.lines[line]
	r.parser.Reset(r.data[r.base:])
	return true
}

// startsLine says whether the broken expression began in this line: if an
// array is open from a line above, the next line is no fresh start.
func (r *reader) startsLine(line int) bool {
	text := strings.TrimSpace(string(r.data[r.lines[line-1]:r.lines[line]]))
	if strings.HasPrefix(text, "[") {
		return true
	}
	i := strings.IndexAny(text, "=#")
	return i < 0 && !strings.HasPrefix(text, "]") || i > 0 && text[i] == '=' && !strings.ContainsAny(text[:i], "{}[],")
}

func plain(msg string) string { return strings.TrimPrefix(msg, "toml: ") }

// lineOf gives the line (from 1) of an offset into data.
func (r *reader) lineOf(offset int) int {
	return sort.SearchInts(r.lines, offset+1)
}

func (r *reader) columnOf(offset, line int) int {
	return utf8.RuneCount(r.data[r.lines[line-1]:min(offset, len(r.data))]) + 1
}

func (r *reader) line(n *unstable.Node) int {
	return r.lineOf(r.base + int(n.Raw.Offset))
}

// expression takes in a header or a key with its value.
func (r *reader) expression(e *unstable.Node) {
	var keys []string
	line := 0
	for it := e.Key(); it.Next(); {
		if line == 0 {
			line = r.line(it.Node())
		}
		keys = append(keys, string(it.Node().Data))
	}
	switch e.Kind {
	case unstable.Table, unstable.ArrayTable:
		r.header(keys, line, e.Kind == unstable.ArrayTable)
	case unstable.KeyValue:
		if r.here != nil {
			r.assign(r.here, r.path, keys, line, e.Value(), r.depth)
		}
	}
}

// join adds a key to a path; a key that needs quotes gets them.
func join(path, key string) string {
	if !bare(key) {
		key = strconv.Quote(shorten(key))
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

func bare(key string) bool {
	for _, c := range key {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-') {
			return false
		}
	}
	return key != "" && len(key) <= maxValue
}

func entry(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

// header opens [keys] or [[keys]].
func (r *reader) header(keys []string, line int, double bool) {
	t, path := r.root, ""
	r.here, r.depth = nil, len(keys)
	if len(keys) > maxNesting {
		r.add(line, strings.Join(keys[:3], ".")+"...", "", "nested too deep: must be %d levels at most", maxNesting)
		return
	}
	for _, k := range keys[:len(keys)-1] {
		next, ok := t.values[k]
		path = join(path, k)
		if !ok {
			next = newTable(line, byPath)
			t.put(k, next)
		}
		if next.made == byDouble && next.kind == arrayKind {
			path = entry(path, len(next.items))
			next = next.items[len(next.items)-1]
		}
		if next.kind != tableKind || next.made == byValue {
			r.add(line, path, next.shown(), "is no table that can be added to")
			return
		}
		t = next
	}
	key := keys[len(keys)-1]
	path = join(path, key)
	if double {
		r.here, r.path = r.openEntry(t, key, path, line)
	} else {
		r.here, r.path = r.openTable(t, key, path, line), path
	}
}

// openTable opens [key] in t; a doubled one is reported, and its keys are
// checked with those of the first.
func (r *reader) openTable(t *node, key, path string, line int) *node {
	old, ok := t.values[key]
	switch {
	case !ok:
		n := newTable(line, byHeader)
		t.put(key, n)
		return n
	case old.kind == tableKind && old.made == byPath:
		old.made, old.line = byHeader, line
		return old
	case old.kind == tableKind && old.made == byHeader:
		r.add(line, path, "", "doubled table: first given in line %d", old.line)
		return old
	case old.made == byDouble:
		r.add(line, path, "", "doubled: given as [[%s]] in line %d", path, old.line)
	default:
		r.add(line, path, "", "doubled: given as a key in line %d", old.line)
	}
	return nil
}

// openEntry opens the next [[key]] in t.
func (r *reader) openEntry(t *node, key, path string, line int) (*node, string) {
	old, ok := t.values[key]
	if !ok {
		old = &node{kind: arrayKind, line: line, made: byDouble}
		t.put(key, old)
	}
	if old.made != byDouble {
		r.add(line, path, "", "doubled: given otherwise in line %d", old.line)
		return nil, ""
	}
	n := newTable(line, byHeader)
	old.items = append(old.items, n)
	return n, entry(path, len(old.items))
}

func (t *node) put(key string, v *node) {
	t.keys = append(t.keys, key)
	t.values[key] = v
}

// assign puts a value under a (dotted) key of t, which lies depth levels down.
func (r *reader) assign(t *node, path string, keys []string, line int, value *unstable.Node, depth int) {
	if depth+len(keys) > maxNesting+1 {
		r.add(line, join(path, keys[0]), "", "nested too deep: must be %d levels at most", maxNesting)
		return
	}
	for _, k := range keys[:len(keys)-1] {
		next, ok := t.values[k]
		path = join(path, k)
		if !ok {
			next = newTable(line, byKey)
			t.put(k, next)
		}
		if next.kind != tableKind || next.made != byKey {
			r.add(line, path, "", "doubled: first given in line %d", next.line)
			return
		}
		t = next
	}
	key := keys[len(keys)-1]
	path = join(path, key)
	v := r.value(value, path, line, depth+len(keys))
	if old, ok := t.values[key]; ok {
		r.add(line, path, v.shown(), "doubled key: first given in line %d", old.line)
		return
	}
	t.put(key, v)
}
