package demo

import (
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// readFoods reads the demo kitchen's own foods: a "food:" line starts one,
// "code", "note", "group", "density" and "allergens" describe it, and each
// nutrient key gives what 100 g holds. A nutrient that is not there is unknown.
func readFoods(name, text string) ([]*food.Food, error) {
	var out []*food.Food
	for i, s := range strings.Split(text, "\n") {
		s = strings.TrimSpace(s)
		if s == "" || strings.HasPrefix(s, "#") {
			continue
		}
		key, value, _ := strings.Cut(s, ":")
		value = strings.TrimSpace(value)
		if key == "food" {
			out = append(out, &food.Food{Name: value, Ref: food.Ref{Source: "own"}, Edible: 1})
			continue
		}
		if len(out) == 0 {
			return nil, problem.At(place(name, i+1), fault("%q stands under no food", s))
		}
		if err := setFood(out[len(out)-1], key, value); err != nil {
			return nil, problem.At(place(name, i+1), err)
		}
	}
	return out, nil
}

func setFood(f *food.Food, key, value string) error {
	switch key {
	case "code":
		f.Code = value
	case "note":
		f.Note = value
	case "group":
		f.Group = value
	case "density":
		v, err := number(value)
		f.Density = v
		return err
	case "allergens":
		f.Allergens.Recorded = true
		for _, k := range strings.Split(value, ",") {
			bit, ok := food.AllergenByKey(strings.TrimSpace(k))
			if !ok {
				return fault("there is no allergen %q", k)
			}
			f.Allergens.Contains |= bit
		}
	default:
		n, ok := food.ByKey(key)
		if !ok {
			return fault("no nutrient is called %q", key)
		}
		if value == "0" {
			f.Per100.Set(n, 0)
			return nil
		}
		v, err := number(value)
		f.Per100.Set(n, v)
		return err
	}
	return nil
}
