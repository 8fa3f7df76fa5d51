package trainer

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/training/score"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/fault"
)

// pane is the paper of the view with what is written on it.
type pane struct {
	kit.Painted
	view *View
}

type paneKey struct {
	made int
	tick int64
	p    *look.Palette
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(400, 300), p.paint)
	return p
}

// Of the view, units.
const (
	gap    = 8
	within = 12
	head   = 34
)

// places are the cards of the view.
type places struct{ broken, dials, errors, marks, events kit.Box }

// placesOf lays the cards out in a room of w by h, over the row of keys.
func placesOf(w, h float32) (p places) {
	tall := h - kit.Target - gap
	a, c := 0.34*w, 0.32*w
	b := w - a - c - 2*gap
	p.broken = kit.Box{W: a, H: tall}
	p.dials = kit.Box{X: a + gap, W: b, H: 0.60*tall - gap/2}
	p.errors = kit.Box{X: a + gap, Y: p.dials.H + gap, W: b, H: tall - p.dials.H - gap}
	p.marks = kit.Box{X: a + b + 2*gap, W: c, H: 0.48*tall - gap/2}
	p.events = kit.Box{X: p.marks.X, Y: p.marks.H + gap, W: c, H: tall - p.marks.H - gap}
	return p
}

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.pane)
	p := placesOf(size.Width, size.Height)
	half := (p.broken.W - 2*within - 4) / 2
	for i, k := range append(append([]*kit.Key{}, v.links...), v.mend) {
		kit.Box{X: within + float32(i%2)*(half+4), Y: head + float32(i/2)*(kit.Target+2), W: half, H: kit.Target}.Put(k)
	}
	total := float32(0)
	for _, k := range v.keys {
		total += k.Needs()
	}
	spare := (size.Width - 8 - total - float32(len(v.keys)-1)*4) / float32(len(v.keys))
	x := float32(4)
	for _, k := range v.keys {
		w := k.Needs() + spare
		kit.Box{X: x, Y: size.Height - kit.Target - 1, W: w, H: kit.Target}.Put(k)
		x += w + 4
	}
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	u := z.Device
	b := picture.NewBrush(d, p.Palette(), z)
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Palette().Ground)
	at := placesOf(float32(w/u), float32(h/u))
	var foot paint.Path // of the keys
	b.Fill(foot.RoundRect(paint.R(0.5, h-(kit.Target+2)*u, w-1, (kit.Target+2)*u-0.5), look.CardRadius*u), p.Palette().Card)
	b.Stroke(&foot, paint.Pen{Width: z.Hair()}, p.Palette().Line)
	p.tokens(b, p.card(b, at.broken, look.TrainerBroken, ""))
	p.dials(b, p.card(b, at.dials, look.TrainerDials, ""))
	p.errors(b, p.card(b, at.errors, look.TrainerErrors, ""))
	p.marks(b, p.card(b, at.marks, look.ScoreSoFar, ""))
	p.events(b, p.card(b, at.events, look.TrainerEvents, look.Text(look.TrainerNewest)))
}

// card draws a card with its name and a remark, and gives the room in it.
func (p *pane) card(b *picture.Brush, box kit.Box, name look.Key, remark string) paint.Rect {
	u := b.K.Device
	r := paint.R(float64(box.X)*u, float64(box.Y)*u, float64(box.W)*u, float64(box.H)*u)
	var path paint.Path
	b.Fill(path.RoundRect(r.Inset(0.5), look.CardRadius*u), b.C.Card)
	b.Stroke(&path, paint.Pen{Width: b.K.Hair()}, b.C.Line)
	t := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	y := r.Y + head*u/2 + 0.42*t.Size
	b.Text(r.X+within*u, y, look.Text(name), t, b.C.Ink)
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall), Anchor: paint.End}
	b.Text(r.Right()-within*u, y, remark, small, b.C.Ink2)
	return paint.R(r.X+within*u, r.Y+head*u, r.W-2*within*u, r.H-(head+6)*u)
}

// hidden writes that the truth has to be revealed, and says whether it must.
func (p *pane) hidden(b *picture.Brush, r paint.Rect) bool {
	if p.view.moment.Revealed != nil {
		return false
	}
	p.lines(b, r, []string{look.Text(look.TrainerHidden)})
	return true
}

// lines writes lines one under the other, as many as there is room for.
func (p *pane) lines(b *picture.Brush, r paint.Rect, all []string) {
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	y := r.Y
	for _, words := range all {
		for _, line := range t.Wrap(words, r.W) {
			if y += 1.35 * t.Size; y > r.Bottom() {
				return
			}
			b.Text(r.X, y, line, t, b.C.Ink2)
		}
	}
}

// tokens lists what is broken, what waits and what is over, each with its sign.
func (p *pane) tokens(b *picture.Brush, r paint.Rect) {
	u := b.K.Device
	rows := float64((len(p.view.links) + 2) / 2) // with the key that mends
	top := rows*(kit.Target+2)*u + 4*u
	r.Y, r.H = r.Y+top, r.H-top
	if p.hidden(b, r) {
		return
	}
	faults := p.view.tokens()
	if len(faults) == 0 {
		p.lines(b, r, []string{look.Text(look.TrainerNothing)})
		return
	}
	t := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextSmall)}
	small := paint.Type{Font: look.Regular.Font(), Size: t.Size}
	pitch := 3.3 * t.Size
	room := int(r.H / pitch)
	if room < len(faults) { // the last line says how many there are more
		room = max(1, int((r.H-1.4*small.Size)/pitch))
	}
	y := r.Y
	for i := range faults[:min(room, len(faults))] {
		f := &faults[i]
		title := f.Order.ID
		if e, ok := fault.Lookup(f.Order.ID); ok {
			title = look.Capital(e.Title)
		}
		chip := paint.R(r.X, y, r.W, pitch-4*u)
		var path paint.Path
		fill, edge := b.C.Card, b.C.SlateHi
		if f.Stands == sim.FaultInForce {
			fill, edge = b.C.VermFill, b.C.Verm
		}
		b.Fill(path.RoundRect(chip, chip.H/2), fill)
		b.Stroke(&path, paint.Pen{Width: 1.5 * u}, edge)
		p.sign(b, paint.Pt(r.X+0.55*chip.H, y+chip.H/2), f)
		x := r.X + 1.1*chip.H
		wide := chip.Right() - 0.4*chip.H - x
		b.Text(x, y+0.44*chip.H-0.06*t.Size, t.Shorten(title, wide), t, b.C.Ink)
		b.Text(x, y+0.44*chip.H+1.1*t.Size, small.Shorten(p.view.standText(f), wide), small, b.C.Ink2)
		y += pitch
	}
	if more := len(faults) - room; more > 0 {
		b.Text(r.X, y+small.Size, look.Textf(look.TrainerMore, strconv.Itoa(more)), small, b.C.Ink2)
	}
}

// sign draws how a fault stands.
func (p *pane) sign(b *picture.Brush, at paint.Point, f *sim.FaultStatus) {
	var path paint.Path
	u := b.K.Device
	switch f.Stands {
	case sim.FaultInForce:
		b.FaultDiamond(at, 0.9)
	case sim.FaultMended, sim.FaultOver:
		b.Stroke(path.Circle(at.X, at.Y, 7*u), paint.Pen{Width: 1.8 * u}, b.C.Ink2)
		b.Stroke(path.Reset().MoveTo(at.X-7*u, at.Y+7*u).LineTo(at.X+7*u, at.Y-7*u), paint.Pen{Width: 1.8 * u}, b.C.Ink2)
	default:
		b.Fill(path.Circle(at.X, at.Y, 8*u), b.C.BrassHi)
		b.Stroke(&path, paint.Pen{Width: 1.8 * u}, b.C.BrassLo)
		if f.Stands == sim.FaultPlanned {
			b.Stroke(path.Reset().MoveTo(at.X, at.Y-5*u).LineTo(at.X, at.Y).LineTo(at.X+4*u, at.Y+2*u), paint.Pen{Width: 1.6 * u}, b.C.OnBrass)
		} else {
			b.Fill(path.Reset().Circle(at.X, at.Y, 2.4*u), b.C.OnBrass)
		}
	}
}

// standText says how a fault stands, and since or from when.
func (v *View) standText(f *sim.FaultStatus) string {
	switch f.Stands {
	case sim.FaultInForce:
		return look.Textf(look.TrainerSince, v.clock(sim.TimeOf(f.Onset)))
	case sim.FaultPlanned:
		return look.Textf(look.TrainerAt, v.clock(sim.TimeOf(f.Onset)))
	case sim.FaultWaiting:
		if f.Order.Trigger.Kind == fault.BySignal {
			return look.Textf(look.TrainerWaitsSignal, strconv.Itoa(f.Order.Trigger.Signal))
		}
		return look.Text(look.TrainerWaitsPlace)
	case sim.FaultMended:
		return look.Text(look.TrainerMended)
	}
	return look.Text(look.TrainerOver)
}

// dials writes what the trainee sees, and the truth, and the difference as printed.
func (p *pane) dials(b *picture.Brush, r paint.Rect) {
	if p.hidden(b, r) {
		return
	}
	v, truth := &p.view.moment.View, p.view.moment.Revealed.Now.Truth
	type row struct {
		name look.Key
		units.Compared
	}
	turn := func(a, x units.Angle) units.Compared { return units.CompareDirections(a, x) }
	wind := units.Compare(v.WindSet.Speed.Knots(), truth.Wind.Speed.Knots(), 0)
	wind.A, wind.B = v.WindSet.String(), truth.Wind.String()
	wind.Difference += " kt"
	variation := units.Compare(v.VariationSet.Degrees(), truth.Variation.Degrees(), 1)
	rows := []row{
		{look.TrueAirspeed, units.Compare(v.TAS.Knots(), truth.TAS.Knots(), 0)},
		{look.PressureAlt, units.Compare(v.PressureAltitude.Feet(), truth.Height.Feet(), 0)},
		{look.TrueHeading, turn(units.Angle(v.Heading), units.Angle(truth.Heading))},
		{look.TrainerVariation, variation},
		{look.TrainerWind, wind},
		{look.Latitude, units.CompareLatitudes(v.Marker.Lat, truth.Position.Lat)},
		{look.Longitude, units.CompareLongitudes(v.Marker.Lon, truth.Position.Lon)},
	}
	text := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	bold := paint.Type{Font: look.Semibold.Font(), Size: text.Size, Anchor: paint.End}
	end := text
	end.Anchor = paint.End
	xs := [3]float64{r.X + 0.55*r.W, r.X + 0.82*r.W, r.Right()}
	pitch := math.Min(2.1*text.Size, r.H/(float64(len(rows))+1.2))
	y := r.Y + 0.7*pitch
	for i, k := range []look.Key{look.TrainerSees, look.TrainerTruth, look.TrainerDifference} {
		b.Text(xs[i], y, look.Text(k), end, b.C.Ink2)
	}
	var path paint.Path
	for i, row := range rows {
		if i%2 == 0 {
			b.Fill(path.Reset().Rect(paint.R(r.X, y+0.28*pitch, r.W, pitch)), paint.Alpha(b.C.Low, 0.45))
		}
		y += pitch
		b.Text(r.X+4*b.K.Device, y, look.Text(row.name), text, b.C.Ink)
		b.Text(xs[0], y, row.A, bold, b.C.Ink)
		b.Text(xs[1], y, row.B, end, b.C.Ink)
		ink := b.C.Ink2
		if row.Difference != "0" && row.Difference != "0.0" && row.Difference != "0 kt" {
			ink = b.C.Verm
		}
		b.Text(xs[2], y, row.Difference, bold, ink)
	}
}

// errors draws how far what the trainee goes by has been off, minute by minute, against
// what may be.
func (p *pane) errors(b *picture.Brush, r paint.Rect) {
	if p.hidden(b, r) || p.view.sheet == nil {
		return
	}
	s, u := p.view.sheet, b.K.Device
	small := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	bold := paint.Type{Font: look.Semibold.Font(), Size: b.K.Text(look.TextBody)}
	off := p.view.moment.Revealed.Now.Error.Ground.NM()
	b.Text(r.X, r.Y+bold.Size, look.Textf(look.TrainerOff, units.Figure(off, 1)), bold, b.C.Verm)
	if n := len(s.Minutes); n > 0 && s.Minutes[n-1].ByHand {
		b.Text(r.X, r.Y+bold.Size+1.35*small.Size, look.Textf(look.TrainerOffHand, units.Figure(s.Minutes[n-1].Error, 1)), small, b.C.Ink)
	}
	graph := paint.R(r.X+34*u, r.Y+bold.Size+2*small.Size, r.W-40*u, r.H-bold.Size-3.6*small.Size)
	if graph.H < 30*u {
		return
	}
	most := 1.3 * s.Exercise.Hold.NM()
	for _, m := range s.Minutes {
		most = math.Max(most, 1.05*m.Error)
	}
	level := func(nm float64) float64 { return graph.Bottom() - graph.H*nm/most }
	var path paint.Path
	b.Stroke(path.MoveTo(graph.X, graph.Y).LineTo(graph.X, graph.Bottom()).LineTo(graph.Right(), graph.Bottom()), paint.Pen{Width: b.K.Hair()}, b.C.Ink2)
	hold := level(s.Exercise.Hold.NM())
	b.Stroke(path.Reset().MoveTo(graph.X, hold).LineTo(graph.Right(), hold), paint.Pen{Width: 1.5 * u, Dash: []float64{7 * u, 5 * u}}, b.C.BrassLo)
	end := small
	end.Anchor = paint.End
	b.Text(graph.X-4*u, hold+0.35*small.Size, units.Figure(s.Exercise.Hold.NM(), 0), end, b.C.Ink2)
	b.Text(graph.X-4*u, graph.Bottom(), "0", end, b.C.Ink2)
	if len(s.Minutes) == 0 {
		return
	}
	first, last := s.Minutes[0].At, s.Minutes[len(s.Minutes)-1].At
	across := func(m *score.Minute) float64 {
		return graph.X + graph.W*float64(m.At-first)/math.Max(1, float64(last-first))
	}
	path.Reset()
	for i := range s.Minutes {
		m := &s.Minutes[i]
		if x, y := across(m), level(m.Error); i == 0 {
			path.MoveTo(x, y)
		} else {
			path.LineTo(x, y)
		}
	}
	b.Stroke(&path, paint.Pen{Width: 2.2 * u}, b.C.Verm)
	b.Text(graph.X, graph.Bottom()+1.3*small.Size, p.view.clock(first), small, b.C.Ink2)
	b.Text(graph.Right(), graph.Bottom()+1.3*small.Size, p.view.clock(last), end, b.C.Ink2)
}

// marks draws the marks so far; the reasons stand on the sheet.
func (p *pane) marks(b *picture.Brush, r paint.Rect) {
	if p.hidden(b, r) || p.view.told == nil {
		return
	}
	score.DrawMarksShort(b, r, p.view.told)
}

// events lists what happened, the newest first; what the trainee does not know stands in
// the colour of faults and with a diamond.
func (p *pane) events(b *picture.Brush, r paint.Rect) {
	t := paint.Type{Font: look.Regular.Font(), Size: b.K.Text(look.TextSmall)}
	u := b.K.Device
	time := t.Font.Width("0000Z", t.Size) + 10*u
	y := r.Y
	for _, e := range p.view.events() {
		ink := b.C.Ink
		if e.truth {
			ink = b.C.Verm
		}
		lines := t.Wrap(e.words, r.W-time-16*u)
		if y+1.3*t.Size*float64(len(lines)) > r.Bottom() {
			return
		}
		b.Text(r.X, y+1.3*t.Size, p.view.clock(e.at), t, b.C.Ink2)
		if e.truth {
			b.FaultDiamond(paint.Pt(r.X+time, y+0.95*t.Size), 0.5)
		}
		for _, line := range lines {
			y += 1.3 * t.Size
			b.Text(r.X+time+12*u, y, line, t, ink)
		}
		y += 0.25 * t.Size
	}
}
