package charttable

import (
	"math"
	"sort"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// timeLine is the flight from start to end: its headings, what was done when,
// the named moments, and a sentence that says why the positions part. Drag it to
// a time already flown, or beyond.
type timeLine struct {
	kit.Painted
	strip *strip
	hits  []hit // what was drawn where, for a pointer
	under int   // the one under the pointer, -1 none
}

// hit is something on the time line that can be pointed at, units.
type hit struct {
	x, y, w, h float32
	tick       int64
	words      string
}

func newTimeLine(s *strip) *timeLine {
	l := &timeLine{strip: s, under: -1}
	l.Extend(l, s.table.screen, fyne.NewSize(200, 100), l.paint)
	return l
}

// linePad is what lies left and right of the bar, so that times at the ends are
// whole, device pixels.
func linePad(z look.Size) float64 { return max(22*z.Device, z.Px(22)) }

// lineKey is all that the picture depends on, to a pixel of the bar.
type lineKey struct {
	now, frontier, total int64
	width                float32
	time                 string
	words                string
	entries, moments     int
	last, names          string
	revealed             int
	hide                 bool
	p                    *look.Palette
}

// apply repaints if anything has changed by a pixel.
func (l *timeLine) apply() {
	s, m := l.strip, l.strip.moment
	pixel := func(tick int64) int64 { return tick * 2 * int64(l.Size().Width) / max(1, s.total()) }
	key := lineKey{
		now: pixel(m.View.Tick), frontier: pixel(m.Frontier), total: s.total(), width: l.Size().Width,
		time: units.TimeText(m.View.Clock), words: s.sentence(), entries: len(m.View.Log),
		moments: len(s.moments), names: s.names(), revealed: -1, hide: s.table.screen.HidePlan, p: l.Palette(),
	}
	if n := len(m.View.Log); n > 0 {
		key.last = m.View.Log[n-1].Elapsed.String()
	}
	if m.Revealed != nil {
		key.revealed = len(m.Revealed.Breaks)
	}
	l.Update(key)
}

// names are those of all moments, for the key.
func (s *strip) names() string {
	var b strings.Builder
	for _, m := range s.moments {
		b.WriteString(m.Name + "\n")
	}
	return b.String()
}

// total is the length of the time line, ticks: that of the flight as planned,
// or more where a wind set in flight has made it longer.
func (s *strip) total() int64 {
	m := s.moment
	return max(1, s.table.survey.Ticks, m.Frontier, m.View.Tick)
}

// sentence is why the last order was refused, or why the positions part.
func (s *strip) sentence() string {
	if s.moment.Refusal != "" {
		return s.moment.Refusal
	}
	return why(&s.moment.View)
}

// legs are those flown, as they were flown, and those to come as planned.
func (s *strip) legs() []helm.LegSpan {
	var legs []helm.LegSpan
	for _, e := range s.past.log {
		if e.Event == aboard.LegBegun {
			legs = append(legs, helm.LegSpan{From: sim.TicksOf(e.Elapsed), Heading: e.Heading})
		}
	}
	planned := s.table.survey.Legs
	for _, leg := range planned[min(len(legs), len(planned)):] {
		if leg.From >= s.past.tick {
			legs = append(legs, leg)
		}
	}
	return legs
}

// shownLegs are those that may be seen: hidden is what is still ahead.
func (s *strip) shownLegs() []helm.LegSpan {
	legs := s.legs()
	if !s.table.screen.HidePlan {
		return legs
	}
	n := sort.Search(len(legs), func(i int) bool { return legs[i].From > s.moment.View.Tick })
	return legs[:n]
}

func (l *timeLine) tickAt(x float32) int64 {
	pad := float32(linePad(l.strip.table.screen.Size(1)))
	part := float64(x-pad) / float64(l.Size().Width-2*pad)
	return int64(math.Max(0, math.Min(1, part)) * float64(l.strip.total()))
}

// Tapped goes to the mark or the time pointed at.
func (l *timeLine) Tapped(e *fyne.PointEvent) {
	if i := l.at(e.Position); i >= 0 {
		l.strip.table.helm.GoTo(l.hits[i].tick)
		return
	}
	l.strip.table.helm.GoTo(l.tickAt(e.Position.X))
}

// Dragged goes along with the pointer; of many times the newest counts.
func (l *timeLine) Dragged(e *fyne.DragEvent) { l.strip.table.helm.GoTo(l.tickAt(e.Position.X)) }

// DragEnd is part of the toolkit's contract.
func (l *timeLine) DragEnd() {}

// Cursor is part of the toolkit's contract.
func (l *timeLine) Cursor() desktop.Cursor {
	if l.under >= 0 {
		return desktop.PointerCursor
	}
	return desktop.HResizeCursor
}

// at is the number of what lies at a place, -1 for none; what was drawn last
// lies on top.
func (l *timeLine) at(p fyne.Position) int {
	for i := len(l.hits) - 1; i >= 0; i-- {
		h := &l.hits[i]
		if p.X >= h.x && p.X <= h.x+h.w && p.Y >= h.y && p.Y <= h.y+h.h {
			return i
		}
	}
	return -1
}

// MouseIn is part of the toolkit's contract.
func (l *timeLine) MouseIn(e *desktop.MouseEvent) { l.MouseMoved(e) }

// MouseMoved says what lies under the pointer.
func (l *timeLine) MouseMoved(e *desktop.MouseEvent) {
	i := l.at(e.Position)
	if i == l.under {
		return
	}
	l.under = i
	s := l.strip
	hints := s.table.screen.Hints
	if i < 0 {
		hints.Leave(s.spot)
		return
	}
	h := l.hits[i]
	s.spot.Move(l.Position().AddXY(h.x, h.y))
	s.spot.Resize(fyne.NewSize(h.w, l.Size().Height-h.y)) // to the foot, so that the slip stands above and hides no mark
	hints.Tell(s.spot, h.words)
}

// MouseOut is part of the toolkit's contract.
func (l *timeLine) MouseOut() {
	l.under = -1
	l.strip.table.screen.Hints.Leave(l.strip.spot)
}

// fitted is a sentence or two, without the last where there is no room.
func fitted(words string, room float64, width func(string) float64) string {
	for width(words) > room {
		cut := strings.LastIndex(words, ". ")
		if cut < 0 {
			return words
		}
		words = words[:cut+1]
	}
	return words
}

// timeSpacing is a round time between marks so that at most n of them stand on
// the line, and the time between the small ticks.
func timeSpacing(ticks int64, n float64) (every, small time.Duration) {
	total := sim.TimeOf(ticks)
	for _, d := range [][2]time.Duration{
		{time.Minute, time.Minute}, {5 * time.Minute, time.Minute}, {10 * time.Minute, 2 * time.Minute}, {15 * time.Minute, 5 * time.Minute},
		{30 * time.Minute, 5 * time.Minute}, {time.Hour, 10 * time.Minute}, {2 * time.Hour, 30 * time.Minute}, {4 * time.Hour, time.Hour},
	} {
		if float64(total/d[0]) <= n {
			return d[0], d[1]
		}
	}
	return 6 * time.Hour, time.Hour
}
