package demo

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// A plan is what a cook wrote about one recipe: its brief, its swaps and its
// versions, in lines of "word: text". Blocks start at the margin, what belongs
// to one is indented, and new ingredients are indented twice:
//
//	brief at most: energy_kcal 500
//	cooked 30: baked                        how the dish is cooked, minutes
//	called mixed-cup: main dish             what it is where words about it are judged
//	food beef stock: beef stock, homemade   the food the cook chose for a line
//	swap yogurt: strained yogurt for half the double cream
//	  like: cream-strained-yogurt-half      texts of that catalogue entry
//	  exchange 0.5: double cream            the one line whose text has these words
//	    150 g strained yogurt
//	  step 4: the step as it reads with the swap
//	idea salt15: salt-less-15 for fine salt the catalogue's own swap for that line
//	version A: yogurt
//	  on: yogurt, salt15
//	test A: 2026-03-04                      one cooking of A; "original" for the original
//	  full: 3310                            grams; see testWords for the rest
//	  step 6: the cook's own text where two swaps rewrite one step
type plan struct {
	brief  recipes.Brief
	cooked recipes.Technique
	says   recipes.Says
	print  string // letter of the version in the book
	blocks []block
}

// block is one swap, idea, version or choice of a food.
type block struct {
	at              int
	kind, key, text string
	items           []item
}

// item is one line inside a block, with the ingredients under it.
type item struct {
	at              int
	word, arg, text string // "exchange", "0.5", "double cream"
	lines           []string
}

// planReader walks the lines of a plan.
type planReader struct {
	name string
	plan plan
}

// readPlan reads a plan; name stands in messages.
func readPlan(name, text string) (*plan, error) {
	p := &planReader{name: name}
	for i, s := range strings.Split(text, "\n") {
		trimmed := strings.TrimSpace(s)
		if trimmed == "" || strings.HasPrefix(trimmed, "#") {
			continue
		}
		if err := p.line(i+1, len(s)-len(strings.TrimLeft(s, " ")), trimmed); err != nil {
			return nil, problem.At(place(name, i+1), err)
		}
	}
	return &p.plan, nil
}

func place(name string, at int) string { return name + ", " + words.Say("demo.line", at) }

// fault is a mistake in a plan.
func fault(format string, args ...any) error {
	return problem.New("", fmt.Sprintf(format, args...), words.Say("demo.damaged"))
}

func (p *planReader) line(at, indent int, s string) error {
	last := len(p.plan.blocks) - 1
	if indent >= 4 {
		if last < 0 || len(p.plan.blocks[last].items) == 0 {
			return fault("an ingredient stands under nothing")
		}
		items := p.plan.blocks[last].items
		items[len(items)-1].lines = append(items[len(items)-1].lines, s)
		return nil
	}
	head, text, ok := strings.Cut(s, ":")
	if !ok {
		return fault("there is no colon in %q", s)
	}
	word, arg, _ := strings.Cut(strings.TrimSpace(head), " ")
	text = strings.TrimSpace(text)
	switch {
	case indent > 0 && last < 0:
		return fault("%q stands under nothing", s)
	case indent > 0:
		if w, ok := twoWords[strings.TrimSpace(head)]; ok {
			word, arg = w, ""
		}
		p.plan.blocks[last].items = append(p.plan.blocks[last].items, item{at: at, word: word, arg: arg, text: text})
	case word == "brief":
		return p.plan.readBrief(arg, text)
	case word == "print":
		p.plan.print = text
	case word == "called":
		p.plan.says = recipes.Says{Dish: arg, Kind: text}
	case word == "cooked":
		minutes, err := number(arg)
		p.plan.cooked = recipes.Technique{Method: text, Minutes: minutes}
		return err
	case slices.Contains(blockWords, word):
		p.plan.blocks = append(p.plan.blocks, block{at: at, kind: word, key: arg, text: text})
	default:
		return fault("%q is no word of a plan", word)
	}
	return nil
}

// blockWords open a block.
var blockWords = []string{"swap", "idea", "version", "food", "test", "meal", "day", "pack", "taster", "tasting"}

// twoWords are the item words that hold a space.
var twoWords = map[string]string{"leave out": "leave out", "works in": "works in", "fails when": "fails when"}

// readBrief takes one line of the brief.
func (p *plan) readBrief(what, text string) error {
	switch what {
	case "keep":
		p.brief.Keep = text
	case "cut":
		p.brief.Cut = text
	case "limit":
		v, err := number(text)
		p.brief.Limit = v
		return err
	case "at most", "at least":
		key, figure, _ := strings.Cut(text, " ")
		n, ok := food.ByKey(key)
		if !ok {
			return fault("no nutrient is called %q", key)
		}
		v, err := number(figure)
		p.brief.Targets = append(p.brief.Targets, recipes.Target{Nutrient: n, AtLeast: what == "at least", Amount: v})
		return err
	default:
		return fault("%q is no part of a brief", what)
	}
	return nil
}

// number reads a figure above 0.
func number(s string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || !(v > 0) {
		return 0, fault("%q is no number above 0", s)
	}
	return v, nil
}
