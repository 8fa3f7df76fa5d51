package film

import (
	"bufio"
	"bytes"
	"image"
	"image/color"
	"image/gif"
	"io"
	"math"
	"sync"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// GIF writes an animated GIF that goes round for ever: one fixed set of colours,
// and of each frame only what has changed. It holds two frames in memory, however
// long the film.
//
// The library writes pictures one by one; their blocks are joined here under one
// head, as the format has it (GIF89a, W3C copy: head, screen, colours, extension,
// blocks, trailer).
type GIF struct {
	out    *bufio.Writer
	rate   Rate
	size   image.Rectangle
	colour color.Palette
	index  *[1 << 18]uint8 // nearest colour, by the upper six bits of red, green, blue
	spare  sync.Pool

	was     []uint8 // the last frame put
	pending []byte  // its block, not written yet: it may stand longer
	stands  int     // how long, hundredths of a second
}

// clear is the index of no colour: what was there stays.
const clear = 255

// GIFRate says whether a GIF may have a rate: its frames stand two hundredths of a
// second at least, below which programs that show it slow it down.
func GIFRate(r Rate) bool { return r.Num <= 50*r.Den }

// NewGIF begins one.
func NewGIF(out *bufio.Writer, l Look, rate Rate, _ int) *GIF {
	g := &GIF{out: out, rate: rate, size: image.Rect(0, 0, l.Size.W, l.Size.H), colour: coloursOf(look.Of(l.Light))}
	g.index = indexOf(g.colour)
	return g
}

// Encode is part of Sink: it gives the index of the colour of each pixel.
func (g *GIF) Encode(_ int, im *image.RGBA) ([]byte, error) {
	n := g.size.Dx() * g.size.Dy()
	out, ok := g.spare.Get().(*[]byte)
	if !ok {
		b := make([]byte, n)
		out = &b
	}
	for i, j := 0, 0; i < n; i, j = i+1, j+4 {
		p := im.Pix[j : j+3 : j+3]
		(*out)[i] = g.index[bucket(p[0], p[1], p[2])]
	}
	return *out, nil
}

// Put is part of Sink.
func (g *GIF) Put(frame int, now []byte) error {
	stands := g.rate.Centiseconds(frame)
	box := g.size
	if g.was != nil {
		box = changed(g.was, now, g.size.Dx())
	}
	const longest = math.MaxUint16
	if box.Empty() && g.stands+stands <= longest {
		g.stands += stands
		g.spare.Put(&now)
		return nil
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	block, head, err := g.block(now, box)
	if err != nil {
		return err
	}
	if g.was == nil {
		err = g.begin(head)
	} else {
		err = g.flush()
		old := g.was // not the field, which goes on to the next
		g.spare.Put(&old)
	}
	g.was, g.pending, g.stands = now, block, stands
	return err
}

// changed is the rectangle round all that differs.
func changed(was, now []byte, w int) image.Rectangle {
	box := image.Rectangle{}
	for y := 0; y*w < len(now); y++ {
		a, b := was[y*w:(y+1)*w], now[y*w:(y+1)*w]
		if bytes.Equal(a, b) {
			continue
		}
		x0, x1 := 0, w
		for a[x0] == b[x0] {
			x0++
		}
		for a[x1-1] == b[x1-1] {
			x1--
		}
		box = box.Union(image.Rect(x0, y, x1, y+1))
	}
	return box
}

// Sizes in a file of one picture: signature and screen, colours, trailer.
const gifHead, gifColours, gifTrailer = 13, 3 * 256, 1

// block makes the block of a part of a frame, what has not changed in it left
// clear, and the head of the file.
func (g *GIF) block(now []byte, box image.Rectangle) (block, head []byte, err error) {
	w := g.size.Dx()
	im := image.NewPaletted(box, g.colour)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row := im.Pix[(y-box.Min.Y)*im.Stride:]
		for x := box.Min.X; x < box.Max.X; x++ {
			i := y*w + x
			c := now[i]
			if g.was != nil && g.was[i] == c {
				c = clear
			}
			row[x-box.Min.X] = c
		}
	}
	var out bytes.Buffer
	err = gif.EncodeAll(&out, &gif.GIF{
		Image: []*image.Paletted{im}, Delay: []int{1}, Disposal: []byte{gif.DisposalNone},
		Config: image.Config{ColorModel: g.colour, Width: w, Height: g.size.Dy()},
	})
	if err != nil {
		return nil, nil, err
	}
	all := out.Bytes()
	n := gifHead + gifColours
	return all[n : len(all)-gifTrailer], all[:n], nil
}

// goRound is the extension that has a GIF begin again for ever.
const goRound = "\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00"

func (g *GIF) begin(head []byte) error {
	if _, err := g.out.Write(head); err != nil {
		return err
	}
	_, err := io.WriteString(g.out, goRound)
	return err
}

// flush writes the pending block, with how long it stands in its place of the
// control extension that it begins with.
func (g *GIF) flush() error {
	const delay = 4
	g.pending[delay], g.pending[delay+1] = byte(g.stands), byte(g.stands>>8)
	_, err := g.out.Write(g.pending)
	return err
}

// Close is part of Sink.
func (g *GIF) Close() error {
	if g.was != nil {
		if err := g.flush(); err != nil {
			return err
		}
	}
	if err := g.out.WriteByte(0x3B); err != nil {
		return err
	}
	return g.out.Flush()
}

// coloursOf are the colours of a film in a light: those of the light, what lies
// between them where one is written on another, and the shades of drums.
func coloursOf(p *look.Palette) color.Palette {
	var all color.Palette
	add := func(c color.NRGBA) {
		const same = 5.0
		c.A = 255
		for _, old := range all {
			if apart(old.(color.NRGBA), c) < same {
				return
			}
		}
		if len(all) < clear {
			all = append(all, c)
		}
	}
	grounds := []color.NRGBA{p.Card, p.Sea, p.Ground, p.Low}
	inks := []color.NRGBA{p.Ink, p.Ink2, p.Air, p.Wind, p.Pos, p.Verm, p.BrassText, p.BrassLo, p.Brass, p.WaterLine, p.Graticule, p.Line, p.Rod}
	solid := []color.NRGBA{p.Land, p.Slate, p.SlateHi, p.OnSlate, p.Drum, p.DrumInk, p.Housing, p.BrassHi, p.OnBrass, p.VermFill}
	for _, group := range [][]color.NRGBA{grounds, inks, solid} {
		for _, c := range group {
			add(c)
		}
	}
	pairs := [][2]color.NRGBA{{p.DrumInk, p.Drum}, {p.OnBrass, p.BrassHi}, {p.OnSlate, p.Slate}, {p.Ink, p.Land}, {p.Brass, p.BrassLo}, {p.BrassHi, p.Brass}}
	for _, pair := range pairs {
		for _, k := range []float64{0.25, 0.5, 0.75} {
			add(paint.Mix(pair[0], pair[1], k))
		}
	}
	for _, k := range []float64{0.06, 0.12, 0.18, 0.25, 0.33, 0.42} {
		add(paint.Mix(p.Drum, p.Shade, k))
		add(paint.Mix(p.BrassHi, p.Shade, k))
	}
	for _, k := range []float64{0.3, 0.5, 0.7} {
		add(paint.Mix(p.Sea, p.BrassHi, k))
	}
	for _, k := range []float64{0.5, 0.25, 0.75} {
		for _, g := range grounds {
			for _, c := range inks {
				add(paint.Mix(c, g, k))
			}
		}
	}
	for len(all) < clear {
		all = append(all, color.NRGBA{A: 255})
	}
	return append(all, color.NRGBA{})
}

// apart is how different two colours look, roughly: red, green and blue weighed by
// how bright they are.
func apart(a, b color.NRGBA) float64 {
	r, g, v := float64(a.R)-float64(b.R), float64(a.G)-float64(b.G), float64(a.B)-float64(b.B)
	return math.Sqrt(2*r*r+4*g*g+3*v*v) / 3
}

func bucket(r, g, b uint8) int { return int(r>>2)<<12 | int(g>>2)<<6 | int(b>>2) }

// indexOf finds for all buckets of colours the nearest there is; a colour that
// there is itself stands in its bucket.
func indexOf(all color.Palette) *[1 << 18]uint8 {
	var out [1 << 18]uint8
	for i := range out {
		c := color.NRGBA{R: uint8(i>>12)<<2 | 2, G: uint8(i>>6&63)<<2 | 2, B: uint8(i&63)<<2 | 2}
		best := math.Inf(1)
		for j, p := range all[:clear] {
			if d := apart(p.(color.NRGBA), c); d < best {
				best, out[i] = d, uint8(j)
			}
		}
	}
	for j := clear - 1; j >= 0; j-- {
		c := all[j].(color.NRGBA)
		out[bucket(c.R, c.G, c.B)] = uint8(j)
	}
	return &out
}
