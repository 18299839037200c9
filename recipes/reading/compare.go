package reading

import (
	"math"
	"sort"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Differences compares a lighter recipe read from text with the original and
// proposes a swap for each difference: the same food in another amount, a food
// for another, a line left out or added, a step rewritten, dropped or added.
// The swaps have no ID and their lines are unsettled. foods tells kin from
// strangers; it may be nil. A draft that says the same gives no swap.
func Differences(original *recipes.Recipe, draft *Draft, foods Foods) []recipes.Swap {
	c := &comparison{original: original, draft: draft, foods: foods}
	c.pairSame()
	c.pairKin()
	var out []recipes.Swap
	for i, l := range original.Lines {
		if s, ok := c.lineSwap(i, l); ok {
			out = append(out, s)
		}
	}
	for j, l := range draft.Lines {
		if c.taken[j] {
			continue
		}
		out = append(out, c.swap(words.Say("swap.add", shortName(l)), recipes.Op{Kind: recipes.OpAdd, Lines: []*recipes.Line{bare(l)}}))
	}
	return append(out, stepSwaps(original, draft.Steps)...)
}

// comparison pairs the original's lines with the draft's.
type comparison struct {
	original *recipes.Recipe
	draft    *Draft
	foods    Foods
	same     map[int]int   // original line -> the draft's line of the same food
	kin      map[int][]int // original line -> draft lines that took its place
	taken    map[int]bool  // draft lines that are spoken for
}

func (c *comparison) swap(name string, ops ...recipes.Op) recipes.Swap {
	return recipes.Swap{Recipe: c.original.ID, Name: name, Ops: ops}
}

// bare returns a copy of a draft's line without an ID and unsettled.
func bare(l *recipes.Line) *recipes.Line {
	n := *l
	n.ID, n.Settled = "", false
	return &n
}

// pair is a possible match with how good it is.
type pair struct {
	i, j  int
	score float64
}

// pairSame matches lines of the same food or name, best first.
func (c *comparison) pairSame() {
	c.same, c.kin, c.taken = map[int]int{}, map[int][]int{}, map[int]bool{}
	var pairs []pair
	for i, a := range c.original.Lines {
		for j, b := range c.draft.Lines {
			if s := sameness(a, b); s >= 0.6 {
				pairs = append(pairs, pair{i, j, s + closeness(a, b, i, j)})
			}
		}
	}
	sortPairs(pairs)
	for _, p := range pairs {
		if _, done := c.same[p.i]; !done && !c.taken[p.j] {
			c.same[p.i] = p.j
			c.taken[p.j] = true
		}
	}
}

func sortPairs(pairs []pair) {
	sort.SliceStable(pairs, func(a, b int) bool { return pairs[a].score > pairs[b].score })
}

// sameness is 1 for the same text, food or name, less for names that share
// words, 0 for different foods.
func sameness(a, b *recipes.Line) float64 {
	switch {
	case a.Text == b.Text:
		return 1.2
	case !a.Food.Zero() && a.Food == b.Food:
		return 1
	case Key(a.Name) == Key(b.Name) && a.Food.Zero() == b.Food.Zero():
		return 0.9
	case a.Food.Zero() || b.Food.Zero():
		return overlap(keyWords(a.Name), keyWords(b.Name))
	}
	return 0
}

// closeness breaks ties between lines of one food: the same section, amount
// and place.
func closeness(a, b *recipes.Line, i, j int) float64 {
	s := 0.0
	if fold(a.Section) == fold(b.Section) {
		s += 0.1
	}
	if a.Known() && b.Known() && a.Grams > 0 && b.Grams > 0 {
		s += 0.1 * math.Min(a.Grams, b.Grams) / math.Max(a.Grams, b.Grams)
	}
	return s - 0.001*math.Abs(float64(i-j))
}

// overlap is the share of words two lists have in common.
func overlap(a, b []string) float64 {
	if len(a) == 0 || len(b) == 0 {
		return 0
	}
	have := map[string]bool{}
	for _, w := range a {
		have[w] = true
	}
	common := 0
	all := len(have)
	for _, w := range b {
		if have[w] {
			common++
			delete(have, w)
		} else {
			all++
		}
	}
	return float64(common) / float64(all)
}

// pairKin gives each new line of the draft the original's line whose place it
// took: one that is gone or used less, of the same kind of food.
func (c *comparison) pairKin() {
	var pairs []pair
	for i, a := range c.original.Lines {
		j, kept := c.same[i]
		if kept && !usedLess(a, c.draft.Lines[j]) {
			continue
		}
		for j, b := range c.draft.Lines {
			if c.taken[j] {
				continue
			}
			s := c.kinship(a, b)
			if s <= 0 {
				continue
			}
			if !kept {
				s += 0.3
			}
			pairs = append(pairs, pair{i, j, s + closeness(a, b, i, j)})
		}
	}
	sortPairs(pairs)
	for _, p := range pairs {
		if !c.taken[p.j] {
			c.kin[p.i] = append(c.kin[p.i], p.j)
			c.taken[p.j] = true
		}
	}
}

// usedLess tells that less of the same food is left.
func usedLess(a, b *recipes.Line) bool {
	return a.Known() && b.Known() && b.Grams < a.Grams*0.995
}

// kinEnough is the kinship from which a new line counts as taking an old
// one's place.
const kinEnough = 0.3

// kinship tells how readily food b stands in for a: 0 not at all.
func (c *comparison) kinship(a, b *recipes.Line) float64 {
	s := 0.5 * overlap(keyWords(a.Name), keyWords(b.Name))
	if c.foods == nil || a.Food.Zero() || b.Food.Zero() {
		return s
	}
	x, y := c.foods.Get(a.Food), c.foods.Get(b.Food)
	if x == nil || y == nil {
		return s
	}
	if shared := sharedFamilies(x, y); shared > 0 {
		s += 0.4 + 0.1*float64(shared)
	}
	if x.Group == y.Group && isSalt(x) == isSalt(y) {
		s += 0.3
	}
	if s < kinEnough {
		return 0
	}
	return s
}

// families are kinds of food that stand in for each other in a dish, by words
// of the table's names and groups.
var families = []struct{ name, groups, words string }{
	{"fat", "fats and oils", "butter margarine spread shortening lard ghee oil applesauce prune avocado banana"},
	{"creamy", "", "cream yogurt milk creme buttermilk coconut half-and-half quark ricotta tofu evaporated soymilk cottage"},
	{"cheese", "", "cheddar mozzarella parmesan gruyere cheese feta edam gouda colby romano swiss brie provolone ricotta cottage halloumi neufchatel"},
	{"protein", "poultry|beef|pork|lamb, veal, game|fish and shellfish|sausages and deli|legumes and soy", "egg mushrooms"},
	{"starch", "grains, pasta, flour|bread and baked goods", "potato cauliflower squash zucchini crackers"},
	{"sweet", "", "sugar honey syrup molasses jam stevia sweetener sucralose dates agave applesauce banana"},
	{"salty", "", "salt soy fish bouillon broth stock miso tamari lemon vinegar"},
	{"egg", "eggs", "egg"},
	{"crumb", "", "crumbs bread oats crackers panko cornflakes"},
	{"thickener", "", "flour cornstarch arrowroot"},
	{"dressing", "", "mayonnaise dressing yogurt mustard"},
	{"stock", "soups and stocks", "broth stock bouillon wine"},
}

// sharedFamilies counts the kinds two foods have in common.
func sharedFamilies(x, y *food.Food) int {
	n := 0
	for _, f := range families {
		if inFamily(x, f.groups, f.words) && inFamily(y, f.groups, f.words) {
			n++
		}
	}
	return n
}

func inFamily(f *food.Food, groups, list string) bool {
	for _, g := range strings.Split(groups, "|") {
		if g != "" && f.Group == g {
			return true
		}
	}
	name := fold(f.Name)
	for _, w := range strings.Fields(list) {
		if hasWord(name, w) || hasWord(name, w+"s") {
			return true
		}
	}
	return false
}

// lineSwap says what became of one line of the original.
func (c *comparison) lineSwap(i int, l *recipes.Line) (recipes.Swap, bool) {
	j, kept := c.same[i]
	kin := c.kin[i]
	switch {
	case len(kin) > 0:
		return c.exchange(i, l, j, kept, kin), true
	case !kept:
		return c.swap(words.Say("swap.without", shortName(l)), recipes.Op{Kind: recipes.OpRemove, Line: l.ID}), true
	}
	return c.changed(l, c.draft.Lines[j])
}

// exchange proposes new lines for all of an old one, or for the share that is
// gone.
func (c *comparison) exchange(i int, l *recipes.Line, j int, kept bool, kin []int) recipes.Swap {
	op := recipes.Op{Kind: recipes.OpExchange, Line: l.ID, Share: 1}
	var names []string
	for _, k := range kin {
		n := bare(c.draft.Lines[k])
		n.Section = l.Section
		op.Lines = append(op.Lines, n)
		names = append(names, shortName(n))
	}
	name := words.Say("swap.for", words.Join(names), shortName(l))
	if kept {
		op.Share = 1 - c.draft.Lines[j].Grams/l.Grams
		if op.Share > 0.45 && op.Share < 0.55 {
			name = words.Say("swap.half", words.Join(names), shortName(l))
		} else {
			name = words.Say("swap.share", words.Join(names), words.Share(op.Share), shortName(l))
		}
	}
	return c.swap(name, op)
}

// changed proposes what turns a line into the draft's line of the same food.
func (c *comparison) changed(l, n *recipes.Line) (recipes.Swap, bool) {
	var ops []recipes.Op
	name := ""
	if l.Known() && n.Known() && l.Grams > 0 && math.Abs(n.Grams/l.Grams-1) > 0.005 {
		ops = append(ops, recipes.Op{Kind: recipes.OpMultiply, Line: l.ID, Factor: n.Grams / l.Grams})
		name = words.Say("swap.amount", shortName(l), words.Grams(l.Grams), words.Grams(n.Grams))
	}
	if (l.Food != n.Food || l.Known() != n.Known()) && !n.Food.Zero() && l.Text != n.Text {
		op := recipes.Op{Kind: recipes.OpExchange, Line: l.ID, Share: 1, Lines: []*recipes.Line{bare(n)}}
		return c.swap(words.Say("swap.for", shortName(n), shortName(l)), op), true
	}
	if l.PartEaten != n.PartEaten {
		ops = append(ops, recipes.Op{Kind: recipes.OpPartEaten, Line: l.ID, Part: n.PartEaten})
		if name == "" {
			name = words.Say("swap.eaten", shortName(l), words.Share(n.PartEaten))
		}
	}
	if n.Technique.Method != "" && l.Technique != n.Technique {
		ops = append(ops, recipes.Op{Kind: recipes.OpTechnique, Line: l.ID, Technique: n.Technique})
		if name == "" {
			name = words.Say("swap.cook", shortName(l), n.Technique.Method)
		}
	}
	return c.swap(name, ops...), len(ops) > 0
}

// shortName is an ingredient's name for a swap's name.
func shortName(l *recipes.Line) string {
	if l.Name != "" {
		return l.Name
	}
	return l.Text
}
