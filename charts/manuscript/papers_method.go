package manuscript

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// cooking is how one version is cooked: what the cook said, else what is noted,
// else what its method says plainly. 0 is what nobody knows.
type cooking struct {
	heat, minutes, rest float64
	oven, anyHeat       bool     // it is in an oven; nobody says what it is in
	said                []string // what was taken from the method, with the step
}

// cooked finds how a version is cooked.
func (m *maker) cooked(version recipes.ID) cooking {
	d := m.book.Draft(m.recipe, m.book.Version(m.recipe.ID, version))
	steps := reading.Oven(reading.StepTexts(d))
	method := d.Dish.Method
	if method == "" {
		method = steps.Method
	}
	c := cooking{heat: m.ask.Heat, minutes: m.minutes(version), rest: m.ask.Rest, oven: slices.Contains(inOven, method), anyHeat: method == ""}
	take := func(to *float64, s reading.Said, key string) {
		if *to == 0 && s.Step > 0 {
			*to = s.Value
			c.said = append(c.said, say("run.said."+key, words.Trim(s.Value, 1), s.Step))
		}
	}
	if c.oven {
		take(&c.heat, steps.Heat, "heat")
	}
	take(&c.minutes, steps.Minutes, "minutes")
	if !m.ask.NoRest {
		take(&c.rest, steps.Rest, "rest")
	}
	return c
}

// longestRest is the longest any dish of the tasting rests.
func (m *maker) longestRest() float64 {
	most := m.ask.Rest
	for _, p := range m.list.Pots {
		if p.Dish == "" && p.Cups > 0 {
			most = max(most, m.cooked(p.Version).rest)
		}
	}
	return most
}

// fromMethod says what was taken from the method, once for all pots of which it is
// the same.
func (m *maker) fromMethod() []string {
	var texts []string
	pots := map[string][]string{}
	n := 0
	for i := range m.list.Pots {
		p := &m.list.Pots[i]
		if p.Dish != "" || p.Cups == 0 {
			continue
		}
		n++
		text := words.Join(m.cooked(p.Version).said)
		if text == "" {
			continue
		}
		if pots[text] == nil {
			texts = append(texts, text)
		}
		pots[text] = append(pots[text], m.potName(p))
	}
	var out []string
	for _, text := range texts {
		if len(pots[text]) == n {
			out = append(out, say("run.said", text))
			continue
		}
		out = append(out, say("run.said.of", strings.Join(pots[text], ", "), text))
	}
	return out
}
