package claims

import "parewell/recipes/food"

// Authority is who publishes a rule.
type Authority string

// Authorities.
const (
	US    Authority = "us"    // 21 CFR part 101 (and 9 CFR 317, 381 for meat)
	EU    Authority = "eu"    // Regulation (EC) 1924/2006, Annex
	Codex Authority = "codex" // CXG 23-1997
)

// Status says whether a rule's figure was seen on a page or is remembered.
type Status string

// Statuses of a fact.
const (
	Confirmed  Status = "confirmed"
	FromMemory Status = "from memory" // check before print
)

// Op is how a figure must stand to its limit.
type Op string

// Orders.
const (
	Below   Op = "below"
	AtMost  Op = "at most"
	AtLeast Op = "at least"
	Above   Op = "above"
)

// Basis is the amount of food a figure is taken for.
type Basis string

// Bases.
const (
	PerReference Basis = "reference" // the reference amount of 21 CFR 101.12(b)
	PerServing   Basis = "serving"
	Per50g       Basis = "50 g" // counts only where the reference amount is small
	Per100g      Basis = "100 g"
	Per100       Basis = "100" // 100 g, or 100 ml of a liquid
	OfItself     Basis = ""    // a share that no amount changes
)

// Measure is what is taken of a dish.
type Measure string

// Measures. Reductions and gains compare the version with the original for the
// same amount of food.
const (
	Amount       Measure = "amount"
	Sum          Measure = "sum"           // saturated and trans fat together, g
	EnergyShare  Measure = "energy share"  // per cent of the energy
	Per100kcal   Measure = "per 100 kcal"  // g
	Reduction    Measure = "reduction"     // per cent less than the original
	SumReduction Measure = "sum reduction" // per cent less saturated and trans fat
	Difference   Measure = "difference"    // original less version
	DailyShare   Measure = "daily share"   // per cent of the US daily value
	DailyGain    Measure = "daily gain"    // per cent of the US daily value more than the original
	SumShare     Measure = "sum share"     // per cent of the energy from saturated and trans fat
	Weight       Measure = "weight"        // g of one serving
	Asked        Measure = "asked"         // what only the cook can say
)

// Question is what only the cook can say.
type Question string

// Questions.
const (
	AskNoSweetener Question = "no-sweetener" // nothing that sweetens was added: sugar, honey, syrup, jam, concentrated juice
	AskNoSalt      Question = "no-salt"      // neither salt nor anything salted was added
	AskNoFat       Question = "no-fat"       // no fat was added
	AskHalfSalt    Question = "half-salt"    // half as much salt, or less, was added as in the original
	AskComponent   Question = "component"    // a food within the dish meets the term by itself, and is named
)

// Test is one condition. LiquidLimit replaces Limit for liquids when above
// zero. OnOriginal takes the original instead of the version.
type Test struct {
	Measure     Measure
	Nutrient    food.Nutrient
	Basis       Basis
	Op          Op
	Limit       float64
	LiquidLimit float64
	OnOriginal  bool
	Question    Question
}

// Way is one set of conditions that is enough; Label names it where a rule has
// several ("fat" for "light" by fat).
type Way struct {
	Label string
	Tests []Test
}

// Rule is one term of one authority. It may be used where every test of some
// way holds and NotIfOriginal does not: the original meets all the rules named.
type Rule struct {
	ID            string // "us.food.low-fat"
	Term          Term
	Authority     Authority
	Kinds         []Kind // nil: every kind
	Nutrient      food.Nutrient
	Ways          []Way
	Relative      bool
	NotIfOriginal []string
	NotDefined    bool // the authority does not allow or define the term
	LiquidOnly    bool
	Only          Trait // only for dishes of this trait
	Section       string
	Status        Status
	Source        string // where the figure was read
	Needs         []NeedCode
}

// Term is the word a cook would print; "claims.term." and the Term is its key.
type Term string

// covers tells whether the rule is about this kind of dish.
func (r *Rule) covers(k Kind) bool {
	if len(r.Kinds) == 0 {
		return true
	}
	for _, x := range r.Kinds {
		if x == k {
			return true
		}
	}
	return false
}

// Rules returns every rule, US first, then EU, then Codex. The slice is the
// caller's; what it points to is not to be changed.
func Rules() []*Rule { return append([]*Rule(nil), allRules...) }

var (
	allRules  = rules()
	rulesByID = byID(allRules)
)

func rules() []*Rule {
	var all []*Rule
	for _, set := range [][]Rule{usEnergyRules(), usFatRules(), usCholesterolRules(), usSodiumRules(), usSugarRules(), usLightRules(), usLeanRules(), usSourceRules(), euRules(), codexRules()} {
		for i := range set {
			all = append(all, &set[i])
		}
	}
	return all
}

func byID(all []*Rule) map[string]*Rule {
	out := make(map[string]*Rule, len(all))
	for _, r := range all {
		out[r.ID] = r
	}
	return out
}

// RuleByID returns a rule, nil if there is none.
func RuleByID(id string) *Rule { return rulesByID[id] }
