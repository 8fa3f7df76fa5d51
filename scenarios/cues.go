package scenarios

import (
	"fmt"
	"io"
	"math/big"
	"slices"
	"strconv"
	"time"
)

// Bounds of a cue file.
const (
	maxFilm    = 12 * time.Hour // of film
	maxSpeed   = 3600           // seconds of flight in a second of film
	maxCaption = 200            // characters
)

// cueLike is a time as a cue has it.
const cueLike = "12.5s"

// CueRules are what a cue file is read against: the words it may use, and what
// counts until a cue says otherwise.
type CueRules struct {
	Views, Links []string
	InLink       []string // of the views, those that can be framed on one link
	View         string
	From         time.Duration // flight time at the beginning of the film
	Speed        *big.Rat
}

// Passage is a stretch of film from one cue to the next, in which the flight
// runs evenly: at a film time t of At or later it stands at
// Start + Speed x (t - At).
type Passage struct {
	At      time.Duration // film time at which it begins
	Start   *big.Rat      // flight time there, seconds
	Speed   *big.Rat      // seconds of flight in a second of film; 0 stands still
	View    string
	Link    string // framed on this link; "" on none
	Caption string // "" for none
	Line    int    // of its cue; 0 for what stands before the first
}

// Flight is the flight time, in seconds, at a film time in seconds.
func (p *Passage) Flight(film *big.Rat) *big.Rat {
	t := new(big.Rat).Sub(film, seconds(p.At))
	return t.Add(p.Start, t.Mul(t, p.Speed))
}

// Cues is a film as its cue file has it: one passage at least, the first at film
// time 0, in order.
type Cues struct {
	File     string
	Length   time.Duration // of the film; 0: as long as there is flight
	Passages []Passage
}

// LoadCues reads a cue file: tables [[cue]] with at (film time), flight (flight
// time), speed, view, link, caption, and above them perhaps length. What a cue
// does not say stays as it was; "" ends a link or a caption. A cue that gives no
// speed, before one that gives a flight time, runs so as to be there when that
// one begins. The error, if the text was read, is an *Errors.
func LoadCues(name string, r io.Reader, rules CueRules) (*Cues, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	ps := &problems{file: name}
	if len(data) > maxFile {
		ps.add(1, "", "", "larger than 4 MB: no film needs that")
		return nil, ps.err()
	}
	tree := readTree(ps, data)
	l := &loader{problems: ps, broken: tree.broken}
	c := &cueLoader{loader: l, rules: rules, cues: &Cues{File: name}}
	c.file(l.newTable(tree.root, "", "length", "cue"))
	if err := ps.err(); err != nil {
		return nil, err
	}
	return c.cues, nil
}

// cueLoader makes passages of cues.
type cueLoader struct {
	*loader
	rules CueRules
	cues  *Cues
	read  []cue
}

// cue is what one table says.
type cue struct {
	table  *table
	at     time.Duration
	flight *time.Duration
	speed  *big.Rat
	ok     bool // at and flight and speed could be read
}

func (c *cueLoader) file(t *table) {
	if t.has("length") {
		c.cues.Length, _ = t.span("length", cueLike, fromNought(false), maxFilm)
	}
	if t.require("cue", "at least one [[cue]]") {
		for i, n := range t.entries("cue") {
			c.read = append(c.read, c.cue(c.newTable(n, entry("cue", i+1), "at", "flight", "speed", "view", "link", "caption")))
		}
	}
	first := Passage{Start: seconds(c.rules.From), Speed: c.rules.Speed, View: c.rules.View}
	c.cues.Passages = []Passage{first}
	for i := range c.read {
		c.passage(i)
	}
	c.checkEnd(t)
}

// cue reads one table.
func (c *cueLoader) cue(t *table) cue {
	u := cue{table: t, ok: t.require("at", `film time at which the cue begins, such as "12.5s"`)}
	var ok bool
	u.at, ok = t.span("at", cueLike, 0, maxFilm)
	u.ok = u.ok && ok
	if t.has("flight") {
		d, ok := t.span("flight", cueLike, 0, maxFlight)
		u.flight, u.ok = &d, u.ok && ok
	}
	if t.has("speed") {
		x, ok := t.number("speed", 0, maxSpeed, "seconds of flight in a second of film")
		u.speed, u.ok = exactly(x), u.ok && ok
	}
	return u
}

// passage adds the passage that a cue begins.
func (c *cueLoader) passage(i int) {
	u := &c.read[i]
	last := &c.cues.Passages[len(c.cues.Passages)-1]
	p := Passage{At: u.at, View: last.View, Link: last.Link, Caption: last.Caption, Line: u.table.node.line}
	c.words(u.table, &p)
	if !u.ok {
		return
	}
	if i > 0 && c.read[i-1].ok && u.at <= last.At {
		u.table.bad("at", "must be later than the cue before it, in line %d", c.read[i-1].table.line("at"))
		return
	}
	if u.flight != nil && (i == 0 && u.at > 0 || i > 0 && c.read[i-1].speed == nil) {
		c.arrive(u, last)
	}
	p.Start, p.Speed = last.Flight(seconds(u.at)), last.Speed
	if u.flight != nil {
		p.Start = seconds(*u.flight)
	}
	if u.speed != nil {
		p.Speed = u.speed
	}
	if u.at == 0 {
		c.cues.Passages[0] = p
		return
	}
	c.cues.Passages = append(c.cues.Passages, p)
}

// arrive has the passage before a cue run so as to be at its flight time when it
// begins.
func (c *cueLoader) arrive(u *cue, last *Passage) {
	film := seconds(u.at - last.At)
	way := new(big.Rat).Sub(seconds(*u.flight), last.Start)
	speed := way.Quo(way, film)
	if speed.Sign() < 0 || speed.Cmp(big.NewRat(maxSpeed, 1)) > 0 {
		from, _ := last.Start.Float64()
		far, _ := new(big.Rat).Mul(film, big.NewRat(maxSpeed, 1)).Float64()
		u.table.bad("flight", "must be %v to %v, for the cue before it has no speed and runs up to here (with a speed of its own the film cuts)",
			asDuration(from), min(asDuration(from+far), maxFlight))
		return
	}
	last.Speed = speed
}

// words takes up view, link and caption.
func (c *cueLoader) words(t *table, p *Passage) {
	if i := t.word("view", c.rules.Views...); i >= 0 {
		p.View = c.rules.Views[i]
	}
	if v := t.node.values["link"]; v != nil && v.kind == stringKind && v.text == "" {
		p.Link = ""
	} else if i := t.word("link", c.rules.Links...); i >= 0 {
		if p.Link = c.rules.Links[i]; !slices.Contains(c.rules.InLink, p.View) {
			t.bad("link", "has no place in the view %s: must be in %s", p.View, orList(c.rules.InLink))
		}
	}
	if v := t.node.values["caption"]; v != nil && v.kind == stringKind && v.text == "" {
		p.Caption = ""
	} else if s, ok := t.lineOf("caption", maxCaption); ok {
		p.Caption = s
	}
}

// checkEnd sees that the film comes to an end.
func (c *cueLoader) checkEnd(t *table) {
	last := &c.cues.Passages[len(c.cues.Passages)-1]
	switch {
	case c.total > 0:
	case c.cues.Length > 0 && c.cues.Length <= last.At:
		t.bad("length", "must be later than the last cue, %v in line %d", last.At, last.Line)
	case c.cues.Length == 0 && last.Speed.Sign() == 0:
		c.add(last.Line, "length", "", "is required, above %v, for the last cue stands still", last.At)
	}
}

// Check refuses a passage that begins beyond the end of what was flown.
func (c *Cues) Check(end time.Duration) error {
	ps := &problems{file: c.File}
	for i := range c.Passages {
		p := &c.Passages[i]
		if p.Line > 0 && p.Start.Cmp(seconds(end)) > 0 {
			at, _ := p.Start.Float64()
			ps.add(p.Line, entry("cue", c.number(i)), "", "the flight is at %v here and ends at %v: must be 0s to %v", asDuration(at), end, end)
		}
	}
	return ps.err()
}

// number is the number of the cue that a passage belongs to, from 1.
func (c *Cues) number(i int) int {
	if c.Passages[0].Line == 0 {
		return i
	}
	return i + 1
}

func seconds(d time.Duration) *big.Rat { return big.NewRat(int64(d), int64(time.Second)) }

// exactly is the number as it was written, not as it is held.
func exactly(x float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(x, 'g', -1, 64))
	if !ok {
		return new(big.Rat)
	}
	return r
}

func asDuration(s float64) time.Duration {
	return time.Duration(min(s, maxFlight.Seconds()) * float64(time.Second)).Round(time.Millisecond)
}
