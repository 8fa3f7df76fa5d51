package flights

import (
	"io"
	"os"
	"path/filepath"
)

// MarksFolder is where the sheets of exercises are saved.
func MarksFolder() string { return filepath.Join(DataFolder(), "stillair", "marks") }

// SaveMarks writes a sheet into that folder and gives its path.
func SaveMarks(name string, write func(io.Writer) error) (path string, err error) {
	if err := os.MkdirAll(MarksFolder(), 0o755); err != nil {
		return "", err
	}
	path = filepath.Join(MarksFolder(), name)
	f, err := os.Create(path)
	if err != nil {
		return "", err
	}
	err = write(f)
	if closed := f.Close(); err == nil {
		err = closed
	}
	return path, err
}
