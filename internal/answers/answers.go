// Package answers keeps where every shipped flight ends, so that nobody moves an answer
// without knowing it, and says by how many NM one has moved.
//
// The table is docs/answers.csv: a row for each flight, degrees, N and E positive, with
// the shortest digits that read back to the same value. Go's mathematics differ in last
// bits between processors; what is nearer than Slack has not moved.
package answers

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"

	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
)

// Slack is how far apart two answers may lie that are called the same: that within
// which a record is compared on another platform.
const Slack = 1e-6 * units.NM

// Places of an answer, in the order of the columns.
const (
	Air    = iota // the air position shown
	Ground        // the ground position shown
	Marker
	True
	places
)

// names are the columns' names of the places.
var names = [places]string{"air", "ground", "marker", "true"}

// Answer is where a flight ends.
type Answer struct {
	Flight   string
	ElapsedS float64
	At       [places]units.Position
}

// Worked flies every shipped flight to its end.
func Worked() (all []Answer, err error) {
	for _, f := range scenarios.Shipped() {
		plan, _, err := scenarios.Open(f.Name)
		if err != nil {
			return nil, err
		}
		e, err := sim.New(plan)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		e.Advance(1 << 62)
		s := e.Snapshot()
		all = append(all, Answer{f.Name, float64(s.Tick) / sim.TicksPerSecond, [places]units.Position{
			units.Position(s.Shown.Air), units.Position(s.Shown.Ground), units.Position(s.Shown.Marker), s.Truth.Position,
		}})
	}
	return all, nil
}

func header() []string {
	h := []string{"flight", "elapsed_s"}
	for _, n := range names {
		h = append(h, n+"_lat_deg", n+"_lon_deg")
	}
	return h
}

// Write writes the table.
func Write(w io.Writer, all []Answer) error {
	out := csv.NewWriter(w)
	_ = out.Write(header()) // its error comes again below
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	for _, a := range all {
		row := []string{a.Flight, number(a.ElapsedS)}
		for _, p := range a.At {
			row = append(row, number(p.Lat.Degrees()), number(p.Lon.Degrees()))
		}
		_ = out.Write(row)
	}
	out.Flush()
	return out.Error()
}

// Read reads a table.
func Read(r io.Reader) (all []Answer, err error) {
	in := csv.NewReader(r)
	in.FieldsPerRecord = len(header())
	rows, err := in.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || rows[0][0] != header()[0] {
		return nil, fmt.Errorf("a table of answers begins with %s", header())
	}
	for _, row := range rows[1:] {
		a := Answer{Flight: row[0]}
		var v [1 + 2*places]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				return nil, fmt.Errorf("%s: %w", row[0], err)
			}
		}
		a.ElapsedS = v[0]
		for i := range a.At {
			a.At[i] = units.Position{Lat: units.Angle(v[1+2*i]) * units.Degree, Lon: units.Angle(v[2+2*i]) * units.Degree}
		}
		all = append(all, a)
	}
	return all, nil
}

// Move is how an answer differs from an older one.
type Move struct {
	Flight string
	Word   string          // what became of the flight, "" if both have it
	Later  float64         // s by which it ends later
	NM     [places]float64 // by which each place has moved
}

// Far says whether the answer is another one.
func (m Move) Far() bool {
	far := m.Word != "" || math.Abs(m.Later) > 0
	for _, nm := range m.NM {
		far = far || nm > Slack.NM()
	}
	return far
}

// String says how.
func (m Move) String() string {
	if m.Word != "" {
		return m.Flight + ": " + m.Word
	}
	if !m.Far() {
		return m.Flight + ": the same"
	}
	text := m.Flight + ": moved by NM:"
	for i, nm := range m.NM {
		text += fmt.Sprintf(" %s %.3g", names[i], nm)
	}
	if m.Later != 0 {
		text += fmt.Sprintf("; ends %g s later", m.Later)
	}
	return text
}

// Moves holds a table against an older one.
func Moves(old, now []Answer) (all []Move) {
	was := map[string]Answer{}
	for _, a := range old {
		was[a.Flight] = a
	}
	for _, a := range now {
		b, ok := was[a.Flight]
		delete(was, a.Flight)
		if !ok {
			all = append(all, Move{Flight: a.Flight, Word: "new"})
			continue
		}
		m := Move{Flight: a.Flight, Later: a.ElapsedS - b.ElapsedS}
		for i := range a.At {
			apart := geodesy.Distance(b.At[i], a.At[i])
			m.NM[i] = apart.NM()
		}
		all = append(all, m)
	}
	for _, a := range old {
		if _, left := was[a.Flight]; left {
			all = append(all, Move{Flight: a.Flight, Word: "gone"})
		}
	}
	return all
}
