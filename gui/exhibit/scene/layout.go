// Package scene lays out and draws what an exhibit shows: a state in, a picture and the
// places to be touched out. It knows neither toolkit nor clock.
//
// All sizes are device pixels; f is the factor of drawn parts (1 at 1920 by 1080, or
// at 1080 by 1920 upright), dev the pixels of one unit of the toolkit. What is touched
// is Least units high and wide at least.
package scene

import (
	"math"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/paint"
)

// Least is the least size of what is touched, units.
const Least = 80

// lowest is the part of the screen, from below, to which all that is touched can be
// kept.
const lowest = 0.4

// Zone is a place to be touched.
type Zone struct {
	Target conduct.Target
	Box    paint.Rect
}

// Dialled is where a dial that is dragged stands.
type Dialled struct{ X, Y, R float64 }

// Places is where everything stands; what does not show is empty.
type Places struct {
	W, H, F, Dev float64
	Upright      bool

	Chart, Side, Inside, Break paint.Rect
	Steer, Speed, Wind         paint.Rect // cards
	Peep                       paint.Rect // card of Look inside
	Linkage, Strip             paint.Rect // the mechanism, and the sentence under it
	Half                       bool       // of the mechanism only a half shows
	Land, Larger, Again        paint.Rect
	Languages                  []paint.Rect
	Buttons                    [4]paint.Rect // of the keeper's page
	Zones                      []Zone
	Heading, From              Dialled
	Slot                       paint.Rect // of the speed
	Knob                       float64    // radius of its knob
	sign                       float64    // side of minus and plus
}

// Shape is what a layout depends on.
type Shape struct {
	W, H, Dev float64
	Stage     conduct.Stage
	Inside    bool
	Low       bool
	Languages int
	Landing   bool
}

// Layout lays the screen out.
func Layout(s Shape) *Places {
	p := &Places{W: s.W, H: s.H, Dev: s.Dev, Upright: s.H > s.W}
	p.F = math.Min(s.W/1920, s.H/1080)
	if p.Upright {
		p.F = math.Min(s.W/1080, s.H/1920)
	}
	p.sign = p.target(88)
	switch s.Stage {
	case conduct.Attract:
		p.attract(s)
	case conduct.Keeper:
		p.keeper()
	case conduct.Playing, conduct.Cloud, conduct.Parting, conduct.Result:
		switch {
		case p.Upright:
			p.upright(s)
		default:
			p.lying(s)
		}
	}
	return p
}

func (p *Places) px(v float64) float64 { return math.Round(v * p.F) }

// target is a size at which something can be touched.
func (p *Places) target(v float64) float64 { return math.Round(math.Max(v*p.F, Least*p.Dev)) }

func (p *Places) zone(t conduct.Target, box paint.Rect) paint.Rect {
	if t != conduct.Nothing && box.W > 0 {
		p.Zones = append(p.Zones, Zone{t, box})
	}
	return box
}

// At is what a touch at a point meets. Smaller things lie over larger ones.
func (p *Places) At(x, y float64) conduct.Target {
	best, area := conduct.Nothing, math.Inf(1)
	for _, z := range p.Zones {
		if z.Box.Contains(paint.Pt(x, y)) && z.Box.W*z.Box.H < area {
			best, area = z.Target, z.Box.W*z.Box.H
		}
	}
	return best
}

func (p *Places) attract(s Shape) {
	p.zone(conduct.Anywhere, paint.R(0, 0, p.W, p.H))
	h, gap, edge := p.target(64), p.px(14), p.px(40)
	w := p.target(200)
	if room := p.W - 2*edge; float64(s.Languages)*(w+gap) > room {
		w = math.Floor(room/float64(s.Languages)) - gap
	}
	x := p.W - edge - float64(s.Languages)*(w+gap) + gap
	for i := range s.Languages {
		box := paint.R(x+float64(i)*(w+gap), p.H-edge-h, w, h)
		p.Languages = append(p.Languages, p.zone(conduct.FirstLanguage+conduct.Target(i), box))
	}
}

// lying lays out a screen that is wider than high.
func (p *Places) lying(s Shape) {
	edge, gap := p.px(24), p.px(16)
	fh := p.target(64)
	if s.Low && !s.Inside { // the mechanism stands in it
		fh = p.target(112)
	}
	foot := paint.R(edge, p.H-p.px(16)-fh, p.W-2*edge, fh)
	if s.Inside {
		p.insideLying(s, foot, edge, gap)
		return
	}
	hh := math.Max(p.px(228), p.sign+p.px(84))
	row := paint.R(edge, foot.Y-gap-hh, p.W-2*edge, hh)
	top := paint.R(edge, edge, p.W-2*edge, row.Y-gap-edge)
	side := p.px(632)
	p.Chart = paint.R(top.X, top.Y, top.W-side-p.px(24), top.H)
	p.Side = paint.R(top.Right()-side, top.Y, side, top.H)
	cw := math.Floor((row.W - 3*gap) / 4)
	card := func(i int) paint.Rect { return paint.R(row.X+float64(i)*(cw+gap), row.Y, cw, hh) }
	p.dials(card(0), card(1), card(2))
	p.Break = card(3)
	p.foot(s, foot, gap, false)
	peep := paint.R(p.Side.X+p.px(16), p.Side.Bottom()-p.target(148)-p.px(16), side-p.px(32), p.target(148))
	if s.Low { // beside the key of the landing
		peep = p.middle(s, gap)
		if p.Land.W > 0 {
			w := math.Floor((peep.W - gap) / 2)
			peep.W = w
			p.Land = paint.R(peep.Right()+gap, peep.Y, w, peep.H)
		}
	}
	if p.Land.W > 0 {
		p.zone(conduct.LandKey, p.Land)
	}
	p.extras(s, peep)
}

// extras are what stands there in a flight of one's own: the strip of the mechanism;
// and what the large key does.
func (p *Places) extras(s Shape, peep paint.Rect) {
	switch s.Stage {
	case conduct.Playing:
		p.Peep = p.zone(conduct.InsideKey, peep)
		p.zone(conduct.BreakKey, p.Break)
	case conduct.Result:
		p.zone(conduct.LandKey, p.Break)
	}
}

// dials lays out the three controls.
func (p *Places) dials(steer, speed, wind paint.Rect) {
	p.Steer, p.Speed, p.Wind = steer, speed, wind
	head := p.px(54) // of a card, where its name stands
	for i, c := range []paint.Rect{steer, speed, wind} {
		y := c.Y + head + math.Round((c.H-head-p.sign)/2)
		t := conduct.SteerLess + 3*conduct.Target(i)
		p.zone(t, paint.R(c.X+p.px(16), y, p.sign, p.sign))
		p.zone(t+1, paint.R(c.Right()-p.px(16)-p.sign, y, p.sign, p.sign))
	}
	r := func(c paint.Rect) (d Dialled) {
		room := c.W - 2*(p.sign+p.px(28))
		d.R = math.Min(p.px(78), math.Min(room/2, (c.H-p.px(62))/2.15))
		d.X, d.Y = c.X+c.W/2, c.Bottom()-d.R-p.px(14)
		return d
	}
	p.Heading, p.From = r(steer), r(wind)
	ring := func(t conduct.Target, d Dialled, c paint.Rect) {
		h := math.Max(d.R*1.1, p.Dev*Least/2)
		y := math.Min(d.Y-h, c.Bottom()-2*h)
		p.zone(t, paint.R(d.X-h, y, 2*h, 2*h))
	}
	ring(conduct.SteerRim, p.Heading, steer)
	ring(conduct.WindRim, p.From, wind)
	p.Knob = math.Min(p.px(36), (speed.W-2*p.sign-p.px(60))/5)
	y := speed.Y + head + math.Round((speed.H-head)/2) - p.Knob*12/36
	x0, x1 := speed.X+p.px(16)+p.sign+p.px(22)+p.Knob*0.7, speed.Right()-p.px(16)-p.sign-p.px(22)-p.Knob*0.7
	p.Slot = paint.R(x0, y-p.Knob, x1-x0, 2*p.Knob)
	h := math.Max(p.Knob*2, p.Dev*Least)
	left := speed.X + p.px(16) + p.sign + p.px(4)
	p.zone(conduct.SpeedSlide, paint.R(left, y-h/2, speed.Right()-p.px(16)-p.sign-p.px(4)-left, h))
}

// foot lays out languages, landing, larger text and start again in one row, or in two
// upright.
func (p *Places) foot(s Shape, row paint.Rect, gap float64, two bool) {
	second := row
	if two {
		second.Y += row.H + gap
	}
	lw := math.Max(p.px(168), Least*p.Dev)
	tools := 2 * p.px(304)
	if two {
		n := float64(max(2, s.Languages))
		lw = math.Floor((row.W - (n-1)*p.px(8)) / n)
		tools = row.W
	} else if room := (row.W - tools - p.px(360) - 2*gap) / float64(s.Languages); lw+p.px(8) > room {
		lw = math.Max(Least*p.Dev, math.Floor(room-p.px(8)))
	}
	step := lw + p.px(8)
	for i := range s.Languages {
		p.Languages = append(p.Languages, p.zone(conduct.FirstLanguage+conduct.Target(i), paint.R(row.X+float64(i)*step, row.Y, lw, row.H)))
	}
	w := math.Floor((tools - gap) / 2)
	p.Again = p.zone(conduct.AgainKey, paint.R(second.Right()-w, second.Y, w, second.H))
	p.Larger = p.zone(conduct.LargerKey, paint.R(second.Right()-2*w-gap, second.Y, w, second.H))
	if !two && s.Landing && s.Stage == conduct.Playing && !s.Inside {
		room := p.middle(s, gap)
		width := math.Min(p.px(520), room.W)
		p.Land = paint.R(room.Right()-width, row.Y, width, row.H)
	}
}

// middle is the room between the languages and the tools of the foot.
func (p *Places) middle(s Shape, gap float64) paint.Rect {
	last := p.Languages[len(p.Languages)-1]
	return paint.R(last.Right()+gap, last.Y, p.Larger.X-last.Right()-2*gap, last.H)
}

// insideLying is the mechanism over the whole width.
func (p *Places) insideLying(s Shape, foot paint.Rect, edge, gap float64) {
	strip := paint.R(edge, foot.Y-gap-p.sign, p.W-2*edge, p.sign)
	p.Linkage = paint.R(edge, p.px(12), p.W-2*edge, strip.Y-p.px(12)-p.px(8))
	p.strip(strip, gap)
	p.foot(s, foot, gap, false)
	room := p.middle(s, gap)
	w := math.Floor((room.W - gap) / 2)
	p.Peep = p.zone(conduct.InsideKey, paint.R(room.X, foot.Y, w, foot.H))
	p.Break = p.zone(conduct.BreakKey, paint.R(room.X+w+gap, foot.Y, w, foot.H))
}

// strip is the sentence under the mechanism, and the knob to steer.
func (p *Places) strip(strip paint.Rect, gap float64) {
	w := 2*p.sign + p.px(150)
	p.Strip = paint.R(strip.X, strip.Y, strip.W-w-gap, strip.H)
	p.steerRow(paint.R(strip.Right()-w, strip.Y, w, strip.H))
}

// steerRow is the knob to steer in one row: minus, heading, plus.
func (p *Places) steerRow(r paint.Rect) {
	p.Steer = r
	in, y := 0.0, r.Y+math.Round((r.H-p.sign)/2)
	if r.H > p.sign+p.px(24) {
		in = p.px(24)
	}
	p.zone(conduct.SteerLess, paint.R(r.X+in, y, p.sign, p.sign))
	p.zone(conduct.SteerMore, paint.R(r.Right()-in-p.sign, y, p.sign, p.sign))
}

// upright lays out a screen that is higher than wide: all that is touched lies in the
// lowest two fifths.
func (p *Places) upright(s Shape) {
	edge, gap := p.px(24), p.px(14)
	fh := p.target(84)
	from := math.Ceil(p.H*(1-lowest)) + p.px(4)
	foot := paint.R(edge, p.H-p.px(16)-2*fh-gap, p.W-2*edge, fh)
	w := math.Floor((foot.W - gap) / 2)
	if s.Inside {
		p.Strip = paint.R(edge, from-gap-p.px(150), foot.W, p.px(150))
		p.Linkage = paint.R(edge, edge, foot.W, p.Strip.Y-gap-edge)
		p.Half = true
		p.steerRow(paint.R(edge, from, foot.W, math.Max(p.sign, p.px(150))))
		p.foot(s, foot, gap, true)
		row := paint.R(edge, p.Steer.Bottom()+gap, foot.W, foot.Y-2*gap-p.Steer.Bottom())
		p.Peep = p.zone(conduct.InsideKey, paint.R(row.X, row.Y, w, row.H))
		p.Break = p.zone(conduct.BreakKey, paint.R(row.X+w+gap, row.Y, w, row.H))
		return
	}
	mid := p.target(112)
	row := paint.R(edge, foot.Y-gap-mid, foot.W, mid)
	end := row.Y - gap
	if s.Stage != conduct.Playing { // nothing stands in that row
		end = foot.Y - gap
	}
	hh := math.Floor((end - from - gap) / 2)
	card := func(x, y int) paint.Rect {
		return paint.R(edge+float64(x)*(w+gap), from+float64(y)*(hh+gap), w, hh)
	}
	p.dials(card(0, 0), card(1, 0), card(0, 1))
	p.Break = card(1, 1)
	side := p.px(430)
	p.Side = paint.R(edge, from-gap-side, foot.W, side)
	p.Chart = paint.R(edge, edge, foot.W, p.Side.Y-gap-edge)
	p.extras(s, paint.R(row.X, row.Y, w, row.H))
	if s.Landing && s.Stage == conduct.Playing {
		p.Land = p.zone(conduct.LandKey, paint.R(row.X+w+gap, row.Y, w, row.H))
	}
	p.foot(s, foot, gap, true)
}

// keeper lays out the four keys of the keeper's page.
func (p *Places) keeper() {
	edge, gap, h := p.px(60), p.px(20), p.target(110)
	columns := 4
	if p.Upright {
		columns = 2
	}
	rows := 4 / columns
	w := math.Floor((p.W - 2*edge - float64(columns-1)*gap) / float64(columns))
	top := p.H - edge - float64(rows)*(h+gap) + gap
	for i := range p.Buttons {
		box := paint.R(edge+float64(i%columns)*(w+gap), top+float64(i/columns)*(h+gap), w, h)
		p.Buttons[i] = p.zone(conduct.KeeperTest+conduct.Target(i), box)
	}
}
