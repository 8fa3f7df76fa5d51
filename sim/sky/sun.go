package sky

import (
	"math"

	"stillair/integrator/units"
)

// wave is a term A cos(B + C t) of VSOP87, t in thousands of Julian years of TT
// from J2000.0; A in 1e-8 radians or astronomical units.
type wave struct{ a, b, c float64 }

func sum(waves []wave, t float64) (total float64) {
	for i := range waves {
		w := &waves[i]
		total += w.a * math.Cos(w.b+math.Mod(w.c*t, 2*math.Pi))
	}
	return total
}

// The earth round the Sun by VSOP87D, ecliptic and equinox of date, cut as in
// NREL/TP-560-34302 table A4.2, and further where a term is below 0.06" (1e-6
// au in the distance). From memory.
var (
	earthL0 = [...]wave{
		{175347046, 0, 0}, {3341656, 4.6692568, 6283.07585}, {34894, 4.6261, 12566.1517},
		{3497, 2.7441, 5753.3849}, {3418, 2.8289, 3.5231}, {3136, 3.6277, 77713.7715},
		{2676, 4.4181, 7860.4194}, {2343, 6.1352, 3930.2097}, {1324, 0.7425, 11506.7698},
		{1273, 2.0371, 529.691}, {1199, 1.1096, 1577.3435}, {990, 5.233, 5884.927},
		{902, 2.045, 26.298}, {857, 3.508, 398.149}, {780, 1.179, 5223.694},
		{753, 2.533, 5507.553}, {505, 4.583, 18849.228}, {492, 4.205, 775.523},
		{357, 2.92, 0.067}, {317, 5.849, 11790.629}, {284, 1.899, 796.298},
		{271, 0.315, 10977.079}, {243, 0.345, 5486.778}, {206, 4.806, 2544.314},
		{205, 1.869, 5573.143}, {202, 2.458, 6069.777}, {156, 0.833, 213.299},
		{132, 3.411, 2942.463}, {126, 1.083, 20.775}, {115, 0.645, 0.98},
		{103, 0.636, 4694.003}, {102, 0.976, 15720.839}, {102, 4.267, 7.114},
		{99, 6.21, 2146.17}, {98, 0.68, 155.42}, {86, 5.98, 161000.69},
		{85, 1.3, 6275.96}, {85, 3.67, 71430.7}, {80, 1.81, 17260.15},
		{79, 3.04, 12036.46}, {75, 1.76, 5088.63}, {74, 3.5, 3154.69},
		{74, 4.68, 801.82}, {70, 0.83, 9437.76}, {62, 3.98, 8827.39},
		{61, 1.82, 7084.9}, {57, 2.78, 6286.6}, {56, 4.39, 14143.5},
		{56, 3.47, 6279.55}, {52, 0.19, 12139.55}, {52, 1.33, 1748.02},
		{51, 0.28, 5856.48}, {49, 0.49, 1194.45}, {41, 5.37, 8429.24},
		{41, 2.4, 19651.05}, {39, 6.17, 10447.39}, {37, 6.04, 10213.29},
		{37, 2.57, 1059.38}, {36, 1.71, 2352.87}, {36, 1.78, 6812.77},
		{33, 0.59, 17789.85}, {30, 0.44, 83996.85}, {30, 2.74, 1349.87},
	}
	earthL1 = [...]wave{
		{628331966747, 0, 0}, {206059, 2.678235, 6283.07585}, {4303, 2.6351, 12566.1517},
		{425, 1.59, 3.523}, {119, 5.796, 26.298}, {109, 2.966, 1577.344},
	}
	earthL2 = [...]wave{{52919, 0, 0}, {8720, 1.0721, 6283.0758}, {309, 0.867, 12566.152}}
	earthB0 = [...]wave{{280, 3.199, 84334.662}, {102, 5.422, 5507.553}, {80, 3.88, 5223.69},
		{44, 3.7, 2352.87}, {32, 4, 1577.34}}
	earthR0 = [...]wave{
		{100013989, 0, 0}, {1670700, 3.0984635, 6283.07585}, {13956, 3.05525, 12566.1517},
		{3084, 5.1985, 77713.7715}, {1628, 1.1739, 5753.3849}, {1576, 2.8469, 7860.4194},
		{925, 5.453, 11506.77}, {542, 4.564, 3930.21}, {472, 3.661, 5884.927},
		{346, 0.964, 5507.553}, {329, 5.9, 5223.694}, {307, 0.299, 5573.143},
		{243, 4.273, 11790.629}, {212, 5.847, 1577.344}, {186, 5.022, 10977.079},
		{175, 3.012, 18849.228}, {110, 5.055, 5486.778},
	}
	earthR1 = [...]wave{{103019, 1.10749, 6283.07585}, {1721, 1.0644, 12566.1517}, {702, 3.142, 0}}
	earthR2 = [...]wave{{4359, 5.7846, 6283.0758}, {124, 5.579, 12566.152}}
)

// sunOfDate is the Sun from the earth: geometric longitude and latitude on the
// ecliptic and mean equinox of date, and distance in astronomical units.
func sunOfDate(centuries float64) (lon, lat units.Angle, distance float64) {
	t := centuries / 10
	turned := math.Mod(earthL1[0].a*1e-8*t, 2*math.Pi) // the many turns by themselves
	l := sum(earthL0[:], t) + t*(sum(earthL1[1:], t)+t*sum(earthL2[:], t))
	r := sum(earthR0[:], t) + t*(sum(earthR1[:], t)+t*sum(earthR2[:], t))
	const toFK5 = -0.09033 * arcSecond // 'Astronomical Algorithms' eq. 25.9, from memory
	lon = units.Angle(l*1e-8+turned+math.Pi) + toFK5
	return units.Wrap(lon), units.Angle(-1e-8 * sum(earthB0[:], t)), r * 1e-8
}

// Aberration and parallax: kappa (also as the Sun shows it) and the Sun's horizontal parallax at 1 au
// (IAU 1976), its semidiameter there (Auwers); all from memory.
const (
	aberration      = 20.49552 * arcSecond
	sunAberration   = 20.4898 * arcSecond // aberration (1 - e^2), over the distance
	sunParallax     = 8.794 * arcSecond
	sunSemidiameter = 959.63 * arcSecond
)

// velocity is the earth's, in units of the velocity of light, on the ecliptic of
// date, from the Sun's longitude and the shape of the orbit (eccentricity and
// perihelion: 'Astronomical Algorithms' ch. 23, from memory). The wobble of the
// Sun round the centre of mass, below 0.01", is left out.
func velocity(t float64, sunLon units.Angle) vector {
	e := 0.016708634 - 0.000042037*t
	sinW, cosW := math.Sincos(degrees(102.93735 + 1.71946*t))
	sinL, cosL := math.Sincos(sunLon.Radians())
	k := aberration.Radians()
	return vector{k * (sinL - e*sinW), -k * (cosL - e*cosW), 0}
}
