package spread

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"stillair/sim"
)

// schema is the version of the files of this package.
const schema = 1

// Head says what was flown, for files; shards are joined only where it is equal.
type Head struct {
	Program  string `json:"program"`  // version of the program
	Platform string `json:"platform"` // on which the last bits of figures may hang
	Flight   string `json:"flight"`   // name
	Title    string `json:"title"`
	Text     string `json:"text_sha256"` // of the flight's text
}

// differs names in what another head is not the same, "" if in nothing.
func (h *Head) differs(o *Head) string {
	switch {
	case h.Text != o.Text:
		return fmt.Sprintf("flight (%s, not %s)", o.Flight, h.Flight)
	case h.Program != o.Program:
		return fmt.Sprintf("version of the program (%s, not %s)", o.Program, h.Program)
	case h.Platform != o.Platform:
		return fmt.Sprintf("platform (%s, not %s), on which the last figures hang", o.Platform, h.Platform)
	}
	return ""
}

// File is a result with what it is a result of.
type File struct {
	Head
	*Result
}

// fileJSON is the file: one JSON object. Errors are pairs north, east in NM, exact
// (the shortest digits that read back to the same number).
type fileJSON struct {
	Schema  int                `json:"spread"`
	Head                       // its keys stand beside
	Seed    uint64             `json:"seed"`
	Law     string             `json:"law"`
	Sigmas  map[string]float64 `json:"sigmas"`
	WanderS float64            `json:"wander_time_s"`
	EveryS  float64            `json:"every_s"`
	Asked   int                `json:"flights_asked"`
	Missing [][2]int           `json:"flights_missing"` // from, to; to not included
	Nominal nominalJSON        `json:"without_drawn_errors"`
	Effects []effectJSON       `json:"one_sigma_effects"`
	Flights []flightJSON       `json:"flights"`
	Moments []momentJSON       `json:"moments"`
}

type pair [2]float64

type flightJSON struct {
	K      int    `json:"flight"`
	Ticks  int64  `json:"ticks"`
	Errors []pair `json:"errors_nm"`
	End    pair   `json:"end_nm"`
}

type nominalJSON struct {
	flightJSON
	Ways   []wayJSON `json:"ways"`
	EndWay wayJSON   `json:"end_way"`
}

type wayJSON struct {
	Hours       float64 `json:"hours"`
	North       float64 `json:"north_nm"`
	East        float64 `json:"east_nm"`
	FromStart   bool    `json:"from_start"`
	Temperature float64 `json:"temperature_k"`
}

type effectJSON struct {
	Term   string `json:"term"`
	Errors []pair `json:"errors_nm"`
	End    pair   `json:"end_nm"`
}

// momentJSON is for readers; Read does not look at it.
type momentJSON struct {
	ElapsedS   float64            `json:"elapsed_s"`
	End        bool               `json:"end"`
	N          int                `json:"n"`
	MeanNorth  float64            `json:"mean_north_nm"`
	MeanEast   float64            `json:"mean_east_nm"`
	NN         float64            `json:"cov_nn_nm2"`
	EE         float64            `json:"cov_ee_nm2"`
	NE         float64            `json:"cov_ne_nm2"`
	Miss       float64            `json:"median_miss_nm"`
	R50        float64            `json:"r50_nm"`
	R95        float64            `json:"r95_nm"`
	Major      float64            `json:"ellipse_major_nm"`
	Minor      float64            `json:"ellipse_minor_nm"`
	BearingDeg float64            `json:"ellipse_bearing_deg"`
	Shares     map[string]float64 `json:"shares"`
}

func pairOf(o sim.Offset) pair    { return pair{o.North, o.East} }
func (p pair) offset() sim.Offset { return sim.Offset{North: p[0], East: p[1]} }

func pairsOf(all []sim.Offset) []pair {
	out := make([]pair, len(all))
	for i, o := range all {
		out[i] = pairOf(o)
	}
	return out
}

func offsetsOf(all []pair) []sim.Offset {
	out := make([]sim.Offset, len(all))
	for i, p := range all {
		out[i] = p.offset()
	}
	return out
}

func flightOf(f *Flight) flightJSON {
	return flightJSON{f.K, f.Ticks, pairsOf(f.Errors), pairOf(f.End)}
}

func (f *flightJSON) flight() Flight {
	return Flight{f.K, f.Ticks, offsetsOf(f.Errors), f.End.offset()}
}

// Write writes the file.
func (f *File) Write(w io.Writer) error {
	j := fileJSON{
		Schema: schema, Head: f.Head, Seed: f.Seed, Law: f.Law.Name, Sigmas: map[string]float64{},
		WanderS: f.Law.WanderTime.Seconds(), EveryS: f.Every.Seconds(), Asked: f.Asked, Missing: append([][2]int{}, f.Missing()...),
		Nominal: nominalJSON{flightOf(&f.Nominal.Flight), make([]wayJSON, 0), wayJSON(f.Nominal.EndWay)},
	}
	for t, s := range f.Law.Sigma {
		j.Sigmas[facts[t].Key] = s
	}
	for _, w := range f.Nominal.Ways {
		j.Nominal.Ways = append(j.Nominal.Ways, wayJSON(w))
	}
	for _, g := range f.Effects {
		j.Effects = append(j.Effects, effectJSON{facts[g.Term].ID, pairsOf(g.Errors), pairOf(g.End)})
	}
	for i := range f.Flights {
		j.Flights = append(j.Flights, flightOf(&f.Flights[i]))
	}
	for _, m := range f.Moments() {
		j.Moments = append(j.Moments, momentOf(&m))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(j)
}

func momentOf(m *Moment) momentJSON {
	j := momentJSON{
		m.At.Seconds(), m.End, m.N, m.Mean.North, m.Mean.East, m.Cov.NN, m.Cov.EE, m.Cov.NE,
		m.Miss, m.R50, m.R95, m.Axes.Major, m.Axes.Minor, m.Axes.BearingDeg, map[string]float64{},
	}
	for t, s := range m.Share {
		j.Shares[facts[t].ID] = s
	}
	return j
}

// Read reads a file that Write has written.
func Read(r io.Reader) (*File, error) {
	var j fileJSON
	if err := json.NewDecoder(r).Decode(&j); err != nil {
		return nil, fmt.Errorf("this is no file of a spread, or is cut off: %w", err)
	}
	if j.Schema != schema {
		return nil, fmt.Errorf("this is a file of schema %d, this program reads %d", j.Schema, schema)
	}
	f := &File{j.Head, &Result{
		Seed: j.Seed, Every: seconds(j.EveryS), Asked: j.Asked, Flights: make([]Flight, len(j.Flights)),
		Law:     Law{Name: j.Law, WanderTime: seconds(j.WanderS)},
		Nominal: Nominal{Flight: j.Nominal.flight(), Ways: make([]Way, len(j.Nominal.Ways)), EndWay: Way(j.Nominal.EndWay)},
	}}
	for i, w := range j.Nominal.Ways {
		f.Nominal.Ways[i] = Way(w)
	}
	for i := range j.Flights {
		f.Flights[i] = j.Flights[i].flight()
	}
	if err := f.takeLaw(j.Sigmas); err != nil {
		return nil, err
	}
	if err := f.takeEffects(j.Effects); err != nil {
		return nil, err
	}
	return f, f.whole()
}

func seconds(s float64) time.Duration { return time.Duration(math.Round(s * float64(time.Second))) }

func (f *File) takeLaw(sigmas map[string]float64) error {
	for key, s := range sigmas {
		t, ok := TermOf(key)
		if !ok {
			return fmt.Errorf("no such term: %s", key)
		}
		f.Law.Sigma[t] = s
	}
	return f.Law.Check()
}

func (f *File) takeEffects(all []effectJSON) error {
	if all == nil {
		return nil
	}
	f.Effects = []Effect{}
	for _, g := range all {
		t := Term(0)
		for ; t < terms && facts[t].ID != g.Term; t++ {
		}
		if t == terms {
			return fmt.Errorf("no such term: %s", g.Term)
		}
		f.Effects = append(f.Effects, Effect{t, offsetsOf(g.Errors), g.End.offset()})
	}
	return nil
}

// whole gives an error for a file in which something does not fit.
func (f *File) whole() error {
	if len(f.Nominal.Ways) != len(f.Nominal.Errors) || f.Every <= 0 || f.Asked < 1 || f.Asked > MaxFlights {
		return errors.New("this file has been changed: its parts do not fit")
	}
	last := -1
	for i := range f.Flights {
		k := f.Flights[i].K
		if k <= last || k >= f.Asked {
			return fmt.Errorf("this file has been changed: flight %d is out of place", k)
		}
		last = k
	}
	return nil
}

// MergeFiles joins shards that lie in files.
func MergeFiles(shards []*File) (*File, error) {
	if len(shards) == 0 {
		return nil, errors.New("nothing to merge")
	}
	var all []*Result
	for i, s := range shards {
		if why := shards[0].Head.differs(&s.Head); why != "" {
			return nil, fmt.Errorf("shard %d is not of the run of shard 1: another %s", i+1, why)
		}
		all = append(all, s.Result)
	}
	r, err := Merge(all)
	if err != nil {
		return nil, err
	}
	return &File{shards[0].Head, r}, nil
}
