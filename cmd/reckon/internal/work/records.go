package work

import (
	"bytes"
	"errors"
	"io"
)

// maxRecord bounds a row, and how far a quote is followed to its end.
const maxRecord = 1 << 20

// record is one row as it came, without its line end.
type record struct {
	raw   []byte // valid until the next record is read
	line  int    // its first line, counted from 1
	fault string // why it cannot be split into cells, or empty
}

// records cuts a CSV into rows with a buffer that holds one row at least.
type records struct {
	in    io.Reader
	buf   []byte
	start int // of what is not yet cut
	line  int // of start, counted from 1
	ended bool
	err   error // other than io.EOF
}

func newRecords(in io.Reader) *records {
	return &records{in: in, buf: make([]byte, 0, 1<<16), line: 1}
}

// next gives the next row that is not blank; false at the end of the input or
// when it cannot be read further (see err).
func (r *records) next() (record, bool) {
	for {
		n, fault := r.cut()
		if n == 0 {
			return record{}, false
		}
		rec := record{raw: trimLineEnd(r.buf[r.start : r.start+n]), line: r.line, fault: fault}
		r.line += bytes.Count(r.buf[r.start:r.start+n], []byte{'\n'})
		r.start += n
		if len(rec.raw) > 0 {
			return rec, true
		}
	}
}

// cut finds the length of the next row with its line end, reading on as needed.
func (r *records) cut() (n int, fault string) {
	for {
		n, fault = scanRecord(r.buf[r.start:], r.ended)
		switch {
		case n > 0:
			return n, fault
		case r.ended:
			return 0, ""
		case len(r.buf)-r.start > maxRecord:
			return r.cutOverlong()
		}
		r.fill()
		if r.err != nil {
			return 0, "" // half a row is no row
		}
	}
}

// cutOverlong deals with a row beyond the limit. If only its quotes run on, the
// first line alone is at fault; otherwise all up to the next line end is.
func (r *records) cutOverlong() (n int, fault string) {
	if i := bytes.IndexByte(r.buf[r.start:], '\n'); i >= 0 {
		return i + 1, faultOpenQuote
	}
	for {
		r.buf = r.buf[:r.start+1] // keep a byte, so that the row is not blank
		r.fill()
		if i := bytes.IndexByte(r.buf[r.start:], '\n'); i >= 0 {
			return i + 1, faultOverlong
		}
		if r.ended {
			return len(r.buf) - r.start, faultOverlong
		}
	}
}

// fill reads more, at the end of what is there.
func (r *records) fill() {
	if r.start > 0 && len(r.buf) == cap(r.buf) {
		r.buf = r.buf[:copy(r.buf, r.buf[r.start:])]
		r.start = 0
	}
	if len(r.buf) == cap(r.buf) {
		r.buf = append(make([]byte, 0, 2*cap(r.buf)), r.buf...)
	}
	for range 100 {
		n, err := r.in.Read(r.buf[len(r.buf):cap(r.buf)])
		r.buf = r.buf[:len(r.buf)+n]
		if err != nil {
			r.ended = true
			if !errors.Is(err, io.EOF) {
				r.err = err
			}
			return
		}
		if n > 0 {
			return
		}
	}
	r.ended, r.err = true, io.ErrNoProgress
}

const (
	faultOpenQuote = "a quote is opened and not closed"
	faultBareQuote = "a quote stands inside a cell that is not quoted, or text follows a closing quote"
	faultOverlong  = "the row is longer than 1 MiB"
)

// scanRecord finds the length of the first row of data with its line end; 0
// means that more data are needed (or, with last, that there are none).
//
// A row with misplaced quotes ends with the line of the fault, so that the rows
// after it can be read.
func scanRecord(data []byte, last bool) (n int, fault string) {
	n = lineLength(data, last)
	if n == 0 || bytes.IndexByte(data[:n], '"') < 0 {
		return n, ""
	}
	end, fault := scanQuoted(data)
	switch {
	case end >= 0:
		rest := lineLength(data[end:], last)
		if rest == 0 && !last {
			return 0, ""
		}
		return end + rest, fault
	case last:
		return n, faultOpenQuote
	}
	return 0, ""
}

// lineLength is the length of the first line with its end; 0 if that is not
// there yet.
func lineLength(data []byte, last bool) int {
	if i := bytes.IndexByte(data, '\n'); i >= 0 {
		return i + 1
	}
	if last {
		return len(data)
	}
	return 0
}

// scanQuoted walks over the cells of the first row and gives a place on its
// last line, after which no quoted cell is open; -1 if data end inside quotes.
func scanQuoted(data []byte) (end int, fault string) {
	for i := 0; ; {
		if i < len(data) && data[i] == '"' {
			close := closingQuote(data[i+1:])
			if close < 0 {
				return -1, ""
			}
			i += close + 2
			if !atCellEnd(data[i:]) {
				return i, faultBareQuote
			}
		}
		for i < len(data) && data[i] != ',' && data[i] != '\n' {
			if data[i] == '"' {
				return i, faultBareQuote
			}
			i++
		}
		if i == len(data) || data[i] == '\n' {
			return i, ""
		}
		i++ // the comma
	}
}

// closingQuote finds the quote that closes a cell; a doubled one is text.
func closingQuote(data []byte) int {
	for i := 0; i < len(data); i++ {
		if data[i] != '"' {
			continue
		}
		if i+1 == len(data) || data[i+1] != '"' {
			return i
		}
		i++
	}
	return -1
}

// atCellEnd says whether a comma, a line end or nothing follows.
func atCellEnd(data []byte) bool {
	return len(data) == 0 || data[0] == ',' || data[0] == '\n' ||
		data[0] == '\r' && (len(data) == 1 || data[1] == '\n')
}

func trimLineEnd(line []byte) []byte {
	line = bytes.TrimSuffix(line, []byte{'\n'})
	return bytes.TrimSuffix(line, []byte{'\r'})
}

// split cuts a row without fault into its cells, quotes included, and puts them
// into cells.
func split(raw []byte, cells [][]byte) [][]byte {
	cells = cells[:0]
	for {
		from := 0
		if len(raw) > 0 && raw[0] == '"' {
			from = closingQuote(raw[1:]) + 2
		}
		i := bytes.IndexByte(raw[from:], ',')
		if i < 0 {
			return append(cells, raw)
		}
		cells = append(cells, raw[:from+i])
		raw = raw[from+i+1:]
	}
}

// content is the text of a cell: unquoted, without blanks around it.
func content(cell []byte) []byte {
	if len(cell) > 1 && cell[0] == '"' {
		cell = cell[1 : len(cell)-1]
		if bytes.IndexByte(cell, '"') >= 0 {
			cell = bytes.ReplaceAll(cell, []byte(`""`), []byte{'"'})
		}
	}
	return bytes.TrimSpace(cell)
}
