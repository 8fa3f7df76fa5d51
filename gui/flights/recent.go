package flights

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// mostRecent is how many files are remembered.
const mostRecent = 8

// mostList is the size beyond which a list is taken as damaged, bytes.
const mostList = 1 << 20

// Recent is the list of flight files used lately, the newest first. Without a
// file, or with one that is damaged or cannot be written, it lasts as long as
// the program: that is no error.
type Recent struct {
	mu    sync.Mutex
	file  string
	paths []string
}

// recentList is the file.
type recentList struct {
	Files []string `json:"files"`
}

// RecentFile is where the list is kept, in the user's configuration folder; ""
// if there is none.
func RecentFile() string {
	folder, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(folder, "stillair", "recent.json")
}

// OpenRecent reads the list.
func OpenRecent(file string) *Recent {
	r := &Recent{file: file}
	if info, err := os.Stat(file); err != nil || !info.Mode().IsRegular() || info.Size() > mostList {
		return r
	}
	var list recentList
	text, err := os.ReadFile(file)
	if err != nil || json.Unmarshal(text, &list) != nil {
		return r
	}
	for _, path := range slices.Backward(list.Files) {
		r.put(path)
	}
	return r
}

// put sets a path first.
func (r *Recent) put(path string) {
	if !filepath.IsAbs(path) {
		return
	}
	path = filepath.Clean(path)
	rest := slices.DeleteFunc(r.paths, func(p string) bool { return p == path })
	r.paths = append([]string{path}, rest[:min(len(rest), mostRecent-1)]...)
}

// Add sets a path first and keeps the list.
func (r *Recent) Add(path string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.put(path)
	r.save()
}

// Paths are the files, the newest first.
func (r *Recent) Paths() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return slices.Clone(r.paths)
}

// Folder is that of the newest file, "" without one.
func (r *Recent) Folder() string {
	if all := r.Paths(); len(all) > 0 {
		return filepath.Dir(all[0])
	}
	return ""
}

// save replaces the file in one go. Whatever goes wrong is left at that: the
// list is a convenience.
func (r *Recent) save() {
	if r.file == "" {
		return
	}
	text, err := json.MarshalIndent(recentList{r.paths}, "", "\t")
	if err != nil || os.MkdirAll(filepath.Dir(r.file), 0o755) != nil {
		return
	}
	part := r.file + ".part"
	if os.WriteFile(part, append(text, '\n'), 0o644) != nil || os.Rename(part, r.file) != nil {
		_ = os.Remove(part)
	}
}
