package flights

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"stillair/scenarios"
)

// OpenText opens the text of a flight that is no file yet.
func OpenText(name string, text []byte) (*Flight, error) {
	plan, src, err := scenarios.Load(name, bytes.NewReader(text))
	if err != nil {
		return nil, &Refused{Name: name, Lines: linesOf(text), Err: err}
	}
	return ready(&Flight{Name: name, Plan: plan, Source: src, Summary: src.Summary})
}

// DraftFolder is where flights that were written in the window are kept.
func DraftFolder() string { return filepath.Join(DataFolder(), "stillair", "flights") }

// ErrTaken says that there is a file of that name already.
var ErrTaken = errors.New("there is such a file")

// Keep writes a flight file in one go. A new one takes no file's place: ErrTaken.
func Keep(path string, text []byte, fresh bool) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return plainly(err)
	}
	if _, err := os.Lstat(path); fresh && !errors.Is(err, fs.ErrNotExist) {
		return ErrTaken
	}
	part := path + ".part"
	if err := os.WriteFile(part, text, 0o644); err != nil {
		return plainly(err)
	}
	if err := os.Rename(part, path); err != nil {
		_ = os.Remove(part)
		return plainly(err)
	}
	return nil
}
