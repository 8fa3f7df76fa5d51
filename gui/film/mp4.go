package film

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
)

// MP4 hands the frames to the program ffmpeg, which writes the file.
type MP4 struct {
	Raw
	encoder *exec.Cmd
	in      io.WriteCloser
	said    bytes.Buffer
}

// Encoder is the program that writes an MP4.
const Encoder = "ffmpeg"

// ErrNoEncoder is the error where the program is not installed.
var ErrNoEncoder = errors.New("an MP4 needs the program " + Encoder + ", which is not installed here: install it, or write pictures, a GIF or raw frames")

// NewMP4 begins a file.
func NewMP4(ctx context.Context, name string, size Size, rate Rate) (*MP4, error) {
	path, err := exec.LookPath(Encoder)
	if err != nil {
		return nil, ErrNoEncoder
	}
	m := &MP4{encoder: exec.CommandContext(ctx, path, encoderArgs(name, size, rate)...)}
	m.encoder.Stderr = &m.said
	if m.in, err = m.encoder.StdinPipe(); err != nil {
		return nil, err
	}
	m.Raw = Raw{out: m.in, pixels: RGBA}
	if err := m.encoder.Start(); err != nil {
		return nil, fmt.Errorf("%s: %w", Encoder, err)
	}
	return m, nil
}

// encoderArgs have raw frames read from standard input and a file written that
// plays everywhere: halved colours, those of high-definition television, no date
// in it, its table in front.
func encoderArgs(name string, size Size, rate Rate) []string {
	return []string{
		"-nostdin", "-hide_banner", "-loglevel", "error", "-y",
		"-f", "rawvideo", "-pixel_format", "rgba", "-video_size", size.String(), "-framerate", rate.String(), "-i", "pipe:0",
		"-vf", "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p",
		"-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range", "tv",
		"-fflags", "+bitexact", "-movflags", "+faststart", "-f", "mp4", "file:" + name,
	}
}

// Put is part of Sink.
func (m *MP4) Put(frame int, data []byte) error {
	if err := m.Raw.Put(frame, data); err != nil {
		return m.failed(errors.Join(err, m.in.Close(), m.encoder.Wait()))
	}
	return nil
}

// Close is part of Sink.
func (m *MP4) Close() error {
	if err := errors.Join(m.in.Close(), m.encoder.Wait()); err != nil {
		return m.failed(err)
	}
	return nil
}

// failed is what the encoder said, or else the error.
func (m *MP4) failed(err error) error {
	if said := strings.TrimSpace(m.said.String()); said != "" {
		return fmt.Errorf("%s: %s", Encoder, said)
	}
	return fmt.Errorf("%s: %w", Encoder, err)
}
