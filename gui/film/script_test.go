package film

import (
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
)

// 24000/1001: the rate of film on colour television (SMPTE ST 12-1 calls it 23.976,
// from memory): 24000 frames last 1001 s exactly.
func TestRates(t *testing.T) {
	for text, want := range map[string]Rate{
		"24": {24, 1}, "25": {25, 1}, "30": {30, 1}, "50": {50, 1}, "60": {60, 1}, "1": {1, 1}, "120": {120, 1},
		"24000/1001": {24000, 1001}, "30000/1001": {30000, 1001}, "60000/1001": {60000, 1001},
	} {
		r, err := ParseRate(text)
		require.NoError(t, err)
		assert.Equal(t, want, r)
		assert.Equal(t, text, r.String())
	}
	for _, bad := range []string{"", "0", "-25", "29.97", "121", "1/2", "25/0", "25/", "/2", "x", "25/1/1", "9999999999999999999"} {
		_, err := ParseRate(bad)
		assert.ErrorContains(t, err, "1 to 120", bad)
	}
	film := Rate{24000, 1001}
	assert.Zero(t, film.Time(24000).Cmp(big.NewRat(1001, 1)))
	assert.Zero(t, Rate{30, 1}.Time(45).Cmp(big.NewRat(3, 2)))
}

// Hundredths of a second add up to the film, to half a hundredth.
func TestCentiseconds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Rate{rapid.Int64Range(1, 60000).Draw(t, "num"), rapid.Int64Range(1, 1001).Draw(t, "den")}
		sum := 0
		for i := range 300 {
			sum += r.Centiseconds(i)
			exact, _ := r.Time(i + 1).Float64()
			require.InDelta(t, exact*100, float64(sum), 0.5+1e-6)
		}
	})
	assert.Equal(t, []int{3, 4, 3}, []int{Rate{30, 1}.Centiseconds(0), Rate{30, 1}.Centiseconds(1), Rate{30, 1}.Centiseconds(2)})
}

func TestSizes(t *testing.T) {
	for text, want := range map[string]shape{"1920x1080": wide, "1080x1920": tall, "1080x1080": square, "1024x768": wide, "768x1024": tall, "1000x800": square} {
		s, err := ParseSize(text)
		require.NoError(t, err)
		assert.Equal(t, text, s.String())
		assert.Equal(t, want, s.shape(), text)
	}
	for _, bad := range []string{"", "1920", "1920x", "x1080", "1920x1080x2", "239x240", "7681x240", "-640x480", "640 x 480", "640x4e2"} {
		_, err := ParseSize(bad)
		assert.ErrorContains(t, err, "240 to 7680", bad)
	}
}

func TestEveryLinkHasAName(t *testing.T) {
	seen := map[string]bool{}
	for l, name := range Links() {
		assert.NotEmpty(t, name, "link %d", l)
		assert.False(t, seen[name], name)
		seen[name] = true
		assert.Equal(t, picture.Link(l), linkOf(name))
	}
	assert.Len(t, seen, int(picture.LinkCount))
	assert.Equal(t, picture.LinkResolver, linkOf("resolver"))
	assert.Equal(t, picture.LinkMarker, linkOf("marker"))
	assert.Equal(t, picture.NoLink, linkOf("flywheel"))
	assert.Equal(t, picture.NoLink, linkOf(""))
}

// One passage: frame n shows the tick at n x speed / rate seconds; a flight of an
// hour at 30 to 1 is two minutes of film, its last frame the end of the flight.
func TestPlainScript(t *testing.T) {
	s, err := NewScript(Plan{Rate: Rate{25, 1}, Speed: big.NewRat(30, 1), View: ChartView}, time.Hour)
	require.NoError(t, err)
	assert.Equal(t, 120*25+1, s.Frames())
	assert.Equal(t, Shot{Frame: 0, View: ChartView, Link: picture.NoLink, Fast: true}, s.Shot(0))
	assert.Equal(t, int64(19), s.Shot(1).Tick, "1.2 s are 19.2 ticks")
	assert.Equal(t, int64(3600*sim.TicksPerSecond), s.Shot(s.Frames()-1).Tick)
	assert.False(t, s.Captioned())

	s, err = NewScript(Plan{Rate: Rate{24000, 1001}, Speed: big.NewRat(1, 4), From: time.Minute, To: time.Minute + 10*time.Second, View: ChartView}, time.Hour)
	require.NoError(t, err)
	assert.Equal(t, 960, s.Frames(), "40 s x 24000/1001 = 959.04")
	assert.Equal(t, int64(60*sim.TicksPerSecond), s.Shot(0).Tick)
	assert.False(t, s.Shot(0).Fast)
	assert.Equal(t, [2]int64{60 * sim.TicksPerSecond, s.Shot(959).Tick}, [2]int64{s.from, s.to})

	_, err = NewScript(Plan{Rate: Rate{25, 1}, Speed: big.NewRat(30, 1), From: time.Hour, View: ChartView}, time.Hour)
	assert.ErrorContains(t, err, "the flight ends at 1h0m0s")
	_, err = NewScript(Plan{Rate: Rate{120, 1}, Speed: big.NewRat(1, 100), View: ChartView}, 48*time.Hour)
	assert.ErrorContains(t, err, "more than 864000 frames")
}

// A cue file: stands, runs to a time, cuts back, and ends when the flight does.
func TestCues(t *testing.T) {
	p := Plan{Rate: Rate{10, 1}, Speed: big.NewRat(30, 1), View: ChartView}
	c, err := scenarios.LoadCues("cues.toml", strings.NewReader(`
[[cue]]
at = "0s"
flight = "10m"
speed = 0
caption = "Still."
[[cue]]
at = "2s"
view = "both"
link = "drive"
[[cue]]
at = "4s"
flight = "10m"
[[cue]]
at = "5s"
flight = "11m"
speed = 60
link = ""
caption = ""
[[cue]]
at = "6s"
flight = "5m"
speed = 600
`), p.Rules())
	require.NoError(t, err)
	p.Cues = c
	s, err := NewScript(p, 20*time.Minute)
	require.NoError(t, err)
	assert.Equal(t, 60+15+1, s.Frames(), "15 minutes at 600 to 1 are 1.5 s")
	minutes := func(frame int) float64 { return float64(s.Shot(frame).Tick) / sim.TicksPerSecond / 60 }
	assert.Equal(t, []float64{10, 10, 10, 10.5, 11, 5, 6, 20},
		[]float64{minutes(0), minutes(19), minutes(39), minutes(45), minutes(50), minutes(60), minutes(61), minutes(75)})
	assert.Equal(t, Shot{Frame: 19, Tick: 9600, View: ChartView, Link: picture.NoLink, Caption: "Still."}, s.Shot(19))
	assert.Equal(t, Shot{Frame: 20, Tick: 9600, View: BothView, Link: picture.LinkDrive, Caption: "Still."}, s.Shot(20))
	assert.Equal(t, Shot{Frame: 50, Tick: 10560, View: BothView, Link: picture.NoLink, Fast: true}, s.Shot(50))
	assert.True(t, s.Captioned())

	_, err = NewScript(p, 10*time.Minute+30*time.Second)
	assert.EqualError(t, err, "cues.toml:14: cue[4]: the flight is at 11m0s here and ends at 10m30s: must be 0s to 10m30s")
}
