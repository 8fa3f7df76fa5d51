package film

import (
	"image"
	"image/color"
	"sync"

	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// Look is how a film looks.
type Look struct {
	Size   Size
	Light  look.Variant // Paper or Night
	Reveal bool         // show the truth
	Clear  bool         // the ground of a still is transparent
}

// colours are those of the look.
func (l Look) colours() *look.Palette {
	p := look.Of(l.Light)
	if l.Clear {
		clear := *p
		clear.Ground = color.NRGBA{}
		p = &clear
	}
	return p
}

// Studio is what all frames of a film share: made once, read by all that draw.
type Studio struct {
	Look
	plan      *sim.Plan
	palette   *look.Palette
	title     string
	captioned bool

	ground   *picture.Ground // of the chart
	strip    *picture.Ground // of the strip under the marker
	required []picture.Waypoint
	fit      []units.Position // that the chart holds

	desk desk

	still  *image.RGBA // all of a frame that stays
	mu     sync.Mutex
	sets   map[setKey]*set
	charts map[image.Point]*chartSheet // by their size: they are the same wherever they stand
}

// setKey is what a layout hangs on.
type setKey struct {
	view string
	link picture.Link
}

// set is a layout with its chart, nil if it has none.
type set struct {
	*layout
	chart *chartSheet
}

// chartSheet is the ground of a chart, as it lies on its card, and where the labels
// stand on it.
type chartSheet struct {
	im     *image.RGBA
	labels picture.Held
	size   look.Size
	view   picture.View
	room   *picture.Room
}

// NewStudio prepares the films of a flight. The engine has flown all that is to be
// seen; it is left where the script ends.
func NewStudio(e *sim.Engine, s *Script, l Look) (*Studio, error) {
	plan := e.Plan()
	st := &Studio{Look: l, plan: plan, palette: l.colours(), title: plan.Title, captioned: s.Captioned()}
	st.sets, st.charts = map[setKey]*set{}, map[image.Point]*chartSheet{}
	st.still = st.drawStill()
	e.GoTo(s.to)
	end := take(e, Shot{Tick: s.to}, l.Reveal)
	st.required = atlas.Required(plan)
	plot := end.plot(st.required)
	waters, err := atlas.Of(plan, plot.Tracks()...)
	if err != nil {
		return nil, err
	}
	waters.Key = keyOf(e, &plot)
	st.ground = picture.NewGround(waters)
	if st.strip, err = chain.StripGround(plan); err != nil {
		return nil, err
	}
	st.fit = fitted(&plot, s)
	return st, nil
}

// fitted are the positions that the chart holds from the first frame to the last:
// of a film from the start on the required track too, of another what is flown in
// it.
func fitted(p *picture.Plot, s *Script) []units.Position {
	var all []units.Position
	if s.from == 0 {
		for _, w := range p.Required {
			all = append(all, w.At)
		}
	}
	from := sim.TimeOf(s.from)
	for _, m := range p.Marks {
		if m.Elapsed >= from {
			all = append(all, units.Position(m.Air), units.Position(m.Ground))
		}
	}
	all = append(all, units.Position(p.Air), units.Position(p.Marker))
	if p.Truth != nil {
		n := len(p.Truth.Track) - len(all)/2
		all = append(all, p.Truth.Track[max(0, min(n, len(p.Truth.Track)-1)):]...)
	}
	return all
}

// set is the layout of a shot, made when it is first wanted.
func (st *Studio) set(s *Shot) *set {
	st.mu.Lock()
	defer st.mu.Unlock()
	key := setKey{s.View, s.Link}
	if s.View == ChartView || s.View == CountersView {
		key.link = picture.NoLink
	}
	made, ok := st.sets[key]
	if !ok {
		made = &set{layout: arrange(st.Size, key.view, key.link, st.captioned)}
		made.chart = st.chartOf(made.layout)
		st.sets[key] = made
	}
	return made
}

// chartOf draws the ground of the chart of a layout, nil where it has none.
func (st *Studio) chartOf(l *layout) *chartSheet {
	for _, s := range l.spots {
		if s.kind != chartKind {
			continue
		}
		w, h := s.at.W, s.at.H
		size := image.Pt(int(w), int(h))
		if c := st.charts[size]; c != nil {
			return c
		}
		d, z := paint.NewImage(int(w), int(h)), st.Size.look()
		card(d, w, h, z, st.palette)
		z = smaller(z, min(w, h)/z.Px(leastChart))
		box := paint.R(0, 0, w, h).Inset(z.Px(10) + picture.FrameWidth(z)).Snap()
		c := &chartSheet{im: d.Pixels(), size: z, view: picture.Fit(box, z.Px(56), st.fit...)}
		c.room = picture.DrawGround(picture.NewBrush(d, st.palette, z), c.view, st.ground)
		st.charts[size] = c
		return c
	}
	return nil
}

// leastChart is the shorter side of a chart, units, below which its symbols and
// words become smaller, down to two thirds.
const leastChart = 430

func smaller(z look.Size, by float64) look.Size {
	by = max(2.0/3, min(1, by))
	return look.Size{Part: z.Part * by, Device: z.Device * by}
}

// settle settles what hangs on the frames before: what the navigator has worked, and
// where the labels of the chart stand. It is called frame after frame.
func (st *Studio) settle(m *Moment) {
	m.worked = st.desk.work(m)
	s := st.set(&m.Shot)
	if s.chart == nil {
		return
	}
	m.labels = s.chart.labels.Clone()
	plot := m.plot(st.required)
	plot.Held = &s.chart.labels
	picture.DrawPlot(picture.NewBrush(nowhere{}, st.palette, s.chart.size), s.chart.view, &plot, s.chart.room)
}

// card is a paper card that fills a surface.
func card(d paint.Surface, w, h float64, z look.Size, p *look.Palette) {
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Ground)
	hair := z.Hair()
	path.Reset().RoundRect(paint.R(hair/2, hair/2, w-hair, h-hair), z.Px(look.CardRadius))
	d.Fill(&path, p.Card)
	d.Stroke(&path, paint.Pen{Width: hair}, p.Line)
}

// drawStill draws what stays: ground, mark, name of the flight, caution.
func (st *Studio) drawStill() *image.RGBA {
	w, h := float64(st.Size.W), float64(st.Size.H)
	d, z, p := paint.NewImage(st.Size.W, st.Size.H), st.Size.look(), st.palette
	b := picture.NewBrush(d, p, z)
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), p.Ground)
	px := func(v float64) float64 { return z.Px(v) }
	b.Still(paint.Pt(px(edge+30), px(edge+27)), px(17))
	room := w/px(1) - 2*edge - 76
	if st.Size.shape() != tall {
		room -= 330 + gap
	}
	title := paint.Type{Font: look.Semibold.Font(), Size: px(27)}
	for title.Size > px(20) && title.Font.Width(st.title, title.Size) > px(room) {
		title.Size -= px(0.5)
	}
	d.Text(px(edge+76), px(edge+27)+0.36*title.Size, title.Shorten(st.title, px(room)), title, p.Ink)
	foot := paint.Type{Font: look.Regular.Font(), Size: px(look.TextSmall)}
	y := h - px(12)
	name := paint.Type{Font: look.Engraved.Font(), Size: px(17), Anchor: paint.End}
	d.Text(w-px(edge), y, look.Text(look.Stillair), name, p.Ink2)
	d.Text(px(edge), y, foot.Shorten(look.Text(look.Caution), w-px(2*edge+80)), foot, p.Ink2)
	return d.Pixels()
}
