// Package early sets the environment right before the toolkit starts: imported
// with _ by a main, its init runs before the toolkit's, since it imports only
// the standard library.
package early

import (
	"os"
	"strings"
)

func init() {
	set := false
	for _, k := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		v := os.Getenv(k)
		set = set || v != ""
		if v == "C" || v == "POSIX" || strings.HasPrefix(v, "C.") {
			os.Setenv(k, "en_GB.UTF-8") // the toolkit cannot read these locales
		}
	}
	if !set {
		os.Setenv("LANG", "en_GB.UTF-8")
	}
	if os.Getenv("FYNE_CACHE") == "" {
		os.Setenv("FYNE_CACHE", "12s") // bounds the cache of drawn texts
	}
}
