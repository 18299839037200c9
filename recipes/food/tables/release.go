package tables

import (
	"path"
	"regexp"
	"strings"

	"parewell/recipes/words"
)

// sizes are releases of the standard reference by how many foods they list,
// counted in the published files.
var sizes = map[int]string{8790: "sr28", 8463: "sr26"}

// numbered finds a release in the names of files and folders: "sr28", "SR-28",
// "usda_sr 28".
var numbered = regexp.MustCompile(`(?i)(?:^|[^a-z])sr[ _-]?([0-9]{1,2})(?:[^0-9]|$)`)

// named says which table it is: its source, its release and what a person calls
// it. A release the cook gave stands; else the table's own size or date tells,
// else the name of the file or folder.
func (w *work) named(given string) (source, release, name string) {
	release = slug(given)
	if w.place.layout == central {
		if release == "" {
			release = w.centralRelease()
		}
		return "fdc", release, words.Say("tables.name.fdc", release)
	}
	if release == "" {
		release = w.standardRelease()
	}
	if nr, ok := strings.CutPrefix(release, "sr"); ok && nr != "" && strings.Trim(nr, "0123456789") == "" {
		return "usda", release, words.Say("tables.name.sr", nr)
	}
	return "usda", release, words.Say("tables.name.other", release)
}

func (w *work) standardRelease() string {
	if r, ok := sizes[w.listed]; ok {
		return r
	}
	if found := numbered.FindAllStringSubmatch(w.place.hint, -1); found != nil {
		return "sr" + found[len(found)-1][1]
	}
	return w.byPath()
}

// byPath is the name of the folder, or of the file when that says more than the
// layout's own name.
func (w *work) byPath() string {
	stem := slug(strings.TrimSuffix(w.place.main, path.Ext(w.place.main)))
	switch stem {
	case "abbrev", "food-des", "food":
		if dir := slug(path.Base(w.place.folder)); dir != "" {
			return dir
		}
	}
	return stem
}

// centralRelease is the newest date in food.csv, with the sort of foods when
// there is only one: "sr-legacy-2019-04-01".
func (w *work) centralRelease() string {
	if w.dated == "" {
		return w.byPath()
	}
	if len(w.sorts) != 1 {
		return w.dated
	}
	for sort := range w.sorts {
		return slug(strings.TrimSuffix(strings.TrimSuffix(sort, "_food"), "_fndds")) + "-" + w.dated
	}
	return w.dated
}

// slug keeps letters, digits and dots and puts one dash for anything else: a
// release is part of every food's Ref.
func slug(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '.')
	})
	return strings.Trim(strings.Join(words, "-"), ".-")
}
