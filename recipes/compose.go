package recipes

import (
	"sort"

	"parewell/recipes/food"
)

// Draft is a version worked out: what goes in, line by line, and the method.
// Lines of the original come first in their order (a removed one stays, with
// Gone set, so that columns align), each followed by the lines exchanged for
// it; added lines close their section.
type Draft struct {
	Recipe   *Recipe
	Version  *Version // nil for the original
	Servings float64
	Dish     Technique
	Lines    []DraftLine
	Steps    []DraftStep
}

// DraftLine is one line of a draft with the swaps' work done. Line is the
// original's own or the swap's; Scale multiplies its amount and grams.
type DraftLine struct {
	Line      *Line
	From      ID      // the original's line it stems from; empty for an added line
	Swap      ID      // the swap that brought it; empty for a line of the original
	Scale     float64 // 1 untouched, 0 gone
	Section   string  // heading it belongs under
	Unused    float64 // share of its section that is not used, 0 for most
	PartEaten float64
	Technique Technique
	State     food.State
	Touched   bool // some ticked swap changes it, or brought it
}

// Grams returns the line's grams as written times its scale; false if unknown.
// A line that is gone weighs zero even if its grams were never known.
func (d *DraftLine) Grams() (float64, bool) {
	if d.Scale == 0 {
		return 0, true
	}
	if !d.Line.Known() {
		return 0, false
	}
	return d.Line.Grams * d.Scale, true
}

// Used is the share of the line's section that goes into the dish, 0-1.
func (d *DraftLine) Used() float64 { return 1 - d.Unused }

// Gone tells whether nothing of the line is left.
func (d *DraftLine) Gone() bool { return d.Scale == 0 }

// DraftStep is one step of a draft. Texts holds more than one entry where
// ticked swaps rewrite the same step and the cook has not joined them.
type DraftStep struct {
	ID      ID // the original's step, or the swap's own for an added one
	Texts   []string
	Swaps   []ID // who rewrote, added or dropped it
	Dropped bool
}

// Compose works out the recipe with the given swaps on; the order of swaps
// never matters: amounts multiply, exchanges take their shares of what is
// left. v may be nil for the original. Swaps that are not of the recipe or
// address nothing in it have no effect. Nothing is mutated.
//
// A line's scale is the product of its multiplies (0 when removed) times one
// minus the sum of its exchanged shares; a line exchanged for it scales with
// the product alone, because its amounts are written for the original's.
func Compose(r *Recipe, v *Version, on []*Swap) *Draft {
	d := &Draft{Recipe: r, Version: v, Servings: r.Servings, Dish: r.Dish}
	if v != nil && v.Servings > 0 {
		d.Servings = v.Servings
	}
	if len(on) == 0 {
		d.Lines = make([]DraftLine, 0, len(r.Lines))
		for _, l := range r.Lines {
			d.Lines = append(d.Lines, plainLine(l))
		}
		d.Steps = plainSteps(r)
		useSections(r, d.Lines)
		return d
	}
	on = inOrder(on)
	for _, s := range on {
		for i := range s.Ops {
			if s.Ops[i].Kind == OpDish {
				d.Dish = s.Ops[i].Technique
			}
		}
	}
	d.Lines = composeLines(r, on)
	useSections(r, d.Lines)
	d.Steps = composeSteps(r, v, on)
	return d
}

// inOrder sorts swaps by place and ID, so that a draft reads the same however
// the swaps were ticked.
func inOrder(on []*Swap) []*Swap {
	sorted := true
	for i := 1; i < len(on) && sorted; i++ {
		sorted = !swapBefore(on[i], on[i-1])
	}
	if sorted {
		return on
	}
	out := append([]*Swap(nil), on...)
	sort.Slice(out, func(i, j int) bool { return swapBefore(out[i], out[j]) })
	return out
}

func swapBefore(a, b *Swap) bool {
	if a.Order != b.Order {
		return a.Order < b.Order
	}
	return a.ID < b.ID
}

// useSections says of each line which section it belongs to and what of that is
// used: a line brought for one of the original's stands where that one stood, and
// what is taken off an ingredient goes with it.
func useSections(r *Recipe, lines []DraftLine) {
	for i := range lines {
		d := &lines[i]
		home := d.Line
		for _, id := range []ID{d.From, d.Line.OffOf} {
			if l := r.Line(id); id != "" && l != nil {
				home = l
			}
		}
		d.Section = home.Section
		if len(r.Sections) > 0 {
			d.Unused = 1 - r.Section(d.Section).ShareUsed
		}
	}
}

func plainLine(l *Line) DraftLine {
	return DraftLine{
		Line: l, From: l.ID, Scale: 1, PartEaten: l.PartEaten,
		Technique: l.Technique, State: l.State,
	}
}

// composeLines walks the original's lines once, gathering what ticked swaps do
// to each.
func composeLines(r *Recipe, on []*Swap) []DraftLine {
	out := make([]DraftLine, 0, len(r.Lines)+len(on))
	for _, l := range r.Lines {
		out = append(out, plainLine(l))
		at := len(out) - 1
		product, left := 1.0, 1.0
		for _, s := range on {
			for i := range s.Ops {
				o := &s.Ops[i]
				if o.Line != l.ID {
					continue
				}
				out[at].Touched = true
				switch o.Kind {
				case OpMultiply:
					product *= o.Factor
				case OpRemove:
					product = 0
				case OpExchange:
					left -= o.Share
					for _, n := range o.Lines {
						out = append(out, broughtLine(n, l.ID, s.ID))
					}
				case OpPartEaten:
					out[at].PartEaten = o.Part
				case OpTechnique:
					out[at].Technique = o.Technique
				case OpState:
					out[at].State = o.State
				}
			}
		}
		if left < shareSlack {
			left = 0
		}
		out[at].Scale = product * left
		for i := at + 1; i < len(out); i++ {
			out[i].Scale = product
		}
	}
	return append(out, addedLines(on)...)
}

// shareSlack forgives rounding where shares of thirds add up to one.
const shareSlack = 1e-9

func addedLines(on []*Swap) []DraftLine {
	var out []DraftLine
	for _, s := range on {
		for i := range s.Ops {
			if s.Ops[i].Kind != OpAdd {
				continue
			}
			for _, n := range s.Ops[i].Lines {
				out = append(out, broughtLine(n, "", s.ID))
			}
		}
	}
	return out
}

func broughtLine(n *Line, from, swap ID) DraftLine {
	d := plainLine(n)
	d.From, d.Swap, d.Touched = from, swap, true
	return d
}

func plainSteps(r *Recipe) []DraftStep {
	out := make([]DraftStep, len(r.Steps))
	for i, s := range r.Steps {
		out[i] = DraftStep{ID: s.ID, Texts: []string{s.Text}}
	}
	return out
}

// composeSteps rewrites, drops and adds steps. Where two ticked swaps rewrite
// one step both texts stay, unless the cook has joined them in the version.
func composeSteps(r *Recipe, v *Version, on []*Swap) []DraftStep {
	out := make([]DraftStep, 0, len(r.Steps))
	for _, s := range r.Steps {
		d := DraftStep{ID: s.ID}
		for _, sw := range on {
			for i := range sw.Ops {
				o := &sw.Ops[i]
				if o.Step != s.ID {
					continue
				}
				switch o.Kind {
				case OpStepReplace:
					d.Texts = append(d.Texts, o.Text)
					d.Swaps = append(d.Swaps, sw.ID)
				case OpStepDrop:
					d.Dropped = true
					d.Swaps = append(d.Swaps, sw.ID)
				}
			}
		}
		if len(d.Texts) == 0 {
			d.Texts = []string{s.Text}
		} else if v != nil && v.Joined[s.ID] != "" {
			d.Texts = []string{v.Joined[s.ID]}
		}
		if len(d.Texts) > 0 && len(d.Swaps) > 0 && !onlyDrops(d, s.Text) {
			d.Dropped = false // a rewritten step stays, whoever else drops it
		}
		out = stepsAfter(append(out, d), s.ID, on)
	}
	return stepsAfter(out, "", on)
}

func onlyDrops(d DraftStep, original string) bool {
	return len(d.Texts) == 1 && d.Texts[0] == original
}

// stepsAfter appends the steps that ticked swaps add after step; "" stands for
// the end of the method.
func stepsAfter(out []DraftStep, step ID, on []*Swap) []DraftStep {
	for _, s := range on {
		for i := range s.Ops {
			o := &s.Ops[i]
			if o.Kind == OpStepAdd && o.Step == step {
				out = append(out, DraftStep{
					ID: addedLineID(s.ID, i, 0), Texts: []string{o.Text}, Swaps: []ID{s.ID},
				})
			}
		}
	}
	return out
}
