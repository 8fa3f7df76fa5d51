package charttable

import (
	"slices"
	"strings"
)

// placed is a mark, or several of one kind so near that one stands for all,
// with its place on the time line.
type placed struct {
	mark
	x    float64 // of its symbol, pixels
	at   float64 // of its time
	told []string
}

// byTime sorts marks; those of one time stay in their order.
func byTime(all []mark) []mark {
	slices.SortStableFunc(all, func(a, b mark) int {
		switch {
		case a.tick < b.tick:
			return -1
		case a.tick > b.tick:
			return 1
		}
		return 0
	})
	return all
}

// spread places marks along the line so that no symbol lies on another: those
// of one kind within half a pitch become one, with the words of the last; then
// neighbours are moved apart to a pitch, from left to right, and back from the
// right edge.
func spread(all []mark, at func(int64) float64, pitch, left, right float64) []placed {
	var out []placed
	for _, m := range all {
		x := at(m.tick)
		if i := sameKindNear(out, m, x, pitch/2); i >= 0 {
			out[i].words, out[i].value, out[i].tick = m.words, m.value, m.tick
			out[i].told = append(out[i].told, m.words)
			continue
		}
		out = append(out, placed{mark: m, x: x, at: x, told: []string{m.words}})
	}
	for i := range out {
		if i > 0 {
			out[i].x = max(out[i].x, out[i-1].x+pitch)
		}
		out[i].x = max(out[i].x, left)
	}
	edge := right
	for i := len(out) - 1; i >= 0; i-- {
		out[i].x = min(out[i].x, edge)
		edge = out[i].x - pitch
	}
	return out
}

// sameKindNear is the last placed mark that this one may join, -1 if none.
func sameKindNear(out []placed, m mark, x, within float64) int {
	for i := len(out) - 1; i >= 0 && x-out[i].at <= within; i-- {
		if out[i].kind == m.kind && out[i].ahead == m.ahead && m.kind < brokenMark {
			return i
		}
	}
	return -1
}

// caption is the words of a run of marks that touch, and where they stand.
type caption struct {
	words string
	x     float64 // left edge
	ahead bool
}

// captions finds places for the words of the marks: to the right of a run of
// touching symbols, else to its left; the same for the values alone; else
// nowhere. None lies on a symbol or on other words.
func captions(marks []placed, pitch, left, right float64, width func(string) float64) (all []caption) {
	half, gap := pitch/2, pitch/4
	free := left
	for from := 0; from < len(marks); {
		to := from + 1
		for to < len(marks) && marks[to].x-marks[to-1].x < pitch*1.05 {
			to++
		}
		start, end := marks[from].x-half, marks[to-1].x+half
		next := right
		if to < len(marks) {
			next = marks[to].x - half
		}
		for _, words := range wordings(marks[from:to]) {
			w := width(words)
			if end+gap+w+gap <= next {
				all = append(all, caption{words, end + gap, marks[from].ahead})
				end += gap + w
				break
			}
			if start-gap-w-gap >= free {
				all = append(all, caption{words, start - gap - w, marks[from].ahead})
				break
			}
		}
		free = end + gap
		from = to
	}
	return all
}

// wordings are the words of marks, each said once, and the values alone if
// every mark has one.
func wordings(marks []placed) []string {
	var words, values []string
	for _, m := range marks {
		if !slices.Contains(words, m.words) {
			words = append(words, m.words)
		}
		if m.value != "" {
			values = append(values, m.value)
		}
	}
	all := []string{strings.Join(words, ", ")}
	if len(values) == len(marks) {
		all = append(all, strings.Join(values, ", "))
	}
	return all
}
