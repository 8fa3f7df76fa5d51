package charttable

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"stillair/gui/flights"
	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/sim"
)

// pinFile is the list of all pins that were ever measured, for the handout: a
// line each, added at every reveal.
type pinFile struct {
	name  string
	write sync.Mutex
}

// pinHeader names the columns. Positions are those printed, to a tenth of a
// minute, in degrees; off and bearing are of the pin from the true position,
// rhumb line, WGS-84.
var pinHeader = []string{"flight", "seed", "time_z", "pin", "name", "lat_deg", "lon_deg", "off_nm", "bearing_deg_true"}

// pinFileName is where the list is kept.
func pinFileName() string { return filepath.Join(flights.DataFolder(), "stillair", "pins.csv") }

// rowsOf are the lines of measured pins.
func rowsOf(plan *sim.Plan, clock time.Time, all []pin) (rows [][]string) {
	for _, q := range all {
		at := q.at.Printed()
		rows = append(rows, []string{
			plan.Title, strconv.FormatUint(plan.Seed, 10), clock.UTC().Format("2006-01-02T15:04:05Z"), string(q.letter), q.name,
			strconv.FormatFloat(at.Lat.Degrees(), 'f', 6, 64), strconv.FormatFloat(at.Lon.Degrees(), 'f', 6, 64),
			units.Figure(q.off.miles.NM(), 1), units.Degrees3(q.off.bearing),
		})
	}
	return rows
}

// keep adds rows and then tells how it went, by way of later.
func (f *pinFile) keep(rows [][]string, later func(func()), told func(words string, failed bool)) {
	f.write.Lock()
	err := appendRows(f.name, rows)
	f.write.Unlock()
	later(func() {
		if err != nil {
			told(look.Textf(look.PinsNotKept, f.name, plainly(err)), true)
			return
		}
		told(look.Textf(look.PinsKept, f.name), false)
	})
}

// errNotOurs refuses to write into a file of somebody else's.
var errNotOurs = errors.New(look.Text(look.NotAPinFile))

// appendRows adds rows to a list, or begins it. A last line that was cut off is
// ended first; a file that is no such list is left alone.
func appendRows(name string, rows [][]string) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	text, err := added(f, rows)
	if err == nil {
		_, err = f.Write(text)
	}
	return errors.Join(err, f.Close())
}

// added is what has to be written behind what stands in the file.
func added(f *os.File, rows [][]string) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if info.Size() == 0 {
		rows = append([][]string{pinHeader}, rows...)
	} else if err := join(f, info.Size(), &out); err != nil {
		return nil, err
	}
	err = w.WriteAll(rows)
	return out.Bytes(), err
}

// join looks at both ends of a list that is to be gone on with.
func join(f *os.File, size int64, out *bytes.Buffer) error {
	header := strings.Join(pinHeader, ",")
	head := make([]byte, len(header)+1)
	if n, err := f.ReadAt(head, 0); err != nil && !(errors.Is(err, io.EOF) && n == len(header)) {
		if errors.Is(err, io.EOF) {
			return errNotOurs
		}
		return err
	}
	if string(head[:len(header)]) != header || !strings.ContainsRune("\x00\r\n", rune(head[len(header)])) {
		return errNotOurs
	}
	last := make([]byte, 1)
	if _, err := f.ReadAt(last, size-1); err != nil {
		return err
	}
	if last[0] != '\n' {
		out.WriteByte('\n')
	}
	return nil
}

// plainly says in plain words why a file could not be written.
func plainly(err error) string {
	var path *fs.PathError
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return look.Text(look.WriteForbidden)
	case errors.Is(err, syscall.ENOSPC):
		return look.Text(look.DiskFull)
	case errors.Is(err, fs.ErrNotExist):
		return look.Text(look.NoFolder)
	case errors.As(err, &path):
		return path.Err.Error()
	}
	return err.Error()
}
