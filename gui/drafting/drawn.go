package drafting

import (
	"strings"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/flights"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/scenarios/edit"
	"stillair/sim"
)

// Drawn is the route of a plan for the chart: turning points with letter and time, legs
// with track, distance and duration. A route that cannot be held ends where it cannot.
func Drawn(p *sim.Plan) picture.DraftRoute {
	r := picture.DraftRoute{Held: -1}
	if p == nil {
		return r
	}
	planned := atlas.Planned(p)
	start := p.Aircraft.Position
	if len(planned) > 0 {
		start = planned[0].From
	}
	r.Points = append(r.Points, picture.DraftPoint{At: start, Label: units.TimeText(p.Start)})
	for _, l := range planned {
		track, far := geodesy.RhumbInverse(l.From, l.To)
		words := units.TrueText(track) + "  " + units.DistanceText(far) + "  " + flights.LengthText((l.Ends - l.Begins).Round(time.Minute))
		r.Points = append(r.Points, picture.DraftPoint{At: l.To, Label: l.Letter + " " + units.TimeText(p.Start.Add(l.Ends)), Words: words})
	}
	return r
}

// shownPlaces is how near places must be to be shown with a short route.
const shownPlaces = 25 * units.NM

// Shown are the positions that a chart fitted to a plan shows: the route, and the places
// round its ends.
func Shown(p *sim.Plan) []units.Position {
	if p == nil {
		return nil
	}
	var all []units.Position
	for _, at := range Drawn(p).Points {
		all = append(all, at.At)
	}
	if w, err := scenarios.Waters(p.Waters); err == nil && len(all) > 0 {
		for _, place := range w.Places {
			if _, far := geodesy.RhumbInverse(all[0], place.At); far < 4*shownPlaces {
				all = append(all, place.At)
			}
		}
	}
	return all
}

// blank is a flight to begin with: half an hour out of a port, in still air.
const blank = `# A flight

schema = 1
title = "TITLE"
start = 1957-08-14T09:30:00Z
seed = 1
waters = "tern-islands"

[aircraft]
position = "POSITION"
heading_true_deg = 60
pressure_altitude_ft = 8000
tas_kt = 180

[[leg]]
track_true_deg = 60
duration = "30m"
`

// New is a new flight from the first port of the islands.
func New(name, title string) *edit.Draft {
	at := units.At(-47, 179)
	if w, err := scenarios.Waters("tern-islands"); err == nil {
		for _, p := range w.Places {
			if p.Kind == scenarios.Port {
				at = p.At
				break
			}
		}
	}
	text := strings.NewReplacer(`"TITLE"`, edit.Text(title).String(), `"POSITION"`, edit.Position(at).String()).Replace(blank)
	d, err := edit.New(name, []byte(text))
	if err != nil {
		panic(err) // a test loads it
	}
	return d
}
