package spread

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/internal/rows"
)

// scan reads figures out of a cell by its pattern.
func scan(t *testing.T, r rows.Row, column, pattern string, into ...any) {
	t.Helper()
	_, err := fmt.Sscanf(r.Text(column), pattern, into...)
	require.NoError(t, err, "%v: %s", r, r.Text(column))
}

// TestFixStatistics: every row of the table of fix statistics but the last, which
// is of three position lines and not of this package. Its sources are named in it:
// published pages, and scipy and numpy by other routes than the code here.
func TestFixStatistics(t *testing.T) {
	seen := map[string]int{}
	circle := Ellipse{Major: 1, Minor: 1}
	for _, r := range rows.Read(t, "testdata/nav_fix_statistics.csv") {
		q := r.Text("quantity")
		seen[q]++
		switch q {
		case "CEP from the two sigmas, approximation": // good to its last digit, where exact is 1.17741
			assert.InDelta(t, r.Float("answer"), circle.Radius(0.5), r.Float("tolerance"), "%v", r)
		case "2 DRMS over CEP, circular":
			assert.InDelta(t, r.Float("answer"), 2*circle.DRMS()/circle.Radius(0.5), r.Float("tolerance"), "%v", r)
		case "probability inside DRMS":
			line := Ellipse{Major: 1}
			assert.InDelta(t, 63.2, 100*circle.Within(circle.DRMS()), 0.05, "%v", r)
			assert.InDelta(t, 68.3, 100*line.Within(line.DRMS()), 0.05, "%v", r)
		case "95 % radius over CEP, circular":
			assert.InDelta(t, r.Float("answer"), circle.Radius(0.95)/circle.Radius(0.5), r.Float("tolerance"), "%v", r)
		case "50 % and 95 % radius, sigma ratio k (larger sigma = 1)":
			var k, cep, r95, drms float64
			scan(t, r, "input", "k=%f", &k)
			scan(t, r, "answer", "CEP %f; R95 %f", &cep, &r95)
			scan(t, r, "detail", "DRMS %f;", &drms)
			e := Ellipse{Major: 1, Minor: k}
			assert.InDelta(t, cep, e.Radius(0.5), r.Float("tolerance"), "%v", r)
			assert.InDelta(t, r95, e.Radius(0.95), r.Float("tolerance"), "%v", r)
			assert.InDelta(t, drms, e.DRMS(), r.Float("tolerance"), "%v", r)
		case "scale of the error ellipse containing probability p":
			var p float64
			scan(t, r, "input", "p=%f", &p)
			assert.InDelta(t, r.Float("answer"), Scale(p), r.Float("tolerance"), "%v", r)
		case "two crossing position lines":
			crossing(t, r)
		case "DR error, constant independent biases":
			biases(t, r)
		case "DR error from a wind error with exponential correlation":
			correlated(t, r)
		case "probability that the position lies inside the triangle of three position lines":
		default:
			t.Fatalf("%v: nobody's: %s", r, q)
		}
	}
	assert.Equal(t, 10, len(seen))
	assert.Equal(t, 5, seen["50 % and 95 % radius, sigma ratio k (larger sigma = 1)"])
	assert.Equal(t, 5, seen["scale of the error ellipse containing probability p"])
	assert.Equal(t, 6, seen["two crossing position lines"])
	assert.Equal(t, 5, seen["DR error, constant independent biases"])
	assert.Equal(t, 6, seen["DR error from a wind error with exponential correlation"])
}

// crossing: the covariance of two position lines is worked here from
// P^-1 = n1 n1'/s1^2 + n2 n2'/s2^2 (navigation note 7.2), line 1 with its normal
// north; axes, bearing and radii are this package's.
func crossing(t *testing.T, r rows.Row) {
	var s1, s2, angle, major, minor, drms, cep, r95 float64
	scan(t, r, "input", "s1=%f s2=%f crossing %f deg correlation 0", &s1, &s2, &angle)
	scan(t, r, "answer", "semi-axes %f %f; DRMS %f; CEP %f; R95 %f", &major, &minor, &drms, &cep, &r95)
	sin, cos := math.Sincos(angle * math.Pi / 180)
	nn, ee, ne := 1/(s1*s1)+cos*cos/(s2*s2), sin*sin/(s2*s2), sin*cos/(s2*s2)
	d := nn*ee - ne*ne
	e := Covariance{ee / d, nn / d, -ne / d}.Ellipse()
	tol := r.Float("tolerance")
	for name, pair := range map[string][2]float64{
		"major": {major, e.Major}, "minor": {minor, e.Minor}, "drms": {drms, e.DRMS()}, "cep": {cep, e.Radius(0.5)}, "r95": {r95, e.Radius(0.95)},
	} {
		assert.InDelta(t, pair[0], pair[1], tol, "%v: %s", r, name)
	}
	if axis := strings.Fields(r.Text("detail")); axis[0] == "major" {
		want, err := strconv.ParseFloat(axis[2], 64)
		require.NoError(t, err)
		assert.InDelta(t, 0, math.Remainder(want-e.BearingDeg, 180), 0.005+1e-9, "%v", r)
	}
}

// biases: a flight to the east, so that along is east and across is north.
func biases(t *testing.T, r rows.Row) {
	var tas, hours, heading, speed, wind, along, across, drms, cep, r95 float64
	scan(t, r, "input", "TAS %f kt, %f h; heading sigma %f deg, speed sigma %f kt, wind sigma %f kt per component", &tas, &hours, &heading, &speed, &wind)
	scan(t, r, "answer", "along %f NM; across %f NM; DRMS %f NM", &along, &across, &drms)
	scan(t, r, "detail", "CEP %f; R95 %f", &cep, &r95)
	var l Law
	l.Sigma[Compass], l.Sigma[AirLog], l.Sigma[Wind] = heading, speed/tas, wind
	c := l.Growth(Way{Hours: hours, East: tas * hours})
	tol := 0.005 // the row's own, relative
	assert.InEpsilon(t, along, math.Sqrt(c.EE), tol, "%v", r)
	assert.InEpsilon(t, across, math.Sqrt(c.NN), tol, "%v", r)
	e := c.Ellipse()
	assert.InEpsilon(t, drms, e.DRMS(), tol, "%v", r)
	assert.InEpsilon(t, cep, e.Radius(0.5), tol, "%v", r)
	assert.InEpsilon(t, r95, e.Radius(0.95), tol, "%v", r)
}

// correlated: the closed form, and the process as it is drawn: its way over so
// many stretches in 6000 flights, two components each. The standard deviation of
// the estimate is sigma/sqrt(2 x 12000), 0.65 percent; four of them.
func correlated(t *testing.T, r rows.Row) {
	var sigma, tau, hours, want float64
	scan(t, r, "input", "sigma %f kt per component, correlation time %f h, elapsed %f h", &sigma, &tau, &hours)
	scan(t, r, "answer", "%f NM per component", &want)
	l := Law{WanderTime: time.Duration(tau * float64(time.Hour))}
	l.Sigma[Wander] = sigma
	c := l.Growth(Way{Hours: hours})
	assert.InEpsilon(t, want, math.Sqrt(c.NN), 1e-4, "%v", r)
	assert.InEpsilon(t, want, math.Sqrt(c.EE), 1e-4, "%v", r)

	const flights, perHour = 6000, 12
	n := int(math.Round(hours * perHour))
	sum := 0.0
	for k := range flights {
		s := source(1, k, Wander)
		for range 2 {
			p, way := l.process(&s), 0.0
			for range n {
				way += p.mean(&s) / perHour
			}
			sum += way * way
		}
	}
	assert.InEpsilon(t, want, math.Sqrt(sum/(2*flights)), 4/math.Sqrt(4*flights), "%v", r)
}

// Widely different axes, against the one-dimensional law (error function of the
// standard library) and the one of the circle.
func TestRadiusAtTheEnds(t *testing.T) {
	for _, r := range []float64{0.1, 0.5, 1, 2, 4} {
		assert.InDelta(t, math.Erf(r/math.Sqrt2), Ellipse{Major: 1}.Within(r), 1e-6, "%v", r)
		assert.InDelta(t, -math.Expm1(-r*r/2), Ellipse{Major: 1, Minor: 1}.Within(r), 1e-12, "%v", r)
	}
	assert.Zero(t, Ellipse{}.Radius(0.5))
	assert.Equal(t, Ellipse{}, Covariance{}.Ellipse())
}
