package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"reflect"

	"stillair/integrator/units"
	"stillair/sim"
)

// Writer writes a flight down. Each line is one Write, so that a program that is
// killed leaves at most one torn line.
type Writer struct {
	out     io.Writer
	sum     string
	given   []sim.Command // written
	minutes int64         // written: minutes 0 to minutes-1
}

// HashOf is the name of a flight's text in a record.
func HashOf(flight string) string {
	sum := sha256.Sum256([]byte(flight))
	return hex.EncodeToString(sum[:])
}

// NewWriter begins a record. Version and SHA256 of the header are filled in.
func NewWriter(out io.Writer, h Header) (*Writer, error) {
	h.Version, h.SHA256 = Version, HashOf(h.Flight)
	w := &Writer{out: out}
	return w, w.put(h)
}

func (w *Writer) put(v any) error {
	text, sum, err := seal(w.sum, v)
	if err != nil {
		return err
	}
	if _, err := w.out.Write(text); err != nil {
		return err
	}
	w.sum = sum
	return nil
}

// Note writes what has been done and flown since the last call. Call it as often
// as is to be safe: what is not noted is lost with the program.
func (w *Writer) Note(e *sim.Engine) error {
	if err := w.noteCommands(e.Given()); err != nil {
		return err
	}
	for {
		s, hash, ok := e.Kept(w.minutes)
		if !ok {
			return nil
		}
		if err := w.put(line{Minute: minuteOf(&s, hash)}); err != nil {
			return err
		}
		w.minutes++
	}
}

// noteCommands writes the commands that are new. Where they do not go on from
// those written, or begin before a minute that is written, the flight had been
// taken back.
func (w *Writer) noteCommands(given []sim.Command) error {
	same := 0
	for same < len(given) && same < len(w.given) && reflect.DeepEqual(given[same], w.given[same]) {
		same++
	}
	if same == len(given) && same == len(w.given) {
		return nil
	}
	from := tickAt(given, same, tickAt(w.given, same, 0))
	if same < len(w.given) {
		from = min(from, w.given[same].Tick)
	}
	if valid := from/sim.MinuteTicks + 1; same < len(w.given) || valid < w.minutes {
		if err := w.put(line{Back: &back{Commands: same, Tick: from}}); err != nil {
			return err
		}
		w.minutes = min(w.minutes, valid)
	}
	for i := range given[same:] {
		if err := w.put(line{Command: commandTo(&given[same+i])}); err != nil {
			return err
		}
	}
	w.given = given
	return nil
}

func tickAt(all []sim.Command, i int, other int64) int64 {
	if i < len(all) {
		return all[i].Tick
	}
	return other
}

// Close writes what is left and the closing line.
func (w *Writer) Close(e *sim.Engine) error {
	if err := w.Note(e); err != nil {
		return err
	}
	s := e.Snapshot()
	return w.put(line{End: &End{
		Tick: s.Tick, Hash: hashText(e.Hash()), AirMiles: s.Shown.AirMiles.NM(),
		AirError:    [2]float64{s.Error.Air.North, s.Error.Air.East},
		GroundError: [2]float64{s.Error.Ground.North, s.Error.Ground.East},
	}})
}

func hashText(h uint64) string { return fmt.Sprintf("%016x", h) }

func minuteOf(s *sim.Snapshot, hash uint64) *Minute {
	at := func(p units.Position) [2]float64 { return [2]float64{p.Lat.Degrees(), p.Lon.Degrees()} }
	return &Minute{
		Tick: s.Tick, Hash: hashText(hash), Air: at(units.Position(s.Shown.Air)), Ground: at(units.Position(s.Shown.Ground)),
		Marker: at(units.Position(s.Shown.Marker)), True: at(s.Truth.Position),
	}
}
