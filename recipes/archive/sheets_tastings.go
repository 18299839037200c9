package archive

import (
	"cmp"
	"maps"
	"slices"
	"strconv"

	"parewell/recipes"
)

var tastersSheet = &sheet{
	"tasters.csv",
	[]string{
		"taster_id", "taster", "allergens_asked", "allergens", "does_not_eat", "careful", "consent", "child", "taster_aside", "removed", "note",
	},
	func(d *data, r *rows) {
		for _, p := range d.Panelists() {
			r.add(text(p.ID), text(p.Code), yes(p.Asked), list(p.Allergens.Keys()), list(p.DoesNotEat), text(p.Careful), text(p.Consent),
				yes(p.Child), pairs(p.Aside, same), yes(p.Removed), text(p.Note))
		}
	},
}

var tastingsSheet = &sheet{
	"tastings.csv",
	[]string{
		"tasting_id", "tasting", "recipe_id", "recipe", "edition", "date", "time", "tasting_test", "tasting_state", "asked", "limit", "seed", "per_sitting",
		"portion_g", "holds_minutes", "celsius", "cooks", "sets_codes", "serves", "closed", "ended_early", "late", "note",
	},
	func(d *data, r *rows) {
		for _, t := range d.Tastings() {
			var asked, late []string
			for _, a := range t.Attributes {
				asked = append(asked, a.Name+" ("+string(a.Kind)+")")
			}
			for _, l := range t.Late {
				late = append(late, l.At+" "+l.What)
			}
			r.add(text(t.ID), text(t.Name), text(t.Recipe), text(d.title(t.Recipe)), whole(t.Edition), text(t.Date), text(t.Time), text(t.Test), text(t.State),
				list(asked), number(t.Limit), seed(t), given(t.PerSitting), number(t.Portion), number(t.Holds), number(t.Celsius),
				text(t.Cooks), text(t.Codes), text(t.Serves), text(t.Closed), text(t.Early), list(late), text(t.Note))
		}
	},
}

// seed is what codes and orders are drawn from; nothing while that is sealed.
func seed(t *recipes.Tasting) string {
	if shut(t) {
		return ""
	}
	return strconv.FormatUint(t.Seed, 10)
}

var seatsSheet = &sheet{
	"seats.csv",
	[]string{"tasting_id", "seat", "taster_id", "taster", "position", "code", "sample_id", "away"},
	func(d *data, r *rows) {
		for _, t := range d.Tastings() {
			for _, s := range t.Seats {
				for i, c := range s.Cups {
					r.add(text(t.ID), whole(s.Number), text(s.Panelist), text(d.taster(s.Panelist)), whole(i+1), given(c.Code), text(c.Sample), text(s.Away))
				}
			}
		}
	},
}

func (d *data) taster(id recipes.ID) string {
	if p := d.Panelist(id); p != nil {
		return p.Code
	}
	return ""
}

var samplesSheet = &sheet{
	"samples.csv",
	[]string{
		"tasting_id", "sample_id", "code", "version_id", "version", "benchmark", "test_id", "pot", "cook", "cooked", "celsius", "held_minutes", "served_swaps",
	},
	func(d *data, r *rows) {
		for _, t := range d.Tastings() {
			for _, s := range d.samples(t) {
				r.add(text(t.ID), text(s.ID), text(s.Code), text(s.Version), text(d.served(t, s)), text(s.Dish), text(s.Batch), given(s.Pot),
					text(s.Cook), text(s.Cooked), number(s.Celsius), number(s.Held), list(servedSwaps(s)))
			}
		}
	},
}

// samples are by code; where the codes are sealed, as they were planned.
func (d *data) samples(t *recipes.Tasting) []*recipes.Sample {
	if shut(t) {
		out := d.Samples(t.ID)
		slices.SortFunc(out, func(x, y *recipes.Sample) int { return cmp.Or(x.Place-y.Place, cmp.Compare(x.ID, y.ID)) })
		return out
	}
	return d.Samples(t.ID)
}

func servedSwaps(s *recipes.Sample) []recipes.ID {
	var out []recipes.ID
	if s.Served != nil {
		for _, x := range s.Served.Swaps {
			out = append(out, x.ID)
		}
	}
	return out
}

// served names what a sample is of; nothing for what was answered of a tray, or
// under a sealed code.
func (d *data) served(t *recipes.Tasting, s *recipes.Sample) string {
	switch {
	case s == nil:
		return ""
	case s.Dish != "":
		return s.Dish
	}
	return d.letter(t.Recipe, s.Version)
}

var servingsSheet = &sheet{
	"servings.csv",
	[]string{
		"serving_id", "tasting_id", "recipe", "date", "taster_id", "taster", "sample_id", "code", "position", "came_by", "answered", "late_serving", "dropped", "note",
	},
	func(d *data, r *rows) {
		d.eachServing(func(t *recipes.Tasting, s *recipes.Serving) {
			r.add(text(s.ID), text(t.ID), text(d.title(t.Recipe)), text(t.Date), text(s.Panelist), text(d.taster(s.Panelist)), text(s.Sample), text(d.code(s)),
				given(s.Position), text(s.Source), text(s.Date), yes(s.Late), text(s.Dropped), text(s.Note))
		})
	},
}

func (d *data) eachServing(act func(*recipes.Tasting, *recipes.Serving)) {
	for _, t := range d.Tastings() {
		for _, s := range d.Servings(t.ID) {
			act(t, s)
		}
	}
}

func (d *data) code(s *recipes.Serving) string {
	if x := d.Sample(s.Tasting, s.Sample); x != nil {
		return x.Code
	}
	t := d.Tasting(s.Tasting)
	if seat := t.SeatOf(s.Panelist); shut(t) && seat != nil && s.Position > 0 && s.Position <= len(seat.Cups) {
		return whole(seat.Cups[s.Position-1].Code)
	}
	return ""
}

var scoresSheet = &sheet{
	"scores.csv",
	[]string{
		"recipe", "tasting_id", "tasting", "date", "taster", "code", "version", "position", "attribute", "score", "counts", "serving_id",
	},
	func(d *data, r *rows) {
		d.eachServing(func(t *recipes.Tasting, s *recipes.Serving) {
			x := d.Sample(t.ID, s.Sample)
			for _, a := range slices.Sorted(maps.Keys(s.Scores)) {
				r.add(text(d.title(t.Recipe)), text(t.ID), text(t.Name), text(t.Date), text(d.taster(s.Panelist)), text(d.code(s)), text(d.served(t, x)),
					given(s.Position), text(a), exact(s.Scores[a]), yes(s.Counts()), text(s.ID))
			}
		})
	},
}
