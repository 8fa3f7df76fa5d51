package flights

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"stillair/gui/look"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/record"
)

// RecordSuffix ends the name of a record.
const RecordSuffix = ".record"

// isRecord says whether a text is a record of a flight.
func isRecord(text []byte) bool { return bytes.HasPrefix(text, []byte(`{"stillair_record"`)) }

// openRecord opens a flight that was written down. What is damaged in it is told,
// what stands before is flown.
func openRecord(path string, text []byte) (*Flight, error) {
	name := filepath.Base(path)
	rec, err := record.Read(bytes.NewReader(text))
	if err != nil {
		return nil, &Refused{Name: name, Path: path, Err: err}
	}
	plan, src, err := scenarios.Load(rec.Name, strings.NewReader(rec.Flight))
	if err != nil {
		return nil, &Refused{Name: name, Path: path, Lines: linesOf([]byte(rec.Flight)), Err: err}
	}
	return ready(&Flight{Name: name, Path: path, Plan: plan, Source: src, Summary: src.Summary, Record: rec})
}

// Engine is a fresh engine of the flight, at its start; of a record one in which
// everything has been done that was done.
func (f *Flight) Engine() (*sim.Engine, error) {
	e, err := sim.New(f.Plan)
	if err != nil || f.Record == nil {
		return e, err
	}
	to := int64(0)
	if n := len(f.Record.Commands); n > 0 {
		to = f.Record.Commands[n-1].Tick + 1
	}
	if n := len(f.Record.Minutes); n > 0 {
		to = max(to, f.Record.Minutes[n-1].Tick)
	}
	if end := f.Record.End; end != nil {
		to = max(to, end.Tick)
	}
	if err := f.Record.Fly(e, to); err != nil {
		return nil, err
	}
	e.GoTo(0)
	return e, nil
}

// Told is what is to be said of a flight that was written down, "" of others.
func (f *Flight) Told() string {
	switch {
	case f.Record == nil:
		return ""
	case f.Record.Damage != nil:
		return look.Textf(look.RecordDamaged, f.Record.Damage.Error())
	case f.Record.End == nil:
		return look.Text(look.RecordCut)
	}
	return look.Text(look.RecordTold)
}

// DataFolder is where programs keep what their user made, by the convention of the
// platform.
func DataFolder() string {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return os.TempDir()
	}
	switch runtime.GOOS {
	case "windows":
		if dir := os.Getenv("LocalAppData"); dir != "" {
			return dir
		}
	case "darwin":
		return filepath.Join(home, "Library", "Application Support")
	}
	return filepath.Join(home, ".local", "share")
}

// RecordFolder is where the window writes down what is flown in it.
func RecordFolder() string { return filepath.Join(DataFolder(), "stillair", "records") }

// The newest records are kept: so many, and so many bytes in all.
const (
	MostRecords     = 40
	MostRecordBytes = 40 << 20
)

// Recorder writes a flight down as it is flown in the window. It begins its file
// with the first minute flown or the first thing done, so that a window that is
// only looked into leaves none. A file that cannot be written is given up: Err
// says why.
type Recorder struct {
	folder string
	flight *Flight
	began  time.Time
	file   *os.File
	out    *record.Writer
	// Failed is told once, on the goroutine that notes, why it was given up.
	Failed func(error)
	Err    error
}

// NewRecorder makes one; nothing is written yet. One of a flight that is a record
// itself writes nothing.
func NewRecorder(folder string, f *Flight, now time.Time) *Recorder {
	return &Recorder{folder: folder, flight: f, began: now}
}

// Path is the file, "" while there is none.
func (r *Recorder) Path() string {
	if r.file == nil {
		return ""
	}
	return r.file.Name()
}

// Note writes what is new.
func (r *Recorder) Note(e *sim.Engine) {
	if r.Err != nil || r.flight.Record != nil {
		return
	}
	if r.out == nil {
		if _, _, flown := e.Kept(1); !flown && len(e.Given()) == 0 {
			return
		}
		r.Err = r.begin()
	}
	if r.Err == nil {
		r.Err = r.out.Note(e)
	}
	if r.Err != nil && r.Failed != nil {
		r.Failed(r.Err)
	}
}

func (r *Recorder) begin() error {
	if err := os.MkdirAll(r.folder, 0o755); err != nil {
		return err
	}
	prune(r.folder, MostRecords-1, MostRecordBytes)
	name := r.began.Format(recordTime) + strings.TrimSuffix(r.flight.Name, Suffix) + RecordSuffix
	file, err := os.OpenFile(filepath.Join(r.folder, name), os.O_CREATE|os.O_WRONLY|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	r.file = file
	r.out, err = record.NewWriter(file, record.Header{
		Program: record.Program(), Platform: record.Platform(), Name: r.flight.Name,
		Seed: r.flight.Plan.Seed, Flight: string(r.flight.Source.Text),
	})
	return err
}

// recordTime begins the name of a record.
const recordTime = "2006-01-02 150405 "

// FlownWhen says when a record was begun, from its name; "" if that does not tell.
func FlownWhen(path string) string {
	name := filepath.Base(path)
	if len(name) < len(recordTime) {
		return ""
	}
	at, err := time.Parse(recordTime, name[:len(recordTime)])
	if err != nil {
		return ""
	}
	return look.Textf(look.RecordFlown, units.DateText(at), at.Format("15:04"))
}

// Records are the newest records of a folder, at most so many, the newest first.
func Records(folder string, most int) []string {
	all, err := filepath.Glob(filepath.Join(folder, "*"+RecordSuffix))
	if err != nil {
		return nil // a folder with a name that is a pattern
	}
	slices.Sort(all) // their names begin with their time
	slices.Reverse(all)
	return all[:min(most, len(all))]
}

// Close writes the closing line.
func (r *Recorder) Close(e *sim.Engine) {
	r.Note(e)
	if r.out == nil {
		return
	}
	if r.Err == nil {
		r.Err = r.out.Close(e)
	}
	if err := r.file.Close(); r.Err == nil {
		r.Err = err
	}
}

// prune removes the oldest records until at most so many, and so many bytes, are
// left.
func prune(folder string, most int, bytes int64) {
	sum := int64(0)
	for i, path := range Records(folder, math.MaxInt) {
		if info, err := os.Stat(path); err == nil {
			sum += info.Size()
		}
		if i >= most || sum > bytes {
			_ = os.Remove(path) // one that stays does no harm
		}
	}
}
