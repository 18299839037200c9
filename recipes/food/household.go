package food

import (
	"slices"
	"strings"
)

// volumes are the millilitres of the units a volume measure can have. Cups and
// spoons of published household measures are US ones (NIST Handbook 44).
var volumes = map[string]float64{
	"tsp": 4.92892159375, "tbsp": 14.78676478125, "fl oz": 29.5735295625, "cup": 236.5882365,
	"pint": 473.176473, "quart": 946.352946, "litre": 1000, "ml": 1,
}

// GramsPerMillilitre returns the weight of one millilitre: the density where
// it is known, else from the largest plain volume measure. from says which, as
// "density" or the measure's words ("cup 125 g"). ok is false when neither is
// there; a measure like "cup, chopped" is for VolumeOf.
func (f *Food) GramsPerMillilitre() (float64, string, bool) {
	if f.Density > 0 {
		return f.Density, "density", true
	}
	return f.bestVolume(func(detail string) bool { return detail == "" })
}

// VolumeOf returns the weight of one millilitre of the food prepared as the
// words of prep say ("finely chopped"): first from a volume measure whose
// detail stands in prep, then as GramsPerMillilitre, then from any volume
// measure, which exact false marks as a guess.
func (f *Food) VolumeOf(prep string) (perMl float64, from string, exact, ok bool) {
	words := wordSet(prep)
	if len(words) > 0 {
		perMl, from, ok = f.bestVolume(func(detail string) bool { return detail != "" && hasDetail(words, detail) })
		if ok {
			return perMl, from, true, true
		}
	}
	if perMl, from, ok = f.GramsPerMillilitre(); ok {
		return perMl, from, true, true
	}
	perMl, from, ok = f.bestVolume(func(string) bool { return true })
	return perMl, from, false, ok
}

// bestVolume takes the largest volume measure whose detail suits; of two alike
// the first.
func (f *Food) bestVolume(suits func(detail string) bool) (float64, string, bool) {
	var best Measure
	for _, m := range f.Measures {
		if ml := volumes[m.Unit]; ml > volumes[best.Unit] && suits(m.Detail) {
			best = m
		}
	}
	if best.Unit == "" {
		return 0, "", false
	}
	return best.Grams / volumes[best.Unit], best.String(), true
}

// String gives the measure's words: "cup, chopped".
func (m Measure) String() string {
	if m.Detail == "" {
		return m.Unit
	}
	return m.Unit + ", " + m.Detail
}

// alike are units that name the same thing of a food; a cook writes either.
var alike = [][]string{
	{"stalk", "stick", "rib"},
	{"slice", "rasher"},
	{"can", "tin"},
	{"package", "pack", "packet", "envelope", "sachet"},
	{"sheet", "leaf"},
	{"head", "bulb"},
	{"whole", "ball", "fruit"},
	{"container", "pot", "tub"},
	{"thumb", "knob", "piece"},
	{"floret", "piece"},
}

// Household returns the food's own measure of a unit ("cup", "clove", "slice",
// "large"), the one whose detail stands in the words of prep first, then the
// plain one, then the medium one, then the first. exact is false when the
// detail was neither asked for nor plain. ok is false when there is no such unit.
func (f *Food) Household(unit, prep string) (m Measure, exact, ok bool) {
	if m, exact, ok = f.household(unit, prep); ok {
		return m, exact, true
	}
	for _, same := range alike {
		if !slices.Contains(same, unit) {
			continue
		}
		for _, other := range same {
			if m, exact, ok = f.household(other, prep); ok {
				return m, exact, true
			}
		}
	}
	return Measure{}, false, false
}

func (f *Food) household(unit, prep string) (m Measure, exact, ok bool) {
	words := wordSet(prep)
	rank := 0
	for _, c := range f.Measures {
		if c.Unit != unit {
			continue
		}
		r := 1
		switch {
		case c.Detail != "" && hasDetail(words, c.Detail):
			r = 4
		case c.Detail == "":
			r = 3
		case c.Detail == "medium" || c.Detail == "regular":
			r = 2
		}
		if r > rank {
			m, rank = c, r
		}
	}
	return m, rank > 2, rank > 0
}

// sizeWords are the units that give the size of one, in the order a bare count
// takes them: a whole one, else a medium one, else the nearest size.
var sizeWords = []string{"whole", "medium", "large", "small", "extra large", "jumbo", "extra small"}

// pieceWords are the units that count as one of the food when it has no size:
// one clove of garlic, one stalk of celery.
var pieceWords = []string{
	"breast", "thigh", "drumstick", "wing", "leg", "fillet", "steak", "chop", "rasher", "link", "clove", "stalk", "ear", "head", "bulb",
	"root", "spear", "pod", "slice", "sheet", "cube", "leaf", "stick", "half", "wrapper", "shell", "block", "crust", "piece",
}

// Each returns the weight of one counted one: of the size asked for ("large",
// "" for none), or as a cook means a bare count: a whole one, else a medium one.
// exact is false when another size had to stand in. ok is false when the food
// is not counted in any way the table knows. Eggs have the US classes here; the
// EU ones are Household("medium", "eu") and so on.
func (f *Food) Each(size string) (m Measure, exact, ok bool) {
	if size != "" {
		if m, exact, ok = f.Household(size, ""); ok {
			return m, exact, true
		}
		for _, c := range f.Measures {
			if c.Detail == size && slices.Contains(pieceWords, c.Unit) {
				return c, true, true
			}
		}
	}
	for _, unit := range sizeWords {
		if m, _, ok = f.Household(unit, ""); ok {
			return m, size == "" && (unit == "medium" || unit == "whole"), true
		}
	}
	for _, unit := range pieceWords {
		if m, _, ok = f.Household(unit, ""); ok {
			return m, size == "", true
		}
	}
	return Measure{}, false, false
}

func wordSet(s string) []string {
	var out []string
	eachWord(fold(s), func(w string) { out = append(out, sameCut(w)) })
	return out
}

// sameCut gives one word for ways of cutting that fill a cup alike.
func sameCut(w string) string {
	switch w = singular(w); w {
	case "grated":
		return "shredded"
	case "diced", "cubed", "cube", "dice", "chunk", "chop":
		return "chopped"
	case "slice", "flaked":
		return "sliced"
	case "crumb", "crumble":
		return "crumbled"
	}
	return w
}

// hasDetail tells whether every telling word of detail is among words.
func hasDetail(words []string, detail string) bool {
	for _, part := range strings.Split(fold(detail), " or ") {
		all := true
		eachWord(part, func(w string) { all = all && slices.Contains(words, sameCut(w)) })
		if all {
			return true
		}
	}
	return false
}
