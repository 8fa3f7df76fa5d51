package record

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"stillair/sim"
)

// Record is a flight that was written down.
type Record struct {
	Header
	Commands []sim.Command // given in flight
	Minutes  []Minute
	End      *End    // nil: the record was cut short
	Damage   *Damage // nil: it is whole
}

// Damage is where a record stops being whole. What stands before was read.
type Damage struct {
	Line int
	Why  string
}

func (d *Damage) Error() string { return fmt.Sprintf("line %d: %s", d.Line, d.Why) }

var (
	errNoSum = errors.New("the line has no sum at its end: it is torn, or this is no record")
	errSum   = errors.New("the line has been changed, or a line before it is missing")
)

// Limits of a file that is read.
const (
	mostLine  = 8 << 20
	mostLines = 1 << 20
)

// Read reads a record. An error means that there is nothing to be had of it; what
// is wrong further on is in Damage.
func Read(in io.Reader) (*Record, error) {
	r := &reader{in: bufio.NewReaderSize(in, 1<<16)}
	body, err := r.next()
	if err != nil {
		return nil, &Damage{1, whyOf(err)}
	}
	rec := &Record{}
	if err := json.Unmarshal(body, &rec.Header); err != nil || rec.Version == 0 {
		return nil, &Damage{1, "this is no record of a flight"}
	}
	if rec.Version > Version {
		return nil, &Damage{1, fmt.Sprintf("it was written by a later version of the program (records of version %d, this one reads up to %d)", rec.Version, Version)}
	}
	if rec.SHA256 != HashOf(rec.Flight) {
		return nil, &Damage{1, "the text of the flight is not the one that was flown"}
	}
	for r.line < mostLines {
		body, err := r.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err == nil {
			err = rec.take(body)
		}
		if err != nil {
			rec.Damage = &Damage{r.line, whyOf(err)}
			break
		}
	}
	return rec, nil
}

func whyOf(err error) string {
	if errors.Is(err, io.EOF) {
		return "the file is empty"
	}
	return err.Error()
}

// reader hands out lines that have been checked.
type reader struct {
	in   *bufio.Reader
	line int
	sum  string
}

func (r *reader) next() ([]byte, error) {
	text, err := r.text()
	if len(text) == 0 && errors.Is(err, io.EOF) {
		return nil, io.EOF
	}
	r.line++
	if errors.Is(err, io.EOF) {
		return nil, errors.New("the last line is torn: the program was cut off while it wrote")
	}
	if err != nil {
		return nil, err
	}
	body, sum, err := unseal(r.sum, bytes.TrimSuffix(text, []byte("\n")))
	if err != nil {
		return nil, err
	}
	r.sum = sum
	return body, nil
}

// text is the next line with its end, unless it is too long.
func (r *reader) text() (text []byte, err error) {
	for {
		part, err := r.in.ReadSlice('\n')
		text = append(text, part...)
		if !errors.Is(err, bufio.ErrBufferFull) {
			return text, err
		}
		if len(text) > mostLine {
			return text, fmt.Errorf("the line is longer than %d MB", mostLine>>20)
		}
	}
}

// take takes a line in.
func (rec *Record) take(body []byte) error {
	var l line
	if err := json.Unmarshal(body, &l); err != nil {
		return errors.New("the line cannot be read")
	}
	if rec.End != nil {
		return errors.New("the record goes on after its closing line")
	}
	switch {
	case l.Command != nil:
		c, err := l.Command.of()
		if err != nil {
			return err
		}
		if n := len(rec.Commands); n > 0 && c.Tick < rec.Commands[n-1].Tick {
			return fmt.Errorf("tick = %d: it stands before the command above it", c.Tick)
		}
		rec.Commands = append(rec.Commands, c)
	case l.Minute != nil:
		if want := int64(len(rec.Minutes)) * sim.MinuteTicks; l.Minute.Tick != want {
			return fmt.Errorf("tick = %d: the next minute is that of tick %d", l.Minute.Tick, want)
		}
		rec.Minutes = append(rec.Minutes, *l.Minute)
	case l.Back != nil:
		return rec.goBack(l.Back)
	case l.End != nil:
		rec.End = l.End
	default:
		return errors.New("the line says nothing that is known here")
	}
	return nil
}

func (rec *Record) goBack(b *back) error {
	if b.Commands < 0 || b.Commands > len(rec.Commands) || b.Tick < 0 {
		return fmt.Errorf("back = %d commands to tick %d: there are %d", b.Commands, b.Tick, len(rec.Commands))
	}
	rec.Commands = rec.Commands[:b.Commands]
	rec.Minutes = rec.Minutes[:min(int64(len(rec.Minutes)), b.Tick/sim.MinuteTicks+1)]
	return nil
}
