package demo

import (
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
)

// sittings reads who tastes in the demo and what they said. Tasters and scores
// are invented, and the workbook says so.
//
//	pack fresh white breadcrumbs: wheat     allergens of a food, as its pack says
//	taster AB: 2026-02-01                   initials, and the day she agreed
//	  allergic: peanut
//	  avoids: mushrooms
//	tasting 2026-02-28: first evening
//	  at: 19:30
//	  seed: 21
//	  ask: Flavour, Texture                 beside how much they like it
//	  hands: M., R., J.                     who cooks, sets the codes, serves
//	  serve: original, A, B, B              twice is from two pots
//	  AB: 7/7/6 6/6/6 7/7/7 6/5/6 | 1       her scores by sample; which sample she took for the usual one
func (k *kitchen) sittings(name, recipe string) error {
	text, err := k.text(name)
	if err != nil {
		return err
	}
	p, err := readPlan(name, text)
	if err != nil {
		return err
	}
	t := &tableOf{kitchen: k, recipe: recipe, tasters: map[string]recipes.ID{}}
	for i := range p.blocks {
		b := &p.blocks[i]
		switch b.kind {
		case "pack":
			err = t.pack(b)
		case "taster":
			err = t.taster(b)
		case "tasting":
			err = t.tasting(b)
		default:
			err = fault("%q is no word of a table", b.kind)
		}
		if err != nil {
			return problem.At(place(name, b.at), err)
		}
	}
	return nil
}

// tableOf is the table that one recipe is tasted at.
type tableOf struct {
	*kitchen
	recipe  string
	tasters map[string]recipes.ID // by code
	order   []string
}

// pack writes down the allergens of a food.
func (t *tableOf) pack(b *block) error {
	a, err := allergens(b.text)
	if err != nil {
		return err
	}
	for _, f := range t.foods.Foods() {
		if f.Name == b.key {
			t.verbs = append(t.verbs, recipes.RecordAllergens(f.Ref, food.Allergens{Contains: a}))
			return nil
		}
	}
	return fault("no food is called %q", b.key)
}

// allergens reads a list of stable names; "none" is none.
func allergens(text string) (food.Allergen, error) {
	var out food.Allergen
	for _, s := range strings.Split(text, ",") {
		if s = strings.TrimSpace(s); s == "none" {
			continue
		}
		a, ok := food.AllergenByKey(s)
		if !ok {
			return 0, fault("no allergen is called %q", s)
		}
		out |= a
	}
	return out, nil
}

func (t *tableOf) taster(b *block) error {
	p := &recipes.Panelist{ID: t.newID(), Code: b.key, Asked: true, Careful: recipes.No, Consent: b.text}
	for i := range b.items {
		it := &b.items[i]
		switch it.word {
		case "allergic":
			a, err := allergens(it.text)
			if err != nil {
				return err
			}
			p.Allergens = a
		case "avoids":
			p.DoesNotEat = strings.Split(it.text, ", ")
		default:
			return fault("%q is no word of a taster", it.word)
		}
	}
	t.tasters[b.key], t.order = p.ID, append(t.order, b.key)
	t.verbs = append(t.verbs, tasting.PutTaster(p))
	return nil
}

// tasting plans, serves and closes one.
func (t *tableOf) tasting(b *block) error {
	s := &sitting{tableOf: t, b: b, x: &recipes.Tasting{
		ID: t.newID(), Date: b.key, Name: b.text, Test: recipes.TestLiking, Limit: 0.5, Portion: 60, Spare: 0.1, Celsius: 60, Holds: 15,
		Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}},
	}}
	for i := range b.items {
		if err := s.item(&b.items[i]); err != nil {
			return err
		}
	}
	return s.hold()
}

// sitting is a tasting being read.
type sitting struct {
	*tableOf
	b       *block
	x       *recipes.Tasting
	samples []*recipes.Sample
	rows    []*item
}

func (s *sitting) item(it *item) error {
	switch it.word {
	case "at":
		s.x.Time = it.text
	case "note":
		s.x.Note = it.text
	case "seed":
		seed, err := strconv.ParseUint(it.text, 10, 64)
		s.x.Seed = seed
		return err
	case "ask":
		for _, name := range strings.Split(it.text, ", ") {
			s.x.Attributes = append(s.x.Attributes, recipes.Attribute{Name: name, Kind: recipes.AskLiking})
		}
	case "hands":
		hands := strings.Split(it.text, ", ")
		if len(hands) != 3 {
			return fault("hands are three: who cooks, sets the codes, serves")
		}
		s.x.Cooks, s.x.Codes, s.x.Serves = hands[0], hands[1], hands[2]
	case "serve":
		return s.serve(it.text)
	default:
		if s.tasters[it.word] == "" {
			return fault("nobody is called %q", it.word)
		}
		s.rows = append(s.rows, it)
	}
	return nil
}

// serve lists the samples; a version named twice comes from two pots.
func (s *sitting) serve(list string) error {
	pots := map[recipes.ID]int{}
	for _, letter := range strings.Split(list, ", ") {
		name := s.recipe
		if letter != "original" {
			name += ", " + letter
		}
		d, ok := s.versions[name]
		if !ok {
			return fault("there is no version %q", name)
		}
		s.x.Recipe = d.recipe
		pots[d.version]++
		s.samples = append(s.samples, &recipes.Sample{
			ID: s.newID(), Version: d.version, Pot: pots[d.version], Cook: s.x.Cooks, Cooked: s.x.Date, Celsius: 60, Held: 10,
		})
	}
	return nil
}

// hold sets the trays, serves, takes the scores and closes.
func (s *sitting) hold() error {
	var people, ids []recipes.ID
	for _, r := range s.rows {
		people = append(people, s.tasters[r.word])
	}
	for _, x := range s.samples {
		ids = append(ids, x.ID)
	}
	d, err := sensory.Plan(sensory.Ask{Test: sensory.Liking, Samples: len(ids), Panelists: len(people), Seed: s.x.Seed})
	if err != nil {
		return err
	}
	for i, x := range s.samples {
		x.Code = d.SampleCode(i)
	}
	s.x.Seats = d.Seats(ids, people)
	var answers []tasting.Answer
	for i, r := range s.rows {
		a, err := s.answers(i+1, r)
		if err != nil {
			return err
		}
		answers = append(answers, a...)
	}
	s.verbs = append(s.verbs, tasting.Put(s.x, s.samples), tasting.Begin(s.x.ID), tasting.Record(s.x.ID, s.newID, answers...),
		tasting.Close(s.x.ID, s.x.Date+"T21:30:00Z", ""))
	return nil
}

// answers reads one taster's row.
func (s *sitting) answers(at int, r *item) ([]tasting.Answer, error) {
	scores, usual, _ := strings.Cut(r.text, "|")
	cups := strings.Fields(scores)
	if len(cups) != len(s.samples) {
		return nil, fault("%s scored %d samples of %d", r.word, len(cups), len(s.samples))
	}
	seat := s.x.Seat(at)
	codeOf := func(sample recipes.ID) int {
		i := slices.IndexFunc(seat.Cups, func(c recipes.Cup) bool { return c.Sample == sample })
		return seat.Cups[i].Code
	}
	var out []tasting.Answer
	for i, cup := range cups {
		a := tasting.Answer{Seat: at, Code: codeOf(s.samples[i].ID), Scores: map[string]float64{}, Source: recipes.FromPaper}
		for j, v := range strings.Split(cup, "/") {
			score, err := number(v)
			if err != nil || j >= len(s.x.Attributes) {
				return nil, fault("%s: %q are no scores", r.word, cup)
			}
			a.Scores[s.x.Attributes[j].Name] = score
		}
		out = append(out, a)
	}
	last := tasting.Answer{Seat: at, Scores: map[string]float64{recipes.AskUsual: 0}, Source: recipes.FromPaper}
	if usual = strings.TrimSpace(usual); usual != "" {
		i, err := strconv.Atoi(usual)
		if err != nil || i < 1 || i > len(s.samples) {
			return nil, fault("%s took %q for the usual one", r.word, usual)
		}
		last.Scores[recipes.AskUsual] = float64(codeOf(s.samples[i-1].ID))
	}
	return append(out, last), nil
}
