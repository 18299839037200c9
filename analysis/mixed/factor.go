package mixed

import (
	"strconv"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Factor is one set of random levels: the level of each row, by any label.
// Rows of the same label share one random shift. Name is for messages.
type Factor struct {
	Name  string
	Level []string
}

// Cross is the factor whose levels are the pairs that occur: a taster within a
// tasting, a taster by a product. Rows beyond the shorter factor are left out,
// which Fit then refuses.
func Cross(name string, a, b Factor) Factor {
	f := Factor{Name: name}
	for i := range min(len(a.Level), len(b.Level)) {
		f.Level = append(f.Level, strconv.Quote(a.Level[i])+" "+strconv.Quote(b.Level[i]))
	}
	return f
}

// numbered gives each label its number in order of appearance.
func (f Factor) numbered() (of []int, labels []string) {
	seen := map[string]int{}
	for _, l := range f.Level {
		k, ok := seen[l]
		if !ok {
			k = len(labels)
			seen[l] = k
			labels = append(labels, l)
		}
		of = append(of, k)
	}
	return of, labels
}

// check refuses a factor that cannot have a variance.
func (f Factor) check(n int) error {
	if len(f.Level) != n {
		return bad("mixed.bad.length", f.Name, len(f.Level), n)
	}
	for i, l := range f.Level {
		if l == "" {
			return bad("mixed.bad.blank", f.Name, i+1)
		}
	}
	switch _, labels := f.numbered(); {
	case len(labels) == 1:
		return bad("mixed.bad.one-level", f.Name)
	case len(labels) == n:
		return bad("mixed.bad.all-apart", f.Name)
	}
	return nil
}

// bad is a fault of the data, with its mend where the sentences have one.
func bad(key string, args ...any) error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key + ".hint")
	}
	return problem.New(words.Say("mixed.where"), words.Say(key, args...), hint)
}
