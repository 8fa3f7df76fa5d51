package charttable

import (
	"math"

	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// pinCard is the list of pins: it lies where the instruments are, so that
// nothing of the chart is covered.
type pinCard struct {
	pins    *pins
	paper   *panel
	rows    [maxPins]*pinRow
	removes [maxPins]*kit.Key
	another *kit.Key
	clear   *kit.Key
	reveal  *kit.Key
	place   box
	told    string // what became of the handout, or why a pin was not put
	failed  bool
}

func newPinCard(p *pins) *pinCard {
	screen := p.table.screen
	c := &pinCard{pins: p}
	c.paper = newPanel(screen, c.paint)
	for i := range c.rows {
		c.rows[i] = newPinRow(c, i)
		c.removes[i] = kit.NewKey(screen, look.Text(look.PinRemove), kit.NoSign, 84, func() { c.remove(i) })
	}
	c.another = kit.NewKey(screen, look.Text(look.PinAnother), kit.NoSign, 112, p.another)
	c.another.Hint = look.Text(look.PinAnotherHint)
	c.clear = kit.NewKey(screen, look.Text(look.PinClear), kit.NoSign, 104, p.clear)
	c.reveal = kit.NewKey(screen, look.Text(look.Reveal), kit.RevealSign, 132, p.toggleReveal)
	c.reveal.Main = true
	return c
}

func (c *pinCard) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{c.paper}
	for i := range c.rows {
		all = append(all, c.rows[i], c.removes[i])
	}
	return append(all, c.another, c.clear, c.reveal)
}

func (c *pinCard) remove(i int) {
	if i < len(c.pins.all) {
		c.pins.remove(c.pins.all[i].letter)
	}
}

// tell writes a line at the foot of the card, until something changes.
func (c *pinCard) tell(words string, failed bool) {
	c.told, c.failed = words, failed
	c.paper.Repaint()
}

// pinsKey is what the card shows.
type pinsKey struct {
	count   int
	locked  bool
	answer  *pinsAnswer
	palette *look.Palette
}

// show brings the card up to the pins.
func (p *pins) show() {
	c := p.card
	locked := p.locked()
	for i, r := range c.rows {
		has := p.on && i < len(p.all)
		show(has, r)
		show(has && locked == "", c.removes[i])
		r.show()
	}
	show(p.on, c.paper, c.another, c.clear, c.reveal)
	p.table.showColumn()
	if p.revealed {
		c.reveal.Set(look.Text(look.Hide), kit.RevealSign, true)
	} else {
		c.reveal.Set(look.Text(look.Reveal), kit.RevealSign, false)
	}
	c.another.Forbid(p.whyNoMore())
	none := ""
	if len(p.all) == 0 {
		none = look.Text(look.PinsNone)
	}
	c.clear.Forbid(none)
	c.settle()
}

// settle lays the card anew where the number of rows has changed.
func (c *pinCard) settle() {
	now := pinsKey{len(c.pins.all), c.pins.revealed, c.pins.answer, c.pins.table.screen.Palette}
	c.paper.Update(now)
	if c.place.w > 0 {
		c.lay(c.place)
	}
}

// The card, units.
const (
	pinPad  = 14
	pinGap  = 6
	pinList = 12  // room over the heading of the list
	tallest = 640 // from this height on the keys stand in two rows
)

// lay puts the card into a place.
func (c *pinCard) lay(b box) {
	c.place = b
	b.put(c.paper)
	x, w := b.x+pinPad, b.w-2*pinPad
	foot := c.layKeys(box{x, b.y, w, b.h}) - c.foot()
	top := b.y + c.head()
	pitch := min(kit.Target+pinGap, (foot-top)/float32(max(1, len(c.pins.all))))
	remove := max(88, c.removes[0].Needs())
	for i, r := range c.rows {
		y := top + float32(i)*pitch
		room := w
		if c.pins.locked() == "" {
			room -= remove + pinGap
		}
		box{x, y, room, pitch - pinGap}.put(r)
		box{x + w - remove, y, remove, pitch - pinGap}.put(c.removes[i])
	}
}

// layKeys puts the keys at the foot and gives their upper edge.
func (c *pinCard) layKeys(b box) float32 {
	y := b.y + b.h - pinPad - kit.Target
	if b.h < tallest {
		keys := []*kit.Key{c.another, c.clear, c.reveal}
		spare := b.w - 2*pinGap
		for _, k := range keys {
			spare -= k.MinSize().Width
		}
		x := b.x
		for _, k := range keys {
			w := k.MinSize().Width + spare/3
			box{x, y, w, kit.Target}.put(k)
			x += w + pinGap
		}
		return y
	}
	const main = kit.Target + 16
	y -= main - kit.Target
	box{b.x, y, b.w, main}.put(c.reveal)
	y -= kit.Target + pinGap
	half := (b.w - pinGap) / 2
	box{b.x, y, half, kit.Target}.put(c.another)
	box{b.x + half + pinGap, y, half, kit.Target}.put(c.clear)
	return y
}

// wide says whether there is room for what can be left out.
func (c *pinCard) wide() bool {
	return c.place.h >= tallest || len(c.pins.all) < 5 || c.pins.answer != nil
}

// size is the scale of text at one pixel to a unit.
func (c *pinCard) size() look.Size { return c.pins.table.screen.Size(1) }

// head is the height of what stands over the rows, units.
func (c *pinCard) head() float32 {
	z := c.size()
	lines := 1.0
	if c.wide() {
		lines += float64(len(c.sentence(z, float64(c.place.w))))
	}
	return float32(math.Round(pinPad+1.5*titleSize(z)+lines*1.35*z.Text(look.TextBody))) + pinList
}

// foot is the height of the line over the keys.
func (c *pinCard) foot() float32 {
	z := c.size()
	lines := len(wrapped(c.note(), noteType(z), float64(c.place.w)-2*pinPad))
	return float32(math.Round(float64(lines)*1.3*z.Text(look.TextSmall))) + 10
}

func titleSize(z look.Size) float64 { return max(look.TextHeading*z.Part, 21*z.Device) }

func noteType(z look.Size) paint.Type {
	return paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
}

func wrapped(words string, t paint.Type, w float64) []string {
	if words == "" {
		return nil
	}
	return t.Wrap(words, w)
}

// note is the line at the foot.
func (c *pinCard) note() string {
	if c.told == "" {
		return c.pins.locked()
	}
	return c.told
}

// sentence says what to do, or how it came out.
func (c *pinCard) sentence(z look.Size, w float64) []string {
	text := look.Text(look.PinsDo)
	if a := c.pins.answer; a != nil {
		text = look.Textf(look.PinsAnswer, units.DistanceText(a.ground.miles), a.time)
	}
	return wrapped(text, paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}, w-2*pinPad*z.Device)
}

func (c *pinCard) paint(d *paint.Raster, w, h float64, z look.Size) {
	p := c.paper.Palette()
	pad, size := pinPad*z.Device, z.Text(look.TextBody)
	y := pad + titleSize(z)
	d.Text(pad, y, look.Text(look.PinsTitle), paint.Type{Font: look.Bold.Font(), Size: titleSize(z)}, p.Ink)
	y += 0.5 * titleSize(z)
	if c.wide() {
		for _, line := range c.sentence(z, w) {
			y += 1.35 * size
			d.Text(pad, y-0.35*size, line, paint.Type{Font: look.Regular.Font(), Size: size}, p.Ink)
		}
	}
	y += 0.9*size + (pinList-4)*z.Device
	d.Text(pad, y, look.Text(look.PinsList), paint.Type{Font: look.Semibold.Font(), Size: size}, p.Ink)
	from := look.PinsFromGround
	if c.pins.answer != nil {
		from = look.PinsFromTruth
	}
	small := noteType(z)
	small.Anchor = paint.End
	d.Text(w-pad, y, look.Text(from), small, p.Ink2)
	c.paintNote(d, w, z)
}

// paintNote writes what is to be told over the keys.
func (c *pinCard) paintNote(d *paint.Raster, w float64, z look.Size) {
	p, text := c.paper.Palette(), noteType(z)
	ink := p.Ink2
	if c.failed && c.told != "" {
		ink = p.Verm
	}
	keys := float64(min(c.another.Position().Y, c.reveal.Position().Y)-c.place.y) * z.Device
	lines := wrapped(c.note(), text, w-2*pinPad*z.Device)
	y := keys - 6*z.Device - (float64(len(lines))-1)*1.3*text.Size - 0.25*text.Size
	for _, line := range lines {
		d.Text(pinPad*z.Device, y, line, text, ink)
		y += 1.3 * text.Size
	}
}

// distance is what a pin's row says: whole miles and bearing from the ground
// position while the truth is hidden, miles off to a tenth then.
func (p *pins) distance(q *pin) string {
	if p.answer != nil {
		return look.Textf(look.PinOff, units.DistanceText(q.off.miles))
	}
	from := between(units.Position(p.table.moment.View.Marker), q.at)
	return units.Figure(from.miles.NM(), 0) + " " + look.Text(look.NauticalMiles) + " " + units.TrueText(from.bearing)
}
