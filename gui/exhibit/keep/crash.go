package keep

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"sort"
	"strings"
	"time"
)

// The report of the crash that is not yet there, and those of crashes that were.
const (
	openReport = "crash-open.txt"
	reports    = "crash-*.txt"
	mostKept   = 20
)

// Watch has the runtime write a report into the folder should the program crash, on
// whatever goroutine; that of a crash before is given a name of its own, with the time
// of this start. It gives the first line of the newest report, "" for none.
func Watch(folder string, now time.Time) (last string, err error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return newest(folder), err
	}
	open := filepath.Join(folder, openReport)
	if text, err := os.ReadFile(open); err == nil && len(bytes.TrimSpace(text)) > 0 {
		name := fmt.Sprintf("crash-%s.txt", now.UTC().Format("20060102-150405"))
		if err := os.Rename(open, filepath.Join(folder, name)); err != nil {
			return newest(folder), err
		}
		forget(folder)
	}
	f, err := os.Create(open)
	if err != nil {
		return newest(folder), err
	}
	defer f.Close() // the runtime has a handle of its own
	return newest(folder), debug.SetCrashOutput(f, debug.CrashOptions{})
}

// all are the reports, oldest first.
func all(folder string) []string {
	files, _ := filepath.Glob(filepath.Join(folder, reports)) // the pattern is good
	var kept []string
	for _, f := range files {
		if filepath.Base(f) != openReport {
			kept = append(kept, f)
		}
	}
	sort.Strings(kept)
	return kept
}

func forget(folder string) {
	for files := all(folder); len(files) > mostKept; files = files[1:] {
		os.Remove(files[0])
	}
}

// newest is the time and the first line of the newest report.
func newest(folder string) string {
	files := all(folder)
	if len(files) == 0 {
		return ""
	}
	file := files[len(files)-1]
	f, err := os.Open(file)
	if err != nil {
		return filepath.Base(file)
	}
	defer f.Close()
	line := ""
	if in := bufio.NewScanner(f); in.Scan() {
		line = in.Text()
	}
	stamp := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(file), "crash-"), ".txt")
	return strings.TrimSpace(stamp + " " + line)
}
