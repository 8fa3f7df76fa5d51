package paint

import (
	"image"
	"image/color"
	"image/draw"
	"math"
)

// stamp is haloed words drawn once, to be laid down again: the border of a label
// costs more than the rest of a plot, and hardly a label changes from one frame
// to the next.
type stamp struct {
	im *image.RGBA
	at image.Point // of its corner from the start of the words, whole pixels
}

// stampKey is all that a stamp depends on; where it starts within a pixel is
// rounded to quarters.
type stampKey struct {
	words    string
	font     *Font
	size     float64
	halo     float64
	rim, ink color.NRGBA
	x, y     uint8
}

// mostStamps is how many are kept; beyond that all are let go at once.
const mostStamps = 128

// haloed lays a stamp of the words.
func (s *Raster) haloed(x, y float64, str string, t Type, c color.NRGBA) {
	start := textMap(x, y, str, t).At(Point{})
	qx, qy := math.Floor(4*start.X+0.5), math.Floor(4*start.Y+0.5)
	if math.Abs(qx) > 1e6 || math.Abs(qy) > 1e6 || qx != qx || qy != qy {
		return // far from any image, or no number
	}
	px, py := math.Floor(qx/4), math.Floor(qy/4)
	key := stampKey{str, t.Font, t.Size, t.HaloWidth, t.Halo, c, uint8(qx - 4*px), uint8(qy - 4*py)}
	st, ok := s.stamps[key]
	if !ok {
		if s.stamps == nil || len(s.stamps) >= mostStamps {
			s.stamps = make(map[stampKey]stamp, mostStamps)
		}
		st = s.cut(str, t, c, float64(key.x)/4, float64(key.y)/4)
		s.stamps[key] = st
	}
	box := st.im.Rect.Add(st.at).Add(image.Pt(int(px), int(py)))
	clip := box.Intersect(s.clip())
	draw.Draw(s.im, clip, st.im, clip.Min.Sub(box.Min), draw.Over)
}

// cut draws a stamp.
func (s *Raster) cut(str string, t Type, c color.NRGBA, dx, dy float64) stamp {
	pad := math.Ceil(t.HaloWidth/2) + 2
	w, up, down := math.Ceil(t.Font.Width(str, t.Size))+2*pad+1, math.Ceil(1.1*t.Size)+pad, math.Ceil(0.4*t.Size)+pad
	im := image.NewRGBA(image.Rect(0, 0, int(w), int(up+down)))
	if s.stamper == nil {
		s.stamper = NewRaster(im)
	}
	s.stamper.Use(im)
	t.Anchor = Start
	s.stamper.glyphs(textMap(pad+dx, up+dy, str, t), str, t, c)
	return stamp{im, image.Pt(-int(pad), -int(up))}
}
