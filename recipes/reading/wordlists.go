package reading

import "strings"

// set makes a lookup of blank-separated words.
func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// preparing words say what is done to an ingredient; none is part of a name.
var preparing = set(`chopped diced sliced grated shredded peeled cored seeded deseeded de-seeded pitted stoned halved quartered
trimmed rinsed drained washed melted softened beaten sifted toasted cubed julienned crumbled thawed defrosted zested
juiced torn cut squeezed packed heaped rounded chilled warmed cooled cold warm hot lukewarm tepid boiling
snipped scrubbed deveined hulled shaved slivered separated whisked whipped-up flaked bashed bruised scored tied
destemmed stemmed de-stemmed topped tailed picked strained reserved divided room-temperature soft sieved broken
finely coarsely roughly thinly thickly freshly lightly firmly loosely well cleaned patted husked shucked
unpeeled butterflied pounded flattened spiralized spiralised podded segmented portioned crosswise lengthwise diagonally blitzed
ripped smashed muddled chiffonade chiffonaded matchsticks cut-up bite-sized bite-size heaping level scant splitted parboiled
cubes dice slices wedges chunks strips rounds half-moons quarters halves pieces`)

// noise words change neither the food nor its weight.
var noise = set(`organic free-range freerange good-quality quality best-quality good best favourite favorite real local
homemade home-made store-bought shop-bought your my some any big nice decent the a an about additional
ready-made prepared fine-quality high-quality premium artisan leftover optional ripe very really perfectly just other nice little
ready-to-use everyday basic approx approximately each loose free range quality-assured seasonal of`)

// describing words narrow a food but do not name one: a comma after them does
// not end the name.
var describing = set(`boneless skinless bone-in skin-on boned skinned large medium small extra-large jumbo thick thin long short fresh dried
frozen canned tinned ripe unripe firm crisp tender young mature old raw uncooked cooked dry wet plain unsweetened sweetened salted
unsalted low-fat nonfat non-fat fat-free full-fat reduced-fat low-sodium reduced-sodium no-salt-added lean extra-lean whole skimmed
red green yellow white black brown golden orange purple dark light pale sweet sour sharp mild hot spicy smoked unsmoked
free-range organic good-quality quality all-purpose self-raising self-rising instant quick-cooking old-fashioned rolled
natural pure raw-shelled shelled unshelled seedless stoneless floury waxy baby mini heavy semi-skimmed strong soft fine coarse
thick-cut thin-cut center-cut flat-leaf curly extra virgin extra-virgin unbleached bleached active ready-rolled ready-made ready-to-eat
unwaxed jarred cold-pressed granulated powdered low high part-skim
boned-and-rolled streaky wild farmed pitted unpitted stoned blanched unblanched roasted unroasted toasted hard-boiled`)

var joining = set(`and & or then but into in with to about very until not if plus`)

// qualityPrefixes are cut off a name's front before it is matched.
func isDescriptor(w string) bool {
	return preparing[w] || noise[w] || strings.HasSuffix(w, "ly") && w != "jelly" && w != "barley" && w != "belly" && w != "parsley"
}
