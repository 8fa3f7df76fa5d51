package scene

import (
	"image"
	"image/color"
	"time"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/keep"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/sim"
)

// Show is what is to be shown.
type Show struct {
	Machine *conduct.Machine
	Tongue  *tongue.Tongue // of the language in use
	Names   []string       // of the languages, in themselves
	Touch   []string       // what is to be done, in each
	Moment  *helm.Moment   // nil: there is no flight yet
	Plan    *sim.Plan      // that the moment is of
	Ground  *picture.Ground
	Strip   *picture.Ground // coasts alone, for the mechanism
	Keeper  KeeperPage
}

// KeeperPage is what the keeper is told.
type KeeperPage struct {
	Up       time.Duration
	Fault    string // the last crash; "" for none
	Today    keep.Day
	Counting error
	Problems []string // of the exhibit file
	Wall     time.Time
}

// Scene draws, and keeps what need not be drawn again.
type Scene struct {
	places *Places
	shape  Shape
	base   *paint.Raster
	key    baseKey
	chart  chart
	inside inside
}

// baseKey is what the still part depends on.
type baseKey struct {
	shape    Shape
	palette  *look.Palette
	tongue   string
	language int
	larger   bool
	broken   string
}

// shapeOf is the layout that a state needs.
func shapeOf(w, h int, dev float64, in *Show) Shape {
	x := in.Machine.Exhibit()
	return Shape{
		W: float64(w), H: float64(h), Dev: dev, Stage: in.Machine.Stage(), Inside: in.Machine.Inside(), Low: x.Low,
		Languages: len(in.Names), Landing: x.Landing != nil,
	}
}

// Places is where everything stands in a state.
func (s *Scene) Places(w, h int, dev float64, in *Show) *Places {
	if shape := shapeOf(w, h, dev, in); s.places == nil || s.shape != shape {
		s.places, s.shape = Layout(shape), shape
	}
	return s.places
}

// Draw draws the whole screen.
func (s *Scene) Draw(d *paint.Raster, dev float64, in *Show) {
	w, h := d.Pixels().Rect.Dx(), d.Pixels().Rect.Dy()
	p := s.Places(w, h, dev, in)
	c := look.Of(look.Paper)
	if in.Machine.Exhibit().Night || p.dark(in) {
		c = look.Of(look.Night)
	}
	e := newEasel(d, d.Pixels(), p, c, in)
	broken, _ := in.Machine.Broken()
	key := baseKey{s.shape, c, in.Tongue.Code, in.Machine.Language(), in.Machine.Larger(), broken}
	if s.base == nil || s.key != key || s.base.Pixels().Rect != d.Pixels().Rect {
		s.base, s.key = paint.NewImage(w, h), key
		s.still(newEasel(s.base, s.base.Pixels(), p, c, in))
	}
	copy(d.Pixels().Pix, s.base.Pixels().Pix)
	s.moving(e)
}

// dark says whether a stage is drawn in the colours of the night, whatever the exhibit.
func (p *Places) dark(in *Show) bool { return in.Machine.Stage() == conduct.Attract }

// still draws what stays as long as the key does.
func (s *Scene) still(e *easel) {
	switch e.in.Machine.Stage() {
	case conduct.Shut:
		e.fill(e.whole(), color.NRGBA{A: 255})
	case conduct.Attract:
		picture.AttractGround(e.b, e.p.W, e.p.H)
		e.languages()
		if e.in.Machine.Exhibit().Captions {
			e.touchCaption()
		}
	case conduct.Keeper, conduct.Trouble, conduct.Test, conduct.Wiping:
		e.fill(e.whole(), e.c.Ground)
	default:
		e.fill(e.whole(), e.c.Ground)
		e.playStill()
	}
}

// moving draws what changes from frame to frame.
func (s *Scene) moving(e *easel) {
	switch e.in.Machine.Stage() {
	case conduct.Attract:
		picture.DrawAttract(e.b, e.p.W, e.p.H, attractAt(e.in.Machine.Since(), e.in.Machine.Exhibit().ReducedMotion))
	case conduct.Keeper, conduct.Trouble:
		e.keeperPage()
	case conduct.Test:
		e.touchTest()
	case conduct.Wiping:
		e.wiping()
	case conduct.Shut:
	default:
		if e.in.Machine.Inside() {
			s.inside.draw(e)
		} else {
			s.chart.draw(e)
		}
		e.playMoving()
	}
}

// whole is the whole screen.
func (e *easel) whole() paint.Rect { return paint.R(0, 0, e.p.W, e.p.H) }

// lay copies an image to a place, pixel for pixel.
func lay(to *image.RGBA, from *image.RGBA, x, y int) {
	r := from.Rect.Add(image.Pt(x, y)).Intersect(to.Rect)
	for row := r.Min.Y; row < r.Max.Y; row++ {
		a := to.PixOffset(r.Min.X, row)
		b := from.PixOffset(r.Min.X-x, row-y)
		copy(to.Pix[a:a+4*r.Dx()], from.Pix[b:b+4*r.Dx()])
	}
}
