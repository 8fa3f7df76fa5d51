package scene

import (
	"math"
	"strconv"
	"time"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/counter"
)

// The attract loop: what grows, then all of it stands, then again with another wind.
const (
	attractGrow = 9 * time.Second
	attractHold = 4 * time.Second
)

// attractWinds are where the wind of the rounds comes from, degrees.
var attractWinds = []float64{302, 270, 330, 285}

// attractAt is the loop at a time of it; with reduced motion it stands at its end and
// only the wind changes.
func attractAt(t time.Duration, still bool) *picture.Attract {
	whole := attractGrow + attractHold
	round := int(t / whole)
	at := (t % whole).Seconds() / attractGrow.Seconds()
	a := &picture.Attract{From: attractWinds[round%len(attractWinds)]}
	part := func(from, to float64) float64 { return math.Max(0, math.Min(1, (at-from)/(to-from))) }
	a.Air, a.Wind, a.Track = part(0, 0.45), part(0.5, 0.8), part(0.8, 1)
	a.Press = 0.5 - 0.5*math.Cos(2*math.Pi*(t%whole).Seconds()/whole.Seconds()*4)
	if still {
		a.Air, a.Wind, a.Track, a.Press = 1, 1, 1, 1
	}
	// The drums count while the cross goes from Port Aldous: 38 minutes north, 105 east.
	lat, lon := -(47*60+10)+38*a.Air, 178*60+30+105*a.Air
	a.Lat, a.Lon = counter.Latitude(lat), counter.Hemisphere(lon)
	return a
}

// touchCaption writes the one thing to do, in every language, at the left of the foot.
func (e *easel) touchCaption() {
	size := e.text(28)
	y := e.p.H - e.p.px(44) - float64(len(e.in.Touch)-1)*1.3*size
	for _, s := range e.in.Touch {
		e.write(e.p.px(50), y, s, look.Semibold, size, 0.26*e.p.W, paint.Start, e.c.Ink)
		y += 1.3 * size
	}
}

// keeperPage is the keeper's page; before the first visit only what is wrong.
func (e *easel) keeperPage() {
	p, f, k := e.p, e.p.F, &e.in.Keeper
	x, y, w := 60*f, 90*f, p.W-120*f
	e.write(x, y, e.say(tongue.KeeperTitle), look.Bold, e.text(44), w/2, paint.Start, e.c.Ink)
	e.write(x+w, y, k.Wall.Format("2006-01-02 15:04"), look.Engraved, e.text(30), w/2, paint.End, e.c.Ink2)
	y += 34 * f
	pitch := 1.0
	if p.Upright {
		pitch = 1.5
	}
	for _, row := range e.keeperRows() {
		e.fill(paint.R(x, y, w, math.Max(1, f)), e.c.Line)
		y += 44 * pitch * f
		e.write(x, y, row[0], look.Regular, e.text(26), 0.4*w, paint.Start, e.c.Ink2)
		e.write(x+0.42*w, y, row[1], look.Semibold, e.text(26), 0.58*w, paint.Start, e.c.Ink)
		y += 14 * pitch * f
	}
	end := p.H - 60*f
	if p.Buttons[0].W > 0 {
		end = p.Buttons[0].Y - 20*f
	}
	e.problems(paint.R(x, y+10*f, w, end-y-10*f))
	for i, word := range []tongue.Word{tongue.KeeperTest, tongue.KeeperWipe, tongue.KeeperBack, tongue.KeeperLeave} {
		if r := p.Buttons[i]; r.W > 0 {
			e.key(r, e.say(word), e.text(28), false, i == 2)
		}
	}
}

func (e *easel) keeperRows() [][2]string {
	k := &e.in.Keeper
	fault := k.Fault
	if fault == "" {
		fault = e.say(tongue.KeeperNone)
	}
	file, count := e.say(tongue.KeeperFileGood), e.say(tongue.KeeperCountGood)
	if n := len(k.Problems); n > 0 {
		file = e.say(tongue.KeeperFileBad, tongue.Fill{Name: "n", Value: strconv.Itoa(n)})
	}
	if k.Counting != nil {
		count = e.say(tongue.KeeperCountBad)
	}
	up := e.say(tongue.KeeperUpValue, tongue.Fill{Name: "h", Value: strconv.Itoa(int(k.Up.Hours()))},
		tongue.Fill{Name: "m", Value: strconv.Itoa(int(k.Up.Minutes()) % 60)})
	best := e.say(tongue.KeeperNone)
	if k.Today.Landings > 0 {
		best = e.in.Tongue.Tenths(k.Today.Best)
	}
	return [][2]string{
		{e.say(tongue.KeeperUp), up}, {e.say(tongue.KeeperFault), fault},
		{e.say(tongue.KeeperVisits), strconv.Itoa(k.Today.Visits)}, {e.say(tongue.KeeperBreaks), strconv.Itoa(k.Today.Breaks)},
		{e.say(tongue.KeeperLandings), strconv.Itoa(k.Today.Landings)}, {e.say(tongue.KeeperBest), best},
		{e.say(tongue.KeeperCount), count}, {e.say(tongue.KeeperFile), file},
	}
}

// problems writes what is wrong with the exhibit file, as much as there is room for.
func (e *easel) problems(r paint.Rect) {
	size := math.Max(20*e.p.F, 13*e.p.Dev)
	t := paint.Type{Font: look.Regular.Font(), Size: size}
	y := r.Y + size
	for i, s := range e.in.Keeper.Problems {
		lines := t.Wrap(s, r.W)
		if y+float64(len(lines))*size*1.3 > r.Bottom() {
			e.d.Text(r.X, y, "… "+strconv.Itoa(len(e.in.Keeper.Problems)-i), t, e.c.Verm)
			return
		}
		for _, line := range lines {
			e.d.Text(r.X, y, t.Shorten(line, r.W), t, e.c.Verm)
			y += size * 1.3
		}
		y += size * 0.3
	}
}

// touchTest draws the squares; those that have answered are full.
func (e *easel) touchTest() {
	w, h := e.p.W/conduct.TestColumns, e.p.H/conduct.TestRows
	for c := range conduct.TestColumns {
		for r := range conduct.TestRows {
			box := paint.R(float64(c)*w, float64(r)*h, w, h).Inset(4 * e.p.F)
			fill, edge := e.c.Card, e.c.SlateHi
			if e.in.Machine.Tested(c, r) {
				fill, edge = e.c.BrassHi, e.c.BrassLo
			}
			e.plate(box, 8, fill, edge, 2*e.p.F)
		}
	}
	s := e.say(tongue.TestAll, tongue.Fill{Name: "n", Value: strconv.Itoa(e.in.Machine.Untouched())})
	if e.in.Machine.Untouched() == 0 {
		s = e.say(tongue.TestDone)
	}
	size := e.text(34)
	room := math.Min(e.p.W-80*e.p.F, look.Bold.Font().Width(s, size)+60*e.p.F)
	plate := paint.R((e.p.W-room)/2, e.p.H/2-40*e.p.F, room, 80*e.p.F)
	e.plate(plate, 8, e.c.Slate, e.c.Slate, 0)
	c := plate.Centre()
	e.write(c.X, c.Y+0.35*size, s, look.Bold, size, room-30*e.p.F, paint.Middle, e.c.OnSlate)
}

// wiping says that nothing answers, and for how long.
func (e *easel) wiping() {
	n := int(math.Ceil(e.in.Machine.Rest().Seconds()))
	m := e.whole().Centre()
	room := e.p.W - 120*e.p.F
	e.write(m.X, m.Y-60*e.p.F, e.say(tongue.Wipe), look.Bold, e.text(54), room, paint.Middle, e.c.Ink)
	s := e.say(tongue.WipeLeft, tongue.Fill{Name: "n", Value: strconv.Itoa(n)})
	e.write(m.X, m.Y+20*e.p.F, s, look.Regular, e.text(34), room, paint.Middle, e.c.Ink2)
}
