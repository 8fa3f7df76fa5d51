package work

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"stillair/integrator/units"
	"stillair/sim/sky"
)

// bodyTopic is where a body of the sky stands.
func bodyTopic() Topic {
	return Topic{
		Name: "body",
		Help: "Sun, Moon or a star of navigation: its place, and altitude and azimuth as from the centre of the earth, " +
			"without refraction; UTC taken as UT1, 1900 to 2030",
		Example: "utc,lat_deg,lon_deg,body\n1957-08-14T09:30:00Z,-47.1667,178.5,Canopus\n",
		Forms: []Form{{
			Reads: []Column{
				Instant("utc"), Latitude("lat_deg"), Longitude("lon_deg"),
				{Name: "body", Parse: parseBody, Means: "Sun, Moon or a star's name"},
			},
			Adds: []string{"gha_deg", "declination_deg", "altitude_deg", "azimuth_deg"},
			Work: body,
		}},
	}
}

func body(in, out []float64) error {
	s, b := sky.At(timeOf(in[0])), sky.Body(in[3])
	gha, declination := s.Place(b)
	altitude, azimuth := s.Horizontal(b, units.At(in[1], units.WrapHalfDegrees(in[2])))
	out[0], out[1] = units.WrapDegrees(gha.Degrees()), declination.Degrees()
	out[2], out[3] = altitude.Degrees(), units.WrapDegrees(azimuth.Degrees())
	return nil
}

func parseBody(cell string) (float64, error) {
	b, err := sky.Lookup(shorten(cell))
	return float64(b), err
}

// The instants a topic reads: those of the world's sky.
var (
	firstInstant = time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)
	endOfTime    = time.Date(2031, 1, 1, 0, 0, 0, 0, time.UTC)
)

// Instant is a required column of times as RFC 3339 writes them, read as seconds
// of Unix time; a float64 keeps them to a quarter of a microsecond.
func Instant(name string) Column {
	return Column{Name: name, Parse: parseInstant,
		Means: "a time as RFC 3339 writes it, such as 1957-08-14T09:30:00Z"}
}

func parseInstant(cell string) (float64, error) {
	t, err := rfc3339(strings.ToUpper(cell))
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q is not a time as RFC 3339 writes it, such as 1957-08-14T09:30:00Z", shorten(cell))
	case t.Before(firstInstant) || !t.Before(endOfTime):
		return 0, fmt.Errorf("%s is outside 1900 to 2030", cell)
	}
	return float64(t.Unix()) + float64(t.Nanosecond())*1e-9, nil
}

// timeShape is the grammar of RFC 3339, which time.Parse takes less strictly.
var timeShape = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$`)

// rfc3339 reads a time strictly; a leap second is the beginning of the next.
func rfc3339(s string) (time.Time, error) {
	if !timeShape.MatchString(s) {
		return time.Time{}, errors.New("not of that shape")
	}
	leap := s[16:19] == ":60"
	if leap {
		s = s[:16] + ":59" + s[19:]
	}
	t, err := time.Parse(time.RFC3339, s)
	if err != nil || !leap {
		return t, err
	}
	t = t.UTC().Add(time.Second)
	if t.Hour() != 0 || t.Minute() != 0 {
		return t, errors.New("a leap second ends a day of UTC")
	}
	return t, nil
}

func timeOf(unix float64) time.Time {
	whole := int64(unix)
	return time.Unix(whole, int64((unix-float64(whole))*1e9)).UTC()
}
