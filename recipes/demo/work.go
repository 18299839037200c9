package demo

import (
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
)

// worker turns a plan's blocks into verbs on one recipe.
type worker struct {
	*kitchen
	name   string
	recipe *recipes.Recipe
	swaps  map[string]recipes.ID // by the plan's key
	made   map[string]recipes.ID // versions by letter
}

func (k *kitchen) work(name string, r *recipes.Recipe, p *plan) error {
	w := &worker{kitchen: k, name: name, recipe: r, swaps: map[string]recipes.ID{}, made: map[string]recipes.ID{}}
	k.versions[r.Title] = dishID{recipe: r.ID}
	for i := range p.blocks {
		b := &p.blocks[i]
		var err error
		switch b.kind {
		case "swap":
			err = w.swap(b)
		case "idea":
			err = w.idea(b)
		case "version":
			err = w.version(b)
		case "food":
			err = w.choose(b)
		case "test":
			err = w.test(b)
		}
		if err != nil {
			return problem.At(place(name, b.at), err)
		}
	}
	return nil
}

// choose gives a line the food the cook meant, as she would on the Versions page.
func (w *worker) choose(b *block) error {
	l, err := w.line(b.key)
	if err != nil {
		return err
	}
	for _, f := range w.foods.Foods() {
		if f.Name == b.text {
			c := *l
			c.Food, c.State, c.Settled = f.Ref, f.State, true
			w.verbs = append(w.verbs, recipes.SetLine(w.recipe.ID, &c, []*food.Food{f}))
			return nil
		}
	}
	return fault("no food is called %q", b.text)
}

// idea takes the catalogue's own swap for a line.
func (w *worker) idea(b *block) error {
	entry, phrase, ok := strings.Cut(b.text, " for ")
	if !ok {
		return fault("an idea reads: entry for ingredient")
	}
	l, err := w.line(phrase)
	if err != nil {
		return err
	}
	for _, x := range w.ideas.For(w.recipe, l, w.foods.Get) {
		if x.Entry.ID == entry {
			s := x.SwapFor(w.newID(), w.recipe.ID)
			w.swaps[b.key] = s.ID
			w.verbs = append(w.verbs, recipes.AddSwap(s, x.Foods, ""))
			return nil
		}
	}
	return fault("the catalogue does not offer %q for %q", entry, l.Text)
}

// swap makes a swap as its block spells it out.
func (w *worker) swap(b *block) error {
	s := &recipes.Swap{ID: w.newID(), Recipe: w.recipe.ID, Name: b.text}
	var pins []*food.Food
	for i := range b.items {
		it := &b.items[i]
		op, err := w.op(s, it)
		if err != nil {
			return problem.At(it.word, err)
		}
		if op != nil {
			s.Ops = append(s.Ops, *op)
			pins = append(pins, w.pins(op.Lines)...)
		}
	}
	w.swaps[b.key] = s.ID
	w.verbs = append(w.verbs, recipes.AddSwap(s, pins, ""))
	return nil
}

// op makes one operation, or sets a text of the swap and returns nil.
func (w *worker) op(s *recipes.Swap, it *item) (*recipes.Op, error) {
	switch it.word {
	case "like":
		e := w.ideas.Entry(it.text)
		if e == nil {
			return nil, fault("there is no idea %q", it.text)
		}
		s.Idea, s.Function, s.WorksIn, s.FailsWhen = e.ID, e.Function, e.WorksIn, e.FailsWhen
	case "function":
		s.Function = it.text
	case "works in":
		s.WorksIn = it.text
	case "fails when":
		s.FailsWhen = it.text
	case "ladder":
		name, strength, _ := strings.Cut(it.text, " ")
		v, err := number(strength)
		s.Ladder, s.Strength = name, v
		return nil, err
	case "step":
		step, err := w.step(it.arg)
		return &recipes.Op{Kind: recipes.OpStepReplace, Step: step, Text: it.text}, err
	default:
		return w.lineOp(it)
	}
	return nil, nil
}

// lineOp makes an operation on an ingredient.
func (w *worker) lineOp(it *item) (*recipes.Op, error) {
	l, err := w.line(it.text)
	if err != nil {
		return nil, err
	}
	switch it.word {
	case "exchange":
		share, err := number(it.arg)
		return &recipes.Op{Kind: recipes.OpExchange, Line: l.ID, Share: share, Lines: w.newLines(l, it.lines)}, err
	case "amount":
		factor, err := number(it.arg)
		return &recipes.Op{Kind: recipes.OpMultiply, Line: l.ID, Factor: factor}, err
	case "leave out":
		return &recipes.Op{Kind: recipes.OpRemove, Line: l.ID}, nil
	}
	return nil, fault("%q is no word of a swap", it.word)
}

// newLines reads what takes a line's place, settled as the original's are.
func (w *worker) newLines(old *recipes.Line, texts []string) []*recipes.Line {
	opt := w.options(w.name)
	opt.Section = old.Section
	var out []*recipes.Line
	for _, t := range texts {
		l := reading.ReadLine(t, opt)
		if written, _, noted := strings.Cut(t, " ["); noted {
			l.Text = written // the note has chosen the food; the page need not show it
		}
		l.Settled = true
		out = append(out, l)
	}
	return out
}

// version adds a version and everything its block says of it.
func (w *worker) version(b *block) error {
	v, r := w.newID(), w.recipe.ID
	w.made[b.key] = v
	w.versions[w.recipe.Title+", "+b.key] = dishID{recipe: r, version: v}
	w.verbs = append(w.verbs, recipes.AddVersion(r, v, b.text, ""))
	for i := range b.items {
		it := &b.items[i]
		switch it.word {
		case "on":
			for _, key := range strings.Split(it.text, ",") {
				id, ok := w.swaps[strings.TrimSpace(key)]
				if !ok {
					return fault("version %s: there is no swap %q", b.key, key)
				}
				w.verbs = append(w.verbs, recipes.Tick(r, v, id, true))
			}
		case "step":
			step, err := w.step(it.arg)
			if err != nil {
				return err
			}
			w.verbs = append(w.verbs, recipes.JoinStep(r, v, step, it.text))
		case "servings":
			n, err := number(it.text)
			if err != nil {
				return err
			}
			w.verbs = append(w.verbs, recipes.ServeVersion(r, v, n))
		case "note":
			w.verbs = append(w.verbs, recipes.NoteVersion(r, v, it.text))
		default:
			return fault("%q is no word of a version", it.word)
		}
	}
	return nil
}

// line finds the one line whose text holds the phrase.
func (w *worker) line(phrase string) (*recipes.Line, error) {
	var found *recipes.Line
	for _, l := range w.recipe.Lines {
		if strings.Contains(l.Text, phrase) {
			if found != nil {
				return nil, fault("%q stands in more than one ingredient", phrase)
			}
			found = l
		}
	}
	if found == nil {
		return nil, fault("no ingredient has %q", phrase)
	}
	return found, nil
}

// step finds a step by its number from 1.
func (w *worker) step(number string) (recipes.ID, error) {
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(w.recipe.Steps) {
		return "", fault("there is no step %q", number)
	}
	return w.recipe.Steps[n-1].ID, nil
}
