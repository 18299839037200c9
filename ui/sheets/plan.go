package sheets

import (
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// PlanTests are what a cook can ask, by the test that answers it, in the order
// they are offered. words has "plan.ask.", "plan.name." and "plan.why." for each.
var PlanTests = []string{
	recipes.TestLiking, string(sensory.JustRight), string(sensory.Triangle), string(sensory.DuoTrio), string(sensory.Tetrad),
	string(sensory.TwoAFC), string(sensory.Preference), string(sensory.Ranking), recipes.TestHome,
}

// PlanFields is a plan as the form shows it: text as typed.
type PlanFields struct {
	Test       string
	Similar    bool // to show that nobody notices, not that they do
	Attributes string
	Limit      string
	Original   bool
	Versions   map[recipes.ID]int // pots of each version served; 0 not served
	Twice      bool               // the original too from a second pot
	Benchmark  string
	Tasters    map[recipes.ID]bool
	Empty      string // seats without a name yet
	Date, Time string
	Name       string
	Portion    string
	Spare      string
	Holds      string
	Heat       string
	Cleanser   string
	PerSitting string
	Cooks      string
	Codes      string
	Serves     string
	Note       string
	Packs      map[string]food.Allergen // what is no food of the workbook, by name: what its pack says
}

// Fields of a plan that can be wrong.
const (
	PlanLimitField   = "limit"
	PlanSamplesField = "samples"
	PlanSeatsField   = "seats"
	PlanEmptyField   = "empty"
	PlanDateField    = "date"
	PlanTimeField    = "time"
	PlanPortionField = "portion"
	PlanSpareField   = "spare"
	PlanHoldsField   = "holds"
	PlanHeatField    = "heat"
	PlanPerField     = "per"
	PlanNamesField   = "attributes"
)

// The usual of a plan: 60 g portions with a tenth to spare, half a point of nine
// as the most liking that may be lost (judgement; the strict margin of the notes),
// a share of 0.3 who may notice.
const (
	usualPortion = 60
	usualSpare   = 10
	usualLimit   = 0.5
	usualShare   = 0.3

	usualVersions = 3 // beside the original: a main dish takes four samples
)

// For returns the form with another question. One that compares two samples keeps
// the original and the first version that was ticked; wide is the form to go back
// to for a question that takes more.
func (f PlanFields) For(test string, b *recipes.Book, recipe recipes.ID, wide PlanFields) PlanFields {
	f.Test = test
	if !tasting.Trays(test) {
		f.Original, f.Versions, f.Twice = wide.Original, wide.Versions, wide.Twice
		return f
	}
	f.Original, f.Twice, f.Benchmark = true, false, ""
	first := map[recipes.ID]int{}
	for _, v := range b.Versions(recipe) {
		if f.Versions[v.ID] > 0 && len(first) == 0 {
			first[v.ID] = 1
		}
	}
	f.Versions = first
	return f
}

// NewPlan fills the form for a recipe: the original and the first versions that
// have been cooked (the first ones when none has), every taster.
func NewPlan(b *recipes.Book, r *recipes.Recipe, today string) PlanFields {
	f := PlanFields{
		Test: recipes.TestLiking, Attributes: words.Say("plan.attributes.usual"), Original: true, Versions: map[recipes.ID]int{},
		Tasters: map[recipes.ID]bool{}, Date: today, Portion: strconv.Itoa(usualPortion), Spare: strconv.Itoa(usualSpare), Limit: words.Field(usualLimit, 1),
	}
	if r.Brief.Limit > 0 {
		f.Limit = words.Field(r.Brief.Limit, 2)
	}
	cooked := false
	for _, v := range b.Versions(r.ID) {
		cooked = cooked || len(b.TestsOf(r.ID, v.ID)) > 0
	}
	for _, v := range b.Versions(r.ID) {
		if len(f.Versions) < usualVersions && (!cooked || len(b.TestsOf(r.ID, v.ID)) > 0) {
			f.Versions[v.ID] = 1
		}
	}
	for _, p := range b.Panelists() {
		if !p.Removed {
			f.Tasters[p.ID] = true
		}
	}
	return f
}

// PlanOf fills the form from a tasting that is planned.
func PlanOf(b *recipes.Book, t *recipes.Tasting) PlanFields {
	f := PlanFields{
		Test: t.Test, Similar: t.Similar, Versions: map[recipes.ID]int{}, Tasters: map[recipes.ID]bool{}, Date: t.Date, Time: t.Time,
		Name: t.Name, Limit: fieldOf(t.Limit, 3), Portion: fieldOf(t.Portion, 1), Spare: fieldOf(100*t.Spare, 1), Holds: fieldOf(t.Holds, 0), Heat: fieldOf(t.Celsius, 0),
		Cleanser: t.Cleanser, Cooks: t.Cooks, Codes: t.Codes, Serves: t.Serves, Note: t.Note,
	}
	f.Packs = map[string]food.Allergen{}
	if t.Cleanser != "" && t.CleanFree {
		f.Packs[t.Cleanser] = t.Cleans
	}
	for _, s := range b.Samples(t.ID) {
		if s.Dish != "" && s.DishChecked {
			f.Packs[s.Dish] = s.DishAllergens
		}
	}
	if t.PerSitting > 0 {
		f.PerSitting = strconv.Itoa(t.PerSitting)
	}
	var names []string
	for _, a := range t.Attributes {
		names = append(names, a.Name)
	}
	f.Attributes = strings.Join(names, ", ")
	for _, s := range tasting.InOrder(b, t.ID) {
		switch {
		case s.Dish != "":
			f.Benchmark = s.Dish
		case s.Version == "":
			f.Twice, f.Original = f.Original, true
		default:
			f.Versions[s.Version]++
		}
	}
	empty := 0
	for _, s := range t.Seats {
		switch {
		case s.Panelist != "":
			f.Tasters[s.Panelist] = true
		case s.Away == "":
			empty++
		}
	}
	if empty > 0 {
		f.Empty = strconv.Itoa(empty)
	}
	return f
}

func fieldOf(v float64, decimals int) string {
	if v == 0 {
		return ""
	}
	return words.Field(v, decimals)
}

// Plan is what the form comes to: the tasting with its samples and seats, what is
// wrong with the form, and what can be said before anyone cooks.
type Plan struct {
	Tasting *recipes.Tasting
	Samples []*recipes.Sample
	Faults  Faults
	Says    []Saying // why this test, what the panel can show, how even the orders are
	Reach   []string // of those, what a liking test can show
	Safety  *tasting.Safety
}

// Ready tells whether the plan can be kept.
func (p *Plan) Ready() bool { return len(p.Faults) == 0 }

// ReadPlan works a form out against the Book. base is the tasting it changes, or
// a new one with ID, recipe and seed; fresh draws IDs of samples, and those of
// samples that stay are kept.
func ReadPlan(f PlanFields, base *recipes.Tasting, b *recipes.Book, fresh func() recipes.ID) *Plan {
	r := planReader{f: f, b: b, p: &Plan{Faults: Faults{}}}
	t := *base
	r.p.Tasting = &t
	t.Test, t.Similar, t.Name, t.Note = f.Test, f.Similar && countsRight(f.Test), strings.TrimSpace(f.Name), strings.TrimSpace(f.Note)
	t.Attributes = attributesOf(f)
	if f.Test == string(sensory.TwoAFC) && len(t.Attributes) == 0 {
		r.p.Faults[PlanNamesField] = words.Say("plan.names.wrong")
	}
	if f.Test == string(sensory.JustRight) && len(t.Attributes) < 2 {
		r.p.Faults[PlanNamesField] = words.Say("plan.names.right.wrong")
	}
	t.Limit = r.limit()
	r.when(&t)
	t.Cooks, t.Codes, t.Serves = strings.TrimSpace(f.Cooks), strings.TrimSpace(f.Codes), strings.TrimSpace(f.Serves)
	t.Cleanser = strings.TrimSpace(f.Cleanser)
	t.Cleans, t.CleanFree = f.Packs[t.Cleanser]
	r.samples(&t, fresh)
	t.Seats = nil
	r.p.Safety = tasting.Check(b, &t, r.p.Samples) // of the samples: it tells who can be seated
	r.seats(&t)
	r.p.Safety = tasting.Check(b, &t, r.p.Samples)
	return r.p
}

// countsRight tells whether a test counts right answers, so that similarity can
// be shown with it.
func countsRight(test string) bool {
	t := sensory.Test(test)
	return t.Counts() && !t.TwoSided()
}

// attributesOf are what is asked of each sample: overall liking first, always
// (ask it before anything else, common practice), then the named ones.
func attributesOf(f PlanFields) []recipes.Attribute {
	kind := recipes.AskIntensity
	var out []recipes.Attribute
	switch f.Test {
	case recipes.TestLiking:
		out, kind = append(out, recipes.Attribute{Name: words.Say("plan.overall"), Kind: recipes.AskLiking}), recipes.AskLiking
	case string(sensory.JustRight):
		out, kind = append(out, recipes.Attribute{Name: words.Say("plan.overall"), Kind: recipes.AskLiking}), recipes.AskJustRight
	case string(sensory.TwoAFC):
	default:
		return nil
	}
	for _, name := range strings.Split(f.Attributes, ",") {
		name = strings.TrimSpace(name)
		if name != "" && !slices.ContainsFunc(out, func(a recipes.Attribute) bool { return strings.EqualFold(a.Name, name) }) {
			out = append(out, recipes.Attribute{Name: name, Kind: kind})
		}
	}
	if f.Test == string(sensory.TwoAFC) && len(out) > 1 {
		out = out[:1]
	}
	return out
}

type planReader struct {
	f PlanFields
	b *recipes.Book
	p *Plan

	out string // who is left out, and why
}

// number reads a figure from 0 up; an empty field is the usual.
func (r *planReader) number(field, text string, usual, most float64) float64 {
	return r.p.Faults.number(field, strings.TrimSpace(text), usual, most)
}

func (r *planReader) limit() float64 {
	switch {
	case r.f.Test == recipes.TestLiking || r.f.Test == string(sensory.JustRight):
		v := r.number(PlanLimitField, r.f.Limit, usualLimit, 8)
		if v <= 0 {
			r.p.Faults[PlanLimitField] = words.Say("plan.limit.wrong")
		}
		return v
	case countsRight(r.f.Test) && r.f.Similar:
		v := r.number(PlanLimitField, r.f.Limit, usualShare, 1)
		if v <= 0 || v >= 1 {
			r.p.Faults[PlanLimitField] = words.Say("plan.share.wrong")
		}
		return v
	}
	return 0
}

// when reads day, time and how it is served.
func (r *planReader) when(t *recipes.Tasting) {
	day, ok := ReadDay(r.f.Date)
	if !ok {
		r.p.Faults[PlanDateField] = words.Say("error.date", r.f.Date)
	} else {
		t.Date = day.Format(testDate)
	}
	t.Time = strings.TrimSpace(r.f.Time)
	if t.Time != "" && !clockTime(t.Time) {
		r.p.Faults[PlanTimeField] = words.Say("plan.time.wrong", t.Time)
	}
	t.Portion = r.number(PlanPortionField, r.f.Portion, usualPortion, 2000)
	t.Spare = r.number(PlanSpareField, r.f.Spare, usualSpare, 300) / 100
	t.Holds = r.number(PlanHoldsField, r.f.Holds, 0, 24*60)
	t.Celsius = r.number(PlanHeatField, r.f.Heat, 0, 100)
}

// clockTime tells whether a text is a time of day ("19:30").
func clockTime(s string) bool {
	h, m, ok := strings.Cut(s, ":")
	hour, err1 := strconv.Atoi(h)
	minute, err2 := strconv.Atoi(m)
	return ok && err1 == nil && err2 == nil && hour >= 0 && hour < 24 && minute >= 0 && minute < 60
}

// samples lists what is served: original, versions in their order, benchmark.
func (r *planReader) samples(t *recipes.Tasting, fresh func() recipes.ID) {
	have := tasting.InOrder(r.b, t.ID)
	take := func(s recipes.Sample) {
		i := slices.IndexFunc(have, func(x *recipes.Sample) bool {
			return x.Version == s.Version && x.Dish == s.Dish && max(1, x.Pot) == s.Pot
		})
		if i >= 0 {
			old := *have[i]
			old.Pot = s.Pot
			s = old
		} else {
			s.ID = fresh()
		}
		s.Tasting = t.ID
		if s.Dish != "" {
			s.DishAllergens, s.DishChecked = r.f.Packs[s.Dish]
		}
		r.p.Samples = append(r.p.Samples, &s)
	}
	if r.f.Original || t.Test == recipes.TestLiking || t.Test == string(sensory.JustRight) {
		take(recipes.Sample{Pot: 1})
		if r.f.Twice {
			take(recipes.Sample{Pot: 2})
		}
	}
	for _, v := range r.b.Versions(t.Recipe) {
		for pot := range r.f.Versions[v.ID] {
			take(recipes.Sample{Version: v.ID, Pot: pot + 1})
		}
	}
	if d := strings.TrimSpace(r.f.Benchmark); d != "" {
		take(recipes.Sample{Dish: d, Pot: 1})
	}
	n := len(r.p.Samples)
	switch {
	case t.Test == recipes.TestHome && n < 1:
		r.p.Faults[PlanSamplesField] = words.Say("error.tasting-samples-none")
	case tasting.Trays(t.Test) && n != 2:
		r.p.Faults[PlanSamplesField] = words.Say("error.tasting-samples-two")
	case t.Test != recipes.TestHome && n < 2:
		r.p.Faults[PlanSamplesField] = words.Say("error.tasting-samples-few")
	case n > tasting.MostSamples:
		r.p.Faults[PlanSamplesField] = words.Say("error.tasting-samples-many", tasting.MostSamples)
	}
}
