package recipes

import "math"

// Pan is a tin or dish by its inside measures in centimetres; a round one has
// Across only.
type Pan struct {
	Long, Wide float64 // of a square or oblong one
	Across     float64 // of a round one
	Deep       float64 // how deep it is filled; 0 when it does not matter
}

// Area returns the pan's base in square centimetres, 0 if its measures make none.
func (p Pan) Area() float64 {
	if p.Across > 0 {
		return math.Pi * p.Across * p.Across / 4
	}
	return p.Long * p.Wide
}

// Volume returns base times depth in millilitres; the base alone when no depth
// is given.
func (p Pan) Volume() float64 {
	if p.Deep > 0 {
		return p.Area() * p.Deep
	}
	return p.Area()
}

// PanFactor returns how much more (or less) fits when a recipe moves from one
// pan to another: by volume when both depths are given, else by base. It is 0
// when a pan has no base.
func PanFactor(from, to Pan) float64 {
	if (from.Deep > 0) != (to.Deep > 0) {
		from.Deep, to.Deep = 0, 0
	}
	if from.Volume() <= 0 || to.Volume() <= 0 {
		return 0
	}
	return to.Volume() / from.Volume()
}

// ScaleNote is why a scaled amount wants a second look.
type ScaleNote string

// Notes on scaled lines and dishes.
const (
	ScaleWhole     ScaleNote = "whole"     // an egg or a pack is not divided: the nearest whole is given
	ScaleSalt      ScaleNote = "salt"      // season by taste: salt does not scale straight in large batches
	ScaleLeavening ScaleNote = "leavening" // raising agents do not scale straight
	ScaleTime      ScaleNote = "time"      // times and evaporation change with the amount
	ScaleDepth     ScaleNote = "depth"     // a deeper filling bakes slower
)

// Scaled is a line in another amount.
type Scaled struct {
	Line   *Line
	Amount float64 // in the line's unit; 0 when the line has no amount
	Grams  float64 // false Known on the line leaves it without meaning
	Exact  float64 // the amount before it was made whole
	Notes  []ScaleNote
}

// Far is the factor from which what does not scale straight is told: half as
// much again, or a third less. Common practice, no source.
const (
	farUp   = 1.5
	farDown = 2.0 / 3
)

// ScaleLines returns every line times factor. What is bought and used whole
// (eggs, tins, packets, sheets) goes to the nearest half for eggs and to the
// nearest whole for packs, and says so; grams follow the amount that is given.
// sort tells what a line is for; nil means no line is special.
func ScaleLines(lines []*Line, factor float64, sort func(*Line) ScaleSort) []Scaled {
	out := make([]Scaled, len(lines))
	for i, l := range lines {
		s := Scaled{Line: l, Amount: l.Amount * factor, Exact: l.Amount * factor, Grams: l.Grams * factor}
		kind := PlainScale
		if sort != nil {
			kind = sort(l)
		}
		s.fit(kind)
		if factor >= farUp || factor <= farDown {
			switch kind {
			case SaltScale:
				s.Notes = append(s.Notes, ScaleSalt)
			case LeaveningScale:
				s.Notes = append(s.Notes, ScaleLeavening)
			}
		}
		out[i] = s
	}
	return out
}

// ScaleSort is what a line is, for scaling.
type ScaleSort int

// Sorts of line.
const (
	PlainScale ScaleSort = iota
	EggScale
	PackScale
	SaltScale
	LeaveningScale
)

// fit rounds what cannot be divided; nothing is rounded to none.
func (s *Scaled) fit(kind ScaleSort) {
	step := 0.0
	switch kind {
	case EggScale:
		step = 0.5
	case PackScale:
		step = 1
	}
	if step == 0 || s.Amount <= 0 {
		return
	}
	whole := math.Max(step, math.Round(s.Amount/step)*step)
	if math.Abs(whole-s.Amount) < 1e-9 {
		return
	}
	s.Grams *= whole / s.Amount
	s.Amount = whole
	s.Notes = append(s.Notes, ScaleWhole)
}

// DishNotes are what scaling a whole dish asks to look at: always time once the
// factor is far from one, and depth when the pan is filled deeper by a tenth.
func DishNotes(factor float64, from, to Pan) []ScaleNote {
	var out []ScaleNote
	if factor >= farUp || factor <= farDown {
		out = append(out, ScaleTime)
	}
	if from.Deep > 0 && to.Deep > from.Deep*1.1 {
		out = append(out, ScaleDepth)
	}
	return out
}
