package book

import (
	"testing"
)

// TestFiguresAreChosen: some of a page's figures, in their own order.
func TestFiguresAreChosen(t *testing.T) {
	all := []Figure{{Name: "a"}, {Name: "b"}, {Name: "c"}}
	for _, row := range []struct {
		name, want string
		only       []int
	}{
		{"none said", "a b c", nil}, {"one", "b", []int{1}}, {"turned round", "a c", []int{2, 0}}, {"one too many", "c", []int{2, 3}}, {"none of them", "", []int{7}},
	} {
		got := ""
		for _, f := range (FigureOptions{Only: row.only}).Chosen(all) {
			got += " " + f.Name
		}
		if want := row.want; want != "" && got != " "+want || want == "" && got != "" {
			t.Errorf("%s: %q, want %q", row.name, got, want)
		}
	}
}
