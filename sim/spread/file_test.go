package spread

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func written(t *testing.T, f *File) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

func reread(t *testing.T, b []byte) *File {
	t.Helper()
	f, err := Read(bytes.NewReader(b))
	require.NoError(t, err)
	return f
}

// Shards that were written, read and merged are, byte for byte, the file of one
// run.
func TestMergedFilesAreTheFileOfTheWhole(t *testing.T) {
	var l Law
	l.Sigma[Wander], l.Sigma[Wind], l.Sigma[Start], l.WanderTime, l.Name = 6, 3, 1, time.Hour, "flight"
	head := Head{Program: "(devel)", Platform: "here", Flight: "a.toml", Title: "A <b> & c", Text: "00ff"}
	j := Job{Plan: straight(40, 200, 150*time.Second), Law: l, Seed: 1<<64 - 1, Flights: 7, Every: time.Minute}
	whole := written(t, &File{head, run(t, j)})
	var shards []*File
	for i := 3; i >= 1; i-- {
		j.From, j.To = Shard(7, i, 3)
		shards = append(shards, reread(t, written(t, &File{head, run(t, j)})))
	}
	m, err := MergeFiles(shards)
	require.NoError(t, err)
	assert.Empty(t, m.Missing())
	assert.Equal(t, string(whole), string(written(t, m)))
	assert.Equal(t, string(whole), string(written(t, reread(t, whole))))

	part, err := MergeFiles(shards[1:])
	require.NoError(t, err)
	assert.Equal(t, [][2]int{{4, 7}}, part.Missing())
	part, err = MergeFiles([]*File{shards[0], shards[2]})
	require.NoError(t, err)
	assert.Equal(t, [][2]int{{2, 4}}, part.Missing())
	_, err = MergeFiles([]*File{shards[0], shards[1], shards[0]})
	assert.ErrorContains(t, err, "flight 4 is in two shards")
	_, err = MergeFiles(nil)
	assert.Error(t, err)

	// One that was cancelled before anything was flown goes with the others.
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	none, err := Run(ctx, j)
	require.ErrorIs(t, err, context.Canceled)
	m, err = MergeFiles([]*File{reread(t, written(t, &File{head, none})), shards[0], shards[1], shards[2]})
	require.NoError(t, err)
	assert.Equal(t, string(whole), string(written(t, m)))
}

func TestShardsOfOtherRunsAreRefused(t *testing.T) {
	var l Law
	l.Sigma[Start] = 1
	head := Head{Program: "1", Platform: "here", Flight: "a.toml", Text: "00ff"}
	good := Job{Plan: straight(40, 200, time.Minute), Law: l, Seed: 1, Flights: 2, Every: time.Minute, To: 1}
	a := &File{head, run(t, good)}
	for word, spoil := range map[string]func(h *Head, j *Job){
		"flight (b.toml": func(h *Head, j *Job) { h.Text, h.Flight = "01", "b.toml" },
		"version":        func(h *Head, j *Job) { h.Program = "2" },
		"platform":       func(h *Head, j *Job) { h.Platform = "there" },
		"seed (2":        func(h *Head, j *Job) { j.Seed = 2 },
		"law":            func(h *Head, j *Job) { j.Law.Sigma[Drive] = 0.1 },
		"number":         func(h *Head, j *Job) { j.Flights = 3 },
		"sampling":       func(h *Head, j *Job) { j.Every = 2 * time.Minute },
		"flight without": func(h *Head, j *Job) { j.Plan = straight(41, 200, time.Minute) },
	} {
		h, j := head, good
		j.From, j.To = 1, 2
		spoil(&h, &j)
		_, err := MergeFiles([]*File{a, {h, run(t, j)}})
		assert.ErrorContains(t, err, "another "+word)
	}
}

func TestSpoiltFiles(t *testing.T) {
	var l Law
	l.Sigma[Start] = 1
	text := string(written(t, &File{Head{}, run(t, Job{Plan: straight(40, 200, time.Minute), Law: l, Flights: 3, Every: time.Minute})}))
	for name, s := range map[string]string{
		"empty": "", "cut": text[:len(text)/2], "schema": strings.Replace(text, `"spread":1`, `"spread":2`, 1),
		"law":    strings.Replace(text, `"start_nm":1`, `"start_nm":-1`, 1),
		"key":    strings.Replace(text, `"start_nm"`, `"star_nm"`, 1),
		"term":   strings.Replace(text, `"term":"start"`, `"term":"star"`, 1),
		"order":  strings.Replace(text, `"flight":2`, `"flight":1`, 1),
		"beyond": strings.Replace(text, `"flight":2`, `"flight":3`, 1),
		"every":  strings.Replace(text, `"every_s":60`, `"every_s":0`, 1),
		"ways":   strings.Replace(text, `"ways":[{`, `"ways":[{},{`, 1),
	} {
		require.NotEqual(t, text, s, name)
		_, err := Read(strings.NewReader(s))
		assert.Error(t, err, name)
	}
}
