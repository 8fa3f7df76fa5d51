package work

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// squareTopic is the topic of the package comment.
func squareTopic() Topic {
	return Topic{
		Name:    "square",
		Example: "area_m2\n4\n",
		Forms: []Form{{
			Reads: []Column{AtLeast("area_m2", 0)},
			Adds:  []string{"side_m"},
			Work: func(in, out []float64) error {
				out[0] = math.Sqrt(in[0])
				return nil
			},
		}},
	}
}

func run(t Topic, in string) (string, error) {
	var out bytes.Buffer
	err := t.run(strings.NewReader(in), &out)
	return out.String(), err
}

func TestGoodRowsComeOutAroundBadOnes(t *testing.T) {
	out, err := run(squareTopic(), "name,area_m2\na,4\nb,x\nc,9\nd,-1\ne,NaN\nf,1,2\ng,\nh,16\n")
	assert.Equal(t, "name,area_m2,side_m\na,4,2\nc,9,3\nh,16,4\n", out)

	var bad *RowErrors
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, 5, bad.Count)
	assert.Equal(t, strings.Join([]string{
		`row 2 (line 3), column area_m2: "x" is not a number; it must be 0 or more`,
		`row 4 (line 5), column area_m2: -1 is outside 0 or more`,
		`row 5 (line 6), column area_m2: "NaN" is not a number; it must be 0 or more`,
		`row 6 (line 7): 3 cells, the header has 2 columns`,
		`row 7 (line 8), column area_m2: the cell is empty; it must be 0 or more`,
	}, "\n"), err.Error())
}

func TestErrorsStopAtFifty(t *testing.T) {
	_, err := run(squareTopic(), "area_m2\n"+strings.Repeat("no\n", 73))
	var bad *RowErrors
	require.ErrorAs(t, err, &bad)
	assert.Equal(t, 73, bad.Count)
	assert.Len(t, bad.First, 50)
	assert.True(t, strings.HasSuffix(err.Error(), "\nand 23 more bad rows"), err.Error())
}

func TestShapesOfInput(t *testing.T) {
	for name, c := range map[string]struct{ in, out string }{
		"header only":            {"area_m2\n", "area_m2,side_m\n"},
		"header without end":     {"area_m2", "area_m2,side_m\n"},
		"no end of line at last": {"area_m2\n4", "area_m2,side_m\n4,2\n"},
		"CRLF":                   {"area_m2,n\r\n4,a\r\n9,b\r\n", "area_m2,n,side_m\n4,a,2\n9,b,3\n"},
		"byte order mark":        {"\ufeffarea_m2\n4\n", "area_m2,side_m\n4,2\n"},
		"blank lines":            {"\n\narea_m2\n\n4\n\r\n9\n\n\n", "area_m2,side_m\n4,2\n9,3\n"},
		"blanks around":          {" area_m2 ,n\n 4 ,  x\n", " area_m2 ,n,side_m\n 4 ,  x,2\n"},
		"quoted cells":           {"\"area_m2\",n\n\"4\",\"a, \"\"b\"\"\"\n", "\"area_m2\",n,side_m\n\"4\",\"a, \"\"b\"\"\",2\n"},
		"a cell of two lines":    {"n,area_m2\n\"a\r\nb\",4\nc,9\n", "n,area_m2,side_m\n\"a\r\nb\",4,2\nc,9,3\n"},
		"UTF-8 passes":           {"n,area_m2\nčŘ日,4\n", "n,area_m2,side_m\nčŘ日,4,2\n"},
		"columns without a name": {"area_m2,,\n4,,\n", "area_m2,,,side_m\n4,,,2\n"},
		"exponent, sign, point":  {"area_m2\n4e0\n+4.\n.25\n", "area_m2,side_m\n4e0,2\n+4.,2\n.25,0.5\n"},
	} {
		out, err := run(squareTopic(), c.in)
		assert.NoError(t, err, name)
		assert.Equal(t, c.out, out, name)
	}
}

func TestHeadersRefused(t *testing.T) {
	for in, reason := range map[string]string{
		"":                         "empty",
		"\n\n":                     "empty",
		"\ufeff":                   "empty",
		"side,length\n1,2\n":       "square reads area_m2; the header has side, length",
		"area_m2,area_m2\n1,2\n":   "column area_m2 twice",
		"a,b,area_m2,a\n1,2,3,4\n": "column a twice",
		"area_m2,side_m\n1,2\n":    "already has the column side_m, which square adds",
		"\"area_m2\n1\n":           "quote",
		"\xff\xfea\x00r\x00\n\x00": "UTF-16",
	} {
		out, err := run(squareTopic(), in)
		assert.ErrorContains(t, err, reason, in)
		assert.Empty(t, out, in)
	}
}

func TestNumbersRefused(t *testing.T) {
	for _, cell := range []string{"nan", "Inf", "-inf", "+Infinity", "0x10", "1_000", "1e999",
		"4 m", "\"4,0\"", "--4", "4e", ".", "1.2.3", "٤"} {
		out, err := run(squareTopic(), "area_m2\n"+cell+"\n")
		assert.ErrorContains(t, err, "row 1 (line 2), column area_m2", cell)
		assert.Equal(t, "area_m2,side_m\n", out, cell)
	}
}

func TestMisplacedQuotesSpoilTheirLineOnly(t *testing.T) {
	for name, bad := range map[string]string{
		"bare":       "5\" pipe,4",
		"text after": "\"a\"b,4",
		"never shut": "\"a,4",
	} {
		out, err := run(squareTopic(), "n,area_m2\nx,1\n"+bad+"\ny,9\nz,16\n")
		assert.ErrorContains(t, err, "row 2 (line 3)", name)
		assert.Equal(t, "n,area_m2,side_m\nx,1,1\ny,9,3\nz,16,4\n", out, name)
	}
}

func TestOverlongRows(t *testing.T) {
	long := strings.Repeat("x", 3*maxRecord)
	out, err := run(squareTopic(), "n,area_m2\n"+long+",1\n\""+strings.Repeat("y\n", maxRecord)+"b,9\n")
	assert.ErrorContains(t, err, "row 1 (line 2): the row is longer than 1 MiB")
	assert.ErrorContains(t, err, "row 2 (line 3): "+faultOpenQuote)
	assert.Equal(t, "n,area_m2,side_m\nb,9,3\n", out)
}

// brokenReader fails after what it has.
type brokenReader struct{ left *strings.Reader }

var errBroken = errors.New("the line went dead")

func (b brokenReader) Read(p []byte) (int, error) {
	if b.left.Len() == 0 {
		return 0, errBroken
	}
	return b.left.Read(p)
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errBroken }

func TestFailuresOfInputAndOutput(t *testing.T) {
	var out bytes.Buffer
	err := squareTopic().run(brokenReader{strings.NewReader("area_m2\n4\n-1\n9")}, &out)
	assert.ErrorIs(t, err, errBroken)
	assert.ErrorContains(t, err, "row 2")
	assert.Equal(t, "area_m2,side_m\n4,2\n", out.String(), "half a row is no row")

	err = squareTopic().run(strings.NewReader("area_m2\n4\n"), brokenWriter{})
	assert.ErrorIs(t, err, errBroken)
}

func TestUnknownTopic(t *testing.T) {
	err := Run("no-such", strings.NewReader(""), &bytes.Buffer{})
	assert.ErrorIs(t, err, ErrUnknownTopic)
	assert.ErrorContains(t, err, "rhumb")
}

func TestEveryTopicAnswersItsExample(t *testing.T) {
	for _, topic := range Topics() {
		require.NotEmpty(t, topic.Name)
		assert.NotEmpty(t, topic.Help, topic.Name)
		assert.NotContains(t, topic.Help, "\n", topic.Name)
		var out bytes.Buffer
		require.NoError(t, Run(topic.Name, strings.NewReader(topic.Example), &out), topic.Name)
		lines := strings.Count(topic.Example, "\n")
		assert.Greater(t, lines, 1, topic.Name)
		assert.Equal(t, lines, strings.Count(out.String(), "\n"), topic.Name)
	}
}

// chooser reads one of two things, the second with an optional column.
func chooser() Topic {
	return Topic{Name: "chooser", Forms: []Form{
		{Reads: []Column{Number("x"), Number("y")}, Adds: []string{"r"},
			Work: func(in, out []float64) error { out[0] = in[0] + in[1]; return nil }},
		{Reads: []Column{Number("x"), Number("z").Or(10)}, Adds: []string{"r"},
			Work: func(in, out []float64) error { out[0] = in[0] * in[1]; return nil }},
	}}
}

func TestFormsAreChosenByTheHeader(t *testing.T) {
	for in, want := range map[string]string{
		"x,y\n3,4\n":      "x,y,r\n3,4,7\n",
		"x\n3\n":          "x,r\n3,30\n",
		"x,z\n3,5\n3,\n":  "x,z,r\n3,5,15\n3,,30\n",
		"z,y0,x\n5,0,3\n": "z,y0,x,r\n5,0,3,15\n",
	} {
		out, err := run(chooser(), in)
		assert.NoError(t, err, in)
		assert.Equal(t, want, out, in)
	}
	_, err := run(chooser(), "x,y,z\n1,2,3\n")
	assert.ErrorContains(t, err, "asks two things of chooser")
	_, err = run(chooser(), "y,z\n1,2\n")
	assert.ErrorContains(t, err, "chooser reads x, y, or x; optional z; the header has y, z")
}

func TestNumbersArePrintedShortestAndPlain(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", math.Copysign(0, -1): "0", 0.1: "0.1", 1e20: "100000000000000000000", 1e21: "1e+21",
		-1e-14: "-0.00000000000001", 1.0 / 3: "0.3333333333333333", 1e-16: "1e-16", 123456789: "123456789",
	} {
		assert.Equal(t, want, string(appendNumber(nil, v)))
	}
}

// TestMemoryDoesNotGrow: rows cost no allocations of their own, so ten times
// the rows take as many as the buffers did.
func TestMemoryDoesNotGrow(t *testing.T) {
	allocations := func(rows int) float64 {
		in := rhumbRows(rows)
		return testing.AllocsPerRun(3, func() {
			require.NoError(t, Run("rhumb", strings.NewReader(in), io.Discard))
		})
	}
	assert.InDelta(t, allocations(500), allocations(5000), 2)
}

// rhumbRows is a CSV of so many lines, none a meridian.
func rhumbRows(n int) string {
	var b strings.Builder
	b.WriteString("lat1_deg,lon1_deg,lat2_deg,lon2_deg\n")
	for i := range n {
		fmt.Fprintf(&b, "%.6f,%.6f,%.6f,%.6f\n", math.Mod(float64(i)*0.37, 89), math.Mod(float64(i)*1.7, 180),
			-math.Mod(float64(i)*0.91, 89), -math.Mod(float64(i)*2.3, 180))
	}
	return b.String()
}

// A topic's cost is dominated by reading and printing numbers; figures per row.
func BenchmarkRows(b *testing.B) {
	const rows = 10_000
	in := rhumbRows(rows)
	for _, topic := range []string{"rhumb", "geodesic"} {
		b.Run(topic, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				require.NoError(b, Run(topic, strings.NewReader(in), io.Discard))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/rows, "ns/row")
		})
	}
}
