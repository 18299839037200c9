package sheets

import (
	"strings"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Saying is one sentence of a plan; Key stays while its numbers change.
type Saying struct{ Key, Text string }

// ChangedSaying is a sentence with what stood in its place before.
type ChangedSaying struct {
	Text    string
	Before  string // "" where it stood nowhere
	Changed bool
}

// ChangesOf marks what a change of the form did to the sentences; nothing is
// marked where none stood before.
func ChangesOf(was, now []Saying) []ChangedSaying {
	old := map[string][]string{}
	for _, s := range was {
		old[s.Key] = append(old[s.Key], s.Text)
	}
	out := make([]ChangedSaying, len(now))
	for i, s := range now {
		out[i].Text = s.Text
		if before := old[s.Key]; len(before) > 0 {
			old[s.Key] = before[1:]
			if out[i].Changed = before[0] != s.Text; out[i].Changed {
				out[i].Before = before[0]
			}
			continue
		}
		out[i].Changed = len(was) > 0
	}
	return out
}

// says is what there is to say before anyone cooks.
func (r *planReader) says(t *recipes.Tasting, d *sensory.Design) {
	say := func(p words.Phrase) { r.p.Says = append(r.p.Says, Saying{sayingKey(p.Key), p.String()}) }
	say(words.P("plan.why." + t.Test))
	if r.out != "" {
		say(words.P("plan.left-out", r.out))
	}
	if t.Test == recipes.TestHome {
		return
	}
	scatter := outcome.Scatter(r.b, t.Recipe)
	for _, p := range d.Explain(t.Limit, scatter) { // the limit of a test with right answers is a share
		say(p)
	}
	if t.Test == recipes.TestLiking {
		for _, p := range d.LikingPlan(scatter).Explain(t.Limit) {
			r.p.Reach = append(r.p.Reach, p.String())
		}
	}
	if most := r.mostPerSitting(t); len(d.Trays[0].Samples) > most {
		say(words.P("plan.too-many", len(d.Trays[0].Samples), most))
	}
	if !r.repeated() && t.Test == recipes.TestLiking {
		say(words.P("plan.repeat"))
	}
	for _, p := range handsAgainst(t) {
		say(p)
	}
}

// sayingKey is that of what a sentence is about: one that says the same thing with
// another outcome ("-met", "-not") stands in its place.
func sayingKey(key string) string {
	for _, end := range []string{"-met", "-not", "-never", "-nearly"} {
		key = strings.TrimSuffix(key, end)
	}
	for _, same := range []string{"plan.why.", "sensory.balance.", "sensory.short."} {
		if strings.HasPrefix(key, same) {
			return same
		}
	}
	return key
}

func (r *planReader) mostPerSitting(t *recipes.Tasting) int {
	return MostPerSitting(r.b, r.b.Recipe(t.Recipe))
}

// MostPerSitting is how many samples of a recipe one sitting takes: 3 when rich,
// fried or alcoholic, 4 for a main dish, else 6 (DESIGN section 6; common
// practice).
func MostPerSitting(b *recipes.Book, recipe *recipes.Recipe) int {
	d := b.Draft(recipe, nil)
	rich, weight := 0.0, 0.0
	for i := range d.Lines {
		g, ok := d.Lines[i].Grams()
		f := b.Food(d.Lines[i].Line.Food)
		if !ok || f == nil {
			continue
		}
		weight += g
		if v, ok := f.Per100.Get(food.Fat); ok {
			rich += g * v / 100
		}
		if v, ok := f.Per100.Get(food.Alcohol); ok && v > 3 && g > 20 {
			return 3
		}
	}
	switch {
	case weight > 0 && rich/weight > 0.15, strings.Contains(d.Dish.Method, "fried"):
		return 3
	case weight > 0 && recipe.Servings > 0 && weight/recipe.Servings > 200:
		return 4
	}
	return 6
}

// repeated tells whether one version is served from two pots.
func (r *planReader) repeated() bool {
	if r.f.Twice {
		return true
	}
	for _, pots := range r.f.Versions {
		if pots > 1 {
			return true
		}
	}
	return false
}
