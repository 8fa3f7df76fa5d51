package fault

import (
	"slices"
	"sort"
	"strings"
	"unicode/utf8"
)

// Bounds of the search for near words: no more than maxNear are offered, and
// words longer than maxWord bytes are cut, so that a hostile file cannot make
// the comparison dear.
const (
	maxNear = 3
	maxWord = 48
)

// Nearest gives the ids of the catalogue that a misspelt word may have meant,
// the likeliest first, at most three.
func Nearest(word string) []string {
	ids := make([]string, 0, len(Catalogue()))
	for _, e := range Catalogue() {
		ids = append(ids, e.ID)
	}
	return NearestOf(word, ids)
}

// NearestOf gives the names that a misspelt word may have meant: those within
// a third of their length in single changes, those made of the same words in
// another order, and those that contain it or are contained in it; the
// likeliest first, at most three. Case, hyphens, spaces
// and underscores do not count.
func NearestOf(word string, names []string) []string {
	type near struct {
		name string
		cost int
	}
	w, parts := fold(word), words(word)
	var found []near
	for _, n := range names {
		if c, ok := cost(w, fold(n)); ok {
			found = append(found, near{n, c})
		} else if slices.Equal(parts, words(n)) {
			found = append(found, near{n, 1})
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].cost < found[j].cost })
	if len(found) > maxNear {
		found = found[:maxNear]
	}
	out := make([]string, len(found))
	for i, f := range found {
		out[i] = f.name
	}
	return out
}

// cost is the distance from a to b, and whether it is near enough to offer.
func cost(a, b string) (int, bool) {
	la, lb := utf8.RuneCountInString(a), utf8.RuneCountInString(b)
	longer := max(la, lb)
	d := Distance(a, b)
	if d <= max(1, longer/3) && d < longer {
		return d, true
	}
	if min(la, lb) >= 4 && (strings.Contains(b, a) || strings.Contains(a, b)) {
		return d, true
	}
	return d, false
}

var folder = strings.NewReplacer("-", "", "_", "", " ", "")

// words are the parts of a name in alphabetical order.
func words(s string) []string {
	if len(s) > 4*maxWord {
		return nil
	}
	parts := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune("-_ ", r) })
	slices.Sort(parts)
	return parts
}

func fold(s string) string {
	if len(s) > maxWord { // bytes first: cheap; a cut rune only costs a change
		s = s[:maxWord]
	}
	return folder.Replace(strings.ToLower(s))
}

// Distance is the least number of single changes (a rune put in, taken out or
// exchanged, or two neighbours swapped) that turn a into b: the optimal string
// alignment distance.
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}
