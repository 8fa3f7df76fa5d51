package film

import (
	"context"
	"image"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

// discard counts what it is given.
type discard struct{ n int64 }

func (d *discard) Write(p []byte) (int, error) { d.n += int64(len(p)); return len(p), nil }

// BenchmarkRaw is a whole film at 1920x1080, raw: moments, frames on all cores, in
// order.
func BenchmarkRaw(b *testing.B) {
	for _, view := range Views() {
		for _, reveal := range []bool{false, true} {
			name := view
			if reveal {
				name += "-revealed"
			}
			b.Run(name, func(b *testing.B) {
				e, end := flown(b, "weather-triangle")
				s, err := NewScript(Plan{Rate: Rate{30, 1}, Speed: big.NewRat(30, 1), View: view}, end)
				require.NoError(b, err)
				s.frames = min(s.frames, b.N)
				b.ResetTimer()
				r := Run{Engine: e, Script: s, Look: Look{Size: Size{1920, 1080}, Reveal: reveal}, Sinks: []Sink{NewRaw(&discard{}, RGBA)}}
				require.NoError(b, r.Make(context.Background()))
				b.ReportMetric(float64(s.frames)/b.Elapsed().Seconds(), "frames/s")
			})
		}
	}
}

// BenchmarkPNG is one frame made a PNG.
func BenchmarkPNG(b *testing.B) {
	e, end := flown(b, "weather-triangle")
	s, err := NewScript(Plan{Rate: Rate{30, 1}, Speed: big.NewRat(30, 1), View: ChartView}, end)
	require.NoError(b, err)
	st, err := NewStudio(e, s, Look{Size: Size{1920, 1080}})
	require.NoError(b, err)
	m := take(e, s.Shot(600), false)
	st.settle(m)
	var im *image.RGBA = st.NewArtist().Draw(m)
	p, err := NewPNGs(b.TempDir(), 1)
	require.NoError(b, err)
	for b.Loop() {
		_, err := p.Encode(0, im)
		require.NoError(b, err)
	}
}
