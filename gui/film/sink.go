package film

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"sync"
)

// pngBuffers spares the encoder its tables; it is safe for concurrent use.
type pngBuffers struct{ sync.Pool }

func (p *pngBuffers) Get() *png.EncoderBuffer {
	b, _ := p.Pool.Get().(*png.EncoderBuffer)
	return b
}

func (p *pngBuffers) Put(b *png.EncoderBuffer) { p.Pool.Put(b) }

// PNGs writes numbered files into a folder: frame-000001.png and so on.
type PNGs struct {
	dir     string
	encoder png.Encoder
}

// NewPNGs makes the folder if there is none. One with more frames than the film will
// have is refused, for the rest would look like its end.
func NewPNGs(dir string, frames int) (*PNGs, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	old, err := filepath.Glob(filepath.Join(dir, "frame-[0-9][0-9][0-9][0-9][0-9][0-9].png"))
	if err == nil && len(old) > 0 && filepath.Base(old[len(old)-1]) > FrameName(frames-1) {
		return nil, fmt.Errorf("%s: there are frames of a longer film, up to %s: take them away, or name another folder", dir, filepath.Base(old[len(old)-1]))
	}
	return &PNGs{dir: dir, encoder: png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: &pngBuffers{}}}, nil
}

// Encode is part of Sink.
func (p *PNGs) Encode(_ int, im *image.RGBA) ([]byte, error) {
	var out bytes.Buffer
	err := p.encoder.Encode(&out, im)
	return out.Bytes(), err
}

// Put is part of Sink.
func (p *PNGs) Put(frame int, data []byte) error {
	return os.WriteFile(filepath.Join(p.dir, FrameName(frame)), data, 0o644)
}

// FrameName is the name of the file of a frame; frames count from 0, files from 1.
func FrameName(frame int) string { return fmt.Sprintf("frame-%06d.png", frame+1) }

// Close is part of Sink.
func (p *PNGs) Close() error { return nil }

// Pixels is how raw frames are written.
type Pixels uint8

// The layouts of pixels: four bytes a pixel, the last of them full, or three.
const (
	RGBA Pixels = iota
	RGB24
)

// Raw writes frames as they are, one after the other, rows from the top.
type Raw struct {
	out    io.Writer
	pixels Pixels
	spare  sync.Pool
}

// NewRaw writes raw frames.
func NewRaw(out io.Writer, p Pixels) *Raw { return &Raw{out: out, pixels: p} }

// Encode is part of Sink.
func (r *Raw) Encode(_ int, im *image.RGBA) ([]byte, error) {
	n := im.Rect.Dx() * im.Rect.Dy()
	if r.pixels == RGB24 {
		data := r.buffer(3 * n)
		for i, j := 0, 0; i < len(data); i, j = i+3, j+4 {
			p, q := data[i:i+3:i+3], im.Pix[j:j+3:j+3]
			p[0], p[1], p[2] = q[0], q[1], q[2]
		}
		return data, nil
	}
	data := r.buffer(4 * n)
	copy(data, im.Pix)
	return data, nil
}

func (r *Raw) buffer(n int) []byte {
	if b, ok := r.spare.Get().(*[]byte); ok && len(*b) == n {
		return *b
	}
	return make([]byte, n)
}

// Put is part of Sink.
func (r *Raw) Put(_ int, data []byte) error {
	_, err := r.out.Write(data)
	r.spare.Put(&data)
	return err
}

// Close is part of Sink.
func (r *Raw) Close() error { return nil }
