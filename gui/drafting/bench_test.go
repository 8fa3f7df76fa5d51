package drafting

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stillair/gui/atlas"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// BenchmarkDrag is what one movement of a turning point in the hand costs, on the longest
// shipped flight: aiming, checking by the loader, drawing anew.
func BenchmarkDrag(b *testing.B) {
	d := shipped(b, "weather-triangle")
	planned := atlas.Planned(d.Plan())
	to, err := geodesy.RhumbDirect(planned[1].To, 1, 9*units.NM)
	require.NoError(b, err)
	for b.Loop() {
		changes, err := MoveEnd(d, 2, to, 0)
		require.NoError(b, err)
		p, err := d.Try(changes...)
		require.NoError(b, err)
		Drawn(p)
	}
}

// BenchmarkRows is what showing a tab anew costs.
func BenchmarkRows(b *testing.B) {
	d := shipped(b, "weather-triangle")
	for b.Loop() {
		Rows(d, SettingsTab, "")
	}
}
