package scene

import (
	"image/color"
	"strings"

	"stillair/gui/atlas"
	"stillair/gui/chain"
	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/helm"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

type colour = color.NRGBA

func trim(s string) string { return strings.TrimSpace(s) }

// inside keeps the picture of the mechanism.
type inside struct {
	shown picture.Linkage
	scene *picture.LinkageScene
	made  insideMade
	own   *paint.Raster
}

type insideMade struct {
	w, h    int
	size    look.Size
	palette *look.Palette
	tongue  string
	right   bool
}

// The halves of the mechanism, in units of its picture: upright only one shows.
const leftWide, rightWide = 906.0, picture.LinkageW - 906.0

// draw draws the mechanism of the moment; upright the half in which it is broken.
func (s *inside) draw(e *easel) {
	m := e.in.Moment
	if m == nil {
		return
	}
	s.take(e, m)
	r := e.p.Linkage.Snap()
	made := insideMade{int(r.W), int(r.H), look.Size{Part: e.p.F, Device: e.p.Dev, Larger: !e.p.Half}, e.c, e.in.Tongue.Code, e.p.Half && s.right()}
	if s.own == nil || s.made != made {
		s.made, s.own = made, paint.NewImage(made.w, made.h)
		s.scene = picture.NewLinkageScene(made.size, s.box(made, e.p.Half))
		var p paint.Path
		s.own.Fill(p.Rect(paint.R(0, 0, r.W, r.H)), e.c.Ground)
	}
	s.scene.Repaint(picture.NewBrush(s.own, e.c, made.size), s.own, &s.shown)
	lay(e.im, s.own.Pixels(), int(r.X), int(r.Y))
}

// box is where the whole picture lies on an image: in its middle, or so that a half of
// it fills the image.
func (s *inside) box(m insideMade, half bool) paint.Rect {
	w, h := float64(m.w), float64(m.h)
	if !half {
		f := min(w/picture.LinkageW, h/picture.LinkageH)
		return paint.R((w-f*picture.LinkageW)/2, (h-f*picture.LinkageH)/2, f*picture.LinkageW, f*picture.LinkageH)
	}
	wide := leftWide
	if m.right {
		wide = rightWide
	}
	f := min(w/wide, h/picture.LinkageH)
	x := (w - f*wide) / 2
	if m.right {
		x -= f * leftWide
	}
	return paint.R(x, (h-f*picture.LinkageH)/2, f*picture.LinkageW, f*picture.LinkageH)
}

// take works out what the picture shows. A visitor may see what is broken at once.
func (s *inside) take(e *easel, m *helm.Moment) {
	fast := m.Rate >= fastRate || e.in.Machine.Exhibit().ReducedMotion
	story := chain.Story{View: &m.View, Now: m.Works, Mechanism: e.in.Plan.Mechanism, Fast: fast}
	var truth *picture.Truth
	if m.Revealed != nil && e.in.Machine.Erred() {
		story.Truth, story.Faults = &m.Revealed.Works, m.Revealed.Faults
		truth = atlas.TruthOf(m.Revealed.Now, m.Revealed.Track)
	}
	story.Picture(&s.shown)
	for i := range s.shown.Links { // the words of the program are not the visitor's
		l := &s.shown.Links[i]
		l.Note, l.Wrong = [2]string{}, [2]string{}
		if l.Flag != "" {
			l.Flag = e.say(tongue.BrokenHere)
		}
	}
	s.shown.Lit, s.shown.Chosen, s.shown.Run = picture.NoLink, picture.NoLink, 1
	story.Strip(&s.shown, e.in.Strip, truth)
}

// right says whether the first broken link stands in the right half.
func (s *inside) right() bool {
	for i, l := range s.shown.Links {
		if l.Stands == picture.Broken {
			return picture.LinkRoom(picture.Link(i)).Centre().X > leftWide+24
		}
	}
	return false
}

// insideStrip is the sentence under the mechanism, and where one steers.
func (e *easel) insideStrip() {
	p, f := e.p, e.p.F
	plain, bold := tongue.Sentence(e.in.Machine.Sentence(e.in.Tongue))
	words := e.text(29)
	if p.Upright {
		words = e.text(38)
	}
	e.block(fit(plain, bold, words, p.Strip.W, p.Strip.H), p.Strip, paint.Start, true, e.c.Ink)
	c := p.Steer.Centre()
	size := e.text(34)
	e.write(c.X, c.Y+0.36*size, threeFigures(e.in.Machine.Dial(conduct.Heading)), look.Engraved, size, 130*f, paint.Middle, e.c.Ink)
}
