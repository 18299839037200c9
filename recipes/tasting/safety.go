package tasting

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/cautions"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Safety is who may sit down to a tasting, and what must be known first.
// Allergens are those of all samples together, sub-recipes and cleanser
// included: shared pans, spoons and oil carry traces.
type Safety struct {
	Allergens food.Allergen
	Unknown   []string       // foods whose allergens nobody has recorded: unknown, never free
	Care      []CareKind     // what asks about pregnancy, age and illness
	Seats     []SeatSafety   // those of seated tasters with something to say, by number
	PerSample []SampleSafety // in the samples' order
}

// SampleSafety is what one sample carries.
type SampleSafety struct {
	Sample    *recipes.Sample
	Allergens food.Allergen
	Names     []string // names of its ingredients, lower case
}

// CareKind is a risk that some people should not take.
type CareKind string

// Risks that ask about pregnancy, age and illness.
const (
	CareAlcohol CareKind = "alcohol"
	CareRawEgg  CareKind = "raw egg"
	CareCheese  CareKind = "raw milk cheese"
	CareRawFish CareKind = "raw fish"
)

// SeatSafety is what stands against one taster. Out leaves her out of the whole
// tasting, without override; Ask must be settled first; Without are samples she
// does not eat and is not served.
type SeatSafety struct {
	Seat     int
	Panelist recipes.ID
	Out      []words.Phrase
	Ask      []words.Phrase
	Without  []recipes.ID
}

// Clear tells whether the tasting may begin.
func (s *Safety) Clear() bool {
	if len(s.Unknown) > 0 {
		return false
	}
	return !slices.ContainsFunc(s.Seats, func(x SeatSafety) bool { return len(x.Out)+len(x.Ask) > 0 })
}

// Of returns the safety of one seat; the zero value where nothing is against it.
func (s *Safety) Of(seat int) SeatSafety {
	for _, x := range s.Seats {
		if x.Seat == seat {
			return x
		}
	}
	return SeatSafety{Seat: seat}
}

// LeftOut tells whether the taster takes no part in a test, whatever is settled
// with her: nobody can override it. Of two samples neither can be left away.
func (x *SeatSafety) LeftOut(test string) bool {
	return len(x.Out) > 0 || len(x.Without) > 0 && Trays(test)
}

// Sitting returns the tasting with the seats of those who will sit: not of who is
// left out, stays away, nor those left empty.
func Sitting(b *recipes.Book, t *recipes.Tasting) *recipes.Tasting {
	s := Check(b, t, b.Samples(t.ID))
	n := *t
	n.Seats = slices.DeleteFunc(slices.Clone(t.Seats), func(seat recipes.Seat) bool {
		x := s.Of(seat.Number)
		return seat.Away != "" || x.LeftOut(t.Test)
	})
	return &n
}

// MayBeServed refuses a tasting with somebody at the table who is left out of it.
func MayBeServed(b *recipes.Book, t *recipes.Tasting) error {
	for _, x := range Check(b, t, b.Samples(t.ID)).Seats {
		if t.State != recipes.TastingPlanned && b.Panelist(x.Panelist).Removed {
			continue // she sat down safely, and has been forgotten since
		}
		if err := x.leftOut(t.Test); err != nil {
			return err
		}
	}
	return nil
}

// leftOut says why a taster takes no part, nil where she may.
func (x *SeatSafety) leftOut(test string) error {
	where, hint := words.Say("tasting.seat", x.Seat), words.Say("error.tasting-out.hint")
	switch {
	case len(x.Out) > 0:
		return problem.New(where, x.Out[0].String(), hint)
	case x.LeftOut(test):
		return problem.New(where, words.Say("error.tasting-eats"), hint)
	}
	return nil
}

// Check looks at everything the samples of a tasting hold and at everybody who
// is to taste them.
func Check(b *recipes.Book, t *recipes.Tasting, samples []*recipes.Sample) *Safety {
	s := &Safety{}
	for _, x := range samples {
		s.sample(b, t, x)
	}
	if t.Cleanser != "" {
		s.Allergens |= t.Cleans
		if !t.CleanFree {
			s.unknown(t.Cleanser)
		}
	}
	for _, seat := range t.Seats {
		if p := b.Panelist(seat.Panelist); p != nil && seat.Away == "" {
			if x := s.Taster(p); len(x.Out)+len(x.Ask)+len(x.Without) > 0 {
				x.Seat = seat.Number
				s.Seats = append(s.Seats, x)
			}
		}
	}
	return s
}

func (s *Safety) unknown(name string) {
	if !slices.Contains(s.Unknown, name) {
		s.Unknown = append(s.Unknown, name)
	}
}

func (s *Safety) care(k CareKind) {
	if !slices.Contains(s.Care, k) {
		s.Care = append(s.Care, k)
	}
}

// sample adds what one sample holds.
func (s *Safety) sample(b *recipes.Book, t *recipes.Tasting, x *recipes.Sample) {
	one := SampleSafety{Sample: x}
	if x.Dish != "" {
		one.Allergens, one.Names = x.DishAllergens, []string{strings.ToLower(x.Dish)}
		if !x.DishChecked {
			s.unknown(x.Dish)
		}
	} else if r := b.Recipe(t.Recipe); r != nil {
		v := b.Version(t.Recipe, x.Version)
		s.lines(b, b.ServedRecord(r, v), &one)
		for _, c := range cautions.Of(b.Draft(r, v), b.Food) {
			if c.Kind == cautions.RawEgg {
				s.care(CareRawEgg)
			}
		}
	}
	s.Allergens |= one.Allergens
	s.PerSample = append(s.PerSample, one)
}

// lines adds the foods of a served record. What may be in a food, depending on
// the product, counts as in it.
func (s *Safety) lines(b *recipes.Book, served *recipes.Served, one *SampleSafety) {
	for _, l := range served.Lines {
		name := strings.ToLower(l.Name)
		one.Names = append(one.Names, name)
		f := b.Food(l.Food)
		if f == nil || !f.Allergens.Recorded {
			s.unknown(l.Name)
			continue
		}
		one.Allergens |= f.Allergens.Contains | f.Allergens.Depends
		one.Names = append(one.Names, strings.ToLower(f.Name))
		if a, ok := f.Per100.Get(food.Alcohol); ok && a > 0.5 {
			s.care(CareAlcohol)
		}
		for kind, list := range carefulNames {
			if hasWord(name, list) || hasWord(strings.ToLower(f.Name), list) {
				s.care(kind)
			}
		}
	}
}

// carefulNames tell by a food's name what its numbers cannot (common practice,
// no source).
var carefulNames = map[CareKind][]string{
	CareCheese:  {"unpasteurised", "unpasteurized", "raw milk"},
	CareRawFish: {"sushi", "sashimi", "ceviche", "gravlax", "tartare", "raw oyster", "raw oysters", "cold-smoked", "smoked salmon"},
}

func hasWord(text string, list []string) bool {
	return slices.ContainsFunc(list, func(w string) bool { return strings.Contains(text, w) })
}

// Taster holds one taster against the samples.
func (s *Safety) Taster(p *recipes.Panelist) SeatSafety {
	x := SeatSafety{Panelist: p.ID}
	switch {
	case p.Removed:
		x.Out = append(x.Out, words.P("tasting.out.removed"))
	case !p.Asked:
		x.Ask = append(x.Ask, words.P("tasting.ask.allergens", p.Code))
	case p.Allergens&s.Allergens != 0:
		x.Out = append(x.Out, words.P("tasting.out.allergen", p.Code, AllergenNames(p.Allergens&s.Allergens)))
	}
	if p.Consent == "" && !p.Removed {
		key := "tasting.ask.consent"
		if p.Child {
			key = "tasting.ask.guardian"
		}
		x.Ask = append(x.Ask, words.P(key, p.Code))
	}
	if len(s.Care) > 0 || p.Child && slices.Contains(s.Care, CareAlcohol) {
		switch {
		case p.Careful == recipes.Yes || p.Child:
			x.Out = append(x.Out, words.P("tasting.out.care", p.Code, CareNames(s.Care)))
		case p.Careful == recipes.NotAsked:
			x.Ask = append(x.Ask, words.P("tasting.ask.care", p.Code, CareNames(s.Care)))
		}
	}
	for _, one := range s.PerSample {
		if eats := notEaten(p, one.Names); !eats {
			x.Without = append(x.Without, one.Sample.ID)
		}
	}
	return x
}

// notEaten is false when a sample holds something the taster does not eat.
func notEaten(p *recipes.Panelist, names []string) bool {
	for _, no := range p.DoesNotEat {
		w := strings.TrimSuffix(strings.ToLower(strings.TrimSpace(no)), "s")
		if w != "" && slices.ContainsFunc(names, func(n string) bool { return strings.Contains(n, w) }) {
			return false
		}
	}
	return true
}

// AllergenNames lists allergens in words.
func AllergenNames(a food.Allergen) string {
	var out []string
	for _, k := range a.Keys() {
		out = append(out, words.Say("ideas.allergen."+k))
	}
	return words.Join(out)
}

// CareNames lists risks in words.
func CareNames(care []CareKind) string {
	var out []string
	for _, k := range care {
		out = append(out, words.Say("tasting.care."+string(k)))
	}
	return words.Join(out)
}
