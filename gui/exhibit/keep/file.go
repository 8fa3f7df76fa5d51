package keep

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"stillair/gui/exhibit/tongue"
	"stillair/scenarios"
)

// goodName is the copy of the last exhibit file that was in order.
const goodName = "last-good.toml"

// Found is what an exhibit runs by.
type Found struct {
	Exhibit *scenarios.Exhibit
	Tongues map[string]*tongue.Tongue
	Wrong   error // with the file that was asked for; then an older one runs
}

// Open reads an exhibit file. If it is in order, a copy of it is kept in the folder
// of the data; if it is not, the copy of the last good one runs, with what is wrong
// told, and if there is none of that the one that is shipped.
func Open(file, folder, shipped string) *Found {
	f, text, wrong := load(file, filepath.Dir(file))
	if wrong == nil {
		good := filepath.Join(folder, goodName)
		// A disk that cannot be written changes nothing now; the next bad file finds no copy.
		_ = replace(good, func(to *os.File) error {
			_, err := to.Write(text)
			return err
		})
		return f
	}
	if f, _, err := load(filepath.Join(folder, goodName), filepath.Dir(file)); err == nil {
		f.Wrong = wrong
		return f
	}
	f, err := read("exhibit.toml", []byte(shipped), "")
	if err != nil {
		panic(err) // an embedded file that a test reads
	}
	f.Wrong = wrong
	return f
}

func load(file, texts string) (*Found, []byte, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, nil, err
	}
	f, err := read(file, text, texts)
	return f, text, err
}

// read reads an exhibit whose folder of texts lies in another folder.
func read(name string, text []byte, beside string) (*Found, error) {
	f := &Found{}
	languages := func(folder string) (codes []string, err error) {
		if folder != "" {
			if !filepath.IsAbs(folder) {
				folder = filepath.Join(beside, folder)
			}
		}
		f.Tongues, err = tongue.Load(folder)
		for code := range f.Tongues {
			codes = append(codes, code)
		}
		return codes, err
	}
	var err error
	f.Exhibit, err = scenarios.LoadExhibit(name, bytes.NewReader(text), scenarios.ExhibitRules{
		Languages: languages,
		Told:      func(_ string, codes []string) []string { return tongue.Told(f.Tongues, codes) },
	})
	return f, err
}

// Problems are the lines of what is wrong with a file, for the keeper.
func Problems(err error) []string {
	var all *scenarios.Errors
	switch {
	case err == nil:
		return nil
	case errors.As(err, &all):
		var lines []string
		for _, p := range all.Problems {
			lines = append(lines, p.Error())
		}
		if all.More > 0 {
			lines = append(lines, fmt.Sprintf("and %d more", all.More))
		}
		return lines
	}
	return []string{err.Error()}
}
