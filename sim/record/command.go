package record

import (
	"fmt"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// command is one thing done in flight; one of its keys says which. Angles are in
// radians, speeds in m/s, so that they come back to the last bit.
type command struct {
	Tick         int64     `json:"tick"`
	SetVariation *float64  `json:"set_variation_rad,omitempty"`
	FollowField  bool      `json:"follow_field,omitempty"`
	SetWind      *wind     `json:"set_wind,omitempty"`
	SetCounters  *position `json:"set_counters,omitempty"`
	SlewLat      *float64  `json:"slew_latitude_rad,omitempty"`
	SlewLon      *float64  `json:"slew_longitude_rad,omitempty"`
	LeverEast    *bool     `json:"lever_east,omitempty"`
	Alternate    *bool     `json:"alternate_static,omitempty"`
	Resync       bool      `json:"resynchronise,omitempty"`
	Take         *reading  `json:"take,omitempty"`
	Break        *order    `json:"break,omitempty"`
	Mend         *int      `json:"mend,omitempty"`
	Signal       *int      `json:"signal,omitempty"`
	Hold         *hold     `json:"hold,omitempty"`
	Helm         *helm     `json:"helm,omitempty"`
}

// helm is what somebody at the helm ordered.
type helm struct {
	Heading float64 `json:"heading_rad"`
	TAS     float64 `json:"tas_m_s"`
	Wind    wind    `json:"wind"`
	Only    bool    `json:"heading_only,omitempty"` // airspeed and wind stay as they are
}

// reading is one taken through an aid: by a hand, with what it read, or by the crew.
type reading struct {
	Aim    string  `json:"aim"`
	Angle  float64 `json:"angle_rad,omitempty"`
	Delay  float64 `json:"delay_us,omitempty"`
	Before int64   `json:"before_ns,omitempty"`
	ByCrew bool    `json:"by_crew,omitempty"`
	Error  float64 `json:"error,omitempty"`
	Timing *timing `json:"timing,omitempty"`
}

// timing is something timed in the drift sight: by a hand, or by the crew.
type timing struct {
	Took  int64   `json:"took_ns,omitempty"`
	Error float64 `json:"error_s,omitempty"`
}

type wind struct {
	From  float64 `json:"from_rad"`
	Speed float64 `json:"speed_m_s"`
}

type position struct {
	Lat float64 `json:"lat_rad"`
	Lon float64 `json:"lon_rad"`
}

// order is a fault ordered in flight; times in ticks.
type order struct {
	ID     string    `json:"id"`
	At     int64     `json:"at"`
	For    int64     `json:"for,omitempty"`
	Shape  string    `json:"shape"`
	Ramp   int64     `json:"ramp,omitempty"`
	On     int64     `json:"on,omitempty"`
	Off    int64     `json:"off,omitempty"`
	Params []float64 `json:"params,omitempty"`
	Place  *position `json:"place,omitempty"`
	Within float64   `json:"within_m,omitempty"`
	Signal *int      `json:"waits_for_signal,omitempty"`
}

// hold is a hand put to an input, or taken off.
type hold struct {
	Input    string  `json:"input"`
	On       bool    `json:"on"`
	Heading  float64 `json:"heading_rad,omitempty"`
	Latitude float64 `json:"latitude_rad,omitempty"`
	Wind     *wind   `json:"wind,omitempty"`
	Speed    float64 `json:"speed_m_s,omitempty"`
}

var shapes = [...]string{fault.Step: "step", fault.Ramp: "ramp", fault.Intermittent: "intermittent"}

var handInputs = [...]string{
	sim.HandHeading: "heading", sim.HandLatitude: "latitude", sim.HandWind: "wind", sim.HandSpeed: "speed",
}

func to[T any](v T) *T { return &v }

func windTo(w units.Wind) *wind { return &wind{float64(w.From), float64(w.Speed)} }

func (w wind) of() units.Wind {
	return units.Wind{From: units.Angle(w.From), Speed: units.Speed(w.Speed)}
}

func positionTo(p units.Position) *position { return &position{float64(p.Lat), float64(p.Lon)} }

func (p position) of() units.Position {
	return units.Position{Lat: units.Angle(p.Lat), Lon: units.Angle(p.Lon)}
}

// commandTo writes a command of the engine.
func commandTo(c *sim.Command) *command {
	out := &command{Tick: c.Tick}
	switch c.Kind {
	case sim.Act:
		out.act(&c.Action)
	case sim.Break:
		out.Break = orderTo(&c.Order)
	case sim.Mend:
		out.Mend = &c.Fault
	case sim.Signal:
		out.Signal = &c.Signal
	case sim.AtHelm:
		out.Helm = &helm{float64(c.Helm.Heading), float64(c.Helm.TAS), *windTo(c.Helm.Wind), c.Helm.HeadingOnly}
	case sim.ByHand:
		h := &c.Hand
		out.Hold = &hold{
			Input: handInputs[h.Input], On: h.On, Heading: float64(h.Heading), Latitude: float64(h.Latitude),
			Wind: windTo(h.Wind), Speed: float64(h.Speed),
		}
	}
	return out
}

func (out *command) act(a *aboard.Action) {
	switch a.Kind {
	case aboard.SetVariation:
		out.SetVariation = to(float64(a.Variation))
	case aboard.FollowField:
		out.FollowField = true
	case aboard.SetWind:
		out.SetWind = windTo(a.Wind)
	case aboard.SetCounters:
		out.SetCounters = positionTo(a.Position)
	case aboard.SlewLatitude:
		out.SlewLat = to(float64(a.Slew))
	case aboard.SlewLongitude:
		out.SlewLon = to(float64(a.Slew))
	case aboard.SetLongitudeLever:
		out.LeverEast = &a.East
	case aboard.AlternateStatic:
		out.Alternate = &a.On
	case aboard.Resynchronise:
		out.Resync = true
	case aboard.TakeAid:
		r := &a.Reading
		out.Take = &reading{r.Aim.String(), float64(r.Angle), r.Delay, int64(r.Before), r.ByCrew, r.Error, timingTo(&r.Timing)}
	}
}

func orderTo(o *fault.Order) *order {
	out := &order{
		ID: o.ID, At: o.At, For: o.For, Shape: shapes[o.Shape], Ramp: o.RampTicks, On: o.On, Off: o.Off, Params: o.Params,
	}
	switch o.Trigger.Kind {
	case fault.ByPlace:
		out.Place, out.Within = positionTo(o.Trigger.Place), float64(o.Trigger.Within)
	case fault.BySignal:
		out.Signal = &o.Trigger.Signal
	}
	return out
}

// of is the command for the engine.
func (c *command) of() (out sim.Command, err error) {
	out.Tick = c.Tick
	switch {
	case c.Break != nil:
		out.Kind = sim.Break
		out.Order, err = c.Break.of()
	case c.Mend != nil:
		out.Kind, out.Fault = sim.Mend, *c.Mend
	case c.Signal != nil:
		out.Kind, out.Signal = sim.Signal, *c.Signal
	case c.Hold != nil:
		out.Kind = sim.ByHand
		out.Hand, err = c.Hold.of()
	case c.Helm != nil:
		out.Kind = sim.AtHelm
		out.Helm = sim.HelmOrder{Heading: units.TrueHeading(c.Helm.Heading), TAS: units.Speed(c.Helm.TAS), Wind: c.Helm.Wind.of(), HeadingOnly: c.Helm.Only}
	default:
		out.Action, err = c.action()
	}
	if c.Tick < 0 {
		err = fmt.Errorf("tick = %d: must not be negative", c.Tick)
	}
	return out, err
}

func (c *command) action() (a aboard.Action, err error) {
	switch {
	case c.SetVariation != nil:
		a.Kind, a.Variation = aboard.SetVariation, units.Variation(*c.SetVariation)
	case c.FollowField:
		a.Kind = aboard.FollowField
	case c.SetWind != nil:
		a.Kind, a.Wind = aboard.SetWind, c.SetWind.of()
	case c.SetCounters != nil:
		a.Kind, a.Position = aboard.SetCounters, c.SetCounters.of()
	case c.SlewLat != nil:
		a.Kind, a.Slew = aboard.SlewLatitude, units.Angle(*c.SlewLat)
	case c.SlewLon != nil:
		a.Kind, a.Slew = aboard.SlewLongitude, units.Angle(*c.SlewLon)
	case c.LeverEast != nil:
		a.Kind, a.East = aboard.SetLongitudeLever, *c.LeverEast
	case c.Alternate != nil:
		a.Kind, a.On = aboard.AlternateStatic, *c.Alternate
	case c.Resync:
		a.Kind = aboard.Resynchronise
	case c.Take != nil:
		a.Kind = aboard.TakeAid
		a.Reading, err = c.Take.of()
	default:
		err = fmt.Errorf("nothing is done that is known here")
	}
	return a, err
}

func timingTo(t *aboard.Timing) *timing {
	if !t.On {
		return nil
	}
	return &timing{int64(t.Took), t.Error}
}

func (t *timing) of() aboard.Timing {
	if t == nil {
		return aboard.Timing{}
	}
	return aboard.Timing{On: true, Took: time.Duration(t.Took), Error: t.Error}
}

func (r *reading) of() (out aboard.Reading, err error) {
	aim, ok := aboard.ParseAim(r.Aim)
	if !ok {
		return out, fmt.Errorf("aim = %q: no such aid", r.Aim)
	}
	return aboard.Reading{
		Aim: aim, Angle: units.Angle(r.Angle), Delay: r.Delay, Before: time.Duration(r.Before), ByCrew: r.ByCrew, Error: r.Error,
		Timing: r.Timing.of(),
	}, nil
}

func (o *order) of() (out fault.Order, err error) {
	out = fault.Order{ID: o.ID, At: o.At, For: o.For, RampTicks: o.Ramp, On: o.On, Off: o.Off, Params: o.Params}
	shape, ok := indexOf(shapes[:], o.Shape)
	if !ok {
		return out, fmt.Errorf("shape = %q: no such shape", o.Shape)
	}
	out.Shape = fault.Shape(shape)
	switch {
	case o.Place != nil:
		out.Trigger = fault.Trigger{Kind: fault.ByPlace, Place: o.Place.of(), Within: units.Length(o.Within)}
	case o.Signal != nil:
		out.Trigger = fault.Trigger{Kind: fault.BySignal, Signal: *o.Signal}
	}
	return out, nil
}

func (h *hold) of() (out sim.Hand, err error) {
	input, ok := indexOf(handInputs[:], h.Input)
	if !ok {
		return out, fmt.Errorf("input = %q: no such input", h.Input)
	}
	out = sim.Hand{
		Input: sim.HandInput(input), On: h.On, Heading: units.TrueHeading(h.Heading),
		Latitude: units.Angle(h.Latitude), Speed: units.Speed(h.Speed),
	}
	if h.Wind != nil {
		out.Wind = h.Wind.of()
	}
	return out, nil
}

func indexOf(all []string, word string) (int, bool) {
	for i, w := range all {
		if w == word {
			return i, true
		}
	}
	return 0, false
}
