package recipes

import (
	"maps"
	"math"
	"slices"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// AddRecipe adds a new recipe and pins the foods its lines use.
func AddRecipe(r *Recipe, foods []*food.Food) Verb {
	return func(b *Book) (Change, error) {
		e := newEdits(b, r.ID, "did.add-recipe", r.Title)
		e.pin(foods)
		c := *r
		c.Edition = max(c.Edition, 1)
		if c.Order == 0 {
			c.Order = nextOrder(b.Recipes(), func(x *Recipe) float64 { return x.Order })
		}
		e.put(&c)
		return e.done()
	}
}

// RemoveRecipe removes a recipe with its swaps, versions and tests; undo brings
// all of them back. A recipe used by another or in a meal is refused with the
// list of its users.
func RemoveRecipe(id ID) Verb {
	return func(b *Book) (Change, error) {
		r, err := b.mustRecipe(id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, id, "did.remove-recipe", r.Title)
		for _, x := range b.Batches(id) {
			e.drop(x)
		}
		for _, v := range b.Versions(id) {
			e.drop(v)
		}
		for _, s := range b.Swaps(id) {
			e.drop(s)
		}
		e.drop(r)
		return e.done()
	}
}

// editRecipe is the shape of every verb that changes the original itself.
func editRecipe(id ID, key string, args []any, foods []*food.Food, change func(b *Book, e *edits, r *Recipe) error) Verb {
	return func(b *Book) (Change, error) {
		r, err := b.mustRecipe(id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, id, key, args...)
		e.pin(foods)
		c := *r
		if err := change(b, e, &c); err != nil {
			return Change{}, err
		}
		e.put(&c)
		return e.done()
	}
}

// SetTitle renames a recipe.
func SetTitle(id ID, title string) Verb {
	return editRecipe(id, "did.title", []any{title}, nil, func(_ *Book, _ *edits, r *Recipe) error {
		r.Title = strings.TrimSpace(title)
		return nil
	})
}

// SetHeadnote rewrites the words above the recipe.
func SetHeadnote(id ID, text string) Verb {
	return editRecipe(id, "did.headnote", nil, nil, func(_ *Book, _ *edits, r *Recipe) error {
		r.Headnote = strings.TrimSpace(text)
		return nil
	})
}

// SetPrint chooses what of a recipe goes into the book.
func SetPrint(id ID, print Print) Verb {
	return editRecipe(id, "did.print", nil, nil, func(b *Book, _ *edits, r *Recipe) error {
		if v := print.Version; v != "" && v != PrintOriginal && b.Version(id, v) == nil {
			return gone("error.version-gone")
		}
		if print.Title = strings.TrimSpace(print.Title); print.Title == r.Title {
			print.Title = ""
		}
		print.Untold = slices.Clone(print.Untold)
		r.Print = print
		return nil
	})
}

// MoveRecipe puts a recipe before another in the list and in the book, or behind
// all with an empty ID.
func MoveRecipe(id, before ID) Verb {
	return func(b *Book) (Change, error) {
		e := newEdits(b, id, "did.move-recipe")
		order := slices.DeleteFunc(slices.Clone(b.Recipes()), func(r *Recipe) bool { return r.ID == id })
		moved := b.Recipe(id)
		at := slices.IndexFunc(order, func(r *Recipe) bool { return r.ID == before })
		if moved == nil || before != "" && at < 0 {
			return Change{}, gone("error.recipe-gone")
		}
		if before == "" {
			at = len(order)
		}
		for i, r := range slices.Insert(order, at, moved) {
			if r.Order != float64(i+1) {
				c := *r
				c.Order = float64(i + 1)
				e.put(&c)
			}
		}
		return e.done()
	}
}

// SetServings sets the number that divides the original; it is then stated.
func SetServings(id ID, servings float64) Verb {
	return editRecipe(id, "did.servings", []any{servings}, nil, func(_ *Book, _ *edits, r *Recipe) error {
		r.Servings, r.ServingsHigh, r.ServingsFrom = servings, 0, ServingsStated
		return nil
	})
}

// SetBrief sets what must stay and what must come down.
func SetBrief(id ID, brief Brief) Verb {
	return editRecipe(id, "did.brief", nil, nil, func(_ *Book, _ *edits, r *Recipe) error {
		brief.Targets = slices.Clone(brief.Targets)
		r.Brief = brief
		return nil
	})
}

// SetSays keeps what the cook says of the dish where words about it are judged.
func SetSays(id ID, says Says) Verb {
	return editRecipe(id, "did.says", nil, nil, func(_ *Book, _ *edits, r *Recipe) error {
		if bad := func(v float64) bool { return v < 0 || math.IsNaN(v) || math.IsInf(v, 0) }; bad(says.CupG) || bad(says.CupGVer) {
			return refuse(r.Title, "error.cup")
		}
		says.Answers = maps.Clone(says.Answers)
		r.Says = says
		return nil
	})
}

// SetLine replaces the line of the same ID; swaps that touch it stay.
func SetLine(id ID, line *Line, foods []*food.Food) Verb {
	return editRecipe(id, "did.line", []any{line.Text}, foods, func(_ *Book, _ *edits, r *Recipe) error {
		at := slices.IndexFunc(r.Lines, func(l *Line) bool { return l.ID == line.ID })
		if at < 0 {
			return gone("error.line-gone")
		}
		r.Lines = slices.Clone(r.Lines)
		r.Lines[at] = line
		return nil
	})
}

// SetSection keeps what is said of a headed section of the original; one that is
// used whole and was not weighed is forgotten.
func SetSection(id ID, section Section) Verb {
	return editRecipe(id, "did.section", []any{section.Name}, nil, func(_ *Book, _ *edits, r *Recipe) error {
		r.Sections = slices.DeleteFunc(slices.Clone(r.Sections), func(s Section) bool { return s.Name == section.Name })
		if section.CookedGrams != 0 || section.ShareUsed != 1 {
			r.Sections = append(r.Sections, section)
		}
		return nil
	})
}

// SettleLines accepts the lines as they stand: their doubts are kept for the
// record but no longer ask. An empty list does nothing.
func SettleLines(id ID, lines []ID) Verb {
	return editRecipe(id, "did.settle", []any{len(lines)}, nil, func(_ *Book, _ *edits, r *Recipe) error {
		r.Lines = slices.Clone(r.Lines)
		for i, l := range r.Lines {
			if slices.Contains(lines, l.ID) && !l.Settled {
				c := *l
				c.Settled = true
				r.Lines[i] = &c
			}
		}
		return nil
	})
}

// AddLine puts a new line after another; an empty after puts it first, one
// that is not there puts it last.
func AddLine(id ID, line *Line, after ID, foods []*food.Food) Verb {
	return editRecipe(id, "did.add-line", []any{line.Text}, foods, func(_ *Book, _ *edits, r *Recipe) error {
		at := 0
		if after != "" {
			at = len(r.Lines)
			if i := slices.IndexFunc(r.Lines, func(l *Line) bool { return l.ID == after }); i >= 0 {
				at = i + 1
			}
		}
		r.Lines = slices.Insert(slices.Clone(r.Lines), at, line)
		return nil
	})
}

// RemoveLine takes a line off the original, and with it what is taken off it. A
// swap that touches one of them is refused with its name, because the swap would
// lose its meaning.
func RemoveLine(id, line ID) Verb {
	return editRecipe(id, "did.remove-line", nil, nil, func(b *Book, e *edits, r *Recipe) error {
		at := slices.IndexFunc(r.Lines, func(l *Line) bool { return l.ID == line })
		if at < 0 {
			return gone("error.line-gone")
		}
		e.change.Label = words.P("did.remove-line", r.Lines[at].Text)
		leaves := func(l *Line) bool { return l.ID == line || l.OffOf == line }
		for _, l := range r.Lines {
			if !leaves(l) {
				continue
			}
			for _, s := range b.Swaps(id) {
				if slices.Contains(s.Touches(), l.ID) {
					return refuse(r.Title, "error.line-in-swap", l.Text, s.Name)
				}
			}
		}
		r.Lines = slices.DeleteFunc(slices.Clone(r.Lines), leaves)
		return nil
	})
}

// SetStep rewrites a step of the original; an empty text removes it unless a
// swap rewrites or follows it.
func SetStep(id, step ID, text string) Verb {
	return editRecipe(id, "did.step", nil, nil, func(_ *Book, _ *edits, r *Recipe) error {
		at := slices.IndexFunc(r.Steps, func(s *Step) bool { return s.ID == step })
		if at < 0 {
			return gone("error.step-gone")
		}
		r.Steps = slices.Clone(r.Steps)
		if text = strings.TrimSpace(text); text == "" {
			r.Steps = slices.Delete(r.Steps, at, at+1)
			return nil
		}
		r.Steps[at] = &Step{ID: step, Text: text}
		return nil
	})
}

// AddStep puts a new step after another; an empty after puts it last.
func AddStep(id ID, step *Step, after ID) Verb {
	return editRecipe(id, "did.add-step", nil, nil, func(_ *Book, _ *edits, r *Recipe) error {
		at := len(r.Steps)
		if i := slices.IndexFunc(r.Steps, func(s *Step) bool { return s.ID == after }); i >= 0 {
			at = i + 1
		}
		r.Steps = slices.Insert(slices.Clone(r.Steps), at, step)
		return nil
	})
}

// Remember keeps what the cook decided of an ingredient's name.
func Remember(choice *Choice, foods []*food.Food) Verb {
	return func(b *Book) (Change, error) {
		e := newEdits(b, "", "did.remember", choice.Name)
		e.pin(foods)
		e.put(choice)
		return e.done()
	}
}

// PutFood adds or changes one of the cook's own foods.
func PutFood(f *food.Food) Verb {
	return func(b *Book) (Change, error) {
		e := newEdits(b, "", "did.food", f.Name)
		p := &PinnedFood{Food: *f}
		if old := b.foods[f.Ref]; old != nil {
			p.Price = old.Price
		}
		e.put(p)
		return e.done()
	}
}

// SetPrice keeps what the cook pays for a food the workbook holds; nil takes
// the price away.
func SetPrice(ref food.Ref, price *Price) Verb {
	return func(b *Book) (Change, error) {
		old := b.foods[ref]
		if old == nil {
			return Change{}, gone("error.food-gone")
		}
		if price != nil && (!(price.Money >= 0) || !(price.Grams > 0)) {
			return Change{}, refuse(old.Name, "error.price")
		}
		e := newEdits(b, "", "did.price", old.Name)
		p := *old
		p.Price = price
		e.put(&p)
		return e.done()
	}
}

// RemoveFood removes an own food that nothing uses.
func RemoveFood(ref food.Ref) Verb {
	return func(b *Book) (Change, error) {
		f := b.foods[ref]
		if f == nil {
			return Change{}, gone("error.food-gone")
		}
		e := newEdits(b, "", "did.remove-food", f.Name)
		e.drop(f)
		return e.done()
	}
}

// Personal tells whether a setting says something of a person, which leaves the
// history with it and no copy for others holds.
func Personal(setting string) bool { return setting == BodyMeasures }

// BodyMeasures is the setting that keeps what an energy target is reckoned from.
const BodyMeasures = "body measures"

// SettingLabel is the key of what is said once a setting was changed: of its own
// where the program writes it, else of any.
func SettingLabel(name string) string {
	if key := "did.setting." + strings.ReplaceAll(name, " ", "-"); words.Current().Has(key) {
		return key
	}
	return "did.setting"
}

// Set keeps a setting of the workbook; an empty value removes it. Its label says in
// the cook's words which.
func Set(name, value string) Verb {
	return func(b *Book) (Change, error) {
		e := newEdits(b, "", SettingLabel(name))
		if old := b.settings[name]; value == "" {
			if old != nil {
				e.drop(old)
			}
			return e.done()
		}
		e.put(&Setting{Name: name, Value: value})
		return e.done()
	}
}

// All runs several verbs as one change under one label: all or none.
func All(label words.Phrase, recipe ID, verbs ...Verb) Verb {
	return func(b *Book) (Change, error) {
		out := Change{Label: label, Recipe: recipe}
		for _, v := range verbs {
			c, err := v(b)
			if err != nil {
				return Change{}, err
			}
			step := c
			step.Correction = true // whether it alters what was served is asked of the whole
			if b, err = b.With(step); err != nil {
				return Change{}, err
			}
			out.Edits = append(out.Edits, c.Edits...)
			out.Final = out.Final || c.Final
			out.Correction = out.Correction || c.Correction
		}
		out.Edits = merged(out.Edits)
		return out, nil
	}
}

// merged gives each entity one edit, from what it was at first to what it is at
// last, where it was first touched; one that comes back to what it was has none.
func merged(edits []Edit) []Edit {
	type place struct {
		kind Kind
		key  string
	}
	at := map[place]int{}
	var out []Edit
	for _, e := range edits {
		x := e.entityOf()
		if x == nil {
			continue
		}
		p := place{x.Kind(), x.Key()}
		if i, ok := at[p]; ok {
			out[i].After = e.After
			continue
		}
		at[p] = len(out)
		out = append(out, e)
	}
	return slices.DeleteFunc(out, func(e Edit) bool { return Same(e.Before, e.After) })
}

// RecordAllergens writes down which allergens a food in the workbook holds, as
// its pack says. It makes what was unknown known.
func RecordAllergens(ref food.Ref, has food.Allergens) Verb {
	return func(b *Book) (Change, error) {
		f := b.foods[ref]
		if f == nil {
			return Change{}, gone("error.food-gone")
		}
		e := newEdits(b, "", "did.allergens", f.Name)
		c := *f
		has.Recorded = true
		c.Allergens = has
		e.put(&c)
		return e.done()
	}
}
