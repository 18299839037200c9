// Package envfix settles the language setting before the window library reads
// it: "C.UTF-8", the default of bare machines, is one it complains about on
// standard error, wherever it stands. The library looks while packages are set
// up, so this is a package of its own that needs next to nothing and is set up
// before it. Only this program's own surroundings are changed.
package envfix

import (
	"os"
	"strings"
)

// plain is said in the place of a setting that names no language.
const plain = "en_US.UTF-8"

func init() {
	for name, value := range settled(os.Getenv) {
		_ = os.Setenv(name, value) // a refusal only brings the complaint back
	}
}

// settled returns the variables to set, so that what the library reads names a
// language: the first of LC_ALL, LC_MESSAGES and LANG that says anything, unless
// LANGUAGE lists languages. "C" and "POSIX" it knows.
func settled(get func(string) string) map[string]string {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		value := get(name)
		switch {
		case value == "":
		case value == "C" || value == "POSIX":
			return nil
		case get("LANGUAGE") != "":
			return settledList(get("LANGUAGE"))
		case !names(value):
			return map[string]string{name: plain}
		default:
			return nil
		}
	}
	if list := get("LANGUAGE"); list != "" {
		return settledList(list)
	}
	return nil
}

// settledList leaves out of LANGUAGE what names no language.
func settledList(list string) map[string]string {
	var kept []string
	all := strings.Split(list, ":")
	for _, one := range all {
		if names(one) {
			kept = append(kept, one)
		}
	}
	switch len(kept) {
	case len(all):
		return nil
	case 0:
		kept = []string{plain}
	}
	return map[string]string{"LANGUAGE": strings.Join(kept, ":")}
}

// names tells whether a setting such as "en_GB.UTF-8@euro" begins with a
// language of two or three letters and, where it has one, a country of two
// letters or three digits.
func names(setting string) bool {
	end := strings.IndexAny(setting, ".@")
	if end < 0 {
		end = len(setting)
	}
	language, country, more := strings.Cut(setting[:end], "_")
	if n := len(language); n != 2 && n != 3 || !all(language, 'a', 'z') {
		return false
	}
	return !more || len(country) == 2 && all(country, 'A', 'Z') || len(country) == 3 && all(country, '0', '9')
}

func all(text string, from, to byte) bool {
	for i := range len(text) {
		if text[i] < from || text[i] > to {
			return false
		}
	}
	return true
}
