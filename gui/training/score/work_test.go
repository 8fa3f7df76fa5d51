package score

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

const minute = time.Minute

func at(lat, lon float64) units.Position {
	return units.Position{Lat: units.Angle(lat) * units.Degree, Lon: units.Angle(lon) * units.Degree}
}

// hour is an hour due east along 60 S at 60 kt over the ground (2 degrees of longitude in
// 60 min: a mile a minute there, for cos 60 is a half); the instrument falls behind by a
// tenth from 10 min on.
func hour() *Flown {
	f := &Flown{Until: 60 * minute, Ended: true}
	for s := time.Duration(0); s <= f.Until; s += 10 * time.Second {
		m := s.Minutes()
		f.True = append(f.True, Point{s, at(-60, m/30)})
		f.Shown = append(f.Shown, Point{s, at(-60, (m-0.1*max(0, m-10))/30)})
	}
	f.Faults = []Came{{ID: "drive-slip", Link: "drive", Title: "slips", Onset: 10 * minute, Alike: []string{"wrong-gear-ratio"}}}
	return f
}

func exercise() Exercise {
	c := Usual
	c.Hold = 2 * units.NM
	return Exercise{Title: "x", Criteria: c}
}

func worked(b *Book, f *Flown) *Sheet { return Work(exercise(), b, f) }

// Worked by hand: errors of 0.1, 0.2, ... 5.0 NM at the minutes 11 to 60. Within 2 NM are
// 20 of 50. Beyond, the share falls by half an NM's worth: (6 - e)/4; for e = 2.1 to 5.0
// the mean of e is 3.55, so the 30 shares sum to 30 x 0.6125 = 18.375. Together 38.375 of
// 50 minutes: 0.7675 of 25 marks are 19.1875.
func TestNothingDone(t *testing.T) {
	s := worked(&Book{}, hour())
	assert.Zero(t, s.Marks[Detection].Got)
	assert.Zero(t, s.Marks[Link].Got)
	assert.Zero(t, s.Marks[Fault].Got)
	assert.Zero(t, s.Marks[Log].Got)
	require.Len(t, s.Minutes, 50)
	assert.InDelta(t, 2.55, s.MeanError, 1e-6)
	assert.Equal(t, 20, s.Within)
	assert.InDelta(t, 19.1875, s.Marks[Position].Got, 1e-6)
	assert.Equal(t, 100.0, s.Total.Of)
	assert.InDelta(t, 19.1875, s.Total.Got, 1e-6)
	assert.Equal(t, -1, s.Found[0].First)
}

func TestFoundAndNamed(t *testing.T) {
	for _, c := range []struct {
		why                    string
		report                 Report
		detection, link, named float64
	}{
		{"at once and right", Report{At: 12 * minute, Link: "drive", Fault: "drive-slip", Sure: true}, 25, 15, 20},
		{"10 min after is still whole", Report{At: 20 * minute, Link: "drive", Fault: "drive-slip", Sure: true}, 25, 15, 20},
		{"20 min after is half", Report{At: 30 * minute, Link: "drive", Fault: "drive-slip", Sure: true}, 12.5, 15, 20},
		{"30 min after is nothing", Report{At: 40 * minute, Link: "drive", Fault: "drive-slip", Sure: true}, 0, 15, 20},
		{"not sure: 8 in 10", Report{At: 12 * minute, Link: "drive", Fault: "drive-slip"}, 25, 15, 16},
		{"a look-alike is half", Report{At: 12 * minute, Link: "drive", Fault: "wrong-gear-ratio", Sure: true}, 25, 15, 10},
		{"the link alone", Report{At: 12 * minute, Link: "drive", Sure: true}, 25, 15, 0},
		{"before it came: a false report", Report{At: 9 * minute, Link: "drive", Fault: "drive-slip", Sure: true}, 0, 0, 0},
	} {
		s := worked(&Book{Reports: []Report{c.report}}, hour())
		assert.InDelta(t, c.detection, s.Marks[Detection].Got, 1e-9, c.why)
		assert.InDelta(t, c.link, s.Marks[Link].Got, 1e-9, c.why)
		assert.InDelta(t, c.named, s.Marks[Fault].Got, 1e-9, c.why)
	}
}

func TestFalseReportsCost(t *testing.T) {
	right := Report{At: 15 * minute, Link: "drive", Fault: "drive-slip", Sure: true}
	one := worked(&Book{Reports: []Report{{At: 12 * minute, Link: "heading", Sure: true}, right}}, hour())
	assert.InDelta(t, 0.75*15, one.Marks[Link].Got, 1e-9)
	assert.Equal(t, []int{0}, one.FalseAt)
	two := worked(&Book{Reports: []Report{{At: 12 * minute, Link: "heading"}, {At: 13 * minute, Link: "crew"}, right}}, hour())
	assert.InDelta(t, 0.8*15, two.Marks[Link].Got, 1e-9)
}

// A report may be corrected: the last word counts for the name, the first for the time.
func TestTheLastWordCounts(t *testing.T) {
	s := worked(&Book{Reports: []Report{
		{At: 12 * minute, Link: "drive", Fault: "drive-broken", Sure: true},
		{At: 50 * minute, Link: "drive", Fault: "drive-slip", Sure: true},
	}}, hour())
	assert.Equal(t, 25.0, s.Marks[Detection].Got)
	assert.Equal(t, 20.0, s.Marks[Fault].Got)
	assert.Empty(t, s.FalseAt)
	assert.Equal(t, 2*minute, s.Found[0].After)
}

func TestTwoFaultsAreHalfEach(t *testing.T) {
	f := hour()
	f.Faults = append(f.Faults, Came{ID: "repeater-stuck", Link: "heading", Onset: 30 * minute})
	s := worked(&Book{Reports: []Report{{At: 31 * minute, Link: "heading", Fault: "repeater-stuck", Sure: true}}}, f)
	assert.Equal(t, 7.5, s.Marks[Link].Got)
	f.Faults[1].Onset = 2 * time.Hour // it has not come
	assert.Len(t, worked(&Book{}, f).Found, 1)
}

// By hand from 10 min on, with the true track and speed: the position is held. On the
// parallel the true way is a rhumb line; a mile of the tables is 1852 m of WGS-84, a
// minute of arc at 60 S not quite that: over 50 miles 0.3 percent.
func TestByHandThePositionIsHeld(t *testing.T) {
	h := Hand{At: 10 * minute, From: at(-60, 10.0/30), Heading: units.TrueHeading(90 * units.Degree), TAS: 60 * units.Knot}
	s := worked(&Book{Hands: []Hand{h}}, hour())
	assert.Equal(t, 25.0, s.Marks[Position].Got)
	assert.Less(t, s.MeanError, 0.15)
	assert.Equal(t, 50, s.ByHand)
	back := Hand{At: 40 * minute, Done: true}
	assert.Equal(t, 29, worked(&Book{Hands: []Hand{h, back}}, hour()).ByHand)
}

func TestLogKept(t *testing.T) {
	b := &Book{}
	for _, m := range []time.Duration{2, 12, 14, 33, 59, 60} {
		b.Write(&aboard.View{Elapsed: m * minute}, "")
	}
	s := worked(b, hour())
	assert.Equal(t, 6, s.Stretches)
	assert.Equal(t, 4, s.Kept)
	assert.InDelta(t, 10, s.Marks[Log].Got, 1e-9)
	f := hour()
	f.Log = []aboard.Entry{{Elapsed: 25 * minute, Action: aboard.Action{Kind: aboard.TakeAid}}, {Elapsed: 45 * minute, Action: aboard.Action{Kind: aboard.SetWind}}}
	assert.Equal(t, 5, worked(b, f).Kept, "a reading counts, a setting does not")
	assert.Len(t, worked(b, f).Deeds, 2)
}

func TestNoFaultCame(t *testing.T) {
	f := hour()
	f.Faults, f.Shown = nil, f.True
	assert.InDelta(t, 85, worked(&Book{}, f).Total.Got, 1e-9, "all but the log")
	assert.InDelta(t, 85-15*0.25, worked(&Book{Reports: []Report{{At: minute, Link: "drive", Sure: true}}}, f).Total.Got, 1e-9)
}

func TestTakeBack(t *testing.T) {
	b := &Book{}
	for _, m := range []time.Duration{1, 5, 9} {
		b.Report(Report{At: m * minute, Link: "drive"})
		b.Write(&aboard.View{Elapsed: m * minute}, "")
		b.Plot(Hand{At: m * minute})
		b.Note(m*minute, "n")
	}
	was := b.Changes
	b.TakeBack(5 * minute)
	assert.Len(t, b.Reports, 2)
	assert.Len(t, b.Lines, 2)
	assert.Len(t, b.Hands, 2)
	assert.Len(t, b.Notes, 2)
	assert.Greater(t, b.Changes, was)
	was = b.Changes
	b.TakeBack(5 * minute)
	assert.Equal(t, was, b.Changes)
}

// Whatever is written, marks lie between nothing and what can be had.
func TestMarksStayWithinTheirBounds(t *testing.T) {
	links := []string{"drive", "heading", "crew"}
	rapid.Check(t, func(t *rapid.T) {
		b := &Book{}
		for range rapid.IntRange(0, 12).Draw(t, "reports") {
			b.Report(Report{
				At: time.Duration(rapid.IntRange(0, 60).Draw(t, "at")) * minute, Link: rapid.SampledFrom(links).Draw(t, "link"),
				Fault: rapid.SampledFrom([]string{"", "drive-slip", "drive-broken"}).Draw(t, "fault"), Sure: rapid.Bool().Draw(t, "sure"),
			})
		}
		s := worked(b, hour())
		for _, m := range s.Marks {
			if m.Got < 0 || m.Got > m.Of {
				t.Fatalf("%v", m)
			}
		}
	})
}
