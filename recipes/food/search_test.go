package food_test

import (
	"slices"
	"testing"

	"parewell/recipes/food"
)

// searchRows: what a cook types (the last word may be unfinished) and the food
// that must come first. Common practice, no source.
var searchRows = []struct{ query, code string }{
	{"butter", "01001"},
	{"onion", "11282"},
	{"beef fat", "04001"},
	{"beef dripping", "04001"},
	{"pork fat", "04002"},
	{"smoked trout", "15077"},
	{"flour", "20081"},
	{"egg", "01123"},
	{"eggs", "01123"},
	{"milk", "01077"},
	{"chicken breast", "05062"},
	{"cream", "01053"},
	{"rice", "20044"},
	{"sugar", "19335"},
	{"salt", "02047"},
	{"potato", "11352"},
	{"potatoes", "11352"},
	{"tomato", "11529"},
	{"garlic", "11215"},
	{"lemon", "09150"},
	{"pasta", "20120"},
	{"bread", "18069"},
	{"cheddar", "01009"},
	{"honey", "19296"},
	{"olive oil", "04053"},
	{"oil olive", "04053"},
	{"yogurt", "01116"},
	{"yoghurt", "01116"},
	// the state in the query steers
	{"cooked rice", "20045"},
	{"rice cooked", "20045"},
	{"raw spinach", "11457"},
	{"cooked spinach", "11458"},
	{"frozen spinach", "11463"},
	{"dried thyme", "02042"},
	{"fresh thyme", "02049"},
	{"tinned tomatoes", "11531"},
	{"canned tomatoes", "11531"},
	{"boiled carrots", "11125"},
	{"cooked lentils", "16070"},
	{"frozen peas", "11312"},
	{"canned tuna", "15121"},
	{"smoked haddock", "15035"},
	{"cooked prawns", "15271"},
	// unfinished
	{"oni", "11282"},
	{"courg", "11477"},
	{"zucch", "11477"},
	{"ched", "01009"},
	{"chicken br", "05062"},
	{"butter uns", "01145"},
	{"all purp", "20081"},
	{"hadd", "15033"},
	{"self ra", "20082"},
	{"dark choc", "19904"},
	// British and American
	{"aubergine", "11209"},
	{"eggplant", "11209"},
	{"rocket", "11959"},
	{"swede", "11435"},
	{"prawns", "15270"},
	{"spring onion", "11291"},
	{"bicarb", "18372"},
	{"plain flour", "20081"},
	{"icing sugar", "19336"},
	{"double cream", "01053"},
	{"coriander", "11165"},
	{"soya sauce", "16123"},
	{"beef mince", "23572"},
	// marks on letters
	{"crème fraîche", "01056"},
	{"Gruyère", "01023"},
	{"jalapeño", "11979"},
	// slips: one letter in four to seven, two from eight; a swap is one
	{"buter", "01001"},
	{"oniom", "11282"},
	{"oinon", "11282"},
	{"mlik", "01077"},
	{"chedar", "01009"},
	{"brocoli", "11090"},
	{"tumeric", "02043"},
	{"hadock", "15033"},
	{"parmasan", "01033"},
	{"worchestershire", "06971"},
	{"zuchini", "11477"},
	{"cinamon", "02010"},
	{"chiken breast", "05062"},
	{"chicken braest", "05062"},
	{"spinich", "11457"},
	{"mozarella", "01026"},
	{"tomatoe", "11529"},
	{"caulifower", "11135"},
	{"aubergene", "11209"},
	{"courgete", "11477"},
	{"yogurth", "01116"},
	{"corriander", "11165"},
	{"mayonaise", "04025"},
	{"paprkia", "02028"},
}

func TestSearch(t *testing.T) {
	table := food.NewTable(starter(t))
	for _, r := range searchRows {
		hits := table.Search(r.query, 5)
		if len(hits) == 0 {
			t.Errorf("%q: nothing found, want %s", r.query, r.code)
		} else if hits[0].Food.Code != r.code {
			t.Errorf("%q: first is %s %s, want %s", r.query, hits[0].Food.Code, hits[0].Food.Name, r.code)
		}
	}
}

func TestSearchBounds(t *testing.T) {
	table := food.NewTable(starter(t))
	for _, r := range []struct {
		query string
		limit int
	}{{"", 5}, {"  ,", 5}, {"butter", 0}, {"butter", -1}, {"qqqqqq", 5}, {"ab", 0}} {
		if hits := table.Search(r.query, r.limit); len(hits) != 0 {
			t.Errorf("%q, at most %d: %d found", r.query, r.limit, len(hits))
		}
	}
	if hits := table.Search("c", 7); len(hits) != 7 {
		t.Errorf("c, at most 7: %d found", len(hits))
	}
	if hits := food.NewTable(nil).Search("butter", 5); len(hits) != 0 {
		t.Errorf("an empty table found %d", len(hits))
	}
	if hits := table.Search("01001", 5); len(hits) != 1 || hits[0].Food.Name != "butter, salted" {
		t.Errorf("by number: %v", codes(hits))
	}
}

// TestSearchOrder: no food twice, scores fall, and the same query gives the
// same answer from several goroutines at once.
func TestSearchOrder(t *testing.T) {
	table := food.NewTable(starter(t))
	want := codes(table.Search("ch", 50))
	done := make(chan []string)
	for range 8 {
		go func() { done <- codes(table.Search("ch", 50)) }()
	}
	for range 8 {
		if got := <-done; !slices.Equal(got, want) {
			t.Error("two searches at once gave different answers")
		}
	}
	hits := table.Search("ch", 50)
	seen := map[string]bool{}
	for i, h := range hits {
		if seen[h.Food.Code] {
			t.Errorf("%s stands twice", h.Food.Name)
		}
		seen[h.Food.Code] = true
		if i > 0 && h.Score > hits[i-1].Score {
			t.Errorf("%s scores above the one before it", h.Food.Name)
		}
	}
}

// TestSearchWholeTable: the same search serves the full SR28 with its
// shortened names.
func TestSearchWholeTable(t *testing.T) {
	table := food.NewTable(sr28(t))
	for _, r := range []struct{ query, code string }{
		{"butter with salt", "01001"},
		{"spinach raw", "11457"},
		{"courgette", "11477"},
		{"haddock raw", "15033"},
		{"hadock raw", "15033"},
		{"salmon farmed raw", "15236"},
		{"leeks raw", "11246"},
		{"aubergine raw", "11209"},
		{"cheddar cheese", "01009"},
	} {
		hits := table.Search(r.query, 10)
		if !slices.Contains(codes(hits), r.code) {
			t.Errorf("%q: %s is not among the first ten: %v", r.query, r.code, codes(hits))
		}
	}
}

func TestTableGet(t *testing.T) {
	foods := starter(t)
	table := food.NewTable(foods)
	if table.Len() != len(foods) {
		t.Errorf("Len is %d, want %d", table.Len(), len(foods))
	}
	r := food.Ref{Source: "usda", Release: "sr28", Code: "01001"}
	if f := table.Get(r); f == nil || f.Name != "butter, salted" {
		t.Errorf("Get(%s) is %v", r, f)
	}
	for _, r := range []food.Ref{{}, {Source: "usda", Release: "sr26", Code: "01001"}, {Source: "usda", Release: "sr28", Code: "99999"}} {
		if f := table.Get(r); f != nil {
			t.Errorf("Get(%s) is %s, want nothing", r, f.Name)
		}
	}
}
