package edit

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Change is one change of a text: it gives the text after it.
type Change func(x *index) ([]byte, error)

// Set gives a key a value.
func Set(path string, v Value) Change {
	return func(x *index) ([]byte, error) {
		if f, ok := x.field(path); ok {
			return x.replace(f.value, v.written), nil
		}
		table, key := split(path)
		if f, ok := x.field(table); ok && table != "" {
			return x.addInline(f, key, v)
		}
		if i := x.section(table); i >= 0 {
			return x.addLine(i, key, v), nil
		}
		if f := x.sibling(table); f != nil {
			rel := strings.TrimPrefix(path, f.table+".")
			return x.insert(x.lineEnd(f.whole.to), rel+" = "+v.written+x.eol()), nil
		}
		if strings.HasSuffix(table, "]") {
			return nil, missing(table)
		}
		return x.addTable(table, Field{key, v}), nil
	}
}

// Remove takes away a key, or a table with all below it.
func Remove(path string) Change {
	return func(x *index) ([]byte, error) {
		if f, ok := x.field(path); ok {
			return x.removeField(f), nil
		}
		out, found := x.text, false
		for i := len(x.sections) - 1; i > 0; i-- {
			if s := x.sections[i]; s.path == path || below(s.path, path) {
				out, found = cutBlock(out, span{s.lead, s.end}), true
			}
		}
		if !found {
			return nil, missing(path)
		}
		return out, nil
	}
}

// Drop is Remove that does not mind if there is none.
func Drop(path string) Change {
	return func(x *index) ([]byte, error) {
		if out, err := Remove(path)(x); err == nil {
			return out, nil
		}
		return x.text, nil
	}
}

// Insert adds a [[list]] so that it is the nth, counted from 1.
func Insert(list string, n int, fields ...Field) Change {
	return func(x *index) ([]byte, error) {
		blocks := x.blocks(list)
		if n < 1 || n > len(blocks)+1 {
			return nil, missing(entry(list, n))
		}
		if _, ok := x.field(list); ok {
			return nil, fmt.Errorf("%s: this file has them in one line; write each as [[%s]]", list, list)
		}
		text := x.written("[["+list+"]]", fields)
		switch {
		case len(blocks) == 0:
			return x.appendTable(list, text), nil
		case n <= len(blocks):
			return x.insert(blocks[n-1].from, text+x.gap(blocks)), nil
		}
		return x.insert(blocks[n-2].to, x.gap(blocks)+text), nil
	}
}

// Move carries a [[list]] from one place among its like to another.
func Move(list string, from, to int) Change {
	return func(x *index) ([]byte, error) {
		blocks := x.blocks(list)
		for _, n := range []int{from, to} {
			if n < 1 || n > len(blocks) {
				return nil, missing(entry(list, n))
			}
		}
		if from == to {
			return x.text, nil
		}
		order := make([]int, len(blocks))
		for i := range order {
			order[i] = i
		}
		moved := order[from-1]
		order = slices.Insert(slices.Delete(order, from-1, from), to-1, moved)
		var b bytes.Buffer
		at := 0
		for i, slot := range blocks {
			b.Write(x.text[at:slot.from])
			b.Write(x.whole(blocks[order[i]]))
			at = slot.to
		}
		b.Write(x.text[at:])
		return b.Bytes(), nil
	}
}

// whole is the text of a block with an end to its last line.
func (x *index) whole(b span) []byte {
	t := x.text[b.from:b.to]
	if len(t) > 0 && t[len(t)-1] != '\n' {
		t = append(slices.Clone(t), x.eol()...)
	}
	return t
}

// eol is how lines end in this file.
func (x *index) eol() string {
	if i := bytes.IndexByte(x.text, '\n'); i > 0 && x.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// replace puts another text in the place of a part.
func (x *index) replace(at span, text string) []byte {
	return slices.Concat(x.text[:at.from], []byte(text), x.text[at.to:])
}

// insert puts whole lines before a place that begins a line, or at the end.
func (x *index) insert(at int, lines string) []byte {
	if at > 0 && x.text[at-1] != '\n' {
		lines = x.eol() + lines
	}
	return x.replace(span{at, at}, lines)
}

// addLine adds a key to a table, behind its last one, in step with that one.
func (x *index) addLine(i int, key string, v Value) []byte {
	s := x.sections[i]
	at, pad, indent := s.end, "", ""
	if last := x.last(s.path); last != nil {
		before := x.text[last.whole.from:last.value.from]
		eq := bytes.IndexByte(before, '=')
		if space := eq - len(bytes.TrimRight(before[:eq], " ")); space > 1 {
			pad = strings.Repeat(" ", max(0, eq-1-len(key)))
		}
		indent = string(x.text[x.lineStart(last.whole.from):last.whole.from])
	} else if i == 0 {
		at = x.opening()
	}
	return x.insert(at, indent+key+pad+" = "+v.written+x.eol())
}

// last is the last line of a table itself.
func (x *index) last(table string) *field {
	for i := len(x.fields) - 1; i >= 0; i-- {
		if f := &x.fields[i]; f.table == table && f.inline == "" {
			return f
		}
	}
	return nil
}

// opening is where the first key of the file goes if there is none: behind the
// comments that open it.
func (x *index) opening() int {
	at := 0
	for at < len(x.text) {
		end := x.lineEnd(at)
		line := bytes.TrimSpace(x.text[at:end])
		if len(line) > 0 && line[0] != '#' {
			break
		}
		at = end
		if len(line) == 0 {
			break
		}
	}
	return at
}

// sibling is a line that sets a key of a table with dots, from above that table.
func (x *index) sibling(table string) *field {
	for i := len(x.fields) - 1; i >= 0; i-- {
		f := &x.fields[i]
		if above, _ := split(f.path); table != "" && above == table && f.inline == "" && f.table != table {
			return f
		}
	}
	return nil
}

// addInline adds a key to an inline table.
func (x *index) addInline(f *field, key string, v Value) ([]byte, error) {
	if f.kind != unstable.InlineTable {
		return nil, fmt.Errorf("%s: is no table that can be added to", f.path)
	}
	for i := len(x.fields) - 1; i >= 0; i-- {
		if in := &x.fields[i]; in.inline == f.path {
			return x.replace(span{in.whole.to, in.whole.to}, ", "+key+" = "+v.written), nil
		}
	}
	return x.replace(f.value, Inline(Field{key, v}).written), nil
}

// removeField takes a line away, or an entry of an inline table with its comma.
func (x *index) removeField(f *field) []byte {
	if f.inline == "" {
		return x.replace(span{x.lineStart(f.whole.from), x.lineEnd(f.whole.to)}, "")
	}
	var before, after *field
	for i := range x.fields {
		switch in := &x.fields[i]; {
		case in.inline != f.inline || in.path == f.path:
		case in.whole.to <= f.whole.from:
			before = in
		case after == nil:
			after = in
		}
	}
	switch {
	case after != nil:
		return x.replace(span{f.whole.from, after.whole.from}, "")
	case before != nil:
		return x.replace(span{before.whole.to, f.whole.to}, "")
	}
	return x.replace(f.whole, "")
}

// written is a table with its header.
func (x *index) written(header string, fields []Field) string {
	eol := x.eol()
	var b strings.Builder
	b.WriteString(header + eol)
	for _, f := range fields {
		b.WriteString(written(f.Key) + " = " + f.Value.written + eol)
	}
	return b.String()
}

// addTable adds a [table] that was not there, above the tables below it if there
// are any.
func (x *index) addTable(table string, fields ...Field) []byte {
	text := x.written("["+table+"]", fields)
	for _, s := range x.sections[1:] {
		if below(s.path, table) {
			return x.insert(s.lead, text)
		}
	}
	return x.appendTable(table, text)
}

// appendTable adds a table at the end of the file, or behind the one it lies in.
func (x *index) appendTable(path, text string) []byte {
	if above, _ := split(path); above != "" {
		if i := x.section(above); i > 0 {
			return x.insert(x.sections[i].end, text)
		}
	}
	if len(bytes.TrimSpace(x.text)) > 0 {
		text = x.eol() + text
	}
	return x.insert(len(x.text), text)
}

// gap is what parts the tables of a list: an empty line, or nothing. One alone is
// parted from others as it is from what stands round it.
func (x *index) gap(blocks []span) string {
	last := blocks[len(blocks)-1]
	if len(blocks) > 1 {
		between := x.text[blocks[len(blocks)-2].to:last.from]
		if len(between) > 0 && len(bytes.TrimSpace(between)) == 0 {
			return x.eol()
		}
		return ""
	}
	line, _, _ := bytes.Cut(x.text[last.to:], []byte("\n"))
	if blankEnd(x.text[:last.from]) && len(bytes.TrimSpace(line)) == 0 {
		return x.eol()
	}
	return ""
}

// cutBlock takes a part away, and one of the empty lines that were round it.
func cutBlock(text []byte, b span) []byte {
	before, after := text[:b.from], text[b.to:]
	line, rest, found := bytes.Cut(after, []byte("\n"))
	if found && len(bytes.TrimSpace(line)) == 0 && blankEnd(before) {
		after = rest
	}
	if len(bytes.TrimSpace(after)) == 0 && len(before) > 0 {
		for blankEnd(before) && len(before) > 1 {
			before = before[:bytes.LastIndexByte(before[:len(before)-1], '\n')+1]
		}
	}
	return slices.Concat(before, after)
}

// blankEnd says whether a text ends with an empty line, or is nothing.
func blankEnd(text []byte) bool {
	if len(text) == 0 {
		return true
	}
	if text[len(text)-1] != '\n' {
		return false
	}
	body := text[:len(text)-1]
	return len(bytes.TrimSpace(body[bytes.LastIndexByte(body, '\n')+1:])) == 0
}

// Swap puts a key with its value in the place of another key of the same table; what
// stands behind them in the line stays.
func Swap(path, key string, v Value) Change {
	return func(x *index) ([]byte, error) {
		f, ok := x.field(path)
		if !ok {
			return nil, missing(path)
		}
		name := string(x.text[f.whole.from:f.value.from])
		if i := strings.LastIndexByte(strings.TrimRight(name, "= \t"), '.'); i >= 0 && f.table == "" {
			key = name[:i+1] + key // with dots
		}
		return x.replace(f.whole, key+" = "+v.written), nil
	}
}
