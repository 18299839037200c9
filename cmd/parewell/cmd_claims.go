package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/claims"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var claimsFlags = []flagSpec{{"recipe", true}, {"version", true}, {"dish", true}, {"kind", true}, {"cup", true}, {"json", false}}

// claimsReport is the JSON of claims: one object a version judged.
type claimsReport struct {
	Recipe  string          `json:"recipe"`
	Version string          `json:"version"` // letter, "" the original
	Dish    string          `json:"dish"`    // key of the dish category, "" none chosen
	Kind    string          `json:"kind"`
	Claims  []claims.Report `json:"claims"`
	Note    string          `json:"note"`
}

// runClaims judges which claim words the versions of a workbook's recipes may
// carry.
func runClaims(c *call) (int, error) {
	g, err := parse(c.args, claimsFlags)
	if err == nil {
		err = oneFile(c, g)
	}
	if err != nil {
		return exitBad, err
	}
	name := g.operands[0]
	b, err := readBook(name)
	if err != nil {
		return exitBad, err
	}
	chosen, err := chosenRecipes(name, b, g)
	if err != nil {
		return exitBad, err
	}
	reports := []claimsReport{}
	for _, r := range chosen {
		says, err := saidOf(g, r.Says)
		if err != nil {
			return exitBad, err
		}
		judged := *r
		judged.Says = says
		versions, err := judgedVersions(g, b, &judged)
		if err != nil {
			return exitBad, err
		}
		for _, v := range versions {
			reports = append(reports, claimsOf(b, &judged, v))
		}
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, map[string]any{"claims": reports})
	}
	return exitWell, writeClaims(c, reports)
}

// saidOf is what the recipe says of its dish, changed by the flags.
func saidOf(g *given, s recipes.Says) (recipes.Says, error) {
	if dish, ok := g.flags["dish"]; ok {
		if _, known := claims.CategoryByKey(dish); !known {
			return s, problem.New("--dish "+dish, words.Say("cmd.claims.dish"), words.Say("cmd.claims.dish.hint", strings.Join(dishKeys(), ", ")))
		}
		s.Dish = dish
	}
	if kind, ok := g.flags["kind"]; ok {
		if !slices.Contains([]string{string(claims.SingleFood), string(claims.MainDish), string(claims.Meal)}, kind) {
			return s, problem.New("--kind "+kind, words.Say("cmd.claims.kind"), words.Say("cmd.claims.kind.hint"))
		}
		s.Kind = kind
	}
	if cup, ok := g.flags["cup"]; ok {
		grams, err := strconv.ParseFloat(cup, 64)
		if err != nil || !(grams > 0) {
			return s, problem.New("--cup "+cup, words.Say("cmd.claims.cup"), words.Say("cmd.claims.cup.hint"))
		}
		s.CupG, s.CupGVer = grams, 0
	}
	return s, nil
}

func dishKeys() []string {
	var out []string
	for _, c := range claims.Categories() {
		out = append(out, c.Key)
	}
	return out
}

// judgedVersions are all versions of a recipe, or the one --version names.
func judgedVersions(g *given, b *recipes.Book, r *recipes.Recipe) ([]*recipes.Version, error) {
	all := b.Versions(r.ID)
	letter, asked := g.flags["version"]
	if !asked {
		return append([]*recipes.Version{nil}, all...), nil
	}
	for _, v := range all {
		if strings.EqualFold(v.Letter, letter) {
			return []*recipes.Version{v}, nil
		}
	}
	return nil, problem.New("--version "+letter, words.Say("cmd.claims.version", r.Title), "")
}

func claimsOf(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) claimsReport {
	rep := claimsReport{Recipe: r.Title, Dish: r.Says.Dish, Kind: r.Says.Kind, Note: words.Say("claims.page.care")}
	if rep.Kind == "" {
		rep.Kind = string(claims.SingleFood)
	}
	if v != nil {
		rep.Version = v.Letter
	}
	rep.Claims = claims.NewReports(claims.JudgeRecipe(b, r, v), r.Title)
	return rep
}

// writeClaims lists what may be said of each version, and what is open.
func writeClaims(c *call, reports []claimsReport) error {
	for _, r := range reports {
		name := r.Version
		if name == "" {
			name = words.Say("original")
		}
		if _, err := fmt.Fprintf(c.out, "%s, %s\n", r.Recipe, name); err != nil {
			return err
		}
		for _, verdict := range []claims.Verdict{claims.May, claims.CannotDecide} {
			for _, x := range r.Claims {
				if x.Verdict != verdict {
					continue
				}
				line := words.Say("cmd.claims.line", verdict.Phrase().String(), claims.Term(x.Term).Phrase().String(), x.Authority.Phrase().String(), x.Why)
				if _, err := fmt.Fprintln(c.out, "  "+line); err != nil {
					return err
				}
			}
		}
	}
	_, err := fmt.Fprintln(c.out, words.Say("claims.page.care"))
	return err
}
