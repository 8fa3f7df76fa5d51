package gui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// bar is the row at the top: mark and name, the flight, the chart's keys, the
// tools of a lecture, Reveal, light, help, full screen.
type bar struct {
	kit.Painted
	window  *Window
	table   *kit.Key // the switches of the two views, and both beside one another
	linkage *kit.Key
	beside  *kit.Key
	plot    *kit.Key
	spread  *kit.Key // of the debrief
	trainer *kit.Key // of an exercise that a trainer sets
	seat    *kit.Key // gives this screen to the trainee
	debrief *kit.Key // once the flight has ended, or while it stands
	flight  *kit.Key
	chart   []*kit.Key // of the views in hand
	works   []*kit.Key
	account []*kit.Key
	over    bool // the flight has ended
	tools   *kit.Key
	reveal  *kit.Key
	light   *kit.Key
	help    *kit.Key
	full    *kit.Key
	caution float32 // where the caution may stand, units
	room    float32
}

func newBar(w *Window) *bar {
	b := &bar{window: w}
	b.Extend(b, &w.screen, fyne.NewSize(600, 64), b.paint)
	stand := func(to stand) func() { return func() { w.stand(to) } }
	b.table = kit.NewKey(&w.screen, look.Text(look.ChartTableWord), kit.NoSign, kit.Target, stand(tableStand))
	b.linkage = kit.NewKey(&w.screen, look.Text(look.LinkageWord), kit.NoSign, kit.Target, stand(linkageStand))
	b.beside = kit.NewSignKey(&w.screen, kit.BesideSign, look.BesideHint, stand(besideStand))
	b.plot = kit.NewSignKey(&w.screen, kit.PlotSign, look.NavigatorHint, stand(navigatorStand))
	b.debrief = kit.NewKey(&w.screen, look.Text(look.DebriefWord), kit.NoSign, kit.Target, stand(debriefStand))
	b.trainer = kit.NewKey(&w.screen, look.Text(look.TrainerWord), kit.NoSign, kit.Target, stand(trainerStand))
	b.trainer.Hint = look.Text(look.TrainerHint)
	b.seat = kit.NewKey(&w.screen, look.Text(look.SeatTrainee), kit.NoSign, kit.Target, func() { w.school.sit() })
	b.seat.Hint = look.Text(look.SeatTraineeHint)
	b.spread = kit.NewKey(&w.screen, look.Text(look.SpreadWord), kit.NoSign, kit.Target, func() { w.toggleSpread() })
	b.spread.Hint = look.Text(look.SpreadHint)
	b.debrief.Hint = look.Text(look.DebriefHint)
	b.table.Hint, b.linkage.Hint = look.Text(look.ChartTableHint), look.Text(look.LinkageHint)
	b.flight = kit.NewKey(&w.screen, "", kit.NoSign, 200, func() { w.toggle(chooserFront) })
	b.flight.Hint = look.Text(look.FlightHint)
	b.tools = kit.NewKey(&w.screen, look.Text(look.LectureTools), kit.NoSign, 96, w.toggleTools)
	b.tools.Hint = look.Text(look.LectureHint)
	b.reveal = kit.NewKey(&w.screen, look.Text(look.Reveal), kit.RevealSign, 112, w.reveal)
	b.reveal.Hint = look.Text(look.RevealHint)
	b.light = kit.NewSignKey(&w.screen, kit.NightSign, look.LightHint, w.nextLight)
	b.help = kit.NewSignKey(&w.screen, kit.HelpSign, look.Help, func() { w.toggle(helpFront) })
	b.full = kit.NewSignKey(&w.screen, kit.FullScreenSign, look.FullScreen, w.toggleFullScreen)
	return b
}

// show takes up the flight in hand.
func (b *bar) show(s *show) {
	b.chart, b.works, b.account = s.table.ChartKeys(), s.linkage.Keys(), s.debrief.Keys()
	word, rest, _ := strings.Cut(s.flight.Plan.Title, ": ") // what follows has room in the list of flights
	b.flight.Word, b.flight.Under = word, units.DateText(s.flight.Plan.Start)
	if s.lesson != nil && rest != "" {
		b.flight.Word, b.flight.Under = rest, word+", "+b.flight.Under
	}
	if s.flight.Record != nil {
		b.flight.Under = look.Text(look.Recorded) // the date stands on the time strip
	}
}

func (b *bar) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{b}
	for _, k := range b.keys() {
		all = append(all, k)
	}
	return all
}

func (b *bar) keys() []*kit.Key {
	all := []*kit.Key{b.table, b.linkage, b.beside, b.plot, b.trainer, b.seat, b.debrief, b.spread, b.flight, b.tools, b.reveal, b.light, b.help, b.full}
	return slices.Concat(all, b.chart, b.works, b.account)
}

// From roomyBar on there is room for the keys of both views; below tightBar the
// key for both beside one another stands among the tools of a lecture alone.
const (
	roomyBar = 1700
	tightBar = 1500
)

// lay puts the bar across the window and gives its height.
func (b *bar) lay(size fyne.Size) float32 {
	f := min(size.Width/1920, size.Height/1080)
	h, edge := max(64, look.TopBar*f), max(12, look.Edge*f)
	b.Move(fyne.NewPos(0, 0))
	b.Resize(fyne.NewSize(size.Width, h))
	b.showKeys(size.Width)
	row := rowOf{y: (h - kit.Target) / 2, x: size.Width - edge, gap: max(4, 8*f)}
	row.leftward(b.full, b.help, b.light, b.reveal, b.tools)
	row.x -= max(4, 16*f)
	row.leftward(b.spread)
	for _, keys := range [][]*kit.Key{b.works, b.chart, b.account} {
		keys = slices.Clone(keys)
		slices.Reverse(keys)
		row.leftward(keys...)
	}
	right := row.x
	row = rowOf{y: row.y, x: b.nameEnd(f, edge), gap: 4}
	row.rightward(b.table, b.linkage, b.beside, b.plot, b.trainer, b.seat, b.debrief)
	row.x += max(2, 12*f)
	w := min(max(166, 300*f), right-row.x-120)
	kit.Box{X: row.x, Y: row.y, W: w, H: kit.Target}.Put(b.flight)
	b.caution = row.x + w + max(8, 16*f)
	b.room = right - b.caution
	return h
}

// showKeys shows the keys of the views that are to be seen.
func (b *bar) showKeys(width float32) {
	stands := b.window.stands
	for _, k := range b.chart {
		kit.Show(stands == tableStand || stands == besideStand || stands == navigatorStand || stands == editorStand, k)
	}
	for _, k := range b.works {
		kit.Show(stands == linkageStand || stands == besideStand && width >= roomyBar, k)
	}
	kit.Show(stands == debriefStand, b.account[0])
	kit.Show(stands == debriefStand && b.window.debrief.Pages() > 1, b.account[1])
	kit.Show(stands >= debriefStand, b.spread)
	debrief := b.over || stands >= debriefStand
	kit.Show(debrief, b.debrief)
	kit.Show(b.window.trainer != nil, b.trainer, b.seat)
	kit.Show(b.window.trainer == nil || width >= roomyBar, b.plot, b.tools)
	kit.Show(width >= tightBar && (width >= roomyBar || !debrief), b.beside)
	if b.window.front == traineeFront {
		kit.Show(false, b.objects()...)
	}
}

// stand shows the bar, or has it out of the way of a trainee, who has one without what
// shows the truth.
func (b *bar) stand(there bool) {
	kit.Show(there, b.objects()...)
	if there {
		b.window.root.Refresh()
	}
}

// rowOf is a row of keys that is being laid.
type rowOf struct{ x, y, gap float32 }

func (r *rowOf) leftward(keys ...*kit.Key) {
	for _, k := range keys {
		if !k.Visible() {
			continue
		}
		w := max(k.MinSize().Width, k.Needs())
		r.x -= w
		kit.Box{X: r.x, Y: r.y, W: w, H: kit.Target}.Put(k)
		r.x -= r.gap
	}
}

func (r *rowOf) rightward(keys ...*kit.Key) {
	for _, k := range keys {
		if !k.Visible() {
			continue
		}
		w := max(k.MinSize().Width, k.Needs())
		kit.Box{X: r.x, Y: r.y, W: w, H: kit.Target}.Put(k)
		r.x += w + r.gap
	}
}

// nameEnd is where the name ends and the flight's key begins, units.
func (b *bar) nameEnd(f, edge float32) float32 {
	size := b.window.screen.Size(1).Text(look.TextHeading)
	name := float32(look.Engraved.Font().Width(look.Text(look.Stillair), size))
	return float32(int(edge + 62 + name + max(8, 28*f)))
}

func (b *bar) apply(m *helm.Moment) {
	if m.Revealed != nil {
		b.reveal.Set(look.Text(look.Hide), kit.RevealSign, true)
	} else {
		b.reveal.Set(look.Text(look.Reveal), kit.RevealSign, false)
	}
	if b.over != m.Over {
		b.over = m.Over
		b.window.root.Refresh()
	}
}

func (b *bar) recolour() {
	signs := map[look.Variant]kit.Sign{look.Paper: kit.NightSign, look.Night: kit.LampSign, look.Lamp: kit.PaperSign}
	b.light.Set("", signs[b.Palette().Variant], false)
	b.help.Set("", kit.HelpSign, b.window.front == helpFront)
	b.tools.Set(b.tools.Word, kit.NoSign, b.window.table.TrayOpen())
	b.flight.Set(b.flight.Word, kit.NoSign, b.window.front == chooserFront)
	stands, seen := b.window.stands, b.window.front == tableFront
	b.table.Set(b.table.Word, kit.NoSign, seen && stands == tableStand)
	b.linkage.Set(b.linkage.Word, kit.NoSign, seen && stands == linkageStand)
	b.beside.Set("", kit.BesideSign, seen && stands == besideStand)
	b.trainer.Set(b.trainer.Word, kit.NoSign, seen && stands == trainerStand)
	b.plot.Set("", kit.PlotSign, seen && stands == navigatorStand)
	b.debrief.Set(b.debrief.Word, kit.NoSign, seen && stands == debriefStand)
	b.spread.Set(b.spread.Word, kit.NoSign, seen && stands == spreadStand)
	for _, o := range b.objects() {
		o.Refresh()
	}
}

// paint draws the mark (a still-air cross in a ring, threaded on a brass line),
// the name and the caution.
func (b *bar) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, u := b.Palette(), z.Device
	var p paint.Path
	d.Fill(p.Rect(paint.R(0, 0, w, h)), c.Card)
	d.Fill(p.Reset().Rect(paint.R(0, h-z.Hair(), w, z.Hair())), c.Line)
	x, y := max(12*u, z.Px(look.Edge))+26*u, h/2
	d.Stroke(p.Reset().MoveTo(x-26*u, y).LineTo(x+26*u, y), paint.Pen{Width: 4 * u}, c.BrassLo)
	d.Stroke(p.Reset().MoveTo(x-26*u, y).LineTo(x+26*u, y), paint.Pen{Width: 2 * u}, c.BrassHi)
	d.Fill(p.Reset().Circle(x, y, 15*u), c.Card)
	d.Stroke(&p, paint.Pen{Width: 2.2 * u}, c.Ink)
	d.Stroke(p.Reset().MoveTo(x-8*u, y).LineTo(x+8*u, y).MoveTo(x, y-8*u).LineTo(x, y+8*u), paint.Pen{Width: 2.4 * u}, c.Ink)
	name := paint.Type{Font: look.Engraved.Font(), Size: z.Text(look.TextHeading)}
	d.Text(x+36*u, y+0.34*name.Size, look.Text(look.Stillair), name, c.Ink)
	b.paintCaution(d, y, z)
}

// tightCaution is the room in which the caution is written smaller, units.
const tightCaution = 130

// paintCaution writes the caution in as few lines as there is room for.
func (b *bar) paintCaution(d *paint.Raster, y float64, z look.Size) {
	small := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextSmall)}
	if float64(b.room) < tightCaution { // three lines must do
		small.Size = min(small.Size, 12.5*z.Device)
	}
	lines := small.Wrap(look.Text(look.Caution), float64(b.room)*z.Device)
	pitch := 1.25 * small.Size
	top := y - pitch*float64(len(lines)-1)/2 + 0.35*small.Size
	for i, l := range lines {
		d.Text(float64(b.caution)*z.Device, top+float64(i)*pitch, l, small, b.Palette().Ink2)
	}
}
