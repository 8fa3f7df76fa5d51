package film

import (
	"image"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// Artist draws frames, one after the other. Several may draw for one studio, each
// on a goroutine of its own.
type Artist struct {
	studio *Studio
	sheets []*sheet // the one drawn last first
}

// mostSheets is how many layouts an artist keeps drawn, some tens of megabytes each:
// a film goes to and fro between a few.
const mostSheets = 3

// NewArtist makes one.
func (st *Studio) NewArtist() *Artist { return &Artist{studio: st} }

// Draw draws the frame of a moment. The image holds until the next call.
func (a *Artist) Draw(m *Moment) *image.RGBA {
	s := a.sheet(a.studio.set(&m.Shot))
	for _, p := range s.panes {
		p.show(m)
		for _, q := range p.changed {
			s.lay(p, q)
		}
	}
	return s.frame
}

// sheet is that of a layout, in front of the others.
func (a *Artist) sheet(set *set) *sheet {
	i := slices.IndexFunc(a.sheets, func(s *sheet) bool { return s.set == set })
	if i < 0 {
		a.sheets = append(a.sheets[:min(len(a.sheets), mostSheets-1)], newSheet(a.studio, set))
		i = len(a.sheets) - 1
	}
	s := a.sheets[i]
	copy(a.sheets[1:i+1], a.sheets[:i])
	a.sheets[0] = s
	return s
}

// sheet is a frame as it was drawn last, and its parts.
type sheet struct {
	set   *set
	frame *image.RGBA
	panes []*pane
}

func newSheet(st *Studio, set *set) *sheet {
	s := &sheet{set: set, frame: image.NewRGBA(st.still.Rect)}
	copy(s.frame.Pix, st.still.Pix)
	for _, spot := range set.spots {
		s.panes = append(s.panes, newPane(st, set, spot))
	}
	return s
}

// lay copies what has changed in a part into the frame.
func (s *sheet) lay(p *pane, q image.Rectangle) {
	from := p.raster.Pixels()
	to := q.Intersect(from.Rect).Add(p.at).Intersect(s.frame.Rect)
	for y := to.Min.Y; y < to.Max.Y; y++ {
		i, j := s.frame.PixOffset(to.Min.X, y), from.PixOffset(to.Min.X-p.at.X, y-p.at.Y)
		row := s.frame.Pix[i : i+4*to.Dx()]
		copy(row, from.Pix[j:])
		if p.fade != nil {
			p.fade.row(row, to.Min.X-p.at.X, y-p.at.Y)
		}
	}
}

// pane is one thing of a frame, drawn on an image of its own.
type pane struct {
	studio  *Studio
	at      image.Point
	raster  *paint.Raster
	brush   *picture.Brush
	w, h    float64
	size    look.Size
	palette *look.Palette
	fade    *fade // nil: none

	paint   func(p *pane, m *Moment)
	keyed   func(m *Moment) any // nil: it says itself what has changed
	key     any
	changed []image.Rectangle
}

// newPane makes the pane of a spot.
func newPane(st *Studio, set *set, s spot) *pane {
	p := &pane{
		studio: st, at: image.Pt(int(s.at.X), int(s.at.Y)), w: s.at.W, h: s.at.H,
		raster: paint.NewImage(max(1, int(s.at.W)), max(1, int(s.at.H))), size: st.Size.look(), palette: st.palette,
	}
	p.brush = picture.NewBrush(p.raster, p.palette, p.size)
	switch s.kind {
	case chartKind:
		p.paint, p.keyed = (&chart{sheet: set.chart}).paint, func(m *Moment) any { return m.Tick }
	case worksKind:
		p.paint = newWorks(s.at, s.part).paint
		p.fade = newFade(s, st.Size.look().Px(s.soft), p.palette.Ground)
	default:
		c := cards[s.kind]
		p.paint, p.keyed = c.paint, c.key
	}
	return p
}

// show brings the pane up to a moment.
func (p *pane) show(m *Moment) {
	p.changed = p.changed[:0]
	if p.keyed != nil {
		key := p.keyed(m)
		if key == p.key {
			return
		}
		p.key = key
		p.changed = append(p.changed, p.raster.Pixels().Rect)
	}
	p.paint(p, m)
}

// chart is the chart with its plot.
type chart struct{ sheet *chartSheet }

func (c *chart) paint(p *pane, m *Moment) {
	copy(p.raster.Pixels().Pix, c.sheet.im.Pix)
	plot := m.plot(p.studio.required)
	plot.Held = &m.labels
	p.brush.K = c.sheet.size
	picture.DrawPlot(p.brush, c.sheet.view, &plot, c.sheet.room)
}

// works is a part of the picture of the mechanism.
type works struct {
	scene *picture.LinkageScene
	brush *picture.Brush
	shown picture.Linkage
	z     look.Size
}

// newWorks fills a place with a part of the picture.
func newWorks(at, part paint.Rect) *works {
	f := at.W / part.W
	w := &works{z: look.Size{Part: f, Device: f}}
	w.scene = picture.NewLinkageScene(w.z, paint.R(-part.X*f, -part.Y*f, picture.LinkageW*f, picture.LinkageH*f))
	return w
}

func (w *works) paint(p *pane, m *Moment) {
	if w.brush == nil {
		w.brush = picture.NewBrush(p.raster, p.palette, w.z)
		var path paint.Path
		p.raster.Fill(path.Rect(paint.R(0, 0, p.w, p.h)), p.palette.Ground)
	}
	m.linkage(p.studio.plan, p.studio.strip, &w.shown)
	p.changed = append(p.changed, w.scene.Repaint(w.brush, p.raster, &w.shown)...)
}
