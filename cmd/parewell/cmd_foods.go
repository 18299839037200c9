package main

import (
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var foodsFlags = []flagSpec{{"workbook", true}, {"json", false}}

// foodsLimit is how many foods a search lists.
const foodsLimit = 20

// foodReport is one food in the JSON of foods find. Values are per 100 g of the
// edible part; one that is not known is null.
type foodReport struct {
	Name     string              `json:"name"`
	Source   string              `json:"source"`
	Release  string              `json:"release"`
	Code     string              `json:"code"`
	Matched  string              `json:"matched,omitempty"` // the other name that matched
	Differs  string              `json:"differs,omitempty"` // how a neighbour differs from what was asked
	Per100   map[string]*float64 `json:"per_100g"`
	Measures []measureReport     `json:"measures"`
}

type measureReport struct {
	Measure string  `json:"measure"`
	Grams   float64 `json:"grams"`
}

// runFoods finds foods by words of their names, or imports tables of them.
func runFoods(c *call) (int, error) {
	if len(c.args) == 0 {
		return exitBad, problem.New(c.name, words.Say("cmd.foods.what"), words.Say("cmd.see-help-of", c.name))
	}
	switch c.args[0] {
	case "find":
	case "import":
		return runFoodsImport(c, c.args[1:])
	default:
		return exitBad, problem.New(c.name+" "+c.args[0], words.Say("cmd.no-command"), hintNearest(c.args[0], []string{"find", "import"}))
	}
	g, err := parse(c.args[1:], foodsFlags)
	if err != nil {
		return exitBad, err
	}
	query := strings.Join(g.operands, " ")
	if strings.TrimSpace(query) == "" {
		return exitBad, problem.New(c.name+" find", words.Say("cmd.foods.words"), words.Say("cmd.see-help-of", c.name))
	}
	table, err := tableOf(g)
	if err != nil {
		return exitBad, err
	}
	hits := table.Search(query+" ", foodsLimit) // the blank says that the last word is whole
	if g.has("json") {
		return exitWell, writeJSON(c.out, map[string]any{"foods": foodReports(hits)})
	}
	return exitWell, writeFoods(c, query, hits)
}

// tableOf is the foods at hand: those of --workbook too, when it is given.
func tableOf(g *given) (*food.Table, error) {
	if !g.has("workbook") {
		return foodTable(nil)
	}
	var table *food.Table
	err := withWorkbook(g.flags["workbook"], workbook.Options{ReadOnly: true}, func(f *workbook.File) (err error) {
		if table, err = foodTable(f.Book()); err == nil {
			table, err = withImported(f, table)
		}
		return err
	})
	return table, err
}

func foodReports(hits []food.Hit) []foodReport {
	out := make([]foodReport, 0, len(hits))
	for _, h := range hits {
		r := foodReport{
			Name: h.Food.Name, Source: h.Food.Source, Release: h.Food.Release, Code: h.Food.Code,
			Matched: h.Alias, Differs: h.Differs, Per100: map[string]*float64{}, Measures: []measureReport{},
		}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			r.Per100[n.Key()] = nil
			if v, ok := h.Food.Per100.Get(n); ok {
				r.Per100[n.Key()] = &v
			}
		}
		for _, m := range h.Food.Measures {
			r.Measures = append(r.Measures, measureReport{m.String(), m.Grams})
		}
		out = append(out, r)
	}
	return out
}

// foodColumns are the nutrients of the list for people; --json has them all.
var foodColumns = []food.Nutrient{food.EnergyKcal, food.Protein, food.Fat, food.SaturatedFat, food.Sugars, food.Fibre, food.Sodium}

func writeFoods(c *call, query string, hits []food.Hit) error {
	if len(hits) == 0 {
		_, err := c.out.Write([]byte(words.Say("cmd.foods.none", query) + "\n"))
		return err
	}
	t := &table{right: map[int]bool{}}
	head := []string{words.Say("cmd.foods.per-100"), ""}
	for i, n := range foodColumns {
		t.right[2+i] = true
		head = append(head, words.Say("nutrient."+n.Key())+" "+n.Unit())
	}
	t.row(head...)
	for _, h := range hits {
		t.row(foodRow(h)...)
	}
	return t.write(c.out)
}

func foodRow(h food.Hit) []string {
	name := h.Food.Name
	if h.Close {
		name = words.Say("cmd.foods.close", name, h.Alias)
	}
	row := []string{name, h.Food.Ref.String()}
	for _, n := range foodColumns {
		v, ok := h.Food.Per100.Get(n)
		if !ok {
			row = append(row, words.Unknown)
			continue
		}
		row = append(row, words.Number(v, words.Decimals(n.Unit())))
	}
	return row
}
