package food

import "strings"

// sameWord maps a word (in its singular) to the one it is kept under: British
// and American words for one thing, spellings, and the shortened words of the
// USDA tables. Common practice, no source.
var sameWord = map[string]string{
	"aubergine": "eggplant", "brinjal": "eggplant", "courgette": "zucchini", "rocket": "arugula", "rucola": "arugula",
	"swede": "rutabaga", "beetroot": "beet", "prawn": "shrimp", "yoghurt": "yogurt", "yogourt": "yogurt",
	"chilli": "chili", "chile": "chili", "chilly": "chili", "chily": "chili", "chil": "chili", "houmous": "hummus", "hommus": "hummus",
	"tinned": "canned", "tin": "canned", "can": "canned", "gelatine": "gelatin", "doughnut": "donut", "omelette": "omelet",
	"capsicum": "bell", "garbanzo": "chickpea",
	"maize": "corn", "linseed": "flaxseed", "groundnut": "peanut", "treacle": "molasses", "catsup": "ketchup",
	"skimmed": "skim", "soya": "soy", "mince": "ground", "filo": "phyllo", "fillo": "phyllo", "pitta": "pita",
	"bulgar": "bulgur", "burghul": "bulgur", "flavour": "flavor",
	"bicarb": "bicarbonate", "spud": "potato", "minced": "ground",
	"parmigiano": "parmesan", "portabella": "portobello",
	"calamari": "squid", "molass": "molasses",
	// shortened words of SR28's abbreviated file
	"ckd": "cooked", "brst": "breast", "cnd": "canned", "frz": "frozen", "grn": "green", "whl": "whole", "rstd": "roasted",
	"bld": "boiled", "brld": "broiled", "brsd": "braised", "drnd": "drained", "unprep": "raw", "unckd": "raw", "bnless": "boneless",
	"sknless": "skinless", "chick": "chicken", "chckn": "chicken", "chickn": "chicken", "bf": "beef", "chs": "cheese", "choc": "chocolate", "swtnd": "sweetened",
	"unswtnd": "unsweetened", "dk": "dark", "lt": "light", "sndwch": "sandwich", "vanil": "vanilla", "brkfst": "breakfast",
	"crm": "cream", "fl": "flavor", "juc": "juice", "jce": "juice", "yel": "yellow", "wht": "white", "blk": "black", "swt": "sweet",
	"bns": "bean", "bn": "bean", "veg": "vegetable", "vegs": "vegetable", "fr": "from", "pdr": "powder", "mxd": "mixed", "rts": "ready",
	"ln": "lean", "lrg": "large", "sml": "small", "med": "medium", "skn": "skin", "tbl": "table", "dehyd": "dehydrated",
	"enr": "enriched", "unenr": "unenriched", "fort": "fortified", "bkd": "baked", "frsh": "fresh", "lo": "low", "na": "sodium",
	"prep": "prepared", "comm": "commercial", "reg": "regular", "org": "organic", "hmde": "homemade", "sau": "sauce", "drsng": "dressing",
}

// class tells how much a word says about which food is meant.
type class uint8

const (
	strong class = iota // names the food: must be matched
	skin                // skinless, boneless, meat, only: tells cuts apart
	state               // raw, dry, canned: what was weighed
	prep                // chopped, softened: what is done to it
	noise               // large, free-range, of: says nothing about the food
)

// classWords lists the words (singular) that do not name a food by themselves,
// by how much they tell. Common practice, no source.
var classWords = map[class]string{
	skin: `
		skinless boneless skin bone boned meat only fillet filet whole without no on off rindless flesh lean untreated joint
		treated may be fat full ground`,
	state: `
		raw fresh dry dried uncooked unprepared cooked boiled baked roasted roast grilled fried poached scrambled canned drained
		frozen prepared undrained heated braised broiled stewed pickled home homemade ready`,
	prep: `
		chopped diced sliced grated crushed peeled unpeeled seeded deseeded cored pitted stoned trimmed halved quartered shredded
		softened melted beaten whisked sifted packed toasted rinsed washed cubed julienned torn crumbled flaked finely roughly
		coarsely thinly thickly lightly freshly squeezed cut strip slice cube split scrubbed shelled deveined separated chilled
		thawed defrosted divided mashed pureed slivered segmented podded soaked cracked bruised removed discarded reserved
		snipped stripped wedge matchstick sieved sprig stalk clove leaf head bulb stick knob thumb fine flaky flake coarse mild
		thick thin half grease warmed cooled steamed boneles`,
	noise: `
		a an the of and with in to for or from at into as your our some large small medium big jumbo xl little long heaped
		heaping level scant generous range organic good quality best nice premium outdoor bred responsibly sustainable
		sustainably sourced local locally homegrown optional preferably about approx approximately room temperature plus more
		taste serve serving garnish favourite favorite day old leftover unwaxed store bought shop piece chunk handful needed each
		per cm inch mm well very really just g kg oz ml lb size sized bite few couple additional regular ordinary pure commercial
		commly incl upc nfs ns ripe strength unopened dust dusting greasing sprinkle sprinkling drizzle drizzling brush
		brushing finish decorate frying fry rolling kneading tin pan you have any like if else bit cold warm hand raised farmed
		bunch kernel`,
}

// classes is classWords by word.
var classes = func() map[string]class {
	out := make(map[string]class, 400)
	for c, words := range classWords {
		for _, w := range strings.Fields(words) {
			out[w] = c
		}
	}
	return out
}()

// classOf gives the class of a word in its singular; a number ("70 %") narrows
// but need not match.
func classOf(w string) class {
	if c, ok := classes[w]; ok {
		return c
	}
	if w[0] >= '0' && w[0] <= '9' {
		return skin
	}
	return strong
}

// generic are nouns a cook may leave out: soba is soba noodles.
var generic = map[string]bool{
	"cheese": true, "noodle": true, "bread": true, "rice": true, "bean": true, "seed": true, "lettuce": true, "cabbage": true,
	"cracker": true, "pepper": true, "steak": true, "wine": true, "fish": true, "sauce": true, "mushroom": true, "pasta": true, "nut": true,
}
