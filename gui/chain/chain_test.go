package chain

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

// storyOf opens the instrument of an engine, truth and all.
func storyOf(e *sim.Engine) *Story {
	v, truth := e.View(), e.TrueWorks()
	return &Story{View: &v, Now: e.Works(), Truth: &truth, Faults: e.Faults(), Mechanism: e.Plan().Mechanism, Held: e.Held()}
}

// flown loads a flight written here.
func flown(t *testing.T, text string) *sim.Engine {
	t.Helper()
	p, _, err := scenarios.Load("test", strings.NewReader(text))
	require.NoError(t, err)
	e, err := sim.New(p)
	require.NoError(t, err)
	return e
}

// sound is a flight with right settings: turns, a climb, over 180, a reset.
const sound = `
schema = 1
title = "Sound"
start = 1957-08-14T09:30:00Z
seed = 3
[aircraft]
position = "47 10.0 S 178 30.0 E"
heading_true_deg = 90
tas_kt = 178
pressure_altitude_ft = 6000
[mechanism]
class = "%s"
[[air.wind]]
from_deg_true = 308
speed_kt = 33
[setting]
wind_from_deg_true = 308
wind_kt = 33
[[leg]]
heading_true_deg = 90
duration = "40m"
[[leg]]
heading_true_deg = 200
duration = "20m"
pressure_altitude_ft = 9000
[[leg]]
heading_true_deg = 355
duration = "30m"
[[leg]]
heading_true_deg = 70
duration = "1h"
`

func TestSoundInstrumentIsNotBroken(t *testing.T) {
	for _, class := range []string{"ideal", "service"} {
		e := flown(t, fmt.Sprintf(sound, class))
		for e.Advance(160) > 0 { // each ten seconds
			s := storyOf(e)
			for l, v := range s.Judge() {
				require.Equal(t, picture.Agrees, v.Stands, "%s, tick %d, %s: %s", class, e.Tick(), s.Card(picture.Link(l)).Title, v.Flag)
				require.Empty(t, v.Wrong[0], "%s, tick %d, %s", class, e.Tick(), s.Card(picture.Link(l)).Title)
			}
			require.Empty(t, s.Follow())
		}
	}
}

// TestFaultsShowWhereTheySit flies every shipped flight: while a fault is in
// force its link is broken and said so, and hidden truth tells nothing.
func TestFaultsShowWhereTheySit(t *testing.T) {
	seen := 0
	for _, info := range scenarios.Shipped() {
		name := info.Name
		p, _, err := scenarios.Open(name)
		require.NoError(t, err)
		e, err := sim.New(p)
		require.NoError(t, err)
		for e.Advance(60*16) > 0 {
			s := storyOf(e)
			all := s.Judge()
			for _, f := range s.Faults {
				if f.Stands != sim.FaultInForce {
					continue
				}
				seen++
				v := all[placeOf(&f.Order)]
				assert.Equal(t, picture.Broken, v.Stands, "%s: %s", name, f.Order.ID)
				assert.NotEmpty(t, v.Flag)
				assert.Equal(t, placeOf(&f.Order), s.Follow()[0].Link, "%s: the error is followed from where it begins", name)
			}
			s.Truth = nil
			assert.Equal(t, [picture.LinkCount]Verdict{}, s.Judge())
			assert.Nil(t, s.Follow())
		}
	}
	assert.Greater(t, seen, 100)
}

func TestSlippingDriveIsTold(t *testing.T) {
	e := flown(t, fmt.Sprintf(sound, "ideal"))
	e.Advance(600 * 16)
	require.NoError(t, e.Break(fault.Order{ID: "drive-slip", At: e.Tick(), Params: []float64{0.06}}))
	e.Advance(1200 * 16)
	s := storyOf(e)
	all := s.Judge()
	assert.Equal(t, "Drive slips 6 in 100", all[picture.LinkDrive].Flag)
	// 178 kt for 20 minutes, of which 6 in 100: 3.56 NM; of 89.0 NM wound 85.4
	assert.Equal(t, [2]string{"short 3.6 NM", "right: 89.0"}, all[picture.LinkDrive].Wrong)
	assert.Equal(t, picture.Agrees, all[picture.LinkCounter].Stands, "tapped before the drive")
	assert.Equal(t, picture.Carries, all[picture.LinkEastDisc].Stands)
	assert.Equal(t, picture.Carries, all[picture.LinkMarker].Stands)
	assert.Equal(t, picture.Agrees, all[picture.LinkRepeater].Stands)
	assert.Equal(t, picture.Agrees, all[picture.LinkWind].Stands)

	require.NoError(t, e.MendAll("drive-slip"))
	e.Advance(60 * 16)
	s = storyOf(e)
	all = s.Judge()
	assert.Equal(t, picture.Agrees, all[picture.LinkDrive].Stands, "what moves rightly is sound")
	assert.Equal(t, "short 3.6 NM", all[picture.LinkDrive].Wrong[0], "but what was lost stays")
	assert.Equal(t, picture.LinkDrive, s.Follow()[0].Link)
}

func TestEveryFaultHasItsLink(t *testing.T) {
	all := fault.Catalogue()
	for i := range all {
		assert.Contains(t, linksOf, all[i].ID)
	}
	for id := range linksOf {
		_, ok := fault.Lookup(id)
		assert.True(t, ok || id == "lever-late", id)
	}
}

// TestLinksComeAfterThoseTheyHangOn: Judge relies on it.
func TestLinksComeAfterThoseTheyHangOn(t *testing.T) {
	for l, all := range before {
		for _, b := range all {
			assert.Less(t, int(b), l)
		}
	}
}

// TestLawsAreRightAsPrinted works out every law line from what is printed.
func TestLawsAreRightAsPrinted(t *testing.T) {
	e := flown(t, fmt.Sprintf(sound, "service"))
	worked := 0
	for e.Advance(300*16) > 0 {
		s := storyOf(e)
		for _, l := range Walk() {
			for _, line := range s.Card(l).Law {
				parts := strings.Split(line, " = ")
				if len(parts) < 2 {
					continue
				}
				if strings.HasPrefix(parts[len(parts)-1], "as ") {
					continue
				}
				if last := parts[len(parts)-2]; strings.ContainsAny(last, "+-^") || strings.Contains(last, " x ") || strings.Contains(last, "/") || strings.Contains(last, "cos") || strings.Contains(last, "sin") || strings.Contains(last, "sqrt") {
					worked++
					checkLine(t, line, last, parts[len(parts)-1])
				}
			}
		}
	}
	assert.Greater(t, worked, 200)
}

func checkLine(t *testing.T, line, expr, result string) {
	t.Helper()
	if _, after, named := strings.Cut(expr, ": "); named {
		expr = after
	}
	expr = strings.NewReplacer(" kt", "", " hPa", "", "M", "", "T", "", "C", "").Replace(expr)
	number := strings.TrimRight(strings.Fields(result)[0], "MTC")
	want, err := strconv.ParseFloat(number, 64)
	require.NoError(t, err, line)
	_, decimals, _ := strings.Cut(number, ".")
	got := (&sums{in: strings.Fields(strings.NewReplacer("(", " ( ", ")", " ) ", "^", " ^ ", "/", " / ").Replace(expr))}).sum()
	if len(number) == 3 && !strings.Contains(number, ".") && strings.Contains(line, "T") {
		got, want = math.Mod(got+720, 360), math.Mod(want, 360)
	}
	assert.InDelta(t, want, got, 0.51*math.Pow10(-len(decimals))+1e-9, line)
}

// sums works out an expression: + - x / ^ sqrt cos sin (degrees) and brackets.
type sums struct {
	in []string
	at int
}

func (s *sums) peek() string {
	if s.at < len(s.in) {
		return s.in[s.at]
	}
	return ""
}

func (s *sums) sum() float64 {
	v := s.product()
	for s.peek() == "+" || s.peek() == "-" {
		op := s.peek()
		s.at++
		if w := s.product(); op == "+" {
			v += w
		} else {
			v -= w
		}
	}
	return v
}

func (s *sums) product() float64 {
	v := s.power()
	for {
		switch p := s.peek(); {
		case p == "x":
			s.at++
			v *= s.power()
		case p == "/":
			s.at++
			v /= s.power()
		case p != "" && p != ")" && p != "+" && p != "-" && p != "^": // side by side
			v *= s.power()
		default:
			return v
		}
	}
}

func (s *sums) power() float64 {
	v := s.atom()
	for s.peek() == "^" {
		s.at++
		v = math.Pow(v, s.atom())
	}
	return v
}

func (s *sums) atom() float64 {
	p := s.peek()
	s.at++
	switch p {
	case "(":
		v := s.sum()
		s.at++
		return v
	case "sqrt":
		return math.Sqrt(s.atom())
	case "cos":
		return math.Cos(s.atom() * math.Pi / 180)
	case "sin":
		return math.Sin(s.atom() * math.Pi / 180)
	case "-":
		return -s.atom()
	}
	v, err := strconv.ParseFloat(p, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
