package scene

import (
	"fmt"
	"math"
	"strconv"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/counter"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// fastRate is the time rate from which what runs too fast is drawn steady.
const fastRate = 30

// playStill draws the cards, keys and words of a visit.
func (e *easel) playStill() {
	p := e.p
	if e.in.Machine.Inside() {
		e.card(p.Steer)
		e.signs(p.Steer, conduct.SteerLess)
	} else {
		e.card(p.Side)
		e.dialCard(p.Steer, tongue.Steer, conduct.SteerLess)
		e.dialCard(p.Speed, tongue.Speed, conduct.SpeedLess)
		e.dialCard(p.Wind, tongue.Wind, conduct.WindLess)
	}
	e.bigKey()
	e.peepKey()
	e.languages()
	if p.Land.W > 0 {
		e.key(p.Land, e.say(tongue.Land, e.place()), e.text(25), false, true)
	}
	e.largerKey()
	e.againKey()
}

func (e *easel) place() tongue.Fill {
	if l := e.in.Machine.Exhibit().Landing; l != nil {
		return tongue.Fill{Name: "place", Value: l.Place}
	}
	return tongue.Fill{Name: "place"}
}

func (e *easel) signs(card paint.Rect, less conduct.Target) {
	for _, z := range e.p.Zones {
		if z.Target == less || z.Target == less+1 {
			e.sign(z.Box, z.Target == less+1)
		}
	}
}

// dialCard draws a control but for its knob and its value.
func (e *easel) dialCard(r paint.Rect, w tongue.Word, less conduct.Target) {
	e.card(r)
	e.write(r.X+e.p.px(24), r.Y+e.p.px(42), e.say(w), look.Bold, e.text(28), 0.42*r.W, paint.Start, e.c.Ink)
	e.signs(r, less)
}

// bigKey is what breaks and mends; in cloud there is none, after it the next try.
func (e *easel) bigKey() {
	r, f := e.p.Break, e.p.F
	switch _, broken := e.in.Machine.Broken(); {
	case e.in.Machine.Stage() == conduct.Result:
		e.plate(r, 8, e.c.BrassHi, e.c.BrassLo, 4*f)
		e.keyWords(r.Inset(22*f), e.say(tongue.Land, e.place()), e.text(34), e.c.OnBrass)
	case e.in.Machine.InCloud():
		e.card(r)
	case broken:
		e.plate(r, 8, e.c.BrassHi, e.c.BrassLo, 4*f)
		e.pictured(r, e.say(tongue.Mend), e.c.OnBrass, func(m paint.Point, k float64) {
			var p paint.Path
			p.Polyline(m.Add(-44*k, 2*k), m.Add(-12*k, 34*k), m.Add(48*k, -34*k))
			e.d.Stroke(&p, paint.Pen{Width: 12 * k}, e.c.OnBrass)
		})
	default:
		e.plate(r, 8, e.c.VermFill, e.c.Verm, 4*f)
		e.pictured(r, e.say(tongue.Break), e.c.Ink, func(m paint.Point, k float64) { e.b.FaultDiamond(m, 3.6*k) })
	}
}

// pictured draws words under a picture, or beside it where the key is low.
func (e *easel) pictured(r paint.Rect, s string, ink colour, draw func(paint.Point, float64)) {
	f := e.p.F
	if r.H < 150*f {
		k := math.Min(f, r.H/120)
		draw(paint.Pt(r.X+72*k, r.Y+r.H/2), 0.85*k)
		e.keyWords(paint.R(r.X+124*k, r.Y+8*f, r.W-136*k, r.H-16*f), s, e.text(27), ink)
		return
	}
	k := math.Min(f, r.H/228)
	draw(paint.Pt(r.X+r.W/2, r.Y+0.34*r.H), k)
	e.keyWords(paint.R(r.X+20*f, r.Y+0.56*r.H, r.W-40*f, 0.40*r.H), s, e.text(34), ink)
}

// peepKey is the key to the inside and back.
func (e *easel) peepKey() {
	r, f := e.p.Peep, e.p.F
	switch {
	case r.W <= 0:
	case e.in.Machine.Inside():
		size := e.text(27)
		if r.H >= 150*f {
			size = e.text(34)
		}
		e.key(r, e.say(tongue.LookOutside), size, false, true)
	case r.H < 100*f || r.W < 400*f:
		e.key(r, e.say(tongue.LookInside), e.text(25), false, false)
	default:
		e.plate(r, 12, e.c.Low, e.c.SlateHi, 2*f)
		e.write(r.X+24*f, r.Y+36*f, e.say(tongue.LookInside), look.Bold, e.text(25), r.W-100*f, paint.Start, e.c.Ink)
		var p paint.Path
		x, y := r.Right()-44*f, r.Y+34*f
		p.Polyline(paint.Pt(x, y-10*f), paint.Pt(x+12*f, y), paint.Pt(x, y+10*f))
		e.d.Stroke(&p, paint.Pen{Width: 4 * f, Cap: paint.Round}, e.c.Ink)
	}
}

func (e *easel) languages() {
	chosen := -1
	if e.in.Machine.Stage() != conduct.Attract {
		chosen = e.in.Machine.Language()
	}
	size := e.text(25)
	for i, r := range e.p.Languages { // one size for all
		size = math.Min(size, shrunk(e.in.Names[i], look.Semibold, size, r.W-20*e.p.F))
	}
	for i, r := range e.p.Languages {
		e.key(r, e.in.Names[i], size, i == chosen, false)
	}
}

func (e *easel) largerKey() {
	r, f := e.p.Larger, e.p.F
	e.key(r, "", 0, false, false)
	w := tongue.Larger
	if e.in.Machine.Larger() {
		w = tongue.Smaller
	}
	m := r.Y + r.H/2
	e.write(r.X+24*f, m+11*f, "A", look.Bold, 25*f, r.W, paint.Start, e.c.Ink)
	e.write(r.X+46*f, m+11*f, "A", look.Bold, 38*f, r.W, paint.Start, e.c.Ink)
	e.keyWords(paint.R(r.X+86*f, r.Y+6*f, r.W-98*f, r.H-12*f), e.say(w), e.text(25), e.c.Ink)
}

func (e *easel) againKey() {
	r, f := e.p.Again, e.p.F
	e.key(r, "", 0, false, false)
	x, y := r.X+46*f, r.Y+r.H/2
	var p paint.Path
	e.d.Stroke(p.Arc(x, y, 16*f, 40, 330), paint.Pen{Width: 4 * f}, e.c.Ink)
	tip := paint.Polar(x, y, 16*f, 330)
	p.Reset().Polygon(tip.Add(-12*f, -9*f), tip.Add(12*f, -6*f), tip.Add(-2*f, 11*f))
	e.d.Fill(&p, e.c.Ink)
	e.keyWords(paint.R(r.X+78*f, r.Y+6*f, r.W-90*f, r.H-12*f), e.say(tongue.Again), e.text(25), e.c.Ink)
}

// playMoving draws what changes in a visit beside chart and mechanism.
func (e *easel) playMoving() {
	if e.in.Machine.Inside() {
		e.insideStrip()
		return
	}
	e.values()
	e.side()
	if e.in.Machine.Stage() == conduct.Cloud {
		e.countdown()
	}
}

// values draws the three knobs and what they are set to.
func (e *easel) values() {
	p, m := e.p, e.in.Machine
	value := func(r paint.Rect, s string) {
		e.write(r.Right()-p.px(24), r.Y+p.px(42), s, look.Engraved, e.text(27), 0.48*r.W, paint.End, e.c.Ink)
	}
	heading := m.Dial(conduct.Heading)
	value(p.Steer, threeFigures(heading))
	picture.ExhibitHeading(e.b, p.Heading.X, p.Heading.Y, p.Heading.R, heading, threeFigures(heading))
	value(p.Speed, e.knots(m.Dial(conduct.Speed)))
	picture.ExhibitKnob(e.b, p.Slot, p.Knob, (m.Dial(conduct.Speed)-conduct.SlowestKt)/(conduct.FastestKt-conduct.SlowestKt))
	value(p.Wind, e.knots(m.Dial(conduct.WindSpeed)))
	wind := units.Wind{From: units.Angle(m.Dial(conduct.WindFrom)) * units.Degree, Speed: units.Speed(m.Dial(conduct.WindSpeed)) * units.Knot}
	picture.WindSetter(e.b, p.From.X, p.From.Y, p.From.R, wind)
}

func (e *easel) knots(v float64) string {
	return e.say(tongue.Knots, tongue.Fill{Name: "n", Value: strconv.Itoa(int(math.Round(v)))})
}

func threeFigures(deg float64) string { return fmt.Sprintf("%03d", int(math.Round(deg))%360) }

// sideRooms are the rooms of the card with the counters: the drums and their height,
// the sentence, the miles.
func (e *easel) sideRooms() (drums paint.Rect, high float64, words, fact paint.Rect) {
	p, r, f := e.p, e.p.Side, e.p.F
	left, right := r.X+32*f, r.Right()-32*f
	foot := r.Bottom() - 16*f
	if p.Peep.W > 0 && r.Contains(p.Peep.Centre()) {
		foot = p.Peep.Y - 16*f
	}
	fact = paint.R(left, foot-52*f, right-left, 52*f)
	above := fact.Y - 14*f
	if e.in.Machine.Stage() == conduct.Result {
		above -= 62 * f
	}
	drums = paint.R(left, r.Y+16*f, right-left, 0)
	if p.Upright {
		drums.W *= 0.5
	}
	least := mostLines * leading * e.text(sentenceSize)
	for high = 96 * f; ; high -= 2 * f {
		w, tall := picture.CounterSize(longest, high)
		drums.H = 58*f + 2*(tall+12*f)
		words = paint.R(left, drums.Bottom()+8*f, right-left, above-drums.Bottom()-8*f)
		fits := words.H >= least
		if p.Upright { // the words stand beside them, and under them the result
			fits = drums.Bottom() <= fact.Y-70*f
		}
		if w <= drums.W && fits || high <= 56*f {
			break
		}
	}
	if p.Upright {
		x := drums.Right() + 36*f
		words = paint.R(x, r.Y+20*f, right-x, above-r.Y-20*f)
	}
	return drums, high, words, fact
}

// sentenceSize is that of the sentences, mostLines how many lines of it have room before
// the drums become smaller; there is seldom a fourth, which then makes the words smaller.
const sentenceSize, mostLines = 31, 3.5

// sentence is a sentence in its room, larger where there is much of that.
func (e *easel) sentence(room paint.Rect) block {
	size := math.Max(e.text(sentenceSize), math.Min(e.text(1.3*sentenceSize), room.H/(5*leading)))
	plain, bold := tongue.Sentence(e.in.Machine.Sentence(e.in.Tongue))
	return fit(plain, bold, size, room.W, room.H)
}

// longest is the longest of the two counters.
var longest = picture.Counter{Row: picture.LongitudeRow, Reading: counter.Hemisphere(0)}

// side draws the card with the counters, the sentence and the miles.
func (e *easel) side() {
	drums, high, room, fact := e.sideRooms()
	e.drums(drums, high)
	e.block(e.sentence(room), room, paint.Start, e.p.Upright, e.c.Ink)
	if e.in.Machine.Stage() == conduct.Result {
		e.outcome(fact)
		return
	}
	e.fact(fact)
	e.peep()
}

// drums draws the two counters with their name.
func (e *easel) drums(r paint.Rect, high float64) {
	f := e.p.F
	e.write(r.X, r.Y+36*f, e.say(tongue.AirPosition), look.Semibold, e.text(24), r.W-60*f, paint.Start, e.c.Ink2)
	e.b.AirCross(paint.Pt(r.Right()-20*f, r.Y+28*f), 1.8*f)
	m := e.in.Moment
	if m == nil {
		return
	}
	fast := m.Rate >= fastRate && m.Playing
	y := r.Y + 58*f
	for _, c := range []picture.Counter{
		{Reading: m.View.AirCounters.Latitude, Row: picture.LatitudeRow, Fast: fast},
		{Reading: m.View.AirCounters.Longitude, Row: picture.LongitudeRow, Fast: fast},
	} {
		w, _ := picture.CounterSize(c, high)
		y = picture.DrumCounter(e.b, r.Right()-w, y, high, c).Bottom() + 12*f
	}
}

// fact says how far the wind has carried, or how far off one is.
func (e *easel) fact(r paint.Rect) {
	m := e.in.Moment
	if m == nil || e.in.Machine.InCloud() {
		return
	}
	w, fill, ink := tongue.Carried, e.c.Slate, e.c.OnSlate
	miles := sim.OffsetOf(units.Position(m.View.Marker), units.Position(m.View.Air)).NM()
	if e.in.Machine.Erred() && m.Revealed != nil {
		w, fill, ink = tongue.OffBy, e.c.Verm, e.c.OnVerm
		miles = sim.OffsetOf(units.Position(m.View.Marker), m.Revealed.Now.Truth.Position).NM()
	}
	e.named(r, e.say(w), e.in.Tongue.Count(int(math.Round(miles))), fill, ink)
}

// named writes a name and, on a plate at the right, a value.
func (e *easel) named(r paint.Rect, name, value string, fill, ink colour) {
	f := e.p.F
	size := e.text(29)
	w := math.Min(look.Engraved.Font().Width(value, size)+44*f, 0.62*r.W)
	plate := paint.R(r.Right()-w, r.Y, w, r.H)
	e.plate(plate, 8, fill, fill, 0)
	size = math.Min(size, 0.62*r.H)
	c := plate.Centre()
	size = shrunk(value, look.Engraved, size, w-24*f)
	e.write(c.X, c.Y+0.36*size, value, look.Engraved, size, w-24*f, paint.Middle, ink)
	room := paint.R(r.X, r.Y, r.W-w-16*f, r.H)
	b := fit(name, "", e.text(26), room.W, room.H*1.05)
	e.block(b, room, paint.Start, true, e.c.Ink2)
}

// outcome says by how much the place was missed, with the day's best above.
func (e *easel) outcome(r paint.Rect) {
	o := e.in.Machine.Outcome()
	best, value := e.say(tongue.Best), e.in.Tongue.Tenths(o.Best)
	up := r
	up.Y -= r.H + 10*e.p.F
	switch {
	case o.First:
		b := fit("", e.say(tongue.First), e.text(27), r.W, r.H)
		e.block(b, r, paint.Start, true, e.c.Ink)
	case o.NewBest:
		e.named(r, e.say(tongue.NewBest), value, e.c.BrassHi, e.c.OnBrass)
	default:
		e.named(r, best, value, e.c.Slate, e.c.OnSlate)
	}
	e.named(up, e.say(tongue.Missed, e.place()), e.in.Tongue.Tenths(o.Miles), e.c.Verm, e.c.OnVerm)
}

// peep draws the strip of the mechanism on its card.
func (e *easel) peep() {
	r, f := e.p.Peep, e.p.F
	m := e.in.Moment
	if m == nil || r.W < 400*f || r.H < 100*f {
		return
	}
	id, _ := e.in.Machine.Broken()
	fast := m.Rate >= fastRate && m.Playing || e.in.Machine.Exhibit().ReducedMotion
	lon := m.View.AirCounters.Longitude
	e.drawPeep(paint.R(r.X+24*f, r.Y+44*f, r.W-48*f, r.H-54*f), picture.Peep{
		Turns: 10 * m.Works.AirMiles.NM(), Heading: m.View.Heading.Degrees(),
		Full: math.Min(1, m.View.IAS.Knots()/220), Drum: lon.Drums[0], Broken: peepPart(id), Fast: fast,
	})
}

// peepPart is the part of the strip in which a fault sits; those of the ground position
// lie beyond it.
func peepPart(id string) picture.PeepPart {
	f, ok := fault.Lookup(id)
	if !ok {
		return picture.PeepSound
	}
	switch f.Link {
	case "air data":
		return picture.PeepCapsules
	case "drive":
		return picture.PeepShaft
	case "heading", "resolver":
		return picture.PeepDisc
	case "latitude-longitude":
		return picture.PeepDrum
	}
	return picture.PeepSound
}

func (e *easel) drawPeep(r paint.Rect, p picture.Peep) { picture.DrawPeep(e.b, r, p) }

// countdown writes the seconds that are left in cloud.
func (e *easel) countdown() {
	r := e.p.Break
	n := int(math.Ceil(e.in.Machine.Rest().Seconds()))
	size := 0.5 * r.H
	s := strconv.Itoa(n)
	e.write(r.X+r.W/2, r.Y+0.56*r.H, s, look.Engraved, size, r.W-20*e.p.F, paint.Middle, e.c.Ink)
	unit := e.say(tongue.Seconds, tongue.Fill{Name: "n", Value: ""})
	e.write(r.X+r.W/2, r.Y+0.84*r.H, trim(unit), look.Semibold, e.text(28), r.W-20*e.p.F, paint.Middle, e.c.Ink2)
}
