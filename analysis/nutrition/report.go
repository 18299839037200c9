package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Report is the stable JSON of compare (DESIGN section 10): the original first.
type Report struct {
	Versions []VersionReport `json:"versions"`
}

// VersionReport is one version's numbers. Weights are in grams; a weight or
// nutrient known nowhere is null.
type VersionReport struct {
	Title         string                     `json:"title"`
	Servings      float64                    `json:"servings"`
	ServingsFrom  recipes.ServingsFrom       `json:"servings_from"`
	ServingG      *float64                   `json:"serving_g"`
	CookedG       *float64                   `json:"cooked_g"`
	CookedFrom    CookedFrom                 `json:"cooked_from"`
	WeightAtLeast bool                       `json:"weight_at_least,omitempty"`
	Nutrients     map[string]*NutrientReport `json:"nutrients"`
	Lines         []LineReport               `json:"lines"`
	Change        map[string]ChangeReport    `json:"change,omitempty"`
}

// NutrientReport is one nutrient; at_least sits beside the three numbers.
type NutrientReport struct {
	Total      float64  `json:"total"`
	PerServing float64  `json:"per_serving"`
	Per100g    *float64 `json:"per_100g"`
	AtLeast    bool     `json:"at_least,omitempty"`
}

// LineReport is one ingredient: grams as written, energy for the whole recipe.
type LineReport struct {
	Text       string            `json:"text"`
	Food       string            `json:"food"`
	SourceCode string            `json:"source_code"`
	Grams      *float64          `json:"grams"`
	GramsFrom  recipes.GramsFrom `json:"grams_from"`
	Eaten      *float64          `json:"eaten_grams"`
	PartEaten  float64           `json:"part_eaten"`
	Energy     *float64          `json:"energy_kcal"`
	Status     recipes.Status    `json:"status"`
}

// ChangeReport is per serving, version less original: lighter is negative.
type ChangeReport struct {
	Amount  *float64 `json:"amount"`
	Percent *float64 `json:"percent"`
	Recipe  *float64 `json:"recipe"`
	Portion *float64 `json:"portion"`
	Bound   Bound    `json:"bound"`
}

// Titled is an account under the name it is reported by.
type Titled struct {
	Title   string
	From    recipes.ServingsFrom
	Account *Account
}

// NewReport reports accounts, the first of which is the original, and puts them
// on one basis of cooked weight.
func NewReport(all []Titled) Report {
	var r Report
	accounts := make([]*Account, len(all))
	for i := range all {
		accounts[i] = all[i].Account
	}
	CommonBasis(accounts)
	for i, t := range all {
		v := versionReport(t)
		if i > 0 {
			v.Change = map[string]ChangeReport{}
			for n := food.Nutrient(0); n < food.NutrientCount; n++ {
				v.Change[n.Key()] = changeReport(Compare(all[0].Account, t.Account, n))
			}
		}
		r.Versions = append(r.Versions, v)
	}
	return r
}

func versionReport(t Titled) VersionReport {
	a := t.Account
	v := VersionReport{
		Title: t.Title, Servings: a.Draft.Servings, ServingsFrom: t.From, CookedFrom: a.CookedBy,
		Nutrients: map[string]*NutrientReport{},
	}
	g, whole := a.CookedGrams()
	v.CookedG, v.ServingG, v.WeightAtLeast = number(g), number(g/a.Draft.Servings), !whole
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v.Nutrients[n.Key()] = a.nutrientReport(n)
	}
	for i := range a.Lines {
		if !a.Draft.Lines[i].Gone() {
			v.Lines = append(v.Lines, a.lineReport(i))
		}
	}
	return v
}

func (a *Account) nutrientReport(n food.Nutrient) *NutrientReport {
	total := a.Total(n)
	if total.Nowhere {
		return nil
	}
	r := &NutrientReport{Total: total.Amount, PerServing: a.PerServing(n).Amount, AtLeast: total.AtLeast}
	if per := a.Per100g(n); !per.Nowhere {
		r.Per100g = number(per.Amount)
	}
	return r
}

func (a *Account) lineReport(i int) LineReport {
	d, la := &a.Draft.Lines[i], &a.Lines[i]
	r := LineReport{
		Text: d.Line.Text, SourceCode: d.Line.Food.Code, GramsFrom: d.Line.GramsFrom,
		PartEaten: d.PartEaten, Status: d.Line.Status(),
	}
	if la.Food != nil {
		r.Food = la.Food.Name
	}
	if la.Weighed {
		r.Grams, r.Eaten = number(la.Grams), number(la.Eaten)
	}
	if e, ok := a.LineAmount(i, food.EnergyKcal); ok {
		r.Energy = number(e)
	}
	return r
}

func changeReport(c Change) ChangeReport {
	r := ChangeReport{Bound: c.Bound, Percent: number(c.Percent), Recipe: number(c.Recipe), Portion: number(c.Portion)}
	if c.Bound != NotSure {
		r.Amount = number(c.Amount)
	}
	return r
}

// number points at a figure, nil where there is none to give.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
