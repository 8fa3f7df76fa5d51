// Package linkage is the view of the mechanism opened up: the picture, its links
// to be pointed at, the card of a link, the walk along the chain, and the hands
// that hold a link. It shows a helm.Moment and hands orders to the helm.
package linkage

import (
	"io"
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// View is the view of one flight.
type View struct {
	helm   *helm.Helm
	plan   *sim.Plan
	screen *kit.Screen
	canvas func() fyne.Canvas

	story  chain.Story
	shown  picture.Linkage
	moment *helm.Moment
	ground *picture.Ground
	beside bool // the right part alone, beside the chart
	focus  []picture.Link
	si     bool

	content *fyne.Container
	pane    *pane
	spots   [picture.LinkCount]*spot
	card    *card
	keys    []*kit.Key // walk, follow the error, units
	stripes stripes
	steps   steps

	// BreakHere opens the card on which one of the faults is given; nil: there
	// is none.
	BreakHere func(faults []string)
	// Bring brings the view to the front; nil: it is there.
	Bring func()
	// Opened is told of each link whose card is opened; nil: nobody is.
	Opened func(picture.Link)
	clock  func() time.Time
}

// New builds the view; canvas gives the canvas it stands on once it does.
func New(h *helm.Helm, plan *sim.Plan, screen *kit.Screen, canvas func() fyne.Canvas) (*View, error) {
	ground, err := chain.StripGround(plan)
	if err != nil {
		return nil, err
	}
	v := &View{helm: h, plan: plan, screen: screen, canvas: canvas, ground: ground, clock: time.Now}
	v.shown.Lit, v.shown.Chosen = picture.NoLink, picture.NoLink
	v.pane = newPane(v)
	for i := range v.spots {
		v.spots[i] = newSpot(v, picture.Link(i))
	}
	v.keys = []*kit.Key{
		kit.NewKey(screen, look.Text(look.WalkWord), kit.NoSign, kit.Target, v.ToggleWalk),
		kit.NewKey(screen, look.Text(look.FollowErrorWord), kit.NoSign, kit.Target, v.ToggleFollow),
		kit.NewKey(screen, look.Text(look.UnitsSI), kit.NoSign, kit.Target, v.toggleUnits),
	}
	for i, hint := range []look.Key{look.WalkHint, look.FollowErrorHint, look.UnitsHint} {
		v.keys[i].Hint = look.Text(hint)
	}
	v.card = newCard(v)
	v.content = container.New(v, v.objects()...)
	v.take(h.Moment())
	return v, nil
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keys are the keys of the view for the bar of the window.
func (v *View) Keys() []*kit.Key { return v.keys }

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.pane}
	for _, l := range chain.Walk() { // Tab goes along the chain
		all = append(all, v.spots[l])
	}
	return append(all, v.card.objects()...)
}

// Beside shows the right part of the mechanism alone, for a place beside the
// chart, or the whole.
func (v *View) Beside(on bool) {
	v.beside = on
	v.content.Refresh()
	v.pane.Repaint()
}

// Shape is that of its right part, which stands beside the chart.
func (v *View) Shape() float32 { return (pictureW - rightPart) / pictureH }

// Apply brings the view up to a moment.
func (v *View) Apply(m *helm.Moment) {
	v.take(m)
	v.pane.Update(v.key())
	v.card.apply()
	v.keys[0].Set(v.keys[0].Word, kit.NoSign, v.card.mode == walking)
	v.keys[1].Set(v.keys[1].Word, kit.NoSign, v.card.mode == following)
	v.keys[1].Forbid(v.whyNoFollow())
}

// take works out what the picture shows of a moment.
func (v *View) take(m *helm.Moment) {
	revealed := v.moment != nil && v.moment.Revealed != nil
	v.moment = m
	v.story = chain.Story{View: &m.View, Now: m.Works, Mechanism: v.plan.Mechanism, Held: m.Held, Fast: m.Rate >= fastRate, SI: v.si}
	if m.Revealed != nil {
		v.story.Truth, v.story.Faults = &m.Revealed.Works, m.Revealed.Faults
		if !revealed {
			v.stripes.begin(v)
		}
	}
	v.story.Picture(&v.shown)
	v.steps.take(v)
	v.shown.Run = v.stripes.run(v)
	v.story.Strip(&v.shown, v.ground, truthOf(m))
}

func truthOf(m *helm.Moment) *picture.Truth {
	if m.Revealed == nil {
		return nil
	}
	return atlas.TruthOf(m.Revealed.Now, m.Revealed.Track)
}

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.LinkageWord) }

// Page is the mechanism of this moment as a picture on a page of its own: it
// writes it whenever it is called, from anywhere.
func (v *View) Page() func(io.Writer, paint.Format) error {
	plan, story, truth := v.plan, v.story, truthOf(v.moment)
	return func(out io.Writer, f paint.Format) error { return chain.WritePage(out, f, plan, &story, truth) }
}

// fastRate is the time rate from which what runs too fast is drawn steady.
const fastRate = 30

// viewKey is what makes the pane look for what has moved.
type viewKey struct {
	m      *helm.Moment
	run    float64
	lit    picture.Link
	chosen picture.Link
	si     bool
	beside bool
	p      *look.Palette
}

func (v *View) key() viewKey {
	return viewKey{v.moment, v.shown.Run, v.shown.Lit, v.shown.Chosen, v.si, v.beside, v.screen.Palette}
}

// toggleUnits goes from the trade's units to SI and back.
func (v *View) toggleUnits() {
	v.si = !v.si
	v.keys[2].Set(v.keys[2].Word, kit.NoSign, v.si)
	v.Apply(v.moment)
}

// point has a slip say what a link passes on.
func (v *View) point(s *spot, tell func(fyne.CanvasObject, string)) {
	if v.card.mode == opened && v.card.link != s.link {
		v.Open(s.link) // an open card goes along
	}
	tell(s, v.story.Spoken(s.link))
}

// Layout is part of the toolkit's contract.
func (v *View) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	kit.Box{W: size.Width, H: size.Height}.Put(v.pane)
	z := v.screen.Size(1)
	box := v.box(float64(size.Width), float64(size.Height), 1)
	for i, s := range v.spots {
		b := picture.LinkBounds(z, box, picture.Link(i))
		kit.Show(b.X >= 0 && b.Right() <= float64(size.Width)+1, s)
		kit.Box{X: float32(b.X), Y: float32(b.Y), W: float32(b.W), H: float32(b.H)}.Put(s)
	}
	v.card.lay()
}

// MinSize is part of the toolkit's contract.
func (v *View) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	for _, o := range v.objects() {
		o.Refresh()
	}
	for _, s := range v.spots {
		s.Mark()
	}
}

// stripes run outward from the broken link when the truth is shown.
type stripes struct{ began time.Time }

// stripeTime is how long they run.
const stripeTime = 800 * time.Millisecond

func (s *stripes) begin(v *View) {
	s.began = v.clock()
	if v.screen.ReducedMotion {
		s.began = time.Time{}
		return
	}
	fyne.NewAnimation(stripeTime+50*time.Millisecond, func(float32) { v.Apply(v.moment) }).Start()
}

// run is how much of the way has been run, of one.
func (s *stripes) run(v *View) float64 {
	if s.began.IsZero() {
		return 1
	}
	return math.Min(1, float64(v.clock().Sub(s.began))/float64(stripeTime))
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{
		"linkage": v.pane, "walk": v.keys[0], "follow-error": v.keys[1], "units": v.keys[2],
		"card": v.card.paper, "card-back": v.card.back, "card-next": v.card.next, "card-more": v.card.more,
		"card-close": v.card.close, "hold": v.card.hands.hold, "hand-plus": v.card.hands.all[0].plus,
	}
	for i, s := range v.spots {
		all["link-"+strconv.Itoa(i)] = s
	}
	return all
}

// steps hold the turns of what spins for those who asked for reduced motion: they
// go on in steps.
type steps struct {
	turns picture.Turns
	tick  int64
	at    time.Time
}

// stepTime is the time from step to step while the clock runs.
const stepTime = time.Second

func (s *steps) take(v *View) {
	now, tick := v.clock(), v.moment.View.Tick
	flown := v.moment.Playing && tick > s.tick
	if v.screen.ReducedMotion && flown && now.Sub(s.at) < stepTime {
		v.shown.Turns = s.turns
		return
	}
	s.turns, s.tick, s.at = v.shown.Turns, tick, now
}

func boxAt(o fyne.CanvasObject) kit.Box {
	return kit.Box{X: o.Position().X, Y: o.Position().Y, W: o.Size().Width, H: o.Size().Height}
}

// Part is where a link stands in the view, and whether it is to be seen: not under
// the card of another link.
func (v *View) Part(l picture.Link) (at kit.Box, seen bool) {
	if l >= picture.LinkCount || !v.content.Visible() || !v.spots[l].Visible() {
		return at, false
	}
	at = boxAt(v.spots[l])
	return at, !v.card.paper.Visible() || !at.Meets(boxAt(v.card.paper))
}
