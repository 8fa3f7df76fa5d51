package work

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

// The files of published and independently computed values stand beside the
// packages that they check; these tests put them through the CSV.
const (
	airFolder   = "../../../../integrator/isa/testdata/"
	fieldFolder = "../../../../sim/geomag/testdata/"
	skyFolder   = "../../../../sim/sky/testdata/"
	sightFolder = "../../../../integrator/sight/testdata/"
)

// question is a CSV being written: cells for each row of a file.
type question struct {
	header string
	lines  []string
	rows   []rows.Row
}

func (q *question) ask(r rows.Row, cells ...string) {
	q.lines = append(q.lines, strings.Join(cells, ","))
	q.rows = append(q.rows, r)
}

// answer runs the topic and returns the results of each row by column.
func (q *question) answer(t *testing.T, topic string) []map[string]float64 {
	t.Helper()
	var out bytes.Buffer
	in := q.header + "\n" + strings.Join(q.lines, "\n") + "\n"
	require.NoError(t, Run(topic, strings.NewReader(in), &out))
	all, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, all, len(q.rows)+1)
	answers := make([]map[string]float64, len(q.rows))
	for i, rec := range all[1:] {
		answers[i] = map[string]float64{}
		for j, name := range all[0] {
			if v, err := strconv.ParseFloat(rec[j], 64); err == nil {
				answers[i][name] = v
			}
		}
	}
	return answers
}

// within compares one result with one column; the tolerance is taken relative
// to the value, or absolute.
func within(t *testing.T, r rows.Row, column string, scale, got, rel, abs float64) {
	t.Helper()
	want := r.Float(column) * scale
	assert.InDelta(t, want, got, rel*math.Abs(want)+abs, "%s: %s", r, column)
}
