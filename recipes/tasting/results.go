package tasting

import (
	"cmp"
	"maps"
	"slices"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Row is one score of a closed tasting, with what it was of.
type Row struct {
	Panelist  recipes.ID
	Taster    string // her code
	Sample    recipes.ID
	Name      string // "Original", the version's letter, or the benchmark dish
	Version   recipes.ID
	Benchmark bool
	Pot       string // samples out of one pot share it
	Attribute string
	Score     float64
	Position  int // from 1, 0 unknown
	Late      bool
}

// Rows returns the scores of samples that count, by taster, position and
// question. It refuses a blind tasting that is not closed: no score meets a
// version before.
func Rows(b *recipes.Book, id recipes.ID) ([]Row, error) {
	t, err := opened(b, id)
	if err != nil {
		return nil, err
	}
	var out []Row
	for k, list := range servingsOf(b, t) {
		s := b.Sample(id, k.sample)
		p := b.Panelist(k.panelist)
		if s == nil || p == nil {
			continue
		}
		scores, first := merged(list)
		late := slices.ContainsFunc(list, func(s *recipes.Serving) bool { return s.Late })
		for _, name := range slices.Sorted(maps.Keys(scores)) {
			out = append(out, Row{
				Panelist: p.ID, Taster: p.Code, Sample: s.ID, Name: NameOf(b, t, s), Version: s.Version, Benchmark: s.Dish != "",
				Pot: PotOf(s), Attribute: name, Score: scores[name], Position: first.Position, Late: late,
			})
		}
	}
	slices.SortFunc(out, cmpRows)
	return out, nil
}

func opened(b *recipes.Book, id recipes.ID) (*recipes.Tasting, error) {
	t, err := find(b, id)
	if err != nil {
		return nil, err
	}
	if Blind(t) && t.State != recipes.TastingClosed {
		return nil, refuse(t.Date, "error.tasting-blind")
	}
	return t, nil
}

// merged joins what several sources say of one cup; they agree by now.
func merged(list []*recipes.Serving) (map[string]float64, *recipes.Serving) {
	scores := map[string]float64{}
	for _, s := range list {
		maps.Copy(scores, s.Scores)
	}
	return scores, list[0]
}

// NameOf names a sample by what it was: for after closing, plan and run sheet.
func NameOf(b *recipes.Book, t *recipes.Tasting, s *recipes.Sample) string {
	if s.Dish != "" {
		return s.Dish
	}
	if v := b.Version(t.Recipe, s.Version); v != nil {
		return v.Letter
	}
	return words.Say("the-original")
}

// PotOf names the pot a sample came out of: its test when there is one, else the
// tasting's cooking of that version.
func PotOf(s *recipes.Sample) string {
	if s.Batch != "" {
		return string(s.Batch)
	}
	return string(s.Tasting) + "/" + string(s.Version) + s.Dish + "/" + words.Trim(float64(max(1, s.Pot)), 0)
}

// Choice is one taster's answer to a test of trays, or to the last question.
type Choice struct {
	Panelist recipes.ID
	Taster   string
	Code     int
	Sample   recipes.ID // picked; empty: none (no preference, could not tell)
	Right    bool       // the answer sought; in a preference and "which has more", the first planned sample
}

// Choices returns what was answered under a key (AskChoice, AskPair, AskUsual) of
// a closed tasting, by taster.
func Choices(b *recipes.Book, id recipes.ID, key string) ([]Choice, error) {
	t, err := opened(b, id)
	if err != nil {
		return nil, err
	}
	var out []Choice
	byKey := servingsOf(b, t)
	for i := range t.Seats {
		seat := &t.Seats[i]
		list := byKey[cupKey{seat.Panelist, ""}]
		p := b.Panelist(seat.Panelist)
		if len(list) == 0 || p == nil {
			continue
		}
		scores, _ := merged(list)
		v, ok := scores[key]
		if !ok {
			continue
		}
		c := Choice{Panelist: p.ID, Taster: p.Code, Code: int(v), Sample: sampleOf(*seat, int(v))}
		c.Right = right(b, t, seat, key, c.Sample)
		out = append(out, c)
	}
	return out, nil
}

// right tells whether the picked sample is the one sought.
func right(b *recipes.Book, t *recipes.Tasting, seat *recipes.Seat, key string, picked recipes.ID) bool {
	if picked == "" {
		return false
	}
	s := b.Sample(t.ID, picked)
	switch {
	case key == recipes.AskUsual:
		return s != nil && Original(s)
	case key == recipes.AskPair:
		return len(seat.Cups) > 0 && seat.Cups[0].Sample == picked
	case t.Test == "triangle":
		n := 0
		for _, c := range seat.Cups {
			if c.Sample == picked {
				n++
			}
		}
		return n == 1
	case t.Test == "duo-trio":
		return seat.Reference == picked
	}
	return s != nil && s.Place == 1
}

func cmpRows(x, y Row) int {
	return cmp.Or(cmp.Compare(x.Taster, y.Taster), cmp.Compare(x.Panelist, y.Panelist), cmp.Compare(x.Position, y.Position),
		cmp.Compare(x.Sample, y.Sample), cmp.Compare(x.Attribute, y.Attribute))
}
