package chooser

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator"
	"stillair/integrator/units"
	"stillair/sim"
)

// told is the card that tells of the chosen flight, with the keys that fly it
// and open a file.
type told struct {
	chooser *Chooser
	content *fyne.Container
	sheet   *sheet
	fly     *kit.Key
	open    *kit.Key
	begin   *kit.Key
	copy    *kit.Key
	school  *kit.Key // the other way of use, where the flight has one
	opening bool
}

// sheet is the paper of the card.
type sheet struct {
	kit.Painted
	told *told
}

func newTold(c *Chooser) *told {
	t := &told{chooser: c}
	t.sheet = &sheet{told: t}
	t.sheet.Extend(t.sheet, c.screen, fyne.NewSize(300, 160), t.sheet.paint)
	t.fly = kit.NewKey(c.screen, look.Text(look.ChooserFly), kit.NoSign, 160, c.flyChosen)
	t.fly.Main = true
	t.open = kit.NewKey(c.screen, look.Text(look.ChooserOpen), kit.NoSign, 130, c.askFile)
	t.begin = kit.NewKey(c.screen, look.Text(look.EditorNew), kit.NoSign, 130, c.begin)
	t.copy = kit.NewKey(c.screen, look.Text(look.EditorCopy), kit.NoSign, 130, c.copyChosen)
	t.begin.Hint, t.copy.Hint = look.Text(look.EditorNewHint), look.Text(look.EditorCopyHint)
	t.school = kit.NewKey(c.screen, "", kit.NoSign, kit.Target, t.pressSchool)
	t.content = container.New(t, t.sheet, t.fly, t.open, t.school, t.begin, t.copy)
	t.apply()
	return t
}

// busy says that a file is being opened.
func (t *told) busy(on bool) {
	t.opening = on
	t.apply()
}

// apply brings the card up to the chosen flight.
func (t *told) apply() {
	e := t.chooser.chosen
	reason := ""
	switch {
	case t.opening || e.flight == nil && e.err == nil:
		reason = look.Text(look.ChooserOpening)
	case e.err != nil:
		reason = look.Text(look.ChooserNotYet)
	}
	t.fly.Forbid(reason)
	reason = ""
	if text, why := e.text(); text == nil {
		reason = look.Text(why)
	}
	word, hint := look.EditorCopy, look.EditorCopyHint
	if _, own := e.own(); own {
		word, hint = look.EditorEdit, look.EditorEditHint
	}
	t.copy.Hint = look.Text(hint)
	t.copy.Set(look.Text(word), kit.NoSign, false)
	t.copy.Forbid(reason)
	t.applySchool()
	t.sheet.Repaint()
	t.content.Refresh()
}

func (t *told) repaint() {
	for _, o := range []fyne.CanvasObject{t.sheet, t.fly, t.open, t.school, t.begin, t.copy} {
		o.Refresh()
	}
}

func (t *told) inset() float32 { return max(12, 20*t.chooser.part()) }

// height is how high the card must be, units.
func (t *told) height() float32 {
	z := t.chooser.screen.Size(1)
	rows := 6.0
	if t.brief() {
		rows = 0
	}
	words := 1.5*z.Text(look.TextLarge) + 1.7*z.Text(look.TextSmall) + rows*rowPitch*z.Text(look.TextBody)
	return round(float32(words) + 2.4*t.inset() + 2*kit.Target + writeGap)
}

// brief leaves the facts out where a list of errors needs the room.
func (t *told) brief() bool {
	c := t.chooser
	return c.refusal != nil && c.refusal.content.Visible() && (c.part() < 0.9 || c.chosen.flight == nil)
}

// Layout is part of the toolkit's contract.
func (t *told) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t.sheet.Resize(size)
	inset := t.inset()
	y := size.Height - inset - 2*kit.Target - writeGap
	keys := []*kit.Key{t.fly, t.school, t.open}
	if !t.school.Visible() {
		keys = []*kit.Key{t.fly, t.open}
	}
	rowOfKeys(inset, y, size.Width, map[*kit.Key]float32{t.fly: 1.5, t.school: 1, t.open: 1}, keys...)
	rowOfKeys(inset, y+kit.Target+writeGap, size.Width, map[*kit.Key]float32{t.begin: 1, t.copy: 1}, t.begin, t.copy)
}

// writeGap parts the keys that write a flight from those that open one, units.
const writeGap = 4

// MinSize is part of the toolkit's contract.
func (t *told) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, t.height()) }

// rowPitch is from fact to fact, parts of the size of the text.
const rowPitch = 1.6

func (s *sheet) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, e := s.Palette(), s.told.chooser.chosen
	paper(d, w, h, paint.R(0, 0, w, h), z, c, z.Hair(), c.Line)
	inset := float64(s.told.inset()) * z.Device
	title, small := typeOf(look.Bold, z, look.TextLarge), typeOf(look.Regular, z, look.TextSmall)
	y := inset*0.8 + title.Size
	d.Text(inset, y, title.Shorten(printable(e.title, look.Bold), w-2*inset), title, c.Ink)
	y += 1.6 * small.Size
	switch {
	case e.flight != nil:
		d.Text(inset, y, small.Shorten(when(e.flight), w-2*inset), small, c.Ink2)
	case e.err == nil:
		d.Text(inset, y, look.Text(look.ChooserOpening), small, c.Ink2)
	default:
		d.Text(inset, y, small.Shorten(printable(e.path, look.Regular), w-2*inset), small, c.Ink2)
	}
	if e.flight == nil || s.told.brief() {
		return
	}
	name, value := typeOf(look.Regular, z, look.TextBody), typeOf(look.Semibold, z, look.TextBody)
	value.Anchor = paint.End
	y += 0.4 * small.Size
	for _, f := range facts(e.flight) {
		y += rowPitch * name.Size
		d.Text(inset, y, f.name, name, c.Ink2)
		room := w - 2*inset - name.Font.Width(f.name, name.Size) - 16*z.Device
		d.Text(w-inset, y, value.Shorten(f.value, room), value, c.Ink)
	}
}

// when is date, times and seed of a flight.
func when(f *flights.Flight) string {
	return look.Textf(look.ChooserWhen, units.DateText(f.Plan.Start), units.TimeText(f.Plan.Start), units.TimeText(f.End()), f.Plan.Seed)
}

type fact struct{ name, value string }

// facts tell of a flight as much as the crew may know, and of the faults only
// how many there are.
func facts(f *flights.Flight) []fact {
	p := f.Plan
	speed := look.ChooserSpeedTAS
	if p.Aircraft.Speed.Kind == sim.HoldCAS {
		speed = look.ChooserSpeedCAS
	}
	variation := look.Text(look.FollowsField)
	if v := p.Setting.Variation; v != nil {
		variation = v.Tenths()
	}
	class := look.ChooserIdeal
	if p.Mechanism.Class == integrator.Service {
		class = look.ChooserService
	}
	return []fact{
		{look.Text(look.ChooserAircraft), look.Textf(speed, units.SpeedText(p.Aircraft.Speed.Speed), units.HeightText(p.Aircraft.PressureAltitude))},
		{look.Text(look.ChooserWinds), look.Textf(look.ChooserWindsHidden, p.Setting.Wind)},
		{look.Text(look.ChooserVariation), variation},
		{look.Text(look.ChooserInstrument), look.Text(class)},
		{look.Text(look.ChooserLegs), units.Figure(float64(len(p.Legs)), 0)},
		{look.Text(look.ChooserFaults), faultsOf(p)},
	}
}

// faultsOf is how many faults there are, which an exercise does not tell.
func faultsOf(p *sim.Plan) string {
	if p.Exercise != nil {
		return look.Text(look.ChooserNotTold)
	}
	return faultsText(len(p.Faults))
}

func faultsText(n int) string {
	switch n {
	case 0:
		return look.Text(look.ChooserFaultNone)
	case 1:
		return look.Text(look.ChooserFaultOne)
	}
	return look.Textf(look.ChooserFaultMany, n)
}

// rowOfKeys lays keys out across a card, by their shares.
func rowOfKeys(inset, y, width float32, shares map[*kit.Key]float32, keys ...*kit.Key) {
	sum := float32(0)
	for _, k := range keys {
		sum += shares[k]
	}
	x, w := inset, width-2*inset-8*float32(len(keys)-1)
	for _, k := range keys {
		wide := round(w * shares[k] / sum)
		k.Move(fyne.NewPos(x, y))
		k.Resize(fyne.NewSize(wide, kit.Target))
		x += wide + 8
	}
}
