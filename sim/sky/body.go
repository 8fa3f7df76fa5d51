package sky

import (
	"fmt"
	"strings"
	"unicode"
)

// Body is a body of the sky: a star of navigation by its number, 1 to 57, then
// Polaris, Sun and Moon. The zero value is none.
type Body uint8

// The bodies that have a name here; the others are found by Lookup or number.
const (
	Polaris Body = 58 + iota
	Sun
	Moon

	Count = int(Moon)
)

// lastStar is Polaris: stars are 1 to lastStar.
const lastStar = Polaris

// Bodies are all bodies, in order.
func Bodies() (all [Count]Body) {
	for i := range all {
		all[i] = Body(i + 1)
	}
	return all
}

// Valid tells whether there is such a body.
func (b Body) Valid() bool { return b > 0 && b <= Moon }

// IsStar tells whether it is a star.
func (b Body) IsStar() bool { return b > 0 && b <= lastStar }

// String is the name, as the almanac prints it.
func (b Body) String() string {
	switch {
	case b == Sun:
		return "Sun"
	case b == Moon:
		return "Moon"
	case b.IsStar():
		return catalogue[b].Name
	}
	return "no body"
}

// Star is what the catalogue says of a star, beside its place.
type Star struct {
	Name, Bayer string
	Magnitude   float64 // visual
}

// Star tells of a star; the zero value for Sun, Moon and no body.
func (b Body) Star() Star {
	if !b.IsStar() {
		return Star{}
	}
	return catalogue[b].Star
}

// Magnitude is the visual magnitude: of a star by the catalogue; -26.7 for the
// Sun and -12.7 for the Moon (full), common values from memory.
func (b Body) Magnitude() float64 {
	switch b {
	case Sun:
		return -26.7
	case Moon:
		return -12.7
	}
	return b.Star().Magnitude
}

// Lookup finds a body by its name or, for a star, its Bayer designation (alpha
// Cen). Capitals, blanks and marks between the letters do not count.
func Lookup(name string) (Body, error) {
	want := letters(name)
	for _, b := range Bodies() {
		if want == letters(b.String()) || b.IsStar() && want == letters(catalogue[b].Bayer) {
			return b, nil
		}
	}
	if want == "rigilkent" { // the almanac's short form, from memory
		return 38, nil
	}
	return 0, fmt.Errorf("%q is no body of the sky kept here: Sun, Moon, or one of the 57 selected stars or Polaris by its name", name)
}

// letters are the letters and figures of a name, small.
func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}
