package sky

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"stillair/integrator/units"
)

//go:embed stars.csv
var starsCSV string

// entry is a star: where it stood at J2000.0, and how it moves in space.
type entry struct {
	Star
	place    vector  // at J2000.0, mean equator and equinox of J2000.0
	motion   vector  // of that a Julian year
	parallax float64 // radians; also the reciprocal of the distance in au
}

// catalogue holds the stars by Body; entry 0 is empty.
var catalogue = mustCatalogue()

// mustCatalogue reads the embedded file. A file that does not read is a fault
// of the build, which every test meets at once.
func mustCatalogue() (all [lastStar + 1]entry) {
	table, err := csv.NewReader(strings.NewReader(starsCSV)).ReadAll()
	if err != nil || len(table) != len(all) {
		panic(fmt.Sprintf("stars.csv: %d lines, want %d: %v", len(table), len(all), err))
	}
	column := map[string]int{}
	for i, name := range table[0] {
		column[name] = i
	}
	for i, row := range table[1:] {
		number := func(name string) float64 {
			v, err := strconv.ParseFloat(row[column[name]], 64)
			if err != nil {
				panic(fmt.Sprintf("stars.csv line %d: %s: %v", i+2, name, err))
			}
			return v
		}
		all[i+1] = newEntry(number)
		all[i+1].Name, all[i+1].Bayer = row[column["name"]], row[column["bayer"]]
	}
	return all
}

// newEntry makes an entry from the columns of a row.
func newEntry(number func(column string) float64) entry {
	ra := units.Angle(number("RA_J2000_deg")) * units.Degree
	dec := units.Angle(number("Dec_J2000_deg")) * units.Degree
	mas := arcSecond.Radians() / 1000
	e := entry{
		Star:     Star{Magnitude: number("V_mag")},
		place:    spherical(ra, dec),
		parallax: number("parallax_mas") * mas,
	}
	const kmPerSecond = 1 / 4.740470464 // in au a Julian year; from memory
	east, north := spherical(ra+90*units.Degree, 0), spherical(ra, dec+90*units.Degree)
	e.motion = vector{}.plus(number("pmRA_cosDec_mas_yr")*mas, east).
		plus(number("pmDec_mas_yr")*mas, north).
		plus(number("radial_velocity_km_s")*kmPerSecond*e.parallax, e.place)
	return e
}

// mean is the direction of a star after years, mean equator and equinox of
// J2000.0, not yet drawn to length 1.
func (e *entry) mean(years float64) vector { return e.place.plus(years, e.motion) }
