package chain

import (
	"io"

	"stillair/gui/atlas"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/sim"
)

// StripGround is the ground of the strip of chart under the marker: coasts alone.
func StripGround(p *sim.Plan) (*picture.Ground, error) {
	waters, err := atlas.Of(p)
	if err != nil {
		return nil, err
	}
	return picture.NewGround(picture.Waters{Coasts: waters.Coasts}), nil
}

// Strip puts the plot of the moment on the strip of chart; truth is nil while it
// is hidden.
func (s *Story) Strip(l *picture.Linkage, ground *picture.Ground, truth *picture.Truth) {
	l.Small.Ground, l.Small.Plot = ground, picture.PlotOf(s.View)
	l.Small.Plot.Truth = truth
}

// pagePixels is the width of a page: A4 on its side at 200 to the inch.
const pagePixels = 2339

// WritePage writes the mechanism of a moment of a flight as a picture on a page of
// its own. It shares nothing that may change.
func WritePage(out io.Writer, f paint.Format, p *sim.Plan, s *Story, truth *picture.Truth) error {
	ground, err := StripGround(p)
	if err != nil {
		return err
	}
	l := picture.Linkage{Lit: picture.NoLink, Chosen: picture.NoLink, Run: 1}
	s.Picture(&l)
	s.Strip(&l, ground, truth)
	line := units.TimeText(s.View.Clock) + ", " + units.DateText(s.View.Clock)
	return paint.Export(out, f, pagePixels, picture.LinkagePage(pagePixels), p.Title, func(d paint.Surface) {
		picture.DrawLinkagePage(d, pagePixels, p.Title, line, &l)
	})
}
