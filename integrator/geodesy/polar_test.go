package geodesy

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRhumbDirectNearPoles: expected values computed with mpmath 1.3.0 at 50
// digits from the defining integrals (meridian arc by quadrature of M, latitude
// by root finding, longitude by the closed form of the isometric latitude), the
// inputs taken as the exact float64. A longitude far up counts by its parallel.
func TestRhumbDirectNearPoles(t *testing.T) {
	for _, r := range [][6]float64{ // lat1, lon1, course, metres, lat2, lon2
		{-89.99999999985475, 131.02073460788108, -78.79227909669463, 17703698.85864732, -59.16418805816573801455, 142.53431906359971253},
		{89.99999999975692, -121.87980602443957, 124.49862161465774, 19373633.240457956, -8.780712094984193465534, -28.788973605173165756},
		{89.9999, 10, 91, 1000000, 89.84364800732868091709, 31.589531257712318691},
		{-89.5, -170, 45, 500000, -86.33457408260594206888, -55.843145186205425255},
		{89, 0, 89.5, 100000, 89.00781292079813564562, 51.499232093746241644},
		{85, 30, 60, 1000000, 89.47664497843139522082, -105.96395803890328504},
		{80, 0, 10, 1116825.857429442, 89.8480930244969634528, 42.325768536019505776},
		{89.9, 0, 90.0000001, 50000, 89.89999999921870609729, -103.51433625886666462},
		{-89.99999, 175, 300, 15000000, -22.61556390393539623786, 42.576531906608331198},
		{60, -179.5, 5, 3300000, 89.45878529412768807016, -159.26136766138600072},
	} {
		lat, lon, err := RhumbDirectDegrees(r[0], r[1], r[2], r[3])
		require.NoError(t, err, r)
		assert.InDelta(t, r[4], lat, 1e-13, r)
		assert.LessOrEqual(t, apart(lat, lon, r[4], r[5]), toolTolerance, r)
	}
}
