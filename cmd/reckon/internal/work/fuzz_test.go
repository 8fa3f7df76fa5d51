package work

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

// seeds are inputs with one difficulty each.
var seeds = []string{
	"", "\n", "a,b\n1,2\n", "a,b\r\n1,2\r\n", "a\n\"1\"\n", "a,b\n\"x\ny\",4\n", "a,b\n\"x\"\"y\",4",
	"a\n5\" pipe\n4\n", "a,b\n\"x\"y,4\nz,9\n", "a,b\n\"never shut,4\nz,9\n", "\ufeffarea_m2\n4\n",
	"area_m2\n\r\r\n4\n", "area_m2,\"q\"\n4,\"\"\"\"\n", "area_m2\n4\r", "area_m2,n\n9,\"\r\n\"\r\n", "\"\"\"",
}

// FuzzRecords compares the cutting of rows and cells with encoding/csv: what
// that accepts must read the same here, however the bytes arrive; what it
// refuses must at least lose nothing.
func FuzzRecords(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 4096 { // byte by byte, an open quote is followed anew each time
			t.Skip("too long to be read byte by byte")
		}
		got, faults := readAll(t, bytes.NewReader(data))
		slowly, _ := readAll(t, iotest.OneByteReader(bytes.NewReader(data)))
		require.Equal(t, got, slowly, "the same in any portions")

		reader := csv.NewReader(bytes.NewReader(data))
		reader.FieldsPerRecord = -1
		want, err := reader.ReadAll()
		if err != nil {
			require.NotZero(t, faults, "%q: %v", data, err)
			return
		}
		require.Zero(t, faults, "%q", data)
		require.Equal(t, want, got, "%q", data)
	})
}

// readAll gives the cells of all rows as encoding/csv would, and the number of
// rows with a fault.
func readAll(t *testing.T, in io.Reader) (all [][]string, faults int) {
	r := newRecords(in)
	for {
		rec, ok := r.next()
		if !ok {
			require.NoError(t, r.err)
			return all, faults
		}
		if rec.fault != "" {
			faults++
			continue
		}
		var texts []string
		for _, cell := range split(rec.raw, nil) {
			s := string(cell)
			if len(s) > 1 && s[0] == '"' {
				s = strings.ReplaceAll(s[1:len(s)-1], `""`, `"`)
				s = strings.ReplaceAll(s, "\r\n", "\n")
			}
			texts = append(texts, s)
		}
		all = append(all, texts)
	}
}

// FuzzRun: whatever comes in, what goes out is a CSV that a strict reader
// reads, each row as wide as the header, and every row is either out or
// counted as bad.
func FuzzRun(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte("area_m2,n\n" + s))
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var out bytes.Buffer
		err := squareTopic().run(bytes.NewReader(data), &out)
		bad := &RowErrors{}
		if err != nil && !errors.As(err, &bad) {
			require.Empty(t, out.String(), "a header refused writes nothing")
			return
		}
		written, err := csv.NewReader(&out).ReadAll()
		require.NoError(t, err)
		require.Equal(t, countRows(data), len(written)-1+bad.Count)
	})
}

func countRows(data []byte) int {
	r := newRecords(bytes.NewReader(data))
	n := -1 // the header
	for {
		if _, ok := r.next(); !ok {
			return n
		}
		n++
	}
}
