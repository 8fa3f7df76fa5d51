package atlas

import (
	"stillair/gui/picture"
	"stillair/scenarios"
	"stillair/sim"
)

// Coasts are those of the waters a plan flies over, without names: what a small
// chart shows. A plan without waters has none.
func Coasts(p *sim.Plan) (picture.Waters, error) {
	if p.Waters == "" {
		return picture.Waters{}, nil
	}
	data, err := scenarios.Waters(p.Waters)
	if err != nil {
		return picture.Waters{}, err
	}
	return picture.Waters{Coasts: coasts(data)}, nil
}
