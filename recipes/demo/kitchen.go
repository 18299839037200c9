package demo

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
)

// testWords say where each figure of a test goes.
var testWords = map[string]func(*recipes.Batch) *float64{
	"full":     func(t *recipes.Batch) *float64 { return &t.FullDish },
	"dish":     func(t *recipes.Batch) *float64 { return &t.Dish },
	"left":     func(t *recipes.Batch) *float64 { return &t.LeftOver },
	"servings": func(t *recipes.Batch) *float64 { return &t.Servings },
	"celsius":  func(t *recipes.Batch) *float64 { return &t.Celsius },
	"minutes":  func(t *recipes.Batch) *float64 { return &t.Minutes },
}

// testNotes say where each text of a test goes.
var testNotes = map[string]func(*recipes.Batch) *string{
	"cook":  func(t *recipes.Batch) *string { return &t.Cook },
	"note":  func(t *recipes.Batch) *string { return &t.Notes },
	"well":  func(t *recipes.Batch) *string { return &t.WentWell },
	"bad":   func(t *recipes.Batch) *string { return &t.WentBad },
	"next":  func(t *recipes.Batch) *string { return &t.NextTime },
	"aside": func(t *recipes.Batch) *string { return &t.SetAside },
}

// test adds one cooking of a version, or of the original.
func (w *worker) test(b *block) error {
	t := &recipes.Batch{ID: w.newID(), Recipe: w.recipe.ID, Date: b.text}
	if b.key != "original" {
		v, ok := w.made[b.key]
		if !ok {
			return fault("test %s: there is no such version", b.key)
		}
		t.Version = v
	}
	for i := range b.items {
		it := &b.items[i]
		if at, ok := testNotes[it.word]; ok {
			*at(t) = it.text
			continue
		}
		at, ok := testWords[it.word]
		if !ok {
			return fault("%q is no word of a test", it.word)
		}
		v, err := number(it.text)
		if err != nil {
			return err
		}
		*at(t) = v
	}
	w.verbs = append(w.verbs, recipes.AddTest(t))
	return nil
}

// meals reads the meals and days of the kitchen.
func (k *kitchen) meals(name string) error {
	text, err := k.text(name)
	if err != nil {
		return err
	}
	p, err := readPlan(name, text)
	if err != nil {
		return err
	}
	made := map[string]recipes.ID{}
	for i := range p.blocks {
		b := &p.blocks[i]
		id := k.newID()
		made[b.key] = id
		if b.kind == "day" {
			err = k.day(b, id, made)
		} else {
			err = k.meal(b, id)
		}
		if err != nil {
			return problem.At(place(name, b.at), err)
		}
	}
	return nil
}

// meal adds a meal with its dishes: "dish 1: title, letter", a letter left out
// for the original.
func (k *kitchen) meal(b *block, id recipes.ID) error {
	k.verbs = append(k.verbs, recipes.AddMeal(id, b.text))
	for i := range b.items {
		it := &b.items[i]
		n, err := number(it.arg)
		if err != nil {
			return err
		}
		d, ok := k.versions[it.text]
		if !ok {
			return fault("there is no dish %q", it.text)
		}
		k.verbs = append(k.verbs, recipes.AddDish(id, d.recipe, d.version, n))
	}
	return nil
}

// day adds a day with its meals.
func (k *kitchen) day(b *block, id recipes.ID, made map[string]recipes.ID) error {
	k.verbs = append(k.verbs, recipes.AddDay(id, b.text))
	for i := range b.items {
		for _, key := range strings.Split(b.items[i].text, ",") {
			meal, ok := made[strings.TrimSpace(key)]
			if !ok {
				return fault("there is no meal %q", key)
			}
			k.verbs = append(k.verbs, recipes.PutMeal(id, meal))
		}
	}
	return nil
}
