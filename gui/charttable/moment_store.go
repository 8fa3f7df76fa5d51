package charttable

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"stillair/sim"
)

// momentStore is the file in the user's folder that keeps the moments named
// while a flight was shown. They are a convenience: a file that is damaged, or
// cannot be written, is no error, and the flight goes on without it.
type momentStore struct{ file string }

// storedMoment is a moment in the file; the time is written as in a flight.
type storedMoment struct {
	At   string `json:"at"`
	Name string `json:"name"`
}

// storeOf is the store of a flight, which goes by its title.
func storeOf(title string) momentStore {
	dir, err := os.UserConfigDir()
	if err != nil {
		return momentStore{}
	}
	return momentStore{filepath.Join(dir, "stillair", "moments", fileName(title)+".json")}
}

// fileName makes a title a name that every file system takes.
func fileName(title string) string {
	name := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) && r < utf8.RuneSelf || unicode.IsDigit(r) && r < utf8.RuneSelf {
			return unicode.ToLower(r)
		}
		return '-'
	}, title)
	for strings.Contains(name, "--") {
		name = strings.ReplaceAll(name, "--", "-")
	}
	name = strings.Trim(name, "-")
	if name == "" {
		return "flight"
	}
	return name[:min(len(name), 80)]
}

// maxStore is the largest file that is read, bytes: nine moments need 1 kB.
const maxStore = 64 << 10

// read gives the moments kept; what is not legal in them is left out.
func (m momentStore) read() (all []sim.Moment) {
	info, err := os.Stat(m.file)
	if err != nil || info.Size() > maxStore {
		return nil
	}
	text, err := os.ReadFile(m.file)
	if err != nil {
		return nil
	}
	var stored []storedMoment
	if json.Unmarshal(text, &stored) != nil {
		return nil
	}
	seen := map[int64]bool{}
	for _, s := range stored {
		at, err := time.ParseDuration(s.At)
		if err != nil || at < 0 || at > 48*time.Hour {
			continue
		}
		tick := sim.TicksOf(at)
		if s.Name == "" || utf8.RuneCountInString(s.Name) > maxName || strings.ContainsFunc(s.Name, unicode.IsControl) || seen[tick] {
			continue
		}
		seen[tick] = true
		all = append(all, sim.Moment{At: tick, Name: s.Name})
	}
	return all
}

// write replaces the file in one go, so that it is never half there; nothing to
// keep takes it away.
func (m momentStore) write(all []sim.Moment) {
	if m.file == "" {
		return
	}
	if len(all) == 0 {
		_ = os.Remove(m.file)
		return
	}
	stored := make([]storedMoment, len(all))
	for i, k := range all {
		stored[i] = storedMoment{sim.TimeOf(k.At).String(), k.Name}
	}
	text, err := json.MarshalIndent(stored, "", "\t")
	if err != nil || os.MkdirAll(filepath.Dir(m.file), 0o755) != nil {
		return
	}
	part := m.file + ".part"
	if os.WriteFile(part, append(text, '\n'), 0o644) == nil {
		_ = os.Rename(part, m.file)
	}
}
