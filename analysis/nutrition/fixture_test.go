package nutrition

import (
	"fmt"
	"math/rand/v2"

	"parewell/recipes"
	"parewell/recipes/food"
)

// larder is a set of made-up foods to exercise the arithmetic; the numbers
// mean nothing outside these tests.
type larder struct {
	r     *rand.Rand
	foods map[food.Ref]*food.Food
	list  []*food.Food
	next  int
}

func newLarder(seed uint64, foods int, known float64) *larder {
	l := &larder{r: rand.New(rand.NewPCG(seed, 1)), foods: map[food.Ref]*food.Food{}}
	for i := range foods {
		f := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: fmt.Sprint(i)}, Name: fmt.Sprint("food ", i)}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			if l.r.Float64() < known {
				f.Per100.Set(n, l.r.Float64()*60)
			}
		}
		l.put(f)
	}
	return l
}

func (l *larder) put(f *food.Food) *food.Food {
	l.foods[f.Ref] = f
	l.list = append(l.list, f)
	return f
}

func (l *larder) get(ref food.Ref) *food.Food { return l.foods[ref] }

func (l *larder) id() recipes.ID {
	l.next++
	return recipes.ID(fmt.Sprintf("id%014d", l.next))
}

func (l *larder) line(f *food.Food, grams float64) *recipes.Line {
	return &recipes.Line{ID: l.id(), Text: f.Name, Name: f.Name, Grams: grams, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
}

func (l *larder) unweighed(f *food.Food) *recipes.Line {
	x := l.line(f, 0)
	x.GramsFrom = recipes.GramsUnknown
	return x
}

func dish(servings float64, lines ...*recipes.Line) *recipes.Recipe {
	return &recipes.Recipe{ID: "recipe", Title: "dish", Servings: servings, Lines: lines}
}

func (l *larder) swap(ops ...recipes.Op) *recipes.Swap {
	id := l.id()
	s := &recipes.Swap{ID: id, Recipe: "recipe", Name: string(id), Ops: ops, Order: float64(l.next)}
	for i := range s.Ops {
		for j, x := range s.Ops[i].Lines {
			c := *x
			c.ID = recipes.ID(fmt.Sprintf("%s.%d.%d", id, i, j))
			s.Ops[i].Lines[j] = &c
		}
	}
	return s
}

func (l *larder) of(r *recipes.Recipe, v *recipes.Version, on ...*recipes.Swap) *Account {
	return Of(recipes.Compose(r, v, on), l.get)
}

// plain is a food that holds the given nutrients and knows all others as 0.
func (l *larder) plain(name string, has map[food.Nutrient]float64, unknown ...food.Nutrient) *food.Food {
	f := &food.Food{Ref: food.Ref{Source: "test", Release: "2", Code: name}, Name: name}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		f.Per100.Set(n, has[n])
	}
	for _, n := range unknown {
		f.Per100.Forget(n)
	}
	return l.put(f)
}
