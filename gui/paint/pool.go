package paint

import (
	"image"
	"image/color"
	"math"
)

// Pool is a round opening in one picture through which another is seen, its
// rim darkened in rings.
type Pool struct {
	At     Point
	Radius float64         // of the whole, pixels
	Ring   float64         // breadth of a ring, pixels
	Dark   []float64       // how far each ring goes to Shade, from the rim inwards
	Shade  color.NRGBA     // opaque
	Clip   image.Rectangle // nothing is changed outside
}

// Box are the pixels that the pool may change.
func (p *Pool) Box() image.Rectangle {
	lo := func(v float64) int { return int(math.Floor(v - p.Radius - 1)) }
	hi := func(v float64) int { return int(math.Ceil(v + p.Radius + 1)) }
	return image.Rect(lo(p.At.X), lo(p.At.Y), hi(p.At.X), hi(p.At.Y)).Intersect(p.Clip)
}

// Compose lays the part of the lit picture that the pool shows over dst; both
// are opaque, start at (0, 0) and are of one size. Inside the rings whole rows
// are copied: that is most of it.
func (p *Pool) Compose(dst, lit *image.RGBA) {
	box := p.Box().Intersect(dst.Rect).Intersect(lit.Rect)
	tones := p.tones()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		x0, x1 := p.chord(y, p.Radius+0.5, box)
		a, b := p.chord(y, p.Radius-p.Ring*float64(len(p.Dark))-0.5, box)
		if b <= a {
			p.rim(dst, lit, y, x0, x1, tones)
			continue
		}
		p.rim(dst, lit, y, x0, a, tones)
		i, n := dst.PixOffset(a, y), (b-a)*4
		copy(dst.Pix[i:i+n], lit.Pix[lit.PixOffset(a, y):])
		p.rim(dst, lit, y, b, x1, tones)
	}
}

// chord is the run of pixels of a row whose middles lie within r of the middle
// of the pool, cut to the box.
func (p *Pool) chord(y int, r float64, box image.Rectangle) (x0, x1 int) {
	dy := float64(y) + 0.5 - p.At.Y
	if r <= 0 || math.Abs(dy) >= r {
		return 0, 0
	}
	half := math.Sqrt(r*r - dy*dy)
	x0, x1 = int(math.Ceil(p.At.X-half-0.5)), int(math.Floor(p.At.X+half-0.5))+1
	return max(x0, box.Min.X), min(x1, box.Max.X)
}

// tone is what becomes of a pixel: the shares of the lit picture and of the
// one there was, and the shade added, in parts of 1<<toneBits.
type tone struct {
	lit, was uint32
	add      [3]uint32
}

const (
	toneBits = 12
	toneStep = 8 // tones to a pixel of radius
)

// tones are the tones by distance from the rim inwards, from half a pixel
// outside on; between two rings they run over one pixel.
func (p *Pool) tones() []tone {
	out := make([]tone, int(math.Ceil((p.Ring*float64(len(p.Dark))+1.5)*toneStep))+2)
	for i := range out {
		d := float64(i)/toneStep - 0.5
		cover, dark := math.Min(1, d+0.5), p.dark(d)
		out[i] = tone{lit: part(cover * (1 - dark)), was: part(1 - cover)}
		for j, c := range [3]uint8{p.Shade.R, p.Shade.G, p.Shade.B} {
			out[i].add[j] = uint32(cover*dark*float64(c)*(1<<toneBits)) + 1<<(toneBits-1)
		}
	}
	return out
}

func part(v float64) uint32 { return uint32(math.Max(0, v)*(1<<toneBits) + 0.5) }

// dark is how dark it is d pixels inside the rim.
func (p *Pool) dark(d float64) float64 {
	at := func(i int) float64 {
		if i = max(i, 0); i < len(p.Dark) {
			return p.Dark[i]
		}
		return 0
	}
	k := math.Floor(d/p.Ring + 0.5) // the nearest boundary of two rings
	t := math.Max(0, math.Min(1, d-k*p.Ring+0.5))
	return at(int(k)-1)*(1-t) + at(int(k))*t
}

func (p *Pool) rim(dst, lit *image.RGBA, y, x0, x1 int, tones []tone) {
	dy := float64(y) + 0.5 - p.At.Y
	for x := x0; x < x1; x++ {
		dx := float64(x) + 0.5 - p.At.X
		d := p.Radius + 0.5 - math.Sqrt(dx*dx+dy*dy)
		t := &tones[max(0, min(len(tones)-1, int(d*toneStep)))]
		i, j := dst.PixOffset(x, y), lit.PixOffset(x, y)
		to, from := dst.Pix[i:i+3:i+3], lit.Pix[j:j+3:j+3]
		for k := range 3 {
			to[k] = uint8((uint32(from[k])*t.lit + uint32(to[k])*t.was + t.add[k]) >> toneBits)
		}
	}
}
