package food

import "math"

// Label is what stands on a packet. NaN is a figure that is not given: it stays
// unknown. Figures are for Per grams (100, or a serving's weight).
type Label struct {
	Per          float64 // grams the figures are for
	Kcal, KJ     float64 // either may be missing
	Protein, Fat float64 // g
	Saturated    float64
	Carbohydrate float64
	Sugars       float64
	AddedSugars  float64
	Fibre        float64
	Sodium       float64 // mg
	Salt         float64 // g; used when Sodium is missing
	Cholesterol  float64 // mg
	Alcohol      float64 // g
	TransFat     float64
	EU           bool // carbohydrate is without fibre (EU 1169/2011 Annex I)
}

// Profile turns a label into values per 100 g on the footing of the tables:
// carbohydrate total, fibre inside. A figure not given is unknown. EU
// carbohydrate with unknown fibre is unknown, because the tables' figure cannot
// be made from it. Sodium = salt / 2.5 (EU 1169/2011 Annex I), kJ = 4.184 kcal
// where only one is given. False when Per is not above zero.
func (l *Label) Profile() (Profile, bool) {
	var p Profile
	if !(l.Per > 0) || math.IsInf(l.Per, 0) {
		return p, false
	}
	put := func(n Nutrient, v float64) {
		if !math.IsNaN(v) && !math.IsInf(v, 0) && v >= 0 {
			p.Set(n, v*100/l.Per)
		}
	}
	kcal, kj := l.Kcal, l.KJ
	if math.IsNaN(kcal) {
		kcal = kj / KJPerKcal
	}
	if math.IsNaN(kj) {
		kj = kcal * KJPerKcal
	}
	sodium := l.Sodium
	if math.IsNaN(sodium) {
		sodium = l.Salt * 1000 / SaltPerSodium
	}
	carb := l.Carbohydrate
	if l.EU {
		carb += l.Fibre
	}
	for _, x := range []struct {
		n Nutrient
		v float64
	}{
		{EnergyKcal, kcal},
		{EnergyKJ, kj},
		{Protein, l.Protein},
		{Fat, l.Fat},
		{SaturatedFat, l.Saturated},
		{Carbohydrate, carb},
		{Sugars, l.Sugars},
		{AddedSugars, l.AddedSugars},
		{Fibre, l.Fibre},
		{Sodium, sodium},
		{Cholesterol, l.Cholesterol},
		{Alcohol, l.Alcohol},
		{TransFat, l.TransFat},
	} {
		put(x.n, x.v)
	}
	return p, true
}

// Fault is a code for what does not fit together in a food's figures. It is
// shown, never blocked: labels do carry such figures.
type Fault string

// Faults Check finds.
const (
	FaultParts     Fault = "parts"       // protein, fat, carbohydrate, water and alcohol exceed 100 g
	FaultInside    Fault = "inside"      // sugars or fibre exceed carbohydrate, saturated or trans fat exceed fat, added sugars exceed sugars
	FaultEnergy    Fault = "energy"      // energy does not fit its parts by the general factors
	FaultKJ        Fault = "kj"          // kcal and kJ do not belong together
	FaultSodium    Fault = "sodium"      // more sodium than pure salt holds
	FaultSaltParts Fault = "sodium-salt" // sodium and salt on the label do not belong together
)

// Tolerances of Check: label figures are rounded, and published energy uses
// each food's own factors.
const (
	partsSlack  = 1.0  // g in 100 g
	energyShare = 0.20 // of the energy that the parts give
	energySlack = 20.0 // kcal in 100 g
	saltSodium  = 39340.0
)

// Check finds what does not fit in values per 100 g; unknown figures raise no
// fault. General factors 4, 9, 4, 7 kcal (21 CFR 101.9(c)(1)(i)(B)), fibre at 2
// (EU 1169/2011 Annex XIV) at the lower end.
func Check(p *Profile) []Fault {
	var out []Fault
	get := func(n Nutrient) float64 { v, _ := p.Get(n); return v }
	if get(Protein)+get(Fat)+get(Carbohydrate)+get(Water)+get(Alcohol) > 100+partsSlack {
		out = append(out, FaultParts)
	}
	over := func(part, whole Nutrient) bool {
		a, okA := p.Get(part)
		b, okB := p.Get(whole)
		return okA && okB && a > b+0.05*b+0.1
	}
	if over(Sugars, Carbohydrate) || over(Fibre, Carbohydrate) || over(SaturatedFat, Fat) || over(TransFat, Fat) || over(AddedSugars, Sugars) {
		out = append(out, FaultInside)
	}
	if p.faultyEnergy() {
		out = append(out, FaultEnergy)
	}
	kcal, okC := p.Get(EnergyKcal)
	kj, okJ := p.Get(EnergyKJ)
	if okC && okJ && math.Abs(kj-kcal*KJPerKcal) > 0.05*kj+5 {
		out = append(out, FaultKJ)
	}
	if v, ok := p.Get(Sodium); ok && v > saltSodium {
		out = append(out, FaultSodium)
	}
	return out
}

func (p *Profile) faultyEnergy() bool {
	kcal, ok := p.Get(EnergyKcal)
	protein, okP := p.Get(Protein)
	fat, okF := p.Get(Fat)
	carb, okC := p.Get(Carbohydrate)
	if !ok || !okP || !okF || !okC {
		return false
	}
	alcohol, _ := p.Get(Alcohol)
	fibre, _ := p.Get(Fibre)
	high := 4*protein + 9*fat + 4*carb + 7*alcohol
	low := high - 2*fibre
	return kcal > high*(1+energyShare)+energySlack || kcal < low*(1-energyShare)-energySlack
}

// CheckSalt tells whether a label's own sodium and salt belong together, within
// rounding; true when one of them is missing.
func (l *Label) CheckSalt() bool {
	if math.IsNaN(l.Sodium) || math.IsNaN(l.Salt) {
		return true
	}
	return math.Abs(l.Salt-l.Sodium*SaltPerSodium/1000) <= 0.05*l.Salt+0.06
}
