package film

import (
	"context"
	"crypto/sha256"
	"image"
	"math/big"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// flown is a shipped flight, flown to its end.
func flown(t testing.TB, name string) (*sim.Engine, time.Duration) {
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(1 << 40)
	return e, sim.TimeOf(e.Tick())
}

// sums keeps the sum of each frame and whether they came in order.
type sums struct {
	all    [][32]byte
	closed bool
}

func (s *sums) Encode(_ int, im *image.RGBA) ([]byte, error) {
	h := sha256.Sum256(im.Pix)
	return h[:], nil
}

func (s *sums) Put(frame int, data []byte) error {
	if frame == len(s.all) { // else the lengths will differ
		s.all = append(s.all, [32]byte(data))
	}
	return nil
}

func (s *sums) Close() error { s.closed = true; return nil }

// tour is a film with all that may change in it, fast and slow, back and on.
func tour(t *testing.T, end time.Duration) *Script {
	p := Plan{Rate: Rate{24000, 1001}, Speed: big.NewRat(30, 1), View: BothView}
	second := time.Second
	rat := func(s int64) *big.Rat { return big.NewRat(s, 1) }
	p.Cues = &scenarios.Cues{Length: 3 * second, Passages: []scenarios.Passage{
		{Start: rat(2400), Speed: big.NewRat(1, 4), View: BothView},
		{At: second / 2, Start: rat(2400), Speed: rat(900), View: ChartView, Caption: "On."},
		{At: second, Start: rat(2000), Speed: rat(60), View: LinkageView, Link: "secant-gear"},
		{At: 3 * second / 2, Start: rat(2030), Speed: rat(0), View: CountersView},
		{At: 2 * second, Start: rat(2460), Speed: rat(600), View: BothView, Link: "wind-setter"},
		{At: 5 * second / 2, Start: rat(100), Speed: rat(30), View: BothView},
	}}
	s, err := NewScript(p, end)
	require.NoError(t, err)
	require.Equal(t, 72, s.Frames(), "3 s x 24000/1001 = 71.93: frames 0 to 71 begin in it")
	return s
}

// TestTakeTwo: the same film again, on one core, on three and on two with the
// truth hidden from none: the same bytes.
func TestTakeTwo(t *testing.T) {
	for _, l := range []Look{{Size: Size{640, 360}, Reveal: true}, {Size: Size{360, 640}, Light: look.Night}} {
		var takes []*sums
		for _, jobs := range []int{1, 3, 2} {
			e, end := flown(t, "slipping-drive")
			s := &sums{}
			r := Run{Engine: e, Script: tour(t, end), Look: l, Sinks: []Sink{s}, Jobs: jobs}
			require.NoError(t, r.Make(context.Background()))
			require.True(t, s.closed)
			require.Len(t, s.all, r.Script.Frames())
			takes = append(takes, s)
		}
		assert.Equal(t, takes[0].all, takes[1].all)
		assert.Equal(t, takes[0].all, takes[2].all)
		different := map[[32]byte]bool{}
		for _, h := range takes[0].all {
			different[h] = true
		}
		assert.Greater(t, len(different), 40, "the frames do move (one passage stands still)")
	}
}

// TestFrameByItself: what is repainted piece by piece is, to the last shade, what
// an artist draws who has drawn nothing before.
func TestFrameByItself(t *testing.T) {
	e, end := flown(t, "slipping-drive")
	s := tour(t, end)
	st, err := NewStudio(e, s, Look{Size: Size{800, 450}, Reveal: true})
	require.NoError(t, err)
	a := st.NewArtist()
	for i := range s.Frames() {
		m := take(e, s.Shot(i), true)
		st.settle(m)
		again := *m
		again.labels = m.labels.Clone()
		was := append([]byte(nil), a.Draw(m).Pix...)
		if i%7 == 3 {
			require.Equal(t, was, st.NewArtist().Draw(&again).Pix, "frame %d", i)
		}
	}
}

// TestTruthIsHidden: without reveal a frame knows nothing of the truth, and the two
// differ in a flight with something wrong.
func TestTruthIsHidden(t *testing.T) {
	e, end := flown(t, "slipping-drive")
	s, err := NewScript(Plan{Rate: Rate{1, 1}, Speed: big.NewRat(600, 1), View: BothView}, end)
	require.NoError(t, err)
	shot := s.Shot(s.Frames() - 1)
	shot.Tick = e.Faults()[0].Onset + 60*sim.TicksPerSecond
	m := take(e, shot, false)
	assert.Nil(t, m.Right)
	assert.Nil(t, m.Truth)
	assert.Nil(t, m.Faults)
	var l picture.Linkage
	m.linkage(e.Plan(), picture.NewGround(picture.Waters{}), &l)
	for i := range l.Links {
		assert.Equal(t, picture.Unjudged, l.Links[i].Stands)
	}
	r := take(e, shot, true)
	require.NotNil(t, r.Truth)
	r.linkage(e.Plan(), picture.NewGround(picture.Waters{}), &l)
	assert.Equal(t, picture.Broken, l.Links[picture.LinkDrive].Stands)
}

// TestStopped: a film that is stopped leaves no goroutine (see TestMain) and its
// sinks open.
func TestStopped(t *testing.T) {
	e, end := flown(t, "first-look")
	s, err := NewScript(Plan{Rate: Rate{25, 1}, Speed: big.NewRat(30, 1), View: CountersView}, end)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	sink := &sums{}
	r := Run{Engine: e, Script: s, Look: Look{Size: Size{320, 240}}, Sinks: []Sink{sink}, Told: func(done, _ int) {
		if done == 5 {
			stop()
		}
	}}
	require.ErrorIs(t, r.Make(ctx), context.Canceled)
	assert.False(t, sink.closed)
	assert.Less(t, len(sink.all), 10)
}

// TestSinkFails: the error of a sink ends the film.
func TestSinkFails(t *testing.T) {
	e, end := flown(t, "first-look")
	s, err := NewScript(Plan{Rate: Rate{25, 1}, Speed: big.NewRat(30, 1), View: CountersView}, end)
	require.NoError(t, err)
	r := Run{Engine: e, Script: s, Look: Look{Size: Size{320, 240}}, Sinks: []Sink{NewRaw(fullDisk{}, RGB24)}}
	require.ErrorIs(t, r.Make(context.Background()), errFull)
}
