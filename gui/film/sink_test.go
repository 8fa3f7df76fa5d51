package film

import (
	"bufio"
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/integrator/units"
)

func posOf(m *Moment) units.Position { return units.Position(m.View.Marker) }
func airOf(m *Moment) units.Position { return units.Position(m.View.Air) }

var errFull = errors.New("the disk is full")

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

// picture is one of a few frames: a card that walks over the ground.
func frameOf(l Look, x int) *image.RGBA {
	p := look.Of(l.Light)
	im := image.NewRGBA(image.Rect(0, 0, l.Size.W, l.Size.H))
	draw.Draw(im, im.Rect, image.NewUniform(p.Ground), image.Point{}, draw.Src)
	draw.Draw(im, image.Rect(x, 20, x+30, 60), image.NewUniform(p.Card), image.Point{}, draw.Src)
	draw.Draw(im, image.Rect(x+5, 30, x+9, 40), image.NewUniform(p.Verm), image.Point{}, draw.Src)
	return im
}

func run(t *testing.T, s Sink, frames ...*image.RGBA) {
	for i, im := range frames {
		data, err := s.Encode(i, im)
		require.NoError(t, err)
		require.NoError(t, s.Put(i, data))
	}
	require.NoError(t, s.Close())
}

// TestGIF: read by the library, frame by frame, it is what was put in: colours of
// the light exactly, what stands still no frame of its own, the time right.
func TestGIF(t *testing.T) {
	for _, light := range []look.Variant{look.Paper, look.Night} {
		l := Look{Size: Size{320, 240}, Light: light}
		frames := []*image.RGBA{frameOf(l, 10), frameOf(l, 14), frameOf(l, 14), frameOf(l, 14), frameOf(l, 200), frameOf(l, 10)}
		var out bytes.Buffer
		run(t, NewGIF(bufio.NewWriter(&out), l, Rate{30, 1}, len(frames)), frames...)
		g, err := gif.DecodeAll(&out)
		require.NoError(t, err)
		assert.Equal(t, 0, g.LoopCount, "for ever")
		assert.Equal(t, []int{3, 4 + 3 + 3, 4, 3}, g.Delay, "a thirtieth is 3.33 hundredths")
		require.Len(t, g.Image, 4)
		assert.Equal(t, image.Pt(320, 240), image.Pt(g.Config.Width, g.Config.Height))
		assert.Less(t, g.Image[1].Rect.Dx(), 60, "of a frame only what has changed")
		seen := image.NewRGBA(frames[0].Rect)
		for i, want := range []*image.RGBA{frames[0], frames[1], frames[4], frames[5]} {
			draw.Draw(seen, g.Image[i].Rect, g.Image[i], g.Image[i].Rect.Min, draw.Over)
			require.Equal(t, want.Pix, seen.Pix, "frame %d", i)
		}
	}
}

// Every colour of a light stands in the set of its GIF, and one between two is met
// closely enough that no eye minds.
func TestGIFColours(t *testing.T) {
	for _, light := range []look.Variant{look.Paper, look.Night} {
		p := look.Of(light)
		all := coloursOf(p)
		require.Len(t, all, 256)
		index := indexOf(all)
		met := func(c color.NRGBA) float64 { return apart(all[index[bucket(c.R, c.G, c.B)]].(color.NRGBA), c) }
		for _, c := range []color.NRGBA{p.Ground, p.Card, p.Low, p.Sea, p.Land, p.Ink, p.Ink2, p.Slate, p.Drum, p.Brass, p.BrassHi, p.Air, p.Wind, p.Verm} {
			assert.Less(t, met(c), 5.01)
		}
		assert.Greater(t, met(color.NRGBA{G: 255, A: 255}), 40.0, "there is no such green: the check can fail")
	}
}

func TestGIFRates(t *testing.T) {
	assert.True(t, GIFRate(Rate{50, 1}))
	assert.True(t, GIFRate(Rate{24000, 1001}))
	assert.False(t, GIFRate(Rate{60, 1}))
}

// TestPNGs: numbered from one, read by the library to the last shade.
func TestPNGs(t *testing.T) {
	l := Look{Size: Size{320, 240}}
	dir := filepath.Join(t.TempDir(), "new", "folder")
	s, err := NewPNGs(dir, 2)
	require.NoError(t, err)
	run(t, s, frameOf(l, 10), frameOf(l, 99))
	for i, name := range []string{"frame-000001.png", "frame-000002.png"} {
		f, err := os.Open(filepath.Join(dir, name))
		require.NoError(t, err)
		im, err := png.Decode(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		want := frameOf(l, []int{10, 99}[i])
		assert.Equal(t, want.At(104, 35), color.RGBAModel.Convert(im.At(104, 35)))
	}
}

// TestOldFrames: those of a longer film are not mixed with the new ones.
func TestOldFrames(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "frame-000009.png"), nil, 0o600))
	_, err := NewPNGs(dir, 8)
	assert.EqualError(t, err, dir+": there are frames of a longer film, up to frame-000009.png: take them away, or name another folder")
	_, err = NewPNGs(dir, 9)
	assert.NoError(t, err)
}

// TestRawPixels: three or four bytes a pixel, rows from the top.
func TestRawPixels(t *testing.T) {
	l := Look{Size: Size{320, 240}}
	im := frameOf(l, 10)
	for pixels, n := range map[Pixels]int{RGBA: 4, RGB24: 3} {
		var out bytes.Buffer
		run(t, NewRaw(&out, pixels), im, im)
		require.Equal(t, 2*n*320*240, out.Len())
		at := func(x, y int) []byte { i := n * (y*320 + x); return out.Bytes()[i : i+3] }
		assert.Equal(t, im.Pix[im.PixOffset(16, 35):][:3], at(16, 35))
		assert.Equal(t, im.Pix[im.PixOffset(0, 239):][:3], at(0, 239))
		assert.Equal(t, out.Bytes()[:out.Len()/2], out.Bytes()[out.Len()/2:])
	}
}
