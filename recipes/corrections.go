package recipes

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Correction is one thing corrected in what was served at a tasting, in words.
// Was is empty where nothing stood there, Is where nothing does now, Why where no
// reason was given.
type Correction struct {
	At                 string   // instant it was corrected
	Of                 []string // letters of the versions it is of, "the original" among them, in the order served
	What, Was, Is, Why string
}

// Corrections lists what was corrected in the record of a tasting since it was
// served, the oldest first. It names versions: a blind tasting's may only be shown
// once it is closed.
func (b *Book) Corrections(tasting ID) []Correction {
	var out []Correction
	samples := b.Samples(tasting)
	slices.SortStableFunc(samples, func(x, y *Sample) int { return x.Place - y.Place })
	for _, s := range samples {
		if s.Served == nil {
			continue
		}
		name := b.sampleName(s)
		for _, n := range s.Served.Corrected {
			c := Correction{At: n.At, What: n.What, Was: n.Was, Is: n.Is, Why: n.Why}
			at := slices.IndexFunc(out, func(x Correction) bool {
				return x.At == c.At && x.What == c.What && x.Was == c.Was && x.Is == c.Is && x.Why == c.Why
			})
			if at < 0 {
				at, out = len(out), append(out, c)
			}
			if !slices.Contains(out[at].Of, name) {
				out[at].Of = append(out[at].Of, name)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y Correction) int { return strings.Compare(x.At, y.At) })
	return out
}

// servedDiff says what differs between a record and the one that replaces it; note
// gives the date, the reason, and what was done, for where nothing else is seen to
// differ. swap names a swap.
func servedDiff(was, is *Served, note LateNote, swap func(ID) string) []LateNote {
	var out []LateNote
	add := func(what, before, after string) {
		if before == after {
			return // apart by less than is written
		}
		out = append(out, LateNote{At: note.At, What: what, Was: before, Is: after, Why: note.Why})
	}
	if was.Servings != is.Servings {
		add(words.Say("corrected.servings"), words.Trim(was.Servings, 2), words.Trim(is.Servings, 2))
	}
	for _, p := range linePairs(was.Lines, is.Lines) {
		what, before, after := p.say()
		add(what, before, after)
	}
	if !slices.Equal(was.Steps, is.Steps) {
		before, after := unlike(was.Steps, is.Steps)
		add(words.Say("corrected.method"), strings.Join(before, " "), strings.Join(after, " "))
	}
	if was.Dish != is.Dish {
		add(words.Say("corrected.dish"), techniqueText(was.Dish), techniqueText(is.Dish))
	}
	names := func(all []ServedSwap) []string {
		var out []string
		for _, s := range all {
			out = append(out, swap(s.ID))
		}
		return out
	}
	if before, after := unlike(names(was.Swaps), names(is.Swaps)); len(before)+len(after) > 0 {
		add(words.Say("corrected.swaps"), words.Join(names(was.Swaps)), words.Join(names(is.Swaps)))
	}
	for _, f := range is.Foods {
		at := slices.IndexFunc(was.Foods, func(x *food.Food) bool { return x.Ref == f.Ref })
		if at >= 0 && !reflect.DeepEqual(was.Foods[at], f) {
			before, after := foodTexts(was.Foods[at], f)
			add(words.Say("corrected.food", f.Name), before, after)
		}
	}
	if len(out) == 0 {
		out = append(out, note)
	}
	return out
}

// unlike are the texts of a that b lacks and those of b that a lacks.
func unlike(a, b []string) (onlyA, onlyB []string) {
	left := slices.Clone(b)
	for _, s := range a {
		if at := slices.Index(left, s); at >= 0 {
			left = slices.Delete(left, at, at+1)
		} else {
			onlyA = append(onlyA, s)
		}
	}
	return onlyA, left
}

// linePair is an ingredient before and after; nil where it was not or is not.
type linePair struct{ was, is *ServedLine }

// linePairs puts beside each other the lines that differ: of the same food first,
// then what stands at the same place.
func linePairs(was, is []ServedLine) []linePair {
	var out []linePair
	left := make([]*ServedLine, 0, len(is))
	for i := range is {
		left = append(left, &is[i])
	}
	take := func(like func(*ServedLine) bool) *ServedLine {
		at := slices.IndexFunc(left, like)
		if at < 0 {
			return nil
		}
		l := left[at]
		left = slices.Delete(left, at, at+1)
		return l
	}
	var odd []*ServedLine
	for i := range was {
		if take(func(l *ServedLine) bool { return sameServedLine(was[i], *l) }) == nil {
			odd = append(odd, &was[i])
		}
	}
	var lone []*ServedLine
	for _, l := range odd {
		if x := take(func(x *ServedLine) bool { return x.Food == l.Food && x.Name == l.Name && x.Kind == l.Kind }); x != nil {
			out = append(out, linePair{l, x})
		} else {
			lone = append(lone, l)
		}
	}
	for i, l := range lone {
		p := linePair{was: l}
		if len(lone) == len(left) {
			p.is = left[i]
		}
		out = append(out, p)
	}
	if len(lone) != len(left) {
		for _, l := range left {
			out = append(out, linePair{is: l})
		}
	}
	return out
}

// say names the ingredient and says how much of it there was and is, or how else
// it differs.
func (p linePair) say() (what, was, is string) {
	switch {
	case p.was == nil:
		return p.is.Name, "", p.is.amount()
	case p.is == nil:
		return p.was.Name, p.was.amount(), ""
	case p.was.Name != p.is.Name || p.was.Food != p.is.Food:
		return p.was.Name, p.was.amount() + " " + p.was.Name, p.is.amount() + " " + p.is.Name
	case p.was.amount() != p.is.amount():
		return p.was.Name, p.was.amount(), p.is.amount()
	}
	return p.was.Name, p.was.handling(), p.is.handling()
}

func (l *ServedLine) amount() string {
	if !l.Known {
		return words.Say("corrected.unknown")
	}
	return words.Grams(l.Grams)
}

// handling is what a line says beside its amount.
func (l *ServedLine) handling() string {
	all := []string{words.Say("corrected.part", words.Number(100*l.PartEaten, 0))}
	if l.State != "" {
		all = append(all, string(l.State))
	}
	if t := techniqueText(l.Technique); t != "" {
		all = append(all, t)
	}
	return strings.Join(all, ", ")
}

func techniqueText(t Technique) string {
	if t.Minutes > 0 {
		return strings.TrimSpace(t.Method + " " + words.Say("corrected.minutes", words.Trim(t.Minutes, 0)))
	}
	return t.Method
}

// mostFigures is how many figures of a food a correction lists.
const mostFigures = 4

// foodTexts are the figures in which two rows of one food differ, or their
// allergens.
func foodTexts(was, is *food.Food) (before, after string) {
	var a, b []string
	text := func(f *food.Food, n food.Nutrient) string {
		v, ok := f.Per100.Get(n)
		if !ok {
			return words.Say("nutrient."+n.Key()) + " " + words.Unknown
		}
		return words.Say("nutrient."+n.Key()) + " " + words.Trim(v, 2) + " " + n.Unit()
	}
	for n := food.Nutrient(0); n < food.NutrientCount && len(a) < mostFigures; n++ {
		x, knownX := was.Per100.Get(n)
		y, knownY := is.Per100.Get(n)
		if knownX != knownY || math.Abs(x-y) > 1e-9 {
			a, b = append(a, text(was, n)), append(b, text(is, n))
		}
	}
	if was.Allergens != is.Allergens {
		a, b = append(a, allergenText(was)), append(b, allergenText(is))
	}
	return strings.Join(a, ", "), strings.Join(b, ", ")
}

func allergenText(f *food.Food) string {
	if !f.Allergens.Recorded {
		return words.Say("corrected.allergens.unknown")
	}
	var all []string
	for _, k := range (f.Allergens.Contains | f.Allergens.Depends).Keys() {
		all = append(all, words.Say("ideas.allergen."+k))
	}
	if len(all) == 0 {
		return words.Say("corrected.allergens.none")
	}
	return words.Say("corrected.allergens", words.Join(all))
}
