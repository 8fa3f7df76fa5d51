package picture

import (
	"math"

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
	e.beside(look.Text(look.EyepieceMaster), 0, masterAt, -1)
	e.beside(p.Name, off, secondaryAt, 1)
	e.trace(masterAt, 0, -p.Amplitude[0], 2*p.Noise)
	e.trace(secondaryAt, off, p.Amplitude[1], 2*p.Noise+1)
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
// its pip where there is more room, in one line or two; where not even two do,
// beyond the tip of the pip.
func (e eye) beside(words string, pip, y, side float64) {
	if words == "" {
		return
	}
	size := e.K.Text(math.Max(look.TextSmall-0.5, e.R*0.09/e.K.Part))
	face := paint.Type{Font: look.Regular.Font(), Size: size}
	first := y*e.View() + side*(noiseHigh*e.View()+0.62*size) // middle of the line next to the trace
	for lines := 1; lines <= 2; lines++ {
		left, right := e.besidePip(pip, math.Abs(first)+(1.15*float64(lines)-0.65)*size, 0.3*size)
		x, anchor, width := left[0], paint.Start, left[1]-left[0]
		if right[1]-right[0] > width {
			x, anchor, width = right[1], paint.End, right[1]-right[0]
		}
		split := face.Wrap(words, width)
		if len(split) > lines || !fits(face, split, width) {
			continue
		}
		for i, s := range split {
			line := float64(i)
			if side < 0 {
				line = float64(len(split) - 1 - i)
			}
			e.beneath(x, first+side*line*1.15*size, s, face, anchor)
		}
		return
	}
	tip := side * (math.Abs(y) + pipHigh + 0.03) * e.View()
	middle := tip + side*0.36*size
	half := math.Sqrt(math.Max(0, math.Pow(e.View(), 2)-math.Pow(math.Abs(tip)+0.74*size, 2)))
	e.beneath(0, middle, face.Shorten(words, 2*half), face, paint.Middle)
}

// beneath writes a line in the view, before the traces and over the columns.
func (e eye) beneath(x, y float64, s string, t paint.Type, a paint.Anchor) {
	e.haloed(e.X+x, e.Y+y+0.36*t.Size, s, look.Regular, t.Size, a, e.s.second, e.s.ground)
}

// besidePip are the two stretches of a line as far as reach from the middle, left
// and right of a pip, pixels, margin off the rim.
func (e eye) besidePip(pip, reach, margin float64) (left, right [2]float64) {
	v := e.View()
	edge := math.Sqrt(math.Max(0, v*v-reach*reach)) - margin
	left = [2]float64{-edge, math.Min((pip-pipFront)*v, edge)}
	right = [2]float64{math.Max((pip+pipTail)*v, -edge), edge}
	return left, right
}

// fits says whether every line is no wider than width.
func fits(t paint.Type, lines []string, width float64) bool {
	for _, s := range lines {
		if t.Font.Width(s, t.Size) > width {
			return false
		}
	}
	return true
}
