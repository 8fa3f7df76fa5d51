package scenarios

import (
	"math"
	"strconv"
	"time"

	"stillair/integrator/isa"
	"stillair/integrator/units"
	"stillair/sim"
)

var steerKeys = []string{"heading_true_deg", "heading_magnetic_deg", "heading_compass_deg", "track_true_deg", "to"}

var legKeys = append([]string{"duration", "distance_nm", "cas_kt", "tas_kt",
	"pressure_altitude_ft", "climb_ft_min", "turn_rate_deg_s"}, steerKeys...)

func (l *loader) allLegs(t *table) {
	if !t.has("leg") {
		t.missing(t.node.line, "leg", "at least one [[leg]]")
	}
	climb := units.Speed(defaultClimb) * footPerMinute
	for i, n := range t.entries("leg") {
		lt := l.newTable(n, entry("leg", i+1), legKeys...)
		leg, ok := lt.leg(climb)
		climb = leg.Climb
		l.plan.Legs = append(l.plan.Legs, leg)
		l.legs = append(l.legs, legLines{lt, !ok})
	}
}

const footPerMinute = units.Speed(0.3048 / 60)

// leg reads one leg. A leg that orders neither a height nor a rate goes on
// with the climb in hand, at its rate. ok is false if its way or its end could
// not be read.
func (t *table) leg(climb units.Speed) (leg sim.Leg, ok bool) {
	leg = sim.Leg{Climb: climb, TurnRate: defaultTurnRate, Speed: t.speed()}
	steered := t.steer(&leg)
	ok = t.end(&leg) && steered
	if ft, ok := t.number("pressure_altitude_ft", minHeightFt, maxHeightFt, "ft"); ok {
		h := units.Length(ft) * units.Foot
		leg.Altitude = &h
		leg.Climb = defaultClimb * footPerMinute
	}
	if r, ok := t.number("climb_ft_min", minClimb, maxClimb, "ft/min"); ok {
		leg.Climb = units.Speed(r) * footPerMinute
	}
	if r, ok := t.number("turn_rate_deg_s", 0, maxTurnRate, "deg/s"); ok {
		leg.TurnRate = r
	}
	return leg, ok
}

// steer reads the one direction; were there several, all are checked.
func (t *table) steer(leg *sim.Leg) (ok bool) {
	t.onlyOne("", steerKeys...)
	for i, key := range steerKeys {
		if !t.has(key) {
			continue
		}
		leg.Steer = sim.Steer(i)
		if leg.Steer == sim.ToPlace {
			ok = t.place(leg)
		} else {
			leg.Direction, ok = t.direction(key)
		}
	}
	return ok
}

// place reads where a leg goes to: a place of the waters, or a position.
func (t *table) place(leg *sim.Leg) bool {
	v, ok := t.get("to", `the name of a place, or a position such as "47 10.0 S 178 30.0 E"`, stringKind, arrayKind)
	if !ok {
		return false
	}
	if v.kind == arrayKind {
		leg.Target, ok = t.position("to")
		leg.Place = leg.Target.String()
		return ok
	}
	if t.waters != nil {
		if p, ok := t.waters.Place(v.text); ok {
			leg.Place, leg.Target = p.Name, p.At
			return true
		}
	}
	p, why := positionOfText(v.text)
	leg.Place, leg.Target = v.text, p
	switch {
	case why == "":
		return true
	case looksLikePosition(v.text):
		t.bad("to", "%s", why)
	case t.waters == nil:
		t.bad("to", "no such place: the flight has no waters, so it %s", positionForm)
	default:
		t.bad("to", "no such place in %s%s", t.waters.Name, t.meant(v.text, t.waters.placeNames(), "places"))
	}
	return false
}

// end reads what ends a leg; ok is false if it cannot be told.
func (t *table) end(leg *sim.Leg) (ok bool) {
	if t.has("to") {
		for _, k := range []string{"duration", "distance_nm"} {
			if t.has(k) {
				t.bad(k, "not with to: that leg ends at the place")
			}
		}
		return true
	}
	t.onlyOne("", "duration", "distance_nm")
	if t.has("duration") {
		leg.Ticks, ok = t.duration("duration", false)
	}
	if v, got := t.get("distance_nm", "a number above 0", wholeKind, numberKind); got {
		if ok = v.num > 0 && v.num <= maxDistance; ok {
			leg.Distance = units.Length(v.num) * units.NM
		} else {
			t.bad("distance_nm", "must be above 0, up to %d NM", maxDistance)
		}
	}
	return ok
}

// maxDistance is more than 48 h at any legal true airspeed, NM.
const maxDistance = 48 * 700

// checkSpeeds follows the ordered speeds and heights and sees that no leg
// wants to fly faster than sound.
func (l *loader) checkSpeeds(start *table) {
	p := l.plan
	if start == nil || p.Aircraft.Speed.Speed == 0 {
		return
	}
	speed, height := p.Aircraft.Speed, p.Aircraft.PressureAltitude
	start.subsonic(speed, height, height)
	for i, leg := range p.Legs {
		from := height
		if leg.Speed != nil {
			speed = *leg.Speed
		}
		if leg.Altitude != nil {
			height = *leg.Altitude
		}
		if leg.Speed != nil || leg.Altitude != nil {
			l.legs[i].subsonic(speed, from, height)
		}
	}
}

// subsonic reports a speed that is not below that of sound at either height.
func (t *table) subsonic(s sim.SpeedOrder, heights ...units.Length) {
	for _, h := range heights {
		tas, sound := tasAt(t.plan, s, h)
		if tas < sound {
			continue
		}
		key := "pressure_altitude_ft"
		for _, k := range []string{"cas_kt", "tas_kt"} {
			if t.has(k) {
				key = k
			}
		}
		t.bad(key, "must be below the speed of sound: at %s ft that is %.0f kt, and this would be %.0f kt true",
			strconv.FormatFloat(math.Round(h.Feet()), 'f', -1, 64), sound.Knots(), tas.Knots())
		return
	}
}

// checkLength adds up the flight and reports the leg that takes it past 48 h.
// Legs by distance and to places are estimated: ordered true airspeed, no wind,
// a plane chart.
func (l *loader) checkLength() {
	p := l.plan
	at, speed, height := p.Aircraft.Position, p.Aircraft.Speed, p.Aircraft.PressureAltitude
	total := 0.0 // hours
	for i, leg := range p.Legs {
		if leg.Speed != nil {
			speed = *leg.Speed
		}
		if leg.Altitude != nil {
			height = *leg.Altitude
		}
		tas, _ := tasAt(p, speed, height)
		if !(tas > 0) {
			return // the start is bad, and reported
		}
		if l.legs[i].lost {
			continue // reported; without it the flight is shorter, never longer
		}
		hours := legHours(&leg, at, tas)
		total += hours
		if total > maxFlight.Hours() {
			l.legs[i].tooLong(total)
			return
		}
		at = legEnd(&leg, at, tas.Knots()*hours)
	}
}

func (t *table) tooLong(hours float64) {
	for _, k := range []string{"duration", "distance_nm", "to"} {
		if t.has(k) {
			t.bad(k, "with this leg the flight lasts about %.0f h: must be 48 h at most", math.Ceil(hours))
			return
		}
	}
}

// legHours estimates how long a leg lasts.
func legHours(leg *sim.Leg, at units.Position, tas units.Speed) float64 {
	switch {
	case leg.Steer == sim.ToPlace:
		north, east := apart(at, leg.Target)
		return math.Hypot(north, east) / tas.Knots()
	case leg.Ticks > 0:
		return float64(leg.Ticks) / float64(sim.TicksOf(time.Hour))
	}
	return leg.Distance.NM() / tas.Knots()
}

// legEnd is about where a leg ends.
func legEnd(leg *sim.Leg, at units.Position, nm float64) units.Position {
	if leg.Steer == sim.ToPlace {
		return leg.Target
	}
	s, c := math.Sincos(leg.Direction.Radians())
	lat := max(-89, min(89, at.Lat.Degrees()+nm*c/60))
	return units.At(lat, at.Lon.Degrees()+nm*s/60/math.Cos(lat*math.Pi/180))
}

// apart gives the way from a to b on a plane chart, NM.
func apart(a, b units.Position) (north, east float64) {
	mean := (a.Lat + b.Lat).Radians() / 2
	return (b.Lat - a.Lat).Minutes(), units.WrapHalf(b.Lon-a.Lon).Minutes() * math.Cos(mean)
}

// tasAt is the true airspeed of an order at a height, and the speed of sound.
func tasAt(p *sim.Plan, s sim.SpeedOrder, h units.Length) (tas, sound units.Speed) {
	t := isa.Temperature(h) + units.Temperature(p.Air.ISADeviation)
	if s.Kind == sim.HoldTAS {
		return s.Speed, isa.SpeedOfSound(t)
	}
	return isa.TASFromCAS(s.Speed, h, t), isa.SpeedOfSound(t)
}
