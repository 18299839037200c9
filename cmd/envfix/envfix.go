// Package envfix settles the language setting before the window library reads
// it: "C.UTF-8", the default of bare machines, is one it complains about on
// standard error. The library looks while packages are set up, so this is a
// package of its own that needs nothing but os and is set up before it.
package envfix

import (
	"os"
	"strings"
)

func init() {
	if strings.HasPrefix(os.Getenv("LANG"), "C.") && allUnset("LC_ALL", "LC_MESSAGES", "LANGUAGE") {
		_ = os.Setenv("LANG", "en_US.UTF-8") // a refusal only brings the complaint back
	}
}

func allUnset(names ...string) bool {
	for _, n := range names {
		if os.Getenv(n) != "" {
			return false
		}
	}
	return true
}
