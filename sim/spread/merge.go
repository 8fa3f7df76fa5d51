package spread

import (
	"errors"
	"fmt"
	"reflect"
	"sort"
)

// Merge joins shards of one run, in any order. It refuses those that are not of
// one run, and flights that are there twice; which are missing says Missing.
func Merge(shards []*Result) (*Result, error) {
	if len(shards) == 0 {
		return nil, errors.New("nothing to merge")
	}
	m := *shards[0]
	m.Flights = []Flight{}
	for i, s := range shards {
		if why := m.differs(s); why != "" {
			return nil, fmt.Errorf("shard %d is not of the run of shard 1: another %s", i+1, why)
		}
		if m.Effects == nil {
			m.Effects = s.Effects
		}
		m.Flights = append(m.Flights, s.Flights...)
	}
	sort.SliceStable(m.Flights, func(a, b int) bool { return m.Flights[a].K < m.Flights[b].K })
	for i := 1; i < len(m.Flights); i++ {
		if k := m.Flights[i].K; k == m.Flights[i-1].K {
			return nil, fmt.Errorf("flight %d is in two shards", k)
		}
	}
	return &m, nil
}

// differs names in what another shard is not of the same run, "" if in nothing.
// One that was cancelled early has no effects, and goes with any.
func (r *Result) differs(s *Result) string {
	switch {
	case r.Seed != s.Seed:
		return fmt.Sprintf("seed (%d, not %d)", s.Seed, r.Seed)
	case !reflect.DeepEqual(r.Law, s.Law):
		return fmt.Sprintf("law of errors (%s)", s.Law.Name)
	case r.Every != s.Every:
		return fmt.Sprintf("sampling time (%v, not %v)", s.Every, r.Every)
	case r.Asked != s.Asked:
		return fmt.Sprintf("number of flights (%d, not %d)", s.Asked, r.Asked)
	case !reflect.DeepEqual(r.Nominal, s.Nominal):
		return "flight without drawn errors"
	case r.Effects != nil && s.Effects != nil && !reflect.DeepEqual(r.Effects, s.Effects):
		return "account of the terms"
	}
	return ""
}

// Missing are the flights that are not there, as ranges from, to (to not
// included).
func (r *Result) Missing() (gaps [][2]int) {
	at := 0
	for i := range r.Flights {
		if k := r.Flights[i].K; k > at {
			gaps = append(gaps, [2]int{at, k})
		}
		at = r.Flights[i].K + 1
	}
	if at < r.Asked {
		gaps = append(gaps, [2]int{at, r.Asked})
	}
	return gaps
}
