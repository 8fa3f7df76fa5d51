package picture

import (
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// Overlay is what is printed over the ground of the chart in two inks: curves of
// equal altitude, or the lattice of a pulse chain.
type Overlay struct {
	Inks      [2]Ink
	PlateAll  bool // also the fine curves have plates
	AtEdge    bool // plates stand at the edge of the chart, else wherever the inks leave room
	Stations  []Station
	Baselines [][2]units.Position
	Weak      [][]units.Position // slanted strokes where the overlay is of little use
	Crossings []Crossing
	Going     *Going
}

// Ink is all that is printed in one of the inks.
type Ink struct {
	Curves []InkCurve
	Read   [][]units.Position // the curve of what was read
	Plate  string             // names it
	Later  [][]units.Position // where it will be
}

// InkCurve is one curve.
type InkCurve struct {
	Weight int // 0, 1, 2: from fine to heavy
	Plate  string
	Lines  [][]units.Position
}

// Station is a sender of the chain.
type Station struct {
	Letter string
	At     units.Position
}

// Crossing is where the curves of what was read cross.
type Crossing struct {
	At    units.Position
	Words []string // beside it, the first bold
	Open  bool     // one of two: which, they do not say
}

// Going says where the curves go: an arrow over the sea with words beside it.
type Going struct {
	From, To units.Position
	Words    [2]string
}

// The inks at scale 1: widths of fine, middle and heavy curves and of what was
// read; dashes of the second ink.
var (
	inkWidths = [3]float64{1, 1.5, 2.1}
	inkDash   = []float64{9, 5}
	inkHeavy  = []float64{14, 5}
	inkLater  = []float64{2, 6}
)

const (
	fineInk    = 0.75 // opacity of the fine curves
	readWidth  = 4.2
	laterWidth = 2.2
)

func (b *Brush) ink(i int) colour {
	if i == 0 {
		return b.C.Pos
	}
	return b.C.BrassText
}

// inkPen is the pen of an ink: the first full, the second broken.
func (b *Brush) inkPen(ink int, width float64, heavy bool) paint.Pen {
	k := b.K.Symbol()
	pen := paint.Pen{Width: width * k}
	if ink == 1 {
		dash := inkDash
		if heavy {
			dash = inkHeavy
		}
		pen.Dash = []float64{dash[0] * k, dash[1] * k}
	}
	return pen
}

// DrawOverlay prints an overlay, but for its crossings, which lie over the plot; room is what the ground has left, nil if nothing
// is to be kept clear of. It gives the rectangles that labels of the plot had
// better not lie on.
func DrawOverlay(b *Brush, v View, o *Overlay, room *Room) []paint.Rect {
	if room == nil {
		room = NewRoom(v.Box)
	}
	l := &printing{Brush: b, v: v, o: o, k: b.K.Symbol(), room: room.Clone()}
	b.PushClip(v.Box)
	defer b.PopClip()
	l.strokes(o.Weak, paint.Pen{Width: l.k}, paint.Alpha(b.C.Ink2, weakInk))
	for i := range o.Inks {
		l.curves(i)
	}
	l.names()
	for _, line := range o.Baselines {
		l.strokes([][]units.Position{line[:]}, paint.Pen{Width: 1.5 * l.k, Dash: []float64{2 * l.k, 5 * l.k}}, b.C.Ink)
	}
	for i, ink := range o.Inks {
		dots := paint.Pen{Width: laterWidth * l.k, Dash: []float64{inkLater[0] * l.k, inkLater[1] * l.k}}
		l.strokes(ink.Later, dots, b.ink(i))
		l.strokes(ink.Read, b.inkPen(i, readWidth, true), b.ink(i))
	}
	l.going()
	l.crossings()
	l.stations()
	for i := range o.Inks {
		l.readPlate(i)
	}
	for i := range o.Inks {
		l.plates(i)
	}
	return l.taken
}

// weakInk is the opacity of the strokes over weak sea.
const weakInk = 0.32

// printing is one drawing of an overlay.
type printing struct {
	*Brush
	v     View
	o     *Overlay
	k     float64
	room  *Room
	put   []paint.Rect // the plates so far
	taken []paint.Rect
	drawn [][]paint.Point // the lines so far
}

// strokes draws lines with one pen.
func (l *printing) strokes(lines [][]units.Position, pen paint.Pen, c colour) {
	if len(lines) == 0 {
		return
	}
	l.path.Reset()
	for _, line := range lines {
		pts := straightened(thin(l.v.ToPixels(line), 0.5), onLine)
		l.path.Polyline(pts...)
		l.drawn = append(l.drawn, pts)
	}
	l.Stroke(&l.path, pen, c)
}

// curves draws the curves of an ink, all of one weight at once.
func (l *printing) curves(i int) {
	for weight, width := range inkWidths {
		var lines [][]units.Position
		for _, c := range l.o.Inks[i].Curves {
			if c.Weight == weight {
				lines = append(lines, c.Lines...)
			}
		}
		if len(lines) > 0 {
			ink := l.ink(i)
			if weight == 0 {
				ink = paint.Alpha(ink, fineInk)
			}
			l.strokes(lines, l.inkPen(i, width, weight == len(inkWidths)-1), ink)
		}
	}
}

// paperInk is the opacity of what lies under key, rose and scale where curves run
// through them.
const paperInk = 0.86

// names draws names and furniture of the ground anew where a curve runs through
// them.
func (l *printing) names() {
	for _, f := range l.room.furniture {
		if l.crossed(f.at) {
			l.rect(f.at, look.SmallRadius*l.k, paint.Alpha(l.C.Sea, paperInk), none, 0)
			f.draw(l.Brush, f.at)
		}
	}
	for _, n := range l.room.names {
		if l.crossed(n.box) {
			n.write(l.Brush, l.C.Sea)
		}
	}
}

func (l *printing) crossed(box paint.Rect) bool {
	for _, line := range l.drawn {
		if crosses(line, box) {
			return true
		}
	}
	return false
}

// take keeps a rectangle free.
func (l *printing) take(q paint.Rect) {
	l.room.take(q, textHurts)
	l.taken = append(l.taken, q)
}
