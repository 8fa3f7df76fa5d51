package charttable

import (
	"math"
	"time"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// curvesCard is the card of an overlay, over the column of instruments: the pairs of
// stars, the two readings, the place, and the time of the curves.
type curvesCard struct {
	curves *curves
	paper  *panel
	pairs  [mostPairs]*pairKey
	plates [2]*readPlate
	slide  *timeSlide

	shut, lift, log, follow, put *kit.Key

	place box
	// where what is painted stands, units from the top of the card
	head, sky, reads, fixTop, time, notes, foot float32
	disc                                        float32 // height of the sky, 0: there is no room
}

func newCurvesCard(c *curves) *curvesCard {
	k := &curvesCard{curves: c}
	screen := c.table.screen
	k.paper = newPanel(screen, k.paint)
	for i := range k.pairs {
		k.pairs[i] = newPairKey(c, i)
	}
	for i := range k.plates {
		k.plates[i] = newReadPlate(c, i)
	}
	k.slide = newTimeSlide(c)
	key := func(word, hint look.Key, press func()) *kit.Key {
		key := kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
		if hint != "" {
			key.Hint = look.Text(hint)
		}
		return key
	}
	k.shut = key(look.CloseWord, "", c.shut)
	k.lift = key(look.CurvesLift, look.LiftHint, c.lift)
	k.log = key(look.CurvesLog, look.CurvesLogHint, c.takeLog)
	k.follow = key(look.CurvesFollow, look.FollowHint, c.follow)
	k.put = key(look.CurvesPut, look.CurvesPutHint, c.putFix)
	k.put.Main = true
	return k
}

func (k *curvesCard) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{k.paper}
	for _, p := range k.pairs {
		all = append(all, p)
	}
	for _, p := range k.plates {
		all = append(all, p, p.minus, p.plus)
	}
	return append(all, k.put, k.slide, k.log, k.follow, k.lift, k.shut)
}

// show shows what the card has for the overlay that lies there.
func (c *curves) show() {
	k := c.card
	stars := c.on && c.kind == starCurves
	show(c.on, k.paper, k.put, k.log, k.lift, k.shut)
	for _, p := range k.plates {
		show(c.on, p, p.minus, p.plus)
	}
	show(stars, k.slide, k.follow)
	for i, p := range k.pairs {
		show(stars && i < len(c.rows), p)
	}
	c.table.showColumn()
	if c.on && k.place.w > 0 {
		k.lay(k.place)
	}
}

// The card, units.
const (
	curvesPad  = 12
	curvesGap  = 4
	curvesLine = 20 // a heading
	discTall   = 620
	mostDisc   = 320 // height of the sky
	restTall   = 560 // what else the card needs, with its sentences
)

// lay puts the card into a place.
func (k *curvesCard) lay(at box) {
	k.place = at
	at.put(k.paper)
	const row = kit.Target + curvesGap
	in := box{at.x + curvesPad, at.y, at.w - 2*curvesPad, at.h}
	y := in.y + curvesPad/2
	k.layRow(in, y, k.lift, k.shut)
	k.head = y - at.y
	y += row
	stars := k.curves.kind == starCurves
	k.sky, k.disc = y-at.y, 0
	switch {
	case stars && at.h >= discTall:
		k.disc = max(mostPairs*row+curvesLine, min(mostDisc, at.h-restTall))
		k.layPairs(box{in.x + in.w*0.56, y + curvesLine, in.w * 0.44, 0}, true)
		y += k.disc
	case stars:
		k.layPairs(box{in.x, y, in.w, 0}, false)
		y += row
	default:
		y += k.who(in.w)
	}
	k.reads = y - at.y
	y += curvesLine
	for _, p := range k.plates {
		k.layRow(in, y, p.minus, p.plus)
		box{in.x, y, in.w - 2*row, kit.Target}.put(p)
		y += row
	}
	k.fixTop = y - at.y
	wide := max(k.put.Needs(), 130)
	box{in.x + in.w - wide, y, wide, kit.Target}.put(k.put)
	y += row
	if stars {
		k.time = y - at.y
		y += curvesLine
		box{in.x, y, in.w, kit.Target}.put(k.slide)
		y += row
	}
	k.notes = y - at.y
	foot := at.y + at.h - curvesPad - kit.Target
	k.foot = foot - at.y
	if !stars {
		box{in.x, foot, in.w, kit.Target}.put(k.log)
		return
	}
	half := (in.w - curvesGap) / 2
	box{in.x, foot, half, kit.Target}.put(k.log)
	box{in.x + half + curvesGap, foot, half, kit.Target}.put(k.follow)
}

// layRow puts two keys at the right end of a row.
func (k *curvesCard) layRow(in box, y float32, a, b *kit.Key) {
	wa, wb := max(kit.Target, a.Needs()), max(kit.Target, b.Needs())
	box{in.x + in.w - wb, y, wb, kit.Target}.put(b)
	box{in.x + in.w - wb - curvesGap - wa, y, wa, kit.Target}.put(a)
}

// layPairs puts the pairs under one another or side by side.
func (k *curvesCard) layPairs(in box, column bool) {
	for i, p := range k.pairs {
		if column {
			box{in.x, in.y + float32(i)*(kit.Target+curvesGap), in.w, kit.Target}.put(p)
			continue
		}
		w := (in.w - (mostPairs-1)*curvesGap) / mostPairs
		box{in.x + float32(i)*(w+curvesGap), in.y, w, kit.Target}.put(p)
	}
}

// size is the scale of text at one pixel to a unit.
func (k *curvesCard) size() look.Size { return k.curves.table.screen.Size(1) }

// who is the height of the sentence that names the stations.
func (k *curvesCard) who(w float32) float32 {
	z := k.size()
	return float32(math.Ceil(float64(len(k.whoLines(z, float64(w))))*1.3*z.Text(look.TextSmall))) + 6
}

func (k *curvesCard) whoLines(z look.Size, w float64) []string {
	c := k.curves.chain
	return wrapped(look.Textf(look.LatticeWho, c[0].Name, c[1].Name, c[2].Name), noteType(z), w)
}

// curvesShown is what the paper of the card shows.
type curvesShown struct {
	kind  laid
	done  *curvesDone
	time  int64
	put   int
	note  string
	lines string
	p     *look.Palette
}

// apply brings the card up to the overlay.
func (k *curvesCard) apply() {
	c := k.curves
	if !c.on {
		return
	}
	for i, p := range k.pairs {
		show(c.kind == starCurves && i < len(c.rows), p)
		p.show()
	}
	for _, p := range k.plates {
		p.show()
	}
	k.slide.show()
	k.follow.Set(k.follow.Word, kit.NoSign, c.held.IsZero())
	none := ""
	if len(c.fromLog()) == 0 {
		none = look.Text(look.CurvesNoLog)
	}
	k.log.Forbid(none)
	_, _, ok := c.fix()
	none = ""
	if !ok {
		none = c.why()
	}
	k.put.Forbid(none)
	k.paper.Update(curvesShown{c.kind, c.job.done, c.time().Unix() / 60, len(c.puts), c.note(), c.why(), k.paper.Palette()})
}

// why says why there is no fix.
func (c *curves) why() string {
	r := c.reads()
	d := c.job.done
	switch {
	case !r[0].Known || !r[1].Known:
		return look.Text(look.OneMoreRead)
	case d == nil || d.read != r:
		return ""
	case d.stars != nil && !d.stars.Dark:
		return c.note()
	}
	return look.Text(look.NoCrossing)
}

// note is what stands in the way of the curves, "" if nothing does.
func (c *curves) note() string {
	d := c.job.done
	if c.kind != starCurves || d == nil || d.stars == nil {
		return ""
	}
	when := units.TimeText(time.Unix(d.time, 0))
	switch {
	case !d.stars.Dark:
		return look.Textf(look.CurvesByDay, when)
	case d.stars.Pair.A.Body == 0:
		return look.Textf(look.CurvesNoPair, when)
	}
	return ""
}

// lore are the sentences at the foot of the card.
func (c *curves) lore() []string {
	if c.kind == pulseLattice {
		return []string{look.Text(look.LatticeTwo)}
	}
	v := &c.table.moment.View
	track, speed := shownTrack(v)
	shift, to := overlay.Tilt(speed, v.Ground.Lat, track)
	var first []string
	drift := overlay.Westward(v.Ground.Lat)
	if d := c.job.done; d != nil && d.stars != nil {
		drift = d.stars.Drift // as on the chart
	}
	if cut, ok := c.cut(c.pair); ok && cut < overlay.LeastCut {
		first = []string{look.Textf(look.PairIsPoor, units.Figure(cut.Degrees(), 0))}
	}
	return append(first,
		look.Textf(look.CurvesLate, units.DistanceText(drift)),
		look.Textf(look.CurvesTilt, units.HeightText(v.PressureAltitude), units.TrueText(track), units.SpeedText(speed),
			units.DistanceText(shift), units.TrueText(to)))
}

// heading is how headings of the card are written.
func (k *curvesCard) heading(z look.Size) paint.Type {
	return paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextSmall)}
}
