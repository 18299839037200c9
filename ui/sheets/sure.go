package sheets

import (
	"math"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Settings of a workbook that the sheets read.
const (
	BasisSetting = nutrition.BasisSetting
	MoneySetting = "money" // what the cook's prices are in: "€", "GBP"
)

// Keys of further rows that stand for no nutrient.
const (
	CostKey = "cost" // what a serving costs by the cook's own prices
	SureKey = "sure" // whether a change is larger than what grams may be off
)

// addBand puts how far a number may be off beside it: because of how its grams
// were come by, not because one onion differs from the next.
func (x *Bench) addBand(c *Cell, i int, n food.Nutrient) {
	if c.Text == words.Unknown {
		return
	}
	as := x.as(n)
	c.Text = words.Say("sure.band", c.Text, words.Number(x.Accounts[i].Band(n)*as.times, as.decimals))
}

// sureRow says for each version whether its change in energy is larger than its
// band.
func (x *Bench) sureRow() Row {
	r := Row{Key: SureKey, Label: Cell{Text: words.Say("sure.row"), Muted: true, Wrap: true, Bar: noBar(), Tip: words.Say("sure.row.tip")}}
	for i := range x.Accounts {
		c := Cell{Muted: true, Wrap: true, Bar: noBar()}
		if i > 0 {
			ch, band := x.Change(i, food.EnergyKcal), nutrition.ChangeBand(x.Original(), x.Accounts[i], food.EnergyKcal)
			c.Text = words.Say("sure.change", words.Number(band, 0))
			if ch.Bound != nutrition.NotSure && math.Abs(ch.Amount) < band {
				c.Text, c.Mark, c.Muted = words.Say("sure.small", words.Number(band, 0)), Look, false
			}
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// costRow is what a serving costs, once the cook has given any price of a food
// in the recipe; what has no price makes it "at least".
func (x *Bench) costRow(b Basis) []Row {
	if b == Per100g || !x.anyPrice() {
		return nil
	}
	r := Row{Key: CostKey, Label: Cell{Text: words.Say("cost.row." + basisKey[b]), Sub: x.book.Setting(MoneySetting), Bar: noBar()}}
	base, whole := 0.0, false
	for i, a := range x.Accounts {
		c := a.Cost(x.book.Price)
		money := c.Money
		if b == PerServing {
			money /= a.Draft.Servings
		}
		cell := Cell{Text: words.Number(money, 2), Number: true, Bar: noBar()}
		if c.AtLeast {
			cell.Text = words.Say("amount.at-least", cell.Text)
			cell.Tip = words.Say("cost.open", lineNames(a.Draft, c.Open))
		}
		if i == 0 {
			base, whole = money, !c.AtLeast
		} else if whole && !c.AtLeast && b == PerServing {
			cell.Sub = words.Signed(money-base, 2)
		}
		r.Cells = append(r.Cells, cell)
	}
	return []Row{r}
}

// anyPrice tells whether some food of the recipe's versions has a price.
func (x *Bench) anyPrice() bool {
	for _, a := range x.Accounts {
		for i := range a.Lines {
			if f := a.Lines[i].Food; f != nil && x.book.Price(f.Ref) != nil {
				return true
			}
		}
	}
	return false
}

// energyLabel names the factors energy is counted by, when they are not each
// table's own.
func (x *Bench) energyLabel(n food.Nutrient) string {
	label := x.as(n).label()
	if b := x.Kitchen.Basis; (n == food.EnergyKcal || n == food.EnergyKJ) && b != "" && b != nutrition.TableEnergy {
		return words.Say("settings.energy-by", label, words.Say("settings.basis."+string(b)))
	}
	return label
}

// Bases lists the energy bases with their words, the tables' own first.
func Bases() []Fact {
	var out []Fact
	for _, b := range []nutrition.EnergyBasis{nutrition.TableEnergy, nutrition.GeneralEnergy, nutrition.EUEnergy} {
		out = append(out, Fact{string(b), words.Say("settings.basis." + string(b) + ".long")})
	}
	return out
}

// PriceFields are what the cook pays for a food, for the two fields of a price;
// empty when she has not said.
func PriceFields(b *recipes.Book, ref food.Ref) (money, grams string) {
	p := b.Price(ref)
	if p == nil {
		return "", ""
	}
	return words.Field(p.Money, 2), words.Field(p.Grams, 1) + " g"
}
