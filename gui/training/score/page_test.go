package score

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

var chain = Chain{
	{Name: "drive", Title: "Drive", Kinds: []Kind{{"drive-slip", "flexible drive slips"}, {"drive-broken", "drive shaft parted"}}},
	{Name: "heading", Title: "Heading", Kinds: []Kind{{"repeater-stuck", "repeater frozen"}}},
}

func sheet() *Sheet {
	x := exercise()
	x.Title, x.Start, x.Finds = "A slipping drive", time.Date(1957, 8, 14, 9, 30, 0, 0, time.UTC), "The drive slips."
	x.Sealed, x.Seed = true, 1234
	b := &Book{Reports: []Report{{At: 12 * minute, Link: "heading", Sure: true}, {At: 25 * minute, Link: "drive", Fault: "drive-slip"}}}
	b.Note(30*minute, "asked for a fix")
	f := hour()
	f.Faults[0].Title = "flexible drive slips"
	return Work(x, b, f)
}

func TestToldInWords(t *testing.T) {
	told := sheet().Tell(chain)
	assert.Equal(t, "14 Aug 1957, 0930Z to 1030Z", told.When)
	assert.Equal(t, []string{"Drive: flexible drive slips; came at 0940Z; reported after 15 min; named right, not sure"}, told.Found)
	assert.Equal(t, []string{"0942Z Heading, without a fault named, sure", "0955Z Drive: flexible drive slips, not sure"}, told.Reports)
	assert.Equal(t, "11 of 15", told.Rows[Link].Marks)
	assert.Equal(t, "2.6 NM off on average, within 2.0 NM in 20 of 50 minutes", told.Rows[Position].Why)
	assert.Contains(t, told.Sealed, "1234")
	assert.Equal(t, []string{"1000Z asked for a fix"}, told.Notes)
}

// Before landing nothing of what is sealed is told.
func TestTheSealHoldsUntilLanding(t *testing.T) {
	s := sheet()
	s.Ended = false
	told := s.Tell(chain)
	assert.Empty(t, told.Sealed)
	assert.Empty(t, told.Finds)
	var out bytes.Buffer
	require.NoError(t, WriteCSV(&out, s))
	assert.NotContains(t, out.String(), "seed")
}

func TestTable(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteCSV(&out, sheet()))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	count := map[string]int{}
	for _, r := range rows {
		count[r[0]]++
	}
	assert.Equal(t, map[string]int{"kind": 1, "mark": 6, "fault": 1, "report": 2, "minute": 50, "note": 1, "seed": 1}, count)
	assert.Equal(t, []string{"fault", "1957-08-14T09:40:00Z", "drive-slip", "15", ""}, rows[7])
	assert.Equal(t, []string{"report", "1957-08-14T09:55:00Z", "drive", "drive-slip", "not sure"}, rows[9])
}

func TestPage(t *testing.T) {
	var out bytes.Buffer
	told := sheet().Tell(chain)
	require.NoError(t, WritePDF(&out, told))
	assert.True(t, bytes.HasPrefix(out.Bytes(), []byte("%PDF-")))
	r := &paint.Record{}
	drawPage(r, told)
	var words []string
	for _, w := range r.Texts() {
		words = append(words, w.Text)
		assert.Less(t, w.At.Y, float64(pageHeight-pageMargin)+1, w.Text)
		assert.GreaterOrEqual(t, w.At.X, float64(pageMargin)-1, w.Text)
	}
	all := strings.Join(words, "\n")
	for _, want := range []string{told.Title, told.When, "of 100", "right fault", told.Found[0], told.Reports[1], told.Finds, told.Sealed, told.Notes[0]} {
		assert.Contains(t, all, want)
	}
	flat := strings.Join(words, " ")
	for _, want := range append(told.Criteria, look.Text(look.CautionLong), "whole up to 10 min after the onset, nothing from 30 min on", "within 2.0 NM of the true position") {
		assert.Contains(t, flat, want)
	}
}

// However much was reported, criteria and cautions stand on the page, clear of it.
func TestPageOfManyReports(t *testing.T) {
	s := sheet()
	for range 80 {
		s.Reports = append(s.Reports, s.Reports[0])
	}
	told := s.Tell(chain)
	r := &paint.Record{}
	drawPage(r, told)
	foot, lowest := 0.0, 0.0
	for _, w := range r.Texts() {
		if w.Text == look.Text(look.CriteriaTitle) {
			foot = w.At.Y
		} else if foot == 0 || strings.HasPrefix(w.Text, "0942Z") {
			lowest = max(lowest, w.At.Y)
		}
	}
	assert.Greater(t, foot, 0.0)
	assert.Less(t, lowest, float64(pageHeight))
	for _, w := range r.Texts() {
		if strings.HasPrefix(w.Text, "0942Z") {
			assert.Less(t, w.At.Y, foot-20)
		}
	}
}

// What is not full is not printed as full, and the total is that of the printed marks.
func TestFullMarksAreFull(t *testing.T) {
	for _, c := range []struct{ got, of, want float64 }{{24.8, 25, 24}, {25, 25, 25}, {0.4, 25, 0}, {24.4, 25, 24}, {0, 0, 0}, {12.4, 12.5, 12}} {
		assert.Equal(t, c.want, Mark{c.got, c.of}.printed(), "%v", c)
	}
}
