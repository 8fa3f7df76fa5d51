package integrator

import (
	"math"

	"stillair/integrator/ground"
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// Trains is all that air log and repeater turn, behind the drive.
type Trains struct {
	Play        playOf    // of the two shafts
	North, East units.Sum // NM on the two shafts since the counters were set
	Air         train.State
	Ground      ground.State
}

// run turns everything by the miles behind the drive of a step of dt seconds in
// which the repeater went from one heading to another.
func (t *Trains) run(miles float64, from, to units.TrueHeading, dt float64, w *Imperfections, gear *train.Imperfection) {
	north, east := resolve(miles, from, to, &w.Resolver)
	north, east = t.Play.follow(north, east, &w.Drive)
	t.North.Add(north)
	t.East.Add(east)
	t.turn(north, east, dt, &w.Ground, gear)
}

// turn turns the two pairs of trains, and the marker if its drive is wrong.
func (t *Trains) turn(north, east, dt float64, w *ground.Imperfection, gear *train.Imperfection) {
	driven := w.Marker.Driven()
	var from units.GroundPosition
	if driven {
		from = t.Ground.Position(w.Design, t.AirPosition())
	}
	t.Air.Turn(north, east, gear)
	t.Ground.Turn(north, east, dt, w)
	if driven {
		t.Ground.Drive(from, t.Ground.Position(w.Design, t.AirPosition()), &w.Marker)
	}
}

func (t *Trains) set(p units.Position) {
	t.North, t.East, t.Play = units.Sum{}, units.Sum{}, playOf{}
	t.Air.Set(p)
	t.Ground.Reset(p)
}

func (t *Trains) slewLatitude(by units.Angle, play float64) {
	t.Air.Knob(by.Minutes(), 0)
	t.Play.North.Turn(by.Minutes(), play)
}

func (t *Trains) slewLongitude(by units.Angle, play float64) {
	t.Air.Knob(0, by.Minutes())
	t.Play.East.Turn(by.Minutes()*math.Cos(float64(t.AirPosition().Lat)), play)
}

// mirror has the longitude counter mean the other side of Greenwich.
func (t *Trains) mirror() {
	lon := &t.Air.Lon
	lon.Total, lon.Lost = -lon.Total, -lon.Lost
}

// Shafts are the northing and easting since the counters were set.
func (t *Trains) Shafts() (north, east units.Length) {
	return units.Length(t.North.Total) * units.NM, units.Length(t.East.Total) * units.NM
}

// AirPosition is what the air counters stand at, unwrapped.
func (t *Trains) AirPosition() units.AirPosition { return units.AirPosition(t.Air.Position()) }

// GroundPosition is what the ground counters stand at.
func (t *Trains) GroundPosition(c *Config) units.GroundPosition {
	return t.Ground.Position(c.Ground, t.AirPosition())
}
