package tongue

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2"

	"stillair/gui/look"
	"stillair/sim/fault"
)

//go:embed texts/*.toml
var shipped embed.FS

// Tongue is one language.
type Tongue struct {
	Code    string
	File    string // that it was read from
	words   map[Word]string
	faults  map[string]string
	Picture map[look.Key]string // words of the picture of the mechanism
}

// Fill gives a value to a {name} of a text.
type Fill struct{ Name, Value string }

// Text is a text with its places filled in.
func (t *Tongue) Text(w Word, fills ...Fill) string {
	s := t.words[w]
	for _, f := range fills {
		s = strings.ReplaceAll(s, "{"+f.Name+"}", f.Value)
	}
	return s
}

// Sentence parts a sentence into its plain part and the one in bold.
func Sentence(s string) (plain, bold string) {
	plain, bold, _ = strings.Cut(s, "|")
	return strings.TrimSpace(plain), strings.TrimSpace(bold)
}

// Fault is the sentence for a fault, and whether there is one.
func (t *Tongue) Fault(id string) (string, bool) {
	s, ok := t.faults[id]
	return s, ok
}

// Count writes a whole number of miles in words.
func (t *Tongue) Count(miles int) string {
	if miles == 1 {
		return t.Text(Mile)
	}
	return t.Text(Miles, Fill{"n", strconv.Itoa(miles)})
}

// Tenths writes miles to a tenth, in words.
func (t *Tongue) Tenths(miles float64) string {
	n := strconv.FormatFloat(miles, 'f', 1, 64)
	return t.Text(Miles, Fill{"n", strings.Replace(n, ".", t.words[Decimal], 1)})
}

// longest is how long a text may be, bytes.
const longest = 300

// read reads one file and says all that is wrong with it.
func read(code, file string, data []byte, like *Tongue) (*Tongue, error) {
	t := &Tongue{Code: code, File: file, words: map[Word]string{}, faults: map[string]string{}, Picture: map[look.Key]string{}}
	var tree map[string]any
	if err := toml.Unmarshal(data, &tree); err != nil {
		var at *toml.DecodeError
		if errors.As(err, &at) {
			row, _ := at.Position()
			return nil, fmt.Errorf("%s:%d: %w", file, row, err)
		}
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	r := &reading{tongue: t, file: file, data: data}
	for _, key := range slices.Sorted(maps.Keys(tree)) {
		r.entry(key, tree[key])
	}
	for _, w := range Words {
		if _, ok := t.words[w]; !ok {
			r.wrong(string(w), "is missing")
		}
	}
	if like != nil {
		r.compare(like)
	}
	return t, errors.Join(r.errs...)
}

type reading struct {
	tongue *Tongue
	file   string
	data   []byte
	errs   []error
}

// wrong reports a key with the line it stands in, if it is there.
func (r *reading) wrong(key, what string) {
	line := 1
	name := key[strings.LastIndex(key, ".")+1:]
	for i, text := range strings.Split(string(r.data), "\n") {
		if left, _, ok := strings.Cut(text, "="); ok && strings.TrimSpace(left) == name {
			line = i + 1
			break
		}
	}
	r.errs = append(r.errs, fmt.Errorf("%s:%d: %s: %s", r.file, line, key, what))
}

func (r *reading) entry(key string, value any) {
	switch v := value.(type) {
	case string:
		if !slices.Contains(Words, Word(key)) {
			r.wrong(key, "unknown key")
		} else if r.text(key, v) {
			r.tongue.words[Word(key)] = v
		}
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(v)) {
			r.inTable(key, k, v[k])
		}
	default:
		r.wrong(key, "must be a text in quotes")
	}
}

func (r *reading) inTable(table, key string, value any) {
	s, ok := value.(string)
	path := table + "." + key
	switch {
	case !ok:
		r.wrong(path, "must be a text in quotes")
	case table == "faults":
		if _, found := fault.Lookup(key); !found {
			r.wrong(path, "no such fault in the catalogue")
		} else if r.text(path, s) {
			r.tongue.faults[key] = s
		}
	case table == "picture":
		if !slices.Contains(PictureKeys(), look.Key(key)) {
			r.wrong(path, "no such word of the picture")
		} else if r.text(path, s) {
			r.tongue.Picture[look.Key(key)] = s
		}
	default:
		r.wrong(path, "unknown table")
	}
}

// text checks a text: not empty, not too long, only characters that our type has.
func (r *reading) text(key, s string) bool {
	switch c, ok := strange(s); {
	case strings.TrimSpace(s) == "":
		r.wrong(key, "must not be empty")
	case len(s) > longest:
		r.wrong(key, fmt.Sprintf("has %d bytes: at most %d", len(s), longest))
	case !ok:
		r.wrong(key, fmt.Sprintf("the type face has no %q", c))
	default:
		return true
	}
	return false
}

func strange(s string) (rune, bool) {
	for _, c := range s {
		if !look.Regular.Font().Has(c) || !look.Bold.Font().Has(c) {
			return c, false
		}
	}
	return 0, true
}

var place = regexp.MustCompile(`\{\w+\}`)

// compare sees that the same places are to be filled in as in another language.
func (r *reading) compare(like *Tongue) {
	for _, w := range Words {
		s, ok := r.tongue.words[w]
		if !ok {
			continue
		}
		have, want := place.FindAllString(s, -1), place.FindAllString(like.words[w], -1)
		slices.Sort(have)
		slices.Sort(want)
		if !slices.Equal(have, want) {
			r.wrong(string(w), fmt.Sprintf("must have %s to be filled in, has %s", list(want), list(have)))
		}
	}
}

func list(names []string) string {
	if len(names) == 0 {
		return "nothing"
	}
	return strings.Join(names, " ")
}

// English is the first language, which the others are compared with.
var English = sync.OnceValue(func() *Tongue {
	data, err := shipped.ReadFile("texts/en.toml")
	if err == nil {
		var t *Tongue
		if t, err = read("en", "en.toml", data, nil); err == nil {
			return t
		}
	}
	panic(err) // an embedded file that a test reads
})

// Load gives all languages there are, by code: those of the program, and those of a
// folder ("" for none), which come before those of the program with the same code.
// What is wrong with a file is told, and that language is left out.
func Load(folder string) (map[string]*Tongue, error) {
	all := map[string]*Tongue{}
	wrong := loadFrom(all, shipped, "texts", "")
	if folder == "" {
		return all, wrong
	}
	return all, errors.Join(wrong, loadFrom(all, os.DirFS(folder), ".", folder))
}

func loadFrom(all map[string]*Tongue, from fs.FS, dir, shown string) error {
	files, err := fs.ReadDir(from, dir)
	if err != nil {
		return fmt.Errorf("the folder %s cannot be read: %w", shown, err)
	}
	var errs []error
	for _, f := range files {
		code, isText := strings.CutSuffix(f.Name(), ".toml")
		if !isText || f.IsDir() || code == "exhibit" {
			continue
		}
		data, err := fs.ReadFile(from, path.Join(dir, f.Name()))
		if err == nil {
			var t *Tongue
			if t, err = read(code, path.Join(shown, f.Name()), data, English()); err == nil {
				all[code] = t
				continue
			}
		}
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

// Told are the ids of the faults that all of some languages have a sentence for.
func Told(all map[string]*Tongue, codes []string) (ids []string) {
	for _, e := range fault.Catalogue() {
		told := e.Refusal() == ""
		for _, c := range codes {
			if t := all[c]; t != nil {
				_, ok := t.Fault(e.ID)
				told = told && ok
			}
		}
		if told {
			ids = append(ids, e.ID)
		}
	}
	return ids
}

// PictureKeys are the words of the program's catalogue that the exhibit shows: those
// in the picture of the mechanism, and the letters of the compass.
func PictureKeys() []look.Key {
	return []look.Key{
		look.North, look.East, look.South, look.West,
		look.LinkZoneAir, look.LinkZoneSplit, look.LinkZoneDegrees, look.LinkZoneHeading, look.LinkZoneGround,
		look.LinkNamePitot, look.LinkNameCapsules, look.LinkNameAirLog, look.LinkNameCompass, look.LinkNameDeviation,
		look.LinkNameVariation, look.LinkNameRepeater, look.LinkNameResolver, look.LinkNameNorthDisc, look.LinkNameEastDisc,
		look.LinkNameWind, look.LinkNameGround, look.LinkPitotWord, look.LinkStaticWord, look.LinkDensityWord,
		look.LinkClutchWord, look.LinkCrankWord, look.LinkNorthingWord, look.LinkEastingWord, look.LinkSinceReset,
		look.LinkSecantWord, look.LinkSecantShort, look.LinkWindShort, look.LinkClockWord, look.LinkAdderWord,
		look.LinkEastWind, look.LinkNorthWind, look.LinkLatitudeWord, look.LinkLongitudeWord, look.LinkAgrees,
		look.AirLogCounter, look.LinkFollowBrass, look.LinkPlainBrass, look.LinkStripedBrass,
	}
}
