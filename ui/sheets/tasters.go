package sheets

import (
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Tasters lays out everybody who tastes, by code; persons whose details were
// removed come last.
func Tasters(b *recipes.Book) Sheet {
	s := Sheet{Corner: words.Say("tasters.code"), Columns: []Column{
		{Key: "allergies", Title: words.Say("tasters.allergies"), Index: -1},
		{Key: "not", Title: words.Say("tasters.not-eaten"), Index: -1},
		{Key: "care", Title: words.Say("tasters.care"), Index: -1},
		{Key: "consent", Title: words.Say("tasters.consent"), Index: -1},
		{Key: "sittings", Title: words.Say("tasters.sittings"), Number: true, Index: -1},
	}}
	for _, p := range b.Panelists() {
		sittings := Cell{Text: words.Number(float64(tasting.Sittings(b, p.ID)), 0), Number: true, Bar: noBar()}
		row := Row{Key: string(p.ID), Label: text(p.Code), Cells: []Cell{allergiesCell(p), notEatenCell(p), careCell(p), consentCell(p), sittings}}
		if p.Removed {
			gone := Cell{Text: words.Say("tasters.removed"), Muted: true, Bar: noBar()}
			row.Label.Muted = true
			row.Cells = []Cell{gone, {Bar: noBar()}, {Bar: noBar()}, {Bar: noBar()}, sittings}
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

func toAsk(key string) Cell { return Cell{Text: words.Say(key), Mark: Look, Bar: noBar()} }

func allergiesCell(p *recipes.Panelist) Cell {
	switch {
	case !p.Asked:
		return toAsk("tasters.ask")
	case p.Allergens == 0:
		return text(words.Say("tasters.none"))
	}
	return Cell{Text: tasting.AllergenNames(p.Allergens), Strong: true, Wrap: true, Bar: noBar()}
}

func notEatenCell(p *recipes.Panelist) Cell {
	if len(p.DoesNotEat) == 0 {
		return Cell{Text: words.Say("library.none"), Muted: true, Bar: noBar()}
	}
	return Cell{Text: words.Join(p.DoesNotEat), Wrap: true, Bar: noBar()}
}

func careCell(p *recipes.Panelist) Cell {
	switch p.Careful {
	case recipes.Yes:
		return Cell{Text: words.Say("tasters.careful.yes"), Strong: true, Bar: noBar()}
	case recipes.No:
		return text(words.Say("tasters.careful.no"))
	}
	return Cell{Text: words.Say("tasters.ask"), Muted: true, Bar: noBar()}
}

func consentCell(p *recipes.Panelist) Cell {
	if p.Consent == "" {
		return toAsk("tasters.no-consent")
	}
	key := "tasters.consent-on"
	if p.Child {
		key = "tasters.guardian-on"
	}
	return text(words.Say(key, p.Consent))
}

// TasterFields is a taster as the form shows her.
type TasterFields struct {
	Code, NotEaten, Consent, Note string
	Asked, Child                  bool
	Allergens                     recipes.Allergen
	Careful                       recipes.Answer
}

// TasterFieldsOf fills the form.
func TasterFieldsOf(p *recipes.Panelist) TasterFields {
	return TasterFields{
		Code: p.Code, NotEaten: strings.Join(p.DoesNotEat, ", "), Consent: p.Consent, Note: p.Note,
		Asked: p.Asked, Child: p.Child, Allergens: p.Allergens, Careful: p.Careful,
	}
}

// Fields of the form that can be wrong.
const (
	TasterCodeField    = "code"
	TasterConsentField = "consent"
)

// ReadTaster makes a taster of the form; faults say by field what is wrong.
// Consent may be typed as "today".
func ReadTaster(f TasterFields, base *recipes.Panelist, b *recipes.Book, today time.Time) (*recipes.Panelist, Faults) {
	faults := Faults{}
	p := *base
	p.Code, p.Note = strings.TrimSpace(f.Code), strings.TrimSpace(f.Note)
	p.Asked, p.Child, p.Allergens, p.Careful = f.Asked, f.Child, f.Allergens, f.Careful
	p.DoesNotEat = nil
	for _, x := range strings.Split(f.NotEaten, ",") {
		if x = strings.TrimSpace(x); x != "" {
			p.DoesNotEat = append(p.DoesNotEat, x)
		}
	}
	if p.Code == "" {
		faults[TasterCodeField] = words.Say("error.taster-code")
	}
	for _, q := range b.Panelists() {
		if q.ID != p.ID && strings.EqualFold(q.Code, p.Code) {
			faults[TasterCodeField] = words.Say("error.taster-twice")
		}
	}
	p.Consent = strings.TrimSpace(f.Consent)
	if strings.EqualFold(p.Consent, words.Say("tasters.today")) {
		p.Consent = Today(today)
	}
	if p.Consent != "" {
		if _, err := time.Parse(testDate, p.Consent); err != nil {
			faults[TasterConsentField] = words.Say("error.date", p.Consent)
		}
	}
	return &p, faults
}

// TasterAllergens is a table of ticks, a row an allergen.
func TasterAllergens(has recipes.Allergen) Sheet {
	ticks := AllergenTicks(food.Allergens{Contains: has})
	s := Sheet{Columns: []Column{{Key: "has", Index: -1}}}
	for _, r := range ticks.Rows {
		s.Rows = append(s.Rows, Row{Key: r.Key, Label: r.Label, Cells: r.Cells[:1]})
	}
	return s
}

// RemovalText tells what removing a person does, and where her details may still
// be.
func RemovalText(b *recipes.Book, p *recipes.Panelist) string {
	key := "tasters.remove.never-sat"
	if tasting.Sittings(b, p.ID) > 0 {
		key = "tasters.remove.sat"
	}
	return words.Say(key, p.Code) + "\n\n" + words.Say("tasters.remove.copies")
}
