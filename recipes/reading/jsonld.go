package reading

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes/measure"
	"parewell/recipes/problem"
)

// maxNodes bounds how much of a document's tree is searched for recipes.
const maxNodes = 200000

// ReadJSONLD reads every schema.org Recipe in a JSON-LD document: bare, in an
// array, in @graph or nested anywhere else. It is an error when there is none
// with ingredients.
func ReadJSONLD(data []byte, opt Options) ([]*Draft, error) {
	var root any
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	if err := dec.Decode(&root); err != nil {
		return nil, &problem.Error{Where: jsonPlace(opt.Where, data, err), What: "the JSON is broken", Hint: "save the page again or paste the recipe as text", Err: err}
	}
	nodes := 0
	var found []map[string]any
	findRecipes(root, &nodes, &found)
	return draftsOf(found, opt)
}

// jsonPlace names the line of a JSON fault.
func jsonPlace(where string, data []byte, err error) string {
	at := int64(-1)
	if e, ok := err.(*json.SyntaxError); ok {
		at = e.Offset
	}
	if at < 0 || at > int64(len(data)) {
		return where
	}
	return whereLine(where, 1+bytes.Count(data[:at], []byte("\n")))
}

// draftsOf reads the recipes found; it is an error when none has ingredients.
func draftsOf(found []map[string]any, opt Options) ([]*Draft, error) {
	var out []*Draft
	for _, m := range found {
		if d := readNode(m, opt); len(d.Lines) > 0 {
			d.settle(opt)
			out = append(out, d)
		}
	}
	if len(out) == 0 {
		return nil, problem.New(opt.Where, "no recipe with ingredients is described in this file", "copy the recipe's text from the page and paste it")
	}
	return out, nil
}

// findRecipes walks the tree and gathers the nodes of type Recipe.
func findRecipes(v any, nodes *int, found *[]map[string]any) {
	if *nodes++; *nodes > maxNodes {
		return
	}
	switch v := v.(type) {
	case []any:
		for _, e := range v {
			findRecipes(e, nodes, found)
		}
	case map[string]any:
		if isType(v, "Recipe") {
			*found = append(*found, v)
			return
		}
		for _, key := range sortedKeys(v) {
			findRecipes(v[key], nodes, found)
		}
	}
}

func sortedKeys(m map[string]any) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// isType tells whether a node's @type is, ends in or contains name.
func isType(m map[string]any, name string) bool {
	for _, t := range texts(m["@type"]) {
		if t == name || strings.HasSuffix(t, "/"+name) || strings.HasSuffix(t, ":"+name) {
			return true
		}
	}
	return false
}

// texts returns the strings of a value: one, a list, or the text of objects.
func texts(v any) []string {
	switch v := v.(type) {
	case string:
		return []string{v}
	case json.Number:
		return []string{v.String()}
	case []any:
		var out []string
		for _, e := range v {
			out = append(out, texts(e)...)
		}
		return out
	case map[string]any:
		for _, key := range []string{"text", "@value", "name", "@id"} {
			if s := texts(v[key]); len(s) > 0 {
				return s
			}
		}
	}
	return nil
}

func firstText(v any) string {
	if s := texts(v); len(s) > 0 {
		return plainText(s[0])
	}
	return ""
}

// readNode turns one Recipe node into a draft.
func readNode(m map[string]any, opt Options) *Draft {
	d := &Draft{Title: firstText(m["name"]), Headnote: firstText(m["description"]), Category: firstText(m["recipeCategory"])}
	if d.Title == "" {
		d.Title = firstText(m["headline"])
	}
	d.Source = firstText(m["url"])
	readYield(d, m["recipeYield"])
	if d.Servings == 0 {
		readYield(d, m["yield"])
	}
	lines := texts(m["recipeIngredient"])
	if len(lines) == 0 {
		lines = texts(m["ingredients"])
	}
	section := ""
	for _, raw := range lines {
		for _, one := range strings.Split(plainText(raw), "\n") {
			one = clean(one)
			if one == "" {
				continue
			}
			if name, ok := partHeading(one, false); ok && !startsAmount(one) && strings.HasSuffix(strings.TrimSpace(one), ":") {
				section = name
				continue
			}
			lineOpt := opt
			lineOpt.Section = section
			d.Lines = append(d.Lines, ReadLines(one, lineOpt)...)
		}
	}
	d.Steps = readSteps(m["recipeInstructions"], 0)
	return d
}

// readYield takes the number of servings from a string, number or list; in a
// list the entry with words is better than the bare number beside it.
func readYield(d *Draft, v any) {
	list := texts(v)
	if m, ok := v.(map[string]any); ok && len(texts(m["value"])) > 0 { // a QuantitativeValue
		list = []string{strings.TrimSpace(texts(m["value"])[0] + " " + firstText(m["unitText"]))}
	}
	for _, s := range list {
		s = plainText(s)
		if n, err := strconv.ParseFloat(s, 64); err == nil && n > 0 {
			if d.Servings == 0 {
				d.takeServings(measure.Number{Low: n}, "", "serves", s)
			}
			continue
		}
		if !d.readServings(s) {
			d.readServings("Makes " + s)
		}
	}
}

// readSteps flattens instructions: a text, texts, HowToStep, HowToSection.
func readSteps(v any, depth int) []string {
	if depth > 6 {
		return nil
	}
	switch v := v.(type) {
	case string:
		return stepsOfText(plainText(v))
	case []any:
		var out []string
		for _, e := range v {
			out = append(out, readSteps(e, depth+1)...)
		}
		return out
	case map[string]any:
		for _, key := range []string{"itemListElement", "steps"} {
			if list, ok := v[key]; ok {
				steps := readSteps(list, depth+1)
				if name := firstText(v["name"]); name != "" && isType(v, "HowToSection") && len(steps) > 0 {
					steps[0] = name + ": " + steps[0]
				}
				return steps
			}
		}
		if s := texts(v["text"]); len(s) > 0 {
			return stepsOfText(plainText(s[0]))
		}
		if s := firstText(v["name"]); s != "" {
			return []string{s}
		}
	}
	return nil
}

// stepsOfText parts a text into steps at its lines.
func stepsOfText(s string) []string {
	d := &Draft{}
	p := &textReader{draft: d}
	for _, r := range rowsOf(s) {
		if h, _ := readHeading(r.raw); h == methodHead {
			continue
		}
		r.blank = true
		p.step(r)
	}
	return d.Steps
}
