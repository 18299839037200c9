package claims

// Trait marks dishes that some terms are kept for.
type Trait string

// Traits.
const (
	AnyDish     Trait = ""
	MeatOrFish  Trait = "meat or fish"      // plain meat, poultry, fish, shellfish, game
	MixedNotCup Trait = "mixed, not by cup" // burritos, pizza, quiche, sandwiches
)

// Category is a dish category with its reference amount: what is customarily
// eaten at one sitting, either Grams or ML (21 CFR 101.12(b)). A lighter dish
// takes the category of the dish it replaces (101.12(d)). The zero Category
// has no reference amount. Its name has the key "claims.category." and Key.
type Category struct {
	Key    string
	Grams  float64
	ML     float64
	Liquid bool // usually judged for 100 ml
	Trait  Trait
	Status Status
	Source string
}

// Small tells whether the reference amount is 30 g or less, or 2 tablespoons
// (of 15 ml) or less, so that the rule of 50 g applies.
func (c Category) Small() bool {
	return c.Grams > 0 && c.Grams <= 30 || c.Grams == 0 && c.ML > 0 && c.ML <= 30
}

// CategoryByKey returns a category; false if there is none of that key.
func CategoryByKey(key string) (Category, bool) {
	for _, c := range categories {
		if c.Key == key {
			return c, true
		}
	}
	return Category{}, false
}

// Categories returns all categories in the order a cook would look for them.
func Categories() []Category { return append([]Category(nil), categories...) }

// Sources of the reference amounts. The 2016 rule changed some of them; its
// new figures are from memory.
const (
	cfr2015  = "21 CFR 101.12(b), 2015 annual edition"
	rule2016 = "21 CFR 101.12(b) as changed by 81 FR 34000 (2016)"
	meat2015 = "9 CFR 317.312 and 381.412"
)

func byWeight(key string, grams float64) Category {
	return Category{Key: key, Grams: grams, Status: Confirmed, Source: cfr2015}
}

func byVolume(key string, ml float64) Category {
	return Category{Key: key, ML: ml, Status: Confirmed, Source: cfr2015}
}

// changed marks a figure of the 2016 rule.
func changed(c Category) Category {
	c.Status, c.Source = FromMemory, rule2016
	return c
}

func liquid(c Category) Category {
	c.Liquid = true
	return c
}

func meat(c Category) Category {
	c.Trait = MeatOrFish
	return c
}

func notByCup(c Category) Category {
	c.Trait = MixedNotCup
	return c
}

// categories: a cup counts 240 ml, a tablespoon 15, a teaspoon 5, as on labels
// (21 CFR 101.9(b)(5)(viii)).
var categories = []Category{
	byVolume("mixed-cup", 240),
	notByCup(byWeight("mixed-pieces", 140)),
	notByCup(byWeight("mixed-pieces-sauce", 195)),
	liquid(byWeight("soup", 245)),
	meat(Category{Key: "meat-cooked", Grams: 85, Status: FromMemory, Source: meat2015}),
	meat(Category{Key: "meat-raw", Grams: 114, Status: FromMemory, Source: meat2015}),
	meat(byWeight("fish-cooked", 85)),
	meat(byWeight("fish-raw", 110)),
	byWeight("fish-sauce", 140),
	meat(changed(byWeight("fish-canned", 85))),
	byWeight("egg", 50),
	byWeight("omelette", 110),
	byWeight("tofu", 85),
	byWeight("beans-cooked", 90),
	byWeight("beans-sauce", 130),
	byWeight("beans-dry", 35),
	byWeight("rice-cooked", 140),
	byWeight("rice-dry", 45),
	byWeight("pasta-cooked", 140),
	byWeight("pasta-dry", 55),
	byWeight("stuffing", 100),
	byWeight("potato-plain", 110),
	byWeight("potato-mashed", 140),
	byWeight("potato-fried", 70),
	byWeight("salad-pasta", 140),
	byWeight("salad", 100),
	byWeight("vegetable", 85),
	byWeight("vegetable-sauce", 110),
	byWeight("vegetable-canned", 130),
	byWeight("olives", 15),
	byWeight("pickles", 30),
	byWeight("fruit", 140),
	byWeight("fruit-dried", 40),
	changed(byWeight("avocado", 50)),
	byWeight("melon", 280),
	byWeight("nuts", 30),
	byVolume("nut-butter", 30),
	byWeight("bread", 50),
	byWeight("quick-bread", 55),
	changed(byWeight("bagel-muffin", 110)),
	byWeight("crackers", 30),
	byWeight("croutons", 7),
	byWeight("pizza-crust", 55),
	byWeight("taco-shell", 30),
	byWeight("pancakes", 110),
	byWeight("waffles", 85),
	byWeight("cereal-hot-dry", 40),
	byVolume("cereal-hot", 240),
	byWeight("brownie", 40),
	byWeight("cake-heavy", 125),
	byWeight("cake-medium", 80),
	byWeight("cake-light", 55),
	byWeight("coffee-cake", 55),
	byWeight("biscuit-sweet", 30),
	byWeight("pie", 125),
	byWeight("pie-filling", 85),
	byVolume("pudding", 120),
	changed(byVolume("ice-cream", 160)),
	changed(byVolume("frosting", 30)),
	byWeight("snacks", 30),
	byWeight("cheese", 30),
	byWeight("cheese-grated", 5),
	byWeight("cottage-cheese", 110),
	byWeight("ricotta", 55),
	changed(byWeight("yogurt", 170)),
	liquid(byVolume("milk", 240)),
	byVolume("cream", 15),
	byVolume("half-cream", 30),
	byWeight("sour-cream", 30),
	byVolume("butter-oil", 15),
	byWeight("dressing", 30),
	byWeight("mayonnaise", 15),
	byVolume("dip", 30),
	byWeight("sauce-main", 125),
	byVolume("sauce-minor", 60),
	byVolume("condiment", 15),
	byVolume("mustard", 5),
	byVolume("jam", 15),
	changed(byWeight("sugar", 8)),
	changed(byVolume("syrup", 30)),
	liquid(byVolume("juice", 240)),
	liquid(changed(byVolume("drink", 360))),
}
