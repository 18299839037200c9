package exchange

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// Import reads every recipe of a file (text, JSON-LD or a saved page; name
// helps to tell which) and returns one verb that adds them all, or none, with
// the drafts as they were read, so that what is in doubt can be told.
func Import(data []byte, name string, opt reading.Options, newID func() recipes.ID) (recipes.Verb, []*reading.Draft, error) {
	drafts, err := reading.Read(data, name, opt)
	if err != nil {
		return nil, nil, err
	}
	verbs := make([]recipes.Verb, len(drafts))
	for i, d := range drafts {
		verbs[i] = recipes.AddRecipe(d.Recipe(newID), pins(d, opt.Foods))
	}
	return recipes.All(words.P("did.import", len(drafts)), "", verbs...), drafts, nil
}

// pins returns the foods a draft's lines name.
func pins(d *reading.Draft, foods reading.Foods) []*food.Food {
	var out []*food.Food
	for _, l := range d.Lines {
		if l.Food.Zero() || foods == nil {
			continue
		}
		if f := foods.Get(l.Food); f != nil {
			out = append(out, f)
		}
	}
	return out
}
