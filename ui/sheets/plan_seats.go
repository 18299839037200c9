package sheets

import (
	"strings"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// invited are those of the ticked who can sit down; why the others cannot is said.
func (r *planReader) invited(test string) (people []recipes.ID) {
	var out []string
	for _, p := range r.b.Panelists() {
		if !r.f.Tasters[p.ID] || p.Removed {
			continue
		}
		x := r.p.Safety.Taster(p)
		if !x.LeftOut(test) {
			people = append(people, p.ID)
			continue
		}
		out = append(out, leftOutWhy(p, r.p.Safety))
	}
	r.out = words.Join(out)
	return people
}

// leftOutWhy names a taster who is left out, with the reason in brackets.
func leftOutWhy(p *recipes.Panelist, s *tasting.Safety) string {
	x := s.Taster(p)
	switch {
	case p.Asked && p.Allergens&s.Allergens != 0:
		return words.Say("plan.left-out.allergen", p.Code, tasting.AllergenNames(p.Allergens&s.Allergens))
	case len(x.Out) > 0:
		return words.Say("plan.left-out.care", p.Code, tasting.CareNames(s.Care))
	}
	return words.Say("plan.left-out.eats", p.Code)
}

// seats designs the orders and codes for everybody who is ticked and can sit down.
func (r *planReader) seats(t *recipes.Tasting) {
	people := r.invited(t.Test)
	empty := int(r.number(PlanEmptyField, r.f.Empty, 0, 500))
	t.PerSitting = int(r.number(PlanPerField, r.f.PerSitting, 0, tasting.MostSamples))
	if len(people)+empty == 0 {
		r.p.Faults[PlanSeatsField] = words.Say("plan.nobody")
	}
	if len(r.p.Faults) > 0 {
		return
	}
	ids := make([]recipes.ID, len(r.p.Samples))
	for i, s := range r.p.Samples {
		ids[i] = s.ID
	}
	ask := sensory.Ask{Test: sensory.Test(t.Test), Samples: max(2, len(ids)), Panelists: len(people) + empty, PerSitting: t.PerSitting, Seed: t.Seed}
	if t.Test == recipes.TestHome {
		ask.Test, ask.PerSitting = sensory.Liking, 0
	}
	ask.OriginalAlways = ask.PerSitting > 0 && ask.PerSitting < ask.Samples && t.Test == recipes.TestLiking
	d, err := sensory.Plan(ask)
	if err != nil {
		r.p.Faults[PlanPerField] = err.Error()
		return
	}
	for i, s := range r.p.Samples {
		s.Code, s.Place = d.SampleCode(i), i+1
	}
	if len(ids) == 1 { // one dish taken home
		for i := range d.Trays {
			d.Trays[i].Samples, d.Trays[i].Codes = []int{0}, d.Codes[0][:1]
		}
	}
	t.Seats = d.Seats(ids, people)
	r.says(t, d)
}

// TasterAgainst says what stands against a taster in a plan, "" for nothing.
func (p *Plan) TasterAgainst(taster *recipes.Panelist) (text string, out bool) {
	x := p.Safety.Taster(taster)
	for _, ph := range x.Out {
		return ph.String(), true
	}
	if x.LeftOut(p.Tasting.Test) {
		return Capital(words.Say("error.tasting-eats")), true
	}
	var all []string
	for _, ph := range x.Ask {
		all = append(all, ph.String())
	}
	if n := len(x.Without); n > 0 && len(all) == 0 {
		all = append(all, words.Say("plan.without", n))
	}
	return strings.Join(all, "; "), false
}
