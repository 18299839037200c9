package sheets

import (
	"slices"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// BriefTargets are the targets the brief asks for, in its order. Amount is the
// most that makes sense per serving.
var BriefTargets = []recipes.Target{
	{Nutrient: food.EnergyKcal, Amount: 10_000},
	{Nutrient: food.Sodium, Amount: 40_000},
	{Nutrient: food.SaturatedFat, Amount: 1000},
	{Nutrient: food.AddedSugars, Amount: 1000},
	{Nutrient: food.Sugars, Amount: 1000},
	{Nutrient: food.Protein, AtLeast: true, Amount: 1000},
	{Nutrient: food.Fibre, AtLeast: true, Amount: 1000},
}

// BriefFields are the texts of the brief's fields; Targets in the order of
// BriefTargets, empty for none.
type BriefFields struct {
	Keep, Cut      string
	Targets        []string
	Helping, Limit string
}

// Keys of BriefFaults beside the nutrients'.
const (
	HelpingKey = "helping"
	LimitKey   = "limit"
)

// largestLimit is the whole of the 9-point scale.
const largestLimit = 8

// FieldsOf puts a brief into its fields.
func FieldsOf(b recipes.Brief) BriefFields {
	f := BriefFields{Keep: b.Keep, Cut: b.Cut, Targets: make([]string, len(BriefTargets))}
	for i, t := range BriefTargets {
		if at := targetIn(b.Targets, t); at >= 0 {
			f.Targets[i] = words.Trim(b.Targets[at].Amount, 1)
		}
	}
	if b.Helping > 0 {
		f.Helping = words.Trim(b.Helping, 0)
	}
	if b.Limit > 0 {
		f.Limit = words.Trim(b.Limit, 2)
	}
	return f
}

func targetIn(all []recipes.Target, t recipes.Target) int {
	return slices.IndexFunc(all, func(x recipes.Target) bool { return x.Nutrient == t.Nutrient && x.AtLeast == t.AtLeast })
}

// ReadBrief reads the fields over the brief as it was; what cannot be read is
// told by the field's key, and then the brief must not be kept. Targets the
// fields do not ask for stay.
func ReadBrief(f BriefFields, was recipes.Brief) (recipes.Brief, map[string]string) {
	b := recipes.Brief{Keep: strings.TrimSpace(f.Keep), Cut: strings.TrimSpace(f.Cut)}
	faults := map[string]string{}
	for i, t := range BriefTargets {
		most := t.Amount
		amount, ok := targetAmount(f.Targets[i], t.Nutrient)
		switch {
		case strings.TrimSpace(f.Targets[i]) == "":
		case !ok:
			faults[t.Nutrient.Key()] = words.Say("brief.wrong", t.Nutrient.Unit())
		case amount > most:
			faults[t.Nutrient.Key()] = words.Say("brief.too-much", words.Number(most, 0), t.Nutrient.Unit())
		default:
			t.Amount = amount
			b.Targets = append(b.Targets, t)
		}
	}
	for _, t := range was.Targets {
		if targetIn(BriefTargets, t) < 0 {
			b.Targets = append(b.Targets, t)
		}
	}
	b.Helping = optional(f.Helping, HelpingKey, 5000, words.Say("brief.helping.wrong"), faults)
	b.Limit = optional(f.Limit, LimitKey, largestLimit, words.Say("brief.limit.wrong", largestLimit), faults)
	return b, faults
}

func optional(text, key string, most float64, wrong string, faults map[string]string) float64 {
	if strings.TrimSpace(text) == "" {
		return 0
	}
	v, ok := reading.Number(text)
	if !ok || v > most {
		faults[key] = wrong
		return 0
	}
	return v
}

// targetAmount reads a target; sodium may be typed as salt, "2 g" or "2 g salt".
func targetAmount(text string, n food.Nutrient) (float64, bool) {
	text = strings.TrimSpace(text)
	if n == food.Sodium {
		low := strings.TrimSpace(strings.TrimSuffix(strings.ToLower(text), "salt"))
		if g, ok := strings.CutSuffix(low, "g"); ok && !strings.HasSuffix(low, "mg") {
			v, ok := reading.Number(g)
			return v * 1000 / food.SaltPerSodium, ok
		}
		text = strings.TrimSuffix(low, "mg")
	}
	return reading.Number(text)
}

// SaltHelp says how much salt the sodium typed is, or that salt may be typed.
func SaltHelp(text string) string {
	if v, ok := targetAmount(text, food.Sodium); ok {
		return words.Say("brief.salt", words.Trim(nutrition.SaltGrams(v), 2), words.Number(v, 0))
	}
	return words.Say("brief.salt.hint")
}

// OriginalHas says what a serving of the original has of a nutrient.
func (x *Bench) OriginalHas(n food.Nutrient) string {
	f := x.Original().PerServing(n)
	if amountText(f, n) == words.Unknown {
		return words.Say("brief.original.unknown")
	}
	return words.Say("brief.original", Amount(f, n), n.Unit())
}
