package film

import (
	"context"
	"math/big"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stillair/scenarios"
	"stillair/sim"
)

// flown is a shipped flight, flown to its end.
func flown(t testing.TB, name string) (*sim.Engine, time.Duration) {
	plan, _, err := scenarios.Open(name)
	require.NoError(t, err)
	e, err := sim.New(plan)
	require.NoError(t, err)
	e.Advance(1 << 40)
	return e, sim.TimeOf(e.Tick())
}

// discard counts what it is given.
type discard struct{ n int64 }

func (d *discard) Write(p []byte) (int, error) { d.n += int64(len(p)); return len(p), nil }

func BenchmarkRaw(b *testing.B) {
	for _, view := range Views() {
		b.Run(view, func(b *testing.B) {
			e, end := flown(b, "weather-triangle")
			s, err := NewScript(Plan{Rate: Rate{30, 1}, Speed: big.NewRat(30, 1), View: view}, end)
			require.NoError(b, err)
			s.frames = min(s.frames, b.N)
			b.ResetTimer()
			r := Run{Engine: e, Script: s, Look: Look{Size: Size{1920, 1080}}, Sinks: []Sink{NewRaw(&discard{}, RGBA)}}
			require.NoError(b, r.Make(context.Background()))
			b.ReportMetric(float64(s.frames)/b.Elapsed().Seconds(), "frames/s")
		})
	}
}
