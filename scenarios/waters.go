package scenarios

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"sort"
	"strings"
	"sync"

	"stillair/integrator/units"
)

//go:generate go run ./waters/gen -out waters/tern-islands.json

// WatersData is an invented piece of the earth: what a chart of it shows.
type WatersData struct {
	Name   string // as a flight names it: tern-islands
	Title  string // Tern Islands
	Line   string // the line under the title
	Coasts []Coast
	Places []Place
}

// Coast is the outline of one island: a ring that closes from the last point
// to the first, clockwise on the chart, and does not cross itself.
type Coast struct {
	Name   string
	Points []units.Position
}

// Place is a named point.
type Place struct {
	Name string
	Kind PlaceKind
	At   units.Position
}

// PlaceKind says what is at a place.
type PlaceKind string

// The kinds of place.
const (
	Port     PlaceKind = "port"
	Town     PlaceKind = "town"
	Airfield PlaceKind = "airfield"
	Seaplane PlaceKind = "alighting area"
	Cape     PlaceKind = "cape"
	Rock     PlaceKind = "rock"
	Island   PlaceKind = "island"
	Hill     PlaceKind = "hill"
	Bay      PlaceKind = "bay"
	Light    PlaceKind = "light"
	Beacon   PlaceKind = "beacon"        // sends for bearings
	Chain    PlaceKind = "chain station" // of the pulse chain
	Weather  PlaceKind = "weather station"
)

//go:embed waters/*.json
var watersFiles embed.FS

// Waters gives waters by name. The value is shared: read it, do not change it.
func Waters(name string) (*WatersData, error) {
	for _, w := range allWaters() {
		if w.Name == name {
			return w, nil
		}
	}
	return nil, fmt.Errorf("no waters %q; there are %s", name, strings.Join(watersNames(), ", "))
}

func watersNames() []string {
	var names []string
	for _, w := range allWaters() {
		names = append(names, w.Name)
	}
	return names
}

// Place finds a place by its name, letter case aside.
func (w *WatersData) Place(name string) (Place, bool) {
	for _, p := range w.Places {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Place{}, false
}

func (w *WatersData) placeNames() []string {
	names := make([]string, len(w.Places))
	for i, p := range w.Places {
		names[i] = p.Name
	}
	sort.Strings(names)
	return names
}

// watersFile is the form of the files: degrees, N and E +, longitude 0 to 360
// so that a ring across 180 is whole.
type watersFile struct {
	Name   string `json:"name"`
	Title  string `json:"title"`
	Line   string `json:"line"`
	Places []struct {
		Name string    `json:"name"`
		Kind PlaceKind `json:"kind"`
		Lat  float64   `json:"lat_deg"`
		Lon  float64   `json:"lon_deg"`
	} `json:"places"`
	Coasts []struct {
		Name   string       `json:"name"`
		Points [][2]float64 `json:"points_lat_lon_deg"`
	} `json:"coasts"`
}

var allWaters = sync.OnceValue(func() []*WatersData {
	files, err := watersFiles.ReadDir("waters")
	if err != nil {
		panic(err)
	}
	var all []*WatersData
	for _, f := range files {
		text, err := watersFiles.ReadFile(path.Join("waters", f.Name()))
		if err != nil {
			panic(err)
		}
		all = append(all, watersOf(f.Name(), text))
	}
	return all
})

// watersOf reads one embedded file; a bad one is a fault of the program.
func watersOf(name string, text []byte) *WatersData {
	var f watersFile
	if err := json.Unmarshal(text, &f); err != nil {
		panic(fmt.Sprintf("waters/%s: %v", name, err))
	}
	w := &WatersData{Name: f.Name, Title: f.Title, Line: f.Line}
	for _, p := range f.Places {
		w.Places = append(w.Places, Place{p.Name, p.Kind, at(p.Lat, p.Lon)})
	}
	for _, c := range f.Coasts {
		ring := make([]units.Position, len(c.Points))
		for i, p := range c.Points {
			ring[i] = at(p[0], p[1])
		}
		w.Coasts = append(w.Coasts, Coast{c.Name, ring})
	}
	return w
}

// at makes a position with its longitude in [-180, 180).
func at(lat, lon float64) units.Position {
	return units.At(lat, units.WrapHalfDegrees(lon))
}
