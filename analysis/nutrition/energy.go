package nutrition

import (
	"sync"

	"parewell/recipes/food"
)

// EnergyBasis says by which factors energy is counted. One comparison uses one
// basis on both sides (DESIGN section 5).
type EnergyBasis string

// The bases of energy.
const (
	// TableEnergy is the figure each food's own table gives, counted by the
	// factors of that food.
	TableEnergy EnergyBasis = "table"
	// GeneralEnergy counts protein 4, fat 9, carbohydrate 4 (total by
	// difference, fibre inside) and alcohol 7 kcal/g (21 CFR 101.9(c)(1)(i)(B);
	// alcohol by common practice); kJ is 4.184 times that.
	GeneralEnergy EnergyBasis = "general"
	// EUEnergy counts by Regulation (EU) 1169/2011 Annex XIV, kcal and kJ each
	// with their own factors, and takes the fibre out of carbohydrate.
	EUEnergy EnergyBasis = "eu"
)

// factors are kcal or kJ for one gram.
type factors struct{ protein, fat, carbohydrate, fibre, alcohol float64 }

// Sources: 21 CFR 101.9(c)(1)(i)(B) for the general ones; Regulation (EU)
// 1169/2011 Annex XIV for the others. Polyols, salatrims, organic acids and
// erythritol have factors there, but no table we read tells them apart from
// carbohydrate, so they count as carbohydrate.
var (
	generalKcal = factors{protein: 4, fat: 9, carbohydrate: 4, alcohol: 7}
	euKcal      = factors{protein: 4, fat: 9, carbohydrate: 4, fibre: 2, alcohol: 7}
	euKJ        = factors{protein: 17, fat: 37, carbohydrate: 17, fibre: 8, alcohol: 29}
)

// InBasis returns the profile counted in a basis; p is not changed. A part
// that is not known makes the energy unknown, and unknown fibre makes the EU's
// carbohydrate unknown, never zero. Any basis it does not know gives p as it is.
func InBasis(p *food.Profile, basis EnergyBasis) food.Profile {
	out := *p
	switch basis {
	case GeneralEnergy:
		kcal, ok := energy(p, generalKcal)
		set(&out, food.EnergyKcal, kcal, ok)
		set(&out, food.EnergyKJ, kcal*food.KJPerKcal, ok)
	case EUEnergy:
		carbohydrate, ok := WithoutFibre(p)
		set(&out, food.Carbohydrate, carbohydrate, ok)
		kcal, ok := energy(&out, euKcal)
		set(&out, food.EnergyKcal, kcal, ok)
		kj, ok := energy(&out, euKJ)
		set(&out, food.EnergyKJ, kj, ok)
	}
	return out
}

// set records a value, or that it is not known.
func set(p *food.Profile, n food.Nutrient, v float64, known bool) {
	if known {
		p.Set(n, v)
	} else {
		p.Forget(n)
	}
}

// energy sums the parts times their factors; false when a part that counts is
// not known.
func energy(p *food.Profile, f factors) (float64, bool) {
	sum := 0.0
	for _, part := range []struct {
		nutrient food.Nutrient
		factor   float64
	}{
		{food.Protein, f.protein},
		{food.Fat, f.fat},
		{food.Carbohydrate, f.carbohydrate},
		{food.Fibre, f.fibre},
		{food.Alcohol, f.alcohol},
	} {
		v, ok := p.Get(part.nutrient)
		if !ok && part.factor != 0 {
			return 0, false
		}
		sum += v * part.factor
	}
	return sum, true
}

// WithoutFibre returns the grams of carbohydrate in the EU's sense, which
// leaves fibre out (Regulation (EU) 1169/2011 Annex I), from a row whose
// carbohydrate is total by difference. Never below zero; false when
// carbohydrate or fibre is not known, except that no carbohydrate holds no fibre.
func WithoutFibre(p *food.Profile) (float64, bool) {
	carbohydrate, ok := p.Get(food.Carbohydrate)
	if !ok {
		return 0, false
	}
	if carbohydrate == 0 {
		return 0, true
	}
	fibre, ok := p.Get(food.Fibre)
	return max(0, carbohydrate-fibre), ok
}

// SaltGrams returns the salt, in g, that stands for so much sodium in mg
// (Regulation (EU) 1169/2011 Annex I: salt is sodium times 2.5).
func SaltGrams(sodiumMG float64) float64 { return sodiumMG / 1000 * food.SaltPerSodium }

// Rebase returns foods counted in a basis, to reckon an account with. Each food
// is worked out once; the foods given are not changed. TableEnergy gives foods
// itself. The result may be used by several goroutines if foods may.
func Rebase(foods Foods, basis EnergyBasis) Foods {
	if basis == TableEnergy || basis == "" {
		return foods
	}
	var done sync.Map // *food.Food to *food.Food
	return func(ref food.Ref) *food.Food {
		f := foods(ref)
		if f == nil {
			return nil
		}
		if g, ok := done.Load(f); ok {
			return g.(*food.Food)
		}
		g := *f
		g.Per100 = InBasis(&f.Per100, basis)
		kept, _ := done.LoadOrStore(f, &g)
		return kept.(*food.Food)
	}
}
