package charttable

import (
	"errors"
	"strconv"
	"strings"

	"stillair/gui/look"
	"stillair/integrator/units"
)

// Place is a position that the counters may be set to, by name. At is asked
// when it is wanted, for some of them move.
type Place struct {
	Name string
	At   func() units.Position
}

// Fixed is a place that does not move.
func Fixed(name string, at units.Position) Place {
	return Place{name, func() units.Position { return at }}
}

// Offer adds a place to set the counters to, such as a fix. Of several with the
// same name the newest stays.
func (t *Table) Offer(p Place) { t.counters.offer(p) }

// Withdraw takes an offer back.
func (t *Table) Withdraw(name string) {
	c := t.counters
	for i, p := range c.offers {
		if p.Name == name {
			c.offers = append(c.offers[:i:i], c.offers[i+1:]...)
			c.showOffers()
			return
		}
	}
}

// offered are the places that every flight offers: where the marker stands and
// the start.
func (t *Table) offered() []Place {
	return []Place{
		{look.Text(look.SetToMarker), func() units.Position { return units.Position(t.moment.View.Marker) }},
		Fixed(look.Text(look.SetToStart), t.plan.Aircraft.Position),
	}
}

// parsePlace reads a position as flights write it: "47 10.0 S 178 30.0 E", or
// latitude and longitude in signed degrees, "[-47.1667, 178.5]".
func parsePlace(s string) (units.Position, error) {
	s = strings.TrimSpace(s)
	if !strings.Contains(s, ",") {
		return units.ParsePosition(strings.NewReplacer("°", " ", "′", " ", "'", " ").Replace(s))
	}
	s = strings.TrimSuffix(strings.TrimPrefix(s, "["), "]")
	lat, lon, _ := strings.Cut(s, ",")
	north, errN := signedDegrees(lat, 90)
	east, errE := signedDegrees(lon, 180)
	if errN != nil || errE != nil {
		return units.Position{}, errors.New(look.Text(look.PositionPairWrong))
	}
	return units.At(north, east), nil
}

// signedDegrees reads degrees from -limit to limit.
func signedDegrees(s string, limit float64) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || !(v >= -limit && v <= limit) {
		return 0, errors.New(s)
	}
	return v, nil
}
