package chain

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/picture"
)

// The printed arithmetic is worked again from the printed figures alone, by an
// arithmetic of the test's own.

// sum reads an expression: + - x * / ^, brackets, sqrt, sin, cos, sec of
// degrees, a product without a sign, E and W as signs of an angle.
type sum struct {
	tokens []string
	at     int
}

var token = regexp.MustCompile(`\d+(?:\.\d+)?|[-+x/^()]|sqrt|sin|cos|sec|[EW]\b`)

// units of the trade and of the law lines, which are no part of the sum.
var unit = regexp.MustCompile(`\b(kt|m/s|NM|km|hPa|kPa|ft|minutes an hour|minutes|turns|degrees|[NS]$)|[CMT]\b`)

func (s *sum) peek() string {
	if s.at < len(s.tokens) {
		return s.tokens[s.at]
	}
	return ""
}

func (s *sum) next() string { t := s.peek(); s.at++; return t }

func (s *sum) added() float64 {
	x := s.multiplied()
	for s.peek() == "+" || s.peek() == "-" {
		if s.next() == "+" {
			x += s.multiplied()
		} else {
			x -= s.multiplied()
		}
	}
	return x
}

func (s *sum) multiplied() float64 {
	x := s.power()
	for {
		switch t := s.peek(); {
		case t == "x":
			s.next()
			x *= s.power()
		case t == "/":
			s.next()
			x /= s.power()
		case t == "(" || len(t) > 2 && t[0] == 's' || t == "cos":
			x *= s.power()
		default:
			return x
		}
	}
}

func (s *sum) power() float64 {
	x := s.one()
	if s.peek() == "^" {
		s.next()
		x = math.Pow(x, s.one())
	}
	return x
}

func (s *sum) one() float64 {
	switch t := s.next(); t {
	case "-":
		return -s.power()
	case "(":
		x := s.added()
		s.next()
		return x
	case "sqrt":
		return math.Sqrt(s.one())
	case "sin":
		return math.Sin(s.one() * math.Pi / 180)
	case "cos":
		return math.Cos(s.one() * math.Pi / 180)
	case "sec":
		return 1 / math.Cos(s.one()*math.Pi/180)
	default:
		x, _ := strconv.ParseFloat(t, 64)
		switch s.peek() {
		case "E":
			s.next()
		case "W":
			s.next()
			x = -x
		}
		return x
	}
}

// worked gives what the last step of a line comes to, what it prints, and a unit
// of its last digit. ok is false where a line is no sum.
func worked(line string) (value, printed, digit float64, ok bool) {
	parts := strings.Split(line, " = ")
	if len(parts) == 1 {
		return 0, 0, 0, false
	}
	left := parts[len(parts)-2]
	if i := strings.LastIndex(left, ": "); i >= 0 {
		left = left[i+2:]
	}
	figures := regexp.MustCompile(`-?\d+(\.\d+)?`).FindString(parts[len(parts)-1])
	printed, _ = strconv.ParseFloat(figures, 64)
	_, after, _ := strings.Cut(figures, ".")
	s := sum{tokens: token.FindAllString(unit.ReplaceAllString(left, ""), -1)}
	value = s.added()
	return value, printed, math.Pow10(-len(after)), s.at == len(s.tokens)
}

func TestTheArithmeticOfTheTest(t *testing.T) {
	for line, want := range map[string]float64{
		"M = sqrt(5 ((1 + 0.0546)^(2/7) - 1)) = 0.2765":               0.276631,
		"a = 38.968 sqrt(272.35) = 643.1 kt":                          643.095,
		"north: -27 x cos 295 = -11.4 kt":                             -11.4107,
		"magnetic + variation = 024M + 24 E = 048T":                   48,
		"longitude: 131.0 kt x 1.456 = 190.7 minutes an hour":         190.736,
		"groundspeed: sqrt(107.7^2 + 155.5^2) = 189.2 kt":             189.155,
		"height = 145442 (1 - (752.62 / 1013.25)^0.190263) = 8000 ft": 8000.4,
	} {
		value, _, _, ok := worked(line)
		assert.True(t, ok, line)
		assert.InDelta(t, want, value, 0.01*math.Max(0.01, math.Abs(want)/100), line)
	}
}

// moments are stories of many kinds of moment: shipped flights, with what is
// wrong in them, and a box in both classes, in both systems of units.
func moments(t *testing.T, check func(t *testing.T, s *Story, name string)) {
	flights := map[string]flown{"plotted": fly(t, fmt.Sprintf(box, "ideal", `ground = "plotted"`)), "service": fly(t, fmt.Sprintf(box, "service", ""))}
	for _, name := range []string{"first-look", "slipping-drive", "stuck-repeater", "pitot-ice", "after-the-swing", "far-south", "warm-air"} {
		flights[name] = shippedFlight(t, name)
	}
	for name, f := range flights {
		for !f.Over() {
			for _, si := range []bool{false, true} {
				s := f.story()
				s.SI = si
				check(t, s, fmt.Sprintf("%s at %s", name, s.View.Elapsed))
			}
			f.fly(97 * time.Second)
		}
	}
}

// Every sum that a card prints comes out, worked from the figures that it
// prints, within the last digit printed.
func TestPrintedArithmeticComesOut(t *testing.T) {
	lines := 0
	moments(t, func(t *testing.T, s *Story, name string) {
		for _, of := range Walk() {
			for _, line := range s.law(of) {
				value, printed, digit, ok := worked(line)
				if !strings.Contains(line, " = ") {
					continue
				}
				lines++
				require.True(t, ok, "%s: %s", name, line)
				off := value - printed
				if of == picture.LinkVariation || of == picture.LinkRepeater {
					off = math.Remainder(off, 360)
				}
				require.LessOrEqual(t, math.Abs(off), digit*1.0001, "%s: %s: %g", name, line, value)
			}
		}
	})
	assert.Greater(t, lines, 10000)
}

// The last step gives what stands on the plate, where the link does its law.
func TestLawsEndInTheirPlates(t *testing.T) {
	f := fly(t, fmt.Sprintf(box, "ideal", ""))
	for ; !f.Over(); f.fly(37 * time.Second) {
		s := f.story()
		last := func(of picture.Link, i int) string {
			_, value, _ := strings.Cut(s.law(of)[i], " = ")
			for strings.Contains(value, " = ") {
				_, value, _ = strings.Cut(value, " = ")
			}
			return value
		}
		for of, i := range map[picture.Link]int{
			picture.LinkPitot: 0, picture.LinkCapsules: 0, picture.LinkAirLog: 3, picture.LinkSecant: 0, picture.LinkGroundSecant: 0,
		} {
			value, unit := s.plate(of)
			want := strings.TrimPrefix(strings.TrimSpace(value+" "+unit), "x ")
			require.Equal(t, want, last(of, i), "%s link %d", s.View.Elapsed, of)
		}
	}
}

// Each card says in two sentences what its link is; where the ground position is
// plotted, the adders' card says that instead.
func TestCardsSayWhatALinkIsInTwoSentences(t *testing.T) {
	running, plotted := fly(t, fmt.Sprintf(box, "ideal", "")).story(), fly(t, fmt.Sprintf(box, "ideal", `ground = "plotted"`)).story()
	for _, of := range Walk() {
		what := running.Card(of).What
		assert.Equal(t, 2, strings.Count(what, ". ")+1, what)
		assert.True(t, strings.HasSuffix(what, "."), what)
		assert.Equal(t, of != picture.LinkAdders, what == plotted.Card(of).What, what)
	}
}

// Every text of every moment is whole: no place left open, no figure missing,
// captions and flags in their room, and the law behind what stands there.
func TestTextsAreWhole(t *testing.T) {
	moments(t, func(t *testing.T, s *Story, name string) {
		var l picture.Linkage
		l.Run, l.Lit = 0.5, picture.LinkDrive
		s.Picture(&l)
		require.Equal(t, 0.5, l.Run, "it is the window's")
		require.Equal(t, picture.LinkDrive, l.Lit)
		all := []string{}
		for _, of := range Walk() {
			c, link := s.Card(of), &l.Links[of]
			require.NotEmpty(t, c.Law)
			require.True(t, c.Title != "" && c.What != "" && s.WalkText(of) != "" && s.Spoken(of) != "", "link %d", of)
			all = append(append(all, c.Title, c.What, c.Error, s.WalkText(of), s.Spoken(of), link.Value, link.Wrong[0], link.Wrong[1], link.Flag), c.Law...)
			for _, note := range link.Note {
				require.LessOrEqual(t, len(note), 24, note)
			}
			require.LessOrEqual(t, len([]rune(link.Flag)), longestFlag, link.Flag)
			require.Equal(t, link.Stands == picture.Broken, link.Flag != "", "%s: link %d", name, of)
		}
		for _, step := range s.Follow() {
			all = append(all, step.Words)
		}
		for _, text := range all {
			require.NotContains(t, text, "%!", name)
			require.NotContains(t, text, "NaN", name)
			require.NotContains(t, text, "-0.0 ", name)
			require.NotContains(t, text, "?", name)
			for _, r := range text {
				require.True(t, look.Regular.Font().Has(r), "%q in %q", r, text)
			}
		}
	})
}
