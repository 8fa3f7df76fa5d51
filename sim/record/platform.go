package record

import (
	"runtime"
	"runtime/debug"
	"strings"
)

// Platform is what this program runs on, as far as the last bits of its
// arithmetic may hang on it: system, processor and its level, Go's version.
func Platform() string {
	parts := []string{runtime.GOOS, runtime.GOARCH, runtime.Version()}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "GO"+strings.ToUpper(runtime.GOARCH) { // GOAMD64, GOARM64
				parts = append(parts, s.Key+"="+s.Value)
			}
		}
	}
	return strings.Join(parts, " ")
}

// Program is the version of this program, as far as it was built with one.
func Program() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(unknown)"
	}
	return info.Main.Version
}
