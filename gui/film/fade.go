package film

import (
	"image/color"
	"math"

	"stillair/gui/picture"
)

// fade lets a part of the mechanism go over into the ground of the frame where the
// picture goes on beyond its place, so that nothing looks torn off.
type fade struct {
	across, down []uint32 // how much of the picture shows, of fadeFull, by column and row
	ground       [4]uint32
}

// fadeFull is the whole picture.
const fadeFull = 256

// newFade is the fade of a place, nil if its picture ends with it.
func newFade(s spot, reach float64, ground color.NRGBA) *fade {
	const some = 0.5 // of a unit of the picture
	west, north := s.part.X > some, s.part.Y > some
	east, south := s.part.Right() < picture.LinkageW-some, s.part.Bottom() < picture.LinkageH-some
	if !west && !north && !east && !south {
		return nil
	}
	return &fade{
		across: ramp(int(s.at.W), reach, west, east), down: ramp(int(s.at.H), reach, north, south),
		ground: [4]uint32{uint32(ground.R), uint32(ground.G), uint32(ground.B), uint32(ground.A)},
	}
}

// ramp rises from nothing at its beginning and falls to nothing at its end, where
// that is wanted, as a cosine does.
func ramp(n int, reach float64, begin, end bool) []uint32 {
	out := make([]uint32, n)
	at := func(d float64) float64 { return 0.5 - 0.5*math.Cos(math.Pi*math.Min(1, d/reach)) }
	for i := range out {
		k := 1.0
		if begin {
			k *= at(float64(i) + 0.5)
		}
		if end {
			k *= at(float64(n-i) - 0.5)
		}
		out[i] = uint32(math.Round(fadeFull * k))
	}
	return out
}

// row fades a run of pixels that begins at (x, y) of the place.
func (f *fade) row(pix []byte, x, y int) {
	for i := 0; i < len(pix); i += 4 {
		k := f.across[x+i/4] * f.down[y] / fadeFull
		if k == fadeFull {
			continue
		}
		for c, g := range f.ground {
			pix[i+c] = byte((uint32(pix[i+c])*k + g*(fadeFull-k) + fadeFull/2) / fadeFull)
		}
	}
}
