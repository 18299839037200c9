package sheets

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// Headings lists the headed sections of a recipe in the order of its lines.
func Headings(r *recipes.Recipe) []string {
	var out []string
	seen := map[string]bool{"": true}
	for _, l := range r.Lines {
		if !seen[l.Section] {
			seen[l.Section] = true
			out = append(out, l.Section)
		}
	}
	return out
}

// SectionText is a heading with what the cook said of its section: "For the
// sauce: 50 % used, 300 g once cooked".
func SectionText(r *recipes.Recipe, name string) string {
	s := r.Section(name)
	var said []string
	if s.ShareUsed != 1 {
		said = append(said, words.Say("section.used", words.Share(s.ShareUsed)))
	}
	if s.CookedGrams > 0 {
		said = append(said, words.Say("section.weighs", words.Grams(s.CookedGrams)))
	}
	if len(said) == 0 {
		return name
	}
	return words.Say("section.text", strings.TrimSuffix(name, ":"), strings.Join(said, ", "))
}

// SectionWeight is a section's own weight for a field, empty when not weighed.
func SectionWeight(s recipes.Section) string {
	if s.CookedGrams <= 0 {
		return ""
	}
	return words.Field(s.CookedGrams, 1)
}

// ReadSection reads the two fields of a section over what was said of it;
// faults are by field, "used" and "weighs".
func ReadSection(was recipes.Section, used, weighs string) (recipes.Section, map[string]string) {
	s, faults := was, map[string]string{}
	if used != ShareField(was.ShareUsed) {
		share, ok := reading.Share(used)
		if !ok || share <= 0 {
			faults["used"] = words.Say("section.used.wrong")
		}
		s.ShareUsed = share
	}
	switch grams, ok := reading.Grams(weighs); {
	case weighs == SectionWeight(was):
	case strings.TrimSpace(weighs) == "":
		s.CookedGrams = 0
	case !ok || grams <= 0:
		faults["weighs"] = words.Say("section.weighs.wrong")
	default:
		s.CookedGrams = grams
	}
	return s, faults
}
