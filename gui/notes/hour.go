package notes

import (
	"time"

	"stillair/gui/look"
)

// Hour is the time that a lecture may take, by the clock on the wall.
type Hour struct {
	Began   time.Time
	Planned time.Duration
}

// The least and the most that may be planned, and by how much a key changes it.
const (
	Shortest = 5 * time.Minute
	Longest  = 4 * time.Hour
	HourStep = 5 * time.Minute
	usual    = 50 * time.Minute
)

// PlannedOf is what was planned the last time, in minutes; 0: what is usual.
func PlannedOf(minutes int) time.Duration {
	if minutes == 0 {
		return usual
	}
	return min(Longest, max(Shortest, time.Duration(minutes)*time.Minute))
}

// Longer plans more, or less, by steps.
func (h *Hour) Longer(steps int) {
	h.Planned = min(Longest, max(Shortest, h.Planned+time.Duration(steps)*HourStep))
}

// Left is what is left, in whole minutes begun, and what has gone, in whole minutes; over
// says that left is what it has run over, in whole minutes.
func (h *Hour) Left(now time.Time) (left, gone int, over bool) {
	past := max(0, now.Sub(h.Began))
	gone = int(past / time.Minute)
	if past > h.Planned {
		return int((past - h.Planned) / time.Minute), gone, true
	}
	return int((h.Planned - past + time.Minute - 1) / time.Minute), gone, false
}

// Share is how much of the time has gone, 0 to 1.
func (h *Hour) Share(now time.Time) float64 {
	return min(1, max(0, float64(now.Sub(h.Began))/float64(h.Planned)))
}

// text is what is left in words, and below it what has gone.
func (h *Hour) text(now time.Time) (left, gone string) {
	l, g, over := h.Left(now)
	word := look.NotesLeft
	if over {
		word = look.NotesOver
	}
	return look.Textf(word, l), look.Textf(look.NotesGone, g, int(h.Planned/time.Minute))
}
