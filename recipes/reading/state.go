package reading

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// judgeState says what was weighed and asks where dry or cooked, raw or
// cooked makes a difference and the text does not say.
func (r *lineReader) judgeState() {
	if r.food == nil {
		return
	}
	if r.line.State == "" {
		r.line.State = r.food.State
	}
	if stated := statedIn(r.say.hints); stated != "" && r.line.State != food.Drained {
		if stated == food.Cooked && statedIn(fold(r.say.full)) != food.Cooked && r.amt.grams > 0 && r.food.State == food.Cooked {
			r.doubt(recipes.DoubtState, string(stated)) // "500 g spinach, cooked": weighed before or after?
		}
		if asksState(r.food) {
			r.line.State = stated
			r.wrongRow(stated)
		} else if stated == food.Frozen {
			r.line.State = stated
		}
		return
	}
	if r.canned() || r.line.State == food.Drained || r.line.State == food.Cooked || !asksState(r.food) {
		return
	}
	if isMeat(r.food) && soldRaw(r.say.hints) {
		return
	}
	r.doubt(recipes.DoubtState, string(r.line.State))
}

// wrongRow asks when the text says cooked and the table's row is not, or the
// other way round.
func (r *lineReader) wrongRow(stated food.State) {
	row := r.food.State
	if stated == food.Cooked && (row == food.Raw || row == food.Dry) || stated != food.Cooked && stated != food.Frozen && row == food.Cooked || stated == food.Raw && row == food.Dry && hasWord(r.say.hints, "fresh") {
		r.doubt(recipes.DoubtState, string(row))
	}
}

// statedIn finds a state in folded words, "" when none is said.
func statedIn(hints string) food.State {
	switch {
	case hasAny(hints, "uncooked", "raw"):
		return food.Raw
	case hasAny(hints, "cooked", "leftover", "boiled", "roasted", "grilled", "rotisserie", "steamed", "pre-cooked", "precooked", "ready-cooked", "hard-boiled", "parboiled", "microwave", "microwaveable") &&
		!hasAny(hints, "boiled water", "to be cooked", "quick-cooked", "until cooked"):
		return food.Cooked
	case hasAny(hints, "frozen", "thawed", "defrosted"):
		return food.Frozen
	case hasAny(hints, "dry", "dried"):
		return food.Dry
	case hasAny(hints, "fresh"):
		return food.Raw
	}
	return ""
}

// soldRaw finds a raw sign, singular or plural.
func soldRaw(hints string) bool {
	for _, s := range rawSigns {
		if hasWord(hints, s) || hasWord(hints, s+"s") {
			return true
		}
	}
	return false
}

// rawSigns are words only raw meat and shellfish are sold or prepared by.
var rawSigns = []string{
	"boneless", "skinless", "bone-in", "skin-on", "trimmed", "ground", "mince", "minced", "lean", "fillet", "fillets", "filet", "breast", "breasts",
	"thigh", "thighs", "drumsticks", "wings", "legs", "leg", "steak", "steaks", "chop", "chops", "loin", "tenderloin", "shoulder", "belly", "chuck",
	"brisket", "ribs", "stewing", "stew", "braising", "joint", "roast", "neck", "shank", "shanks", "deveined", "peeled and deveined", "king", "tiger",
	"in shell", "shell-on", "shells", "scrubbed", "debearded", "cleaned", "live", "cut into", "cubed", "whole", "sushi-grade", "diced", "jumbo", "baby",
}

// asksState tells foods whose weight changes much with cooking: rice, pasta,
// pulses, meat, spinach, shellfish.
func asksState(f *food.Food) bool {
	name := fold(f.Name)
	switch f.Group {
	case "grains, pasta, flour":
		return f.Swells > 0 && !hasAny(name, "oats", "oat") || f.State == food.Dry && hasAny(name, "noodles", "pasta", "rice")
	case "legumes and soy":
		return f.Swells > 0 || f.State == food.Dry && !hasAny(name, "flour")
	case "vegetables":
		return hasAny(name, "spinach") && f.State == food.Raw
	}
	return isMeat(f) && f.State == food.Raw
}

func isMeat(f *food.Food) bool {
	switch f.Group {
	case "poultry", "beef", "pork", "lamb, veal, game":
		return !hasAny(fold(f.Name), "bacon", "ham", "salt pork", "suet", "backfat", "corned")
	case "fish and shellfish":
		return hasAny(fold(f.Name), "shrimp", "crab", "lobster", "mussels", "clams", "scallops", "squid", "octopus", "oysters", "crayfish", "cuttlefish")
	}
	return false
}
