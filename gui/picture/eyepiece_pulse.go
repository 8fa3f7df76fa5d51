package picture

import (
	"math"
	"strings"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Pulse is what is seen in the pulse receiver.
type Pulse struct {
	Offset    float64    // from the master's pip to the secondary's, us
	PerRadius float64    // us in a radius of the view
	Amplitude [2]float64 // of the master's pip and the secondary's, parts of full height
	Noise     int        // which noise there is on the traces
	Knob      float64    // where the knob stands, degrees
	Name      string     // of the secondary, beside its trace
}

// The pulse receiver, parts of the view.
const (
	masterAt    = -0.06
	secondaryAt = 0.10
	pipHigh     = 0.60
	pipWide     = 0.085
	pipRise     = 1.2 // of the width, before the tip
	noiseHigh   = 0.032
	traceSteps  = 88
	pipTail     = 0.30 // what is kept clear behind a pip
	pipFront    = 0.14 // and before it
)

// DrawPulse draws the pulse receiver: two traces back to back, the master's pip up
// in the middle, the secondary's down where it was received, to be brought
// under the other.
func DrawPulse(b *Brush, x, y, r float64, p Pulse) {
	e := b.lookInto(x, y, r, b.darkSight())
	for k := -4; k <= 4; k++ {
		at := float64(k) * 0.2
		if k == 0 {
			e.wire(e.At(at, -1), e.At(at, 1), 1.4, e.s.faint, 6*e.w, 5*e.w)
			continue
		}
		e.wire(e.At(at, -1), e.At(at, 1), 1, e.s.faint, 2*e.w, 5*e.w)
	}
	off := 0.0
	if d := p.Offset / p.PerRadius; !math.IsNaN(d) {
		off = math.Max(-4, math.Min(4, d))
	}
	e.trace(masterAt, 0, -p.Amplitude[0], 2*p.Noise)
	e.trace(secondaryAt, off, p.Amplitude[1], 2*p.Noise+1)
	e.beside(look.Text(look.EyepieceMaster), 0, masterAt, -1)
	e.beside(p.Name, off, secondaryAt, 1)
	e.ring()
	e.marks(36, 3, finite(p.Knob))
	e.knob(finite(p.Knob))
}

// trace draws one line of the tube with its pip at x, up if high is negative.
func (e eye) trace(y, x, high float64, noise int) {
	high = math.Max(-1.5, math.Min(1.5, finite(high)))
	const n, step = traceSteps, 2.0 / traceSteps
	pts := make([]paint.Point, 0, n+2)
	tip := false
	for k := range n + 1 {
		at := -1 + float64(k)*step
		if !tip && at > x && k > 0 {
			pts, tip = append(pts, e.At(x, y+pipHigh*high)), true
		}
		form := pipForm((at - x) / pipWide)
		rough := noiseHigh
		if form > 0.15 {
			rough *= 0.4
		}
		h := hashOf(int64(k), int64(noise))
		pts = append(pts, e.At(at, y+pipHigh*high*form+(share(h)-0.5)*rough))
	}
	e.path.Reset()
	e.inside(pts...)
	e.Stroke(&e.path, paint.Pen{Width: 2.2 * e.w, Cap: paint.Round}, e.s.strong)
}

// pipForm is the height of a pip d widths behind its tip: a steep rise, a slow
// fall.
func pipForm(d float64) float64 {
	switch {
	case d < -pipRise:
		return 0
	case d < 0:
		return math.Pow(1+d/pipRise, 2)
	default:
		return math.Exp(-0.9 * d)
	}
}

// beside writes words above (side -1) or below (1) a trace at y, on that side of
// its pip where there is more room, in as many lines as it takes.
func (e eye) beside(words string, pip, y, side float64) {
	if words == "" {
		return
	}
	size := e.K.Text(math.Max(look.TextSmall-0.5, e.R*0.09/e.K.Part))
	face := paint.Type{Font: look.Regular.Font(), Size: size}
	v := e.View()
	first := y*v + side*(noiseHigh*v+0.45*size) // the middle of the line next to the trace
	lines := 2.0
	edge := math.Sqrt(math.Max(0, v*v-math.Pow(math.Abs(first)+(lines-0.5)*size, 2))) - 0.3*size
	left, right := paint.R(-edge, 0, math.Min(pip-pipFront, 1)*v+edge, 0), paint.R(math.Max(pip+pipTail, -1)*v, 0, 0, 0)
	right.X = math.Max(right.X, -edge)
	left.W = math.Min(left.W, 2*edge)
	right.W = edge - right.X
	room, x, anchor := left, left.X, paint.Start
	if right.W > left.W {
		room, x, anchor = right, right.Right(), paint.End
	}
	split := face.Wrap(words, room.W)
	if len(split) > 2 {
		split = []string{split[0], strings.Join(split[1:], " ")}
	}
	for i, s := range split {
		line := float64(i)
		if side < 0 {
			line = float64(len(split) - 1 - i)
		}
		e.write(e.X+x, e.Y+first+side*line*1.15*size+0.36*size, face.Shorten(s, room.W), look.Regular, size, anchor, e.s.second)
	}
}
