package sheets

import (
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// chain says how the weight as written becomes the weight eaten and the weight
// on the plate, each step as arithmetic with what its factor rests on.
func (x *Bench) chain(i, at int) []Fact {
	d, la := &x.Accounts[i].Draft.Lines[at], &x.Accounts[i].Lines[at]
	l := d.Line
	out := []Fact{{words.Say("line.written"), x.lineGrams(i, at, l.Grams)}}
	if d.Scale != 1 {
		out = append(out, Fact{words.Say("line.scaled", x.ColumnName(i)), timesText(la, l.Grams, d.Scale, la.Grams)})
	}
	switch {
	case l.AsBought && la.Food != nil:
		out = append(out, Fact{words.Say("line.edible"), join(timesText(la, la.Grams, la.Food.EdiblePart(), la.Edible), words.Say("line.edible.row"))})
	default:
		out = append(out, Fact{words.Say("line.edible"), words.Say("line.edible.already")})
	}
	out = append(out, x.eatenFact(i, at)...)
	out = append(out, x.cookedFacts(i, at)...)
	if l.Status() != recipes.StatusMatched {
		out = append(out, Fact{words.Say("original.status"), DoubtText(l)})
	}
	return out
}

// lineGrams is a line's weight as written, or a question mark.
func (x *Bench) lineGrams(i, at int, grams float64) string {
	return gramsText(x.Accounts[i].Draft.Lines[at].Line, grams)
}

// timesText is one step of the arithmetic: "200 g × 90 % = 180 g".
func timesText(la *nutrition.LineAccount, from, share, to float64) string {
	if !la.Weighed {
		return words.Unknown
	}
	return words.Say("line.times", words.Grams(from), words.Share(share), words.Grams(to))
}

// eatenFact says what is eaten of it: a part, or shares of a marinade, brine or
// cooking water.
func (x *Bench) eatenFact(i, at int) []Fact {
	d, la := &x.Accounts[i].Draft.Lines[at], &x.Accounts[i].Lines[at]
	if u := d.Line.Uptake; u != nil {
		said := words.Unknown
		if la.Weighed {
			said = words.Say("line.uptake", words.Share(u.Water), words.Share(u.Salt), words.Share(u.Fat), words.Grams(la.Edible), words.Grams(la.Eaten))
		}
		return []Fact{{words.Say("line.eaten"), said}}
	}
	out := []Fact{{words.Say("line.eaten"), timesText(la, la.Edible, d.PartEaten, la.Edible*d.PartEaten)}}
	if d.Unused > 0 {
		out = append(out, Fact{words.Say("line.section-used"), timesText(la, la.Edible*d.PartEaten, d.Used(), la.Eaten)})
	}
	if la.Capped {
		out = append(out, Fact{words.Say("line.capped"), words.Say("line.capped.text", words.Grams(la.Eaten))})
	}
	if d.State != "" {
		out = append(out, Fact{words.Say("line.state"), words.Say("state." + string(d.State))})
	}
	return out
}

// techniqueOf is how a line is cooked: its own way, else the dish's.
func techniqueOf(d *recipes.DraftLine, dish recipes.Technique) recipes.Technique {
	if d.Technique.Method != "" {
		return d.Technique
	}
	return dish
}

// cookedFacts say how the line is cooked and what its weight then is; none when
// no way of cooking is stated.
func (x *Bench) cookedFacts(i, at int) []Fact {
	draft, la := x.Accounts[i].Draft, &x.Accounts[i].Lines[at]
	d := &draft.Lines[at]
	t := techniqueOf(d, draft.Dish)
	if t.Method == "" || la.Food == nil || d.Line.Kind == recipes.TakenOff {
		return nil
	}
	how := MethodText(t)
	if d.Technique.Method == "" {
		how = words.Say("cooked.as-dish", how)
	}
	out := []Fact{{words.Say("line.cooked"), how}}
	if y, ok := nutrition.YieldOf(d, draft.Dish, la.Food); ok && la.Weighed {
		said := timesText(la, la.Eaten, y.Yield, la.Eaten*y.Yield)
		if y.Low < y.High {
			said = join(said, words.Say("line.usually", words.Share(y.Low), words.Share(y.High)))
		}
		out = append(out, Fact{words.Say("line.cooked.weight"), join(said, yieldSource(y, la))})
	}
	return out
}

// yieldSource says what a yield rests on.
func yieldSource(y nutrition.YieldUse, la *nutrition.LineAccount) string {
	switch {
	case y.Pair != nil:
		return words.Say("yield.pair", y.Pair.Code, y.Pair.Cooked)
	case y.Low == y.High:
		return words.Say("yield.already")
	case y.Yield == la.Food.Swells:
		return words.Say("yield.swells")
	}
	return words.Say("yield.practice")
}

// keptFacts say what of the nutrients stays, with the source of each factor.
func (x *Bench) keptFacts(i, at int) []Fact {
	draft, la := x.Accounts[i].Draft, &x.Accounts[i].Lines[at]
	d := &draft.Lines[at]
	if la.Food == nil || d.Line.Kind == recipes.TakenOff {
		return nil
	}
	var out []Fact
	for _, k := range nutrition.FactorsOf(d, draft.Dish, la.Food) {
		key := "line.kept.share"
		if k.Assumed {
			key = "line.kept.assumed"
		}
		out = append(out, Fact{Capital(words.Say("nutrient." + k.Nutrient.Key())), words.Say(key, words.Share(k.Kept), words.Say(k.Source))})
	}
	rest, said := "line.kept.all", "line.kept.rest.text"
	if len(out) > 0 {
		rest = "line.kept.rest"
	}
	if nutrition.PouredAway(d, draft.Dish, la.Food) {
		said = "line.kept.drained"
	}
	return append(out, Fact{words.Say(rest), words.Say(said)})
}

// Off is something taken off an ingredient.
type Off struct {
	ID   recipes.ID
	Text string // "45 g beef fat"
	Note string // why not all of it counts, empty when it does
}

// offOf lists what column i takes off a line of the original.
func (x *Bench) offOf(i int, line recipes.ID) []Off {
	var out []Off
	a := x.Accounts[i]
	for k := range a.Lines {
		d, la := &a.Draft.Lines[k], &a.Lines[k]
		if line == "" || d.Line.Kind != recipes.TakenOff || d.Line.OffOf != line || d.Gone() {
			continue
		}
		o := Off{ID: d.Line.ID, Text: x.lineGrams(i, k, d.Line.Grams*d.Scale) + " " + LineName(d.Line)}
		if la.Capped {
			o.Note = words.Say("line.capped.text", words.Grams(la.Eaten))
		}
		out = append(out, o)
	}
	return out
}

// IsOff tells whether a row's key stands for something taken off an ingredient.
func (x *Bench) IsOff(key string) bool {
	l := x.Recipe.Line(recipes.ID(key))
	return l != nil && l.Kind == recipes.TakenOff
}

// LineText is a line in its own words; what is taken off says so.
func LineText(l *recipes.Line) string {
	if l.Kind == recipes.TakenOff {
		return words.Say("line.off", l.Text)
	}
	return l.Text
}

// CanTakeOff tells whether something can be taken off a line: of the original's
// own ingredients with a food.
func CanTakeOff(r *recipes.Recipe, l *recipes.Line) bool {
	return r.Line(l.ID) != nil && l.Kind != recipes.TakenOff && l.Sub == nil
}

// PouredFat names the starter food that the fat poured off an ingredient is
// nearest to; f may be nil. Common practice, no source.
func PouredFat(f *food.Food) string {
	name, group := "", ""
	if f != nil {
		name, group = strings.ToLower(f.Name), f.Group
	}
	switch {
	case group == "poultry" && strings.Contains(name, "duck"):
		return "duck fat"
	case group == "poultry" && strings.Contains(name, "goose"):
		return "goose fat"
	case group == "poultry":
		return "chicken fat"
	case group == "pork", group == "sausages and deli":
		return "lard"
	}
	return "beef tallow"
}

// lastOff is the line after which a new one taken off a line goes.
func lastOff(r *recipes.Recipe, line recipes.ID) recipes.ID {
	last := line
	for _, l := range r.Lines {
		if l.OffOf == line {
			last = l.ID
		}
	}
	return last
}

// OffLine is a new line taken off another, to go after the line it returns.
func OffLine(r *recipes.Recipe, of *recipes.Line, id recipes.ID, name string, grams float64) (*recipes.Line, recipes.ID) {
	return &recipes.Line{
		ID: id, Kind: recipes.TakenOff, OffOf: of.ID, Section: of.Section, Name: name, PartEaten: 1,
		Text: words.Grams(grams) + " " + name, Amount: grams, Unit: "g", Grams: grams, GramsFrom: recipes.GramsTyped,
	}, lastOff(r, of.ID)
}

// Choice is a default share that can be taken into the fields of a line, in
// words.
type Choice struct {
	Key, Name, Note string
	Part            float64         // of a part eaten
	Uptake          *recipes.Uptake // of a bath
	Usable          bool
}

// Choices lists the default shares that can stand for a line, each with its
// range and source.
func (x *Bench) Choices(i int, l *recipes.Line) []Choice {
	a := x.Accounts[i]
	at := x.indexOf(i, l.ID)
	if at < 0 {
		return nil
	}
	var out []Choice
	for _, d := range nutrition.DefaultsFor(a.Lines[at].Food) {
		c := Choice{Key: d.Key, Name: words.Say("default." + d.Key), Usable: true}
		low, high := d.Low, d.High
		share := d.Share
		if d.Kind == nutrition.OfBath {
			u := d.Uptake
			c.Uptake = &u
			share, low, high = u.Salt, d.Least.Salt, d.Most.Salt
		} else {
			c.Part, c.Usable = d.PartOf(a.Lines[at].Edible, a.FriedGrams())
		}
		key := "default.range"
		if d.Kind == nutrition.OfFried {
			key = "default.range.fried"
		}
		c.Note = join(words.Say(key, words.Share(share), words.Share(low), words.Share(high)), words.Say("default."+d.Key+".source"))
		if !c.Usable {
			c.Note = join(words.Say("default.nothing-fried"), c.Note)
		}
		out = append(out, c)
	}
	return out
}
