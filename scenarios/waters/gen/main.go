// Command gen draws the coasts of the Tern Islands. The islands are placed
// and shaped by hand (terns.go); a seeded generator adds bays, headlands and
// skerries. The same program gives the same coasts, always.
//
//	go generate ./scenarios
package main

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
)

func main() {
	out := flag.String("out", "", "file to write; absent: standard output")
	flag.Parse()
	text := generate()
	if *out == "" {
		fmt.Print(text)
		return
	}
	if err := os.WriteFile(*out, []byte(text), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// coast is one ring on the earth, degrees, longitude 0 to 360.
type coast struct {
	name string
	ring [][2]float64 // latitude, longitude
}

// coasts draws every island and its skerries.
func coasts() []coast {
	var all []coast
	for _, is := range islands {
		b := newBrush(is.name, is.rough, is.detail)
		ring := clockwise(b.draw(is.shape))
		all = append(all, coast{is.name, is.onEarth(ring)})
		for i, rock := range b.skerries(ring, is.skerries) {
			name := fmt.Sprintf("%s, skerry %d", is.name, i+1)
			all = append(all, coast{name, is.onEarth(clockwise(rock))})
		}
	}
	return all
}

// onEarth carries a ring from the plane to the earth and rounds it to 1e-4
// degree (11 m), so that every processor writes the same.
func (is *island) onEarth(ring []point) [][2]float64 {
	out := make([][2]float64, len(ring))
	for i, p := range ring {
		lat := is.lat + p.y/60
		lon := is.lon + p.x/60/math.Cos(is.lat*math.Pi/180)
		out[i] = [2]float64{round4(lat), round4(lon)}
	}
	return out
}

func round4(x float64) float64 { return math.Round(x*1e4) / 1e4 }

// generate writes the file.
func generate() string {
	var b strings.Builder
	b.WriteString("{\n\"name\": \"tern-islands\",\n\"title\": \"Tern Islands\",\n\"line\": \"Mercator, an invented sea\",\n\"places\": [\n")
	for i, p := range places {
		lat, lon := p.where()
		fmt.Fprintf(&b, "{\"name\": %q, \"kind\": %q, \"lat_deg\": %.4f, \"lon_deg\": %.4f}%s\n",
			p.name, p.kind, lat, lon, comma(i, len(places)))
	}
	b.WriteString("],\n\"coasts\": [\n")
	all := coasts()
	for i, c := range all {
		fmt.Fprintf(&b, "{\"name\": %q, \"points_lat_lon_deg\": [", c.name)
		for k, p := range c.ring {
			if k > 0 && k%8 == 0 {
				b.WriteString("\n ")
			}
			fmt.Fprintf(&b, "[%.4f,%.4f]%s", p[0], p[1], comma(k, len(c.ring)))
		}
		b.WriteString("]}" + comma(i, len(all)) + "\n")
	}
	b.WriteString("]\n}\n")
	return b.String()
}

func comma(i, n int) string {
	if i < n-1 {
		return ","
	}
	return ""
}
